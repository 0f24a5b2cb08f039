"""Keeping what was typed about a finished job: what is new is added, what was typed anew replaces without erasing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from estimating.records.actuals import (
    Actual,
    Release,
    SurfaceTest,
    add_actual,
    list_actuals,
    list_releases,
    list_test_outcomes,
    withdraw,
)
from estimating.records.sent import SentEstimate, list_estimates
from estimating.records.store import Records

TYPED_ANEW = "typed anew"


@dataclass(frozen=True)
class Kept:
    """How many entries were added, and how many withdrawn because they were typed anew or blanked."""

    added: int
    withdrawn: int


def keep_actuals(records: Records, sent: SentEstimate, actuals: Iterable[Actual]) -> Kept:
    """Make the records say what was typed about an estimate: one entry a line, none where it was left blank.

    Entries that say something else are withdrawn, with the reason; they stay in the file.
    """
    standing = recorded(records, sent)
    typed = {(each.line, each.measure): each for each in actuals}
    added = withdrawn = 0
    for key, entries in standing.items():
        if key in typed and _says(entries) == (typed[key].amount, typed[key].done_on):
            del typed[key]
            continue
        for entry in entries:
            withdraw(records, entry, TYPED_ANEW)
        withdrawn += len(entries)
    for actual in typed.values():
        add_actual(records, actual)
        added += 1
    return Kept(added, withdrawn)


def recorded(records: Records, sent: SentEstimate) -> Mapping[tuple[str, str], list[Actual]]:
    """Return what stands in the records about an estimate, by line and measure."""
    found: dict[tuple[str, str], list[Actual]] = {}
    for actual in list_actuals(records):
        if actual.estimate_id == sent.id:
            found.setdefault((actual.line, actual.measure), []).append(actual)
    return found


def _says(entries: list[Actual]) -> tuple[float, date]:
    return sum(each.amount for each in entries), entries[-1].done_on


def surface_records(records: Records, job: str) -> tuple[tuple[SurfaceTest, ...], tuple[Release, ...]]:
    """Return the tests and releases kept about a job."""
    tests = tuple(each for each in list_test_outcomes(records) if each.job == job)
    return tests, tuple(each for each in list_releases(records) if each.job == job)


def open_estimates(records: Records) -> tuple[SentEstimate, ...]:
    """Return the last estimate sent of every job that has no actuals yet: those a learned rate would change."""
    begun = {each.estimate_id for each in list_actuals(records)}
    by_job: dict[str, list[SentEstimate]] = {}
    for sent in list_estimates(records):
        by_job.setdefault(sent.job.name, []).append(sent)
    return tuple(several[-1] for several in by_job.values() if not begun & {each.id for each in several})
