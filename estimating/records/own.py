"""The contractor's own table: values that stand in place of reference rows for every job, kept in the records file.

Nothing is made by looking: the file and its folder come into being when the first value is kept.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from estimating.errors import EstimatingError, RecordsError
from estimating.estimate.uncertainty.ranges import fit, usual_bounds
from estimating.evidence import Library, OwnValue, Row, own_figure
from estimating.job.bounds import TABLE, hold_own
from estimating.records.decisions import Decision, accept, decisions, own_values, take_back
from estimating.records.store import open_records

VARIABLE = "ESTIMATING_RECORDS"


@dataclass(frozen=True)
class OwnTable:
    """Own values that stand in a records file, and those that had to be set aside, each with the reason."""

    values: Mapping[str, OwnValue]
    aside: Mapping[str, str]

    @property
    def warning(self) -> str:
        """What was set aside, in one sentence; empty when nothing was."""
        return "own values not used: " + "; ".join(self.aside.values()) if self.aside else ""


NOTHING_OWN = OwnTable(MappingProxyType({}), MappingProxyType({}))


def usual_place() -> Path:
    """Return the records file of the folder one works in, or the one named by the variable ESTIMATING_RECORDS."""
    return Path(os.environ.get(VARIABLE) or Path("records") / "records.sqlite")


def check_own(row: Row, own: OwnValue) -> None:
    """Raise InputError when an own value cannot stand in for a row: of another dimension, out of bounds, lopsided."""
    hold_own(row, own)
    figure = own_figure(row, own)
    low, high = figure.low or 0.0, figure.high or 0.0
    if low < high and row.table != TABLE:  # the ends of a bound are no spread
        fit(low, figure.value, high, usual_bounds(figure), name=row.key)


def own_table(path: Path, library: Library) -> OwnTable:
    """Return the own values that stand now; nothing where there is no file.

    A value is set aside when its row has left the tables or no longer takes it: it must not stop every job.
    """
    if not path.exists():
        return NOTHING_OWN
    with open_records(path) as records:
        standing = own_values(records)
    values: dict[str, OwnValue] = {}
    aside: dict[str, str] = {}
    for key, own in standing.items():
        try:
            check_own(library.named(key), own)
            values[key] = own
        except EstimatingError as problem:
            aside[key] = str(problem) if str(problem).startswith(key) else f"{key}: {problem}"
    return OwnTable(MappingProxyType(values), MappingProxyType(aside))


def keep_own(path: Path, row: Row, own: OwnValue) -> None:
    """Let an own value stand in place of a row from now on; the file and its folder are made if need be.

    Raises InputError when the value cannot stand there, RecordsError when it cannot be written.
    """
    check_own(row, own)
    make_folder(path)
    with open_records(path) as records:
        accept(records, row.key, own)


def make_folder(path: Path) -> None:
    """Make the folder a records file is to stand in, if need be; RecordsError when it cannot be made."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise RecordsError(
            f"{path.parent}: the folder cannot be made ({problem.strerror}); choose another"
        ) from problem


def back_to_table(path: Path, key: str) -> None:
    """Take back every own value that stands in place of a row, so that the published one holds again.

    Raises RecordsError when none stands.
    """
    if not path.exists():
        raise RecordsError(f"{key}: has no own value to take back; it stands as published")
    with open_records(path) as records:
        take_back(records, key)
        while key in own_values(records):
            take_back(records, key)


def history(path: Path) -> tuple[Decision, ...]:
    """Return every decision about own values, the oldest first; none where there is no file."""
    if not path.exists():
        return ()
    with open_records(path) as records:
        return decisions(records)
