"""The change order: a job as it was agreed and as it is wanted now, and what the change does to price and days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Line, Section
from estimating.estimate.whatif.scenario import LineChange, line_changes
from estimating.reports.documents.content import (
    Document,
    Facts,
    Rank,
    Row,
    Signatures,
    bullets,
    clock,
    facts,
    paragraph,
    section,
    strong,
    table,
)
from estimating.reports.documents.content import (
    Section as Part,
)
from estimating.reports.documents.letterhead import letterhead, us_date
from estimating.reports.format import number, plain_dollars
from estimating.reports.panes.selling import sold_lines
from estimating.workbook import Outcome

NOTHING = "–"
REST = "Supplies, equipment, allowances and rounding"


@dataclass(frozen=True)
class Change:
    """A row of the change order: what it was, what it is now, and what that does to the price."""

    item: str
    room: str
    before: str
    after: str
    amount: Decimal


def changes(before: Estimate, after: Estimate) -> tuple[Change, ...]:
    """Return what differs, work by task and paint by product, the rest in one row; they add up to the cent.

    Amounts are what the client pays: cost with overhead, profit and taxes on it.
    """
    sold = {**sold_lines(before), **sold_lines(after)}
    rows = [
        _row(pair, before, after, sold)
        for pair in line_changes(before, after)
        if pair.line.section in (Section.LABOR, Section.PAINT)
    ]
    rest = after.price - before.price - sum((row.amount for row in rows), Decimal("0.00"))
    return (*rows, Change(REST, "", "", "", rest)) if rest else tuple(rows)


def _row(pair: LineChange, before: Estimate, after: Estimate, sold: Mapping[Line, Decimal]) -> Change:
    nothing = Decimal("0.00")
    return Change(
        pair.line.item,
        pair.line.room,
        _amount(pair.before, before),
        _amount(pair.after, after),
        (sold[pair.after] if pair.after else nothing) - (sold[pair.before] if pair.before else nothing),
    )


def _amount(line: Line | None, estimate: Estimate) -> str:
    """Return how much of a line there is: hours of work, or cans of paint."""
    if line is None:
        return NOTHING
    bought = [str(order.containers) for order in estimate.paint if order.cost is line.amount]
    if bought:
        return bought[0]
    return clock(line.quantity.value_in("hour"))


def signed_dollars(amount: Decimal) -> str:
    """Return an amount with its sign before the dollars: +$12.00 or −$12.00."""
    return f"{'−' if amount < 0 else '+'}{plain_dollars(abs(amount))}"


def change_order(before: Outcome, after: Outcome, on: date, logo: Path | None = None) -> Document:
    """Return the change order from one job to another.

    before: the job as it was sent or agreed. after: the job as it is wanted now. on: the day it is made.
    Raises InputError where the two are not the same job.
    """
    require_same_job(before, after)
    old, new = before.estimate, after.estimate
    job = after.job
    rows = changes(old, new)
    total = Row(("Change", "", "", "", signed_dollars(new.price - old.price)), Rank.TOTAL)
    items = table(HEAD, [*_rows(rows), total], "llnnr") if rows else paragraph("Nothing is changed.")
    parties = facts(
        [("To", before.job.title), ("Client", job.client.name or NOTHING), ("Site", job.site.address or NOTHING)]
    )
    return Document(
        letterhead("Change order", after, (("Date", us_date(on)),), logo),
        (
            *((parties,) if parties else ()),
            *section("What changes", bullets(_in_words(old, new)), _effect(old, new), keep=True),
            *section("Item by item", items, paragraph(UNITS) if rows else None),
            *_agreed(),
        ),
    )


def _agreed() -> tuple[Part, ...]:
    return section(
        "Agreed",
        paragraph(
            "Everything else stays as agreed. The changed work starts when both have signed; until then the job goes "
            "on as it was."
        ),
        Signatures(("Client, date", "Contractor, date")),
        keep=True,
    )


def is_same_job(before: Outcome, after: Outcome) -> bool:
    """Say whether a change order can be written from one job to another."""
    try:
        require_same_job(before, after)
    except InputError:
        return False
    return True


def require_same_job(before: Outcome, after: Outcome) -> None:
    """Raise InputError where two jobs are not the same one: another site, or not a room in common."""
    old, new = before.job, after.job
    if old.site.address and new.site.address and old.site.address != new.site.address:
        raise InputError("change order", new.site.address, f"the job that was sent, at {old.site.address}")
    if not {room.name for room in old.rooms} & {room.name for room in new.rooms}:
        raise InputError("change order", new.title, f"the job that was sent, {old.title}: they have no room in common")


HEAD = ("Item", "Room", "Before", "After", "Price")
UNITS = "Before and after: hours of labor as h:mm, paint by the can."


def _rows(several: Sequence[Change]) -> list[list[str]]:
    return [[each.item, each.room, each.before, each.after, signed_dollars(each.amount)] for each in several]


def _in_words(old: Estimate, new: Estimate) -> list[str]:
    """Return which work items are added, left out or done by another method."""
    olds = {plan.scope: plan.title for plan in old.plans}
    news = {plan.scope: plan.title for plan in new.plans}
    added = [f"Added: {scope}: {title}" for scope, title in news.items() if scope not in olds]
    left_out = [f"Left out: {scope}: {title}" for scope, title in olds.items() if scope not in news]
    other = [
        f"{scope}: {title} instead of {olds[scope]}"
        for scope, title in news.items()
        if scope in olds and olds[scope] != title
    ]
    return [*added, *left_out, *other]


def _effect(old: Estimate, new: Estimate) -> Facts | None:
    change = new.price - old.price
    was, now = old.schedule.days.value, new.schedule.days.value
    gap = "no change" if now == was else f"{number(abs(now - was))} {'more' if now > was else 'fewer'}"
    return facts(
        [
            ("Price before", plain_dollars(old.price)),
            ("Change", signed_dollars(change) if change else "no change"),
            ("Price after", strong(plain_dollars(new.price))),
            ("Days on site", f"{number(was)} before, {number(now)} after: {gap}"),
        ]
    )
