"""Learning from actuals: the published rate is the start, own jobs pull it toward what this contractor really does.

The model, in closed form. Every recorded line says what the rate of its reference row turned out to be, whatever
else the line was estimated with. That is turned into a score: how many published spreads the line lay above the
published likely value in effort (more hours, more gallons), on the log scale, with the row's own spread on each
side of its likely value; so that the published P10, P50 and P90 score -1.28, 0 and 1.28. A score is a sum of
normal parts:

    all this contractor's work + this task + this row (task, method and surface) + this product    what stays
    + this job + this line                                                                         what comes and goes

(Where no product is named, its part is not known to be the same twice, and is counted with the line's.)

Before the first record the parts add up to a variance of 1, so the range for the next job is the published one. Our
reading of a published P10 to P90 is therefore that it holds what one contractor has over another *and* what one job
has over another; how it divides (`Parts`) is judgment. Lines of one job share that job's part, so ten lines of one
job teach less than one line of ten jobs. What comes and goes is estimated from the contractor's own scatter about his
own rows, and drawn toward its published size while records are few (empirical Bayes). An old line counts for less:
its own noise is divided by its weight, which halves every `half_life` days.

The new range is for the *next* job: what is still unknown of the contractor's rate, and what one job has over another.
Normal-normal shrinkage of groups is textbook matter; the division into parts and their sizes are our judgment.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.evidence import OwnValue, Row
from estimating.origins import Kind
from estimating.row_key import RowKey
from estimating.units import convert, registry

Array: TypeAlias = npt.NDArray[np.float64]
SCORE_90 = 1.2815515655446004  # standard normal 90th percentile
OLDEST = 30  # half-lives after which a record, at one billionth, ages no further
NO_OWN: Mapping[str, OwnValue] = MappingProxyType({})
FILM = "thou"  # a film is gallons over an area, whatever unit of length it is written in; no other length is
# Bare shares that work goes by, and the power it goes with: of the time, the part the trigger is held: more is faster.
SHARES: Mapping[RowKey, tuple[str, float]] = MappingProxyType({RowKey.of("production", "spray_lap"): ("hours", -1.0)})


@dataclass(frozen=True)
class Observed:
    """One line of a finished job: what was promised, what it took, and the rate the promise was made with."""

    job: str
    task: str
    measure: str  # hours or gallons
    low: float
    estimated: float
    high: float
    actual: float
    done_on: date
    surface: str = ""
    product: str = ""
    row: str = ""  # address of the reference row behind the promise; blank when it rested on several or none
    assumed: float = 0.0  # the likely value that stood for the row then, published or own
    unit: str = ""

    def __post_init__(self) -> None:
        """Refuse amounts no ratio can be made of; a blank is unknown, never zero."""
        for name, value in (("estimated", self.estimated), ("actual", self.actual)):
            if not (math.isfinite(value) and value > 0):
                raise InputError(f"{self.job} · {self.task} · {name} {self.measure}", value, "more than nothing")


@dataclass(frozen=True)
class Parts:
    """How the published spread of a row divides, as shares of its variance: judgment, to be replaced by experience."""

    all_work: float = 0.20
    task: float = 0.15
    row: float = 0.10
    product: float = 0.05
    job: float = 0.20
    line: float = 0.30

    def __post_init__(self) -> None:
        """Refuse shares that are negative or do not make up the whole."""
        shares = (self.all_work, self.task, self.row, self.product, self.job, self.line)
        if min(shares) < 0 or self.line <= 0 or not math.isclose(sum(shares), 1.0):
            raise InputError("parts", shares, "shares of nothing or more, some for the line, that add up to 1")


@dataclass(frozen=True)
class Manner:
    """How to learn: the parts, how fast records age, and how many of them the published job-to-job spread is worth."""

    parts: Parts = Parts()
    half_life: float = 730.0  # days; judgment
    scatter_worth: float = 3.0  # records; judgment: a contractor may be half to five times as uneven as published


MANNER = Manner()


@dataclass(frozen=True)
class Learned:
    """What a row's rate is now held to be, beside what was published and what the own records say alone."""

    row: Row
    own: float | None  # recency-weighted geometric mean of the own records of this very row
    n: int  # own records of this very row
    elsewhere: int  # own records of other rows that taught something about it
    low: float
    likely: float
    high: float

    @property
    def text(self) -> str:
        """The change in one line, such as `published 150 → yours 128 (n = 7)`."""
        count = f"n = {self.n}" if self.n else f"n = 0 here, {self.elsewhere} on other work"
        return f"{self.row.origin.kind} {digits(self.row.likely)} → yours {digits(self.likely)} ({count})"

    def own_value(self, on: date) -> OwnValue:
        """Return the value to use from `on`, once the contractor has said yes to it."""
        return OwnValue(
            self.likely, self.row.unit, self.low, self.high, note=self.text, date=on.isoformat(), kind=Kind.OWN_RECORD
        )


