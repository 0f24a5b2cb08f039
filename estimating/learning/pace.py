"""What the records say beyond single rates: the crew's pace, its drift, likely slips, and jobs nobody wrote down."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from estimating.evidence import OwnValue, Row
from estimating.learning.rates import MANNER, NO_OWN, Array, Learned, Manner, Observed, is_slip, learn, unlike
from estimating.learning.scores import measure_of, per_amount

FEWEST = 6  # jobs before a trend is spoken of; judgment
SURE = 0.95


@dataclass(frozen=True)
class Pace:
    """Rates nobody has records of, moved with the pace of the work that was written down."""

    hours: float  # how many times the published hours the next job's are held to be, in the middle of the rows
    updates: tuple[Learned, ...]
    jobs: int

    @property
    def text(self) -> str:
        """The change in one line."""
        size = abs(self.hours - 1)
        what = f"{size:.0%} {'more' if self.hours > 1 else 'fewer'} hours than the tables say"
        rates = _count(len(self.updates), "rate")
        return f"your pace over {_count(self.jobs, 'job')}: {what}, for {rates} without records"


@dataclass(frozen=True)
class Slip:
    """A finished line so far from its promise that somebody should look at it again."""

    observed: Observed

    @property
    def text(self) -> str:
        """The question to ask."""
        line = self.observed
        over = line.actual / line.estimated
        times = f"{over:.3g} times" if over > 1 else f"a {_ordinal(1 / over)} of"
        return (
            f"{line.job} · {line.task.replace('_', ' ')}: {line.actual:.3g} {line.measure} against "
            f"{line.estimated:.3g}, {times} what was estimated. Is it right, or a slip?"
        )


@dataclass(frozen=True)
class Drift:
    """Hours against estimates that rise or fall from job to job."""

    a_year: float  # factor on hours a year
    jobs: int

    @property
    def text(self) -> str:
        """The trend in one sentence."""
        way = "more" if self.a_year > 1 else "fewer"
        return (
            f"over {self.jobs} jobs the hours against the estimate drift: {abs(self.a_year - 1):.0%} {way} a year. "
            "Rates learned from old jobs are behind; the newest jobs say more."
        )


def _count(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def _ordinal(parts: float) -> str:
    return {2: "half", 3: "third"}.get(round(parts), f"{round(parts)}th")


def pace(
    rows: Mapping[str, Row],
    observed: Sequence[Observed],
    *,
    today: date,
    own: Mapping[str, OwnValue] = NO_OWN,
    crew: str = "",
    manner: Manner = MANNER,
) -> Pace | None:
    """Return what the records say of rates of hours that nobody has recorded; None where they say nothing new.

    Rows with records of their own, with a value of the contractor's own, or without a range stay as they are.
    """
    recorded = {each.row for each in observed} | set(own)
    wanted = [row for row in rows.values() if row.key not in recorded and _learnable(row)]
    updates = learn(rows, observed, today=today, wanted=wanted, crew=crew, manner=manner).updates if wanted else ()
    news = tuple(each for each in updates if unlike(each, None) > 0.005)
    if not news:
        return None
    hours = [each.row.likely / each.likely if per_amount(each.row) else each.likely / each.row.likely for each in news]
    jobs = {each.job for each in observed if each.measure == "hours"}
    return Pace(float(np.median(hours)), news, len(jobs))


def _learnable(row: Row) -> bool:
    return row.table == "production" and 0 < row.low < row.likely < row.high and measure_of(row) == "hours"


def slips(observed: Iterable[Observed]) -> tuple[Slip, ...]:
    """Return the lines to ask about: many times the promise, or a small part of it."""
    return tuple(Slip(each) for each in observed if is_slip(each))


def drift(observed: Iterable[Observed], *, sure: float = SURE) -> Drift | None:
    """Return the trend of hours against estimates over the jobs' days; None where there is none to speak of.

    A straight line through each job's log ratio of hours by its last day; spoken of when Student's t on its slope is
    beyond chance at `sure`.
    """
    from scipy.special import stdtr  # slow to import

    days, logs = _by_job(observed)
    n = len(days)
    if n < FEWEST or np.ptp(days) == 0:
        return None
    years = (days - days.mean()) / 365.25
    slope = float(years @ logs / (years @ years))
    left = logs - logs.mean() - slope * years
    error = math.sqrt(float(left @ left) / (n - 2) / float(years @ years))
    if error > 0 and 2 * float(stdtr(n - 2, -abs(slope) / error)) > 1 - sure:
        return None
    return Drift(math.exp(slope), n) if slope else None


def _by_job(observed: Iterable[Observed]) -> tuple[Array, Array]:
    jobs: dict[str, list[Observed]] = {}
    for each in observed:
        if each.measure == "hours":
            jobs.setdefault(each.job, []).append(each)
    days, logs = [], []
    for lines in jobs.values():
        counted = [each for each in lines if not each.whole] or lines
        took, promised = (sum(getattr(each, name) for each in counted) for name in ("actual", "estimated"))
        days.append(max(each.done_on for each in lines).toordinal())
        logs.append(math.log(took / promised))
    return np.array(days, dtype=float), np.array(logs)


def unrecorded(sent: int, recorded: int) -> str:
    """Return what to bear in mind where some finished jobs were never written down; blank where all were."""
    left = sent - recorded
    if left <= 0 or not recorded:
        return ""
    return (
        f"{recorded} of {sent} jobs sent have hours written down. If those are the ones that went badly, or well, the "
        "rates learned lean the same way: write down every job, if only its total hours."
    )
