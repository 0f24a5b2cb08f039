"""The desk itself: the form on the left, the result on the right, walked through anew at every change."""

from __future__ import annotations

import base64
from collections.abc import Callable, Mapping
from datetime import date
from html import escape
from importlib.resources import files
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from estimating.desk.assumptions import Assumptions
from estimating.desk.form import Group
from estimating.desk.send_row import SendRow
from estimating.desk.status import StatusLine
from estimating.desk.whatif import WhatIf
from estimating.errors import InputError, InputErrors, RecordsError
from estimating.estimate.uncertainty.estimate_ranges import CORRELATED_GROUPS, EstimateRanges, estimate_ranges
from estimating.estimate.uncertainty.sensitivity import ranked
from estimating.evidence import load_library
from estimating.job.file import dump_job, plain_job, write_job
from estimating.records.own import NOTHING_OWN, own_table, usual_place
from estimating.reports.charts.room_drawing import plans_of_ceilings
from estimating.reports.charts.wall_drawing import drawn_walls
from estimating.reports.documents.documents import papers
from estimating.reports.exports.estimate_json import estimate_json
from estimating.reports.exports.explain import explain
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.exports.text_summary import plain_summary
from estimating.reports.format import UnitSystem
from estimating.reports.panes import desk_panes as panes
from estimating.reports.panes.evidence import own_in_use
from estimating.reports.panes.price import price_ages
from estimating.review.prices import aged_prices, trusted_days
from estimating.scopes.registry import JOB
from estimating.workbook import Outcome, build_job, estimate_job, read_job

SLIDERS = 8
ESTIMATE, WHAT_IF = "estimate", "what if"
STYLE = files("estimating.reports").joinpath("style.css").read_text(encoding="utf-8")


def open_desk(path: str | Path, records: str | Path | None = None) -> Desk:
    """Return the desk with the job of this file on it, priced with the own values of the records file."""
    return Desk(Path(path), Path(records) if records else usual_place())


