"""The purchase list: paint by product and color, rolls and sundries, what will be left, and how old each price is."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.order import SIZES, PaintOrder, SupplyOrder
from estimating.figures import Figure
from estimating.reports.documents.page import (
    TICK,
    Html,
    amount,
    assumed,
    facts,
    grid,
    html,
    joined,
    one_line,
    page,
    paragraph,
    section,
)
from estimating.reports.format import UnitSystem, dollars, number
from estimating.row_key import RowKey
from estimating.units import convert
from estimating.workbook import Outcome

UNDATED = "not dated"


def purchase_list(outcome: Outcome, on: date, shown: UnitSystem = UnitSystem.US) -> Html:
    """Return the purchase list as a printable document; prices older on `on` than the business allows are marked."""
    stale_after = assumed(outcome, "business", "price_age")
    most = round(float(convert(stale_after.value, stale_after.unit, "day")))
    estimate = outcome.estimate
    paint = [_paint_row(each, outcome, on, most, shown) for each in estimate.paint]
    supplies = [_supply_row(each, outcome, on, most, shown) for each in estimate.supplies]
    cost = sum_of((*estimate.section(Section.PAINT), *estimate.section(Section.SUPPLIES)))
    return page(
        "Purchase list",
        outcome,
        facts([("Site", outcome.job.site.address or ""), ("Date", on.isoformat())]),
        section("Paint", grid(("", "Product", "Color", "Need", "Buy", "Left over", "Cost", "Priced on"), paint)),
        section("Supplies", grid(("", "Item", "Need", "Buy", "Left over", "Cost", "Priced on"), supplies)),
        paragraph(f"Together {dollars(cost)} before tax.") if paint or supplies else paragraph("Nothing is bought."),
        paragraph(f"A price older than {most} days is marked: ask the shop before the proposal goes out."),
        paragraph("Cans of one product and color are bought together, with one batch number where there is one."),
    )


def _paint_row(order: PaintOrder, outcome: Outcome, on: date, most: int, shown: UnitSystem) -> list[str]:
    bought = (order.containers.quarts, order.containers.gallons, order.containers.fives)
    keys = [str(RowKey.of("prices", order.product, size)) for size, count in zip(SIZES, bought, strict=True) if count]
    return [
        TICK,
        order.title,
        order.color or "–",
        amount(order.need.value, order.need.unit, shown, digits=2),
        f"{order.containers} ({amount(order.containers.gallons_bought, 'gallon', shown)})",
        amount(order.leftover, "gallon", shown, digits=2),
        dollars(order.cost.value),
        _dated(keys, outcome, on, most),
    ]


def _supply_row(order: SupplyOrder, outcome: Outcome, on: date, most: int, shown: UnitSystem) -> list[str]:
    return [
        TICK,
        order.title,
        amount(order.need.value, order.need.unit, shown),
        number(order.count.value),
        _left(order, shown),
        dollars(order.cost.value),
        _dated([order.price.key], outcome, on, most),
    ]


def _left(order: SupplyOrder, shown: UnitSystem) -> str:
    """Return what is over of something bought by the roll; things bought singly leave nothing to speak of."""
    holds: Figure | None = dict(order.count.inputs).get("holds")
    if holds is None:
        return "–"
    bought = order.count.value * float(convert(holds.value, holds.unit, order.need.unit))
    return amount(bought - order.need.value, order.need.unit, shown)


def _dated(keys: Iterable[str], outcome: Outcome, on: date, most: int) -> Html:
    """Return the day of the oldest price of these rows, marked where it is old or has no day."""
    days = [priced_on(key, outcome) for key in keys]
    known = [day for day in days if day is not None]
    if len(known) < len(days):
        return Html(f'<span class="stale">{UNDATED}</span>')
    if not known:
        return html("–")
    oldest = min(known)
    age = (on - oldest).days
    mark = joined(" ", Html(f'<span class="stale one">⚠ {age} days old</span>')) if age > most else ""
    return joined(one_line(oldest.isoformat()), mark)


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
