"""Take-off: plan areas, slopes, soffits, walls and openings, from what a tape reads on site.

Areas are in ft², lengths in ft. A room's outline given by its corners is a sequence of (x, y), walked round once in
either direction; those functions are plain functions, because a figure carries one number and not a list of points.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise
from typing import TypeAlias

import numpy as np

from estimating.errors import InputError
from estimating.origins import definition, published
from estimating.rules import rule
from estimating.trade.guards import require
from estimating.units import Number

Point: TypeAlias = tuple[float, float]
GEOMETRY = definition("plane geometry")


@rule("A = length · width", "ft**2", GEOMETRY, length="ft", width="ft")
def rectangle_area(*, length: Number, width: Number) -> Number:
    """Return the area of a rectangle (ft²) from its sides (ft)."""
    require(length >= 0, "length", length, "0 ft or more")
    require(width >= 0, "width", width, "0 ft or more")
    return length * width


@rule("P = 2 (length + width)", "ft", GEOMETRY, length="ft", width="ft")
def rectangle_perimeter(*, length: Number, width: Number) -> Number:
    """Return the distance round a rectangle (ft)."""
    require(length >= 0, "length", length, "0 ft or more")
    require(width >= 0, "width", width, "0 ft or more")
    return 2 * (length + width)


@rule(
    "A = length · width − notch length · notch width",
    "ft**2",
    GEOMETRY,
    length="ft",
    width="ft",
    notch_length="ft",
    notch_width="ft",
)
def ell_area(*, length: Number, width: Number, notch_length: Number, notch_width: Number) -> Number:
    """Return the area of an L-shaped room (ft²): the rectangle round it less the missing corner.

    The distance round it is that of the rectangle, `rectangle_perimeter(length, width)`.
    """
    require((notch_length >= 0) & (notch_length <= length), "notch_length", notch_length, "0 ft to the length")
    require((notch_width >= 0) & (notch_width <= width), "notch_width", notch_width, "0 ft to the width")
    return rectangle_area(length=length, width=width) - notch_length * notch_width


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


def _outline(corners: Sequence[Point]) -> list[Point]:
    """Return the corners with the first one again at the end, having checked that they bound one area."""
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
    return outline


def polygon_area(corners: Sequence[Point]) -> float:
    """Return the area (ft²) inside corners (x, y) in ft, named in order round the room.

    Half the sum of x₁y₂ − x₂y₁ round the outline (the surveyor's formula), taken from the first corner so that a far
    origin costs no digits. Raises InputError when walls cross, touch or fold back.
    """
    outline = _outline(corners)
    from_first = [(x - outline[0][0], y - outline[0][1]) for x, y in outline]
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(from_first))) / 2


def polygon_perimeter(corners: Sequence[Point]) -> float:
    """Return the distance (ft) round corners (x, y) in ft; refuses what `polygon_area` refuses."""
    return float(sum(np.hypot(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in pairwise(_outline(corners))))


@rule("A = plan area · √(rise² + run²) / run", "ft**2", GEOMETRY, plan_area="ft**2", rise="ft", run="ft")
def sloped_area(*, plan_area: Number, rise: Number, run: Number) -> Number:
    """Return the area along the slope (ft²) of a ceiling whose plan area and pitch are known.

    A vault with the same pitch on both sides takes its whole plan area at once.
    """
    require(plan_area >= 0, "plan_area", plan_area, "0 ft² or more")
    require(rise >= 0, "rise", rise, "0 ft or more")
    require(run > 0, "run", run, "more than 0 ft")
    return plan_area * np.hypot(rise, run) / run


@rule(
    "A = length · (√(rise² + left²) + √(rise² + right²))",
    "ft**2",
    GEOMETRY,
    length="ft",
    rise="ft",
    left_run="ft",
    right_run="ft",
)
def vault_area(*, length: Number, rise: Number, left_run: Number, right_run: Number) -> Number:
    """Return both slopes of a vault (ft²) whose ridge stands `rise` above two walls of one height."""
    require(length >= 0, "length", length, "0 ft or more")
    require(rise >= 0, "rise", rise, "0 ft or more")
    require(left_run >= 0, "left_run", left_run, "0 ft or more")
    require(right_run >= 0, "right_run", right_run, "0 ft or more")
    return length * (np.hypot(rise, left_run) + np.hypot(rise, right_run))


@rule("A = width · rise / 2", "ft**2", GEOMETRY, width="ft", rise="ft")
def gable_area(*, width: Number, rise: Number) -> Number:
    """Return the triangle of wall (ft²) above the plate, under a ridge `rise` higher."""
    return rectangle_area(length=width, width=rise) / 2


@rule(
    "A = faces · length · drop + ends · depth · drop",
    "ft**2",
    GEOMETRY,
    length="ft",
    depth="ft",
    drop="ft",
    faces="dimensionless",
    ends="dimensionless",
)
def soffit_sides(*, length: Number, depth: Number, drop: Number, faces: Number, ends: Number) -> Number:
    """Return what a soffit or beam adds (ft²) to a ceiling measured straight through it.

    Its underside takes the place of the ceiling above it. faces: long sides that show, 1 against a wall, 2 for a beam.
    ends: short sides that show, 0 to 2.
    """
    require((faces >= 0) & (faces <= 2), "faces", faces, "0, 1 or 2 long sides that show")
    require((ends >= 0) & (ends <= 2), "ends", ends, "0, 1 or 2 short sides that show")
    return faces * rectangle_area(length=length, width=drop) + ends * rectangle_area(length=depth, width=drop)


@rule(
    "A = length · depth + faces · length · drop + ends · depth · drop",
    "ft**2",
    GEOMETRY,
    length="ft",
    depth="ft",
    drop="ft",
    faces="dimensionless",
    ends="dimensionless",
)
def soffit_area(*, length: Number, depth: Number, drop: Number, faces: Number, ends: Number) -> Number:
    """Return everything that shows of a soffit (ft²), underside and sides, for a ceiling measured up to it."""
    sides = soffit_sides(length=length, depth=depth, drop=drop, faces=faces, ends=ends)
    return rectangle_area(length=length, width=depth) + sides


@rule(
    "A = flat area · area factor",
    "ft**2",
    definition("the area factor is developed area over flat area"),
    flat_area="ft**2",
    area_factor="dimensionless",
)
def developed_area(*, flat_area: Number, area_factor: Number) -> Number:
    """Return the skin a coat has to cover (ft²) where the surface is rough, profiled or panelled."""
    require(flat_area >= 0, "flat_area", flat_area, "0 ft² or more")
    require(area_factor > 0, "area_factor", area_factor, "more than 0")
    return flat_area * area_factor


@rule("A = perimeter · height", "ft**2", GEOMETRY, perimeter="ft", height="ft")
def wall_area(*, perimeter: Number, height: Number) -> Number:
    """Return the walls of a room of one height (ft²), openings included."""
    require(perimeter >= 0, "perimeter", perimeter, "0 ft or more")
    require(height >= 0, "height", height, "0 ft or more")
    return perimeter * height


@rule(
    "none up to small; opening area · share up to large; opening area above",
    "ft**2",
    published(
        "is-1200-13; deductions-article",
        "cl. 3.2; openings exceeding 0.5 m² and not exceeding 3 m²",
        "Thresholds are 0.5 m² and 3 m² of each opening. Jambs and soffits are measured only above the larger.",
    ),
    opening_area="ft**2",
    small="ft**2",
    large="ft**2",
    share="dimensionless",
)
def opening_deduction(*, opening_area: Number, small: Number, large: Number, share: Number) -> Number:
    """Return what one opening takes off one face of a wall (ft²), by the measured-work rule.

    share: the part of a middling opening taken off this face. The standard takes it off one face only: where the
    finishes differ, 1 if this face has the narrower reveal, 0 if the other has, 0.5 if both are alike. Where both
    faces have one finish we read "one face" as half from each.
    """
    require(opening_area >= 0, "opening_area", opening_area, "0 ft² or more")
    require(small <= large, "small", small, "no more than the larger threshold")
    require((share >= 0) & (share <= 1), "share", share, "a share from 0 to 1")
    middling = np.where(opening_area <= small, 0.0, opening_area * share)
    taken: Number = np.where(opening_area > large, opening_area, middling)[()]
    return taken


@rule("A = width · height · count", "ft**2", GEOMETRY, width="ft", height="ft", count="dimensionless")
def full_deduction(*, width: Number, height: Number, count: Number) -> Number:
    """Return the whole area of a number of like openings (ft²)."""
    require(count >= 0, "count", count, "0 or more")
    return rectangle_area(length=width, width=height) * count


@rule("A = gross area − deductions", "ft**2", definition("subtraction"), gross_area="ft**2", deductions="ft**2")
def net_area(*, gross_area: Number, deductions: Number) -> Number:
    """Return what is left to paint (ft²); more openings than wall is refused."""
    require(deductions >= 0, "deductions", deductions, "0 ft² or more")
    require(deductions <= gross_area, "deductions", deductions, "no more than the area they are taken from")
    return gross_area - deductions


@rule(
    "A = (sills · width + 2 · height) · depth, one sill where the opening is a door, two where it is a window",
    "ft**2",
    GEOMETRY,
    width="ft",
    height="ft",
    depth="ft",
    sills="dimensionless",
)
def reveal_area(*, width: Number, height: Number, depth: Number, sills: Number) -> Number:
    """Return jambs, soffit and sill of an opening (ft²). sills: level faces, 1 soffit only, 2 soffit and sill."""
    require((sills >= 0) & (sills <= 2), "sills", sills, "0, 1 or 2 level faces")
    return rectangle_area(length=sills * width + 2 * height, width=depth)


@rule("A = length · girth", "ft**2", GEOMETRY, length="ft", girth="ft")
def girthed_area(*, length: Number, girth: Number) -> Number:
    """Return a molding, cornice or pipe laid flat (ft²): its length times the tape pressed round it."""
    return rectangle_area(length=length, width=girth)


@rule("G = π · diameter", "ft", GEOMETRY, diameter="ft")
def pipe_girth(*, diameter: Number) -> Number:
    """Return the tape's way round a pipe or a round post (ft)."""
    require(diameter >= 0, "diameter", diameter, "0 ft or more")
    return np.pi * diameter


@rule(
    "small up to small; large up to large; the girth itself above",
    "ft",
    published(
        "measuring-painters-work",
        "first rules of measurement",
        "6 in and 12 in; nineteenth-century American custom, that narrow work is not paid below its trouble.",
    ),
    girth="ft",
    small="ft",
    large="ft",
)
def counted_girth(*, girth: Number, small: Number, large: Number) -> Number:
    """Return the girth that narrow work counts for (ft): rounded up to the first or second step, exact above."""
    require(girth > 0, "girth", girth, "more than 0 ft")
    require(small <= large, "small", small, "no more than the larger step")
    counted: Number = np.where(girth < small, small, np.where(girth <= large, large, girth))[()]
    return counted


@rule(
    "A = width · height · sides · coefficient",
    "ft**2",
    published(
        "is-1200-15; painting-coefficients-2018",
        "whole table",
        "Panelled 1.30, flush 1.20, louvered 1.80, for each side.",
    ),
    width="ft",
    height="ft",
    sides="dimensionless",
    coefficient="dimensionless",
)
def counted_area(*, width: Number, height: Number, sides: Number, coefficient: Number) -> Number:
    """Return the even area (ft²) that a door or window counts for: flat size, sides painted, and its coefficient."""
    require((sides >= 0) & (sides <= 2), "sides", sides, "0, 1 or 2 sides")
    flat = sides * rectangle_area(length=width, width=height)
    return developed_area(flat_area=flat, area_factor=coefficient)
