"""Protecting a room for a repaint: floor, furniture and fixtures; edges and openings where mist is in the room."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from estimating.estimate.pricing.plan import Charge, Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.room import OpeningKind
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.interior_repaint import measure
from estimating.scopes.kinds.interior_repaint.facts import Repaint
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.work_area import with_crew_note
from estimating.takeoff import counted
from estimating.trade import masking, measuring, walls

FILMED = (OpeningKind.WINDOW, OpeningKind.ARCH, OpeningKind.SKYLIGHT)  # doors too, where they are not painted after


def covers_fixtures(repaint: Repaint, *, sprayed: bool) -> bool:
    """Say whether fixtures are covered: for mist, and for paint that is put on over them."""
    return sprayed or repaint.ceiling is not None


@lru_cache(maxsize=8)  # the same for all ways with mist, and for all without
def protect(repaint: Repaint, *, sprayed: bool) -> tuple[Task, ...]:
    """Return the tasks that get the room ready, in order."""
    work_area = repaint.work_area
    found = [*room_cover.furniture(work_area), room_cover.cover_floor(work_area)]
    if covers_fixtures(repaint, sprayed=sprayed):
        found += room_cover.cover_fixtures(work_area)
    return (*found, *_mask(repaint)) if sprayed else tuple(found)


def _mask(repaint: Repaint) -> Iterator[Task]:
    work_area = repaint.worked()
    paper, film = ("mask_edge", "paper", "any"), ("mask_opening", "film", "any")
    edge = repaint.worked(repaint.paces.ceiling).by_length(
        "mask_ceiling", "Run paper along the ceiling edge", Phase.MASK, ceiling_edge(repaint), *paper
    )
    yield with_crew_note(edge, "seal the tape along its whole length, without a gap")
    yield work_area.by_length("mask_trim", "Run paper along the trim", Phase.MASK, trim_edge(repaint), *paper)
    yield work_area.by_count("mask_opening", "Mask windows and doors", Phase.MASK, filmed(repaint), *film)


def ceiling_edge(repaint: Repaint) -> Figure:
    """Return the edge of the ceiling to mask (ft): none where only ceiling or trim is painted."""
    return total("ceiling edge", [repaint.work_area.room.perimeter] if repaint.walls else [], unit="ft")


def trim_edge(repaint: Repaint) -> Figure:
    """Return the edge of base and casing to mask (ft): none where the trim is painted after the walls."""
    edges = [] if repaint.trim else [measure.floor_line(repaint.work_area), *_cased(repaint)]
    return total("edge of the trim", edges, unit="ft")


def _cased(repaint: Repaint) -> list[Figure]:
    return [line for kind, line in measure.opening_lines(repaint.work_area) if kind is not OpeningKind.ARCH]


def _filmed_kinds(repaint: Repaint) -> tuple[OpeningKind, ...]:
    return FILMED if repaint.trim else (*FILMED, OpeningKind.DOOR)


def filmed(repaint: Repaint) -> Figure:
    """Return how many openings get film of their own: glass always, doors where they are not painted after."""
    alike = repaint.work_area.room.room.openings or ()
    number = sum(each.count for each in alike if each.kind in _filmed_kinds(repaint))
    return counted(number, "openings to mask", f'rooms "{repaint.item.room}" · openings')


@lru_cache(maxsize=8)  # as above
def unprotect(repaint: Repaint, *, sprayed: bool) -> tuple[Task, ...]:
    """Return the tasks that give the room back; film comes off before trim is brushed."""
    work_area = repaint.work_area
    found = [room_cover.uncover_floor(work_area, Phase.CLEAN)]
    if covers_fixtures(repaint, sprayed=sprayed):
        found += room_cover.uncover_fixtures(work_area, Phase.CLEAN)
    if not sprayed:
        return tuple(found)
    sheets = (
        "unmask",
        "Strip, roll inward and bag the masking",
        Phase.WALLS,
        _sheets(repaint),
        "unmask",
        "hand",
        "any",
    )
    return (repaint.worked().by_area(*sheets), *found)


def _paper_width(repaint: Repaint) -> Figure:
    return repaint.work_area.basis.figure("masking_stock", "paper_run", "width")


def _sheets(repaint: Repaint) -> Figure:
    """Return all paper and film that hangs in the room (ft²)."""
    run = total("paper", [ceiling_edge(repaint), trim_edge(repaint)], unit="ft")
    paper = work(measuring.girthed_area, "paper along edges", length=run, girth=_paper_width(repaint))
    return total("sheets to strip", [paper, _film(repaint)], unit="ft**2")


def _film(repaint: Repaint) -> Figure:
    margin = repaint.work_area.basis.figure("masking_stock", "margin", "opening")
    found = [
        work(masking.opening_film_area, f"film over {opening.kind}s", **dict(area.inputs), margin=margin)
        for opening, area in repaint.work_area.room.openings
        if opening.kind in _filmed_kinds(repaint)
    ]
    return total("film over openings", found, unit="ft**2")


@lru_cache(maxsize=8)  # as above
def supplies(repaint: Repaint, *, sprayed: bool) -> tuple[Supply, ...]:
    """Return masking by the roll where mist is in the room; drop cloths are the crew's own."""
    if not sprayed:
        return tuple(_covers(repaint))
    stock, work_area = repaint.work_area.basis, repaint.work_area
    waste = stock.figure("masking_stock", "tape_waste", "any")
    run = total("paper along edges", [ceiling_edge(repaint), trim_edge(repaint)], unit="ft")
    tape = total("edges to tape", [run, *_cased(repaint)], unit="ft")
    film = work(
        walls.length_of_sheet,
        "film to unroll",
        area=_film(repaint),
        width=stock.figure("masking_stock", "wall_film", "width"),
    )
    wanted = [
        ("paper_run", "Masking paper, 9 in", work(masking.tape_length, "paper with waste", edge=run, waste=waste)),
        ("wall_film", "Masking film", film),
        ("tape_edge", "Masking tape", work(masking.tape_length, "tape with waste", edge=tape, waste=waste)),
    ]
    rolls = [
        work_area.supply(item, title, need, stock.figure("masking_stock", item, "length"), "roll")
        for item, title, need in wanted
        if need.value > 0
    ]
    return (*rolls, room_cover.floor_paper(work_area), *_covers(repaint), *_for_mist(repaint))


