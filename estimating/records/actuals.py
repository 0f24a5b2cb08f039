"""What things cost on a day, and what the work really took: prices, hours, gallons, tests and releases.

Rows are added and read, never changed. A reading typed wrong is withdrawn with a reason, and left out from then on.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Mapping
from dataclasses import astuple, dataclass, fields, replace
from datetime import date
from decimal import Decimal
from typing import TypeVar

from estimating.errors import RecordsError
from estimating.records.store import Cell, Records, moment, read, understood, write


@dataclass(frozen=True)
class Price:
    """What one container of something cost on a day."""

    item: str
    container: str
    dollars: Decimal
    priced_on: date
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Actual:
    """The hours or gallons one line of an estimate really took; work in no estimate has a line of its own."""

    estimate_id: int
    line: str
    task: str
    measure: str  # hours or gallons
    amount: float
    done_on: date
    surface: str = ""
    product: str = ""
    note: str = ""
    crew: str = ""  # who did it; a blank is the usual crew
    id: int | None = None


@dataclass(frozen=True)
class SurfaceTest:
    """One test of a surface before the work: where, which kind, and what it showed."""

    job: str
    kind: str
    result: str
    tested_on: date
    place: str = ""
    note: str = ""
    id: int | None = None


@dataclass(frozen=True)
class Release:
    """Whether an old coating or texture came down under the work, how much of it, and what putting it right took."""

    job: str
    history: str  # the class of history the surface was taken to have
    method: str
    odds: float  # what tests multiplied the odds of the class by, when the price was made
    worked_area: float  # ft**2
    released_area: float  # ft**2; nothing released is typed as 0
    hours_to_fix: float
    done_on: date
    place: str = ""
    product: str = ""
    passes: int | None = None
    note: str = ""
    share: float = 1.0  # of weak surfaces, how many the method was held to bring down
    sound: float = 0.0  # the chance that it was held to bring down a sound one
    id: int | None = None


Entry = TypeVar("Entry", Price, Actual, SurfaceTest, Release)
_FROM_TEXT: Mapping[str, Callable[[str], object]] = {"date": date.fromisoformat, "Decimal": Decimal}
_TABLES: dict[type, str] = {Price: "prices", Actual: "actuals", SurfaceTest: "tests", Release: "releases"}


def add_price(records: Records, price: Price) -> Price:
    """Keep a price with its day; older prices of the same thing stay."""
    if price.dollars < 0:
        raise RecordsError(f"price of {price.item}: got {price.dollars}, needs nothing or more")
    return _add(records, price)


def add_actual(records: Records, actual: Actual) -> Actual:
    """Keep what a line really took; RecordsError when its estimate is not in the records."""
    return _add(records, actual)


def add_test_outcome(records: Records, outcome: SurfaceTest) -> SurfaceTest:
    """Keep what a test showed."""
    return _add(records, outcome)


def add_release(records: Records, release: Release) -> Release:
    """Keep whether the old coating came down; RecordsError when more came down than was worked on."""
    if release.released_area > release.worked_area:
        raise RecordsError(
            f"released area: got {release.released_area:g}, needs at most the {release.worked_area:g} ft² worked on"
        )
    return _add(records, release)


def withdraw(records: Records, entry: Price | Actual | SurfaceTest | Release, reason: str) -> None:
    """Leave an entry out from now on; it stays in the file with the reason and the day."""
    if entry.id is None:
        raise RecordsError(f"{type(entry).__name__}: was never kept, so there is nothing to withdraw")
    write(
        records,
        "INSERT INTO withdrawals (kind, row, reason, withdrawn_at) VALUES (?, ?, ?, ?)",
        (_TABLES[type(entry)], entry.id, reason, moment()),
    )


def list_prices(records: Records) -> tuple[Price, ...]:
    """Return every price kept, in the order of their days."""
    return _list(records, Price, "priced_on")


def latest_prices(records: Records, on: date | None = None) -> dict[tuple[str, str], Price]:
    """Return the newest price by item and container; with `on`, the newest of that day or before."""
    return {
        (price.item, price.container): price for price in list_prices(records) if on is None or price.priced_on <= on
    }


def list_actuals(records: Records) -> tuple[Actual, ...]:
    """Return what lines really took, in the order of their days."""
    return _list(records, Actual, "done_on")


def list_test_outcomes(records: Records) -> tuple[SurfaceTest, ...]:
    """Return what tests showed, in the order of their days."""
    return _list(records, SurfaceTest, "tested_on")


def list_releases(records: Records) -> tuple[Release, ...]:
    """Return what was kept about releases, in the order of their days."""
    return _list(records, Release, "done_on")


def _cell(value: object) -> Cell:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    if value is None or isinstance(value, str | int | float):
        return value
    raise RecordsError(f"{value!r} cannot be kept: needs text, a number, a day or an amount of money")


def _add(records: Records, entry: Entry) -> Entry:
    names = [field.name for field in fields(entry)]
    statement = f"INSERT INTO {_TABLES[type(entry)]} ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})"
    row = write(records, statement, [_cell(value) for value in astuple(replace(entry, id=None))])
    return replace(entry, id=row)


def _list(records: Records, kind: type[Entry], day: str) -> tuple[Entry, ...]:
    table = _TABLES[kind]
    found = read(
        records,
        f"SELECT * FROM {table} WHERE id NOT IN (SELECT row FROM withdrawals WHERE kind = ?) ORDER BY {day}, id",
        (table,),
    )
    with understood(records):
        return tuple(_entry(kind, row) for row in found)


def _entry(kind: type[Entry], row: sqlite3.Row) -> Entry:
    kept = {field.name: row[field.name] for field in fields(kind)}
    read_back = {
        field.name: _FROM_TEXT[str(field.type)](kept[field.name])
        for field in fields(kind)
        if str(field.type) in _FROM_TEXT
    }
    return kind(**{**kept, **read_back})
