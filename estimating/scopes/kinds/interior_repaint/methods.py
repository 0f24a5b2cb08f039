"""The methods to repaint a room, each as a full plan of work."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Phase, Plan, Supply, Task
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.scopes.kinds.interior_repaint import suitability
from estimating.scopes.kinds.interior_repaint.facts import Method, Repaint, extra_colors, facts
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.kinds.interior_repaint.surfaces_named import name_surfaces
from estimating.scopes.shared import coat, color, masking, prep, prepare, protection
from estimating.scopes.shared.drying import dries
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.products import WALL_PAINT
from estimating.scopes.shared.standing import declined
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, for_tools

ROLL = Method("roll", "Brush and roll", coat.ROLLER)
UNPRIMED = Method("roll_more_coats", "Brush and roll, more coats in place of a tinted primer", coat.ROLLER, False)
BACK_ROLL = Method("spray_back_roll", "Spray and back-roll", coat.BACK_ROLLED)
SPRAY = Method("spray", "Spray without back-rolling", coat.SPRAYER)
BRUSH = Method("brush", "Brush only", coat.BRUSH)


def plans(item: InteriorRepaint, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every method that is worth a thought in this room, and one for leaving it alone."""
    repaint = facts(item, WorkArea.of(item, job, basis))
    return (*(name_surfaces(repaint, _plan(repaint, method)) for method in methods(repaint)), _decline(repaint))


def methods(repaint: Repaint) -> list[Method]:
    """Return the methods that are compared: trim alone is not sprayed, and only a small room is brushed."""
    found = [ROLL]
    if repaint.needs_barrier:
        found.append(UNPRIMED)
    if repaint.walls or repaint.ceiling:
        found += [BACK_ROLL, SPRAY]
        small = repaint.work_area.basis.figure("members", "small_room", "area")
        if repaint.work_area.room.floor.value <= small.value:
            found.append(BRUSH)
    return found


def scope_name(repaint: Repaint) -> str:
    """Return what the work is called in reports."""
    return f"repaint, {repaint.item.room}"


def _plan(repaint: Repaint, method: Method) -> Plan:
    coatings = repaint.coated(method)
    primed = repaint.primed[method.barrier]
    finish = coat.finish(coatings, dries(repaint.work_area))
    tasks = [
        *_protect(repaint, method),
        *repaint.prepared,
        *primed.tasks,
        *finish.tasks,
        *_colors(repaint, method),
        *_unprotect(repaint, method),
        *protection.tools(repaint.work_area, sprayed=method.sprayed),
    ]
    noted = repaint.item.preparation, repaint.work_area.job.terms.preparation
    plan = Plan(
        scope=scope_name(repaint),
        method=method.method,
        title=method.title,
        tasks=drop_zero_hours(tasks),
        materials=(*primed.paint, *finish.paint),
        supplies=tuple(_supplies(repaint, method)),
        charges=(protection.sprayer_by_the_day(repaint.work_area),) if method.sprayed else (),
        risks=tuple(sorted(map(coat.another_coat, coatings), key=lambda risk: -risk.expected.value)),
        findings=suitability.findings(repaint, method),
        client_requirements=suitability.client_requirements(repaint),
        notes=suitability.notes(repaint, method),
        preparation=prepare.in_words(repaint.parts),
        expected=prepare.promised(repaint.parts, *noted),
    )
    return with_hazards(plan, repaint.work_area, suitability.exposure(repaint, method))


def _protect(repaint: Repaint, method: Method) -> Iterator[Task]:
    area = repaint.work_area
    yield from protection.move_furniture(area)
    yield protection.cover_floor(area)
    if repaint.covers_fixtures(method):
        yield from protection.cover_fixtures(area)
    if method.sprayed:
        yield from repaint.masked.tasks
        if repaint.lived_in:
            yield masking.what_stands(area, _at_the_gun(repaint, method), repaint.masked.tasks)


def _at_the_gun(repaint: Repaint, method: Method) -> list[Task]:
    sprayed = [each for each in repaint.coated(method) if each.tool.name == "sprayer"]
    return [task for each in sprayed for done in each.coats for task in done.tasks]


def _unprotect(repaint: Repaint, method: Method) -> Iterator[Task]:
    if method.sprayed:
        yield repaint.masked.stripped
    yield protection.uncover_floor(repaint.work_area, Phase.CLEAN)
    if repaint.covers_fixtures(method):
        yield from protection.uncover_fixtures(repaint.work_area, Phase.CLEAN)


def _colors(repaint: Repaint, method: Method) -> Iterator[Task]:
    """Yield what further colors cost: in this room for accent walls, on the job for each new can."""
    area = repaint.at_work
    for each in repaint.accents:
        own = (f"extra_{each.key}", f"A color of its own: {each.name}", Phase.WALLS, "accent_wall", "any", "any")
        yield for_tools(area.by_hours(*own))
    for product, wanted in extra_colors(repaint):
        yield color.open_color(area, product, wanted)
        if method.sprayed and product == WALL_PAINT and repaint.walls and wanted == repaint.walls.color:
            yield color.change_over(area, product, wanted)


def _supplies(repaint: Repaint, method: Method) -> Iterator[Supply]:
    """Yield masking by the roll where mist is in the room; drop cloths are the crew's own."""
    area = repaint.work_area
    if method.sprayed:
        yield from repaint.masked.supplies
    for product, wanted in sorted({(each.product, each.color) for each in repaint.surfaces if each.key != "trim"}):
        yield area.bought("roller_cover", "each", "Roller covers", 1.0, "one a color", once=f"{product}, {wanted}")
    if method.sprayed:
        yield from protection.against_mist(area, once=protection.THE_JOB)
    skim = prepare.supplies(area, repaint.parts)
    yield from skim
    yield from prep.supplies(area, run=repaint.joints, mended=bool(repaint.disturbed.value) and not skim)


def _decline(repaint: Repaint) -> Plan:
    return declined(
        repaint.work_area,
        suitability.exposure(repaint, None),
        scope=scope_name(repaint),
        verb="paint it",
        asked_of_client="keep the room as it is until what stands against painting it is put right",
        last_resort="no method of painting it is OK here",
    )