class Desk:
    """A job on the desk. `widget` is shown; `outcome` is the last good result."""

    def __init__(self, path: Path, records: Path) -> None:
        self.records = records
        self.outcome: Outcome | None = None
        self.before: Outcome | None = None  # the job as it was opened, which a change order starts from
        self.sure: EstimateRanges | None = None
        self.stale = False
        self.head = widgets.HTML()
        line = StatusLine()
        self.status, self._say, self._guarded = line.widget, line.say, line.guarded
        self.kept = widgets.HTML()
        self.links = widgets.HTML()
        self.answers = {name: widgets.HTML() for name in PANES}
        self.why = widgets.Dropdown(options=[], description="why?", layout={"width": "420px"})
        self.why.observe(self._guarded(self._paint), names="value")
        self.tabs = widgets.Tab([*self.answers.values()], titles=[*PANES])
        self.tabs.observe(self._guarded(self._paint), names="selected_index")
        self.file = widgets.Text(
            value=str(path), description="job file", continuous_update=False, layout={"width": "420px"}
        )
        self.open = widgets.Button(description="Open", tooltip="open the job file named here")
        self.save = widgets.Button(description="Save", tooltip="write the job to the file named here")
        self.open.on_click(self._guarded(self._open))
        self.save.on_click(self._guarded(self._save))
        self.again = widgets.Button(description="Refresh", tooltip="read my own values again and price anew")
        self.again.on_click(self._guarded(self._read_again))
        self.sending = SendRow(self._to_send, self._say)
        self.sending.button.on_click(self._guarded(lambda: self.sending.send(self.records, date.today())))
        self.shown = widgets.Dropdown(options=[*map(str, UnitSystem)], description="show in", layout={"width": "220px"})
        self.shown.observe(self._guarded(self._paint), names="value")
        self.inputs = widgets.Accordion([])
        self.whatif = WhatIf(self, self._guarded)
        self.side = widgets.ToggleButtons(options=[ESTIMATE, WHAT_IF], style={"button_width": "110px"})
        self.side.observe(self._guarded(self._turn), names="value")
        self.body = widgets.VBox([])
        self.widget = self._laid_out()
        self._open()

    def _laid_out(self) -> widgets.VBox:
        result = widgets.VBox([self.head, self.links, self.side, self.body])
        result.add_class("pe-result")
        self.inputs.add_class("pe-inputs")
        whole = widgets.VBox(
            [
                widgets.HTML(f"<style>{STYLE}</style>"),
                widgets.HBox([self.file, self.open, self.save, self.again, self.shown]),
                self.sending.widget,
                self.status,
                self.kept,
                widgets.HBox([self.inputs, result]),
            ]
        )
        whole.add_class("estimating-desk")
        self._turn()
        return whole

    def _turn(self) -> None:
        """Turn to the estimate or to what-if; what is turned away from is not worked out."""
        self.body.children = (self.whatif.widget,) if self.side.value == WHAT_IF else (self.why, self.tabs)
        self._paint()

    def summary(self) -> str:
        """Return the last good result as plain text."""
        if self.outcome is None or self.sure is None:
            return "no result yet"
        return plain_summary(self.outcome, self.sure, self.units)

    @property
    def units(self) -> UnitSystem:
        """The units the result is shown in."""
        return UnitSystem(self.shown.value)

    def _open(self) -> None:
        job = read_job(Path(self.file.value))
        plain = plain_job(job)
        self._lay(plain)
        self._read_again()
        self.before = None if self.stale else self.outcome
        self.whatif.scenarios.start(plain)
        self._paint()
        if job.notices and not self.stale:
            self._say(". ".join(job.notices))

    def put(self, plain: Mapping[str, Any]) -> None:
        """Put a job into the form in place of what is typed there, and price it."""
        self._lay(plain)
        self.refresh()
        self._offer_assumptions()

    def _lay(self, plain: Mapping[str, Any]) -> None:
        refresh = self._guarded(self.refresh)
        self.assumptions = Assumptions(plain["own"], refresh)
        self.form = Group(JOB, plain, refresh)
        self.invented = bool(plain["invented"])
        parts = {name: part.widget for name, part in self.form.parts.items()}
        self.inputs.children = (*parts.values(), self.assumptions.widget)
        self.inputs.titles = (*parts, "assumptions")
        self.inputs.selected_index = list(parts).index("work")

    def _read_again(self) -> None:
        """Read the own values anew, so that one kept since is used, and price the job with them."""
        library = load_library()
        try:
            self.own = own_table(self.records, library)
            self.kept.value = own_in_use(self.own.values, library, self.own.warning)
        except RecordsError as problem:
            self.own = NOTHING_OWN
            self.kept.value = own_in_use({}, library, f"priced without own values: {problem}")
        self.refresh()
        self._offer_assumptions()

    def _offer_assumptions(self) -> None:
        if self.outcome is None:
            return
        used = self.outcome.basis.used()
        shares = ranked(self.outcome.estimate.amount, groups={}, top=SLIDERS + 4)
        keys = [figure.key for share in shares for figure in share.leaves if figure.key in used]
        self.assumptions.offer(used, list(dict.fromkeys(keys))[:SLIDERS])

    def _save(self) -> None:
        write_job(build_job(self._typed()), Path(self.file.value))
        self._say(f"saved to {self.file.value}")

    def _to_send(self) -> tuple[Outcome, EstimateRanges]:
        """Return what is shown, which is what is sent; InputError while the form says something else."""
        if self.outcome is None or self.sure is None or self.stale:
            raise InputError(
                "estimate", "from before the last change", "the marked fields put right, then it can be sent"
            )
        return self.outcome, self.sure

    def _typed(self) -> dict[str, Any]:
        return {**self.form.plain(), "own": self.assumptions.own, "invented": self.invented}

    def refresh(self) -> None:
        """Walk the whole way again with what is typed now; keep the last good result where something is wrong."""
        self.form.mark((), "")
        self._say("")
        try:
            self.outcome = estimate_job(build_job(self._typed()), own=self.own.values)
            self.sure = estimate_ranges(self.outcome.estimate)
            self.stale = False
        except InputErrors as problems:
            self._complain(list(problems.problems))
        except InputError as problem:
            self._complain([problem])
        self._paint()

    def _complain(self, problems: list[InputError]) -> None:
        self.stale = True
        for problem in problems:
            self.form.mark(problem.location, f"{problem.value!r}: needs {problem.needed}")
        self._say("; ".join(str(problem) for problem in problems), "alert")

    def _paint(self) -> None:
        if self.outcome is None or self.sure is None:
            return
        self.head.value = panes.head(self.outcome, self.sure, self.stale)
        if not self.stale:
            self.links.value = _links(self.outcome, self.sure, self.units, self.before)
            self._offer_questions(self.outcome)
        if self.side.value == WHAT_IF:
            self.whatif.paint()
            return
        name = [*PANES][self.tabs.selected_index or 0]
        shown = PANES[name](self)
        if self.answers[name].value != shown:
            self.answers[name].value = shown

    def _offer_questions(self, outcome: Outcome) -> None:
        options = ["price", "method", *dict.fromkeys(line.key for line in outcome.estimate.lines)]
        if list(self.why.options) != options:
            kept = self.why.value if self.why.value in options else "price"
            self.why.options = options
            self.why.value = kept