@dataclass(frozen=True)
class LeftOut:
    """A record or row that nothing could be learned from or for, and why."""

    what: str
    reason: str


@dataclass(frozen=True)
class Proposals:
    """What the records would change, for the contractor to accept or not; nothing is changed by making them."""

    updates: tuple[Learned, ...]
    left_out: tuple[LeftOut, ...] = ()


def digits(value: float) -> str:
    """Return a number to three figures, as a rate is spoken of."""
    places = 2 - math.floor(math.log10(abs(value))) if value else 0
    text = f"{round(value, places):,.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def measure_of(row: Row) -> str:
    """Return what a row's rate is a rate of, hours or gallons; InputError when it is neither."""
    return _measure_and_power(row)[0]


def per_amount(row: Row) -> bool:
    """Say whether the row counts work per hour or gallon (more is faster), rather than hours or gallons per piece."""
    return _measure_and_power(row)[1] < 0


def _measure_and_power(row: Row) -> tuple[str, float]:
    for part, known in SHARES.items():
        if row.address.below(part):
            return known
    dimensions = registry.Unit(row.unit).dimensionality
    time, length = (float(str(dimensions.get(base, 0))) for base in ("[time]", "[length]"))
    if time in (-1, 1):
        return "hours", time
    if not time and (length in (-1, 3) or row.unit == FILM):  # area per volume, a volume, or a volume per area
        return "gallons", length
    raise InputError(row.key, row.unit, "a rate of hours or gallons, such as ft**2/hour or ft**2/gallon")


def _reach(row: Row, above: bool) -> float:
    """Return the log distance from a row's likely value to its high or low, always positive."""
    if not 0 < row.low < row.likely < row.high:
        raise InputError(row.key, (row.low, row.likely, row.high), "0 < low < likely < high, to learn from")
    return math.log(row.high / row.likely) if above else math.log(row.likely / row.low)


def score(value: float, row: Row) -> float:
    """Return how many published spreads a value lies above the row's likely value, on the log scale.

    Raises InputError for a row without a range on both sides: there is nothing to measure with.
    """
    return SCORE_90 * math.log(value / row.likely) / _reach(row, value > row.likely)


def value_at(at: float, row: Row) -> float:
    """Return the value with this score; the inverse of `score`."""
    return row.likely * math.exp(at / SCORE_90 * _reach(row, at > 0))


def implied(observed: Observed, row: Row) -> float:
    """Return what the row's rate turned out to be, in the row's unit: the rate assumed, put right by the actual."""
    if observed.assumed <= 0:
        raise InputError(f"{observed.job} · {row.key}", observed.assumed, "the rate the promise was made with")
    over = observed.actual / observed.estimated
    assumed = float(convert(observed.assumed, observed.unit, row.unit))
    return assumed / over if per_amount(row) else assumed * over


@dataclass(frozen=True)
class _Lesson:
    row: Row
    job: str
    product: str
    value: float
    effort: float  # score with more hours or gallons upwards
    weight: float


