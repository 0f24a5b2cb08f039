"""The shopping list, shelf by shelf: what to buy, what will be left over, and how old each price is."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.order import SIZES, PaintOrder, SupplyOrder
from estimating.figures import Figure
from estimating.reports.documents.content import (
    TICK,
    Document,
    Rank,
    Row,
    Text,
    alert,
    bullets,
    facts,
    section,
    strong,
    table,
)
from estimating.reports.documents.letterhead import assumed, letterhead, us_date
from estimating.reports.documents.shelves import OTHER, PAINT_COUNTER, SHELVES, shelf_of
from estimating.reports.format import UnitSystem, dollars, number, quantity
from estimating.row_key import RowKey
from estimating.workbook import Outcome

UNDATED = "not dated"
HEAD = ("", "Item", "Need", "Buy", "Left over", "Cost", "Priced on")


def shopping_list(outcome: Outcome, on: date, shown: UnitSystem = UnitSystem.US, logo: Path | None = None) -> Document:
    """Return the shopping list; prices older on `on` than the business allows are marked."""
    most = price_age(outcome)
    estimate = outcome.estimate
    cost = sum_of((*estimate.section(Section.PAINT), *estimate.section(Section.SUPPLIES)))
    rows = list(_rows(outcome, on, most, shown))
    total = [Row(("", "Together, before tax", "", "", "", dollars(cost), ""), Rank.TOTAL)] if rows else []
    site = facts([("Site", outcome.job.site.address or "")])
    notes = (
        f"A price older than {most} days is marked: check it before the proposal goes out.",
        "Buy the cans of one product and color together, all of one batch number.",
    )
    return Document(
        letterhead("Shopping list", outcome, (("Date", us_date(on)),), logo),
        (
            *((site,) if site else ()),
            *section("By shelf", table(HEAD, [*rows, *total], "nlnnnrn")),
            *section("At the store", bullets(notes if rows else ("Nothing is bought for this job.",))),
        ),
    )


def _rows(outcome: Outcome, on: date, most: int, shown: UnitSystem) -> Iterable[Row]:
    paint = [_paint_row(each, outcome, on, most, shown) for each in outcome.estimate.paint]
    shelves: dict[str, list[Row]] = {PAINT_COUNTER: paint, **{shelf: [] for shelf, _ in SHELVES}, OTHER: []}
    for order in outcome.estimate.supplies:
        shelves[shelf_of(order.item)].append(_supply_row(order, outcome, on, most, shown))
    for shelf, rows in shelves.items():
        if rows:
            yield Row((strong(shelf),), Rank.GROUP)
            yield from rows


def _paint_row(order: PaintOrder, outcome: Outcome, on: date, most: int, shown: UnitSystem) -> Row:
    return Row(
        (
            TICK,
            f"{order.title}{f', {order.color}' if order.color else ''}",
            quantity(order.need.value, order.need.unit, shown, 2),
            str(order.containers),
            quantity(order.leftover, "gallon", shown, 2),
            dollars(order.cost.value),
            _dated(_paint_keys(order), outcome, on, most),
        )
    )


def _supply_row(order: SupplyOrder, outcome: Outcome, on: date, most: int, shown: UnitSystem) -> Row:
    return Row(
        (
            TICK,
            order.title,
            quantity(order.need.value, order.need.unit, shown),
            number(order.count.value),
            _left(order, shown),
            dollars(order.cost.value),
            _dated([order.price.key], outcome, on, most),
        )
    )


def _left(order: SupplyOrder, shown: UnitSystem) -> str:
    """Return what is over of something bought by the roll; things bought singly leave nothing to speak of."""
    holds: Figure | None = dict(order.count.inputs).get("holds")
    if holds is None:
        return "–"
    bought = order.count.value * holds.value_in(order.need.unit)
    return quantity(bought - order.need.value, order.need.unit, shown)


def _dated(keys: Iterable[str], outcome: Outcome, on: date, most: int) -> Text:
    """Return the day of the oldest price of these rows, marked where it is old or has no day."""
    days = [priced_on(key, outcome) for key in keys]
    known = [day for day in days if day is not None]
    if len(known) < len(days):
        return alert(UNDATED)
    if not known:
        return "–"
    oldest = min(known)
    age = (on - oldest).days
    return (oldest.isoformat(), " ", alert(f"{age} days old")) if age > most else oldest.isoformat()


def stale_prices(outcome: Outcome, on: date) -> list[str]:
    """Return in a sentence how many of the prices of this job are old or have no day; nothing where none is."""
    most = price_age(outcome)
    keys = [key for order in outcome.estimate.paint for key in _paint_keys(order)]
    keys += [order.price.key for order in outcome.estimate.supplies]
    days = [priced_on(key, outcome) for key in dict.fromkeys(keys)]
    old = [day for day in days if day is None or (on - day).days > most]
    return (
        [f"{len(old)} of {len(days)} prices are older than {most} days or not dated: see the shopping list."]
        if old
        else []
    )


def price_age(outcome: Outcome) -> int:
    """Return how many days a price is taken as fresh."""
    age = assumed(outcome, "business", "price_age")
    return round(age.value_in("day"))


def _paint_keys(order: PaintOrder) -> list[str]:
    bought = (order.containers.quarts, order.containers.gallons, order.containers.fives)
    return [str(RowKey.of("prices", order.product, size)) for size, count in zip(SIZES, bought, strict=True) if count]


def priced_on(key: str, outcome: Outcome) -> date | None:
    """Return the day a price was taken: of the contractor's own figure, or of the table's row; None where none is."""
    own = outcome.basis.own.get(key)
    if own is None and RowKey.parse(key).table != "prices":  # typed in the job file itself
        return None
    text = own.date if own else outcome.basis.library.named(key).words["priced_on"]
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
