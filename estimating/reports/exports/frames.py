"""The lines of an estimate as a table for a notebook of one's own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from estimating.estimate.pricing.lines import Line
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.reports.format import UnitSystem, shown_unit, shown_value, unit_words
from estimating.reports.provenance import origin_words
from estimating.workbook import Outcome

if TYPE_CHECKING:
    import pandas as pd


def lines_frame(outcome: Outcome, sure: EstimateRanges, shown: UnitSystem = UnitSystem.US) -> pd.DataFrame:
    """Return one row for each line of an estimate, in its order; `cost, $` adds up to the price.

    low, likely and high are of the need, in the unit of its row, which follows `shown`; money is in dollars in either.
    Nothing is rounded but the cost, which is to the cent. Lows and highs are percentiles of that line alone.
    """
    import pandas as pd  # slow to import, and only wanted where an estimate is taken further

    return pd.DataFrame([_row(line, sure, shown) for line in outcome.estimate.lines])


def _row(line: Line, sure: EstimateRanges, shown: UnitSystem) -> dict[str, str | float]:
    unit = line.quantity.unit
    need, amount = sure.quantities[line], sure.amounts[line]
    low, likely, high = (shown_value(each, unit, shown) for each in (need.low, line.quantity.value, need.high))
    each = line.unit_cost
    return {
        "section": str(line.section),
        "item": line.item,
        "room": line.room,
        "low": low,
        "likely": likely,
        "high": high,
        "unit": unit_words(unit, shown),
        "unit cost": shown_value(each.value, each.unit, shown) if each else float("nan"),
        "unit of cost": unit_words(shown_unit(each.unit, shown), shown) if each else "",
        "cost, $": float(line.cost),
        "cost low, $": amount.low,
        "cost high, $": amount.high,
        "origin": origin_words(line.amount),
        "reference row": line.row,
    }