def _sign(row: Row) -> int:
    return -1 if per_amount(row) else 1


def _lesson(observed: Observed, rows: Mapping[str, Row], today: date, half_life: float) -> _Lesson:
    name = f"{observed.job} · {observed.task}"
    if not observed.row:
        raise InputError(name, observed.row, "a line that rests on one reference row")
    if observed.row not in rows:
        raise InputError(name, observed.row, "a row that is still in the reference tables")
    row = rows[observed.row]
    if measure_of(row) != observed.measure:
        raise InputError(name, observed.measure, f"{measure_of(row)}, of which {row.key} is a rate")
    value = implied(observed, row)
    half_lives = max((today - observed.done_on).days, 0) / half_life
    effort = _sign(row) * score(value, row)
    return _Lesson(row, observed.job, observed.product, value, effort, 0.5 ** min(half_lives, OLDEST))


def _same(one: Sequence[str], other: Sequence[str]) -> Array:
    """Return 1 where two labels are the same; a blank is unknown, and like no other."""
    left, right = np.array(one, dtype=str), np.array(other, dtype=str)
    _, codes = np.unique(np.concatenate([left, right]), return_inverse=True)  # numbers compare faster than words
    alike = codes[: len(left), None] == codes[None, len(left) :]
    return np.asarray(alike & (left != "")[:, None], dtype=float)


def _stays(one: Sequence[tuple[Row, str]], other: Sequence[tuple[Row, str]], parts: Parts) -> Array:
    """Return the covariance of what stays from job to job, between lines given by their row and product."""
    tasks = [[f"{row.table}/{row.keys[0]}" for row, _ in lines] for lines in (one, other)]
    rows = [[row.key for row, _ in lines] for lines in (one, other)]
    products = [[product for _, product in lines] for lines in (one, other)]
    return np.asarray(
        parts.all_work + parts.task * _same(*tasks) + parts.row * _same(*rows) + parts.product * _same(*products)
    )


def _passes(lessons: Sequence[_Lesson], parts: Parts) -> Array:
    """Return the covariance of what comes and goes: shared within a job, larger for an old line."""
    jobs = [lesson.job for lesson in lessons]
    weights = np.array([lesson.weight for lesson in lessons])
    alone = parts.line + parts.product * np.array([not lesson.product for lesson in lessons])
    return np.asarray(parts.job * _same(jobs, jobs) + np.diag(alone + (parts.job + alone) * (1 / weights - 1)))


def _scatter(lessons: Sequence[_Lesson], passes: Array, worth: float) -> float:
    """Return the size of the contractor's job-to-job scatter as a share of the published one (1 = the same).

    Generalised least squares about each row's own mean; drawn toward 1 as if `worth` records had shown just that.
    An old record counts by its weight here too: in squares, and in the freedom they are divided by.
    """
    keys = [lesson.row.key for lesson in lessons]
    weights = np.array([lesson.weight for lesson in lessons])
    effort = np.array([lesson.effort for lesson in lessons])
    of_row = _same(keys, sorted(set(keys)))
    solved = np.linalg.solve(passes, np.column_stack([of_row, effort]))
    about = effort - of_row @ np.linalg.solve(of_row.T @ solved[:, :-1], of_row.T @ solved[:, -1])
    squares = float(about @ np.linalg.solve(passes, about))
    freedom = float(weights.sum() - np.sum((weights**2 @ of_row) / (weights @ of_row)))
    return (worth + squares) / (worth + freedom)


