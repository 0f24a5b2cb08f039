"""Where the parts of the desk stand: the bar over all, notes left, what they come to right, papers and panes below."""

from __future__ import annotations

from importlib.resources import files

import ipywidgets as widgets

STYLE = files("estimating.reports").joinpath("style.css").read_text("utf-8")
STYLE += files("estimating.desk").joinpath("browser/desk.css").read_text("utf-8")

EMPTY = "desk-empty"  # the class of what has nothing to show; the card around it goes too


def card(title: str, *inside: widgets.Widget) -> widgets.VBox:
    """Return widgets in a frame, under a heading if there is one."""
    head = [widgets.HTML(f"<h2>{title}</h2>")] if title else []
    return classed(widgets.VBox([*head, *inside]), "desk-card")


def classed(widget: widgets.Widget, name: str) -> widgets.Widget:
    """Return a widget with a class of the style sheet on it."""
    widget.add_class(name)
    return widget


def two_columns(left: list[widgets.Widget], right: list[widgets.Widget]) -> widgets.Widget:
    """Return two columns, which stand under each other where the page is narrow."""
    columns = [classed(widgets.VBox(left), "desk-left"), classed(widgets.VBox(right), "desk-right")]
    return classed(widgets.Box(columns), "desk-body")


def whole_page(bar: widgets.Widget, inside: list[widgets.Widget]) -> widgets.VBox:
    """Return the bar and all that is under it, with its style."""
    typing = classed(widgets.VBox(inside), "desk-typing")
    return classed(widgets.VBox([widgets.HTML(f"<style>{STYLE}</style>"), bar, typing]), "estimating-desk")
