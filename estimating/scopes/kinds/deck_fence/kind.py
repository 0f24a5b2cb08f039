"""The methods to finish a deck or fence: washed, stripped or sanded bare, and stained by hand or sprayed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Finding, Plan, Question, Suitability, Supply, Task
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.job.values import Answer
from estimating.scopes.kinds.deck_fence.facts import PRODUCTS, DeckWork, facts
from estimating.scopes.kinds.deck_fence.notes import DeckFence, Finish, OldFinish
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared import coat, outdoors, protection, weather
from estimating.scopes.shared.client_surfaces import with_surfaces
from estimating.scopes.shared.coat import Coating
from estimating.scopes.shared.exposure import Exposure
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.products import DRYING_OILS
from estimating.scopes.shared.questions import Asked, site_questions, unanswered
from estimating.scopes.shared.standing import agreed_first, declined
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours

REACHED = 4.0  # ft: boards above it are worked at from a ladder on the outside
LEFT_ALONE = Exposure(worked=False, outside=True)


@dataclass(frozen=True)
class Method:
    """One method: how the wood is got ready, and with which tool it is coated."""

    key: str
    title: str
    ready: str  # wash, strip or sand
    sprayed: bool = False


METHODS = (
    Method("wash", "Wash, brighten and stain by hand", "wash"),
    Method("strip", "Strip the old finish, brighten and stain by hand", "strip"),
    Method("sand", "Wash, sand bare and stain by hand", "sand"),
    Method("spray_back_brush", "Wash, brighten, spray the stain and back-brush it", "wash", sprayed=True),
)


def plans(item: DeckFence, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for each method, and one for leaving it alone."""
    deck = facts(item, WorkArea.of(item, job, basis, flat=True))
    return (*(_plan(deck, method) for method in METHODS), _decline(deck))


def scope_name(deck: DeckWork) -> str:
    """Return what the work is called in reports."""
    return f"deck and fence, {deck.item.room}"


def _plan(deck: DeckWork, method: Method) -> Plan:
    area, place = deck.work_area, f"{deck.where} · plants"
    coatings = deck.coatings(coat.BACK_ROLLED if method.sprayed else coat.ROLLER)
    finish = coat.finish(coatings, deck.dries)
    tasks = [
        *outdoors.plants(area, deck.item.plants, place),
        *_made_ready(deck, method),
        *finish.tasks,
        *protection.tools(area, sprayed=method.sprayed),
    ]
    plan = Plan(
        scope=scope_name(deck),
        method=method.key,
        title=method.title,
        tasks=drop_zero_hours(tasks),
        materials=tuple(finish.paint),
        supplies=tuple(_supplies(deck, method)),
        charges=(protection.sprayer_by_the_day(area),) if method.sprayed else (),
        risks=tuple(map(coat.another_coat, coatings)),
        findings=(*_findings(deck, method), *outdoors.for_moisture(area, deck.item.moisture)),
        notes=tuple(_notes(deck)),
    )
    in_season = weather.in_season(_by_surface(plan, coatings), area, deck.coats.finish)
    return with_hazards(in_season, area, _exposure(deck, method))


def _by_surface(plan: Plan, coatings: Sequence[Coating]) -> Plan:
    """Return the plan with the surface of each coat as its client knows it; washing serves the whole place."""
    keys = {f"stain_{member.key}": each.surface.name for each in coatings for member in each.surface.members}

    def of_task(key: str) -> str:
        return keys.get(key.rpartition("_")[0], "")

    def of_paint(purpose: str) -> str:
        return next((each.surface.name for each in coatings if purpose.endswith(f"the {each.surface.name}")), "")

    return with_surfaces(plan, of_task, of_paint)


def _made_ready(deck: DeckWork, method: Method) -> tuple[Task, ...]:
    if method.ready == "strip":
        return deck.stripped, deck.brightened, deck.smoothed
    if method.ready == "sand":
        return outdoors.dried(deck.work_area, deck.washed), deck.sanded
    return deck.washed, deck.brightened, deck.smoothed


def _exposure(deck: DeckWork, method: Method) -> Exposure:
    item = deck.item
    sanded = method.ready == "sand" or item.boards.coated is not Answer.NO
    film = deck.old_finish is OldFinish.FILM
    bare = deck.old_finish is OldFinish.NONE
    high = item.above_ground
    top = None if high is None or high.value < REACHED else deck.rail_top
    chemicals = {"strip": "stripper with lye and acid to brighten", "wash": "bleach cleaner, and acid to brighten"}
    return Exposure(
        sprayed=method.sprayed,
        old_paint=deck.skin if film or (not bare and (sanded or method.ready == "strip")) else None,
        failing=("old finish of the deck",) if film else (),
        top=top,
        top_name="deck railing",
        outside=True,
        ground=deck.ground,
        passes=2 + deck.coats.finish,
        cleaners=chemicals.get(method.ready, "bleach cleaner"),
        treated_wood=sanded and item.treated_before_2004 is not Answer.NO,
        power_washed=True,
    )