def _for_mist(repaint: Repaint) -> list[Supply]:
    people = float(repaint.work_area.job.crew.people)
    wanted = [
        ("spray_tip", "each", "Spray tip", 1.0, "a fresh tip for an even fan, once a job"),
        ("dust_mask", "each", "Particle respirators", people, "one each, a job"),
    ]
    return [repaint.work_area.bought(*each, once="the job") for each in wanted]


def _covers(repaint: Repaint) -> list[Supply]:
    """Return a roller cover for each paint and color that is rolled, once for the whole job."""
    found = {(each.product, each.color) for each in repaint.coated if each.key != "trim"}
    return [
        repaint.work_area.bought(
            "roller_cover", "each", "Roller covers", 1.0, "one a color", once=f"{product}, {color}"
        )
        for product, color in sorted(found)
    ]


def charges(repaint: Repaint, *, sprayed: bool) -> tuple[Charge, ...]:
    """Return a day of the sprayer for each room that is sprayed."""
    if not sprayed:
        return ()
    rate = repaint.work_area.basis.figure("business", "equipment_sprayer")
    day = leaf("a day for the room", 1.0, "dimensionless", Origin(Kind.JUDGMENT, note="mask, spray and wash in a day"))
    word = f"sprayer, {repaint.item.room}"
    return (Charge("equipment_sprayer", "Sprayer, hose and gun, a day", day, rate, share_key=word),)
