"""The proposal: what the client is offered, at what price and on what terms. What it costs the contractor is not in it.

Open questions are not in it either: they go to the contractor before it is sent (`before_sending`).
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from estimating.estimate.pricing.plan import Phase, Plan, Risk, Suitability
from estimating.estimate.pricing.room_prices import room_of
from estimating.reports.documents.by_day import days_for_client
from estimating.reports.documents.content import (
    BLANK,
    Block,
    Document,
    Frame,
    Section,
    Signatures,
    Text,
    bullets,
    facts,
    listed_words,
    paragraph,
    section,
    sentence,
)
from estimating.reports.documents.letterhead import letterhead, made_on, number_of, us_date, valid_through
from estimating.reports.documents.notices import TAIL, cautions_taken, client_notices
from estimating.reports.documents.options import side_by_side
from estimating.reports.documents.scope_of_work import capital, expected, scope_of_work
from estimating.reports.documents.tasks_in_words import in_phases, one_sentence
from estimating.reports.documents.terms_in_words import (
    acceptance_words,
    allowances,
    change_words,
    exclusions,
    own_words,
    payment_words,
    price_words,
    time_words,
    warranty_words,
)
from estimating.reports.format import UnitSystem, in_words
from estimating.workbook import Outcome

LEAD = "lead_paint"  # the caution of a building that may hold lead paint


def proposal(
    outcome: Outcome,
    on: date,
    shown: UnitSystem = UnitSystem.US,
    logo: Path | None = None,
) -> Document:
    """Return the proposal.

    on: the day it is made, unless the job file gives one.
    """
    offered = bool(outcome.estimate.schedule.tasks)
    head = (
        ("No.", number_of(outcome, on)),
        ("Date", us_date(made_on(outcome, on))),
        ("Valid through", us_date(valid_through(outcome, on))),
    )
    return Document(
        letterhead("Proposal", outcome, head, logo),
        (
            *_parties(outcome),
            *scope_of_work(outcome, shown),
            *side_by_side(outcome),
            *(_offer(outcome, shown) if offered else ()),
            *section("Good to know", bullets(client_notices(outcome)), dense=True),
            *(part for risks in _told(outcome) for part in _acknowledged(risks)),
            *(_lead_pamphlet(outcome) if offered else ()),
            *(_acceptance_of(outcome) if offered else ()),
        ),
        TAIL,
    )


def _parties(outcome: Outcome) -> tuple[Block, ...]:
    client, site = outcome.job.client, outcome.job.site
    prepared: Text = ", ".join(filter(None, (client.name, client.contact))) or BLANK
    found = facts([("Prepared for", prepared), ("Job site", site.address or BLANK)])
    return (found,) if found else ()


def _offer(outcome: Outcome, shown: UnitSystem) -> tuple[Section, ...]:
    time = [paragraph(each) for each in time_words(outcome)]
    days = facts(days_for_client(outcome.estimate.schedule))
    lists = (
        ("Before we start, please", _before_we_start(outcome)),
        ("Not included", exclusions(outcome)),
        ("Payment", payment_words(outcome)),
        ("Included in the price as an allowance", allowances(outcome, shown)),
        ("Warranty", warranty_words(outcome)),
        ("Changes and acceptance", [change_words(outcome), *acceptance_words(outcome, shown)]),
    )
    return (
        *section("What to expect of the preparation", bullets(expected(outcome)), dense=True),
        *section("About the price", *map(paragraph, price_words(outcome))),
        *section("How we protect your home and clean up", paragraph(_protection(outcome)), dense=True),
        *section("Conditions", bullets(_conditions(outcome, shown)), dense=True),
        *section("Schedule", *time, days, dense=True),
        *(part for heading, items in lists for part in section(heading, bullets(items), half=True, dense=True)),
    )


def _protection(outcome: Outcome) -> str:
    tasks = outcome.estimate.schedule.tasks
    before = one_sentence(in_phases(tasks, Phase.PROTECT, Phase.MASK))
    after = one_sentence(in_phases(tasks, Phase.UNMASK, Phase.CLEAN))
    own = own_words(outcome.job.terms.furniture, ())
    daily = "We leave the work area safe and tidy at the end of each day."
    return " ".join(
        filter(
            None, [before, *map(sentence, own), daily, f"At the end: {after[:1].lower()}{after[1:]}" if after else ""]
        )
    )


def _conditions(outcome: Outcome, shown: UnitSystem) -> list[str]:
    """Return the facts that the price rests on, each once, with the rooms where it is not true of all."""
    rooms: dict[str, dict[str, None]] = {}
    plans = [plan for plan in outcome.estimate.plans if plan.tasks]
    for plan in plans:
        for each in plan.findings:
            if each.suitability is Suitability.CONDITIONS:
                rooms.setdefault(in_words(each.text, shown), {})[room_of(plan) or plan.scope] = None
    every = {room_of(plan) or plan.scope for plan in plans}
    return [
        sentence(text if set(where) == every else f"{capital(listed_words(list(where)))}: {text}")
        for text, where in rooms.items()
    ]


def _before_we_start(outcome: Outcome) -> list[str]:
    asked = (each for plan in outcome.estimate.plans for each in plan.client_requirements)
    return [sentence(each) for each in dict.fromkeys(asked)]


def _told(outcome: Outcome) -> list[list[tuple[Plan, Risk]]]:
    """Return the risks in what was there before that the client is told in writing, those of one remedy together."""
    alike: dict[tuple[str, str], list[tuple[Plan, Risk]]] = {}
    for plan in outcome.estimate.plans:
        for risk in plan.risks:
            if risk.surface is not None and risk.surface.told:
                alike.setdefault((risk.title, risk.what_then), []).append((plan, risk))
    return list(alike.values())


def _acknowledged(risks: Sequence[tuple[Plan, Risk]]) -> tuple[Section, ...]:
    """Return what the client signs for: where it may happen, how likely it is, and what is done then."""
    first = risks[0][1]
    scopes = listed_words([plan.scope for plan, _ in risks])
    chances = dict.fromkeys(f"{risk.chance.value:.0%}" for _, risk in risks)
    tested = dict.fromkeys(sentence(risk.surface.tested) for _, risk in risks if risk.surface and risk.surface.tested)
    return section(
        f"Please read before you sign: {first.title[:1].lower()}{first.title[1:]}, {scopes}",
        paragraph(
            f"From what we could see and test, there is a chance of about {listed_words(list(chances))} that this "
            f"happens while we work on it. That figure is our judgment, not a measured rate. {' '.join(tested)} What "
            "is on the surface now, and how well it holds, is not covered by our warranty. If it happens: "
            f"{first.what_then}."
        ),
        Signatures(("I have read this and want the work to go ahead: client, date",)),
        dense=True,
        frame=Frame.BOX,
    )


def _lead_pamphlet(outcome: Outcome) -> tuple[Section, ...]:
    if all(each.key != LEAD for each in cautions_taken(outcome)):
        return ()
    return section(
        "Lead pamphlet",
        paragraph(
            "Federal rules ask that owners and occupants of homes built before 1978 get the lead-hazard pamphlet "
            "before work that disturbs paint (40 CFR 745.84). State and local rules may ask for more, and come first."
        ),
        Signatures(("I received the pamphlet before work began: client, date",)),
        dense=True,
        frame=Frame.BOX,
    )


def _acceptance_of(outcome: Outcome) -> tuple[Section, ...]:
    company = outcome.job.terms.contractor or "contractor"
    return section(
        "Acceptance",
        paragraph("I accept this proposal and its terms, and authorize the work."),
        Signatures(("Client, date", f"For {company}, date")),
        keep=True,
    )
