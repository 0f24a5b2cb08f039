"""What a sent estimate really took: a box a line, beside what was promised, and what came of the old coating."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import TypeVar

import ipywidgets as widgets

from estimating.desk.form import Entry, heading
from estimating.errors import InputErrors
from estimating.evidence import Library
from estimating.records.actuals import Actual, Release, SurfaceTest
from estimating.records.sent import SentEstimate, SentLine
from estimating.reports.format import number
from estimating.reports.panes.review import KIND_WORDS, promised, surface_list
from estimating.review.parse_actuals import (
    FORGOTTEN,
    UNITS,
    Forgotten,
    TypedRelease,
    field_tests,
    measured_lines,
    read_actuals,
    read_release,
    read_test,
)
from estimating.review.release_terms import ReleaseTerms, history_classes, terms_of

NAMES = {"description_width": "350px"}
SHORT_NAMES = {"description_width": "150px"}
SMALL = 0.25  # hours; shorter lines are folded away: nobody times them
NOT_KNOWN = "not known"
T = TypeVar("T")


def box(name: str, value: str = "", hint: str = NOT_KNOWN, short: bool = False) -> Entry:
    """Return a labelled box with a place below it for what is wrong."""
    control = widgets.Text(
        value=value,
        description=name,
        placeholder=hint,
        continuous_update=False,
        style=SHORT_NAMES if short else NAMES,
        layout={"width": "330px" if short else "460px"},
    )
    entry = Entry(control, lambda: None)
    entry.widget.layout.flex = "0 0 auto"
    return entry


def choice(name: str, options: Sequence[tuple[str, object]]) -> widgets.Dropdown:
    """Return a labelled list to choose from."""
    return widgets.Dropdown(options=options, description=name, style=SHORT_NAMES, layout={"width": "400px"})


def fill(choice_: widgets.Dropdown, options: Sequence[tuple[str, object]], wanted: object = None) -> None:
    """Put options into a list and choose the wanted one, or the first; a list that was empty would choose none."""
    choice_.options = options
    values = [value for _, value in options]
    choice_.index = values.index(wanted) if wanted in values else 0 if values else None


class ActualsForm:
    """The boxes of one sent estimate. It reads what is typed; keeping it is the page's part."""

    def __init__(self, sent: SentEstimate, standing: Mapping[tuple[str, str], Sequence[Actual]], today: date) -> None:
        self.sent, self.today = sent, today
        days = [entry.done_on for entries in standing.values() for entry in entries]
        self.day = box("finished on", (max(days) if days else today).isoformat(), "2026-05-04", short=True)
        self.boxes = {line.line: box(line.line, _recorded(standing, line)) for line in measured_lines(sent)}
        extra = [entry for entries in standing.values() for entry in entries if entry.task == FORGOTTEN]
        rows = [(each.line, number(each.amount, 6)) for each in extra]
        self.forgotten = [
            (box("what was it", what, "moved a piano", short=True), box("its hours", hours, short=True))
            for what, hours in [*rows, ("", "")]
        ]
        self.widget = widgets.VBox([*self._lines(), *self._forgotten_rows()])

    def _lines(self) -> list[widgets.Widget]:
        lines = measured_lines(self.sent)
        big = {
            measure: [each for each in lines if each.measure == measure and not _is_small(each)] for measure in UNITS
        }
        small = [each for each in lines if _is_small(each)]
        parts = [
            widgets.VBox([heading(KIND_WORDS[measure]), *map(self._row, several)])
            for measure, several in big.items()
            if several
        ]
        if small:
            title = f"{len(small)} lines of less than a quarter of an hour"
            parts.append(widgets.Accordion([widgets.VBox([*map(self._row, small)])], titles=[title]))
        return parts

    def _row(self, line: SentLine) -> widgets.HBox:
        parts = [self.boxes[line.line].widget, widgets.HTML(promised(line))]
        return widgets.HBox(parts, layout={"align_items": "baseline"})

    def _forgotten_rows(self) -> list[widgets.Widget]:
        rows = [widgets.HBox([what.widget, hours.widget]) for what, hours in self.forgotten]
        return [heading("work that stood in no estimate"), *rows]

    def read(self) -> tuple[Actual, ...]:
        """Return what is typed; InputErrors when something is wrong, each marked in its place."""
        typed = {name: entry.plain() for name, entry in self.boxes.items()}
        forgotten = [Forgotten(what.plain(), hours.plain()) for what, hours in self.forgotten]
        return marked(self._places(), lambda: read_actuals(self.sent, typed, self.day.plain(), forgotten, self.today))

    def _places(self) -> dict[str, Entry]:
        extra = {
            f"{name} {place}": entry
            for place, pair in enumerate(self.forgotten)
            for name, entry in zip(("what", "hours"), pair, strict=True)
        }
        return {**self.boxes, **extra, "day": self.day}


def _is_small(line: SentLine) -> bool:
    return line.measure == "hours" and line.likely < SMALL


