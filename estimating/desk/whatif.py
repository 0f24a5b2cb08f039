"""What-if at the desk: a typed price, scenarios kept by name, two methods along one figure, the worth of a test."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any, Protocol

import ipywidgets as widgets

from estimating.desk.form import Entry
from estimating.desk.pricing import Pricing
from estimating.errors import InputError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.offers import MARKUP, USUAL_CHANCE, By
from estimating.estimate.uncertainty.price_risk import bid_for, read_chance, read_price, risk_at_price
from estimating.estimate.whatif.compare_methods import rival
from estimating.estimate.whatif.scenario import Scenario, changes_between
from estimating.job.file import plain_job
from estimating.reports.format import UnitSystem
from estimating.reports.panes import how_sure as sure_panes
from estimating.reports.panes import whatif as panes
from estimating.reports.panes.whatif import Kept
from estimating.workbook import Outcome

NOW = "as typed now"
STYLE = {"description_width": "150px"}
WIDE = "400px"
SETS = {
    By.PLAN: "your usual markup on the cost as planned",
    By.MEAN: "your usual markup on what the job costs on average",
    By.CHANCE: "the lowest price that loses money with no more than the chance wanted, 10 % where none is typed",
}
Guarded = Callable[[Callable[[], None]], Callable[..., None]]


class OnTheDesk(Protocol):
    """What lies on the desk: the last good result, and whether the form has moved on from it."""

    @property
    def outcome(self) -> Outcome | None:
        """The last good result."""

    @property
    def sure(self) -> EstimateRanges | None:
        """Its ranges."""

    @property
    def stale(self) -> bool:
        """Whether the notes have moved on from it."""

    @property
    def units(self) -> UnitSystem:
        """The units results are shown in."""

    @property
    def job(self) -> Mapping[str, Any]:
        """The job as it is typed."""

    @property
    def pricing(self) -> Pricing:
        """What prices it, with the contractor's own values."""

    def take(self, job: Mapping[str, Any], said: str = "") -> None:
        """Take another job as the next step."""


class WhatIf:
    """The what-if panes; only the one that is open is worked out."""

    def __init__(self, desk: OnTheDesk, guarded: Guarded) -> None:
        self.scenarios = Scenarios(desk, guarded)
        self.parts: dict[str, HowSure | Scenarios | BreakEven | MoreTests] = {
            "how sure": HowSure(desk, guarded),
            "scenarios": self.scenarios,
            "break-even": BreakEven(desk, guarded),
            "is one more test worth it?": MoreTests(desk, guarded),
        }
        self.widget = widgets.Tab([part.widget for part in self.parts.values()], titles=[*self.parts])
        self.widget.observe(guarded(self.paint), names="selected_index")

    def paint(self) -> None:
        """Show the open pane as things stand now."""
        [*self.parts.values()][self.widget.selected_index or 0].paint()


def _button(label: str, tooltip: str, pressed: Callable[..., None], width: str = "130px") -> widgets.Button:
    button = widgets.Button(description=label, tooltip=tooltip, layout={"width": width})
    button.on_click(lambda _button: pressed())
    return button


def _text(label: str, hint: str, width: str = WIDE) -> widgets.Text:
    return widgets.Text(
        description=label, placeholder=hint, continuous_update=False, style=STYLE, layout={"width": width}
    )


def _choice(label: str) -> widgets.Dropdown:
    return widgets.Dropdown(options=[], description=label, style=STYLE, layout={"width": WIDE})


def _offer(choice: widgets.Dropdown, options: Sequence[tuple[str, Any]], usual: Any) -> None:
    """Offer these options; what was chosen stays chosen while it is among them."""
    if tuple(choice.options) != tuple(options):
        offered = [value for _, value in options]
        kept = choice.value if choice.value in offered else usual
        choice.options = options
        choice.value = kept if kept in offered else next(iter(offered), None)


def _show(shown: widgets.HTML, text: str) -> None:
    if shown.value != text:
        shown.value = text


