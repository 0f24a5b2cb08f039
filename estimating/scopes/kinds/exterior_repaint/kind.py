"""The methods to repaint the outside of a house: by brush and roller, or sprayed and back-brushed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from estimating.estimate.pricing.plan import Finding, Plan, Question, Supply
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.job.values import Answer
from estimating.scopes.kinds.exterior_repaint.facts import PRIMED_WHOLE, SPOTS, Outside, facts
from estimating.scopes.kinds.exterior_repaint.notes import Cladding, ExteriorRepaint
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared import coat, outdoors, prep, protection, weather
from estimating.scopes.shared.client_surfaces import with_surfaces
from estimating.scopes.shared.coat import Coating
from estimating.scopes.shared.exposure import Exposure
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.questions import Asked, opening_question, site_questions, unanswered
from estimating.scopes.shared.standing import agreed_first, declined
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours

VERBS = ("paint", "prime")
LEFT_ALONE = Exposure(worked=False, outside=True)


def plans(item: ExteriorRepaint, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan by hand, one for spraying the siding with back-brushing, and one for leaving it alone."""
    house = facts(item, WorkArea.of(item, job, basis))
    return (
        _plan(house, "brush", "Wash, make ready, prime and paint by brush and roller", sprayed=False),
        _plan(house, "spray_back_brush", "Wash, make ready, prime, spray and back-brush the siding", sprayed=True),
        _decline(house),
    )


def scope_name(house: Outside) -> str:
    """Return what the work is called in reports."""
    return f"outside, {house.item.room}"


def _plan(house: Outside, method: str, title: str, *, sprayed: bool) -> Plan:
    area, item = house.work_area, house.item
    coatings = house.coatings(coat.BACK_ROLLED if sprayed else coat.BRUSH)
    finish = coat.finish(coatings, house.dries)
    tasks = [
        *outdoors.plants(area, item.plants, f"{house.where} · plants"),
        house.washed,
        *house.ready,
        *house.primed.tasks,
        prep.caulk(house.at_work, house.joints),
        *(house.masked if sprayed else ()),
        *finish.tasks,
        *protection.tools(area, sprayed=sprayed),
    ]
    plan = Plan(
        scope=scope_name(house),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=(*house.primed.paint, *finish.paint),
        supplies=tuple(_supplies(house, sprayed)),
        charges=(protection.sprayer_by_the_day(area),) if sprayed else (),
        risks=tuple(map(coat.another_coat, coatings)),
        findings=(*_findings(house), *outdoors.for_moisture(area, item.moisture)),
        notes=tuple(_notes(house, coatings)),
    )
    coats = sum(each.planned for each in coatings) + house.whole_primer
    in_season = weather.in_season(_by_surface(plan, coatings), area, coats)
    return with_hazards(in_season, area, _exposure(house, coatings, sprayed))


def _by_surface(plan: Plan, coatings: Sequence[Coating]) -> Plan:
    """Return the plan with the surface of each task and coat as its client knows it."""
    names = {each.surface.key: each.surface.name for each in coatings}
    keys = {
        f"{verb}_{member.key}": each.surface.name
        for each in coatings
        for member in each.surface.members
        for verb in VERBS
    }

    def of_task(key: str) -> str:
        return keys.get(key.rpartition("_")[0]) or names.get(key.removeprefix("loose_paint_"), "")

    def of_paint(purpose: str) -> str:
        if purpose.startswith(SPOTS):  # no coat of it
            return ""
        return next((name for name in names.values() if purpose.endswith(name)), "")

    return with_surfaces(plan, of_task, of_paint)


def _exposure(house: Outside, coatings: Sequence[Coating], sprayed: bool) -> Exposure:
    failing = tuple(each.surface.name for each in coatings if house.failing_percent(each.surface.key))
    mildew = house.item.mildew is not Answer.NO
    return Exposure(
        sprayed=sprayed,
        old_paint=house.disturbed,
        failing=failing,
        top=house.sides.top,
        top_name="siding and eaves",
        outside=True,
        ground=house.sides.ground,
        passes=2 + max(each.planned for each in coatings),
        cleaners="cleaner with bleach against mildew" if mildew else "",
        power_washed=True,
    )