def _recorded(standing: Mapping[tuple[str, str], Sequence[Actual]], line: SentLine) -> str:
    entries = standing.get((line.line, line.measure))
    return number(sum(each.amount for each in entries), 6) if entries else ""


def marked(places: Mapping[str, Entry], read: Callable[[], T]) -> T:
    """Return what is read; take old marks away first, and put new ones where something is wrong."""
    for entry in places.values():
        entry.mark((), "")
    try:
        return read()
    except InputErrors as problems:
        for each in problems.problems:
            places[str(each.location[0])].mark((), f"{each.value!r}: needs {each.needed}")
        raise


class SurfaceForm:
    """Tests of the surface, and whether an old coating came down; each is kept by a button of its own."""

    def __init__(self, sent: SentEstimate, library: Library, today: date) -> None:
        self.sent, self.today = sent, today
        self.terms = terms_of(sent)
        self.test = choice("test", [(f"{kind}: {result}", (kind, result)) for kind, result in field_tests()])
        self.place = box("where", hint="", short=True)
        self.tested_on = box("tested on", today.isoformat(), "2026-05-04", short=True)
        self.add_test = widgets.Button(description="Add the test", tooltip="keep what this test showed")
        self.work = choice("work and method", [(_term_words(each), each) for each in self.terms])
        self.history = choice("history, as found", _histories(library))
        self.worked = box("area worked on, ft²", hint="ft², or with its unit", short=True)
        self.released = box("came down, ft²", hint="0 when nothing came down", short=True)
        self.hours = box("hours to put right", hint="0 when there was nothing", short=True)
        self.done_on = box("done on", today.isoformat(), "2026-05-04", short=True)
        self.add_release = widgets.Button(
            description="Add what came down", tooltip="keep whether it came down", layout={"width": "auto"}
        )
        self.list = widgets.HTML()
        self.entries = choice("recorded", [])
        self.take_out = widgets.Button(
            description="Take out", tooltip="leave this entry out from now on; the file keeps it with the reason"
        )
        self.work.observe(lambda _change: self._offered(), names="value")
        self._offered()
        left, right = widgets.VBox(self._tests()), widgets.VBox(self._release())
        self.widget = widgets.VBox([widgets.HBox([left, right]), *self._kept()])

    def _tests(self) -> list[widgets.Widget]:
        boxes = [self.place.widget, self.tested_on.widget]
        return [heading("what tests showed"), self.test, *boxes, widgets.HBox([self.add_test])]

    def _release(self) -> list[widgets.Widget]:
        title = heading("did the old coating come down")
        if not self.terms:
            return [title, widgets.HTML('<p class="pe-small">Nothing in this estimate could come down.</p>')]
        boxes = [each.widget for each in (self.worked, self.released, self.hours, self.done_on)]
        return [title, self.work, self.history, *boxes, widgets.HBox([self.add_release])]

    def _kept(self) -> list[widgets.Widget]:
        return [heading("kept about this job"), self.list, widgets.HBox([self.entries, self.take_out])]

    def _offered(self) -> None:
        """Put what the estimate held of the work chosen into the boxes."""
        terms: ReleaseTerms | None = self.work.value
        if terms is None:
            return
        known = [value for _, value in self.history.options]
        self.history.value = terms.history if terms.history in known else known[0]
        self.worked.control.value = number(terms.area, 6)

    def show(self, tests: Sequence[SurfaceTest], releases: Sequence[Release]) -> None:
        """Show what is kept about the job."""
        self.list.value = surface_list(tests, releases)
        named: list[tuple[str, object]] = [
            *((f"{each.tested_on} {each.kind}: {each.result}", each) for each in tests),
            *((f"{each.done_on} {number(each.released_area)} ft² came down", each) for each in releases),
        ]
        fill(self.entries, named)

    def read_test(self) -> SurfaceTest:
        """Return the test that is typed; InputErrors when its day is none, marked there."""
        kind, result = self.test.value
        job, place = self.sent.job.name, self.place.plain()
        return marked(
            {"day": self.tested_on},
            lambda: read_test(job, kind, result, place, self.tested_on.plain(), self.today),
        )

    def read_release(self) -> Release:
        """Return what is typed about the old coating; InputErrors when something is wrong, each marked in its place."""
        places = {"worked": self.worked, "released": self.released, "hours": self.hours, "day": self.done_on}
        typed = TypedRelease(self.history.value, *(entry.plain() for entry in places.values()))
        return marked(places, lambda: read_release(self.sent.job.name, self.work.value, typed, self.today))


def _term_words(terms: ReleaseTerms) -> str:
    held = f"tests: odds × {number(terms.odds)}; it brings down {terms.share:.0%} of weak ones"
    return f"{terms.work}: {terms.method.replace('_', ' ')} ({held})"


def _histories(library: Library) -> list[tuple[str, str]]:
    """Return the classes of history the tables have a chance for."""
    return [(each.replace("_", " "), each) for each in history_classes(library)]
