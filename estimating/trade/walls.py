"""Walls as they are worked on: the high part, the part over a stair, the patched part, and the lines to cut in.

A factor counts only for the part it is about. Lengths are in ft.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment
from estimating.rules import SAME, rule
from estimating.trade._numbers import require
from estimating.units import Number


@rule(
    "Σ part of the height in each band · factor of the band, up to the first limit 1",
    "dimensionless",
    judgment("each band of height is worked at its own pace; the part a step reaches is not slowed by what is above"),
    height="ft, more than 0",
    first="ft",
    second="ft",
    third="ft",
    factor_first="dimensionless",
    factor_second="dimensionless",
    factor_third="dimensionless",
)
def banded_factor(
    *,
    height: Number,
    first: Number,
    second: Number,
    third: Number,
    factor_first: Number,
    factor_second: Number,
    factor_third: Number,
) -> Number:
    """Return the factor on the hours of a whole wall of which parts are high.

    factor_first: from the first limit to the second; factor_second: from there to the third; factor_third: above.
    """
    require((first <= second) & (second <= third), "second", second, "limits that rise")
    upper = np.minimum(height, third) - np.minimum(height, second)
    middle = np.minimum(height, second) - np.minimum(height, first)
    top = height - np.minimum(height, third)
    low = np.minimum(height, first)
    return (low + middle * factor_first + upper * factor_second + top * factor_third) / height


@rule("product", "dimensionless", definition("conditions that slow the same hours"), rest="dimensionless, more than 0")
def together(**factors: Number) -> Number:
    """Return what several factors come to on the same hours; 1 where there are none."""
    product: Number = 1.0
    for factor in factors.values():
        product = product * factor
    return product


@rule(
    "share = part / whole, at most all of it",
    "dimensionless",
    definition("a share"),
    part="same, 0 or more",
    whole="same, more than 0",
)
def share_of_whole(*, part: Number, whole: Number) -> Number:
    """Return what share of an area or a length a part of it is; spots larger than the wall are all of it."""
    return np.minimum(part / whole, 1.0)


@rule(
    "part = whole · share",
    "ft**2",
    definition("a share of a surface"),
    whole="ft**2, 0 or more",
    share="dimensionless, a share from 0 to 1",
)
def part_of_area(*, whole: Number, share: Number) -> Number:
    """Return the part of a surface (ft²) that a share of it is."""
    return whole * share


@rule(
    "rest = quantity · (1 − share)",
    "ft",
    definition("what a part leaves of a whole"),
    quantity="ft, 0 or more",
    share="dimensionless, a share from 0 to 1",
)
def rest_of_length(*, quantity: Number, share: Number) -> Number:
    """Return what is left of a length (ft) when a share of it belongs to something else."""
    return quantity * (1 - share)


@rule(
    "edge = count · (width + 2 · height)",
    "ft",
    definition("head and both jambs, without a sill"),
    width="ft, 0 or more",
    height="ft, 0 or more",
    count="dimensionless, 0 or more",
)
def door_edges(*, width: Number, height: Number, count: Number) -> Number:
    """Return the line round a number of like openings that stand on the floor (ft).

    >>> door_edges(width=3.0, height=7.0, count=2.0)
    34.0
    """
    return count * (width + 2 * height)


@rule(
    "run = whole − openings, never below 0",
    "ft",
    definition("trim along the floor stops at what stands on it"),
    whole="ft, 0 or more",
    openings="ft, 0 or more",
)
def run_between(*, whole: Number, openings: Number) -> Number:
    """Return the run along the floor (ft) that openings standing on it leave."""
    return np.maximum(whole - openings, 0.0)


@rule(
    "quantity = each · count",
    SAME,
    definition("so many of one size"),
    each="same, 0 or more",
    count="dimensionless, 0 or more",
)
def several(*, each: Number, count: Number) -> Number:
    """Return what a number of like things come to; give `each` first, whose unit it keeps."""
    return each * count


@rule("length = area / width", "ft", definition("a sheet laid flat"), area="ft**2, 0 or more", width="ft, more than 0")
def length_of_sheet(*, area: Number, width: Number) -> Number:
    """Return how much of a roll (ft) covers an area, offcuts used up elsewhere."""
    return area / width


@rule(
    "the larger of the patch measured and the whole",
    "ft**2",
    judgment("what has gone into the whole room is sealed all over, whatever patch was measured"),
    measured="ft**2, 0 or more",
    whole="ft**2, 0 or more",
)
def at_least(*, measured: Number, whole: Number) -> Number:
    """Return the area that is sealed where a stain is a matter of the whole room.

    >>> float(at_least(measured=100.0, whole=584.0))
    584.0
    """
    return np.maximum(measured, whole)[()]


@rule(
    "packs = area ÷ area a pack does, in whole packs",
    "dimensionless",
    definition("what is left of an opened pack is nobody's"),
    area="ft**2, 0 or more",
    each="ft**2, more than 0",
)
def packs_for_area(*, area: Number, each: Number) -> Number:
    """Return how many packs of something an area takes.

    >>> float(packs_for_area(area=340.0, each=115.0))
    3.0
    """
    return np.ceil(area / each - 1e-9)[()]


@rule(
    "sets = run / reach, a part of one counted as one, for each time it is gone over",
    "dimensionless",
    definition("division"),
    run="ft, 0 or more",
    reach="ft, more than 0",
    passes="dimensionless, 0 or more",
)
def ladder_sets(*, run: Number, reach: Number, passes: Number) -> Number:
    """Return how often ladders are set along a wall that is gone over so many times."""
    sets: Number = np.ceil(run / reach) * passes
    return sets
