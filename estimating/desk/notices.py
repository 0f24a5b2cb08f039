"""Lines over the notes that somebody must not miss: a demo, invented prices in use, a second desk on the same job."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

import ipywidgets as widgets

from estimating.desk.form import shared
from estimating.evidence import Library
from estimating.origins import Kind
from estimating.records.own import OwnTable
from estimating.reports.panes.evidence import own_in_use
from estimating.workbook import Outcome

MY_BUSINESS = "My business"
THEIRS, MINE = "Take theirs", "Keep mine"
NAMED = 6  # invented figures that are named; the others are counted
DEMO = (
    "An invented job, to show the workbook. What you change is a draft of your own over it, and the demo stays as it "
    "is; Copy makes a job of your own of its rooms and work."
)


class Notices:
    """The lines. `asked` is called with the word of a button in one of them."""

    def __init__(self, asked: Callable[[str], None]) -> None:
        self.of_demo, self.of_own, self.of_invented = (widgets.HTML() for _ in range(3))
        self.business = _button(MY_BUSINESS, asked)
        self.two_desks = widgets.HBox(
            [
                widgets.HTML('<p class="pe-error" role="alert">This job was changed at another desk.</p>'),
                _button(THEIRS, asked),
                _button(MINE, asked),
            ]
        )
        self.invented_line = widgets.HBox([self.of_invented, self.business])
        self.invented_line.add_class("desk-notice")
        self.widget = widgets.VBox([self.of_demo, self.of_own, self.invented_line])
        self.is_demo = False

    def demo(self, is_demo: bool) -> None:
        """Say that the job on the desk is invented, or nothing."""
        self.is_demo = is_demo
        self.of_demo.value = f'<p class="pe-small">{DEMO}</p>' if is_demo else ""

    def own_values(self, own: OwnTable, library: Library) -> None:
        """Say which of one's own values stand in place of the tables'."""
        self.of_own.value = own_in_use(own.values, library, own.warning)

    def invented(self, outcome: Outcome) -> None:
        """Say which invented rates and prices a job of one's own still rests on, before a paper goes out."""
        names = [] if self.is_demo else invented_in_use(outcome)
        self.invented_line.layout.display = "" if names else "none"
        if names:
            more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
            said = (
                f"Still invented, not yours: {', '.join(names[:NAMED])}{more}. Type yours before a paper goes out; "
                "until then what the job may cost ranges over them."
            )
            self.of_invented.value = f'<p class="pe-mind" role="status">{escape(said)}</p>'

    def not_kept(self, why: str) -> None:
        """Say that what is typed could not be written down, and why."""
        self.of_demo.value = f'<p class="pe-error" role="alert">{escape(why)}</p>'

    def taken_elsewhere(self) -> None:
        """Say that somebody else has changed the job, and ask whose to keep."""
        if self.two_desks not in self.widget.children:
            self.widget.children = (self.two_desks, *self.widget.children)

    def at_one_desk(self) -> None:
        """Take that question away."""
        self.widget.children = tuple(each for each in self.widget.children if each is not self.two_desks)


def invented_in_use(outcome: Outcome) -> list[str]:
    """Return the names of the invented figures a price rests on, rates of the business first."""
    used = outcome.basis.used().values()
    invented = [figure for figure in used if figure.origin.kind is Kind.INVENTED]
    ordered = sorted(invented, key=lambda figure: not figure.key.startswith("business/"))
    return list(dict.fromkeys(figure.name for figure in ordered))


def _button(word: str, asked: Callable[[str], None]) -> widgets.Button:
    button = widgets.Button(description=word, style=shared().button, layout=shared().press)
    button.on_click(lambda _button: asked(word))
    return button