def _supplies(house: Outside, sprayed: bool) -> Iterator[Supply]:
    area = house.work_area
    yield outdoors.chemical(area, "cleaner", "gallon", "House cleaner, mixed", house.skin)
    yield from outdoors.against_splash(area)
    yield from prep.supplies(area, run=house.joints, mended=False)
    yield area.bought(
        "razor_blades", "pack", "Scraper blades, a pack", 1.0, "one pack a house", once=protection.THE_JOB
    )
    yield area.bought("brush", "each", "Siding brush", 2.0, "two a house", once=protection.THE_JOB)
    yield area.bought("drop_cloth", "each", "Ground cloths", 4.0, "four along a wall", once=protection.THE_JOB)
    if sprayed:
        yield from house.film()
        yield from protection.against_mist(area, once=protection.THE_JOB)


def _findings(house: Outside) -> Iterator[Finding]:
    """Yield what the old paint and the weathering of bare wood set as conditions."""
    item = house.item
    failing = [name for name in ("siding", "trim") if house.failing_percent(name) >= PRIMED_WHOLE]
    if failing:
        text = f"the {' and '.join(failing)} may have to be stripped: a trial spot is scraped first, and shown"
        yield agreed_first(text)
    if item.walls.chalky is Answer.YES:
        yield agreed_first("chalk is washed until a dark cloth stays nearly clean, or the siding is primed all over")


def _notes(house: Outside, coatings: Sequence[Coating]) -> Iterator[str]:
    yield "bare wood is primed within two weeks of being bared, and painted within two weeks of that"
    if any(each.planned < 2 for each in coatings):
        yield "primer and two coats of paint last about twice as long as primer and one"
    yield "caulk goes in after the primer, where wood meets wood; the laps of siding are left open to dry"
    if house.cladding is Cladding.SHINGLE:
        yield "rough shingles are brushed out so that the paint wets the grain, whatever it is put on with"
    yield "rotten boards, gutters that leak and wood in contact with soil are mended first, at a price of their own"


def _decline(house: Outside) -> Plan:
    return declined(
        house.work_area,
        LEFT_ALONE,
        scope=scope_name(house),
        verb="paint it",
        asked_of_client="have leaks, rot and loose siding mended before it is painted",
        last_resort="the siding is wet, or its paint comes off in sheets",
    )


def questions(item: ExteriorRepaint, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return unanswered(_asked(item, WorkArea.of(item, job, basis)))


def _asked(item: ExteriorRepaint, area: WorkArea) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    yield f"{where} · cladding", item.cladding, "Lap, board and batten, shingle or panel? Taken as lap siding."
    yield (
        f"{where} · elevations",
        item.elevations,
        "How wide and high is each side? Taken as the outline times its height.",
    )
    yield f"{where} · mildew", item.mildew, "Does mildew grow on it? Taken as yes: the wash has bleach in it."
    yield f"{where} · moisture", item.moisture, "What does the meter read? It is read on the day."
    yield f"{where} · joints_feet", item.joints_feet, "How many feet of open joints? Taken round doors and windows."
    yield f"{where} · stands_on", item.stands_on, "Is the ground level or sloping? Taken as level."
    yield f"{where} · plants", item.plants, "How much ground under plants is covered? None is planned for."
    for name, notes in (("walls", item.walls), ("trim", item.trim)):
        if notes.painted is not Answer.NO:
            failing = "How much of its paint fails, in percent? None is scraped in this price."
            yield f"{where} · {name} · failing_percent", notes.failing_percent, failing
            yield f"{where} · {name} · color_wanted", notes.color_wanted, "Which color? It is ordered as one batch."
    if item.trim.painted is not Answer.NO:
        for part in ("soffit_depth", "edges", "doors", "windows", "shutters"):
            text = f"What is painted of it: {part.replace('_', ' ')}? None is in this price."
            yield f"{where} · trim · {part}", getattr(item.trim, part), text
    yield opening_question(area, "None are taken off the siding in this price.")
    yield from weather.season_questions(area)
    yield from site_questions(area)


KIND = KindOfWork(ExteriorRepaint, plans, questions)
