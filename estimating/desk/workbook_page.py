"""The page of a notebook: the list of jobs, one's business, and the desk, one of them at a time."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import ipywidgets as widgets

from estimating.desk.bar import ALL, COPY, NEW
from estimating.desk.browser_parts import ActionRows
from estimating.desk.business_form import BusinessForm
from estimating.desk.desk import Desk
from estimating.desk.form import shared
from estimating.desk.layout import STYLE, card, classed
from estimating.desk.notices import MY_BUSINESS
from estimating.desk.status import StatusLine
from estimating.errors import InputError
from estimating.records.business import is_known, read_business, usual_job
from estimating.records.my_jobs import (
    DEMO,
    JobRow,
    copy_job,
    demo_jobs,
    last_open,
    my_jobs,
    new_job,
    open_file,
    open_own,
    remember,
)
from estimating.records.own import usual_place
from estimating.records.sitting import Sitting

FIRST_PAGE = "start"
NOT_KNOWN = (
    '<p class="pe-mind" role="status">Your business is not typed yet: company, wage, markup, prices. Until it is, a '
    "job is priced with invented figures, and says so.</p>"
)
HEAD = ["Job", "Client", "State", "Changed", "Price"]


def open_page(path: str | Path | None = None, records: str | Path | None = None) -> WorkbookPage:
    """Return the page of a notebook: with this job file on the desk, or with the list of jobs.

    A job of one's own that the page had on its desk last is there again.
    """
    place = Path(records) if records else usual_place()
    return WorkbookPage(place, Path(path) if path else None)


class WorkbookPage:
    """One page. `desk` is the job on the desk, once there has been one."""

    def __init__(self, records: Path, first: Path | None, demos: Path = Path("jobs")) -> None:
        self.records, self.first, self.demos = records, first, demos
        self.name = str(first) if first else FIRST_PAGE
        self.desk: Desk | None = None
        line = StatusLine()
        self.status, self.guarded = line.widget, line.guarded
        self.list = ActionRows(self._pressed, caption="My jobs", head=HEAD, nothing="None yet. New job begins one.")
        self.demo_list = ActionRows(
            self._pressed,
            caption="Demos, invented: they open as drafts and copies",
            head=["Demo"],
            nothing="There are none here.",
        )
        self.business = BusinessForm(records, self.guarded, self.guarded(self._after_business))
        self.file = widgets.Text(description="Job file", placeholder="jobs/my_job.toml", continuous_update=False)
        self.notice = widgets.HTML()
        self.jobs = self._jobs_page()
        self.widget = widgets.VBox([])
        self._begin()

    def _jobs_page(self) -> widgets.VBox:
        buttons = [
            _button("New job", "begin a job of your own", self.guarded(self._new)),
            _button(MY_BUSINESS, "company, rates, prices, terms: typed once", self.guarded(self._show_business)),
        ]
        opening = widgets.HBox([self.file, _button("Open file", "open a job file", self.guarded(self._open_file))])
        rows = [card("", self.list), card("", self.demo_list), card("", classed(opening, "desk-acts"))]
        top = classed(widgets.HBox(buttons), "desk-acts")
        return classed(widgets.VBox([top, self.notice, self.status, *rows]), "desk-jobs")

    def _begin(self) -> None:
        key = last_open(self.records, self.name)
        if key:
            self._lay(open_own(self.records, key))
        elif self.first:
            self._lay(open_file(self.records, self.first))
        else:
            self._show_jobs()

    def summary(self) -> str:
        """Return the result on the desk as plain text."""
        return self.desk.summary() if self.desk else "no job on the desk"

    def _show(self, inside: widgets.Widget) -> None:
        box = widgets.VBox([widgets.HTML(f"<style>{STYLE}</style>"), inside])
        self.widget.children = (classed(box, "estimating-desk"),)

    def _show_jobs(self) -> None:
        self.list.rows = [_row(row, ["Open", "Copy"]) for row in my_jobs(self.records)]
        self.demo_list.rows = [_row(row, ["Open", "Copy"]) for row in demo_jobs(self.demos)]
        self.notice.value = "" if is_known(read_business(self.records)) else NOT_KNOWN
        self._show(self.jobs)

    def _show_business(self) -> None:
        self.business.show()
        self._show(self.business.widget)

    def _after_business(self) -> None:
        if self.desk is None:
            self._show_jobs()
            return
        self.desk.read_again()
        self.widget.children = (self.desk.widget,)

    def _pressed(self, key: str, do: str) -> None:
        self.guarded(lambda: self._take(key, do))()

    def _take(self, key: str, do: str) -> None:
        demo = key.endswith(".toml")
        sitting = open_file(self.records, Path(key)) if demo else open_own(self.records, key)
        if do == "Copy":
            sitting = copy_job(self.records, sitting.kept, usual_job(read_business(self.records)))
        self._lay(sitting)

    def _new(self) -> None:
        self._lay(new_job(self.records, usual_job(read_business(self.records))))

    def _open_file(self) -> None:
        if not self.file.value.strip():
            raise InputError("job file", "nothing", "the name of a job file, such as jobs/my_job.toml")
        self._lay(open_file(self.records, Path(self.file.value.strip())))

    def _lay(self, sitting: Sitting) -> None:
        if self.desk is None:
            self.desk = Desk(sitting, self.records, self._left)
        else:
            self.desk.lay(sitting)
        self._remember()
        self.widget.children = (self.desk.widget,)

    def _remember(self) -> None:
        if self.desk is None:
            return
        key = self.desk.sitting.path.stem
        if not key.startswith(DEMO):
            remember(self.records, self.name, key)
        elif last_open(self.records, self.name):
            remember(self.records, self.name, "")

    def _left(self, word: str) -> None:
        """Do what a button of the desk asks of the page."""
        if word in (NEW, COPY):
            self._remember()
        elif word == ALL:
            if last_open(self.records, self.name):
                remember(self.records, self.name, "")
            self._show_jobs()
        elif word == MY_BUSINESS:
            self._show_business()


def _row(row: JobRow, actions: list[str]) -> dict[str, object]:
    when = row.changed[:16].replace("T", " ")
    price = f"${float(row.price):,.2f}" if row.price else ""
    cells = [row.title] if row.demo else [row.title, row.client, row.state, when, price]
    return {"id": row.key, "cells": cells, "actions": [] if row.state == "cannot be read" else actions}


def _button(word: str, tooltip: str, pressed: Callable[..., None]) -> widgets.Button:
    button = widgets.Button(description=word, tooltip=tooltip, style=shared().button, layout=shared().press)
    button.on_click(pressed)
    return button
