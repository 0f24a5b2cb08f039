"""The result below the notes: a pane for each question, and only the one looked at is worked out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

import ipywidgets as widgets

from estimating.desk.layout import EMPTY
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.records.price_list import trusted_days
from estimating.reports.format import UnitSystem
from estimating.reports.panes import desk_panes as panes
from estimating.reports.panes.lines_by_room import lines_by_room
from estimating.reports.panes.math_tree import METHOD, PRICE, math_tree
from estimating.reports.panes.price import price_ages
from estimating.review.prices import aged_prices
from estimating.workbook import Outcome

View = Callable[[Outcome, EstimateRanges, UnitSystem], str]
WHAT_IF, MATH = "What if", "Show the math"


def _order(outcome: Outcome, _sure: EstimateRanges, shown: UnitSystem) -> str:
    prices = aged_prices(outcome.estimate.amount, outcome.basis, date.today())
    return panes.order(outcome, shown) + price_ages(prices, trusted_days(outcome.basis))


VIEWS: dict[str, View] = {
    "Price": lines_by_room,
    "Methods": lambda outcome, _sure, shown: panes.methods(outcome, shown),
    "Shopping list": _order,
    "Schedule": lambda outcome, _sure, shown: panes.days(outcome, shown),
    "Cautions": lambda outcome, _sure, shown: panes.cautions(outcome, shown),
    "Set-up": lambda outcome, _sure, shown: panes.set_up(outcome, shown),
}


class Results:
    """The panes; `whatif` is a box of controls of its own."""

    def __init__(self, whatif: widgets.Widget, looked: Callable[[], None]) -> None:
        self.answers = {name: widgets.HTML() for name in VIEWS}
        self.why = widgets.Dropdown(options=[], description="of", layout={"width": "min(420px, 100%)"})
        self.math = widgets.HTML()
        self.why.observe(lambda _change: looked(), names="value")
        shown = {**self.answers, WHAT_IF: whatif, MATH: widgets.VBox([self.why, self.math])}
        self.tabs = widgets.Tab([*shown.values()], titles=[*shown])
        self.tabs.observe(lambda _change: looked(), names="selected_index")
        self.names = [*shown]
        self.widget = self.tabs

    @property
    def name(self) -> str:
        """The pane that is open."""
        return self.names[self.tabs.selected_index or 0]

    def open(self, name: str) -> None:
        """Open a pane."""
        self.tabs.selected_index = self.names.index(name)

    def offer(self, outcome: Outcome) -> None:
        """Offer the lines whose math can be shown; the one chosen stays chosen."""
        lines = {line.key: f"{line.item}{f', {line.room}' if line.room else ''}" for line in outcome.estimate.lines}
        options = [
            ("the price", PRICE),
            ("the choice of method", METHOD),
            *((said, key) for key, said in lines.items()),
        ]
        if list(self.why.options) != options:
            kept = self.why.value
            self.why.options = options
            self.why.value = kept if kept in lines or kept == METHOD else PRICE

    def paint(self, outcome: Outcome, sure: EstimateRanges, shown: UnitSystem) -> Iterator[None]:
        """Work out the pane that is open; what-if is left to its own controls."""
        self.widget.remove_class(EMPTY)
        if self.name in ("Methods", "Set-up"):
            _ = outcome.comparisons
            yield
        if self.name in VIEWS:
            _show(self.answers[self.name], VIEWS[self.name](outcome, sure, shown))
        elif self.name == MATH:
            self.offer(outcome)
            _show(self.math, f'<div class="math">{math_tree(outcome, self.why.value or PRICE, shown)}</div>')
        yield

    def clear(self) -> None:
        """Show nothing: there is no price."""
        self.widget.add_class(EMPTY)
        for answer in (*self.answers.values(), self.math):
            _show(answer, "")


def _show(shown: widgets.HTML, text: str) -> None:
    if shown.value != text:
        shown.value = text
