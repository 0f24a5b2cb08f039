"""The reference tables as a page: look a figure up, see what stands behind it, and put one's own in its place."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date
from pathlib import Path

import ipywidgets as widgets

from estimating.desk.layout import card, two_columns, whole_page
from estimating.desk.status import StatusLine
from estimating.errors import InputError
from estimating.evidence import OwnValue, Row, load_library
from estimating.origins import Kind
from estimating.printed import by_row, read_printed
from estimating.records.own import NOTHING_OWN, back_to_table, history, keep_own, own_table, usual_place
from estimating.reports.charts.evidence import bands, spread_plot
from estimating.reports.format import number
from estimating.reports.panes.evidence import (
    DIGITS,
    Evidence,
    chosen_rows,
    evidence_summary,
    own_pane,
    row_detail,
    row_name,
    rows_table,
)

FIRST_TABLE = "coverage"
ANY_ORIGIN, MINE = "any origin", "my own values"
EACH_CLASS, EACH_ROW = "each class", "each row"
PANES = ("rows", "what is printed", "my own table")
NAMES = {"description_width": "60px"}


def wide(pixels: int) -> dict[str, str]:
    """Return the layout of a control so wide."""
    return {"width": f"min({pixels}px, 100%)"}


def open_reference(records: str | Path | None = None) -> ReferencePage:
    """Return the page of the reference tables, with the own values of the records file."""
    return ReferencePage(Path(records) if records else usual_place())


class ReferencePage:
    """The reference tables on a page. `widget` is shown; nothing is written until a value is kept."""

    def __init__(self, records: Path) -> None:
        self.records = records
        self.library = load_library()
        self.kept = NOTHING_OWN
        self.evidence = Evidence(self.library, by_row(read_printed(), self.library), self.kept.values)
        line = StatusLine()
        self.status, self._say, self._guarded = line.widget, line.say, line.guarded
        self.table = widgets.Dropdown(
            options=sorted(self.library.tables),
            value=FIRST_TABLE,
            description="table",
            style=NAMES,
            layout=wide(220),
        )
        self.words = widgets.Text(description="find", placeholder="any words", style=NAMES, layout=wide(260))
        self.origin = widgets.Dropdown(
            options=[ANY_ORIGIN, MINE, *map(str, self.evidence.kinds)], description="origin", style=NAMES
        )
        self.apart = widgets.Checkbox(description="only where sources disagree", indent=False, layout=wide(220))
        self.row = widgets.Select(options=[], rows=12, description="row", style=NAMES, layout={"width": "100%"})
        self.detail = widgets.HTML()
        self.own = OwnEntry()
        self.lines = widgets.Dropdown(options=[EACH_CLASS, EACH_ROW], description="a line for", layout=wide(240))
        self.answers = {name: widgets.HTML() for name in PANES}
        self.tabs = widgets.Tab()
        self.widget = self._laid_out()
        self._listen()
        self._filtered()
        self._guarded(self._read)()

    def _laid_out(self) -> widgets.VBox:
        for part, name in ((self.row, "pe-list"), (self.detail, "pe-detail"), (self.tabs, "pe-evidence")):
            part.add_class(name)
        rows, plot, own = self.answers.values()
        self.tabs.children = (rows, widgets.VBox([self.lines, plot]), own)
        self.tabs.titles = PANES
        filters = widgets.HBox([self.table, self.words, self.origin, self.apart])
        found = two_columns(
            [card("Choose a figure", filters, self.row), card("My own value", self.own.widget)],
            [card("What it rests on", self.detail)],
        )
        return whole_page(widgets.HTML(), [self.status, found, card("The table", self.tabs)])

    def _listen(self) -> None:
        for control in (self.table, self.words, self.origin, self.apart):
            control.observe(self._guarded(self._filtered), names="value")
        self.row.observe(self._guarded(self._picked), names="value")
        self.lines.observe(self._guarded(self._paint), names="value")
        self.tabs.observe(self._guarded(self._paint), names="selected_index")
        self.own.use.on_click(self._guarded(self._keep))
        self.own.back.on_click(self._guarded(self._back))

    def summary(self) -> str:
        """Return the state of the open table as plain text."""
        return evidence_summary(self.evidence, self.table.value)

    def _read(self) -> None:
        """Read the own values anew and show all again."""
        self.kept = own_table(self.records, self.library)
        self.evidence = replace(self.evidence, own=self.kept.values)
        self._filtered()

    def _filtered(self) -> None:
        """Offer the rows that hold the words; keep the chosen one where it is among them."""
        mine = self.origin.value == MINE
        kind = None if mine or self.origin.value == ANY_ORIGIN else Kind(self.origin.value)
        self.rows = chosen_rows(
            self.evidence, self.table.value, self.words.value, kind, disagreeing=self.apart.value, mine=mine
        )
        chosen = self.row.value
        options = [(self._label(row), row.key) for row in self.rows]
        if list(self.row.options) != options:
            self.row.options = options
            self.row.value = chosen if chosen in [key for _, key in options] else (options[0][1] if options else None)
        self._picked()

    def _label(self, row: Row) -> str:
        mine = " · yours" if row.key in self.evidence.own else ""
        return f"{row_name(row)}{mine}"

    @property
    def chosen(self) -> Row | None:
        """The row that is open; None when no row holds the words."""
        return next((row for row in self.rows if row.key == self.row.value), None)

    def _picked(self) -> None:
        row = self.chosen
        self.detail.value = row_detail(row, self.evidence) if row else "<p>Choose a row.</p>"
        self.own.show(row, self.evidence.own.get(row.key) if row else None)
        self._paint()

    def _paint(self) -> None:
        """Fill the pane in front, and only that one."""
        name = PANES[self.tabs.selected_index or 0]
        if name == "rows":
            shown = rows_table(self.rows, self.evidence, self.row.value or "")
        elif name == "my own table":
            shown = own_pane(self.evidence, self.kept.warning, history(self.records))
        else:
            shown = spread_plot(bands(self.rows, self.evidence, by_class=self.lines.value == EACH_CLASS))
        self.answers[name].value = shown

    def _keep(self) -> None:
        row = self._must_choose()
        keep_own(self.records, row, self.own.typed())
        self._read()
        self._say(f"{row.key}: yours is used for every job from now on, kept in {self.records}")

    def _back(self) -> None:
        row = self._must_choose()
        back_to_table(self.records, row.key)
        self._read()
        self._say(f"{row.key}: the table's figure is used again")

    def _must_choose(self) -> Row:
        row = self.chosen
        if row is None:
            raise InputError("row", "none", "a row chosen from the list")
        return row


class OwnEntry:
    """The boxes for a value of one's own in place of the chosen row."""

    def __init__(self) -> None:
        self.boxes = {
            name: widgets.Text(description=name, style=NAMES, layout=wide(190))
            for name in ("low", "likely", "high", "unit", "date")
        }
        self.boxes["note"] = widgets.Text(description="note", style=NAMES, layout=wide(390))
        self.use = widgets.Button(description="Use mine for every job", layout=wide(190))
        self.back = widgets.Button(description="Back to the table", layout=wide(150))
        self.use.tooltip = "put my own value in place of this row, for every job"
        self.back.tooltip = "use the table's figure again"
        low, likely, high, unit, day, note = self.boxes.values()
        self.widget = widgets.VBox(
            [
                widgets.HBox([low, likely]),
                widgets.HBox([high, unit]),
                widgets.HBox([day]),
                note,
                widgets.HBox([self.use, self.back]),
            ]
        )

    def show(self, row: Row | None, own: OwnValue | None) -> None:
        """Fill the boxes with the own value that stands, or with the table's and today's date.

        A blank low or high follows the table's; what the table says stands in it in gray.
        """
        for name in ("low", "likely", "high"):
            self.boxes[name].placeholder = number(getattr(row, name), DIGITS) if row else ""
            value = getattr(own, name) if own else None
            self.boxes[name].value = "" if value is None else number(value, DIGITS)
        self.boxes["unit"].value = own.unit if own else row.unit if row else ""
        self.boxes["date"].value = own.date if own else date.today().isoformat()
        self.boxes["note"].value = own.note if own else ""
        self.back.disabled = own is None

    def typed(self) -> OwnValue:
        """Return the value typed; InputError for what is no number. A low or high left blank follows the table's."""
        low, likely, high = (_number(name, self.boxes[name].value) for name in ("low", "likely", "high"))
        if likely is None:
            raise InputError("likely", "", "a number")
        unit, day, note = (self.boxes[name].value.strip() for name in ("unit", "date", "note"))
        return OwnValue(likely, unit, low, high, note, day, Kind.ENTERED)


def _number(name: str, text: str) -> float | None:
    if not text.strip():
        return None
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise InputError(name, text, "a number, or nothing where it follows the table's")
    return value
