"""The desk: one job in a contractor's hands. A change is kept, priced at once, and looked into when the hand rests."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from estimating.desk.assumptions import AnyFigure
from estimating.desk.bar import COPY, NEW, REDO, UNDO, Bar
from estimating.desk.browser_parts import FileButtons
from estimating.desk.confirm import Confirm, open_questions
from estimating.desk.details import JobDetails, PartForm, RoomDetails
from estimating.desk.documents import OFFERED, File, made_file
from estimating.desk.layout import card, two_columns, whole_page
from estimating.desk.levers import Levers, Swing, own_figure, swings, with_values
from estimating.desk.notices import MINE, THEIRS, Notices
from estimating.desk.places import find_place, room_of, row_and_column, short, spoken
from estimating.desk.pricing import Pricing
from estimating.desk.rest import Rest
from estimating.desk.results import WHAT_IF, Results
from estimating.desk.room_table import RoomTable
from estimating.desk.send_row import SendRow
from estimating.desk.status import StatusLine
from estimating.desk.usual import ASSUMED
from estimating.desk.whatif import WhatIf
from estimating.errors import InputError, Location, RecordsError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.whatif.scenario import apply, value_at
from estimating.evidence import load_library
from estimating.records.business import read_business, usual_job
from estimating.records.my_jobs import copy_job, new_job, open_file, title_of
from estimating.records.own import usual_place
from estimating.records.sitting import Sitting
from estimating.reports.charts.room_at_desk import room_drawing
from estimating.reports.exports.text_summary import plain_summary
from estimating.reports.format import UnitSystem
from estimating.reports.panes.bar import Cheap
from estimating.workbook import Outcome

QUICK = 0.1  # seconds of work: a job that takes less is worked out again, unasked, for every open answer
LATER = 1.5  # seconds of rest before that begins


def open_desk(path: str | Path, records: str | Path | None = None) -> Desk:
    """Return the desk with the job of this file on it, priced with the own values of the records file."""
    place = Path(records) if records else usual_place()
    return Desk(open_file(place, Path(path)), place)


def _nobody(_word: str) -> None:
    """Do nothing: a desk by itself has no list of jobs to go back to."""


class Desk:
    """A job on the desk. `widget` is shown; `outcome` is the last good result."""

    def __init__(self, sitting: Sitting, records: Path, leave: Callable[[str], None] = _nobody) -> None:
        self.sitting, self.records, self.leave = sitting, records, leave
        self.pricing = Pricing()
        self.shown: Cheap | None = None  # the figures on the bar
        self.pending: dict[str, float] = {}  # sliders moved since the hand last rested
        self.before_levers: Cheap | None = None
        line = StatusLine()
        self.status, self._say, self.guarded = line.widget, line.say, line.guarded
        self.rest, self.later = Rest(line.fail), Rest(line.fail)
        self.bar = Bar(self._asked, self._titled, self._stated, self.guarded(self._look))
        self.table = RoomTable(self, self.guarded, self._chosen)
        self.room = RoomDetails(self, self.table.actions)
        self.about = JobDetails(self)
        self.figures = AnyFigure(self, lambda: self.outcome.basis.used() if self.outcome else {})
        self.confirm = Confirm(self, self.guarded)
        self.levers = Levers(lambda key, value: self.guarded(lambda: self._moved(key, value))())
        self.drawing = widgets.HTML()
        self.whatif = WhatIf(self, self.guarded)
        self.results = Results(self.whatif.widget, self.guarded(self._look))
        self.files = FileButtons(self._make, offered=[list(each) for each in OFFERED])
        self.sending = SendRow(self._to_send, self._say)
        self.sending.button.on_click(self.guarded(self._send))
        self.notices = Notices(self._asked)
        self.widget = self._laid_out()
        self.lay(sitting)

    def _laid_out(self) -> widgets.VBox:
        left = [
            card("", self.table.grid),
            card("", self.room.widget),
            card("The job", self.about.widget, *self.figures.folded.widgets),
            card("Documents", self.files, self.sending.widget),
            card("", self.results.widget),
        ]
        right = [
            card("", self.drawing),
            card("Still to confirm", self.confirm.widget),
            card("Biggest price drivers", self.levers.widget),
        ]
        return whole_page(self.bar.widget, [self.notices.widget, self.status, two_columns(left, right)])

    # what is on the desk

    @property
    def job(self) -> Mapping[str, Any]:
        """The job as typed."""
        return self.sitting.job

    @property
    def house(self) -> Mapping[str, Any]:
        """The usual house of the business."""
        house: Mapping[str, Any] = self.business["house"]
        return house

    @property
    def units(self) -> UnitSystem:
        """The units the result is shown in."""
        return UnitSystem(self.bar.units.value)

    @property
    def outcome(self) -> Outcome | None:
        """The last good result."""
        return self.pricing.outcome

    @property
    def sure(self) -> EstimateRanges | None:
        """The ranges of the last good result."""
        return self.pricing.sure

    @property
    def stale(self) -> bool:
        """Whether the notes have moved on from the last good result."""
        return self.pricing.stale

    def summary(self) -> str:
        """Return the last good result as plain text."""
        if self.outcome is None or self.sure is None:
            return "no result yet"
        return plain_summary(self.outcome, self.sure, self.units)

    def lay(self, sitting: Sitting) -> None:
        """Lay a job on the desk; what was on it is kept already."""
        self.sitting = sitting
        self.pricing.forget()
        self.shown = None
        self.pending = {}
        self.table.bad = {}
        self.levers.clear()
        self.results.clear()
        self.table.choose(0 if self.job.get("rooms") else -1)
        self.room.choose(self.table.place)
        self.read_again()
        self.whatif.scenarios.start(self.job)
        if self.sitting.notices:
            self._say(". ".join(self.sitting.notices))

    def read_again(self) -> None:
        """Read the business and the own values anew, and price the job with them."""
        self.business = read_business(self.records)
        problem = self.pricing.read_own(self.records)
        self.refresh()
        self.notices.own_values(self.pricing.own, load_library())
        if problem:
            self._say(problem, "alert")

    # changes

    def put(self, path: Location, value: Any) -> None:
        """Let something else stand at a place of the job; what was assumed there is assumed no more."""
        job = apply(self.job, {path: value})
        if ASSUMED in job:
            job[ASSUMED] = [text for text in job[ASSUMED] if _same(find_place(text, job), self.job, job)]
        self.take(job, spoken(path, job))

    def take(self, job: Mapping[str, Any], said: str = "") -> None:
        """Take a changed job: keep it on disk, price it, and show what it did."""
        self._settle()
        self._keep(lambda: self.sitting.change(job, said))
        self.refresh()

    def _keep(self, write: Callable[[], object]) -> None:
        try:
            write()
        except RecordsError as problem:
            self.notices.not_kept(str(problem))

    def _titled(self, title: str) -> None:
        self.guarded(lambda: self.put(("title",), title))()

    def _stated(self, state: str) -> None:
        self.guarded(lambda: self._keep(lambda: self.sitting.note(state=state)))()

    def _asked(self, word: str) -> None:
        self.guarded(lambda: self._do(word))()

    def _do(self, word: str) -> None:
        if word == "look":
            if self.sitting.taken_elsewhere():
                self.notices.taken_elsewhere()
            return
        self._settle()
        if word.capitalize() in (UNDO, REDO):
            self._back(word.capitalize())
        elif word in (THEIRS, MINE):
            self._keep(self.sitting.take_theirs if word == THEIRS else self.sitting.keep_mine)
            self.notices.at_one_desk()
            self.refresh()
        elif word == NEW:
            self.lay(new_job(self.records, usual_job(self.business)))
        elif word == COPY:
            self.lay(copy_job(self.records, self.sitting.kept, usual_job(self.business)))
        self.leave(word)

    def _back(self, word: str) -> None:
        done: list[str] = []
        self._keep(lambda: done.append(self.sitting.undo() if word == UNDO else self.sitting.redo()))
        self.table.bad = {}
        self.refresh()
        self._say(f"{word}: {done[0]}" if done and done[0] else f"Nothing to {word.lower()}")

    # levers: one leaf of the standing tree

    def _moved(self, key: str, value: float) -> None:
        if self.outcome is None or self.shown is None or self.stale:
            return
        self._stop()
        self.before_levers = self.before_levers or self.shown
        self.pending[key] = value
        self.shown = with_values(self.outcome, self.pending)
        self.bar.show_price(self.shown, self.shown.since(self.before_levers), stale=False)
        self.rest.begin(self._settled)

    def _settled(self) -> Iterator[None]:
        before, self.before_levers = self.before_levers, None
        self._settle()
        self.refresh(before)
        yield

    def _settle(self) -> None:
        """Take what the sliders were moved to into the job, as one step."""
        if not self.pending or self.outcome is None:
            return
        used = self.outcome.basis.used()
        moved = {key: dict(own_figure(used[key], value)) for key, value in self.pending.items() if key in used}
        self.pending = {}
        self.before_levers = None
        job = {**self.job, "own": {**(self.job.get("own") or {}), **moved}}
        self._keep(lambda: self.sitting.change(job, ", ".join(used[key].name for key in moved)))

    # pricing and painting

    def _stop(self) -> None:
        self.rest.stop()
        self.later.stop()

    def refresh(self, before: Cheap | None = None) -> None:
        """Walk the whole way again with what is typed now; keep the last good result where something is wrong."""
        self._stop()
        before = before or self.shown
        self._say("")
        for form in self._forms():
            form.mark((), "")
        problems = self.pricing.price(self.job)
        if not problems:
            self.table.bad = {}
        self.room.paint()
        self.about.paint()
        self.figures.paint()
        self._complain(problems)
        self._paint(before)

    def finish(self) -> None:
        """Do at once what waits for the hand to rest: ranges, the open pane, questions, levers, the ranking."""
        while self.rest.work or self.later.work:
            self.rest.finish()
            self.later.finish()

    def _forms(self) -> list[PartForm]:
        return [*self.room.forms, *self.about.forms]

    def _complain(self, problems: list[InputError]) -> None:
        elsewhere = []
        for problem in problems:
            place = problem.location or find_place(problem.field, self.job)
            said = f"{short(problem.value)}: needs {problem.needed}"
            if not self._mark(place, said):
                elsewhere.append(f"{spoken(place, self.job) if place else problem.field}: {said}")
        if elsewhere:
            self._say("; ".join(elsewhere), "alert")

    def _mark(self, place: Location, said: str) -> bool:
        cell, told = row_and_column(place), any(form.mark(place, said) for form in self._forms())
        if cell:
            self.table.mark(*cell, f"{spoken(place, self.job)}: {said}", aloud=not told)
        return told or cell is not None

    def _paint(self, before: Cheap | None) -> None:
        self.bar.show_job(self.sitting.kept, title_of(self.job))
        self.notices.demo(bool(self.sitting.kept.demo))
        if self.outcome is None:
            self.shown = None
            self.bar.show_nothing()
            self.results.clear()
        elif not self.stale:
            self.shown = Cheap.of(self.outcome.estimate)
        if self.shown:
            self.bar.show_price(self.shown, self.shown.since(before) if before else None, self.stale)
        self.table.paint(None if self.stale else self.outcome)
        if not self.stale:
            self.rest.begin(self._at_rest)

    def _at_rest(self) -> Iterator[None]:
        """Work out what takes time: the drawing, ranges, the pane that is open, questions, levers."""
        self._draw()
        yield
        outcome, shown = self.outcome, self.shown
        if outcome is None or shown is None:
            self.confirm.offer([])
            return
        yield from self.pricing.work_out_ranges()
        self.bar.show_facts(shown, outcome.job.crew.people, self.sure)
        yield from self._look_closer()
        self.confirm.offer(open_questions(outcome.questions, self.job, self.house))
        self.notices.invented(outcome)
        yield
        self._keep(lambda: self.sitting.note(price=f"{outcome.estimate.price:.2f}"))
        found: list[Swing] = []
        for swing in swings(outcome):
            found += [swing] if swing else []
            yield
        self.levers.offer(found)
        if self.pricing.took < QUICK:
            self.rank(LATER)

    def rank(self, pause: float = 0.0) -> None:
        """Work out what each open answer can move, when the hand has rested for a while."""
        self.later.begin(lambda: self.confirm.rank(self.job, self.pricing.price_of), pause)

    def _look_closer(self) -> Iterator[None]:
        outcome, sure = self.outcome, self.sure
        if outcome is None or sure is None:
            return
        if self.results.name == WHAT_IF:
            self.whatif.paint()
            yield
        else:
            yield from self.results.paint(outcome, sure, self.units)

    def _look(self) -> None:
        """Show the pane that was opened, and the drawing, in the units chosen."""
        self._draw()
        for _ in self._look_closer():
            pass

    def _chosen(self) -> None:
        self.room.choose(self.table.place)
        self._draw()

    def _draw(self) -> None:
        drawn = room_drawing(self.job, self.table.place, self.table.covered, self.units)
        if self.drawing.value != drawn:
            self.drawing.value = drawn

    def go_to(self, place: Location) -> None:
        """Put the cursor into the field at a place, in the room it belongs to."""
        room = room_of(place, self.job)
        if room is not None:
            self.table.choose(room)
        if not any(form.focus(place) for form in self._forms()):
            self._say(f"{spoken(place, self.job)} stands in the table of rooms")

    # papers

    def _make(self, which: str) -> File | None:
        made: list[File] = []
        self.guarded(lambda: made.append(made_file(which, *self._to_send(), self.units, self._as_sent())))()
        return made[0] if made else None

    def _as_sent(self) -> Outcome | None:
        sent = self.sitting.kept.sent
        return self.pricing.outcome_of(sent) if sent else None

    def _send(self) -> None:
        self.sending.send(self.records, date.today())
        self._keep(lambda: self.sitting.note(state="sent", sent=True))
        self.bar.show_job(self.sitting.kept, title_of(self.job))

    def _to_send(self) -> tuple[Outcome, EstimateRanges]:
        if self.pending:
            self._settle()
            self.refresh()
        return self.pricing.to_send()


def _same(place: Location, before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    return bool(value_at(before, place) == value_at(after, place))
