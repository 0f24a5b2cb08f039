"""Rooms of any straight-walled outline, by their corners: x1, y1, x2, y2 … in order round the room."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise
from typing import TypeAlias

import numpy as np

from estimating.errors import InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.units import Number

Point: TypeAlias = tuple[float, float]


def _turn(one: Point, two: Point, three: Point) -> float:
    return (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])


def _between(start: Point, end: Point, point: Point) -> bool:
    return all(min(a, b) <= c <= max(a, b) for a, b, c in zip(start, end, point, strict=True))


def _meet(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Say whether two straight walls have a point in common."""
    turns = [_turn(*one, point) for point in other] + [_turn(*other, point) for point in one]
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    touches = zip(turns, (one, one, other, other), (*other, *one), strict=True)
    return any(turn == 0 and _between(*wall, point) for turn, wall, point in touches)


def bounds_a_room(corners: Sequence[Point]) -> None:
    """Raise InputError unless corners (x, y), named in order round the room, bound one area.

    Walls that cross, touch or fold back are refused; so is a corner named twice in a row.
    """
    if len(corners) < 3:
        raise InputError("corners", list(corners), "at least 3 corners")
    outline = [(float(x), float(y)) for x, y in corners]
    outline.append(outline[0])
    if any(one == other for one, other in pairwise(outline)):
        raise InputError("corners", list(corners), "no corner twice in a row; the last joins the first by itself")
    walls = list(pairwise(outline))
    for (place, one), (later, other) in combinations(enumerate(walls), 2):
        beside = later - place in (1, len(walls) - 1)
        if not beside and _meet(one, other):
            raise InputError("corners", [one, other], "walls that do not cross or touch; name the corners in order")
    folded = [
        two
        for one, two, three in zip([walls[-1][0], *outline], outline, outline[1:], strict=False)
        if _turn(one, two, three) == 0 and not _between(one, three, two)
    ]
    if folded:
        raise InputError("corners", folded[0], "a wall that does not turn back along itself")


def _corners(offsets: dict[str, Number]) -> list[tuple[Number, Number]]:
    values = list(offsets.values())
    if len(values) < 6 or len(values) % 2:
        raise InputError("corners", len(values) // 2, "three corners or more, each with an x and a y")
    return list(zip(values[::2], values[1::2], strict=True))


@rule("A = ½ |Σ (x₁ y₂ − x₂ y₁)|", "ft**2", definition("shoelace formula"), rest="ft")
def outline_area(**offsets: Number) -> Number:
    """Return the area inside the corners (ft²), given as x1, y1, x2, y2 … in ft.

    Taken from the first corner, so that a far origin costs no digits.

    >>> float(outline_area(x1=0.0, y1=0.0, x2=12.0, y2=0.0, x3=12.0, y3=10.0))
    60.0
    """
    corners = _corners(offsets)
    (left, low), *_ = corners
    near = [(x - left, y - low) for x, y in corners]
    twice: Number = sum((x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(near, near[1:] + near[:1], strict=True)), 0.0)
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
