"""The price, line by line, with a subtotal for each room and for what the job needs once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from html import escape

from estimating.estimate.pricing.lines import Line, Section, sum_of
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.norms import Comparison, held_against_norms
from estimating.reports.format import UnitSystem, dollars, in_words, quantity
from estimating.reports.provenance import rate_words
from estimating.workbook import Outcome

WHOLE_JOB = "The job as a whole"
HEAD = ("Item", "Section", "Quantity", "At", "Cost", "Low", "High")
NOTE = (
    '<p class="pe-small">Low and high are the 10th and 90th percentile of the line alone; they do not add up to those '
    "of the cost. Markup is profit as a share of cost; margin is profit as a share of the price.</p>"
)


def lines_by_room(outcome: Outcome, sure: EstimateRanges, shown: UnitSystem = UnitSystem.US) -> str:
    """Return every line under its room, money to the right, the sum of each room and of all."""
    lines = outcome.estimate.lines
    rooms = dict.fromkeys([*(room.name for room in outcome.job.rooms), *(line.room for line in lines if line.room), ""])
    groups = [(room or WHOLE_JOB, [line for line in lines if line.room == room]) for room in rooms]
    every = _Shown(outcome, sure, shown)
    bodies = "".join(_group(name, several, every) for name, several in groups if several)
    head = "".join(
        f'<th scope="col" class="{"num" if place > 1 else ""}">{each}</th>' for place, each in enumerate(HEAD)
    )
    total = _sum_row("Price offered", outcome.estimate.price)
    inside = f"<thead><tr>{head}</tr></thead>{bodies}<tfoot>{total}</tfoot>"
    region = '<div class="pe-wide" tabindex="0" role="region" aria-label="the price line by line">'
    return f'{region}<table class="pe-table pe-money">{inside}</table></div>{NOTE}'


@dataclass(frozen=True)
class _Shown:
    """What every row of the table needs besides its line."""

    outcome: Outcome
    sure: EstimateRanges
    units: UnitSystem

    @cached_property
    def held(self) -> Mapping[str, Sequence[Comparison]]:
        """The tasks that norms speak of, by row."""
        return held_against_norms(self.outcome.basis.library)

    def rate(self, line: Line) -> str:
        """Return what the rate of a line of labor rests on; blank for any other."""
        hours = line.section is Section.LABOR
        return in_words(rate_words(self.outcome.basis.library, self.held, line.row), self.units) if hours else ""


def _group(name: str, lines: Sequence[Line], shown: _Shown) -> str:
    rows = "".join(_row(line, shown) for line in lines)
    head = f'<tr class="pe-group"><th scope="rowgroup" colspan="7">{escape(name)}</th></tr>'
    return f"<tbody>{head}{rows}{_sum_row(name, sum_of(lines))}</tbody>"


def _sum_row(name: str, amount: Decimal) -> str:
    head = f'<th scope="row" colspan="4">{escape(name)}</th>'
    return f'<tr class="pe-sum">{head}<td class="num">{dollars(amount)}</td><td></td><td></td></tr>'


def _row(line: Line, shown: _Shown) -> str:
    amount = shown.sure.amounts[line]
    said = [in_words(line.detail, shown.units), shown.rate(line)]
    detail = "".join(f'<br><span class="pe-small">{escape(each)}</span>' for each in said if each)
    at = quantity(line.unit_cost.value, line.unit_cost.unit, shown.units) if line.unit_cost else ""
    needed = quantity(line.quantity.value, line.quantity.unit, shown.units)
    figures = (needed, at, dollars(line.cost), dollars(amount.low))
    cells = "".join(f'<td class="num">{escape(each)}</td>' for each in (*figures, dollars(amount.high)))
    return f'<tr><th scope="row">{escape(line.item)}{detail}</th><td>{line.section}</td>{cells}</tr>'
