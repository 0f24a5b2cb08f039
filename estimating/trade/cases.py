"""One case or many: the same choice for a plain number and for an array of draws, and quick where there is one."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from estimating.units import Number


def pick(holds: bool | np.bool_ | npt.NDArray[np.bool_], one: Number, other: Number) -> Number:
    """Return one number where a condition holds and the other where not."""
    if isinstance(holds, bool | np.bool_):
        return one if holds else other
    return np.where(holds, one, other)


def least(one: Number, other: Number) -> Number:
    """Return the smaller of two numbers, case by case."""
    return pick(one <= other, one, other)