def _links(outcome: Outcome, sure: EstimateRanges, shown: UnitSystem, before: Outcome | None) -> str:
    made = papers(outcome, sure, date.today(), shown, before)
    offered = (
        ("summary.csv", "text/csv", summary_csv(outcome, sure, shown), "Job summary (CSV)"),
        ("estimate.json", "application/json", estimate_json(outcome, sure), "Estimate (JSON)"),
        ("job.toml", "application/toml", dump_job(outcome.job), "Job file (TOML)"),
        *(
            (name, "text/html", text, name.removesuffix(".html").replace("_", " ").capitalize())
            for name, text in made.items()
        ),
    )
    return '<p class="pe-links">' + "".join(_link(*each) for each in offered) + "</p>"


def _link(name: str, kind: str, text: str, title: str) -> str:
    packed = base64.b64encode(text.encode("utf-8")).decode("ascii")
    return f'<a download="{name}" href="data:{kind};base64,{packed}">{title}</a>'


def _with(view: Callable[[Outcome, EstimateRanges, UnitSystem], str]) -> Callable[[Desk], str]:
    def shown(desk: Desk) -> str:
        return view(desk.outcome, desk.sure, desk.units) if desk.outcome and desk.sure else ""

    return shown


def _why(desk: Desk) -> str:
    if desk.outcome is None or not desk.why.value:
        return ""
    return f'<div class="pe-trail">{escape(explain(desk.outcome, desk.why.value, desk.units))}</div>'


def _price_ages(outcome: Outcome) -> str:
    prices = aged_prices(outcome.estimate.amount, outcome.basis, date.today())
    return price_ages(prices, trusted_days(outcome.basis))


def _movers(outcome: Outcome) -> str:
    return panes.movers(ranked(outcome.estimate.amount, groups=CORRELATED_GROUPS))


PANES: dict[str, Callable[[Desk], str]] = {
    "methods": _with(lambda outcome, sure, shown: panes.methods(outcome, shown)),
    "price": _with(panes.lines),
    "order": _with(lambda outcome, sure, shown: panes.order(outcome, shown) + _price_ages(outcome)),
    "days": _with(lambda outcome, sure, shown: panes.days(outcome, shown)),
    "set-up": _with(lambda outcome, sure, shown: panes.set_up(outcome, shown)),
    "drawing": _with(lambda outcome, sure, shown: plans_of_ceilings(outcome, shown) + drawn_walls(outcome, shown)),
    "cautions": _with(lambda outcome, sure, shown: panes.cautions(outcome, shown)),
    "questions": _with(lambda outcome, sure, shown: panes.questions(outcome)),
    "what moves it": _with(lambda outcome, sure, shown: _movers(outcome)),
    "why": _why,
}
