"""Learning from actuals: the published rate is the start, own jobs pull it toward what this contractor really does.

The model, in closed form. Every recorded line says what the rate of its reference row turned out to be, whatever
else the line was estimated with. That is turned into a score: how many published spreads the line lay above the
published likely value in effort (more hours, more gallons), on the log scale, with the row's own spread on each
side of its likely value; so that the published P10, P50 and P90 score -1.28, 0 and 1.28. A score is a sum of
normal parts:

    all this contractor's work + this crew + this task + this row (task, method, surface) + this product    what stays
    + this job + this line                                                                         what comes and goes

(Where no product is named, its part is not known to be the same twice, and is counted with the line's.)

Before the first record the parts add up to a variance of 1, so the range for the next job is the published one. Our
reading of a published P10 to P90 is therefore that it holds what one contractor has over another *and* what one job
has over another; how it divides (`Parts`) is judgment. Lines of one job share that job's part, so ten lines of one
job teach less than one line of ten jobs. What comes and goes is estimated from the contractor's own scatter about his
own rows, and drawn toward its published size while records are few (empirical Bayes). An old line counts for less:
its own noise is divided by its weight, which halves every `half_life` days.

A job's total hours, where nobody wrote down its lines, teach too: tasks, rows and lines even out in a total, and what
is left is the contractor, the crew, the job and a little more (`Parts.total`). A score further out than `Manner.most`
counts as that far and no further, and what is likelier a slip of the pen than a bad day is asked about, not learned.

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
from estimating.learning.scores import SCORE_90, digits, measure_of, per_amount, score, value_at
from estimating.origins import Kind
from estimating.units import convert

Array: TypeAlias = npt.NDArray[np.float64]
SLIP = 5.0  # times the promise, or one part in so many of it: asked about, not learned from; judgment
OLDEST = 30  # half-lives after which a record, at one billionth, ages no further
NO_OWN: Mapping[str, OwnValue] = MappingProxyType({})


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
    crew: str = ""  # who did it; a blank is the usual crew
    whole: bool = False  # the hours of the whole job, of which no line was written down

    def __post_init__(self) -> None:
        """Refuse amounts no ratio can be made of; a blank is unknown, never zero."""
        for name, value in (("estimated", self.estimated), ("actual", self.actual)):
            if not (math.isfinite(value) and value > 0):
                raise InputError(f"{self.job} · {self.task} · {name} {self.measure}", value, "more than nothing")


@dataclass(frozen=True)
class Parts:
    """How the published spread of a row divides, as shares of its variance: judgment, to be replaced by experience."""

    all_work: float = 0.10
    crew: float = 0.10
    task: float = 0.15
    row: float = 0.10
    product: float = 0.05
    job: float = 0.20
    line: float = 0.30
    total: float = 0.10  # beside the others: what tasks, rows and lines leave in the hours of a whole job

    def __post_init__(self) -> None:
        """Refuse shares that are negative or do not make up the whole."""
        shares = (self.all_work, self.crew, self.task, self.row, self.product, self.job, self.line)
        if min(*shares, self.total) < 0 or self.line <= 0 or not math.isclose(sum(shares), 1.0):
            raise InputError("parts", shares, "shares of nothing or more, some for the line, that add up to 1")


@dataclass(frozen=True)
class Manner:
    """How to learn: the parts, how fast records age, and how many of them the published job-to-job spread is worth."""

    parts: Parts = Parts()
    half_life: float = 730.0  # days; judgment
    most: float = 2.5  # published spreads; judgment: one line in eighty lies further out by itself, most are slips
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


def implied(observed: Observed, row: Row) -> float:
    """Return what the row's rate turned out to be, in the row's unit: the rate assumed, put right by the actual."""
    if observed.assumed <= 0:
        raise InputError(f"{observed.job} · {row.key}", observed.assumed, "the rate the promise was made with")
    over = observed.actual / observed.estimated
    assumed = float(convert(observed.assumed, observed.unit, row.unit))
    return assumed / over if per_amount(row) else assumed * over


@dataclass(frozen=True)
class _Lesson:
    row: Row | None  # None for the hours of a whole job
    job: str
    crew: str
    product: str
    value: float
    effort: float  # score with more hours or gallons upwards
    weight: float


@dataclass(frozen=True)
class _Label:
    """What a line is of; a blank is unknown, and like no other."""

    crew: str
    task: str = ""
    row: str = ""
    product: str = ""


def _label(row: Row | None, crew: str, product: str) -> _Label:
    whose = crew or "the usual crew"
    return _Label(whose, f"{row.table}/{row.keys[0]}", row.key, product) if row else _Label(whose)


def _sign(row: Row) -> int:
    return -1 if per_amount(row) else 1


def _weight(observed: Observed, today: date, manner: Manner) -> float:
    half_lives = max((today - observed.done_on).days, 0) / manner.half_life
    return float(0.5 ** min(half_lives, OLDEST))


def _lesson(observed: Observed, rows: Mapping[str, Row], today: date, manner: Manner) -> _Lesson:
    name = _not_a_slip(observed)
    if not observed.row:
        raise InputError(name, observed.row, "a line that rests on one reference row")
    if observed.row not in rows:
        raise InputError(name, observed.row, "a row that is still in the reference tables")
    row = rows[observed.row]
    if measure_of(row) != observed.measure:
        raise InputError(name, observed.measure, f"{measure_of(row)}, of which {row.key} is a rate")
    effort = _sign(row) * score(implied(observed, row), row)
    kept = min(max(effort, -manner.most), manner.most)
    value = value_at(_sign(row) * kept, row)
    return _Lesson(row, observed.job, observed.crew, observed.product, value, kept, _weight(observed, today, manner))


def _not_a_slip(observed: Observed) -> str:
    name = f"{observed.job} · {observed.task}"
    if is_slip(observed):
        needed = f"an amount nearer the {observed.estimated:.3g} {observed.measure} estimated; is it a slip of the pen?"
        raise InputError(name, f"{observed.actual:.3g} {observed.measure}", needed)
    return name


def is_slip(observed: Observed) -> bool:
    """Say whether a line is so far from its promise that it's more likely a slip of the pen than a bad day."""
    return abs(math.log(observed.actual / observed.estimated)) >= math.log(SLIP)


