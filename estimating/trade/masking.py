"""Masking: a drape of film hung under a run of paper, taped without a gap, and paper over the floor.

The run of paper is set along every ceiling edge and its top sealed with tape. Film hangs from the paper down to the
floor. Everything here follows from lengths and from the widths of the stock; how long it takes is `labor`'s business.
"""

from __future__ import annotations

import numpy as np

from estimating.origins import definition, judgment
from estimating.rules import SAME, rule
from estimating.trade.counting import round_up
from estimating.trade.guards import require
from estimating.units import Number

LAYOUT = definition("strips laid side by side, each over the last by the overlap")
WASTE = definition("waste is what is cut off, as a share of what is used")


@rule(
    "edge = perimeter + inner edges − edges left open",
    "ft",
    definition("the line where ceiling meets anything else"),
    perimeter="ft",
    inner_edges="ft",
    left_open="ft",
)
def edge_length(*, perimeter: Number, inner_edges: Number, left_open: Number) -> Number:
    """Return the ceiling edge to seal (ft): round the room, round beams and cabinets, less what stays open."""
    require(inner_edges >= 0, "inner_edges", inner_edges, "0 ft or more")
    require(left_open >= 0, "left_open", left_open, "0 ft or more")
    edge = perimeter + inner_edges - left_open
    require(edge >= 0, "left_open", left_open, "no more than the edge there is")
    return edge


@rule(
    "drop = height − paper width + overlap + tail",
    "ft",
    LAYOUT,
    height="ft",
    paper_width="ft",
    overlap="ft",
    tail="ft",
)
def drape_drop(*, height: Number, paper_width: Number, overlap: Number, tail: Number) -> Number:
    """Return how long the film must hang (ft): from behind the paper to the floor, and a tail lying on it."""
    require(height > 0, "height", height, "more than 0 ft")
    require((paper_width >= 0) & (paper_width <= height), "paper_width", paper_width, "0 ft to the height of the wall")
    require((overlap >= 0) & (overlap <= paper_width), "overlap", overlap, "0 ft to the width of the paper")
    require(tail >= 0, "tail", tail, "0 ft or more")
    return height - paper_width + overlap + tail


@rule("short by = drop − film width, never below 0", "ft", LAYOUT, drop="ft", film_width="ft")
def drop_shortfall(*, drop: Number, film_width: Number) -> Number:
    """Return by how much one width of film misses the end of its tail (ft); 0 where it reaches."""
    require(drop >= 0, "drop", drop, "0 ft or more")
    require(film_width > 0, "film_width", film_width, "more than 0 ft")
    return np.maximum(drop - film_width, 0.0)


def _side_by_side(across: Number, stock_width: Number, overlap: Number) -> Number:
    """Return how many strips cover `across`: n widths less n − 1 overlaps."""
    require(across >= 0, "across", across, "0 ft or more")
    require(overlap >= 0, "overlap", overlap, "0 ft or more")
    require(stock_width > overlap, "stock_width", stock_width, "more than the overlap")
    strips = round_up(np.maximum(across - overlap, 0.0), stock_width - overlap)
    return np.where(across > 0, np.maximum(strips, 1.0), 0.0)[()]


@rule(
    "tiers = (drop − overlap) / (film width − overlap), rounded up",
    "dimensionless",
    LAYOUT,
    drop="ft",
    film_width="ft",
    overlap="ft",
)
def film_tiers(*, drop: Number, film_width: Number, overlap: Number) -> Number:
    """Return how many widths of film hang one below the other to cover the drop."""
    return _side_by_side(drop, film_width, overlap)


@rule(
    "strips = perimeter / (run − overlap), rounded up",
    "dimensionless",
    LAYOUT,
    perimeter="ft",
    run="ft",
    overlap="ft",
)
def film_strips(*, perimeter: Number, run: Number, overlap: Number) -> Number:
    """Return how many lengths of film go round the room, each over the next and the last over the first.

    run: the length hung in one piece (ft), which a wall, a doorway or the roll decides.
    """
    require(perimeter >= 0, "perimeter", perimeter, "0 ft or more")
    require(overlap >= 0, "overlap", overlap, "0 ft or more")
    require(run > overlap, "run", run, "more than the overlap")
    return round_up(perimeter, run - overlap)


