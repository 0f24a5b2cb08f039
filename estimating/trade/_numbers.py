"""Plain numbers and arrays of draws alike: a choice, a refusal, and how many whole things hold an amount."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.units import Number

TOLERANCE = 1e-9  # a whole number may come out of division a hair too large; it must not cost another roll


def require(holds: bool | np.bool_ | npt.NDArray[np.bool_], field: str, value: Number, needed: str) -> None:
    """Raise InputError unless a relation holds for every number; the first that breaks it is shown.

    For what hangs on two arguments; the bound of one stands on the rule's card. Not-a-number is refused as well.
    """
    if holds is True or (np.all(holds) if isinstance(holds, np.ndarray) else holds):
        return
    broken = np.broadcast_to(np.asarray(value, dtype=float), np.shape(holds))[~np.asarray(holds)]
    raise InputError(field, float(np.ravel(broken)[0]), needed)


def round_up(amount: Number, each: Number) -> Number:
    """Return how many whole things of size `each` hold `amount`: none for nothing, short by no more than a crumb."""
    require(amount >= 0, "amount", amount, "0 or more")
    require(each > 0, "each", each, "more than 0")
    things = amount / each * (1 - TOLERANCE)
    return float(math.ceil(things)) if isinstance(things, float) and things < math.inf else np.ceil(things)


def pick(holds: bool | np.bool_ | npt.NDArray[np.bool_], one: Number, other: Number) -> Number:
    """Return one number where a condition holds and the other where not."""
    if isinstance(holds, bool | np.bool_):
        return one if holds else other
    return np.where(holds, one, other)


def least(one: Number, other: Number) -> Number:
    """Return the smaller of two numbers, case by case."""
    return pick(one <= other, one, other)
