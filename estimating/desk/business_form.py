"""My business: typed once, used by every job. Rates and prices go into the contractor's own table of values."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from estimating.desk.browser_parts import Message, RoomGrid
from estimating.desk.details import Folded
from estimating.desk.form import Group, shared
from estimating.desk.layout import card, classed
from estimating.errors import EstimatingError, InputError, InputErrors
from estimating.evidence import Library, OwnValue, Row, load_library
from estimating.job.terms import Terms
from estimating.records.business import RATES, Business, UsualHouse, keep_business, read_business
from estimating.records.own import back_to_table, keep_own, own_table
from estimating.reports.format import number

Guarded = Callable[[Callable[[], None]], Callable[..., None]]
SENDER = ("company", "address", "contact", "license", "logo", "people")
SIZES = {"quart": "Quart", "gallon": "Gallon", "five": "5 gal"}
BY_SIZE = [{"id": "name", "name": "Product", "kind": "read"}] + [
    {"id": size, "name": name, "kind": "number"} for size, name in SIZES.items()
]
ONE = [{"id": "name", "name": "What", "kind": "read"}, {"id": "yours", "name": "Yours", "kind": "number"}]
INTRO = (
    '<p class="pe-small">What is gray is invented for the demo; a job says so until yours stands there. Your own wage, '
    "burden, overhead and hours are known: what a job may cost no longer ranges over them. Clear a box to go back to "
    "the table’s own figure.</p>"
)


class OwnGrid:
    """A grid of own values: a cell stands for a row of the reference tables."""

    def __init__(self, label: str, columns: list[dict[str, str]], cells: Mapping[str, Mapping[str, Row]]) -> None:
        self.cells = cells
        self.records = Path()
        self.bad: dict[str, dict[str, str]] = {}
        self.grid = RoomGrid(self._heard, label=label, entry="", cols=columns)

    def show(self, records: Path) -> None:
        """Show the own values that stand now; the table's figures stand grayed where there is none."""
        self.records = records
        own = own_table(records, load_library()).values
        self.grid.rows = [
            {
                "id": name,
                "cells": {
                    "name": name,
                    **{at: number(own[row.key].likely, 6) for at, row in several.items() if row.key in own},
                },
                "hints": {at: number(row.likely, 6) for at, row in several.items()},
                "bad": dict(self.bad.get(name, {})),
            }
            for name, several in self.cells.items()
        ]

    def _heard(self, message: Message) -> None:
        if message["do"] == "set":
            self._put(str(message["row"]), str(message["col"]), str(message["value"]))
        elif message["do"] == "paste":
            for (name, column), text in self._places(message).items():
                self._put(name, column, text)
        self.show(self.records)

    def _places(self, message: Message) -> dict[tuple[str, str], str]:
        names, columns = [*self.cells], [each["id"] for each in self.grid.cols if each["kind"] != "read"]
        top, left = names.index(str(message["row"])), columns.index(str(message["col"]))
        lines = [line.split("\t") for line in str(message["text"]).splitlines() if line.strip()]
        return {
            (name, column): text
            for name, line in zip(names[top:], lines, strict=False)
            for column, text in zip(columns[left:], line, strict=False)
        }

    def _put(self, name: str, column: str, text: str) -> None:
        self.bad.get(name, {}).pop(column, None)
        row = self.cells[name].get(column)
        if row is None:
            return
        try:
            self._keep(row, text.strip().removeprefix("$").removesuffix("%").strip())
            self.grid.say(f"{name}: kept, for every job from now on" if text.strip() else f"{name}: the table’s again")
        except EstimatingError as problem:
            needed = problem.needed if isinstance(problem, InputError) else str(problem)
            self.bad.setdefault(name, {})[column] = f"{text}: needs {needed}"
            self.grid.say(f"{name}: {text}: needs {needed}")

    def _keep(self, row: Row, text: str) -> None:
        if not text:
            if row.key in own_table(self.records, load_library()).values:
                back_to_table(self.records, row.key)
            return
        try:
            amount = float(text)
        except ValueError:
            raise InputError(row.key, text, "a number, such as 28 or 28.50") from None
        if not 0 <= amount <= 1e6:
            raise InputError(row.key, text, "a number from 0 to a million")
        keep_own(self.records, row, OwnValue(amount, row.unit, note="my business"))


