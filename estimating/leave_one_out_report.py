"""The checks without the source asked, as lines of text: table by table, the aims, and why a table misses them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import expm1
from pathlib import Path
from statistics import median
from types import MappingProxyType

from estimating.evidence import Library
from estimating.leave_one_out import (
    OTHERS,
    OWN,
    RATES,
    STEPS,
    WIDER,
    Asked,
    LeftOut,
    by_source,
    leave_one_out,
    share_of,
    without_source,
)
from estimating.printed import PUBLISHED, read_printed

BLIND = "Blind check: rows set anew without each source in turn"
STANDING = "The tables as they stand, asked without the rows that name the source"
INSIDE = (72, 88)  # percent of figures from P10 to P90 that a table is to hold
WIDTH = 2.0  # P90 over P10 that a table is to keep to, as its median
LEAST_BACK = 0.75  # share inside that a fall-back of coverage is to hold
ENOUGH = 8  # figures in a table, before its shares say anything
HEAD = f"{'table':<14}{'figures':>8}{'inside, %':>11}{'P90/P10':>9}{'bias, %':>9}{'score':>8}{'by source':>11}"
COVERAGE = "coverage"
FALLS_FAR = (
    "coverage: a wider class holds fewer than wished, because oil paint and texture coating then fall back to ordinary "
    "paint, which no estimate asks for"
)

WHY: Mapping[str, str] = MappingProxyType(
    {
        "climate": "times and limits of drying differ from product to product more than one row can know",
        "coatings": "drying times and solids are a product's own; the label of the can goes before the row",
        "film": "one maker lays a film half as thick again as the rest",
        "losses": "makers' percentages of loss speak of different sites, and few print one",
        "naps": "covers come in steps of an eighth of an inch, and most publishers name the same two",
        "production": "norms of several countries count different work: one school's book is half as fast as all "
        "others, painters write of their best days, and what is filled, sanded or masked is seldom the same; no rate "
        "is set by them alone, and none was widened to hold them",
        "surfaces": "factors of area are near 1 and copied from one another",
    }
)


@dataclass(frozen=True)
class Aim:
    """What is wished of a check, what it came to, and whether that is enough."""

    what: str
    found: float
    least: float | None = None
    most: float | None = None

    @property
    def met(self) -> bool:
        """Whether the figure lies where it is wished."""
        return (self.least is None or self.found >= self.least) and (self.most is None or self.found <= self.most)

    def __str__(self) -> str:
        wished = " to ".join(f"{each:g}" for each in (self.least, self.most) if each is not None)
        ends = {(False, True): "at least ", (True, False): "at most "}.get((self.least is None, self.most is None), "")
        found = f"{self.found:.2f}" if self.found < ENOUGH else f"{self.found:.0f}"
        return f"{self.what}: {found}, wished {ends}{wished}: {'met' if self.met else 'MISSED'}"


def aims(blind: LeftOut, standing: LeftOut) -> tuple[Aim, ...]:
    """Return what is wished of the two checks, with what they came to."""
    headline = [each for each in blind.asked if each.table != RATES]
    spread = [each for each in standing.asked if each.table == COVERAGE]
    rates = [each for each in standing.asked if each.table == RATES]
    back = [each for each in spread if each.step != OWN]
    return (
        Aim("blind, all tables but rates of work, share inside", _inside(headline), 0.72, 0.88),
        Aim("blind, all tables but rates of work, P90/P10", _width(headline), most=WIDTH),
        Aim("coverage, interval score by source", by_source(spread, _score), most=0.85),
        Aim("coverage, share inside", _inside(spread), 0.75, 0.85),
        Aim("coverage, share inside where another row answers", _inside(back), least=LEAST_BACK),
        Aim("rates of work, figures predicted without their source", _lines(rates), least=40),
        Aim("rates of work, share inside", _inside(rates), 0.70, 0.90),
    )


def report(library: Library, folder: Path = PUBLISHED) -> list[str]:
    """Return both checks: a line for each table, what was set apart, the aims, and why a table misses them."""
    printed = read_printed(folder)
    if not printed:
        return ["nothing to leave out"]
    blind, standing = leave_one_out(library, printed), without_source(library, printed)
    return [
        *_tables(blind, headline="all but rates"),
        _apart(blind, "that nobody else prints"),
        "",
        STANDING,
        *_tables(standing, headline="all"),
        *_steps(standing),
        _apart(standing, "that no row answers without its source"),
        "the row itself may have been set by hand with the figure seen: there this is a check of care, not a blind one",
        "",
        *(str(each) for each in aims(blind, standing)),
        *([FALLS_FAR] if _inside(_answered(standing, WIDER)) < LEAST_BACK else []),
        *(f"{name}: {WHY[name]}" for name in missing(blind, standing)),
    ]


def _answered(standing: LeftOut, step: str) -> list[Asked]:
    return [each for each in standing.asked if each.table == COVERAGE and each.step == step]


def headlines(library: Library, folder: Path = PUBLISHED) -> list[str]:
    """Return the aims alone, with what they came to and whether that is enough."""
    printed = read_printed(folder)
    if not printed:
        return ["nothing to leave out"]
    return [str(each) for each in aims(leave_one_out(library, printed), without_source(library, printed))]


def missing(blind: LeftOut, standing: LeftOut) -> list[str]:
    """Return the tables of enough figures that hold too few or too many, or are wider than wished, in either check."""
    found = {name for each in (blind, standing) for name, asked in _by_table(each).items() if _misses(asked)}
    return sorted(found)


def _misses(asked: Sequence[Asked]) -> bool:
    least, most = INSIDE
    return _lines(asked) >= ENOUGH and not (least <= round(100 * _inside(asked)) <= most and _width(asked) <= WIDTH)


def _by_table(found: LeftOut) -> Mapping[str, list[Asked]]:
    tables: dict[str, list[Asked]] = {}
    for each in found.asked:
        tables.setdefault(each.table, []).append(each)
    return dict(sorted(tables.items()))


def _tables(found: LeftOut, *, headline: str) -> list[str]:
    lines = [_line(name, asked) for name, asked in _by_table(found).items()]
    total = [each for each in found.asked if headline == "all" or each.table != RATES]
    return [HEAD, *lines, _line(headline, total)]


def _line(name: str, asked: Sequence[Asked]) -> str:
    bias = 100 * expm1(share_of(asked, lambda each: each.bias))
    scores = f"{share_of(asked, _score):>8.2f}{by_source(asked, _score):>11.2f}"
    return f"{name:<14}{_lines(asked):>8.0f}{100 * _inside(asked):>11.0f}{_width(asked):>9.2f}{bias:>+9.0f}{scores}"


def _steps(found: LeftOut) -> list[str]:
    """Return for coverage and the rates how each of the three answers did."""
    said = {OWN: "the row itself", OTHERS: "set anew from the others", WIDER: "the nearest wider class"}
    tables = _by_table(found)
    return [
        f"{name}, {said[step]}: {_lines(asked):.0f} figures, {100 * _inside(asked):.0f} % inside, "
        f"score {share_of(asked, _score):.2f}"
        for name in (COVERAGE, RATES)
        for step in STEPS
        if (asked := [each for each in tables.get(name, ()) if each.step == step])
    ]


def _apart(found: LeftOut, why: str) -> str:
    return (
        f"set apart: {found.repeated} repeats of a printed line, {found.fixed} fixed figures and copies of one "
        f"standard, {found.alone} {why}"
    )


def _lines(asked: Sequence[Asked]) -> float:
    return sum(each.weight for each in asked)


def _inside(asked: Sequence[Asked]) -> float:
    return share_of(asked, lambda each: each.inside)


def _width(asked: Sequence[Asked]) -> float:
    return median(each.width for each in asked)


def _score(each: Asked) -> float:
    return each.score
