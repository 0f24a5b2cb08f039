"""A blind check of the tables: each source in turn is left out, and asked how its figures fall.

A row is set anew from what the other publishers print for it, by one rule and no hand: the likely value is the
geometric mean of their middles, and the spread is that between publishers in the same table, also without the source
asked. A figure counts once, however many rows repeat it. What is fixed (a law, a coefficient, a coding rule) and
its copies, and what nobody else prints, is counted apart and never in the headline.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, median

from estimating.evidence import Library, Row
from estimating.printed import Printed, by_row

SCORE_90 = 1.2815515655446004  # standard normal 90th percentile
MISS = 2 / 0.2  # what a miss of an 80 % range costs for each unit of distance (interval score)
LEAST_PAIRS = 8  # figures in a table, before its own spread between publishers is trusted
AIMS = "aims: 72 to 88 % inside, P90/P10 at most 2.0"


@dataclass(frozen=True)
class Asked:
    """One figure of a source left out, against the row set without that source."""

    table: str
    row: str
    source: str
    middle: float
    low: float
    likely: float
    high: float

    @property
    def inside(self) -> bool:
        """Whether the figure lies from P10 to P90."""
        return self.low <= self.middle <= self.high

    @property
    def width(self) -> float:
        """P90 over P10."""
        return self.high / self.low

    @property
    def bias(self) -> float:
        """How far the figure lies above the likely value, as a logarithm."""
        return math.log(self.middle / self.likely)

    @property
    def score(self) -> float:
        """The interval score on the logarithmic scale: the width, and what a miss costs; less is better."""
        low, high, middle = (math.log(each) for each in (self.low, self.high, self.middle))
        return high - low + MISS * (max(low - middle, 0.0) + max(middle - high, 0.0))


@dataclass(frozen=True)
class LeftOut:
    """The figures asked, and how many were set apart and why."""

    asked: tuple[Asked, ...]
    repeated: int
    fixed: int
    alone: int


@dataclass(frozen=True)
class _Figure:
    row: Row
    title: str
    who: str
    place: str
    middle: float


def leave_one_out(library: Library, printed: Iterable[Printed]) -> LeftOut:
    """Return how the figures of every source fall against rows set without it."""
    every = list(_figures(library, printed))
    fixed = [each for each in every if each.row.low == each.row.high]
    varying = [each for each in every if each.row.low < each.row.high]
    by_line: dict[tuple[str, str, float], list[_Figure]] = {}
    for each in varying:
        by_line.setdefault((each.title, each.place, round(each.middle, 6)), []).append(each)
    found = [_asked(copies, varying) for copies in by_line.values()]
    asked = tuple(each for each in found if each)
    return LeftOut(asked, len(varying) - len(by_line), len(fixed), len(found) - len(asked))


def _figures(library: Library, printed: Iterable[Printed]) -> Iterator[_Figure]:
    for key, several in by_row(printed, library).items():
        row = library.named(key)
        for each in several:
            low, high = each.ends(row.unit) if each.plain(row) else (0.0, 0.0)
            if low > 0:
                who = each.publisher or each.title
                yield _Figure(row, each.title, who, f"{each.place} {each.number}", (low + high) / 2)


def _asked(copies: Sequence[_Figure], varying: Sequence[_Figure]) -> Asked | None:
    """Return the figure against the one of its rows that most other publishers print; None where none does."""
    others = {each.row.key: _without(each, varying) for each in copies}
    first = max(copies, key=lambda each: len(others[each.row.key]))
    middles = others[first.row.key]
    if not middles:
        return None
    mean = fmean(math.log(each) for each in middles)
    reach = SCORE_90 * _spread(first, varying) * math.sqrt(1 + 1 / len(middles))
    low, likely, high = (math.exp(mean + side * reach) for side in (-1, 0, 1))
    return Asked(first.row.table, first.row.key, first.title, first.middle, low, likely, high)


def _without(left_out: _Figure, figures: Iterable[_Figure]) -> list[float]:
    """Return one middle for each other publisher of a row."""
    by_who: dict[str, list[float]] = {}
    for each in figures:
        if each.row.key == left_out.row.key and each.who != left_out.who:
            by_who.setdefault(each.who, []).append(each.middle)
    return [median(several) for several in by_who.values()]


def _spread(left_out: _Figure, figures: Sequence[_Figure]) -> float:
    """Return the standard deviation between publishers in the table, without the one left out (logarithmic)."""
    others = [each for each in figures if each.who != left_out.who]
    own = [each for each in others if each.row.table == left_out.row.table]
    squares, freedom = _between(own)
    if freedom < LEAST_PAIRS:
        squares, freedom = _between(others)
    return math.sqrt(squares / freedom) if freedom else 0.0


def _between(figures: Iterable[_Figure]) -> tuple[float, int]:
    rows: dict[str, dict[str, list[float]]] = {}
    for each in figures:
        rows.setdefault(each.row.key, {}).setdefault(each.who, []).append(math.log(each.middle))
    squares, freedom = 0.0, 0
    for by_who in rows.values():
        middles = [median(several) for several in by_who.values()]
        mean = fmean(middles)
        squares += sum((each - mean) ** 2 for each in middles)
        freedom += len(middles) - 1
    return squares, freedom


def summary(found: LeftOut) -> list[str]:
    """Return the headline, a line for each table, and what was set apart."""
    tables: dict[str, list[Asked]] = {}
    for each in found.asked:
        tables.setdefault(each.table, []).append(each)
    head = f"{'table':<14}{'figures':>8}{'inside, %':>11}{'P90/P10':>9}{'bias, %':>9}{'score':>8}"
    lines = [_line(name, several) for name, several in sorted(tables.items())]
    apart = (
        f"set apart: {found.repeated} repeats of a printed line, {found.fixed} fixed figures and copies of one "
        f"standard, {found.alone} that nobody else prints"
    )
    return [head, *lines, _line("all", list(found.asked)), AIMS, apart]


def _line(name: str, asked: Sequence[Asked]) -> str:
    inside = 100 * fmean(each.inside for each in asked)
    width, bias = median(each.width for each in asked), 100 * math.expm1(fmean(each.bias for each in asked))
    return (
        f"{name:<14}{len(asked):>8}{inside:>11.0f}{width:>9.2f}{bias:>+9.0f}{fmean(each.score for each in asked):>8.2f}"
    )


def as_they_stand(library: Library, printed: Iterable[Printed]) -> Mapping[str, tuple[int, int]]:
    """Return, by table, how many figures of sources a row does not name lie from its low to its high, and of how many.

    Whoever set the row may have seen them: this is a check of care, not a blind one.
    """
    titles = {str(entry["title"]): key for key, entry in library.sources.items()}
    found: dict[str, list[bool]] = {}
    lines: set[tuple[str, str, float]] = set()
    for each in _figures(library, printed):
        line = (each.title, each.place, round(each.middle, 6))
        if (
            each.row.low == each.row.high
            or titles.get(each.title) in each.row.origin.source.split("; ")
            or line in lines
        ):
            continue
        lines.add(line)
        found.setdefault(each.row.table, []).append(each.row.low <= each.middle <= each.row.high)
    return {table: (sum(held), len(held)) for table, held in sorted(found.items())}
