"""Whole things: rolls, strips, cans."""

from __future__ import annotations

import math

import numpy as np

from estimating.trade.guards import need
from estimating.units import Number

CRUMB = 1e-9  # a whole number may come out of division a hair too large; it must not cost another roll


def whole(amount: Number, each: Number) -> Number:
    """Return how many whole things of size `each` hold `amount`: none for nothing, short by no more than a crumb."""
    need(amount >= 0, "amount", amount, "0 or more")
    need(each > 0, "each", each, "more than 0")
    things = amount / each * (1 - CRUMB)
    return float(math.ceil(things)) if isinstance(things, float) and things < math.inf else np.ceil(things)
