"""Walls of a room to be repainted: what the openings take off, the accent walls, and the lines to cut in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.figures import Figure, total, work
from estimating.job.room import OpeningKind
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import taped
from estimating.trade import masking, measuring, outline, walls

STANDS_ON_THE_FLOOR = (OpeningKind.DOOR, OpeningKind.ARCH)


@dataclass(frozen=True)
class Measured:
    """A stretch of wall in one color: its area (ft²) and the line round it that is cut in (ft)."""

    area: Figure
    line: Figure


def measured_walls(item: InteriorRepaint, work_area: WorkArea) -> tuple[Measured, tuple[Measured, ...]]:
    """Return the walls in the main color, and the accent walls one by one.

    Openings are taken off the main color; nobody noted in which wall they are. Raises InputError where accent walls
    are longer than the room is round, or openings and accent walls leave no wall.
    """
    lengths = _accent_lengths(item, work_area)
    accents = tuple(_accent(length, work_area) for length in lengths)
    share = work(
        walls.share_of_whole,
        "share of the accent walls",
        part=total("accent walls", lengths, unit="ft"),
        whole=work_area.room.perimeter,
    )
    line = work(walls.rest_of_length, "line to cut in", quantity=cut_line(work_area), share=share)
    return Measured(_net_walls(work_area, [each.area for each in accents]), line), accents


def _accent_lengths(item: InteriorRepaint, work_area: WorkArea) -> list[Figure]:
    where = f'work "{item.room}" · walls · accents'
    tape_accuracy = work_area.basis.figure("factors", "measured", str(work_area.room.room.measured))
    lengths = [
        work(
            outline.corrected_reading,
            f"length of {accent.name}",
            reading=taped(accent.length, accent.name, f"{where}[{place}] · length"),
            tape_accuracy=tape_accuracy,
        )
        for place, accent in enumerate(item.walls.accents)
    ]
    longest = work_area.room.perimeter.value
    if sum(each.value for each in lengths) > longest * (1 + 1e-9):
        seen = " + ".join(each.length.text for each in item.walls.accents)
        raise InputError(where, seen, f"no more than the {longest:.1f} ft of wall there is")
    return lengths


def _accent(length: Figure, work_area: WorkArea) -> Measured:
    sides = {"length": length, "width": work_area.room.height}
    return Measured(
        work(measuring.wall_area, "accent wall", perimeter=length, height=work_area.room.height),
        work(measuring.rectangle_perimeter, "line round the accent wall", **sides),
    )


def _net_walls(work_area: WorkArea, accents: list[Figure]) -> Figure:
    off = total("taken off the walls", [*accents, *deductions(work_area)], unit="ft**2")
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

    Jambs are not added above the larger limit: here they are door frames, trim by length, or reveals that were taped.
    """
    basis = work_area.basis
    limits = {
        "small": basis.figure("measuring", "small_opening", "area_most"),
        "large": basis.figure("measuring", "large_opening", "area_least"),
        "share": basis.figure("members", "middling_opening", "share"),
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


def _sizes(work_area: WorkArea, *kinds: OpeningKind) -> Iterator[tuple[OpeningKind, dict[str, Figure]]]:
    for opening, area in work_area.room.openings:
        if opening.kind in kinds:
            yield opening.kind, dict(area.inputs)