def _supplies(deck: DeckWork, method: Method) -> Iterator[Supply]:
    area = deck.work_area
    yield from deck.chemicals(stripped=method.ready == "strip", brightened=method.ready != "sand")
    if method.ready == "sand":
        yield area.bought("sandpaper", "pack", "Sandpaper", 2.0, "two packs for bare wood", once="a deck")
    if method.sprayed:
        yield from protection.against_mist(area, once=protection.THE_JOB)
    product = PRODUCTS[deck.finish]
    yield area.bought("brush", "each", "Stain brush", 1.0, "one a job", once=f"stain, {product}")
    yield area.bought("rags", "box", "Rags, a box", 1.0, "one box a job", once=protection.THE_JOB)


def _findings(deck: DeckWork, method: Method) -> Iterator[Finding]:
    """Yield what the old finish and the wood have against getting it ready in this manner."""
    item, finish, old = deck.item, deck.finish, deck.old_finish
    only_washed = method.ready == "wash"
    if only_washed and old is OldFinish.FILM:
        yield Finding(
            Suitability.CLOSED, "the old film peels: what goes over it comes off with it; strip or sand first"
        )
    if only_washed and item.water_soaks_in is Answer.NO:
        yield Finding(
            Suitability.CLOSED, "water stands on the wood: stain does not go in; strip, sand or let it weather"
        )
    if only_washed and old is OldFinish.WORN and finish is Finish.CLEAR:
        yield agreed_first("a clear finish over worn stain shows where the stain is left")
    if method.ready == "strip" and old is OldFinish.NONE:
        yield Finding(Suitability.CLOSED, "there is no finish to strip")
    if finish is Finish.SOLID and item.boards.coated is not Answer.NO:
        yield agreed_first("a solid stain is a film and peels first where it is walked on")


def _notes(deck: DeckWork) -> Iterator[str]:
    product = PRODUCTS[deck.finish]
    years = deck.work_area.basis.figure("climate", "service_life", product)
    kind = deck.finish.value
    yield f"a {kind} finish is done again after {years.low:.0f} to {years.high:.0f} years, as sun and feet decide"
    if product in DRYING_OILS:
        yield "no more stain than the wood takes up: what still stands after an hour is wiped off"
    if product in DRYING_OILS and deck.coats.finish > 1:
        yield "the label says whether the second coat goes on while the first is wet; dry, it may not go in at all"
    yield "boards are coated on top, at their ends and as far down their edges as a brush reaches; undersides are not"


def _decline(deck: DeckWork) -> Plan:
    return declined(
        deck.work_area,
        LEFT_ALONE,
        scope=scope_name(deck),
        verb="coat it",
        asked_of_client="have rotten, loose or cracked boards replaced before it is coated",
        last_resort="the wood is rotten, or cannot dry",
    )


def questions(item: DeckFence, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return unanswered(_asked(item, WorkArea.of(item, job, basis, flat=True)))


def _asked(item: DeckFence, area: WorkArea) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    yield f"{where} · finish", item.finish, "Clear, semitransparent or solid? Taken as semitransparent."
    yield f"{where} · wood", item.wood, "Planed, rough sawn or weathered gray? Taken as weathered."
    yield f"{where} · old_finish", item.old_finish, "What is on the wood now? Taken as worn stain."
    yield f"{where} · water_soaks_in", item.water_soaks_in, "Does a drop of water soak in within minutes? Taken as yes."
    yield f"{where} · moisture", item.moisture, "What does the meter read? It is read on the day."
    yield f"{where} · stain · color_wanted", item.stain.color_wanted, "Which color? It is ordered as one batch."
    yield f"{where} · plants", item.plants, "How much ground under plants is covered? None is planned for."
    for part in ("railings", "stairs", "lattice", "fences"):
        yield f"{where} · {part}", getattr(item, part), f"Are there any {part}? None are in this price."
    treated = "Was the wood treated before 2004? Where it is sanded, taken as if it was."
    yield f"{where} · treated_before_2004", item.treated_before_2004, treated
    yield from weather.season_questions(area)
    yield from site_questions(area)


KIND = KindOfWork(DeckFence, plans, questions)