def _next_job(wanted: Sequence[Row], product: str, lessons: Sequence[_Lesson], manner: Manner) -> tuple[Array, Array]:
    """Return mean and standard deviation of the effort score of a line of the next job, for each row wanted."""
    parts = manner.parts
    seen = [(lesson.row, lesson.product) for lesson in lessons]
    coming = [(row, product) for row in wanted]
    effort = np.array([lesson.effort for lesson in lessons])
    passes = _passes(lessons, parts)
    size = _scatter(lessons, passes, manner.scatter_worth)
    across = _stays(coming, seen, parts)
    solved = np.linalg.solve(_stays(seen, seen, parts) + size * passes, np.column_stack([effort, across.T]))
    mean = across @ solved[:, 0]
    known = np.sum(across * solved[:, 1:].T, axis=1)
    stays = np.diag(_stays(coming, coming, parts))
    return mean, np.sqrt(stays + size * (1 - stays) - known)


def _learned(row: Row, mean: float, deviation: float, lessons: Sequence[_Lesson]) -> Learned:
    own = [lesson for lesson in lessons if lesson.row.key == row.key]
    middle = _sign(row) * mean
    low, likely, high = (value_at(middle + step * deviation, row) for step in (-SCORE_90, 0.0, SCORE_90))
    average = (
        math.exp(np.average([math.log(each.value) for each in own], weights=[each.weight for each in own]))
        if own
        else None
    )
    return Learned(row, average, len(own), len(lessons) - len(own), low, likely, high)


def _sorted_out(
    observed: Sequence[Observed], rows: Mapping[str, Row], today: date, half_life: float
) -> tuple[list[_Lesson], list[LeftOut]]:
    lessons, left_out = [], []
    for each in observed:
        try:
            lessons.append(_lesson(each, rows, today, half_life))
        except InputError as problem:
            left_out.append(LeftOut(problem.field, f"got {problem.value!r}, needs {problem.needed}"))
    return lessons, left_out


def learn(
    rows: Mapping[str, Row],
    observed: Sequence[Observed],
    *,
    today: date,
    wanted: Collection[Row] | None = None,
    product: str = "",
    manner: Manner = MANNER,
) -> Proposals:
    """Return what the rate of each wanted row is held to be after the records, for the next job.

    rows: reference rows by address. wanted: the rows to learn, those with a record of their own when None.
    product: of the next job, when its own records should count for it. Hours and gallons are learned apart.
    Records that cannot be used are listed with the reason; InputError for a wanted row that cannot be learned.
    """
    lessons, left_out = _sorted_out(observed, rows, today, manner.half_life)
    asked = {lesson.row.key: lesson.row for lesson in lessons}.values() if wanted is None else wanted
    updates: list[Learned] = []
    for measure in ("hours", "gallons"):
        taught = [lesson for lesson in lessons if measure_of(lesson.row) == measure]
        about = [row for row in asked if measure_of(row) == measure]
        if taught and about:
            means, deviations = _next_job(about, product, taught, manner)
            updates += [_learned(*each, taught) for each in zip(about, means, deviations, strict=True)]
    return Proposals(tuple(updates), tuple(left_out))


def propose_updates(
    rows: Mapping[str, Row],
    observed: Sequence[Observed],
    *,
    today: date,
    own: Mapping[str, OwnValue] = NO_OWN,
    least_change: float = 0.005,
    manner: Manner = MANNER,
) -> Proposals:
    """Return the updates worth asking the contractor about: those that differ from what now stands.

    own: the own values that stand. least_change: the share by which low, likely or high must move to be worth asking.
    """
    learned = learn(rows, observed, today=today, manner=manner)
    news = tuple(each for each in learned.updates if _moved(each, own.get(each.row.key)) > least_change)
    return Proposals(news, learned.left_out)


def _moved(learned: Learned, own: OwnValue | None) -> float:
    row = learned.row
    new = (learned.low, learned.likely, learned.high)
    if own is None:
        return max(abs(one / other - 1) for one, other in zip(new, (row.low, row.likely, row.high), strict=True))
    if own.low is None or own.high is None:
        return math.inf  # entered without a range: the range is news
    old = (float(convert(each, own.unit, row.unit)) for each in (own.low, own.likely, own.high))
    return max(abs(one / other - 1) for one, other in zip(new, old, strict=True))
