"""What the contractor settles before a proposal goes out: gaps in it, open questions, old prices, and the risk in it.

For the contractor alone: cost and profit are on it.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from estimating.estimate.pricing.plan import Question, Suitability
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.price_risk import risk_at_price
from estimating.evidence import BUSINESS
from estimating.records.business import RATES
from estimating.reports.documents.content import Document, bullets, facts, section, sentence, table
from estimating.reports.documents.letterhead import letterhead, us_date
from estimating.reports.documents.options import rooms_by_themselves
from estimating.reports.documents.shopping_list import stale_prices
from estimating.reports.documents.time_and_materials import by_time, cap_at_risk
from estimating.reports.format import dollars, quantity
from estimating.workbook import Outcome


def before_sending(outcome: Outcome, sure: EstimateRanges, on: date) -> Document:
    """Return the list of what to settle before the proposal is sent."""
    blocking = [each for each in outcome.questions if each.blocks]
    others = [each for each in outcome.questions if not each.blocks]
    return Document(
        letterhead("Before you send", outcome, (("Date", us_date(on)),)),
        (
            *section("Put right first", bullets((*_closed(outcome), *map(_asked, blocking)))),
            *section("Still blank in the proposal", bullets(_blanks(outcome))),
            *section("Open questions, and what the price takes for now", bullets(map(_asked, others))),
            *section("Old prices", bullets(stale_prices(outcome, on))),
            *section("What you risk", facts(_risk(outcome, sure))),
            *section("What you know and the range of the cost does not", bullets(_not_yet_known(outcome))),
            *section("Each room by itself", table(ROOM_HEAD, _rooms(outcome), "lrrr")),
        ),
        "For the contractor. Not for the client.",
    )


ROOM_HEAD = ("Room", "In this job", "By itself", "Added to the rest")


def _rooms(outcome: Outcome) -> list[tuple[str, ...]]:
    return [
        (each.room, dollars(each.here), dollars(each.alone), dollars(each.added))
        for each in rooms_by_themselves(outcome)
    ]


def _asked(question: Question) -> str:
    return f"{question.field}: {question.text}"


def _closed(outcome: Outcome) -> Iterator[str]:
    for plan in outcome.estimate.plans:
        closed = [each.text for each in plan.findings if each.suitability is Suitability.CLOSED]
        if closed:
            yield sentence(f"{plan.scope}, {plan.title.lower()}: not recommended here: {'; '.join(closed)}")
        elif not plan.finishes:
            yield sentence(f"{plan.scope}: no method is OK here, so the proposal declines it")


def _blanks(outcome: Outcome) -> Iterator[str]:
    job, terms = outcome.job, outcome.job.terms
    gaps = (
        (terms.contractor, "Your company's name (terms · contractor)"),
        (terms.contractor_contact, "How to reach you (terms · contractor_contact)"),
        (terms.license, "Your license number, where the state asks for one (terms · license)"),
        (job.client.name, "The client's name (client · name)"),
        (job.site.address, "The address (site · address)"),
        (job.site.state, "The state, whose law on deposits and notices you look up (site · state)"),
        (terms.warranty, "How long you warrant your work (terms · warranty)"),
        (terms.start_earliest, "When you can start (terms · start_earliest)"),
        (terms.not_to_exceed or not by_time(outcome), "The price that is not exceeded (terms · not_to_exceed)"),
        (terms.stages or terms.payment, "Stages of payment; without them all is due at the end (terms · stages)"),
    )
    return (f"{what}." for given, what in gaps if not given)


def _not_yet_known(outcome: Outcome) -> Iterator[str]:
    """Yield the rates of the business that are drawn, since nobody has put in the contractor's own."""
    used = outcome.basis.used()
    for key in (f"{BUSINESS}/{each}" for each in RATES):
        rate = used.get(key)
        if rate is not None and rate.low is not None and rate.high is not None and rate.low < rate.high:
            ends = " to ".join(quantity(each, rate.unit) for each in (rate.low, rate.high))
            yield sentence(f"{rate.name.capitalize()}: drawn from {ends}. Put in yours and it is drawn no more")


def _risk(outcome: Outcome, sure: EstimateRanges) -> list[tuple[str, str]]:
    estimate = outcome.estimate
    risked = risk_at_price(estimate, sure.cost_draws, float(estimate.price))
    return [
        ("Price offered", dollars(estimate.price)),
        ("Cost to do it, as planned", dollars(estimate.cost.value)),
        ("Cost to do it, the middle: half of such jobs cost less", dollars(sure.cost.median)),
        ("Cost to do it, on average", dollars(risked.kept - risked.profit)),
        ("Cost to do it, 8 in 10", f"${sure.cost.low:,.0f} to ${sure.cost.high:,.0f}"),
        ("Margin as planned", f"{estimate.margin:.0%} of the price"),
        ("Expected profit", f"{dollars(risked.profit)}, {risked.margin:.0%} of the price"),
        ("Chance of a loss", f"{risked.chance:.0%} at this price"),
        *cap_at_risk(outcome, sure),
    ]
