"""Checks of the tables without the source that is asked: each in turn is left out, and asked how its figures fall.

The blind check sets a row anew from what the other publishers print for it, by one rule and no hand: the likely value
is the geometric mean of their middles, and the spread is that between publishers in the same table, also without the
source asked. The other check asks the tables as they stand: the row itself where it does not name the source; else the
row set anew; else the nearest wider class that does not name it, with its range widened as an estimate widens it.

A figure counts once, however many rows repeat it. What is fixed (a law, a coefficient, a coding rule) and its copies,
what nobody else prints, and what is printed as a ceiling are counted apart and never in the headline. Rates of work are
asked by the tasks that norms speak of.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from statistics import fmean, median

from estimating.evidence import ANY, WIDENED, Library, Row, widened
from estimating.norms import Comparison, compared
from estimating.origins import Origin
from estimating.printed import CEILING, Printed, by_row

SCORE_90 = 1.2815515655446004  # standard normal 90th percentile
MISS = 2 / 0.2  # what a miss of an 80 % range costs for each unit of distance (interval score)
RATES = "production"  # norms of several countries: their spread is lent to no other table
BY_THE_CLOCK = "clock"  # of a norm that does not say how many people worked: no rate of work
LEAST_PAIRS = 8  # figures in a table, before its own spread between publishers is trusted
OWN, OTHERS, WIDER = "row itself", "set anew", "wider class"
STEPS = (OWN, OTHERS, WIDER)


@dataclass(frozen=True)
class Asked:
    """One figure of a source left out, against what the tables say without that source."""

    table: str
    row: str
    source: str
    middle: float
    low: float
    likely: float
    high: float
    step: str = OTHERS
    weight: float = 1.0  # a line printed for several rows counts once: each row a share

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
class PrintedFigure:
    """One printed figure against one row that it is printed for, or that a norm speaks of."""

    row: Row
    title: str
    who: str
    place: str
    middle: float

    @property
    def line(self) -> tuple[str, str, float]:
        """What tells a printed line from every other, whichever row it is printed for."""
        return self.title, self.place, round(self.middle, 6)


def leave_one_out(library: Library, printed: Iterable[Printed]) -> LeftOut:
    """Return how the figures of every source fall against rows set without it, with nothing of the rows themselves."""
    asking = _Asking(library, tuple(figures_of(library, printed)))
    found = [asking.blind(copies) for copies in asking.by_line.values()]
    asked = tuple(each for each in found if each)
    repeated = len(asking.varying) - len(asking.by_line)
    return LeftOut(asked, repeated, len(asking.figures) - len(asking.varying), len(found) - len(asked))


def without_source(library: Library, printed: Iterable[Printed]) -> LeftOut:
    """Return how the figures of every source fall against the tables as they stand, without the rows that name it.

    Whoever set a row may have seen figures it does not name: of the row itself this is a check of care, and not blind.
    """
    asking = _Asking(library, tuple(figures_of(library, printed)))
    found = [tuple(asking.as_it_stands(copies)) for copies in asking.by_line.values()]
    asked = tuple(each for several in found for each in several)
    repeated = len(asking.varying) - len(asking.by_line)
    fixed = len(asking.figures) - len(asking.varying)
    return LeftOut(asked, repeated, fixed, sum(not several for several in found))


def fall_backs(library: Library, printed: Iterable[Printed], by: float) -> tuple[Asked, ...]:
    """Return every figure that some wider class answers without its source, the class widened by a factor."""
    asking = _Asking(library, tuple(figures_of(library, printed)))
    found = (asking.wider(each, by) for each in asking.varying if asking.names(each.row, each.title))
    return tuple(each for each in found if each)


def figures_of(library: Library, printed: Iterable[Printed]) -> Iterator[PrintedFigure]:
    """Yield every figure printed for a row, and every norm of a task of ours."""
    listed = tuple(printed)
    for key, several in by_row(listed, library).items():
        row = library.named(key)
        for each in several:
            low, high = each.ends(row.unit) if each.plain(row) and each.check != CEILING else (0.0, 0.0)
            if low > 0:
                who = each.publisher or each.title
                yield PrintedFigure(row, each.title, who, f"{each.place} {each.number}", (low + high) / 2)
    there = {(each.title, round(each.low, 6)) for each in listed}
    for task in compared(library):
        yield from _norms_of(task, library, there)


def _norms_of(task: Comparison, library: Library, there: set[tuple[str, float]]) -> Iterator[PrintedFigure]:
    """Yield the norms of a task as figures of one row of ours; those printed for a row already count there."""
    low, high = task.ends
    sources = "; ".join(dict.fromkeys(each.row.origin.source for each in task.parts if each.row.origin.source))
    row = Row(RATES, (task.task,), low, task.now, high, task.unit, Origin(task.parts[0].row.origin.kind, sources))
    for norm in task.norms:
        entry = library.sources[norm.origin.source]
        title = str(entry["title"])
        if norm.keys[1] != BY_THE_CLOCK and (title, round(norm.likely, 6)) not in there:
            yield PrintedFigure(row, title, str(entry.get("publisher", title)), norm.origin.place, norm.likely)


@dataclass(frozen=True)
class _Asking:
    """The figures of all sources, and what the tables answer to one of them without its source."""

    library: Library
    figures: tuple[PrintedFigure, ...]

    @cached_property
    def varying(self) -> tuple[PrintedFigure, ...]:
        return tuple(each for each in self.figures if each.row.low < each.row.high)

    @cached_property
    def by_line(self) -> Mapping[tuple[str, str, float], list[PrintedFigure]]:
        found: dict[tuple[str, str, float], list[PrintedFigure]] = {}
        for each in self.varying:
            found.setdefault(each.line, []).append(each)
        return found

    @cached_property
    def titles(self) -> Mapping[str, str]:
        return {key: str(entry["title"]) for key, entry in self.library.sources.items()}

    def names(self, row: Row, title: str) -> bool:
        """Say whether a row names the source of this title."""
        return title in {self.titles.get(key) for key in row.origin.source.split("; ")}

    def blind(self, copies: Sequence[PrintedFigure]) -> Asked | None:
        """Return the figure against the one of its rows that most other publishers print; None where none does."""
        first = max(copies, key=lambda each: len(_without(each, self.varying)))
        return self.set_anew(first)

    def as_it_stands(self, copies: Sequence[PrintedFigure]) -> Iterator[Asked]:
        """Yield the figure against each of its rows that has an answer, each with its share of the one line."""
        answers = [found for each in copies if (found := self._answer(each))]
        for each in answers:
            yield Asked(**{**vars(each), "weight": 1 / len(answers)})

    def _answer(self, figure: PrintedFigure) -> Asked | None:
        if not self.names(figure.row, figure.title):
            return _asked(figure, figure.row, OWN)
        by = self.library.named(str(WIDENED)).likely if self.library.has(str(WIDENED)) else 1.0
        return self.set_anew(figure) or self.wider(figure, by)

    def set_anew(self, figure: PrintedFigure) -> Asked | None:
        """Return the figure against its row set from the other publishers; None where no other prints it."""
        middles = _without(figure, self.varying)
        if not middles:
            return None
        mean = fmean(math.log(each) for each in middles)
        reach = SCORE_90 * _spread(figure, self.varying) * math.sqrt(1 + 1 / len(middles))
        low, likely, high = (math.exp(mean + side * reach) for side in (-1, 0, 1))
        row = figure.row
        return Asked(row.table, row.key, figure.title, figure.middle, low, likely, high, OTHERS)

    def wider(self, figure: PrintedFigure, by: float) -> Asked | None:
        """Return the figure against the nearest wider class that does not name its source; None where there is none."""
        keys = figure.row.keys
        for kept in range(len(keys) - 1, 0, -1):
            found = self.library.table(figure.row.table).get(keys[:kept] + (ANY,) * (len(keys) - kept))
            if found and found.keys != keys and not self.names(found, figure.title):
                return _asked(figure, widened(found, by), WIDER)
        return None


def _asked(figure: PrintedFigure, row: Row, step: str) -> Asked | None:
    """Return the figure against a row; None where the row has no logarithmic scale."""
    ends = (row.low, row.likely, row.high)
    return Asked(figure.row.table, figure.row.key, figure.title, figure.middle, *ends, step) if row.low > 0 else None


def _without(left_out: PrintedFigure, figures: Iterable[PrintedFigure]) -> list[float]:
    """Return one middle for each other publisher of a row."""
    by_who: dict[str, list[float]] = {}
    for each in figures:
        if each.row.key == left_out.row.key and each.who != left_out.who:
            by_who.setdefault(each.who, []).append(each.middle)
    return [median(several) for several in by_who.values()]


def _spread(left_out: PrintedFigure, figures: Sequence[PrintedFigure]) -> float:
    """Return the standard deviation between publishers in the table, without the one left out (logarithmic)."""
    others = [each for each in figures if each.who != left_out.who]
    own = [each for each in others if each.row.table == left_out.row.table]
    squares, freedom = _between(own)
    if freedom < LEAST_PAIRS:
        squares, freedom = _between(each for each in others if each.row.table != RATES)
    return math.sqrt(squares / freedom) if freedom else 0.0


def spread_between_publishers(figures: Iterable[PrintedFigure]) -> float:
    """Return the standard deviation of what publishers print for a row around the row's mean (logarithmic)."""
    squares, freedom = _between(each for each in figures if each.row.low < each.row.high)
    return math.sqrt(squares / freedom) if freedom else 0.0


def _between(figures: Iterable[PrintedFigure]) -> tuple[float, int]:
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


Share = Callable[[Asked], float]


def share_of(asked: Sequence[Asked], of: Share) -> float:
    """Return the mean over printed lines, each counted once."""
    return sum(each.weight * of(each) for each in asked) / sum(each.weight for each in asked)


def by_source(asked: Sequence[Asked], of: Share) -> float:
    """Return the mean over sources of each source's mean, so that a long sheet does not outvote a short one."""
    found: dict[str, list[Asked]] = {}
    for each in asked:
        found.setdefault(each.source, []).append(each)
    return fmean(share_of(several, of) for several in found.values())
