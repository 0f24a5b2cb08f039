"""The job summary as CSV (RFC 4180, UTF-8): one row a line, and a total that is the sum of the rows to the cent."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Container

from estimating.estimate.pricing.lines import Line, Section
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.norms import held_against_norms
from estimating.reports.format import UnitSystem, in_words, number, shown_value, unit_words
from estimating.reports.provenance import LEGEND, origin_code
from estimating.workbook import Outcome

COLUMNS = (
    "section",
    "item",
    "room",
    "surface",
    "quantity",
    "unit",
    "low",
    "likely",
    "high",
    "unit cost",
    "cost",
    "cost low",
    "cost high",
    "origin",
    "detail",
)
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
UNSEEN = ("Cc", "Cf", "Zs", "Zl", "Zp")  # controls, joiners, byte order marks, spaces and breaks, by Unicode category


def plain_text(text: str) -> str:
    """Return text that no spreadsheet runs as a formula: a leading quote is put before one that would be.

    What cannot be seen before the sign does not hide it, nor does the sign's wide or small form.
    """
    seen = next((sign for sign in text if unicodedata.category(sign) not in UNSEEN), "")
    runs = unicodedata.normalize("NFKC", seen).startswith(FORMULA_STARTS)
    return f"'{text}" if runs or text.startswith(FORMULA_STARTS) else text


def summary_csv(outcome: Outcome, sure: EstimateRanges, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the job summary. low, likely and high are of the need; quantity is what is worked, bought or charged.

    Every quantity is in the unit of its row, which follows `shown`; money is the same in either.
    """
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    held = held_against_norms(outcome.basis.library)
    for line in outcome.estimate.lines:
        rows.writerow(
            [*_row(line, outcome, sure, shown), _origin(line, held), plain_text(in_words(line.detail, shown))]
        )
    rows.writerow(_total(outcome))
    return out.getvalue()


def _bought(line: Line, outcome: Outcome) -> float:
    if line.section is Section.PAINT:
        orders = {order.cost: order.containers.gallons_bought for order in outcome.estimate.paint}
        return orders[line.amount]
    return line.quantity.value


def surface_of(line: Line, outcome: Outcome) -> str:
    """Return the surface that a line of labor is worked on; blank where it serves the whole room or job."""
    found = (task.surface for task in outcome.estimate.schedule.tasks if task.hours is line.quantity)
    return next(found, "")


def _row(line: Line, outcome: Outcome, sure: EstimateRanges, shown: UnitSystem) -> list[str]:
    need = sure.quantities[line]
    amount = sure.amounts[line]
    unit = line.quantity.unit
    bought, *needed = (
        shown_value(each, unit, shown) for each in (_bought(line, outcome), need.low, line.quantity.value, need.high)
    )
    each = line.unit_cost
    return [
        str(line.section),
        plain_text(line.item),
        plain_text(line.room),
        plain_text(surface_of(line, outcome)),
        number(bought),
        unit_words(unit, shown),
        *map(number, needed),
        f"{shown_value(each.value, each.unit, shown):.2f}" if each else "",
        f"{line.cost:.2f}",
        f"{amount.low:.2f}",
        f"{amount.high:.2f}",
    ]


def _origin(line: Line, held: Container[str]) -> str:
    """Return the kinds of evidence under a line, and whether something published stands beside its rate."""
    return origin_code(line.amount) + (" +N" if line.row in held else "")


def _total(outcome: Outcome) -> list[str]:
    """Return the price offered; it is fixed, so that it has no low and no high."""
    return ["total", "price offered", *[""] * 8, f"{outcome.estimate.price:.2f}", "", "", LEGEND, _title(outcome)]


def _title(outcome: Outcome) -> str:
    mark = "invented job; " if outcome.job.invented else ""
    return plain_text(f"{mark}{outcome.job.title}")
