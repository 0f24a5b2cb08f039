"""The assumptions at the desk: those that move the price most under sliders, any other by name."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from html import escape
from typing import Any

import ipywidgets as widgets

from estimating.figures import Figure
from estimating.reports.format import number, spoken_unit

Changed = Callable[[], None]
HALF = 100  # steps of a slider on either side of where it starts
SHORT = {"description_width": "45px"}
NAMES = {"description_width": "250px"}


class Assumptions:
    """Own figures in place of reference rows: `own` holds them as a job file does."""

    def __init__(self, own: Mapping[str, Mapping[str, Any]], changed: Changed) -> None:
        self.own: dict[str, dict[str, Any]] = {key: dict(each) for key, each in own.items()}
        self.changed = changed
        self.figures: Mapping[str, Figure] = {}
        self.sliders: dict[str, widgets.FloatSlider] = {}
        self.picker = widgets.Dropdown(options=[], description="any other", style=NAMES, layout={"width": "405px"})
        self.boxes = {
            name: widgets.Text(description=name, continuous_update=False, style=SHORT, layout={"width": "133px"})
            for name in ("low", "likely", "high", "note")
        }
        self.boxes["note"].layout.width = "405px"
        self.use = widgets.Button(description="Use mine", tooltip="use this figure instead of the table's")
        self.back = widgets.Button(description="Back to the table", tooltip="use the table's figure again")
        self.said = widgets.HTML()
        self.top = widgets.VBox([])
        self.widget = widgets.VBox(
            [
                self.top,
                self.picker,
                widgets.HBox([self.boxes["low"], self.boxes["likely"], self.boxes["high"]]),
                self.boxes["note"],
                widgets.HBox([self.use, self.back]),
                self.said,
            ]
        )
        self.picker.observe(lambda _change: self._picked(), names="value")
        self.use.on_click(lambda _button: self._used())
        self.back.on_click(lambda _button: self._taken_back())

    def offer(self, figures: Mapping[str, Figure], top: Sequence[str]) -> None:
        """Show these assumptions, the ones named in `top` under sliders."""
        self.figures = dict(figures)
        self.picker.options = [("choose one", ""), *((self._label(key), key) for key in sorted(figures))]
        self.top.children = tuple(self._slider(key) for key in top)

    def _label(self, key: str) -> str:
        mine = " (mine)" if key in self.own else ""
        return f"{key}{mine}"

    def _slider(self, key: str) -> widgets.Widget:
        figure = self.figures[key]
        low, high = figure.low or 0.0, figure.high or 0.0
        step = max(high - figure.value, figure.value - low) * 1.5 / HALF
        step = min(step, figure.value / HALF)  # the value stands on a step: a slider rounds to its steps by itself
        unit = spoken_unit(figure.unit)
        box = widgets.BoundedFloatText(
            value=figure.value,
            min=0,
            max=1e9,
            description=f"{figure.name} {unit}",
            style=NAMES,
            layout={"width": "405px"},
        )
        slider = widgets.FloatSlider(
            value=figure.value,
            min=figure.value - HALF * step,
            max=figure.value + HALF * step,
            step=step,
            readout=False,
            layout={"width": "200px"},
        )
        slider.tooltip = figure.name
        origin = widgets.HTML(
            f'<span class="pe-small">{escape(str(figure.origin))}, {number(low)} to {number(high)}</span>'
        )
        widgets.link((slider, "value"), (box, "value"), transform=(_short, float))
        box.observe(lambda change: self._set(key, float(change["new"])), names="value")
        self.sliders[key] = slider
        return widgets.VBox([box, widgets.HBox([slider, origin])])

    def _set(self, key: str, value: float) -> None:
        before = self.own.get(key, {}).get("likely", self.figures[key].value)
        if math.isclose(value, float(before), rel_tol=1e-6):
            return
        self.own[key] = {"likely": value, "unit": self.figures[key].unit, "note": "set at the desk"}
        self.changed()

    def _picked(self) -> None:
        figure = self.figures.get(self.picker.value)
        if figure is None:
            return
        for name, value in (("low", figure.low), ("likely", figure.value), ("high", figure.high)):
            self.boxes[name].value = "" if value is None else number(value, 6)
        self.boxes["note"].value = ""
        self._say(f"{figure.key}, {spoken_unit(figure.unit)}: {figure.origin}. {figure.origin.note}")

    def _used(self) -> None:
        key = self.picker.value
        if not key:
            self._say("choose an assumption first")
            return
        typed = {name: box.value.strip() for name, box in self.boxes.items() if box.value.strip()}
        self.own[key] = {**typed, "unit": self.figures[key].unit}
        self.changed()

    def _taken_back(self) -> None:
        if self.own.pop(self.picker.value, None) is None:
            self._say("that is the table's own figure already")
            return
        self._say("the table's figure is used again")
        self.changed()

    def _say(self, text: str) -> None:
        self.said.value = f'<p class="pe-small" role="status">{escape(text)}</p>'


def _short(value: float) -> float:
    """Return the value of a slider without the dust that its steps leave: 1.8, not 1.7999999999999998."""
    return float(f"{value:.6g}")
