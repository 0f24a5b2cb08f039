"""Rooms of any straight-walled outline, by their corners: x1, y1, x2, y2 … in order round the room."""

from __future__ import annotations

import numpy as np

from estimating.errors import InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.units import Number


def _corners(offsets: dict[str, Number]) -> list[tuple[Number, Number]]:
    values = list(offsets.values())
    if len(values) < 6 or len(values) % 2:
        raise InputError("corners", len(values) // 2, "three corners or more, each with an x and a y")
    return list(zip(values[::2], values[1::2], strict=True))


@rule("A = ½ |Σ (x₁ y₂ − x₂ y₁)|", "ft**2", definition("shoelace formula"), rest="ft")
def outline_area(**offsets: Number) -> Number:
    """Return the area inside the corners (ft²), given as x1, y1, x2, y2 … in ft."""
    corners = _corners(offsets)
    twice: Number = sum(
        (x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True)), 0.0
    )
    return np.abs(twice) / 2


@rule("P = Σ √((x₂−x₁)² + (y₂−y₁)²)", "ft", definition("sum of the sides"), rest="ft")
def outline_perimeter(**offsets: Number) -> Number:
    """Return the way round the corners (ft), given as x1, y1, x2, y2 … in ft."""
    corners = _corners(offsets)
    sides = zip(corners, corners[1:] + corners[:1], strict=True)
    return sum((np.hypot(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in sides), 0.0)


@rule(
    "reading × how true it is",
    "ft",
    definition("a reading times a factor near 1"),
    reading="ft",
    tape_accuracy="dimensionless",
)
def corrected_reading(*, reading: Number, tape_accuracy: Number) -> Number:
    """Return a tape reading (ft) with the estimator's confidence in it: trueness is 1, give or take."""
    return reading * tape_accuracy


@rule("half = ½ length", "ft", definition("halving"), length="ft")
def half(*, length: Number) -> Number:
    """Return half a length (ft), such as the run of one slope of a vault that is ridged in the middle."""
    return length / 2
