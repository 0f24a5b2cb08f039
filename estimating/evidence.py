"""The reference tables: loaded once, looked up by trade words, every row with its origin.

A table is a CSV file in reference/ whose first columns are its keys and whose last ones are always TAIL.
reference/datapackage.json (Frictionless Data Package) names the key columns; reference/bibliography.json (CSL-JSON)
holds the sources.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType
from typing import Any

from estimating.errors import EvidenceError, InputError, InputErrors
from estimating.figures import Figure, leaf
from estimating.origins import Kind, Origin
from estimating.printed_ends import COLUMN, Reading, read_reading
from estimating.row_key import RowKey
from estimating.units import same_dimension

PLACES = (  # of the tables: inside the installed package, and beside it in a checkout
    Path(str(files("estimating"))) / "reference",
    Path(__file__).resolve().parent.parent / "reference",
)
REFERENCE = next((place for place in PLACES if place.is_dir()), PLACES[0])
TAIL = ("low", "likely", "high", "unit", "origin", "source", "place", "year", "note")
ANY = "any"
WHOLE = MappingProxyType({"percent": 100.0, "dimensionless": 1.0})  # what a share cannot pass
BUSINESS = "business"  # the table of what a contractor knows of his own business
KNOWN = "known to the business: not drawn"
WIDENED = RowKey.of("factors", "nearest_class", "log_range")


@dataclass(frozen=True)
class Row:
    """One reference figure: its keys, its range, its unit and where it comes from."""

    table: str
    keys: tuple[str, ...]
    low: float
    likely: float
    high: float
    unit: str
    origin: Origin
    title: str = ""  # what the figure is called where it stands in a list
    words: Mapping[str, str] = field(default_factory=dict)  # further columns of description, where a table has them
    reading: Reading | None = None  # how the source prints the ends, where they are no percentiles
    printed: tuple[float, float] | None = None  # the ends as they are printed

    @cached_property
    def key(self) -> str:
        """The row's address, such as production/roll_ceiling/popcorn."""
        return str(self.address)

    @property
    def written(self) -> tuple[float, float]:
        """Low and high as they stand in the table: as the source prints them, where that is said, else percentiles."""
        return self.printed or (self.low, self.high)

    @property
    def address(self) -> RowKey:
        """The row's table and keys."""
        return RowKey(self.table, self.keys)


@dataclass(frozen=True)
class Library:
    """Every reference row, and the bibliography the rows point into."""

    tables: Mapping[str, Mapping[tuple[str, ...], Row]]
    sources: Mapping[str, Mapping[str, Any]]

    def table(self, name: str) -> Mapping[tuple[str, ...], Row]:
        """Return one table's rows by key; EvidenceError names the tables there are."""
        if name not in self.tables:
            raise EvidenceError(f"no table {name!r}; there are {', '.join(sorted(self.tables))}")
        return self.tables[name]

    def row(self, table: str, *keys: str) -> Row:
        """Return exactly the row asked for; EvidenceError names what exists nearby."""
        rows = self.table(table)
        if keys in rows:
            return rows[keys]
        asked = RowKey(table, keys)
        shared = sorted({RowKey(table, each).within_table for each in rows if keys and each[0] == keys[0]})
        nearby = shared or sorted({each[0] for each in rows})
        raise EvidenceError(f"table {table} has no row {asked.within_table}; it has {', '.join(nearby)}")

    def has(self, address: str) -> bool:
        """Say whether there is a row of this address, such as business/wage."""
        asked = RowKey.parse(address)
        return asked.keys in self.tables.get(asked.table, ())

    def named(self, address: str) -> Row:
        """Return the row of an address as it stands in files, such as business/wage."""
        asked = RowKey.parse(address)
        return self.row(asked.table, *asked.keys)

    def nearest(self, table: str, *keys: str) -> Row:
        """Return the row asked for, or the one whose last keys are `any`; its origin then says so."""
        rows = self.table(table)
        for kept in range(len(keys), 0, -1):
            wider = keys[:kept] + (ANY,) * (len(keys) - kept)
            if wider in rows:
                found = rows[wider]
                if wider == keys:
                    return found
                note = f"nearest class: asked for {RowKey(table, keys).within_table}. {found.origin.note}".strip()
                return replace(found, origin=replace(found.origin, note=note))
        return self.row(table, *keys)


