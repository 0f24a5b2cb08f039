"""The invoice of one stage of payment, from the agreed proposal: what it was sold at, what is due now, what is left."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

from estimating.errors import InputError
from estimating.estimate.pricing.lines import Section as Part
from estimating.estimate.pricing.lines import sum_of
from estimating.estimate.pricing.room_prices import room_prices
from estimating.reports.documents.content import (
    BLANK,
    Document,
    Rank,
    Row,
    Text,
    facts,
    paragraph,
    section,
    strong,
    table,
)
from estimating.reports.documents.letterhead import letterhead, number_of, us_date
from estimating.reports.documents.scope_of_work import capital
from estimating.reports.documents.terms_in_words import stages
from estimating.reports.format import plain_dollars
from estimating.workbook import Outcome


def invoice(outcome: Outcome, stage: int, on: date, logo: Path | None = None) -> Document:
    """Return the invoice of a stage, counted from 1; InputError where the job has no such stage."""
    payments = stages(outcome)
    if not 1 <= stage <= len(payments):
        raise InputError("invoice", stage, f"a stage of payment, 1 to {len(payments)}")
    due = payments[stage - 1][1]
    earlier = sum((amount for _, amount in payments[: stage - 1]), Decimal(0))
    number = number_of(outcome, on)
    client, site = outcome.job.client, outcome.job.site
    head = (("No.", f"{number}-{stage}"), ("Date", us_date(on)), ("Proposal", number))
    parties: list[tuple[str, Text]] = [
        ("Bill to", ", ".join(filter(None, (client.name, client.contact))) or BLANK),
        ("Job site", site.address or BLANK),
    ]
    tax = sum_of(outcome.estimate.section(Part.SALES_TAX))
    return Document(
        letterhead("Invoice", outcome, head, logo),
        (
            *section("For", facts(parties)),
            *section("Agreed price", table(("Room", "Price"), _agreed(outcome), "lr"), paragraph(_taxed(tax))),
            *section("Payments", table(("Stage", "Amount", ""), _payments(payments, stage), "lrn")),
            *section("Due now", facts(_due(due, earlier, outcome.estimate.price)), keep=True),
        ),
    )


def _agreed(outcome: Outcome) -> list[Row]:
    rooms = [Row((capital(each.room) or "Work", plain_dollars(each.price))) for each in room_prices(outcome.estimate)]
    return [*rooms, Row(("Total", plain_dollars(outcome.estimate.price)), Rank.TOTAL)]


def _taxed(tax: Decimal) -> str:
    return f"The total includes {plain_dollars(tax)} of sales tax." if tax else ""


def _payments(payments: list[tuple[str, Decimal]], stage: int) -> list[Row]:
    said = {True: "earlier", False: "later"}
    rows = [
        Row((when, plain_dollars(amount), strong("due now") if place == stage else said[place < stage]))
        for place, (when, amount) in enumerate(payments, 1)
    ]
    return [*rows, Row(("Total", plain_dollars(sum(amount for _, amount in payments)), ""), Rank.TOTAL)]


def _due(due: Decimal, earlier: Decimal, price: Decimal) -> list[tuple[str, Text]]:
    return [
        ("Billed before", plain_dollars(earlier)),
        ("This invoice", strong(plain_dollars(due))),
        ("Left to bill", plain_dollars(price - earlier - due)),
    ]
