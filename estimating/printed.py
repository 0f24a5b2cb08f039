"""What sources print about the reference rows: the figures that the tables are held to, one file a topic."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from estimating.evidence import REFERENCE, Library, Row
from estimating.row_key import RowKey
from estimating.units import convert, same_dimension

PUBLISHED = REFERENCE / "printed"
ENDS = ("least", "most")
CEILING = "ceiling"  # "up to", "less than": the figure itself is not printed
PLAIN = frozenset({"value", "range", "row", "holds", "meets", CEILING})  # checks that print a figure for the row itself
TOLERANCE = 1e-9  # for rounding in a change of units
_BETWEEN = re.compile(r",\s+|\s+(?:over|of|\+|·)\s+")


@dataclass(frozen=True)
class Printed:
    """One figure or range that a source prints, and where. `check` says how the tests compare it."""

    check: str
    subject: str
    low: float
    high: float
    unit: str
    tolerance: float  # half the last printed digit, or what the source itself allows
    title: str
    publisher: str
    number: str
    year: str
    place: str
    url: str
    seen: str  # how much of the source was read

    def plain(self, row: Row) -> bool:
        """Say whether the figure is printed for the row as it stands, and not compared by way of a sum."""
        return self.check in PLAIN and same_dimension(self.unit, row.unit)

    def ends(self, unit: str, slack: float = 0.0) -> tuple[float, float]:
        """Return the figure in a unit; with slack 1 as wide as its tolerance lets it be, with -1 as narrow."""
        out = slack * (self.tolerance + TOLERANCE * max(abs(self.low), abs(self.high)))
        low, high = (float(convert(end, self.unit, unit)) for end in (self.low - out, self.high + out))
        return low, high

    def beyond(self, row: Row) -> bool:
        """Say whether the figure reaches further than the row's low and high, by more than its tolerance."""
        low, high = self.ends(row.unit, -1)
        return low < row.low or high > row.high


def disagree(figures: Iterable[Printed], row: Row) -> bool:
    """Say whether no one value lies in all that is printed for a row."""
    ends = [each.ends(row.unit, 1) for each in figures if each.plain(row)]
    return bool(ends) and max(low for low, _ in ends) > min(high for _, high in ends)


@lru_cache(maxsize=4)
def read_printed(folder: Path = PUBLISHED) -> tuple[Printed, ...]:
    """Return every printed figure in a folder; the two ends of a range are one figure."""
    return tuple(figure for path in sorted(folder.glob("*.csv")) for figure in _joined(_read(path)))


def _read(path: Path) -> Iterator[Printed]:
    with path.open(newline="", encoding="utf-8") as lines:
        for cells in csv.DictReader(lines):
            if "check" in cells:
                low, _, high = cells.pop("value").partition(" to ")
                tolerance = float(cells.pop("tolerance"))
                yield Printed(low=float(low), high=float(high or low), tolerance=tolerance, **cells)


def _joined(figures: Iterable[Printed]) -> Iterator[Printed]:
    """Yield the figures, with a least and a most of one place in one source as one range."""
    with_dry_time: dict[tuple[str, ...], Printed] = {}
    for each in figures:
        place = (each.subject, each.title, each.url, each.place)
        if each.check not in ENDS:
            yield each
        elif place not in with_dry_time:
            with_dry_time[place] = each
        else:
            first = with_dry_time.pop(place)
            low, high = sorted((first.low, each.low))
            yield replace(each, check="range", low=low, high=high)
    yield from with_dry_time.values()


def by_row(figures: Iterable[Printed], library: Library) -> Mapping[str, tuple[Printed, ...]]:
    """Return the printed figures by the address of each row they name; one may name several rows, or none."""
    found: dict[str, list[Printed]] = {}
    for each in figures:
        for key in _rows_named(each.subject, library):
            found.setdefault(key, []).append(each)
    return MappingProxyType({key: tuple(several) for key, several in found.items()})


def _rows_named(subject: str, library: Library) -> Iterator[str]:
    for word in _BETWEEN.split(subject):
        if library.has(word):
            yield word
        else:
            yield from (address for table in library.tables if library.has(address := str(RowKey.of(table, word))))
