"""The line on a page that says what happened, and handlers whose errors are said in it."""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from typing import Any

import ipywidgets as widgets

from estimating.errors import EstimatingError


class StatusLine:
    """One line of text: what was done, or what went wrong."""

    def __init__(self) -> None:
        self.widget = widgets.HTML()

    def say(self, text: str, role: str = "status") -> None:
        """Show a sentence in place of the last; role `alert` marks it as a complaint, no text clears the line."""
        style = "pe-error" if role == "alert" else "pe-small"
        self.widget.value = f'<p class="{style}" role="{role}">{escape(text)}</p>' if text else ""

    def guarded(self, action: Callable[[], None]) -> Callable[..., None]:
        """Return a handler whose errors are said on the page: an exception in a handler is otherwise never seen."""

        def handler(*_change: Any) -> None:
            try:
                action()
            except Exception as problem:
                self.fail(problem)

        return handler

    def fail(self, problem: Exception) -> None:
        """Say what went wrong."""
        known = isinstance(problem, EstimatingError)
        said = f"unexpected: {type(problem).__name__}: {problem}. The last good result is kept."
        self.say(str(problem) if known else said, "alert")