def _number(text: str, where: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise EvidenceError(f"{where}: {text!r} is not a number") from None


def _row(table: str, key_columns: list[str], cells: dict[str, str]) -> Row:
    keys = tuple(cells[column] for column in key_columns)
    where = RowKey(table, keys)
    low, likely, high = (_number(cells[column], f"{where} · {column}") for column in TAIL[:3])
    if not low <= likely <= high:
        raise EvidenceError(f"{where}: low {low}, likely {likely}, high {high} are out of order")
    try:
        kind = Kind(cells["origin"])
    except ValueError:
        raise EvidenceError(f"{where}: origin {cells['origin']!r} is none of {', '.join(Kind)}") from None
    origin = Origin(kind, cells["source"], cells["place"], cells["note"], cells["year"])
    title = cells.get("title", "").strip()
    if not title:
        raise EvidenceError(f"{where}: the row has no title")
    words = {name: text for name, text in cells.items() if name not in (*TAIL, *key_columns, "title", COLUMN)}
    row = Row(table, keys, low, likely, high, cells["unit"], origin, title, MappingProxyType(words))
    return _read_as(row, read_reading(cells.get(COLUMN, ""), str(where)))


def _read_as(row: Row, reading: Reading | None) -> Row:
    """Return a row with its printed ends read as percentiles; a share stays one."""
    if reading is None:
        return row
    low, high = reading.ends(row.low, row.likely, row.high)
    return replace(row, low=low, high=_no_more_than_whole(row, high), reading=reading, printed=(row.low, row.high))


def _read_table(path: Path, key_columns: list[str]) -> Mapping[tuple[str, ...], Row]:
    rows: dict[tuple[str, ...], Row] = {}
    with path.open(newline="", encoding="utf-8") as lines:
        for cells in csv.DictReader(lines):
            row = _row(path.stem, key_columns, cells)
            if row.keys in rows:
                raise EvidenceError(f"{row.key} stands twice in {path.name}")
            rows[row.keys] = row
    return MappingProxyType(rows)


@lru_cache(maxsize=8)
def load_library(folder: Path = REFERENCE) -> Library:
    """Return the library in `folder`, read once; EvidenceError names the table and row that is wrong."""
    package = json.loads((folder / "datapackage.json").read_text(encoding="utf-8"))
    keys = {each["name"]: each["schema"]["primaryKey"] for each in package["resources"]}
    tables = {name: _read_table(folder / f"{name}.csv", columns) for name, columns in keys.items()}
    bibliography = json.loads((folder / "bibliography.json").read_text(encoding="utf-8"))
    return Library(MappingProxyType(tables), MappingProxyType({each["id"]: each for each in bibliography}))


@dataclass(frozen=True)
class OwnValue:
    """A contractor's own figure in place of a reference row, with its date and reason."""

    likely: float
    unit: str
    low: float | None = None
    high: float | None = None
    note: str = ""
    date: str = ""
    kind: Kind = Kind.ENTERED


class Basis:
    """The assumptions of one estimate: reference rows, with own values in place of some.

    The same row is always the same figure, so that a rate used on ten lines varies as one.
    """

    def __init__(self, library: Library, own: Mapping[str, OwnValue] = MappingProxyType({})) -> None:
        """Raise InputErrors for own values that stand in place of no row: a misspelt address would be passed over."""
        strays = [
            InputError("own", key, "the address of a reference row, such as business/wage")
            for key in own
            if not library.has(key)
        ]
        if strays:
            raise InputErrors(strays)
        self.library = library
        self.own = own
        self._figures: dict[str, Figure] = {}
        self._exact: dict[tuple[str, ...], Figure] = {}
        self._nearest: dict[tuple[str, ...], Figure] = {}
        self._wider: dict[str, Figure] = {}

    def figure(self, table: str, *keys: str) -> Figure:
        """Return the assumption for these keys as a figure; the row must exist exactly."""
        asked = (table, *keys)
        if asked not in self._exact:
            self._exact[asked] = self._as_figure(self.library.row(table, *keys))
        return self._exact[asked]

    def nearest(self, table: str, *keys: str) -> Figure:
        """Return the assumption for these keys, or for the nearest wider class, whose origin then says so."""
        asked = (table, *keys)
        if asked not in self._nearest:
            row = self.library.nearest(table, *keys)
            self._nearest[asked] = self._as_figure(row) if row.keys == keys else self._wider_class(row)
        return self._nearest[asked]

    def _wider_class(self, row: Row) -> Figure:
        """Return a row of a wider class, which says less of the one asked for: its range is wider by a factor."""
        if row.key in self.own or row.low == row.high:
            return self._as_figure(row)
        if row.key not in self._wider:
            by = self.library.named(str(WIDENED)).likely
            note = f"{row.origin.note} Its range is {by:g} times as wide for that."
            self._wider[row.key] = _leaf(widened(replace(row, origin=replace(row.origin, note=note)), by))
        return self._wider[row.key]

    def used(self) -> Mapping[str, Figure]:
        """Return the assumptions looked up so far, by row address."""
        return MappingProxyType({**self._wider, **self._figures})

    def _as_figure(self, row: Row) -> Figure:
        if row.key not in self._figures:
            self._figures[row.key] = own_figure(row, self.own[row.key]) if row.key in self.own else _leaf(row)
        return self._figures[row.key]


def _leaf(row: Row) -> Figure:
    return leaf(row.title, row.likely, row.unit, row.origin, low=row.low, high=row.high, key=row.key)


def widened(row: Row, by: float) -> Row:
    """Return a row with a range so many times as wide on the logarithmic scale; a share stays one.

    A row that reaches nothing or below has no such scale: there the distance to the likely value is multiplied.
    """
    if row.low > 0:
        low, high = (row.likely * (end / row.likely) ** by for end in (row.low, row.high))
    else:
        low, high = (row.likely + (end - row.likely) * by for end in (row.low, row.high))
        low = 0.0 if row.low == 0 else low
    return replace(row, low=low, high=_no_more_than_whole(row, high))


def _no_more_than_whole(row: Row, high: float) -> float:
    """Return a higher end of a row, but of a share no more than the whole."""
    whole = WHOLE.get(row.unit)
    return high if whole is None or row.high > whole else min(high, whole)


def own_figure(row: Row, own: OwnValue) -> Figure:
    """Return a contractor's own value as a figure; without a range of its own it keeps the row's, in proportion.

    A figure of the business, such as a wage, is known to whoever runs it: without a range of its own it is not drawn.
    Raises InputError when the unit is of another dimension than the row it replaces.
    """
    if not same_dimension(own.unit, row.unit):
        raise InputError(row.key, own.unit, f"a unit that converts to {row.unit}")
    if own.likely < 0 <= row.low:
        raise InputError(row.key, own.likely, f"0 or more, in {own.unit}")
    share = own.likely / row.likely if row.likely else 0.0
    low = min(row.low * share, own.likely) if row.likely else own.likely  # a product may round past the value itself
    high = max(row.high * share, own.likely) if row.likely else own.likely
    place = f"in place of {row.key}"
    if row.table == BUSINESS and own.low is None and own.high is None:
        low, high, place = own.likely, own.likely, f"{place}, {KNOWN}"
    origin = Origin(own.kind, place=place, note=own.note, year=own.date)
    return leaf(
        row.title,
        own.likely,
        own.unit,
        origin,
        low=low if own.low is None else own.low,
        high=high if own.high is None else own.high,
        key=row.key,
    )


if __name__ == "__main__":
    import runpy

    # The report lies above this module, so it is named rather than imported.
    runpy.run_module("estimating.evidence_report", run_name="__main__")