def rates(library: Library) -> dict[str, dict[str, Row]]:
    """Return the rates of a business by their names, each with the row it stands for."""
    return {name: {"yours": library.row("business", key)} for key, name in RATES.items()}


def prices(library: Library, by_size: bool) -> dict[str, dict[str, Row]]:
    """Return the prices by product: of all sizes in a row, or of what comes in one size."""
    found: dict[str, dict[str, Row]] = defaultdict(dict)
    for (item, container, *_), row in library.table("prices").items():
        name = item.replace("_", " ")
        if (container in SIZES) == by_size:
            found[name if by_size else f"{name}, {container}"]["yours" if not by_size else container] = row
    return dict(found)


class BusinessForm:
    """The page of the business."""

    def __init__(self, records: Path, guarded: Guarded, done: Callable[[], None]) -> None:
        self.records, self.guarded = records, guarded
        library = load_library()
        self.said = widgets.HTML()
        self.rates = OwnGrid("Rates", ONE, rates(library))
        self.by_size = OwnGrid("Paint and primer, $ each", BY_SIZE, prices(library, by_size=True))
        self.single = OwnGrid("Everything else, $ each", ONE, prices(library, by_size=False))
        self.parts: dict[str, Group] = {}
        self.done = widgets.Button(description="Done", style=shared().button, layout=shared().press)
        self.done.on_click(lambda _button: done())
        self.inside = widgets.VBox([])
        self.widget = classed(widgets.VBox([widgets.HBox([self.done]), self.said, self.inside]), "desk-business")

    def show(self) -> None:
        """Show the business as it is kept."""
        self.kept = read_business(self.records)
        typed = self.guarded(self._typed)
        sender = Group(Business, self.kept, typed, hidden=("terms", "house"))
        self.parts = {"": sender}
        for name, model in (("terms", Terms), ("house", UsualHouse)):
            self.parts[name] = Group(model, self.kept[name], typed, HIDDEN_TERMS if name == "terms" else ())
        folded = {
            "Usual terms, for every new job": self.parts["terms"].widget,
            "Usual house: what is assumed until you know better": self.parts["house"].widget,
            "Price list": widgets.VBox([self.by_size.grid, self.single.grid]),
        }
        heads = [self._folded(title, inside) for title, inside in folded.items()]
        who = card("Who sends the documents", sender.widget)
        self.inside.children = (who, card("", widgets.HTML(INTRO), self.rates.grid), *heads)
        for grid in (self.rates, self.by_size, self.single):
            grid.show(self.records)

    def _folded(self, title: str, inside: widgets.Widget) -> widgets.Widget:
        folded = Folded(title, lambda: None)
        folded.box.children = (inside,)
        return card("", widgets.VBox(folded.widgets))

    def _typed(self) -> None:
        plain: dict[str, Any] = self.parts[""].plain()
        plain |= {name: part.plain() for name, part in self.parts.items() if name}
        for part in self.parts.values():
            part.mark((), "")
        try:
            keep_business(self.records, plain)
            self.said.value = '<p class="pe-small" role="status">Saved</p>'
        except InputErrors as problems:
            for problem in problems.problems:
                place = problem.location
                inner = bool(place) and str(place[0]) in self.parts
                part = self.parts[str(place[0]) if inner else ""]
                part.mark(place[1:] if inner else place, f"{problem.value}: needs {problem.needed}")


HIDDEN_TERMS = (
    "contractor",
    "contractor_address",
    "contractor_contact",
    "license",
    "logo",
    "number",
    "dated",
    "start_earliest",
    "start_latest",
)