def _whole_lesson(observed: Observed, today: date, manner: Manner) -> _Lesson:
    """Return what the hours of a whole job teach: its score in its own range, in the spread of a line."""
    name = _not_a_slip(observed)
    over = observed.actual / observed.estimated
    reach = observed.high / observed.estimated if over > 1 else observed.estimated / observed.low
    if not (0 < observed.low < observed.estimated < observed.high):
        raise InputError(name, (observed.low, observed.high), "a range to measure with")
    at = SCORE_90 * math.log(over) / math.log(reach)
    kept = min(max(at, -manner.most), manner.most)
    parts = manner.parts
    spread = math.sqrt(parts.all_work + parts.crew + parts.job + parts.total)
    weight = _weight(observed, today, manner)
    return _Lesson(None, observed.job, observed.crew, "", over, kept * spread, weight)


def _same(one: Sequence[str], other: Sequence[str]) -> Array:
    """Return 1 where two labels are the same; a blank is unknown, and like no other."""
    left, right = np.array(one, dtype=str), np.array(other, dtype=str)
    _, codes = np.unique(np.concatenate([left, right]), return_inverse=True)  # numbers compare faster than words
    alike = codes[: len(left), None] == codes[None, len(left) :]
    return np.asarray(alike & (left != "")[:, None], dtype=float)


def _stays(one: Sequence[_Label], other: Sequence[_Label], parts: Parts) -> Array:
    """Return the covariance of what stays from job to job, between lines given by what they are of."""

    def alike(name: str) -> Array:
        return _same([getattr(each, name) for each in one], [getattr(each, name) for each in other])

    sized = (("crew", parts.crew), ("task", parts.task), ("row", parts.row), ("product", parts.product))
    return np.asarray(parts.all_work + sum(size * alike(name) for name, size in sized))


def _alone(lesson: _Lesson, parts: Parts) -> float:
    """Return the variance that a lesson shares with no other."""
    if lesson.row is None:
        return parts.total
    return parts.line + (0.0 if lesson.product else parts.product)


def _passes(lessons: Sequence[_Lesson], parts: Parts) -> Array:
    """Return the covariance of what comes and goes: shared within a job, larger for an old line."""
    jobs = [lesson.job for lesson in lessons]
    weights = np.array([lesson.weight for lesson in lessons])
    alone = np.array([_alone(lesson, parts) for lesson in lessons])
    return np.asarray(parts.job * _same(jobs, jobs) + np.diag(alone + (parts.job + alone) * (1 / weights - 1)))


