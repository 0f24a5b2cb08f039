"""What may stand in each field of a job, by the table of bounds: the impossible is refused, the unusual is asked about.

A field is looked up by its name and the part of the job it stands in, then by its name alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from estimating.errors import InputError, Location
from estimating.evidence import ANY, Library, OwnValue, Row, load_library, own_figure
from estimating.job.values import Notes
from estimating.units import Reading, convert

TABLE = "bounds"
OWN = "own"
THIS_YEAR = "this year"
SPOKEN = {
    "count": "",
    "dimensionless": "times",
    "year": "",
    "ft**2": "ft²",
    "degF": "°F",
    "percent": "%",
    "minute": "minutes",
    "day": "days",
}
INCHES, TEN = 12, 10
METER = 0.3048  # feet that were typed as meters
WHOLE = 1e-9
COUNTED = ("count", "minute", "day")
NO_MULTIPLES = ("degF", "year")


@dataclass(frozen=True)
class Bound:
    """What a field may hold: least and most are refused beyond, low and high are asked about beyond."""

    title: str
    least: float
    most: float
    low: float
    usual: float
    high: float
    unit: str
    reason: str

    def holds(self, value: float) -> bool:
        """Say whether a value is possible; not-a-number is not."""
        return self.least <= value <= self.most

    def is_usual(self, value: float) -> bool:
        """Say whether a value needs no second look."""
        return self.low <= value <= self.high

    @property
    def needed(self) -> str:
        """What would be right, with the reason."""
        return f"{_said(self.least, self.unit)} to {_said(self.most, self.unit)}. {self.reason}"


@dataclass(frozen=True)
class Found:
    """A value of a job with its place, as steps into the job and as it was typed."""

    place: Location
    value: float
    text: str
    bound: Bound


def bound_of(field: str, part: str, library: Library | None = None) -> Bound | None:
    """Return what the field of a part of the job may hold; None where the table says nothing."""
    rows = (library or load_library()).tables.get(TABLE, {})
    row = rows.get((field, part)) or rows.get((field, ANY))
    return _bound(row, date.today().year) if row else None


def own_bound(row: Row, library: Library | None = None) -> Bound | None:
    """Return what an own value in place of a row may be, in the unit of the row.

    Where the table has no bound for that very row, the bound is a multiple of the row itself.
    """
    named = bound_of(row.keys[0], row.table, library) if len(row.keys) == 1 else None
    if named is not None and named.unit == row.unit:
        return named
    times = bound_of(ANY, OWN, library)
    if times is None or row.high <= 0:
        return None
    low = row.low if row.low > 0 else 0.0
    ends = low * times.least, row.high * times.most, low * times.low, row.likely, row.high * times.high
    return Bound(row.title, *ends, row.unit, times.reason)


def impossible(job: Notes) -> tuple[InputError, ...]:
    """Return what no job can have, each with its place as steps into the job."""
    return tuple(
        InputError(
            "", each.text, f"{each.bound.needed}{_meant(each.bound, each.value, each.text, ' Is it')}", each.place
        )
        for each in walk(job)
        if not each.bound.holds(each.value)
    )


def unusual(job: Notes) -> tuple[tuple[Location, str], ...]:
    """Return what is possible and needs a second look: its place, and the question in words."""
    return tuple(
        (each.place, second_look(each.bound, each.value, each.text))
        for each in walk(job)
        if each.bound.holds(each.value) and not each.bound.is_usual(each.value)
    )


def hold_own(row: Row, own: OwnValue, library: Library | None = None) -> None:
    """Raise InputError where an own value cannot be what is meant in place of a row."""
    own_figure(row, own)  # first of all it has to be of the same dimension
    bound = own_bound(row, library)
    for figure in (own.likely, own.low, own.high):
        if figure is None or bound is None:
            continue
        value = float(convert(float(figure), own.unit, row.unit))
        if not bound.holds(value):
            raise InputError(row.key, f"{figure:g} {own.unit}", bound.needed)


def own_second_look(row: Row, own: OwnValue, library: Library | None = None) -> str:
    """Return the question about an unusual own value; empty where it is usual."""
    bound = own_bound(row, library)
    value = float(convert(float(own.likely), own.unit, row.unit))
    if bound is None or bound.is_usual(value):
        return ""
    return second_look(bound, value, _said(value, row.unit))


def second_look(bound: Bound, value: float, text: str) -> str:
    """Return the question about an unusual value: how far it is off, and what may have been meant."""
    title = bound.title[0].upper() + bound.title[1:]
    off = f"{_off(bound, value)} the usual {_said(bound.usual, bound.unit)}"
    meant = _meant(bound, value, text, "; is it") or ". Is it right?"
    return f"{title}: {text} is {off}{meant} It is priced as it stands."


def walk(notes: Notes, place: Location = (), part: str = "job") -> Iterator[Found]:
    """Yield each number of the job, and the length of each list, that has a bound."""
    for name in type(notes).model_fields:
        yield from _at(getattr(notes, name), (*place, name), name, part)


def _at(value: Any, place: Location, field: str, part: str) -> Iterator[Found]:
    if isinstance(value, Notes):
        yield from walk(value, place, str(getattr(value, "kind", field)) if field == "work" else field)
    elif isinstance(value, tuple):
        if isinstance(place[-1], str):
            yield from _number(float(len(value)), str(len(value)), place, field, part)
        for index, each in enumerate(value):
            yield from _at(each, (*place, index), field, part)
    elif isinstance(value, Reading):
        corner = field == "corners"  # measured either way from the first
        yield from _number(
            abs(value.value) if corner else value.value, value.text, place, field[:6] if corner else field, part
        )
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield from _number(float(value), f"{value}", place, field, part)


def _number(value: float, text: str, place: Location, field: str, part: str) -> Iterator[Found]:
    bound = bound_of(field, part)
    if bound is not None:
        yield Found(place, value, text, bound)


def _said(value: float, unit: str) -> str:
    word = SPOKEN.get(unit, unit)
    if unit.startswith("dollar"):
        per = "".join(re.findall("[/](.*)", unit))
        return f"${value:,.10g}" + (f" {_a(per)}" if per else "")
    return f"{value:.10g}" if unit == "year" else f"{value:,.10g} {word}".rstrip()


def _a(word: str) -> str:
    return f"an {word}" if word == "hour" else f"a {word}"


def _off(bound: Bound, value: float) -> str:
    """Return by how much a value is off, up to the words `the usual`."""
    beyond = "above" if value > bound.high else "below"
    if value <= 0 or bound.usual <= 0 or bound.unit in NO_MULTIPLES:
        return beyond
    times = value / bound.usual
    if times >= 1:
        return f"{times:,.{0 if times >= 3 else 1}f} times"
    return f"1/{1 / times:,.0f} of"


def _meant(bound: Bound, value: float, text: str, asked: str) -> str:
    """Return what may have been meant instead, as a question; empty where no common slip explains the value."""
    slips = _length_slips(value, text) if bound.unit == "ft" else _slips(value, bound.unit)
    for meant, words in slips:
        if bound.is_usual(meant):
            return f"{asked} {words or _said(meant, bound.unit)}?"
    return ""


def _length_slips(feet: float, text: str) -> Iterator[tuple[float, str]]:
    """Yield lengths that a slip makes of a usual one: 8' 2" run together, inches for feet, a point left out, meters."""
    whole = round(feet)
    if abs(feet - whole) < WHOLE and whole >= TEN:
        for digits in (10, 100):
            yield whole // digits + whole % digits / INCHES, f"{whole // digits}' {whole % digits}\""
    metric = (feet * METER,) if text.endswith("m") else ()
    for meant in (*metric, feet / TEN, feet / INCHES, feet * INCHES, feet * TEN):
        yield meant, feet_and_inches(meant)


def _slips(value: float, unit: str) -> Iterator[tuple[float, str]]:
    if unit == "degF":
        yield float(convert(value, "degC", "degF")), f"{value:g} °C"
        return
    for meant in (value / TEN, value / TEN**2, value * TEN, value * TEN**2):
        if meant.is_integer() or unit not in COUNTED:
            yield meant, ""


def feet_and_inches(feet: float) -> str:
    """Return a length as it is said, to the half inch."""
    inches = round(feet * INCHES * 2) / 2
    return f"{inches // INCHES:.0f}' {inches % INCHES:g}\""


def _bound(row: Row, year: int) -> Bound:
    most = float(year) if row.words["most"] == THIS_YEAR else float(row.words["most"])
    return Bound(row.title, float(row.words["least"]), most, row.low, row.likely, row.high, row.unit, row.origin.note)
