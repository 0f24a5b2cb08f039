"""Every numeric table reaches a price, a plan or a day; what does not is named here, with what it is for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest
from places import JOBS

from estimating.errors import EstimatingError
from estimating.evidence import Library, Row, load_library
from estimating.job.model import Job
from estimating.workbook import estimate_job, read_job

LIBRARY = load_library()
CHECK_ONLY = {
    "bounds": "what may be typed, and what is asked about: it refuses or asks, and prices nothing",
    "adhesion": "classes of a test, read beside the ceiling's own tests",
    "film": "what sheets print of wet and dry film, against which coatings and rules are held",
    "filters": "which mesh goes with which tip: said, not priced",
    "tips": "chosen by their code; the orifice in the table is a copy of what the code says",
    "norms": "published hours, against which production is held",
}
FIXED = {"cautions": "years and limits that decide which caution stands, not what it costs"}
JOBS_ = [read_job(path) for path in sorted(JOBS.glob("*.toml"))]


def nudged(table: str, times: float) -> Library:
    rows = {keys: _times(row, times) for keys, row in LIBRARY.tables[table].items()}
    return Library(MappingProxyType({**LIBRARY.tables, table: MappingProxyType(rows)}), LIBRARY.sources)


def _times(row: Row, times: float) -> Row:
    return replace(row, low=row.low * times, likely=row.likely * times, high=row.high * times)


def numbers(job: Job, library: Library) -> Any:
    """Return what a job comes to by every method: prices, hours, and what every task, wait and set-up says."""
    outcome = estimate_job(job, library)
    plans = [(str(each.price), each.plan) for found in outcome.comparisons for each in found.options]
    tasks = [(task.hours.value, task.wait and task.wait.value, task.detail) for _, plan in plans for task in plan.tasks]
    return outcome.estimate.price, outcome.estimate.schedule.elapsed.value, [price for price, _ in plans], tasks


def moved(table: str) -> Iterator[bool]:
    for times in (0.9, 1.1):
        for job in JOBS_:
            try:
                yield numbers(job, nudged(table, times)) != numbers(job, LIBRARY)
            except EstimatingError:
                yield True  # a rule looked at the number, and refused it


@pytest.mark.parametrize("table", sorted(set(LIBRARY.tables) - set(CHECK_ONLY) - set(FIXED)))
def test_a_table_reaches_what_is_priced(table: str) -> None:
    """With its numbers a tenth lower or higher some price, hour, wait or set-up of a demo job is another."""
    assert any(moved(table))


@pytest.mark.parametrize("table", sorted(CHECK_ONLY))
def test_a_table_for_checking_only_moves_nothing(table: str) -> None:
    """Otherwise it belongs among the others."""
    assert not any(moved(table))
