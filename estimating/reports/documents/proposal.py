"""The proposal: what the client is offered, at what price and on what terms. What it costs the contractor is not in it.

Wording that the job file gives under `terms` stands in place of the usual wording.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.plan import Audience, Part, Plan, Risk, Suitability, Supply, Task
from estimating.estimate.uncertainty.ranges import Spread
from estimating.job.room import Fixtures, LShape, Polygon, Room
from estimating.origins import Kind, Origin
from estimating.reports.documents.page import (
    BLANK,
    Html,
    assumed,
    caution_items,
    cautions_taken,
    facts,
    grid,
    html,
    joined,
    listed,
    page,
    paragraph,
    section,
    sentences,
    signed,
    small,
)
from estimating.reports.format import UnitSystem, dollars, in_words, length, number, quantity
from estimating.reports.panes.selling import hourly_charge
from estimating.units import convert
from estimating.workbook import Outcome

NTH_COAT, COATS = re.compile(r"\bcoat \d+"), "\0"
INTERNAL_QUESTIONS = frozenset({"site · travel_minutes"})
EXCLUSIONS = (
    "damage that cannot be seen before the work: rot, damp, mold, board or plaster that is loose behind the surface",
    "material that may hold asbestos or lead, beyond what this paper says of it: that is for licensed firms",
    "defects that were there before and are not named under preparation",
    "electrical, gas and sprinkler work, and anything that has to be opened or taken down by somebody licensed",
    "damage by others once the work is done; colors and samples beyond those named here",
)
WARRANTY_LIMITS = (
    "Not covered: damp and movement of the building, wear, damage by others, and paint or goods the client supplies",
    "Rights that the law gives the client stay as they are",
)


def proposal(outcome: Outcome, on: date, shown: UnitSystem = UnitSystem.US, price_range: Spread | None = None) -> Html:
    """Return the proposal as a printable document.

    on: the day it is made, unless the job file gives one. price_range: given where the contractor chooses to show it.
    """
    return page(
        "Proposal",
        outcome,
        _parties(outcome, on),
        *(_not_to_be_sent(plan) for plan in outcome.estimate.plans),
        *(_piece_of_work(plan, outcome, shown) for plan in outcome.estimate.plans),
        *(_offer(outcome, shown, price_range) if outcome.estimate.schedule.tasks else ()),
        section("For the household to know", _household(outcome, shown)),
        section("Still open", listed(_open(outcome))),
        *(_acknowledged(plan, risk, outcome) for plan, risk in _marginal(outcome)),
        signed("Client", "Contractor") if outcome.estimate.schedule.tasks else "",
    )


def _parties(outcome: Outcome, on: date) -> Html:
    job, terms = outcome.job, outcome.job.terms
    made = date.fromisoformat(terms.dated) if terms.dated else on
    stands = assumed(outcome, "business", "validity")
    days = (
        terms.validity_days
        if terms.validity_days is not None
        else round(float(convert(stands.value, stands.unit, "day")))
    )
    until = made + timedelta(days=days)
    return facts(
        [
            ("Client", joined(job.client.name or BLANK, f", {job.client.contact}" if job.client.contact else "")),
            ("Contractor", joined(terms.contractor or BLANK, f", {terms.license}" if terms.license else "")),
            ("Site", job.site.address or BLANK),
            ("Date", made.isoformat()),
            ("Stands until", f"{until.isoformat()} ({days} days)"),
        ]
    )


def _not_to_be_sent(plan: Plan) -> Html:
    closed = [reason.text for reason in plan.findings if reason.suitability is Suitability.CLOSED]
    if not closed:
        return Html("")
    return section(
        f"Not to be sent: {plan.title}, {plan.scope}",
        paragraph("This way may not be used here as the notes stand:"),
        listed(closed),
        kind="box stop",
    )


def _piece_of_work(plan: Plan, outcome: Outcome, shown: UnitSystem) -> Html:
    names = dict.fromkeys(task.room for task in plan.tasks if task.room)
    conditions = [in_words(each.text, shown) for each in plan.findings if each.suitability is Suitability.CONDITIONS]
    tasks = [(str(part), _titles(plan.tasks, part)) for part in Part]
    refused = () if plan.finishes else (paragraph("We do not offer to coat or cover it.", "sum"),)
    goods = "; ".join(f"{each.title}: {quantity(each.need.value, each.need.unit, shown)}" for each in _chosen(plan))
    return section(
        f"{plan.scope[:1].upper()}{plan.scope[1:]}: {plan.title}",
        *refused,
        facts([(name, room_words(outcome.job.room(name))) for name in names] + tasks + [("Goods", goods)]),
        _coats(plan),
        paragraph("No preparation beyond what is listed is part of the price.") if plan.tasks else "",
        _under("Conditions", conditions),
        _under("What is asked of the household", plan.client_requirements),
    )


def _chosen(plan: Plan) -> list[Supply]:
    """Return the goods that were chosen for this job: their price is its own, and in no price list."""
    return [each for each in plan.supplies if each.chosen]


def _under(heading: str, items: Sequence[str]) -> Html:
    return joined(Html(f"<h3>{html(heading)}</h3>"), listed(items)) if items else Html("")


def _titles(tasks: Iterable[Task], part: Part) -> str:
    """Return what is done in a part of the work; care of the tools is no work on the house."""
    done = (task.title for task in tasks if task.phase.part is part and not task.for_tools)
    return "; ".join(in_coats(done))


def in_coats(said: Iterable[str]) -> list[str]:
    """Return what is said of one coat after the other with the coats counted: Roll the walls, 2 coats."""
    counts = Counter(NTH_COAT.sub(COATS, each) for each in dict.fromkeys(said))
    return [each.replace(COATS, counted_words(count, "coat")) for each, count in counts.items()]


def _coats(plan: Plan) -> Html:
    """Return each product and what it coats; paint that stays in the tools coats nothing."""
    used: dict[tuple[str, str], list[str]] = {}
    for material in plan.materials:
        if not material.stays_in_tools:
            used.setdefault((material.title, material.color), []).append(material.purpose)
    rows = [[title, color or "–", "; ".join(in_coats(purposes))] for (title, color), purposes in used.items()]
    return grid(("Product", "Color", "Coats"), rows)


def room_words(room: Room) -> str:
    """Return a room in words: its size as it was taped, its openings and fixtures by count."""
    shape = room.shape
    if isinstance(shape, Polygon):
        size = f"a room of {len(shape.corners)} corners"
    else:
        size = f"{shape.length} × {shape.width}"
        if isinstance(shape, LShape):
            size += f", less a corner of {shape.notch_length} × {shape.notch_width}"
    height = f"{room.height} high" if room.height else ""
    openings = [counted_words(each.count, str(each.kind)) for each in room.openings or ()]
    return "; ".join(filter(None, [size, height, ", ".join([*openings, *fixtures_words(room.fixtures)])]))


def fixtures_words(fixtures: Fixtures) -> list[str]:
    """Return the fixtures that were counted and are there."""
    counts = {name: getattr(fixtures, name) for name in type(fixtures).model_fields}
    return [counted_words(count, name.replace("_", " ")) for name, count in counts.items() if count]


def counted_words(count: int, name: str) -> str:
    """Return a number of like things: 1 door, 2 doors."""
    return f"{count} {name}{'' if count == 1 else 's'}"


def _offer(outcome: Outcome, shown: UnitSystem, price_range: Spread | None) -> list[Html]:
    terms = outcome.job.terms
    return [
        section("Time", *map(paragraph, _time(outcome))),
        section(
            "Price", paragraph(dollars(outcome.estimate.price), "sum"), *map(paragraph, _price(outcome, price_range))
        ),
        section("Allowed for in the price", listed(_allowances(outcome, shown))),
        section("Not in the price", listed(sentences(terms.exclusions, EXCLUSIONS))),
        section("When the work is accepted", _acceptance(outcome, shown)),
        section("Changes", *map(paragraph, _changes(outcome))),
        section("Payment", listed(_payment(outcome))),
        section("Warranty", listed(_warranty(outcome))),
    ]


def _time(outcome: Outcome) -> list[str]:
    terms, plan = outcome.job.terms, outcome.estimate.schedule
    people = round(plan.crew.value)
    start = " and ".join(filter(None, (terms.start_earliest, terms.start_latest)))
    moved = [task.title for task in plan.tasks if task.moves_furniture]
    usual = "The contractor moves and covers what stands in the room" if moved else "The room is empty when work starts"
    return [
        f"{number(plan.days.value)} days on site with {people} {'person' if people == 1 else 'people'}, drying and "
        "settling between the coats included.",
        f"Start: {'between ' if ' and ' in start else ''}{start}." if start else "Start: to be agreed.",
        f"Working hours: {terms.working_hours}." if terms.working_hours else "",
        f"Furniture: {'; '.join(sentences(terms.furniture, (usual,)))}.",
    ]


def _price(outcome: Outcome, price_range: Spread | None) -> list[str]:
    tax = sum_of(outcome.estimate.section(Section.SALES_TAX))
    said = [f"Of this, {dollars(tax)} is tax charged on the price." if tax else ""]
    if price_range is not None:
        said.append(
            f"Eight times in ten, work like this priced with everything known comes out between "
            f"${price_range.low:,.0f} and ${price_range.high:,.0f}; the price above stands as written, and "
            "changes only by a change order signed by both."
        )
    return said


def _allowances(outcome: Outcome, shown: UnitSystem) -> list[Html]:
    terms = outcome.job.terms
    if terms.allowances is not None:
        return list(map(html, sentences(terms.allowances, ())))
    alike: dict[tuple[bool, str], dict[str, None]] = {}
    for risk in (risk for plan in outcome.estimate.plans for risk in plan.risks):
        alike.setdefault((risk.surface is not None, risk.what_then), {})[risk.title] = None
    area = BLANK if terms.mended_square_feet is None else quantity(terms.mended_square_feet, "ft**2", shown)
    capped = joined("putting right up to ", area, " of it is in the price; more is a change order.")
    return [
        joined(
            f"{'; '.join(titles)}: ",
            capped if of_the_surface else "an allowance for this is in the price.",
            f" What is done then: {then}." if then else "",
        )
        for (of_the_surface, then), titles in alike.items()
    ]


def _acceptance(outcome: Outcome, shown: UnitSystem) -> Html:
    own = outcome.job.terms.acceptance
    if own is not None:
        return listed(sentences(own, ()))
    distance = assumed(outcome, "business", "acceptance_distance")
    feet = float(convert(distance.value, distance.unit, "ft"))
    near = length(feet, shown) if shown is UnitSystem.METRIC else quantity(distance.value, distance.unit)
    return joined(
        paragraph(
            f"Both look at the finished work together from {near} or more, without magnification, in the light the "
            "room will have, from where people stand. What is found is written on one list and put right once."
        ),
        paragraph(small(f"Rests on: {_how_seen(distance.origin, outcome)}")),
    )


def _how_seen(origin: Origin, outcome: Outcome) -> str:
    """Return the sources of a figure by title and number, each with how much of it was read."""
    if origin.kind is not Kind.PUBLISHED:
        return f"{origin.kind}."
    sources = [outcome.basis.library.sources[key] for key in origin.source.split("; ")]
    return " ".join(f"{each['title']} ({each.get('number', each['type'])}). {each['note']}" for each in sources)


def _changes(outcome: Outcome) -> list[Html]:
    own = outcome.job.terms.change_rate
    charge = hourly_charge(outcome.estimate) if own is None else own.value
    rate = html(f"{dollars(charge)} an hour") if charge is not None else joined(BLANK, " an hour")
    return [
        html(
            "A change is written down and signed by both before it is done, with what it does to the price and to the "
            "days."
        ),
        joined("Rate for changes: ", rate, ", and what is bought for them."),
    ]


def _payment(outcome: Outcome) -> list[str]:
    state = outcome.job.site.state
    law = (
        f"Deposits, notices, license numbers and liens follow the law of {state}: what it says there comes before "
        "this paper, and is to be looked up before it is signed."
        if state
        else "The state is not recorded. Many limit deposits and ask for notices or a license number on this paper: "
        "ask for the state and look its law up before anything is paid. No deposit is asked for here."
    )
    usual = f"One payment after the final walk and its list: {dollars(outcome.estimate.price)}"
    return [*sentences(outcome.job.terms.payment, (usual,)), law]


def _warranty(outcome: Outcome) -> list[Html]:
    own = outcome.job.terms.warranty
    if own is not None:
        return [html(each) for each in sentences(own, ())]
    return [joined("Workmanship: ", BLANK, " from the final walk"), *map(html, WARRANTY_LIMITS)]


def _household(outcome: Outcome, shown: UnitSystem) -> Html:
    return caution_items(
        [each for each in cautions_taken(outcome) if each.audience is Audience.EVERYONE], outcome, shown
    )


def _open(outcome: Outcome) -> list[str]:
    return [each.text for each in outcome.questions if each.field not in INTERNAL_QUESTIONS]


def _marginal(outcome: Outcome) -> list[tuple[Plan, Risk]]:
    """Return the risks in what was there before that are large enough for the client to be told in writing."""
    risks = [(plan, risk) for plan in outcome.estimate.plans for risk in plan.risks]
    return [(plan, risk) for plan, risk in risks if risk.surface is not None and risk.surface.told]


def _acknowledged(plan: Plan, risk: Risk, outcome: Outcome) -> Html:
    tested = f"{risk.surface.tested}." if risk.surface and risk.surface.tested else ""
    return section(
        f"Told before signing: {risk.title.lower()}, {plan.scope}",
        paragraph(
            f"What is known of the surface leaves a chance of about {risk.chance.value:.0%} that this happens while "
            f"it is worked on. The figure is a judgment, not a measured rate. {tested}"
        ),
        paragraph(
            "The client has been told, and chooses to go ahead. What was on the surface before, and how well it "
            f"holds, is no part of the warranty. If it happens: {risk.what_then}."
        ),
        signed("Client has read this"),
        kind="box",
    )