class HowSure:
    """What a typed price risks, what price a typed chance asks for, and three buttons that set the price offered."""

    def __init__(self, desk: OnTheDesk, guarded: Guarded) -> None:
        self.desk = desk
        self.price = Entry(_text("price asked", "the price as estimated"), guarded(self.paint))
        self.chance = Entry(_text("chance of loss wanted", "such as 10 %"), guarded(self.paint))
        self.shown = widgets.HTML()
        self.offers = {by: _button(f"Price {by}", SETS[by], guarded(partial(self._offer, by)), "195px") for by in By}
        buttons = widgets.HBox([*self.offers.values()], layout={"flex_flow": "row wrap"})
        self.widget = widgets.VBox([self.price.widget, self.chance.widget, buttons, self.shown])

    def _offer(self, by: By) -> None:
        """Set the price offered, by a markup of this job alone; by the plan it is the usual one again."""
        outcome, sure, chance = self.desk.outcome, self.desk.sure, _read(self.chance, read_chance, USUAL_CHANCE)
        if outcome is None or sure is None or chance is None or self.desk.stale:
            return
        own = {key: each for key, each in dict(self.desk.job.get("own") or {}).items() if key != MARKUP}
        if by is not By.PLAN:
            found = next(
                each
                for each in sure_panes.offers_of(outcome, sure, self.desk.pricing.own.values, chance)
                if each.by is by
            )
            own[MARKUP] = {"likely": found.markup, "unit": "percent", "note": f"price {by}"}
        self.desk.take({**self.desk.job, "own": own}, f"price {by}")

    def paint(self) -> None:
        """Show what the price risks; a box that cannot be read is marked, and the last answer stays."""
        outcome, sure = self.desk.outcome, self.desk.sure
        if outcome is None or sure is None:
            return
        estimate = outcome.estimate
        price = _read(self.price, read_price, float(estimate.price))
        chance = _read(self.chance, read_chance, 0.0)
        if price is None or chance is None:
            return
        wanted = bid_for(estimate, sure.cost_draws, chance) if chance else None
        said = sure_panes.how_sure(outcome, sure, risk_at_price(estimate, sure.cost_draws, price), wanted)
        _show(self.shown, sure_panes.offers(outcome, sure, self.desk.pricing.own.values, chance or USUAL_CHANCE) + said)


def _read(entry: Entry, read: Callable[[str], float], blank: float) -> float | None:
    """Return what was typed, `blank` for nothing; None, with the box marked, where it cannot be read."""
    text = str(entry.plain()).strip()
    entry.mark((), "")
    try:
        return read(text) if text else blank
    except InputError as problem:
        entry.mark((), f"{problem.value!r}: needs {problem.needed}")
        return None


class Scenarios:
    """Jobs kept by name: side by side with what is typed now, and only what differs between two of them."""

    def __init__(self, desk: OnTheDesk, guarded: Guarded) -> None:
        self.desk, self.guarded = desk, guarded
        self.base: Mapping[str, Any] = {}  # the job as it was opened
        self.kept: dict[str, tuple[Scenario, Kept]] = {}
        self.name = Entry(_text("scenario name", "three coats", "270px"), lambda: None)
        self.name.widget.layout.min_width = "280px"  # else the button beside it lies on its edge
        self.keep = _button("Keep this", "keep what is typed now under this name", guarded(self._keep))
        self.rows = widgets.VBox([])
        self.before, self.after = _choice("differences from"), _choice("to")
        self.table, self.differences = widgets.HTML(), widgets.HTML()
        for choice in (self.before, self.after):
            choice.observe(guarded(self.paint), names="value")
        self.compared = widgets.VBox([self.before, self.after])
        self.widget = widgets.VBox(
            [widgets.HBox([self.name.widget, self.keep]), self.rows, self.table, self.compared, self.differences]
        )

    def start(self, base: Mapping[str, Any]) -> None:
        """Begin with a job just opened: nothing is kept yet."""
        self.base = base
        self.kept.clear()
        self._lay()

    def _keep(self) -> None:
        name = str(self.name.plain()).strip()
        try:
            self._add(name, self._now(name))
        except InputError as problem:
            self.name.mark((), str(problem))
            return
        self.name.mark((), "")
        self.name.control.value = ""
        self._lay()
        names = [*self.kept]
        self.before.value, self.after.value = names[0], names[-1] if len(names) > 1 else NOW

    def _add(self, name: str, kept: Kept) -> None:
        if not name or name == NOW or name in self.kept:
            raise InputError("name", name, "a name that is not in use yet")
        self.kept[name] = Scenario(name, changes_between(self.base, plain_job(kept.outcome.job))), kept

    def _now(self, name: str) -> Kept:
        outcome, sure = self.desk.outcome, self.desk.sure
        if outcome is None or sure is None or self.desk.stale:
            raise InputError("form", "what is marked", "every marked field put right before it can be kept")
        return Kept(name, outcome, sure)

    def _lay(self) -> None:
        self.rows.children = tuple(self._row(name) for name in self.kept)
        self.paint()

    def _row(self, name: str) -> widgets.Widget:
        back = _button("Back to this", f"put {name} back into the form", self.guarded(lambda: self._back(name)))
        forget = _button("Forget", f"keep {name} no longer", self.guarded(lambda: self._forget(name)))
        label = widgets.Label(value=name, layout={"width": "200px"})
        return widgets.HBox([label, back, forget])

    def _back(self, name: str) -> None:
        scenario, _ = self.kept[name]
        self.desk.take(scenario.of(self.base), f"back to {name}")

    def _forget(self, name: str) -> None:
        del self.kept[name]
        self._lay()

    def paint(self) -> None:
        """Show the kept scenarios beside what is typed now, and what differs between the two chosen."""
        if self.desk.outcome is None or self.desk.sure is None:
            return
        columns = {name: kept for name, (_, kept) in self.kept.items()}
        columns[NOW] = Kept(NOW, self.desk.outcome, self.desk.sure)
        options = [(name, name) for name in columns]
        _offer(self.before, options, next(iter(columns)))
        _offer(self.after, options, NOW)
        self.compared.layout.display = "" if self.kept else "none"
        _show(self.table, panes.side_by_side([*columns.values()], self.desk.units))
        before, after = columns[self.before.value], columns[self.after.value]
        differing = panes.only_differences(before, after, self.desk.units) if self.kept else panes.NOTHING_KEPT
        _show(self.differences, differing)


