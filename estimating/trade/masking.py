"""Masking: a drape of film hung under a run of paper, taped without a gap, and paper over the floor.

The run of paper is set along every ceiling edge and its top sealed with tape. Film hangs from the paper down to the
floor. Everything here follows from lengths and from the widths of the stock; how long it takes is `labor`'s business.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment, published
from estimating.rules import SAME, rule
from estimating.trade._numbers import require, round_up
from estimating.units import Number

LAYOUT = definition("strips laid side by side, each over the last by the overlap")
WASTE = definition("waste is what is cut off, as a share of what is used")


@rule(
    "drop = height − paper width + overlap + tail",
    "ft",
    LAYOUT,
    height="ft, more than 0",
    paper_width="ft, 0 or more",
    overlap="ft, 0 or more, at most 0.5",
    tail="ft, 0 or more",
)
def drape_drop(*, height: Number, paper_width: Number, overlap: Number, tail: Number) -> Number:
    """Return how long the film must hang (ft): from behind the paper to the floor, and a tail lying on it.

    >>> round(drape_drop(height=8.0, paper_width=0.75, overlap=0.25, tail=0.5), 2)
    8.0
    """
    require(paper_width <= height, "paper_width", paper_width, "no more than the height of the wall")
    require(overlap <= paper_width, "overlap", overlap, "no more than the width of the paper")
    return height - paper_width + overlap + tail


def _side_by_side(across: Number, stock_width: Number, overlap: Number) -> Number:
    """Return how many strips cover `across`: n widths less n − 1 overlaps."""
    require(stock_width > overlap, "film_width", stock_width, "more than the overlap")
    strips = round_up(np.maximum(across - overlap, 0.0), stock_width - overlap)
    return np.where(across > 0, np.maximum(strips, 1.0), 0.0)[()]


@rule(
    "tiers = (drop − overlap) / (film width − overlap), rounded up",
    "dimensionless",
    LAYOUT,
    drop="ft, 0 or more",
    film_width="ft, more than 0",
    overlap="ft, 0 or more, at most 3",
)
def film_tiers(*, drop: Number, film_width: Number, overlap: Number) -> Number:
    """Return how many widths of film hang one below the other to cover the drop."""
    return _side_by_side(drop, film_width, overlap)


@rule(
    "strips = perimeter / (run − overlap), rounded up",
    "dimensionless",
    LAYOUT,
    perimeter="ft, 0 or more",
    run="ft, more than 0",
    overlap="ft, 0 or more, at most 3",
)
def film_strips(*, perimeter: Number, run: Number, overlap: Number) -> Number:
    """Return how many lengths of film go round the room, each over the next and the last over the first.

    run: the length hung in one piece (ft), which a wall, a doorway or the roll decides.
    """
    require(run > overlap, "run", run, "more than the overlap")
    return round_up(perimeter, run - overlap)


@rule(
    "length = (perimeter + strips · overlap) · tiers",
    "ft",
    LAYOUT,
    perimeter="ft, 0 or more",
    strips="dimensionless, 0 or more",
    overlap="ft, 0 or more, at most 3",
    tiers="dimensionless, 0 or more",
)
def film_length(*, perimeter: Number, strips: Number, overlap: Number, tiers: Number) -> Number:
    """Return the film to unroll (ft) round the room, overlaps and tiers included."""
    return (perimeter + strips * overlap) * tiers


@rule("A = perimeter · drop", "ft**2", LAYOUT, perimeter="ft, 0 or more", drop="ft, 0 or more")
def film_area(*, perimeter: Number, drop: Number) -> Number:
    """Return the wall draped (ft²), which is what the hours to hang it go by."""
    return perimeter * drop


@rule(
    "seams = strips · drop + (tiers − 1) · perimeter",
    "ft",
    LAYOUT,
    strips="dimensionless, 0 or more",
    drop="ft, 0 or more",
    tiers="dimensionless, 1 or more",
    perimeter="ft, 0 or more",
)
def film_seams(*, strips: Number, drop: Number, tiers: Number, perimeter: Number) -> Number:
    """Return the seams to tape (ft): one upright at each strip, one level between tiers. Mist finds an open seam."""
    return strips * drop + (tiers - 1) * perimeter


@rule(
    "tape = edge · (1 + waste)",
    "ft",
    WASTE,
    edge="ft, 0 or more",
    waste="dimensionless, 0 or more, as a share of the edge",
)
def tape_length(*, edge: Number, waste: Number) -> Number:
    """Return the tape, or the run of paper, for an edge (ft), with what corners and cuts waste."""
    return edge * (1 + waste)


@rule(
    "length = floor area / (stock width − overlap)",
    "ft",
    LAYOUT,
    floor_area="ft**2, 0 or more",
    stock_width="ft, more than 0",
    overlap="ft, 0 or more",
)
def floor_paper_by_area(*, floor_area: Number, stock_width: Number, overlap: Number) -> Number:
    """Return about how much floor paper (ft) an odd-shaped floor takes, offcuts used up elsewhere."""
    require(stock_width > overlap, "stock_width", stock_width, "more than the overlap")
    return floor_area / (stock_width - overlap)


@rule(
    "A = count · (width + 2 margin) · (height + 2 margin)",
    "ft**2",
    definition("a sheet larger than the opening by the margin on every side"),
    width="ft, 0 or more",
    height="ft, 0 or more",
    margin="ft, 0 or more",
    count="dimensionless, 0 or more",
)
def opening_film_area(*, width: Number, height: Number, margin: Number, count: Number) -> Number:
    """Return the film over a number of like doors, windows or cabinet fronts (ft²)."""
    return count * (width + 2 * margin) * (height + 2 * margin)


@rule(
    "tape = 2 · count · (width + height)",
    "ft",
    definition("all four sides sealed"),
    width="ft, 0 or more",
    height="ft, 0 or more",
    count="dimensionless, 0 or more",
)
def opening_edges(*, width: Number, height: Number, count: Number) -> Number:
    """Return the edge to seal round a number of like openings, grilles or plates (ft)."""
    return 2 * count * (width + height)


@rule(
    "share = sprayed · (1 − walls painted next)",
    "dimensionless",
    judgment("mist reaches every wall; a wall that is painted next needs no film against it, only dusting down"),
    sprayed="dimensionless, a share from 0 to 1",
    walls_next="dimensionless, a share from 0 to 1",
)
def drape_share(*, sprayed: Number, walls_next: Number) -> Number:
    """Return the share of the wall drape that is needed: none when rolling, none on walls that are painted next."""
    return sprayed * (1 - walls_next)


@rule(
    "share = 1 − walls painted next",
    "dimensionless",
    judgment("a cut line is kept along every finished wall, whatever puts the paint on the ceiling"),
    walls_next="dimensionless, a share from 0 to 1",
)
def edge_share(*, walls_next: Number) -> Number:
    """Return the share of the ceiling edge that needs paper and tape: none where the walls are painted next."""
    return 1 - walls_next


@rule(
    "share = sprayed",
    "dimensionless",
    judgment("mist drifts on to glass, doors and cabinets whether or not the walls are painted next"),
    sprayed="dimensionless, a share from 0 to 1",
)
def opening_share(*, sprayed: Number) -> Number:
    """Return the share of doors, windows and cabinet fronts that needs film: all when sprayed, none when rolled."""
    return sprayed


@rule(
    "needed = quantity · share",
    SAME,
    definition("a share of a quantity"),
    quantity="same, 0 or more",
    share="dimensionless, a share from 0 to 1",
)
def part_needed(*, quantity: Number, share: Number) -> Number:
    """Return the part of a quantity that this way of working needs; give `quantity` first, whose unit it keeps."""
    return quantity * share


@rule(
    "hours = spraying × share ÷ (100 % − share) − counted, none below 0",
    "hour",
    published("spray-everything", "2 h masking, at most 1 h spraying two coats", "Share of the hours of the two."),
    spraying="hour, 0 or more",
    share="percent, 0 or more, less than 100",
    counted="hour, 0 or more",
)
def still_to_mask(*, spraying: Number, share: Number, counted: Number) -> Number:
    """Return the hours of masking that a furnished room asks for beyond the edges and openings counted in it.

    share: masking in the hours of masking and spraying together. What stands in a room is in no count.

    >>> round(float(still_to_mask(spraying=1.0, share=75.0, counted=1.0)), 2)
    2.0
    """
    return np.maximum(0.0, spraying * share / (100 - share) - counted)
