"""Measures of a room that a take-off leaves out: net walls, walls in a color of their own, and the lines to cut in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.figures import Figure, total, work
from estimating.job.room import OpeningKind
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import counted, taped
from estimating.trade import masking, measuring, outline, walls
from estimating.units import Reading

STANDS_ON_THE_FLOOR = (OpeningKind.DOOR, OpeningKind.ARCH)
CASED = (OpeningKind.DOOR, OpeningKind.WINDOW)
IN_WALLS = (OpeningKind.DOOR, OpeningKind.WINDOW, OpeningKind.ARCH)
NEARLY = 1 + 1e-9  # a length that is the same but for the last digits


@dataclass(frozen=True)
class Measured:
    """A stretch of wall in one color: its area (ft²) and the line round it that is cut in (ft)."""

    area: Figure
    line: Figure


@dataclass(frozen=True)
class CoveredWall:
    """One wall that another item covers: its width (ft; None where it is not covered to the top), and its net area."""

    width: Figure | None
    area: Figure


def tape(work_area: WorkArea) -> Figure:
    """Return how true the tape readings of the room are."""
    return work_area.basis.figure("factors", "measured", str(work_area.room.room.measured))


def true_length(work_area: WorkArea, reading: Reading, name: str, key: str, title: str = "") -> Figure:
    """Return a length off the tape, as true as the tape is in this room."""
    read = taped(reading, name, key)
    return work(outline.corrected_reading, title or name, reading=read, tape_accuracy=tape(work_area))


def measured_walls(
    work_area: WorkArea, apart: Sequence[tuple[str, Reading]], where: str, covered: Sequence[CoveredWall] = ()
) -> tuple[Measured, tuple[Measured, ...]]:
    """Return the walls in the main color, and those with a name and length of their own one by one.

    covered: walls that are not painted at all.
    Openings are taken off the main color; nobody noted in which wall they are. Raises InputError where the walls apart
    are longer than the room is round, or openings and walls apart leave no wall.
    """
    lengths = _lengths(work_area, apart, where)
    found = tuple(_apart(length, work_area) for length in lengths)
    share = work(
        walls.share_of_whole,
        "share of the accent walls",
        part=total("accent walls", [*lengths, *(each.width for each in covered if each.width)], unit="ft"),
        whole=work_area.room.perimeter,
    )
    line = work(walls.rest_of_length, "line to cut in", quantity=cut_line(work_area), share=share)
    return Measured(
        _net_walls(work_area, [*(each.area for each in found), *(each.area for each in covered)]), line
    ), found


def _lengths(work_area: WorkArea, apart: Sequence[tuple[str, Reading]], where: str) -> list[Figure]:
    lengths = [
        true_length(work_area, reading, name, f"{where}[{place}] · length", f"length of {name}")
        for place, (name, reading) in enumerate(apart)
    ]
    longest = work_area.room.perimeter.value
    if sum(each.value for each in lengths) > longest * NEARLY:
        seen = " + ".join(reading.text for _, reading in apart)
        raise InputError(where, seen, f"no more than the {longest:.1f} ft of wall there is")
    return lengths


def _apart(length: Figure, work_area: WorkArea) -> Measured:
    height = work_area.room.height
    return Measured(
        work(measuring.wall_area, "accent wall", perimeter=length, height=height),
        work(measuring.rectangle_perimeter, "line round the accent wall", length=length, width=height),
    )


def _net_walls(work_area: WorkArea, apart: list[Figure]) -> Figure:
    off = total("taken off the walls", [*apart, *deductions(work_area)], unit="ft**2")
    gross = work_area.room.walls
    if work_area.room.reveals:
        gross = total("walls and reveals", [gross, *work_area.room.reveals], unit="ft**2")
    if off.value >= gross.value:
        field = f'rooms "{work_area.room.room.name}" · openings'
        seen = f"{off.value:.0f} ft² with accent walls"
        raise InputError(field, seen, f"less than the {gross.value:.0f} ft² of wall")
    return work(measuring.net_area, "walls to paint", gross_area=gross, deductions=off)


def deductions(work_area: WorkArea) -> Iterator[Figure]:
    """Yield what the openings take off the walls (ft²), each kind of opening by the size of one of them.

    Jambs are not added above the larger limit: they are door frames, trim by length, or reveals that were taped.
    """
    basis = work_area.basis
    limits = {
        "small": basis.figure("measuring", "small_opening", "area_most"),
        "large": basis.figure("measuring", "large_opening", "area_least"),
        "share": basis.figure("members", "average_opening", "share"),
    }
    for opening, area in work_area.room.openings:
        if opening.kind is OpeningKind.SKYLIGHT:
            continue
        size = dict(area.inputs)
        one = work(measuring.rectangle_area, f"one {opening.kind}", length=size["width"], width=size["height"])
        off = work(measuring.opening_deduction, f"off for one {opening.kind}", opening_area=one, **limits)
        yield work(walls.several, f"off for {opening.kind}s", each=off, count=size["count"])


def cut_line(work_area: WorkArea) -> Figure:
    """Return the line along which the walls are cut in (ft): ceiling, floor, and round the openings."""
    lines = [work_area.room.perimeter, floor_line(work_area), *(line for _, line in opening_lines(work_area))]
    return total("lines of the walls", lines, unit="ft")


def floor_line(work_area: WorkArea) -> Figure:
    """Return the line along the floor (ft), less the doors and arches that stand on it."""
    gaps = [
        work(walls.several, f"{kind}s along the floor", each=size["width"], count=size["count"])
        for kind, size in _sizes(work_area, *STANDS_ON_THE_FLOOR)
    ]
    gap = total("openings along the floor", gaps, unit="ft")
    return work(walls.run_between, "line along the floor", whole=work_area.room.perimeter, openings=gap)


def opening_lines(work_area: WorkArea) -> Iterator[tuple[OpeningKind, Figure]]:
    """Yield the line round each kind of opening in the walls (ft); a door has no sill."""
    for kind, size in _sizes(work_area, *STANDS_ON_THE_FLOOR):
        yield kind, work(walls.door_edges, f"round {kind}s", **size)
    for kind, size in _sizes(work_area, OpeningKind.WINDOW):
        yield kind, work(masking.opening_edges, f"round {kind}s", **size)


def cased_lines(work_area: WorkArea) -> list[Figure]:
    """Return the lines round what has a casing (ft), each kind by itself."""
    return [line for kind, line in opening_lines(work_area) if kind in CASED]


def count_openings(work_area: WorkArea, kinds: Sequence[OpeningKind], name: str = "openings") -> Figure:
    """Return how many openings of some kinds there are; none noted is none planned for."""
    room = work_area.room.room
    number = sum(each.count for each in room.openings or () if each.kind in kinds)
    return counted(number, name, f'rooms "{room.name}" · openings')


def _sizes(work_area: WorkArea, *kinds: OpeningKind) -> Iterator[tuple[OpeningKind, dict[str, Figure]]]:
    for opening, area in work_area.room.openings:
        if opening.kind in kinds:
            yield opening.kind, dict(area.inputs)
