"""Jobs in hand: how many in each state, how many are won by kind and size, hours promised against hours there are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from estimating.errors import EstimatingError
from estimating.evidence import OwnValue
from estimating.job.model import Job, kind_words
from estimating.records.jobs_folder import DECIDED, WON, FiledJob, filed_jobs
from estimating.workbook import estimate_job

SIZES = ((1_500, "under $1,500"), (5_000, "$1,500 to $5,000"), (float("inf"), "over $5,000"))
SEVERAL = "several kinds"
WORKDAYS = 5  # in a week
PROMISED = "won"


@dataclass(frozen=True)
class JobInHand:
    """A job with what it comes to; without a price where it has none, and then with what is wrong."""

    name: str
    title: str
    state: str
    kind: str
    price: Decimal
    hours: float
    days: int
    start: date | None
    problem: str = ""

    @property
    def size(self) -> str:
        """Its class by price."""
        return next(name for most, name in SIZES if self.price < most)


@dataclass(frozen=True)
class Wins:
    """How many of the jobs decided on were won."""

    won: int
    decided: int

    @property
    def rate(self) -> float | None:
        """The share won; None where nothing is decided yet."""
        return self.won / self.decided if self.decided else None


@dataclass(frozen=True)
class Week:
    """A week with the hours promised in it, and the hours the crew has."""

    monday: date
    promised: float
    there_are: float


def jobs_in_hand(folder: Path, own: Mapping[str, OwnValue]) -> Iterator[JobInHand]:
    """Yield every job of a folder priced with one's own values, one after the other."""
    for filed in filed_jobs(folder):
        yield _priced(filed, own)


def _priced(filed: FiledJob, own: Mapping[str, OwnValue]) -> JobInHand:
    if filed.job is None:
        return JobInHand(filed.name, filed.name, filed.state, "", Decimal(0), 0.0, 0, None, filed.problem)
    job = filed.job
    start = date.fromisoformat(job.terms.start_earliest) if job.terms.start_earliest else None
    try:
        estimate = estimate_job(job, own=own).estimate
    except EstimatingError as problem:
        return JobInHand(filed.name, job.title, filed.state, kind_of(job), Decimal(0), 0.0, 0, start, str(problem))
    size = estimate.price, estimate.hours.value, round(estimate.schedule.days.value)
    return JobInHand(filed.name, job.title, filed.state, kind_of(job), *size, start)


def kind_of(job: Job) -> str:
    """Return the kind of work of a job, as it is said."""
    kinds = {item.kind for item in job.work}
    return kind_words(kinds.pop()) if len(kinds) == 1 else SEVERAL


def wins(jobs: Iterable[JobInHand]) -> Wins:
    """Return how many of some jobs were won of those decided on."""
    decided = [each for each in jobs if each.state in DECIDED]
    return Wins(sum(each.state in WON for each in decided), len(decided))


def wins_by(jobs: Sequence[JobInHand], field: str) -> dict[str, Wins]:
    """Return the wins by a field of the job: its kind or its size."""
    names = dict.fromkeys(getattr(each, field) for each in jobs if each.state in DECIDED)
    return {name: wins(each for each in jobs if getattr(each, field) == name) for name in sorted(names)}


def by_week(jobs: Iterable[JobInHand], *, people: int, day_length: float) -> list[Week]:
    """Return the weeks in which work is promised: each job by even days from its start, Monday to Friday.

    people: in the crew. day_length: hours of a day on site.
    """
    promised: dict[date, float] = defaultdict(float)
    for job in jobs:
        if job.state == PROMISED and job.start is not None and job.days:
            for day in _workdays(job.start, job.days):
                promised[day - timedelta(days=day.weekday())] += job.hours / job.days
    there_are = people * day_length * WORKDAYS
    return [Week(monday, hours, there_are) for monday, hours in sorted(promised.items())]


def _workdays(start: date, count: int) -> Iterator[date]:
    day = start
    while count:
        if day.weekday() < WORKDAYS:
            yield day
            count -= 1
        day += timedelta(days=1)


def without_a_start(jobs: Iterable[JobInHand]) -> list[JobInHand]:
    """Return jobs that are won and have no day to start on, so that they stand in no week."""
    return [each for each in jobs if each.state == PROMISED and each.start is None]
