"""The methods to paint new drywall: primer and finish rolled, or sprayed and back-rolled; what each level allows.

The levels are those of GA-214 (Gypsum Association): 0 to 2 are for what is concealed or tiled, 3 for heavy texture, 4
for flat paint in even light, 5 for any sheen above flat and for light from the side; 3 to 5 get a drywall primer.
"""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Finding, Phase, Plan, Question, Suitability, Supply
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.job.surfaces import Sheen
from estimating.job.values import Answer
from estimating.scopes.drawings import Drawing, coated_ceilings
from estimating.scopes.kinds.new_drywall.facts import Drywall, facts
from estimating.scopes.kinds.new_drywall.notes import Level, Light, NewDrywall
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared import coat, protection
from estimating.scopes.shared.exposure import Exposure
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.questions import Asked, opening_question, room_questions, unanswered
from estimating.scopes.shared.standing import agreed_first, declined
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours

CONCEALED = (Level.NONE, Level.TAPED, Level.ONE_COAT)
LEFT_ALONE = Exposure(worked=False)


def plans(item: NewDrywall, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for rolling, one for spraying with back-rolling, and one for leaving the board alone."""
    drywall = facts(item, WorkArea.of(item, job, basis))
    return (
        _plan(drywall, "roll", "Prime and roll", sprayed=False),
        _plan(drywall, "spray_back_roll", "Prime and paint, sprayed and back-rolled", sprayed=True),
        _decline(drywall),
    )


def _plan(drywall: Drywall, method: str, title: str, *, sprayed: bool) -> Plan:
    area, tool = drywall.work_area, coat.BACK_ROLLED if sprayed else coat.ROLLER
    coatings = [drywall.coatings[each.key, tool] for each in drywall.surfaces]
    primed, finish = drywall.primed[sprayed], coat.finish(coatings, drywall.dries)
    tasks = [
        *protection.move_furniture(area),
        *((protection.cover_floor(area),) if drywall.floor_is_finished else ()),
        *(drywall.masked if sprayed else ()),
        *drywall.dusted,
        *primed.tasks,
        *finish.tasks,
        *(drywall.stripped if sprayed else ()),
        *((protection.uncover_floor(area, Phase.CLEAN),) if drywall.floor_is_finished else ()),
        *protection.tools(area, sprayed=sprayed),
    ]
    plan = Plan(
        scope=scope_name(drywall),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=(*primed.paint, *finish.paint),
        supplies=tuple(_supplies(drywall, sprayed)),
        charges=(protection.sprayer_by_the_day(area),) if sprayed else (),
        risks=tuple(map(coat.another_coat, coatings)),
        findings=tuple(_findings(drywall)),
        notes=tuple(_notes(drywall, sprayed)),
    )
    return with_hazards(plan, area, _exposure(drywall, sprayed))


def scope_name(drywall: Drywall) -> str:
    """Return what the work is called in reports."""
    return f"new drywall, {drywall.item.room}"


def _exposure(drywall: Drywall, sprayed: bool) -> Exposure:
    overhead = any(each.overhead for each in drywall.surfaces)
    dust = "sanding joint compound"
    top = drywall.work_area.room.height
    return Exposure(sprayed=sprayed, compound=dust, overhead=overhead, top=top, covers_fixtures=sprayed)


def _supplies(drywall: Drywall, sprayed: bool) -> Iterator[Supply]:
    area = drywall.work_area
    if drywall.floor_is_finished:
        yield protection.floor_paper(area)
    if sprayed:
        yield from drywall.film
        yield from protection.against_mist(area, once=protection.THE_JOB)
    for each in drywall.surfaces:
        why, once = "one a color", f"{each.product}, {each.color}"
        yield area.bought("roller_cover", "each", "Roller covers", 1.0, why, once=once)
    bought = (("joint_compound", "bucket", "Joint compound"), ("sandpaper", "pack", "Sandpaper"))
    for item, container, title in bought:
        yield area.bought(item, container, title, 1.0, "one a job", once=protection.THE_JOB)


def _findings(drywall: Drywall) -> Iterator[Finding]:
    """Yield what the level of finish has against painting it so, in this light and with this sheen."""
    item, level = drywall.item, drywall.level
    if item.dry is Answer.NO:
        yield Finding(Suitability.CLOSED, "board or compound is not dry: it is painted once it is")
    if level in CONCEALED:
        yield Finding(Suitability.CLOSED, f"{level} is for what is concealed or tiled: it is finished further first")
    elif level is Level.TWO_COATS:
        yield agreed_first("level 3 is for heavy texture: under smooth paint its joints show")
    if item.level is None:
        yield agreed_first("nobody noted the level of finish: taken as level 4")
    if level is Level.THREE_COATS and item.light is Light.RAKING:
        yield agreed_first("light from the side shows the joints of level 4: level 5 is asked for there")
    shines = [each.sheen for each in (item.ceiling, item.walls) if each.sheen not in (None, Sheen.FLAT)]
    if level is Level.THREE_COATS and shines:
        yield agreed_first(f"{shines[0]} over level 4: level 5 is asked for under every sheen above flat")


def _notes(drywall: Drywall, sprayed: bool) -> Iterator[str]:
    yield f"priced for {drywall.level}: who finishes the board says in writing which level was reached"
    yield "what the primer shows is filled and sanded once, by the level; what the drywall trade left beyond it is not"
    if sprayed:
        yield "the primer is rolled out as it is sprayed: sprayed only, it leaves the sanded paper rough"


def _decline(drywall: Drywall) -> Plan:
    return declined(
        drywall.work_area,
        LEFT_ALONE,
        scope=scope_name(drywall),
        verb="paint it",
        asked_of_client="have the board finished to the level its paint and its light ask for",
        last_resort="the board is not ready for paint",
    )


def questions(item: NewDrywall, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return unanswered(_asked(item, WorkArea.of(item, job, basis)))


def _asked(item: NewDrywall, area: WorkArea) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    yield f"{where} · level", item.level, "To which level is the board finished? Taken as level 4."
    yield f"{where} · light", item.light, "Does light fall along it from the side? Taken as even light."
    yield f"{where} · dry", item.dry, "Are board and compound dry? Taken as dry."
    for name, board in (("walls", item.walls), ("ceiling", item.ceiling)):
        if board.painted is not Answer.NO:
            yield f"{where} · {name} · sheen", board.sheen, "How is it to shine? Taken as flat."
            yield f"{where} · {name} · color_wanted", board.color_wanted, "Which color? It is ordered as one batch."
    yield opening_question(area, "None are masked or cut in round in this price.")
    yield from room_questions(area)
    yield f'rooms "{item.room}" · floor', area.room.room.floor, "What is underfoot? Taken as finished, and covered."


def drawings(item: NewDrywall, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return the ceiling where it is coated."""
    del item, job, basis
    return coated_ceilings(plan)


KIND = KindOfWork(NewDrywall, plans, questions, drawings=drawings)