@rule(
    "length = (perimeter + strips · overlap) · tiers",
    "ft",
    LAYOUT,
    perimeter="ft",
    strips="dimensionless",
    overlap="ft",
    tiers="dimensionless",
)
def film_length(*, perimeter: Number, strips: Number, overlap: Number, tiers: Number) -> Number:
    """Return the film to unroll (ft) round the room, overlaps and tiers included."""
    require(perimeter >= 0, "perimeter", perimeter, "0 ft or more")
    require(strips >= 0, "strips", strips, "0 or more")
    require(overlap >= 0, "overlap", overlap, "0 ft or more")
    require(tiers >= 0, "tiers", tiers, "0 or more")
    return (perimeter + strips * overlap) * tiers


@rule("A = perimeter · drop", "ft**2", LAYOUT, perimeter="ft", drop="ft")
def film_area(*, perimeter: Number, drop: Number) -> Number:
    """Return the wall draped (ft²), which is what the hours to hang it go by."""
    require(perimeter >= 0, "perimeter", perimeter, "0 ft or more")
    require(drop >= 0, "drop", drop, "0 ft or more")
    return perimeter * drop


@rule(
    "seams = strips · drop + (tiers − 1) · perimeter",
    "ft",
    LAYOUT,
    strips="dimensionless",
    drop="ft",
    tiers="dimensionless",
    perimeter="ft",
)
def film_seams(*, strips: Number, drop: Number, tiers: Number, perimeter: Number) -> Number:
    """Return the seams to tape (ft): one upright at each strip, one level between tiers. Mist finds an open seam."""
    require(strips >= 0, "strips", strips, "0 or more")
    require(drop >= 0, "drop", drop, "0 ft or more")
    require(tiers >= 1, "tiers", tiers, "1 or more")
    return strips * drop + (tiers - 1) * perimeter


@rule("tape = edge · (1 + waste)", "ft", WASTE, edge="ft", waste="dimensionless")
def tape_length(*, edge: Number, waste: Number) -> Number:
    """Return the tape, or the run of paper, for an edge (ft), with what corners and cuts waste."""
    require(edge >= 0, "edge", edge, "0 ft or more")
    require(waste >= 0, "waste", waste, "0 or more, as a share of the edge")
    return edge * (1 + waste)


@rule(
    "runs = (room width − overlap) / (stock width − overlap), rounded up",
    "dimensionless",
    LAYOUT,
    room_width="ft",
    stock_width="ft",
    overlap="ft",
)
def floor_runs(*, room_width: Number, stock_width: Number, overlap: Number) -> Number:
    """Return how many runs of paper, side by side, cover the floor."""
    return _side_by_side(room_width, stock_width, overlap)


@rule(
    "length = runs · room length",
    "ft",
    LAYOUT,
    room_length="ft",
    runs="dimensionless",
)
def floor_paper_length(*, room_length: Number, runs: Number) -> Number:
    """Return the floor paper to unroll (ft)."""
    require(room_length >= 0, "room_length", room_length, "0 ft or more")
    require(runs >= 0, "runs", runs, "0 or more")
    return room_length * runs


@rule(
    "length = floor area / (stock width − overlap)",
    "ft",
    LAYOUT,
    floor_area="ft**2",
    stock_width="ft",
    overlap="ft",
)
def floor_paper_by_area(*, floor_area: Number, stock_width: Number, overlap: Number) -> Number:
    """Return about how much floor paper (ft) an odd-shaped floor takes, offcuts used up elsewhere."""
    require(floor_area >= 0, "floor_area", floor_area, "0 ft² or more")
    require(overlap >= 0, "overlap", overlap, "0 ft or more")
    require(stock_width > overlap, "stock_width", stock_width, "more than the overlap")
    return floor_area / (stock_width - overlap)


