"""What was typed about a finished job, read: hours and gallons by line, a test, a release.

A blank is not known and leaves no entry; 0 is none and is one. Everything wrong is found in one reading.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from estimating.errors import InputError, InputErrors
from estimating.records.actuals import Actual, Release, SurfaceTest
from estimating.records.sent import SentEstimate, SentLine
from estimating.review.release_terms import ReleaseTerms
from estimating.scopes.registry import KINDS
from estimating.units import read_quantity

UNITS = {"hours": "hour", "gallons": "gallon"}
FORGOTTEN = "not in the estimate"
_BARE = re.compile(r"^(?:\d+(?:\.\d*)?|\.\d+)$")
T = TypeVar("T")


def field_tests() -> tuple[tuple[str, str], ...]:
    """Return every field test with each thing it can show."""
    return tuple(each for kind in KINDS.values() for each in kind.field_tests)


def read_amount(text: str, unit: str, field: str) -> float | None:
    """Return an amount in `unit`; a bare number is in it already, a blank is not known (None).

    Raises InputError for anything else than a number of 0 or more.
    """
    typed = text.strip()
    if not typed:
        return None
    if _BARE.match(typed):
        return float(typed)
    needed = "a number such as 2.5, or with its unit; 0 for none"
    if typed.startswith("-") or not re.match(r"^\d", typed):
        raise InputError(field, text, needed)
    try:
        return read_quantity(typed, unit, field).value
    except InputError as problem:
        raise InputError(field, text, needed) from problem


def read_day(text: str, field: str, today: date) -> date:
    """Return a day that is not still to come; InputError otherwise."""
    needed = f"a day such as {today.isoformat()}, not one to come"
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        raise InputError(field, text, needed) from None
    if day > today:
        raise InputError(field, text, needed)
    return day


class _Reading:
    """Reads field after field and keeps what is wrong, so that all of it can be said at once."""

    def __init__(self) -> None:
        self.problems: list[InputError] = []

    def get(self, place: str, read: Callable[[], T], instead: T) -> T:
        """Return what was read; where it could not be, `instead`, which nobody sees because `finish` then raises."""
        try:
            return read()
        except InputError as problem:
            self.complain(place, problem)
            return instead

    def complain(self, place: str, problem: InputError) -> None:
        self.problems.append(InputError(problem.field, problem.value, problem.needed, (place,)))

    def finish(self) -> None:
        if self.problems:
            raise InputErrors(self.problems)


@dataclass(frozen=True)
class Forgotten:
    """Work that stood in no estimate: what it was, and its hours as typed."""

    what: str = ""
    hours: str = ""


def measured_lines(sent: SentEstimate) -> tuple[SentLine, ...]:
    """Return the lines of a sent estimate whose hours or gallons can be laid beside it."""
    return tuple(line for line in sent.lines if line.measure in UNITS)


def read_actuals(
    sent: SentEstimate, typed: Mapping[str, str], day: str, forgotten: Sequence[Forgotten], today: date
) -> tuple[Actual, ...]:
    """Return what the lines of an estimate really took; lines that were left blank are left out.

    typed: what stands in the boxes, by the name of the line. Raises InputErrors whose places are the name of a line,
    `day`, or `what 0`, `hours 0` and so on for work that stood in no estimate.
    """
    reading = _Reading()
    done_on = reading.get("day", lambda: read_day(day, "day", today), today)
    actuals = [
        Actual(sent.id, line.line, line.task, line.measure, amount, done_on, line.surface, line.product)
        for line in measured_lines(sent)
        if (amount := reading.get(line.line, _reader(typed.get(line.line, ""), line), None)) is not None
    ]
    extra = [_forgotten(reading, place, each) for place, each in enumerate(forgotten)]
    reading.finish()
    named = [(what, hours) for what, hours in extra if hours is not None]
    return (*actuals, *(Actual(sent.id, what, FORGOTTEN, "hours", hours, done_on) for what, hours in named))


def _forgotten(reading: _Reading, place: int, typed: Forgotten) -> tuple[str, float | None]:
    what = typed.what.strip()
    hours = reading.get(f"hours {place}", lambda: read_amount(typed.hours, "hour", "hours"), None)
    if what and not typed.hours.strip():
        reading.complain(f"hours {place}", InputError("hours", typed.hours, "the hours it took"))
    if hours is not None and not what:
        reading.complain(f"what {place}", InputError("what", typed.what, "a few words on what was done"))
    return what, hours


def _reader(text: str, line: SentLine) -> Callable[[], float | None]:
    return lambda: read_amount(text, UNITS[line.measure], line.line)


def read_test(job: str, kind: str, result: str, place: str, day: str, today: date) -> SurfaceTest:
    """Return what a test showed; InputErrors for a day that is none."""
    reading = _Reading()
    tested_on = reading.get("day", lambda: read_day(day, "day", today), today)
    reading.finish()
    return SurfaceTest(job, kind, result, tested_on, place.strip())


@dataclass(frozen=True)
class TypedRelease:
    """What was typed about an old coating: every box as it stands."""

    history: str
    worked: str
    released: str
    hours: str
    day: str
    place: str = ""


def read_release(job: str, terms: ReleaseTerms, typed: TypedRelease, today: date) -> Release:
    """Return whether an old coating came down; areas in ft² or with their own unit.

    Nothing here may be left blank: a release that nobody looked for is not one that did not happen. Raises InputErrors
    with `worked`, `released`, `hours` or `day` as the place of each.
    """
    reading = _Reading()
    worked = reading.get("worked", lambda: _known(typed.worked, "ft**2", "area worked on"), 0.0)
    released = reading.get("released", lambda: _known(typed.released, "ft**2", "area that came down"), 0.0)
    hours = reading.get("hours", lambda: _known(typed.hours, "hour", "hours to put it right"), 0.0)
    done_on = reading.get("day", lambda: read_day(typed.day, "day", today), today)
    reading.finish()
    place = typed.place.strip() or terms.work
    took = (terms.method, terms.odds, worked, released, hours, done_on, place)
    return Release(job, typed.history, *took, share=terms.share, sound=terms.sound)


def _known(text: str, unit: str, field: str) -> float:
    amount = read_amount(text, unit, field)
    if amount is None:
        raise InputError(field, text, "a number; 0 where there was none")
    return amount
