"""Siding: the edges that lapped boards, shingles and battens add to the flat wall, by their sizes in ft.

A rule of 1908 adds a foot or more to the height of a wall for its edges; here they are worked out.
"""

from __future__ import annotations

from estimating.origins import definition
from estimating.rules import rule
from estimating.units import Number

GEOMETRY = definition("plane geometry")


@rule(
    "factor = 1 + butt / exposure",
    "dimensionless",
    GEOMETRY,
    butt="ft, 0 or more",
    exposure="ft, more than 0",
)
def lapped_factor(*, butt: Number, exposure: Number) -> Number:
    """Return the skin of lapped boards or shingles over the flat wall: each course shows its face and its lower edge.

    >>> round(float(lapped_factor(butt=0.4, exposure=5.0)), 2)
    1.08
    """
    return 1 + butt / exposure


@rule(
    "factor = 1 + 2 · thickness / spacing",
    "dimensionless",
    GEOMETRY,
    thickness="ft, 0 or more",
    spacing="ft, more than 0",
)
def batten_factor(*, thickness: Number, spacing: Number) -> Number:
    """Return the skin of boards with battens over the flat wall: each batten shows two edges."""
    return 1 + 2 * thickness / spacing


@rule(
    "A = width · height + width · gable / 2",
    "ft**2",
    GEOMETRY,
    width="ft, 0 or more",
    height="ft, 0 or more",
    gable="ft, 0 or more",
)
def elevation_area(*, width: Number, height: Number, gable: Number) -> Number:
    """Return one side of a house: the wall to the eaves, and the triangle of a gable over it.

    gable: how far the peak stands above the eaves; 0 where the side has none.
    """
    return width * height + width * gable / 2
