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


@dataclass(frozen=True)
class Coverage:
    """How many actuals fell inside the stated range, and what share of all jobs that count allows."""

    n: int
    within: int
    low: float  # share
    high: float
    stated: float = STATED

    @property
    def share(self) -> float:
        """The share seen."""
        return self.within / self.n

    @property
    def text(self) -> str:
        """What the count says of the stated share, in a sentence that does not say more than it can."""
        seen = f"{self.within} of {self.n} inside the {self.stated:.0%} range"
        bound = f"the true share is between {self.low:.0%} and {self.high:.0%}"
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
    ratio: float  # geometric mean
    low: float | None  # None with fewer than two lines: one says nothing about scatter
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
    """Return how many actuals lie inside their stated low to high, with the exact binomial bound.

    sure: the confidence of the bound, which leaves (1 - sure) / 2 on each side (Clopper and Pearson, Biometrika 26(4),
    1934, by way of the beta distribution; from memory, not checked). Lines of one job are counted as if independent,
    so the true bound is wider. Raises InputError when there is nothing to count.
    """
    from scipy.special import betaincinv  # slow to import, and only asked for when records are looked over

    inside = [each.low <= each.actual <= each.high for each in observed]
    n, within = len(inside), sum(inside)
    if not n:
        raise InputError("finished lines", 0, "at least one line with a range and an actual")
    tail = (1 - sure) / 2
    low = float(betaincinv(within, n - within + 1, tail)) if within else 0.0
    high = float(betaincinv(within + 1, n - within, 1 - tail)) if within < n else 1.0
    return Coverage(n, within, low, high, stated)


def bias_by(observed: Iterable[Observed], of: str = "task", *, sure: float = SURE) -> tuple[Bias, ...]:
    """Return actual ÷ estimated by task, surface, product, row or measure, the furthest from 1 first.

    Hours and gallons are kept apart. The bound is Student's t on log ratios: lines are taken as independent and
    log-normal. Lines with nothing written in that field are left out.
    """
    label: Callable[[Observed], str] = attrgetter(of)
    groups: dict[str, list[float]] = {}
    for each in observed:
        if label(each):
            group = each.measure if of == "measure" else f"{label(each)} ({each.measure})"
            groups.setdefault(group, []).append(math.log(each.actual / each.estimated))
    found = [_bias(group, logs, sure) for group, logs in groups.items()]
    return tuple(sorted(found, key=lambda bias: -abs(math.log(bias.ratio))))


def _bias(group: str, logs: Sequence[float], sure: float) -> Bias:
    from scipy.special import stdtrit  # slow to import

    n, middle = len(logs), float(np.mean(logs))
    if n < 2:
        return Bias(group, n, math.exp(middle), None, None)
    reach = float(stdtrit(n - 1, (1 + sure) / 2)) * float(np.std(logs, ddof=1)) / math.sqrt(n)
    return Bias(group, n, math.exp(middle), math.exp(middle - reach), math.exp(middle + reach))


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
