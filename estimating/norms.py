"""Our rates of work beside published norms: task, norms, ours before and now, and why where they part.

Norms are painter's hours, most of new building, with a helper; a repaint crew in an empty room may be half as fast
again without further reason. Beyond that the table says why. A task may be the sum of several of our rows: a room
repainted with its preparation, a flat sprayed and cleaned up. What painters write of their own work stands beside the
norms, and is marked as such.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from statistics import geometric_mean

from estimating.evidence import Library, Row
from estimating.origins import Kind
from estimating.printed import PUBLISHED

NORMS = "norms"
COMPARED = "norms.csv"
RATIOS = "norm_ratios.csv"
_UNITS = {"ft**2/hour": "ft²/h", "ft/hour": "ft/h", "count/hour": "an hour"}
APART = 1.5  # by what factor a rate may part from the norms without saying why
MINUTES = {"minute/count": 60.0, "minute": 60.0}  # how many of a row's unit make an hour


@dataclass(frozen=True)
class Part:
    """A row of ours and how much of it a task takes, for one unit or for the whole piece."""

    row: Row
    amount: float

    def hours(self, value: float) -> float:
        """Return the hours of the part at one value of its row: a rate an hour, or hours or minutes each."""
        each_hour = self.row.unit.endswith("/hour")
        return self.amount / value if each_hour else self.amount * value / MINUTES.get(self.row.unit, 1.0)


@dataclass(frozen=True)
class Comparison:
    """One task: what norms print for it, and our rate before it was held against them and now."""

    task: str
    parts: tuple[Part, ...]
    per: float  # how many units of the norm the parts come to
    norms: tuple[Row, ...]
    before: float
    why: str

    @property
    def rows(self) -> tuple[str, ...]:
        """The addresses of the rows that the task is made of."""
        return tuple(each.row.key for each in self.parts)

    @property
    def unit(self) -> str:
        """The unit of the norms."""
        return self.norms[0].unit

    @property
    def now(self) -> float:
        """Our likely rate."""
        return self.per / sum(each.hours(each.row.likely) for each in self.parts)

    @property
    def ends(self) -> tuple[float, float]:
        """Our slow and our fast rate: all rows of the task slow or fast together, as one crew is."""
        at_ends = [sorted((each.hours(each.row.low), each.hours(each.row.high))) for each in self.parts]
        slow, fast = (sum(each[place] for each in at_ends) for place in (1, 0))
        return self.per / slow, self.per / fast

    @property
    def middle(self) -> float:
        """The geometric mean of what publishers print; one of several editions or items is one voice."""
        by_source: dict[str, list[float]] = {}
        for each in self.norms:
            by_source.setdefault(each.origin.source, []).append(each.likely)
        return geometric_mean(geometric_mean(several) for several in by_source.values())

    @property
    def factor(self) -> float:
        """Our likely rate over the middle of the norms: more than 1 is faster."""
        return self.now / self.middle

    @property
    def apart(self) -> bool:
        """Whether our rate parts from the middle of the norms by more than may go unsaid."""
        return not 1 / APART <= self.factor <= APART

    @property
    def weak(self) -> bool:
        """Whether nothing but what painters write of their own work stands beside it."""
        return all(each.origin.kind is Kind.JUDGMENT for each in self.norms)


def compared(library: Library, folder: Path = PUBLISHED) -> tuple[Comparison, ...]:
    """Return every task of ours that norms speak of."""
    if NORMS not in library.tables:
        return ()
    norms = _norms_of(library)
    return tuple(_comparison(library, norms, cells) for cells in _lines_of(folder / COMPARED))


def _norms_of(library: Library) -> Mapping[str, Row]:
    return {keys[0]: row for keys, row in library.table(NORMS).items()}


@lru_cache(maxsize=4)
def _lines_of(path: Path) -> tuple[Mapping[str, str], ...]:
    with path.open(newline="", encoding="utf-8") as lines:
        return tuple(csv.DictReader(lines))


def _comparison(library: Library, norms: Mapping[str, Row], cells: Mapping[str, str]) -> Comparison:
    return Comparison(
        task=cells["task"],
        parts=tuple(_parts(library, cells["ours"])),
        per=float(cells["per"] or 1),
        norms=tuple(norms[key] for key in cells["norms"].split("; ")),
        before=float(cells["before"]),
        why=cells["why"],
    )


def _parts(library: Library, text: str) -> Iterator[Part]:
    """Yield the rows of a task as they are written: an address, and behind a × how much of it."""
    for each in text.split("; "):
        address, _, amount = each.partition(" × ")
        yield Part(library.named(address), float(amount or 1))


def held_against_norms(library: Library, folder: Path = PUBLISHED) -> Mapping[str, tuple[Comparison, ...]]:
    """Return the tasks that each row of ours has a part in, by its address."""
    found: dict[str, list[Comparison]] = {}
    for each in compared(library, folder):
        for row in dict.fromkeys(each.rows):
            found.setdefault(row, []).append(each)
    return {row: tuple(several) for row, several in found.items()}


def beside(library: Library, row: str) -> str:
    """Return what is published of the work that a row stands for, as one sentence; empty where nothing is."""
    return "; ".join(_sentence(each) for each in held_against_norms(library).get(row, ()))


def figures_beside(each: Comparison) -> str:
    """Return what is published of a task and ours, without a reason."""
    who = "painters write of" if each.weak else "published norms"
    return f"{each.task}: {who} {_norms(each)} {_UNITS[each.unit]}, ours {_figure(each.now)}"


def _sentence(each: Comparison) -> str:
    said = figures_beside(each)
    return f"{said} ({each.why})" if each.why else said


@dataclass(frozen=True)
class Ratio:
    """How much more one kind of work takes than another: as norms print it, and ours before and now."""

    ratio: str
    printed: tuple[float, ...]
    place: str
    before: float
    now: float
    why: str

    @property
    def apart(self) -> bool:
        """Whether ours parts from the middle of the printed ones by more than may go unsaid."""
        return not 1 / APART <= self.now / geometric_mean(self.printed) <= APART


def ratios(library: Library, folder: Path = PUBLISHED) -> tuple[Ratio, ...]:
    """Return what norms say of one kind of work against another."""
    norms = _norms_of(library)
    return tuple(_ratio(library, norms, cells) for cells in _lines_of(folder / RATIOS))


def _ratio(library: Library, norms: Mapping[str, Row], cells: Mapping[str, str]) -> Ratio:
    return Ratio(
        ratio=cells["ratio"],
        printed=tuple(_quotient(norms, pair) for pair in cells["norms"].split("; ")),
        place=cells["place"],
        before=float(cells["before"]),
        now=_taken(library, cells["over"]) / _taken(library, cells["under"]),
        why=cells["why"],
    )


def _quotient(norms: Mapping[str, Row], pair: str) -> float:
    """Return a printed ratio: a number, or the hours of one norm over those of another."""
    over, _, under = pair.partition(" / ")
    if not under:
        return float(over)
    return norms[under].likely / norms[over].likely


def _taken(library: Library, text: str) -> float:
    """Return what a unit of the work takes: hours of its rows, paint where the row is a loss, or a bare factor."""
    parts = list(_parts(library, text))
    if parts[0].row.table == "losses":
        return 1 / (1 - parts[0].row.likely / 100)
    if parts[0].row.unit == "dimensionless":
        return parts[0].row.likely
    return sum(each.hours(each.row.likely) for each in parts)


def table(library: Library, folder: Path = PUBLISHED) -> list[str]:
    """Return the comparison as lines of text: the tasks, then the ratios."""
    tasks, found = compared(library, folder), ratios(library, folder)
    wide = max(len(each.task) for each in tasks)
    head = f"{'task':<{wide}}{'norms':>15}{'before':>8}{'now':>6}{'× norms':>9}  why"
    lines = [_line(each, wide) for each in tasks]
    of_ratios = [f"{'hours or paint of one over the other':<{wide}}{'norms':>15}{'before':>8}{'now':>6}{'':>9}  why"]
    of_ratios += [_ratio_line(each, wide) for each in found]
    return [head, *lines, SPOKEN, "", *of_ratios, "", *counts(library, folder)]


SPOKEN = "~ what painters write of their own work, and no norm"


def counts(library: Library, folder: Path = PUBLISHED) -> list[str]:
    """Return how the comparison stands: tasks within the factor, apart with a reason, and apart without one."""
    every: Sequence[Comparison | Ratio] = (*compared(library, folder), *ratios(library, folder))
    apart = [each for each in every if each.apart]
    bare = [each for each in apart if not each.why]
    norms = sum(row.origin.kind is not Kind.JUDGMENT for row in library.table(NORMS).values())
    return [
        f"{len(every)} tasks and ratios against {norms} norms: {len(every) - len(apart)} within a factor of {APART:g}, "
        f"{len(apart) - len(bare)} beyond it with a reason, {len(bare)} without one"
    ]


def _figure(value: float) -> str:
    return f"{value:.3g}" if value < 10 else f"{value:.0f}"


def _span(values: Sequence[float]) -> str:
    least, most = _figure(min(values)), _figure(max(values))
    return least if least == most else f"{least}-{most}"


def _norms(each: Comparison) -> str:
    return _span([norm.likely for norm in each.norms])


def _line(each: Comparison, wide: int) -> str:
    norms = _norms(each) + (" ~" if each.weak else "")
    rates = f"{_figure(each.before):>8}{_figure(each.now):>6}{each.factor:>9.2f}"
    return f"{each.task:<{wide}}{norms:>15}{rates}  {each.why}".rstrip()


def _ratio_line(each: Ratio, wide: int) -> str:
    rates = f"{each.before:>8.2f}{each.now:>6.2f}{'':>9}"
    return f"{each.ratio:<{wide}}{_span(each.printed):>15}{rates}  {each.why}".rstrip()