class MethodCurves:
    """A work item, and two of its methods."""

    def __init__(self, changed: Callable[[], None]) -> None:
        self.changed, self.offering = changed, False
        self.work, self.one, self.other = _choice("work item"), _choice("one method"), _choice("other method")
        self.complaint = Entry(self.other, self._chosen)
        self.widget = widgets.VBox([self.work, self.one, self.complaint.widget])
        for choice in (self.work, self.one):
            choice.observe(lambda _change: self._chosen(), names="value")

    def _chosen(self) -> None:
        if not self.offering:
            self.changed()

    def offer(self, outcome: Outcome) -> None:
        """Offer the work items and the methods of the one chosen: the recommended one, and its nearest rival first."""
        self.offering = True
        try:
            _offer(self.work, [(each.scope, place) for place, each in enumerate(outcome.comparisons)], 0)
            comparison = outcome.comparisons[self.place]
            methods = [(option.plan.title, option.plan.method) for option in comparison.options]
            _offer(self.one, methods, comparison.recommended.plan.method)
            _offer(self.other, methods, rival(comparison).plan.method)
        finally:
            self.offering = False

    @property
    def place(self) -> int:
        """The place of the chosen work item in the job."""
        return int(self.work.value)

    @property
    def methods(self) -> tuple[str, str]:
        """The two methods chosen."""
        return str(self.one.value), str(self.other.value)

    def mark(self, complaint: str) -> None:
        """Show a complaint under the second method, or none."""
        self.complaint.mark((), complaint)


class BreakEven:
    """Two methods along one figure."""

    def __init__(self, desk: OnTheDesk, guarded: Guarded) -> None:
        self.desk = desk
        self.two = MethodCurves(guarded(self.paint))
        self.moved = _choice("what moves")
        self.moved.observe(guarded(self._chosen), names="value")
        self.offering = False
        self.shown = widgets.HTML()
        self.widget = widgets.VBox([self.two.widget, self.moved, self.shown])

    def _chosen(self) -> None:
        if not self.offering:
            self.paint()

    def paint(self) -> None:
        """Show where the two change places; the last answer stays where they cannot be compared."""
        outcome = self.desk.outcome
        if outcome is None:
            return
        self.two.offer(outcome)
        place, methods = self.two.place, self.two.methods
        try:
            self._offer_figures(outcome, place, methods)
            text = panes.break_even(outcome, place, methods, self.moved.value, self.desk.units)
        except InputError as problem:
            self.two.mark(str(problem))
            return
        self.two.mark("")
        _show(self.shown, text)

    def _offer_figures(self, outcome: Outcome, place: int, methods: tuple[str, str]) -> None:
        self.offering = True
        try:
            _offer(self.moved, [*panes.movable(outcome, place, methods).items()], panes.PIVOT)
        finally:
            self.offering = False


class MoreTests:
    """What further tests are worth before a method is chosen."""

    def __init__(self, desk: OnTheDesk, guarded: Guarded) -> None:
        self.desk = desk
        self.work = _choice("work item")
        self.work.observe(guarded(self._chosen), names="value")
        self.offering = False
        self.shown = widgets.HTML()
        self.widget = widgets.VBox([self.work, self.shown])

    def _chosen(self) -> None:
        if not self.offering:
            self.paint()

    def paint(self) -> None:
        """Show what more tests are worth in the work item chosen."""
        outcome = self.desk.outcome
        if outcome is None:
            return
        self.offering = True
        try:
            _offer(self.work, [(each.scope, place) for place, each in enumerate(outcome.comparisons)], 0)
        finally:
            self.offering = False
        _show(self.shown, panes.one_more_test(outcome, int(self.work.value)))
