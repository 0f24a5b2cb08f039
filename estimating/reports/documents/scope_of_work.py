"""The scope of work as a client reads it: room by room, each surface with its product, color, coats and price."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.estimate.pricing.plan import Phase, Plan, Suitability, Supply
from estimating.estimate.pricing.room_prices import ALSO, RoomPrice, room_of, room_prices
from estimating.job.room import LShape, Polygon, Room
from estimating.reports.documents.content import (
    Block,
    Rank,
    Row,
    Section,
    Text,
    bullets,
    counted,
    listed_words,
    paragraph,
    section,
    sentence,
    small,
    strong,
    table,
)
from estimating.reports.documents.tasks_in_words import coats, in_phases, one_sentence, surfaces_of
from estimating.reports.documents.time_and_materials import by_time, cap_words
from estimating.reports.format import UnitSystem, in_words, plain_dollars, quantity
from estimating.workbook import Outcome

PREPARATION = (Phase.TEST, Phase.REMOVE, Phase.PREPARE, Phase.PRIME)
HEAD = ("Room and surface", "Product and color", "Coats", "Price")


def scope_of_work(outcome: Outcome, shown: UnitSystem) -> tuple[Section, ...]:
    """Return the rooms, their surfaces and their prices, which add up to the price of the job."""
    prices = room_prices(outcome.estimate)
    rows = [row for price in prices for row in _room_rows(price, outcome, shown)]
    head = (*HEAD[:3], "Estimate") if by_time(outcome) else HEAD
    total = Row(("Total", "", "", plain_dollars(outcome.estimate.price)), Rank.TOTAL)
    return section(
        "Scope of work and price", table(head, [*rows, total, *_cap(outcome)], "llnr"), *_not_offered(outcome)
    )


def _cap(outcome: Outcome) -> list[Row]:
    return [Row(("Not to exceed", "", "", cap_words(outcome)), Rank.TOTAL)] if by_time(outcome) else []


def _room_rows(price: RoomPrice, outcome: Outcome, shown: UnitSystem) -> list[Row]:
    plans = [plan for plan in outcome.estimate.plans if plan.tasks and room_of(plan) == price.room]
    head: Text = (strong(capital(price.room)), small(f"  {_size(outcome, price.room)}"))
    surfaces = [row for plan in plans for row in _surface_rows(plan, price)]
    own = {each.text for each in outcome.job.extra if (each.room or ALSO) == price.room}
    surfaces += [
        Row((capital(text), "", "", plain_dollars(price.surfaces[text]))) for text in price.surfaces if text in own
    ]
    return [
        Row((head, plain_dollars(price.price)), Rank.GROUP),
        *surfaces,
        *(Row((small(said),), Rank.GROUP) for said in _preparation(plans, shown)),
    ]


def _surface_rows(plan: Plan, price: RoomPrice) -> list[Row]:
    rows = []
    for name in surfaces_of(plan) or [""]:
        amount = price.surfaces.get(name, Decimal(0))
        chosen = [(each.title, amount_of(each)) for each in chosen_goods(plan)]
        used = coats(each for each in plan.materials if each.surface == name)
        first, *rest = [*chosen, *used] or [(plan.title, "")]
        rows.append(Row((capital(name or plan.scope.split(",")[0]), *first, plain_dollars(amount) if name else "")))
        rows += [Row(("", *each, "")) for each in rest]
    return rows


def chosen_goods(plan: Plan) -> list[Supply]:
    """Return what was chosen for this job, at a price of its own."""
    return [each for each in plan.supplies if each.chosen]


def amount_of(supply: Supply) -> str:
    """Return how much of something is hung: 9 rolls, or a length."""
    return quantity(supply.need.value, supply.need.unit)


def _preparation(plans: Sequence[Plan], shown: UnitSystem) -> list[str]:
    """Return the preparation in a room, all of one level together."""
    levels: dict[str, list[Plan]] = {}
    for plan in plans:
        levels.setdefault(f", {plan.preparation}" if plan.expected else "", []).append(plan)
    said = {level: _tasks_of(several) for level, several in levels.items()}
    return [f"Preparation{level}: {in_words(text, shown)}" for level, text in said.items() if level or text]


def _tasks_of(plans: Sequence[Plan]) -> str:
    tasks = [task for plan in plans for task in plan.tasks]
    said = one_sentence(in_phases(tasks, *PREPARATION)) or "nothing beyond painting."
    known = any(in_phases(plan.tasks, *PREPARATION) or plan.expected for plan in plans)
    return f"{said[:1].lower()}{said[1:]}" if known else ""


def expected(outcome: Outcome) -> list[str]:
    """Return what each level of preparation in the job promises, once."""
    return list(dict.fromkeys(each for plan in outcome.estimate.plans for each in plan.expected))


def _not_offered(outcome: Outcome) -> list[Block | None]:
    """Return what is said of work that cannot be offered as the notes stand, with the reasons."""
    said: list[Block | None] = []
    for plan in outcome.estimate.plans:
        closed = [sentence(each.text) for each in plan.findings if each.suitability is Suitability.CLOSED]
        if not plan.finishes or closed:
            said.append(
                paragraph((strong(f"{capital(plan.scope)}: "), "we do not offer to coat or cover it as it is."))
            )
            said.append(bullets(closed))
    return said


def capital(text: str) -> str:
    """Return a text with a capital at its start."""
    return f"{text[:1].upper()}{text[1:]}"


def _size(outcome: Outcome, name: str) -> str:
    return room_words(outcome.job.room(name)) if name and name != ALSO else ""


def room_words(room: Room) -> str:
    """Return a room in words: its size as it was taped, its doors and windows by count."""
    shape = room.shape
    if isinstance(shape, Polygon):
        size = f"a room of {len(shape.corners)} corners"
    else:
        size = f"{shape.length} × {shape.width}"
        if isinstance(shape, LShape):
            size += f", less a corner of {shape.notch_length} × {shape.notch_width}"
    height = f"{room.height} high" if room.height else ""
    openings = [counted(each.count, str(each.kind)) for each in room.openings or ()]
    return ", ".join(filter(None, [size, height, listed_words(openings)]))
