"""The review page: choose an estimate that was sent, type what it took, learn from it, see whether it was honest."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import ipywidgets as widgets

from estimating.desk.actuals_form import ActualsForm, SurfaceForm, fill
from estimating.desk.layout import card, whole_page
from estimating.desk.lessons_form import LessonsForm
from estimating.desk.status import StatusLine
from estimating.errors import RecordsError
from estimating.evidence import Basis, load_library
from estimating.records.actuals import add_release, add_test_outcome, withdraw
from estimating.records.decisions import take_back
from estimating.records.own import NOTHING_OWN, history, keep_own, own_table, usual_place
from estimating.records.price_list import trusted_days
from estimating.records.sent import SentEstimate, list_estimates, load_estimate
from estimating.records.store import Records, open_records
from estimating.reports.format import number
from estimating.reports.panes.review import estimate_name, honesty, open_prices, review_summary, welcome
from estimating.review.example import NAME, TODAY, invented_history
from estimating.review.lessons import Effect, Lesson, Lessons, effects, lessons
from estimating.review.prices import prices_of_open
from estimating.review.save_actuals import keep_actuals, open_estimates, recorded, surface_records

TABS = ("what it took", "tests and release", "what it teaches", "is it honest?")
TAKEN_OUT = "taken out at the desk"


def open_review(records: str | Path | None = None) -> Review:
    """Return the review page of a records file, the usual one when none is named."""
    return Review(Path(records) if records else usual_place())


def example_summary() -> str:
    """Return the review of the invented history as plain text; it is made anew each time and leaves no file."""
    library = load_library()
    with tempfile.TemporaryDirectory() as folder, open_records(invented_history(Path(folder) / NAME)) as records:
        found = lessons(records, library, NOTHING_OWN.values, TODAY)
        return review_summary(found, library, len(list_estimates(records)))


class Review:
    """A records file looked back on. `widget` is shown; the file is opened for each act and closed after it."""

    def __init__(self, path: Path) -> None:
        self.library = load_library()
        self.own = NOTHING_OWN
        self.filling = False  # the list is being filled, which is no choice
        line = StatusLine()
        self.status, self._say, self._guarded = line.widget, line.say, line.guarded
        self.file = widgets.Text(
            value=str(path), description="records file", continuous_update=False, layout={"width": "min(480px, 100%)"}
        )
        self.open = self._button("Open", "open the records file named here", self._open)
        self.example = self._button(
            "Show an invented history",
            "open a made-up history, in a file of its own beside this one",
            self._show_example,
        )
        self.sent = widgets.Dropdown(
            options=[],
            description="estimate",
            style={"description_width": "120px"},
            layout={"width": "min(760px, 100%)"},
        )
        self.sent.observe(self._guarded(self._choose), names="value")
        self.save = self._button("Save what it took", "keep what is typed below in the records", self._save)
        self.took, self.came_down = widgets.VBox([]), widgets.VBox([])
        self.lessons = LessonsForm(self._effects)
        self._listen()
        self.honest = widgets.HTML()
        panes = [self.took, self.came_down, self.lessons.widget, self.honest]
        self.tabs = widgets.Tab(panes, titles=TABS)
        self.body, self.welcome = widgets.VBox([]), widgets.HTML()
        opening = card("Records", widgets.HBox([self.file, self.open]))
        self.widget = whole_page(widgets.HTML(), [opening, self.status, self.body])
        self._guarded(self._open)()

    def _listen(self) -> None:
        self.lessons.chosen.observe(self._guarded(self.lessons.look), names="value")
        self.lessons.accept.on_click(self._guarded(self._accept))
        self.lessons.take_pace.on_click(self._guarded(self._take_pace))
        self.lessons.not_now.on_click(self._guarded(self._not_now))
        self.lessons.take_back.on_click(self._guarded(self._take_back))

    def _button(self, name: str, tooltip: str, action: Callable[[], None]) -> widgets.Button:
        button = widgets.Button(description=name, tooltip=tooltip, layout={"width": "auto"})
        button.on_click(self._guarded(action))
        return button

    @property
    def path(self) -> Path:
        """The records file looked at."""
        return Path(self.file.value)

    @property
    def today(self) -> date:
        """The day it is looked back from: today, or the day the invented history belongs to."""
        return TODAY if self.path.name == NAME else date.today()

    @contextmanager
    def _records(self) -> Iterator[Records]:
        if not self.path.exists():
            raise RecordsError(f"{self.path}: there is no such records file any more; open another")
        with open_records(self.path) as records:
            yield records

    def _open(self) -> None:
        self._say("")
        self.lessons.skipped.clear()
        sent = self._all_sent() if self.path.exists() else ()
        if not sent:
            self.welcome.value = welcome(str(self.path))
            self.body.children = (card("", self.welcome, self.example),)
            return
        self.body.children = (card("The estimate looked back on", self.sent, self.tabs),)
        self._offer(sent)
        self._learn()
        if self.path.name == NAME:
            self._say(f"An invented history, looked back on from {TODAY}. Nothing in it happened.")

    def _all_sent(self) -> tuple[SentEstimate, ...]:
        with self._records() as records:
            return list_estimates(records)

    def _show_example(self) -> None:
        self.file.value = str(invented_history(self.path.with_name(NAME)))
        self._open()

    def _offer(self, sent: Sequence[SentEstimate]) -> None:
        """List the estimates, the last sent first, keeping the one chosen."""
        with self._records() as records:
            named = [
                (estimate_name(each, bool(recorded(records, each))), each.id)
                for each in sorted(sent, key=lambda each: (each.sent_at, each.id), reverse=True)
            ]
        self.filling = True
        fill(self.sent, named, self.sent.value)
        self.filling = False
        self._choose()

    def _choose(self) -> None:
        if self.sent.value is None or self.filling:
            return
        with self._records() as records:
            sent = load_estimate(records, self.sent.value)
            self.actuals = ActualsForm(sent, recorded(records, sent), self.today)
            self.surface = SurfaceForm(sent, self.library, self.today)
            self.surface.show(*surface_records(records, sent.job.name))
        self.surface.add_test.on_click(self._guarded(self._add_test))
        self.surface.add_release.on_click(self._guarded(self._add_release))
        self.surface.take_out.on_click(self._guarded(self._take_out))
        self.took.children = (widgets.HBox([self.actuals.day.widget, self.save]), self.actuals.widget)
        self.came_down.children = (self.surface.widget,)

    def _save(self) -> None:
        actuals = self.actuals.read()
        with self._records() as records:
            kept = keep_actuals(records, self.actuals.sent, actuals)
        self._offer(self._all_sent())
        self._learn()
        done = f"lines known {len(actuals)}, entries added {kept.added}, older ones set aside {kept.withdrawn}"
        self._say(f"saved: {done}")

    def _add_test(self) -> None:
        outcome = self.surface.read_test()
        with self._records() as records:
            add_test_outcome(records, outcome)
        self._show_surface(f"kept: {outcome.kind}, {outcome.result}")

    def _add_release(self) -> None:
        release = self.surface.read_release()
        with self._records() as records:
            add_release(records, release)
        self._show_surface(f"kept: {number(release.released_area)} ft² of {number(release.worked_area)} came down")

    def _take_out(self) -> None:
        entry = self.surface.entries.value
        if entry is None:
            raise RecordsError("nothing is kept about this job, so there is nothing to take out")
        with self._records() as records:
            withdraw(records, entry, TAKEN_OUT)
        self._show_surface("taken out; the file keeps it with the reason")

    def _show_surface(self, done: str) -> None:
        with self._records() as records:
            self.surface.show(*surface_records(records, self.surface.sent.job.name))
        self._learn()
        self._say(done)

    def _learn(self) -> None:
        """Read the own values and the records anew, and show what they teach and whether the ranges held."""
        self.own = own_table(self.path, self.library)
        with self._records() as records:
            self.found: Lessons = lessons(records, self.library, self.own.values, self.today)
            self.still_open = open_estimates(records)
        made = history(self.path)
        jobs = len({each.job.name for each in self._all_sent()})
        self.lessons.show(self.found, self.library, self.own.values, self.own.warning, made, jobs)
        prices = prices_of_open(self.still_open, self.library, self.own.values, self.today)
        trusted = trusted_days(Basis(self.library, self.own.values))
        self.honest.value = honesty(self.found, self.library) + open_prices(prices, trusted)

    def _effects(self, lesson: Lesson) -> tuple[Effect, ...]:
        return effects(self.still_open, self.library, self.own.values, lesson, self.today)

    def _accept(self) -> None:
        lesson = self.lessons.lesson
        if lesson is None:
            raise RecordsError("no proposal is chosen")
        keep_own(self.path, lesson.row, lesson.own_value(self.today))
        self._learn()
        self._say(f"accepted, and used from now on: {lesson.row.key}, {lesson.text}. Desks use it after Refresh.")

    def _take_pace(self) -> None:
        pace = self.found.pace
        if pace is None:
            raise RecordsError("the records say nothing of a pace yet, so there is none to use")
        for each in pace.updates:
            keep_own(self.path, each.row, each.own_value(self.today))
        self._learn()
        self._say(f"accepted, and used from now on: {pace.text}. Desks use it after Refresh.")

    def _not_now(self) -> None:
        self.lessons.skip()
        self._learn()
        self._say("put aside until the page is opened anew; nothing was changed")

    def _take_back(self) -> None:
        key = self.lessons.mine.value
        if key is None:
            raise RecordsError("no value of your own stands, so there is none to take back")
        with self._records() as records:
            take_back(records, key)
        self._learn()
        self._say(f"taken back: {key}. What stood before holds again.")

    def summary(self) -> str:
        """Return the review as plain text."""
        if not self.sent.options:
            return f"{self.path}: no estimate has been recorded as sent yet"
        return review_summary(self.found, self.library, len(self.sent.options))
