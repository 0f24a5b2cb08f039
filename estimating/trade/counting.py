"""Whole things: rolls, strips, cans."""

from __future__ import annotations

import math

import numpy as np

from estimating.trade.guards import require
from estimating.units import Number

TOLERANCE = 1e-9  # a whole number may come out of division a hair too large; it must not cost another roll


def round_up(amount: Number, each: Number) -> Number:
    """Return how many whole things of size `each` hold `amount`: none for nothing, short by no more than a crumb."""
    require(amount >= 0, "amount", amount, "0 or more")
    require(each > 0, "each", each, "more than 0")
    things = amount / each * (1 - TOLERANCE)
    return float(math.ceil(things)) if isinstance(things, float) and things < math.inf else np.ceil(things)
