"""Take-off: plan areas, slopes, soffits, walls and openings, from what a tape reads on site.

Areas are in ft², lengths in ft. A room given by its corners is in `outline`.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, published
from estimating.rules import rule
from estimating.trade._numbers import require
from estimating.units import Number

GEOMETRY = definition("plane geometry")


@rule("A = length · width", "ft**2", GEOMETRY, length="ft, 0 or more", width="ft, 0 or more")
def rectangle_area(*, length: Number, width: Number) -> Number:
    """Return the area of a rectangle (ft²) from its sides (ft)."""
    return length * width


@rule("P = 2 (length + width)", "ft", GEOMETRY, length="ft, 0 or more", width="ft, 0 or more")
def rectangle_perimeter(*, length: Number, width: Number) -> Number:
    """Return the distance round a rectangle (ft)."""
    return 2 * (length + width)


@rule(
    "A = length · width − notch length · notch width",
    "ft**2",
    GEOMETRY,
    length="ft, 0 or more",
    width="ft, 0 or more",
    notch_length="ft, 0 or more",
    notch_width="ft, 0 or more",
)
def ell_area(*, length: Number, width: Number, notch_length: Number, notch_width: Number) -> Number:
    """Return the area of an L-shaped room (ft²): the rectangle round it less the missing corner.

    The distance round it is that of the rectangle, `rectangle_perimeter(length, width)`.
    """
    require(notch_length <= length, "notch_length", notch_length, "no more than the length")
    require(notch_width <= width, "notch_width", notch_width, "no more than the width")
    return rectangle_area(length=length, width=width) - notch_length * notch_width


@rule(
    "A = plan area · √(rise² + run²) / run",
    "ft**2",
    GEOMETRY,
    plan_area="ft**2, 0 or more",
    rise="ft, 0 or more",
    run="ft, more than 0",
)
def sloped_area(*, plan_area: Number, rise: Number, run: Number) -> Number:
    """Return the area along the slope (ft²) of a ceiling whose plan area and pitch are known.

    A vault with the same pitch on both sides takes its whole plan area at once.

    >>> float(sloped_area(plan_area=160.0, rise=3.0, run=4.0))
    200.0
    """
    return plan_area * np.hypot(rise, run) / run


@rule("A = width · rise / 2", "ft**2", GEOMETRY, width="ft, 0 or more", rise="ft, 0 or more")
def gable_area(*, width: Number, rise: Number) -> Number:
    """Return the triangle of wall (ft²) above the plate, under a ridge `rise` higher."""
    return rectangle_area(length=width, width=rise) / 2


@rule(
    "A = faces · length · drop + ends · depth · drop",
    "ft**2",
    GEOMETRY,
    length="ft, 0 or more",
    depth="ft, 0 or more",
    drop="ft, 0 or more",
    faces="dimensionless, 0 to 2 long sides that show",
    ends="dimensionless, 0 to 2 short sides that show",
)
def soffit_sides(*, length: Number, depth: Number, drop: Number, faces: Number, ends: Number) -> Number:
    """Return what a soffit or beam adds (ft²) to a ceiling measured straight through it.

    Its underside takes the place of the ceiling above it. faces: long sides that show, 1 against a wall, 2 for a beam.
    ends: short sides that show, 0 to 2.
    """
    return faces * rectangle_area(length=length, width=drop) + ends * rectangle_area(length=depth, width=drop)


@rule(
    "A = flat area · area factor",
    "ft**2",
    definition("the area factor is developed area over flat area"),
    flat_area="ft**2, 0 or more",
    area_factor="dimensionless, more than 0",
)
def developed_area(*, flat_area: Number, area_factor: Number) -> Number:
    """Return the skin a coat has to cover (ft²) where the surface is rough, profiled or panelled."""
    return flat_area * area_factor


@rule("A = perimeter · height", "ft**2", GEOMETRY, perimeter="ft, 0 or more", height="ft, 0 or more")
def wall_area(*, perimeter: Number, height: Number) -> Number:
    """Return the walls of a room of one height (ft²), openings included."""
    return perimeter * height


@rule(
    "none up to small; opening area · share up to large; opening area above",
    "ft**2",
    published(
        "is-1200-13; deductions-article",
        "cl. 3.2; openings exceeding 0.5 m² and not exceeding 3 m²",
        "Thresholds are 0.5 m² and 3 m² of each opening. Jambs and soffits are measured only above the larger.",
    ),
    opening_area="ft**2, 0 or more",
    small="ft**2, 0 or more",
    large="ft**2, 0 or more",
    share="dimensionless, a share from 0 to 1",
)
def opening_deduction(*, opening_area: Number, small: Number, large: Number, share: Number) -> Number:
    """Return what one opening takes off one face of a wall (ft²), by the measured-work rule.

    share: the part of a middling opening taken off this face. The standard takes it off one face only: where the
    finishes differ, 1 if this face has the narrower reveal, 0 if the other has, 0.5 if both are alike. Where both
    faces have one finish we read "one face" as half from each.
    """
    require(small <= large, "small", small, "no more than the larger threshold")
    middling = np.where(opening_area <= small, 0.0, opening_area * share)
    taken: Number = np.where(opening_area > large, opening_area, middling)[()]
    return taken


@rule(
    "A = width · height · count",
    "ft**2",
    GEOMETRY,
    width="ft, 0 or more",
    height="ft, 0 or more",
    count="dimensionless, 0 or more",
)
def full_deduction(*, width: Number, height: Number, count: Number) -> Number:
    """Return the whole area of a number of like openings (ft²)."""
    return rectangle_area(length=width, width=height) * count


@rule(
    "A = gross area − deductions",
    "ft**2",
    definition("subtraction"),
    gross_area="ft**2, 0 or more",
    deductions="ft**2, 0 or more",
)
def net_area(*, gross_area: Number, deductions: Number) -> Number:
    """Return what is left to paint (ft²); more openings than wall is refused."""
    require(deductions <= gross_area, "deductions", deductions, "no more than the area they are taken from")
    return gross_area - deductions


@rule(
    "A = (sills · width + 2 · height) · depth, one sill where the opening is a door, two where it is a window",
    "ft**2",
    GEOMETRY,
    width="ft, 0 or more",
    height="ft, 0 or more",
    depth="ft, 0 or more",
    sills="dimensionless, 0 to 2 level faces",
)
def reveal_area(*, width: Number, height: Number, depth: Number, sills: Number) -> Number:
    """Return jambs, soffit and sill of an opening (ft²). sills: level faces, 1 soffit only, 2 soffit and sill."""
    return rectangle_area(length=sills * width + 2 * height, width=depth)


@rule("A = length · girth", "ft**2", GEOMETRY, length="ft, 0 or more", girth="ft, 0 or more")
def girthed_area(*, length: Number, girth: Number) -> Number:
    """Return a molding, cornice or pipe laid flat (ft²): its length times the tape pressed round it."""
    return rectangle_area(length=length, width=girth)


@rule(
    "A = width · height · sides · coefficient",
    "ft**2",
    published(
        "is-1200-15; painting-coefficients-2018",
        "whole table",
        "Panelled 1.30, flush 1.20, louvered 1.80, for each side.",
    ),
    width="ft, 0 or more",
    height="ft, 0 or more",
    sides="dimensionless, 0 to 2 sides",
    coefficient="dimensionless, more than 0",
)
def counted_area(*, width: Number, height: Number, sides: Number, coefficient: Number) -> Number:
    """Return the even area (ft²) that a door or window counts for: flat size, sides painted, and its coefficient."""
    flat = sides * rectangle_area(length=width, width=height)
    return developed_area(flat_area=flat, area_factor=coefficient)
