"""Our rates of work beside published norms: task, norms, ours before and now, and why where they part.

Norms are painter's hours for one coat. Most are of new building, with a helper; a repaint crew in an empty room may be
half as fast again without further reason. Beyond that the table says why.
"""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from statistics import geometric_mean

from estimating.evidence import Library
from estimating.printed import PUBLISHED

COMPARED = "norms.csv"
_UNITS = {"ft**2/hour": "ft²/h", "ft/hour": "ft/h"}
APART = 1.5  # by what factor a rate may part from the norms without saying why


@dataclass(frozen=True)
class Comparison:
    """One task: what norms print for it, and our likely rate before it was held against them and now."""

    task: str
    rows: tuple[str, ...]
    unit: str
    norms: tuple[float, ...]
    before: float
    now: float
    why: str

    @property
    def factor(self) -> float:
        """Our likely rate over the nearest point of the norms: more than 1 is faster than all of them."""
        return self.now / min(max(self.now, min(self.norms)), max(self.norms))

    @property
    def middle(self) -> float:
        """The geometric mean of the norms."""
        return geometric_mean(self.norms)

    @property
    def apart(self) -> bool:
        """Whether our rate parts from the middle of the norms by more than may go unsaid."""
        return not 1 / APART <= self.now / self.middle <= APART


def compared(library: Library, folder: Path = PUBLISHED) -> tuple[Comparison, ...]:
    """Return every task of ours that norms speak of."""
    return tuple(_comparison(library, cells) for cells in _tasks(folder))


@lru_cache(maxsize=2)
def _tasks(folder: Path) -> tuple[dict[str, str], ...]:
    with (folder / COMPARED).open(newline="", encoding="utf-8") as lines:
        return tuple(csv.DictReader(lines))


def beside(library: Library, row: str) -> str:
    """Return what norms say of the task that a row stands for, as one sentence; empty where they say nothing."""
    found = [_comparison(library, cells) for cells in _tasks(PUBLISHED) if cells["row"] == row]
    return "; ".join(f"published norms {_norms(each)} {_UNITS[each.unit]}, ours {each.now:.0f}" for each in found)


def _comparison(library: Library, cells: dict[str, str]) -> Comparison:
    norms = {keys[0]: row for keys, row in library.table("norms").items()}
    named = [norms[key] for key in cells["norms"].split("; ")]
    rows = tuple(each for each in (cells["row"], cells["line"]) if each)
    return Comparison(
        task=cells["task"],
        rows=rows,
        unit=named[0].unit,
        norms=tuple(each.likely for each in named),
        before=float(cells["before"]),
        now=_ours(library, rows, float(cells["per"] or 0)),
        why=cells["why"],
    )


def _ours(library: Library, rows: Sequence[str], per: float) -> float:
    """Return our likely rate: of a row, of area with its line (ft of it per ft²), or of pieces of so many ft²."""
    first, *line = (library.named(row).likely for row in rows)
    if line:
        return 1 / (1 / first + per / line[0])
    return per * 60 / first if per else first


def rests_on_a_norm(library: Library, folder: Path = PUBLISHED) -> frozenset[str]:
    """Return the addresses of the rows that are held against a norm."""
    return frozenset(row for each in compared(library, folder) for row in each.rows)


def table(library: Library, folder: Path = PUBLISHED) -> list[str]:
    """Return the comparison as lines of text."""
    head = f"{'task':<58}{'norms':>15}{'before':>8}{'now':>6}{'× norms':>9}  why"
    return [head, *(_line(each) for each in compared(library, folder))]


def _norms(each: Comparison) -> str:
    least, most = min(each.norms), max(each.norms)
    return f"{least:.0f}" if least == most else f"{least:.0f}-{most:.0f}"


def _line(each: Comparison) -> str:
    rates = f"{each.before:>8.0f}{each.now:>6.0f}{each.now / each.middle:>9.2f}"
    shown = f"{each.task:<58}{_norms(each):>15}{rates}  {each.why}"
    return shown.rstrip()
