"""What the records teach, for the contractor to say yes or no to: nothing changes before he does."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import ipywidgets as widgets

from estimating.desk.actuals_form import fill
from estimating.evidence import Library, OwnValue
from estimating.records.decisions import Decision
from estimating.reports.panes.evidence import Evidence, own_pane, row_name
from estimating.reports.panes.review import (
    effects_table,
    left_out,
    lesson_detail,
    pace_line,
    proposals_table,
    still_needed,
    to_look_at,
)
from estimating.review.lessons import Effect, Lesson, Lessons

NAMES = {"description_width": "120px"}


def _pace_button() -> widgets.Button:
    return widgets.Button(
        description="Use my pace for the rates without records",
        tooltip="move every rate of hours that nothing is recorded of; each can be taken back by itself",
        layout={"width": "auto"},
    )


class LessonsForm:
    """The proposals, the one looked at with what it would do, and the own values that stand."""

    def __init__(self, effects_of: Callable[[Lesson], Sequence[Effect]]) -> None:
        self.effects_of = effects_of
        self.found: Lessons | None = None
        self.skipped: list[str] = []
        self.filling = False  # the list is being filled, which is no choice
        self.all = widgets.HTML()
        self.chosen = widgets.Dropdown(options=[], description="look at", style=NAMES, layout={"width": "560px"})
        self.detail = widgets.HTML()
        self.accept = widgets.Button(
            description="Accept", button_style="primary", tooltip="use this value in place of the table's from now on"
        )
        self.not_now = widgets.Button(
            description="Not now", tooltip="put this proposal aside until the page is opened anew"
        )
        self.needed = widgets.HTML()
        self.pace = widgets.HTML()
        self.take_pace = _pace_button()
        self.own = widgets.HTML()
        self.mine = widgets.Dropdown(options=[], description="own value", style=NAMES, layout={"width": "560px"})
        self.take_back = widgets.Button(
            description="Take back", tooltip="undo the last acceptance: what stood before holds again"
        )
        self.asked = widgets.VBox([self.chosen, self.detail, widgets.HBox([self.accept, self.not_now])])
        self.undone = widgets.HBox([self.mine, self.take_back])
        self.widget = widgets.VBox(
            [
                widgets.HTML("<h3>What the records propose</h3>"),
                self.needed,
                self.all,
                self.asked,
                self.pace,
                self.take_pace,
                widgets.HTML("<h3>Values of your own</h3>"),
                self.undone,
                self.own,
            ]
        )

    def show(
        self,
        found: Lessons,
        library: Library,
        own: Mapping[str, OwnValue],
        warning: str,
        made: Sequence[Decision],
        sent: int,
    ) -> None:
        """Show what was found, keeping the proposal looked at where it is still one. sent: estimates, of all jobs."""
        self.found = found
        self.needed.value = still_needed(found) + to_look_at(found, sent)
        self.pace.value = pace_line(found)
        self.take_pace.layout.display = "" if found.pace else "none"
        self.all.value = proposals_table(found, own, self.skipped) + left_out(found.left_out)
        lessons = {each.row.key: each for each in found.proposals if each.row.key not in self.skipped}
        self.filling = True
        fill(self.chosen, [(row_name(each.row), key) for key, each in lessons.items()], self.chosen.value)
        self.filling = False
        self.asked.layout.display = "" if lessons else "none"
        self.own.value = own_pane(Evidence(library, {}, own), warning, made) if made else "<p>None accepted yet.</p>"
        rows = [library.named(key) for key in sorted(own)]
        fill(self.mine, [(f"{row_name(row)} ({row.table})", row.key) for row in rows], self.mine.value)
        self.undone.layout.display = "" if own else "none"
        self.look()

    @property
    def lesson(self) -> Lesson | None:
        """The proposal looked at."""
        proposals = self.found.proposals if self.found else ()
        return next((each for each in proposals if each.row.key == self.chosen.value), None)

    def look(self) -> None:
        """Open the proposal chosen: what it rests on, and what it would do to the estimates that are open."""
        if self.filling:
            return
        lesson = self.lesson
        if lesson is None or self.found is None:
            self.detail.value = ""
            return
        rested = lesson_detail(lesson, self.found.compared.observed)
        self.detail.value = rested + effects_table(self.effects_of(lesson))

    def skip(self) -> None:
        """Put the proposal looked at aside."""
        if self.lesson is not None:
            self.skipped.append(self.lesson.row.key)
