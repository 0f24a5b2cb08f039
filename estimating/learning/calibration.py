"""Is it honest? What finished jobs say about the ranges and figures that were promised."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from operator import attrgetter

import numpy as np

from estimating.errors import InputError
from estimating.learning.rates import Observed

STATED = 0.80  # what a low to high is said to hold: P10 to P90
SURE = 0.95
FEWEST = 5  # jobs before a verdict; judgment: below it one bad job decides
ALIKE = 0.05  # judgment: how alike lines of one job are held to be at least in lying inside their ranges


@dataclass(frozen=True)
class Coverage:
    """How many actuals fell inside the stated range, and what share of all jobs that count allows."""

    n: int
    within: int
    low: float  # share
    high: float
    stated: float = STATED
    jobs: int = FEWEST

    @property
    def share(self) -> float:
        """The share seen."""
        return self.within / self.n

    @property
    def text(self) -> str:
        """What the count says of the stated share, in a sentence that does not say more than it can."""
        seen = f"{self.within} of {self.n} inside the {self.stated:.0%} range"
        bound = f"the true share is between {self.low:.0%} and {self.high:.0%}"
        if self.jobs < FEWEST:
            return (
                f"{seen}, on {self.jobs} {'job' if self.jobs == 1 else 'jobs'}: a verdict takes {FEWEST} jobs or more"
            )
        if self.high < self.stated:
            return f"{seen}; {bound}: the ranges are too narrow"
        if self.low > self.stated:
            return f"{seen}; {bound}: the ranges are wider than they need to be"
        return f"{seen}; {bound}: nothing against the ranges so far"


@dataclass(frozen=True)
class Bias:
    """Actual ÷ estimated of one group of lines: the middle ratio, and what the true one may be."""

    group: str
    n: int
    ratio: float  # geometric mean over jobs
    low: float | None  # None with fewer than two jobs: one says nothing about scatter
    high: float | None

    @property
    def text(self) -> str:
        """The ratio in words."""
        size = abs(self.ratio - 1)
        what = f"took {size:.0%} {'more' if self.ratio > 1 else 'less'} than estimated"
        bound = "" if self.low is None or self.high is None else f", between {self.low:.2f} and {self.high:.2f} times"
        return f"{self.group}: {what}{bound} (n = {self.n})"


@dataclass(frozen=True)
class OldPrice:
    """A price that is older than prices are trusted for."""

    item: Hashable
    days: int


def coverage_of(observed: Iterable[Observed], *, stated: float = STATED, sure: float = SURE) -> Coverage:
    """Return how many actuals lie inside their stated low to high, with a bound that minds that jobs come whole.

    sure: the confidence of the bound, which leaves (1 - sure) / 2 on each side: the exact binomial one (Clopper and
    Pearson, Biometrika 26(4), 1934, by way of the beta distribution; from memory, not checked) of as many independent
    lines as these are worth. Lines of one job have its good or bad days in common: n lines of m a job are worth
    n / (1 + (m - 1) r), r the likeness within jobs as seen, and at least ALIKE (Kish's design effect, Survey Sampling,
    1965; from memory, not checked). Raises InputError when there is nothing to count.
    """
    from scipy.special import betaincinv  # slow to import, and only asked for when records are looked over

    jobs: dict[str, list[bool]] = {}
    for each in observed:
        jobs.setdefault(each.job, []).append(each.low <= each.actual <= each.high)
    n, within = sum(map(len, jobs.values())), sum(map(sum, jobs.values()))
    if not n:
        raise InputError("finished lines", 0, "at least one line with a range and an actual")
    worth = n / _design_effect([*jobs.values()])
    hits, tail = within / n * worth, (1 - sure) / 2
    low = float(betaincinv(hits, worth - hits + 1, tail)) if within else 0.0
    high = float(betaincinv(hits + 1, worth - hits, 1 - tail)) if within < n else 1.0
    return Coverage(n, within, low, high, stated, len(jobs))


def _design_effect(jobs: Sequence[Sequence[bool]]) -> float:
    """Return by how much lines of these jobs count for less than lines of as many jobs would."""
    n = sum(map(len, jobs))
    size = sum(len(each) ** 2 for each in jobs) / n  # of the job that a line is in, on average
    return 1 + (size - 1) * max(ALIKE, _likeness(jobs))


def _likeness(jobs: Sequence[Sequence[bool]]) -> float:
    """Return the correlation within jobs of lying inside: one-way analysis of variance; 0 where it cannot be seen."""
    n, count = sum(map(len, jobs)), len(jobs)
    if count < 2 or n == count:
        return 0.0
    share = sum(map(sum, jobs)) / n
    between = sum(len(each) * (sum(each) / len(each) - share) ** 2 for each in jobs) / (count - 1)
    inside = sum(sum(each) * (1 - sum(each) / len(each)) for each in jobs) / (n - count)
    usual = (n - sum(len(each) ** 2 for each in jobs) / n) / (count - 1)
    total = between + (usual - 1) * inside
    return (between - inside) / total if total > 0 else 0.0


def bias_by(observed: Iterable[Observed], of: str = "task", *, sure: float = SURE) -> tuple[Bias, ...]:
    """Return actual ÷ estimated by task, surface, product, row or measure, the furthest from 1 first.

    Hours and gallons are kept apart. The bound is Student's t on the mean log ratio of each job: jobs are taken as
    independent and log-normal, lines of one job are not. Lines with nothing written in that field are left out.
    """
    label: Callable[[Observed], str] = attrgetter(of)
    groups: dict[str, dict[str, list[float]]] = {}
    for each in observed:
        if label(each):
            group = each.measure if of == "measure" else f"{label(each)} ({each.measure})"
            groups.setdefault(group, {}).setdefault(each.job, []).append(math.log(each.actual / each.estimated))
    found = [_bias(group, [*jobs.values()], sure) for group, jobs in groups.items()]
    return tuple(sorted(found, key=lambda bias: -abs(math.log(bias.ratio))))


def _bias(group: str, jobs: Sequence[Sequence[float]], sure: float) -> Bias:
    from scipy.special import stdtrit  # slow to import

    lines, n = sum(map(len, jobs)), len(jobs)
    means = [float(np.mean(each)) for each in jobs]
    middle = float(np.mean(means))
    if n < 2:
        return Bias(group, lines, math.exp(middle), None, None)
    reach = float(stdtrit(n - 1, (1 + sure) / 2)) * float(np.std(means, ddof=1)) / math.sqrt(n)
    return Bias(group, lines, math.exp(middle), math.exp(middle - reach), math.exp(middle + reach))


def old_prices(
    priced_on: Iterable[tuple[Hashable, date]], *, today: date, trusted_days: int = 90
) -> tuple[OldPrice, ...]:
    """Return the things whose newest price is older than `trusted_days` (judgment), the oldest first.

    priced_on: each thing with the day of a price of it; the newest day of a thing counts.
    """
    newest: dict[Hashable, date] = {}
    for item, day in priced_on:
        newest[item] = max(day, newest.get(item, day))
    ages = [OldPrice(item, (today - day).days) for item, day in newest.items()]
    return tuple(sorted((age for age in ages if age.days > trusted_days), key=lambda age: -age.days))
