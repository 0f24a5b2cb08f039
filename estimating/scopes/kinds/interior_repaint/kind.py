"""An interior repaint of one room: site notes in, every way of putting the paint on out."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan, Question
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.scopes.drawings import Drawing, coated_ceilings
from estimating.scopes.kinds.interior_repaint import cover, prep, suitability
from estimating.scopes.kinds.interior_repaint.coats import Method, colors, finish, risks
from estimating.scopes.kinds.interior_repaint.facts import Repaint, facts
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.kinds.interior_repaint.prime import prime
from estimating.scopes.kinds.interior_repaint.questions import open_questions
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours
from estimating.takeoff import take_off

ROLL = Method("roll", "Brush and roll", "roller")
UNPRIMED = Method("roll_more_coats", "Brush and roll, more coats in place of a tinted primer", "roller", barrier=False)
BACK_ROLL = Method("spray_back_roll", "Spray and back-roll", "sprayer", back_rolled=True)
SPRAY = Method("spray", "Spray without back-rolling", "sprayer")
BRUSH = Method("brush", "Brush only", "brush")


def plans(item: InteriorRepaint, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every way that is worth a thought in this room, and one for leaving it alone."""
    repaint = facts(item, _work_area(item, job, basis))
    return (*(_plan(repaint, method) for method in methods(repaint)), _decline(repaint))


def questions(item: InteriorRepaint, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return open_questions(item, _work_area(item, job, basis))


def methods(repaint: Repaint) -> list[Method]:
    """Return the ways that are compared: trim alone is not sprayed, and only a small room is brushed."""
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
    primed, primers = prime(repaint, barrier=method.barrier)
    coats, paint = finish(repaint, method)
    tasks = [
        *cover.protect(repaint, sprayed=method.sprayed),
        *prep.prepare(repaint),
        *primed,
        *coats,
        *colors(repaint, method),
        *cover.unprotect(repaint, sprayed=method.sprayed),
        *room_cover.tools(repaint.work_area, sprayed=method.sprayed),
    ]
    plan = Plan(
        scope=scope_name(repaint),
        method=method.method,
        title=method.title,
        tasks=drop_zero_hours(tasks),
        materials=(*primers, *paint),
        supplies=(*cover.supplies(repaint, sprayed=method.sprayed), *prep.supplies(repaint)),
        charges=cover.charges(repaint, sprayed=method.sprayed),
        risks=risks(repaint, method),
        findings=suitability.findings(repaint, method),
        client_requirements=suitability.client_requirements(repaint),
        notes=suitability.notes(repaint, method),
    )
    return with_hazards(plan, repaint.work_area, suitability.exposure(repaint, method))


def _decline(repaint: Repaint) -> Plan:
    plan = Plan(
        scope=scope_name(repaint),
        method="decline",
        title="Decline to paint it",
        client_requirements=("keep the room as it is until what stands against painting it is put right",),
        notes=("the honest last resort where no way of painting may be used here",),
        finishes=False,
    )
    return with_hazards(plan, repaint.work_area, suitability.exposure(repaint, None))


def drawings(item: InteriorRepaint, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return the ceiling where it is coated."""
    del item, job, basis
    return coated_ceilings(plan)


def _work_area(item: InteriorRepaint, job: Job, basis: Basis) -> WorkArea:
    return WorkArea(job, take_off(job.room(item.room), basis), basis)


KIND = KindOfWork(InteriorRepaint, plans, questions, drawings=drawings)
