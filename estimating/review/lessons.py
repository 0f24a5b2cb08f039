"""What the records teach: own values to say yes or no to, and what each would do to the estimates that are open."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from types import MappingProxyType
from typing import TypeAlias

from estimating.errors import EstimatingError
from estimating.evidence import Library, OwnValue, Row
from estimating.learning.failures import LearnedChance, learn_chance
from estimating.learning.pace import Drift, Pace, Slip, drift, pace, slips
from estimating.learning.rates import Learned, LeftOut, propose_updates
from estimating.records.compared import Compared, compare, worked
from estimating.records.sent import SentEstimate
from estimating.records.store import Records
from estimating.review.release_terms import prior_address
from estimating.units import convert
from estimating.workbook import estimate_job, parse_job

Lesson: TypeAlias = Learned | LearnedChance
LEAST_CHANGE = 0.005  # the share by which low, likely or high must move to be worth asking about


@dataclass(frozen=True)
class Lessons:
    """What finished jobs came to, what it would change, and what could not be learned from, with the reason."""

    compared: Compared
    proposals: tuple[Lesson, ...]
    left_out: tuple[LeftOut, ...]
    pace: Pace | None = None
    slips: tuple[Slip, ...] = ()
    drift: Drift | None = None
    jobs: int = 0  # with anything recorded about their hours or gallons


@dataclass(frozen=True)
class Walked:
    """What walking through a job anew came to."""

    price: Decimal
    hours: float
    days: float


@dataclass(frozen=True)
class Effect:
    """What a value would do to one open estimate: its price when sent, worked out now, and with the value."""

    job: str
    sent_on: str
    sent: Decimal
    now: Walked | None
    then: Walked | None
    problem: str = ""  # why it could not be worked out


def rows_of(library: Library) -> Mapping[str, Row]:
    """Return every reference row by its address."""
    return MappingProxyType({row.key: row for table in library.tables.values() for row in table.values()})


def lessons(records: Records, library: Library, own: Mapping[str, OwnValue], today: date) -> Lessons:
    """Return what the records would change as of a day, the farthest move first. Nothing is changed by asking.

    own: the values that stand now; what they say already is not proposed again.
    """
    compared = compare(records)
    rates = propose_updates(rows_of(library), compared.observed, today=today, own=own, least_change=LEAST_CHANGE)
    chances, strays = _chances(records, library, today)
    news = [each for each in chances if _is_news(each, own.get(each.row.key))]
    found: list[Lesson] = [*rates.updates, *news]
    farthest_first = tuple(sorted(found, key=lambda each: -_moved(each, own)))
    observed = compared.observed
    moved = pace(rows_of(library), observed, today=today, own=own)
    jobs = len({each.job for each in observed})
    return Lessons(compared, farthest_first, (*rates.left_out, *strays), moved, slips(observed), drift(observed), jobs)


def _moved(lesson: Lesson, own: Mapping[str, OwnValue]) -> float:
    """Return how far the likely value would move from what stands, on the logarithmic scale."""
    return abs(math.log(lesson.likely / standing(lesson.row, own)))


def standing(row: Row, own: Mapping[str, OwnValue]) -> float:
    """Return the likely value that holds now, own or published, in the unit of the row."""
    mine = own.get(row.key)
    return float(convert(mine.likely, mine.unit, row.unit)) if mine else row.likely


def _chances(records: Records, library: Library, today: date) -> tuple[list[LearnedChance], list[LeftOut]]:
    done, found, strays = worked(records), [], []
    for history in sorted({each.history for each in done}):
        address = prior_address(history, library)
        if address:
            found.append(learn_chance(library.named(address), history, done, today=today))
        else:
            strays.append(LeftOut(f"release · {history}", "needs a class of history that is still in the tables"))
    return found, strays


def _is_news(learned: LearnedChance, own: OwnValue | None) -> bool:
    """Say whether a chance differs from what stands; both are in the unit of the row."""
    row = learned.row
    old = (own.low, own.likely, own.high) if own else (row.low, row.likely, row.high)
    new = (learned.low, learned.likely, learned.high)
    return any(one is None or abs(other / one - 1) > LEAST_CHANGE for one, other in zip(old, new, strict=True))


def effects(
    open_: Iterable[SentEstimate], library: Library, own: Mapping[str, OwnValue], lesson: Lesson, on: date
) -> tuple[Effect, ...]:
    """Return what accepting a lesson would do to the open estimates, each walked through anew with and without it.

    A job file that can no longer be priced is listed with the reason.
    """
    then = {**own, lesson.row.key: lesson.own_value(on)}
    return tuple(_effect(sent, library, own, then) for sent in open_)


def _effect(sent: SentEstimate, library: Library, own: Mapping[str, OwnValue], then: Mapping[str, OwnValue]) -> Effect:
    day = sent.sent_at[:10]
    try:
        now, with_it = (_walk(sent, library, values) for values in (own, then))
    except EstimatingError as problem:
        return Effect(sent.job.name, day, sent.price, None, None, str(problem))
    return Effect(sent.job.name, day, sent.price, now, with_it)


def _walk(sent: SentEstimate, library: Library, own: Mapping[str, OwnValue]) -> Walked:
    estimate = estimate_job(parse_job(sent.job.toml), library, own).estimate
    return Walked(estimate.price, estimate.hours.value, estimate.schedule.days.value)
