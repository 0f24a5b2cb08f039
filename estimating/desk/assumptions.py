"""Any figure of the reference tables, by name, with one of one's own in its place for this job alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from html import escape
from typing import Any

import ipywidgets as widgets

from estimating.desk.details import Folded, HasJob
from estimating.figures import Figure
from estimating.reports.format import number, spoken_unit

FIELDS = ("low", "likely", "high", "note")


class AnyFigure:
    """The picker and the boxes. Own figures stand in the job as its file holds them."""

    def __init__(self, desk: HasJob, used: Callable[[], Mapping[str, Figure]]) -> None:
        self.desk, self.used = desk, used
        self.folded = Folded("My figures for this job", desk.guarded(self.paint))
        self.picker = widgets.Dropdown(options=[], description="Figure", layout={"width": "100%", "max_width": "460px"})
        self.boxes = {name: widgets.Text(description=name, continuous_update=False) for name in FIELDS}
        self.use = widgets.Button(description="Use mine")
        self.back = widgets.Button(description="Back to the table")
        self.said = widgets.HTML()
        buttons = widgets.HBox([self.use, self.back])
        self.folded.box.children = (self.picker, *self.boxes.values(), buttons, self.said)
        self.picker.observe(desk.guarded(self._picked), names="value")
        self.use.on_click(desk.guarded(self._used))
        self.back.on_click(desk.guarded(self._taken_back))

    @property
    def own(self) -> dict[str, Any]:
        """The job's own figures."""
        return dict(self.desk.job.get("own") or {})

    def paint(self) -> None:
        """Offer the figures the price rests on now; those that are one's own already are marked."""
        if not self.folded.shown:
            return
        named = [(f"{key} (mine)" if key in self.own else key, key) for key in sorted({**self.used(), **self.own})]
        options = [("choose one", ""), *named]
        if list(self.picker.options) != options:
            kept = self.picker.value
            self.picker.options = options
            self.picker.value = kept if kept in {key for _, key in options} else ""

    def _picked(self) -> None:
        figure = self.used().get(str(self.picker.value))
        if figure is None:
            return
        for name, value in (("low", figure.low), ("likely", figure.value), ("high", figure.high)):
            self.boxes[name].value = "" if value is None else number(value, 6)
        self.boxes["note"].value = ""
        self._say(f"{figure.name}, {spoken_unit(figure.unit)}: {figure.origin}. {figure.origin.note}")

    def _used(self) -> None:
        figure = self.used().get(str(self.picker.value))
        if figure is None:
            self._say("choose a figure first")
            return
        typed = {name: box.value.strip() for name, box in self.boxes.items() if box.value.strip()}
        self.desk.put(("own", figure.key), {**typed, "unit": figure.unit})

    def _taken_back(self) -> None:
        own = self.own
        if own.pop(str(self.picker.value), None) is None:
            self._say("that is the table’s own figure already")
            return
        self._say("the table’s figure is used again")
        self.desk.put(("own",), own)

    def _say(self, text: str) -> None:
        self.said.value = f'<p class="pe-small" role="status">{escape(text)}</p>'
