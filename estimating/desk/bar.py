"""The bar that never scrolls away: whose job it is, what it comes to, what the last change did, whether it is kept."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

import ipywidgets as widgets

from estimating.desk.browser_parts import Pulse
from estimating.desk.form import shared
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.records.sitting import STATES, Kept
from estimating.reports.format import UnitSystem
from estimating.reports.panes import bar as drawn
from estimating.reports.panes.bar import Cheap, Step

Asked = Callable[[str], None]
ALL, NEW, COPY, UNDO, REDO = "All jobs", "New", "Copy", "Undo", "Redo"
WHAT_IT_DOES = {
    ALL: "the list of your jobs",
    NEW: "begin a job of your own",
    COPY: "begin a job of your own with these rooms and this work",
    UNDO: "take the last change back (Ctrl+Z, or Alt+Z in a field)",
    REDO: "make it again (Ctrl+Y, or Alt+Shift+Z in a field)",
}


class Bar:
    """The figures and the buttons over a job. `asked` is called with the word of a button."""

    def __init__(self, asked: Asked, titled: Asked, stated: Asked, shown: Callable[[], None]) -> None:
        self.setting = False
        self.title = widgets.Text(description="Job", continuous_update=False, layout={"width": "auto"})
        self.title.observe(lambda change: self._typed(titled, str(change["new"])), names="value")
        self.state = widgets.Dropdown(options=STATES, description="State", layout={"width": "auto"})
        self.state.observe(lambda change: self._typed(stated, str(change["new"])), names="value")
        self.units = widgets.Dropdown(options=[*map(str, UnitSystem)], description="Units", layout={"width": "auto"})
        self.units.observe(lambda _change: shown(), names="value")
        self.buttons = {word: self._button(word, asked) for word in WHAT_IT_DOES}
        self.pulse = Pulse(asked)
        self.price, self.range, self.facts = (widgets.HTML() for _ in range(3))
        self.widget = self._laid_out()

    def _button(self, word: str, asked: Asked) -> widgets.Button:
        button = widgets.Button(
            description=word, tooltip=WHAT_IT_DOES[word], style=shared().button, layout=shared().press
        )
        button.on_click(lambda _button: asked(word))
        return button

    def _typed(self, heard: Asked, text: str) -> None:
        if not self.setting:
            heard(text)

    def _laid_out(self) -> widgets.VBox:
        job = widgets.HBox([self.title, *self.buttons.values(), self.state, self.units, self.pulse])
        job.add_class("bar-job")
        figures = widgets.HBox([self.price, self.range, self.facts])
        figures.add_class("bar-figures")
        for part, name in ((self.price, "bar-a"), (self.range, "bar-b"), (self.facts, "bar-c")):
            part.add_class(name)
        whole = widgets.VBox([job, figures])
        whole.add_class("desk-bar")
        return whole

    def show_job(self, kept: Kept, title: str) -> None:
        """Show whose job it is, its state, how far undo and redo go, and when it was last saved."""
        self.setting = True
        try:
            self.title.value = title
            self.state.value = kept.state
        finally:
            self.setting = False
        self.state.disabled = bool(kept.demo)
        self.buttons[UNDO].disabled = kept.at == 0
        self.buttons[REDO].disabled = kept.at == len(kept.steps)
        self.pulse.saved = datetime.fromisoformat(kept.changed).timestamp() if kept.changed else 0.0

    def show_nothing(self) -> None:
        """Say that there is no price yet."""
        self.price.value = f'<p class="pe-small">{drawn.NOTHING_YET}</p>'
        self.range.value = self.facts.value = ""

    def show_price(self, now: Cheap, step: Step | None, stale: bool) -> None:
        """Show the price and what the last change did."""
        self.price.value = drawn.price_words(now, step, stale)

    def show_facts(self, now: Cheap, people: int, sure: EstimateRanges | None) -> None:
        """Show hours, days and margin, with their ranges and the drawn range once these are worked out."""
        self.facts.value = drawn.facts(now, sure, people)
        if sure is not None:
            self.range.value = drawn.range_drawn(now, sure)