def _scatter(lessons: Sequence[_Lesson], passes: Array, worth: float) -> float:
    """Return the size of the contractor's job-to-job scatter as a share of the published one (1 = the same).

    Generalized least squares about each row's own mean; drawn toward 1 as if `worth` records had shown just that.
    An old record counts by its weight here too: in squares, and in the freedom they are divided by.
    """
    keys = [lesson.row.key if lesson.row else "the whole job" for lesson in lessons]
    weights = np.array([lesson.weight for lesson in lessons])
    effort = np.array([lesson.effort for lesson in lessons])
    of_row = _same(keys, sorted(set(keys)))
    solved = np.linalg.solve(passes, np.column_stack([of_row, effort]))
    about = effort - of_row @ np.linalg.solve(of_row.T @ solved[:, :-1], of_row.T @ solved[:, -1])
    squares = float(about @ np.linalg.solve(passes, about))
    freedom = float(weights.sum() - np.sum((weights**2 @ of_row) / (weights @ of_row)))
    return (worth + squares) / (worth + freedom)


def _next_job(coming: Sequence[_Label], lessons: Sequence[_Lesson], manner: Manner) -> tuple[Array, Array]:
    """Return mean and standard deviation of the effort score of each line coming in the next job."""
    parts = manner.parts
    seen = [_label(lesson.row, lesson.crew, lesson.product) for lesson in lessons]
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
    own = [lesson for lesson in lessons if lesson.row is not None and lesson.row.key == row.key]
    middle = _sign(row) * mean
    low, likely, high = (value_at(middle + step * deviation, row) for step in (-SCORE_90, 0.0, SCORE_90))
    average = (
        math.exp(np.average([math.log(each.value) for each in own], weights=[each.weight for each in own]))
        if own
        else None
    )
    return Learned(row, average, len(own), len(lessons) - len(own), low, likely, high)


def _sorted_out(
    observed: Sequence[Observed], rows: Mapping[str, Row], today: date, manner: Manner
) -> tuple[list[_Lesson], list[LeftOut]]:
    lessons, left_out = [], []
    for each in observed:
        try:
            whole = _whole_lesson(each, today, manner) if each.whole else _lesson(each, rows, today, manner)
            lessons.append(whole)
        except InputError as problem:
            left_out.append(LeftOut(problem.field, f"got {problem.value!r}, needs {problem.needed}"))
    by_line = {lesson.job for lesson in lessons if lesson.row is not None and measure_of(lesson.row) == "hours"}
    return [each for each in lessons if each.row is not None or each.job not in by_line], left_out


def learn(
    rows: Mapping[str, Row],
    observed: Sequence[Observed],
    *,
    today: date,
    wanted: Collection[Row] | None = None,
    product: str = "",
    crew: str = "",
    manner: Manner = MANNER,
) -> Proposals:
    """Return what the rate of each wanted row is held to be after the records, for the next job.

    rows: reference rows by address. wanted: the rows to learn, those with a record of their own when None.
    product, crew: of the next job, when their own records should count for it. Hours and gallons are learned apart.
    Where lines of a job were written down, the hours of the whole of it say nothing more and are passed over.
    Records that cannot be used are listed with the reason; InputError for a wanted row that cannot be learned.
    """
    lessons, left_out = _sorted_out(observed, rows, today, manner)
    asked = {each.row.key: each.row for each in lessons if each.row}.values() if wanted is None else wanted
    updates: list[Learned] = []
    for measure in ("hours", "gallons"):
        taught = [each for each in lessons if (measure_of(each.row) if each.row else "hours") == measure]
        about = [row for row in asked if measure_of(row) == measure]
        if taught and about:
            coming = [_label(row, crew, product) for row in about]
            means, deviations = _next_job(coming, taught, manner)
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
    news = tuple(each for each in learned.updates if unlike(each, own.get(each.row.key)) > least_change)
    return Proposals(news, learned.left_out)


def unlike(learned: Learned, own: OwnValue | None) -> float:
    """Return by what share what was learned differs from what stands: the own value, or the row where there is none."""
    row = learned.row
    new = (learned.low, learned.likely, learned.high)
    if own is None:
        return max(abs(one / other - 1) for one, other in zip(new, (row.low, row.likely, row.high), strict=True))
    if own.low is None or own.high is None:
        return math.inf  # entered without a range: the range is news
    old = (float(convert(each, own.unit, row.unit)) for each in (own.low, own.likely, own.high))
    return max(abs(one / other - 1) for one, other in zip(new, old, strict=True))
