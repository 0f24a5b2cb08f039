"""Decks, fences and railings: the skin of boards with gaps between them, of uprights, lattice and stairs.

What shows is worked out from the sizes of the pieces, in ft; rules of measurement that pay for difficulty as well as
area stand in the reference table and are not used here.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition
from estimating.rules import rule
from estimating.units import Number

GEOMETRY = definition("plane geometry")
WHOLE = 1e-9  # a run that is a whole number of pieces but for the last digits


@rule(
    "factor = (width + 2 · edge) / (width + gap)",
    "dimensionless",
    GEOMETRY,
    width="ft, more than 0",
    gap="ft, 0 or more",
    edge="ft, 0 or more",
)
def gapped_boards_factor(*, width: Number, gap: Number, edge: Number) -> Number:
    """Return the skin of a floor of boards over its plan area.

    edge: how far down each edge of a board the finish reaches through the gap.
    """
    return (width + 2 * edge) / (width + gap)


@rule(
    "factor = (faces · width + 2 · thickness where there is a gap) / (width + gap)",
    "dimensionless",
    GEOMETRY,
    width="ft, more than 0",
    gap="ft, 0 or more",
    thickness="ft, 0 or more",
    faces="dimensionless, 0 to 2 faces",
)
def fence_boards_factor(*, width: Number, gap: Number, thickness: Number, faces: Number) -> Number:
    """Return the skin of upright boards over the length times height of a fence; without gaps no edge shows.

    >>> float(fence_boards_factor(width=0.5, gap=0.0, thickness=0.05, faces=2.0))
    2.0
    """
    edges = np.where(np.asarray(gap) > 0, 2.0, 0.0)[()]
    return (faces * width + edges * thickness) / (width + gap)


@rule(
    "n = length / (width + gap), a part of one counted as one",
    "dimensionless",
    GEOMETRY,
    length="ft, 0 or more",
    width="ft, more than 0",
    gap="ft, 0 or more",
)
def uprights(*, length: Number, width: Number, gap: Number) -> Number:
    """Return how many balusters or pickets stand along a run, so far apart and no further.

    >>> float(uprights(length=10.0, width=1.5 / 12, gap=4.0 / 12))
    22.0
    """
    counted: Number = np.ceil(length / (width + gap) - WHOLE)
    return counted


@rule(
    "n = length / spacing, a part of one counted as one",
    "dimensionless",
    GEOMETRY,
    length="ft, 0 or more",
    spacing="ft, more than 0",
)
def posts(*, length: Number, spacing: Number) -> Number:
    """Return how many posts a run stands on, one for each bay."""
    counted: Number = np.ceil(length / spacing - WHOLE)
    return counted


@rule(
    "A = count · 2 (width + thickness) · height",
    "ft**2",
    GEOMETRY,
    count="dimensionless, 0 or more",
    width="ft, 0 or more",
    thickness="ft, 0 or more",
    height="ft, 0 or more",
)
def upright_area(*, count: Number, width: Number, thickness: Number, height: Number) -> Number:
    """Return the four sides of so many balusters, pickets or posts."""
    return count * 2 * (width + thickness) * height


@rule(
    "factor = 4 (strip + thickness) / (strip + opening) − 2 strip² / (strip + opening)²",
    "dimensionless",
    GEOMETRY,
    strip="ft, more than 0",
    thickness="ft, 0 or more",
    opening="ft, 0 or more",
)
def lattice_factor(*, strip: Number, thickness: Number, opening: Number) -> Number:
    """Return the skin of lattice, all round, over its length times height: two layers of strips, less their crossings.

    Two layers of four sides each; at every crossing two faces lie on each other.
    """
    pitch = strip + opening
    return 4 * (strip + thickness) / pitch - 2 * strip**2 / pitch**2


@rule(
    "A = steps · width · (tread + riser)",
    "ft**2",
    GEOMETRY,
    steps="dimensionless, 0 or more",
    width="ft, 0 or more",
    tread="ft, 0 or more",
    riser="ft, 0 or more",
)
def steps_area(*, steps: Number, width: Number, tread: Number, riser: Number) -> Number:
    """Return the treads and risers of a stair; an open stair has risers of no height."""
    return steps * width * (tread + riser)