@rule(
    "seams = (runs − 1) · room length + perimeter",
    "ft",
    LAYOUT,
    room_length="ft",
    runs="dimensionless",
    perimeter="ft",
)
def floor_seams(*, room_length: Number, runs: Number, perimeter: Number) -> Number:
    """Return the floor seams to tape (ft): between runs, and along the walls where film lies on the paper."""
    require(room_length >= 0, "room_length", room_length, "0 ft or more")
    require(runs >= 1, "runs", runs, "1 or more")
    require(perimeter >= 0, "perimeter", perimeter, "0 ft or more")
    return (runs - 1) * room_length + perimeter


@rule(
    "A = count · (width + 2 margin) · (height + 2 margin)",
    "ft**2",
    definition("a sheet larger than the opening by the margin on every side"),
    width="ft",
    height="ft",
    margin="ft",
    count="dimensionless",
)
def opening_film_area(*, width: Number, height: Number, margin: Number, count: Number) -> Number:
    """Return the film over a number of like doors, windows or cabinet fronts (ft²)."""
    require(width >= 0, "width", width, "0 ft or more")
    require(height >= 0, "height", height, "0 ft or more")
    require(margin >= 0, "margin", margin, "0 ft or more")
    require(count >= 0, "count", count, "0 or more")
    return count * (width + 2 * margin) * (height + 2 * margin)


@rule(
    "tape = 2 · count · (width + height)",
    "ft",
    definition("all four sides sealed"),
    width="ft",
    height="ft",
    count="dimensionless",
)
def opening_edges(*, width: Number, height: Number, count: Number) -> Number:
    """Return the edge to seal round a number of like openings, grilles or plates (ft)."""
    require(width >= 0, "width", width, "0 ft or more")
    require(height >= 0, "height", height, "0 ft or more")
    require(count >= 0, "count", count, "0 or more")
    return 2 * count * (width + height)


@rule(
    "edge = π · diameter · count",
    "ft",
    definition("circumference"),
    diameter="ft",
    count="dimensionless",
)
def round_edges(*, diameter: Number, count: Number) -> Number:
    """Return the edge to seal round a number of like round fixtures (ft)."""
    require(diameter >= 0, "diameter", diameter, "0 ft or more")
    require(count >= 0, "count", count, "0 or more")
    return np.pi * diameter * count


def _is_share(field: str, value: Number) -> None:
    require((value >= 0) & (value <= 1), field, value, "0 for no, 1 for yes, or a share between")


@rule(
    "share = sprayed · (1 − walls painted next)",
    "dimensionless",
    judgment("mist reaches every wall; a wall that is painted next needs no film against it, only dusting down"),
    sprayed="dimensionless",
    walls_next="dimensionless",
)
def drape_share(*, sprayed: Number, walls_next: Number) -> Number:
    """Return the share of the wall drape that is needed: none when rolling, none on walls that are painted next."""
    _is_share("sprayed", sprayed)
    _is_share("walls_next", walls_next)
    return sprayed * (1 - walls_next)


@rule(
    "share = 1 − walls painted next",
    "dimensionless",
    judgment("a cut line is kept along every finished wall, whatever puts the paint on the ceiling"),
    walls_next="dimensionless",
)
def edge_share(*, walls_next: Number) -> Number:
    """Return the share of the ceiling edge that needs paper and tape: none where the walls are painted next."""
    _is_share("walls_next", walls_next)
    return 1 - walls_next


@rule(
    "share = sprayed",
    "dimensionless",
    judgment("mist drifts on to glass, doors and cabinets whether or not the walls are painted next"),
    sprayed="dimensionless",
)
def opening_share(*, sprayed: Number) -> Number:
    """Return the share of doors, windows and cabinet fronts that needs film: all when sprayed, none when rolled."""
    _is_share("sprayed", sprayed)
    return sprayed


@rule("needed = quantity · share", SAME, definition("a share of a quantity"), quantity=SAME, share="dimensionless")
def part_needed(*, quantity: Number, share: Number) -> Number:
    """Return the part of a quantity that this way of working needs; give `quantity` first, whose unit it keeps."""
    require(quantity >= 0, "quantity", quantity, "0 or more")
    _is_share("share", share)
    return quantity * share
