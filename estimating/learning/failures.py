"""Learning how often what was there before fails under the work, from the contractor's own jobs.

The prior chance of a class of history has a low, likely and high: P10, P50 and P90 of a chance that is normal on the
log-odds scale, with a spread of its own on each side of the likely value: it is the chance that a surface is weak.
Each job tells whether anything failed, where tests had multiplied the odds of a weak surface by a known figure, and
the method fails on a known share of weak surfaces. So a class is learned from jobs of every method together, and one
done a gentle way that held says less. The posterior has no closed form and is summed over a fine grid: exact to the
grid, the same each time. Jobs of one class are taken as alike and independent, the odds and shares as right; both are
judgment.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from estimating.errors import InputError
from estimating.evidence import OwnValue, Row
from estimating.learning.rates import MANNER, OLDEST, Array
from estimating.learning.scores import SCORE_90, digits
from estimating.origins import Kind
from estimating.units import convert

WIDEST = 8.0  # standard normal scores the grid reaches to
STEPS = 8001


@dataclass(frozen=True)
class Worked:
    """One finished job: its class of history, what was held of it, and what happened."""

    history: str
    odds: float  # what tests multiplied the odds of a weak surface by
    failed: bool
    done_on: date
    share: float = 1.0  # of weak surfaces, how many the method fails on
    sound: float = 0.0  # the chance that it fails on a sound one


@dataclass(frozen=True)
class LearnedChance:
    """What the chance of a class is now held to be, beside what it was taken for and the plain count."""

    row: Row
    n: int
    failed: int
    low: float
    likely: float
    high: float

    @property
    def text(self) -> str:
        """The change in one line, such as `judgment 2 % → yours 3.1 % (1 of 7 failed)`."""
        before, after = (
            digits(float(convert(chance, self.row.unit, "percent"))) for chance in (self.row.likely, self.likely)
        )
        return f"{self.row.origin.kind} {before} % → yours {after} % ({self.failed} of {self.n} failed)"

    def own_value(self, on: date) -> OwnValue:
        """Return the chance to use from `on`, once the contractor has said yes to it."""
        return OwnValue(
            self.likely, self.row.unit, self.low, self.high, note=self.text, date=on.isoformat(), kind=Kind.OWN_RECORD
        )


def learn_chance(
    row: Row, history: str, worked: Sequence[Worked], *, today: date, half_life: float = MANNER.half_life
) -> LearnedChance:
    """Return the chance of failure of a class of history after the jobs of that class.

    row: the prior chance, a share or percent with low < likely < high. half_life: days after which a job counts half.
    Raises InputError for a prior without a range inside 0 to 1, odds of nothing, or a share that is none.
    """
    own = [job for job in worked if job.history == history]
    scores = np.linspace(-WIDEST, WIDEST, STEPS)
    log_odds = _prior_log_odds(row, scores)
    weight = -(scores**2) / 2
    for job in own:
        _check(job)
        counts = 0.5 ** min(max((today - job.done_on).days, 0) / half_life, OLDEST)
        weak = 1 / (1 + np.exp(-(log_odds + np.log(job.odds))))
        chance = weak * job.share + (1 - weak) * job.sound
        weight = weight + counts * (np.log(chance) if job.failed else np.log1p(-chance))
    low, likely, high = _quantiles(log_odds, weight)
    low, likely, high = (float(convert(chance, "dimensionless", row.unit)) for chance in (low, likely, high))
    return LearnedChance(row, len(own), sum(job.failed for job in own), low, likely, high)


def _check(job: Worked) -> None:
    if not job.odds > 0:
        raise InputError(f"odds of a job of class {job.history}", job.odds, "more than nothing")
    if not (0 < job.share <= 1 and 0 <= job.sound < 1):
        raise InputError(f"share of a job of class {job.history}", (job.share, job.sound), "shares between 0 and 1")


def _prior_log_odds(row: Row, scores: Array) -> Array:
    low, likely, high = (float(convert(each, row.unit, "dimensionless")) for each in (row.low, row.likely, row.high))
    if not 0 < low < likely < high < 1:
        raise InputError(row.key, (row.low, row.likely, row.high), "a low < likely < high inside 0 to 100 %")
    below, middle, above = (float(np.log(chance / (1 - chance))) for chance in (low, likely, high))
    return np.asarray(middle + scores / SCORE_90 * np.where(scores > 0, above - middle, middle - below))


def _quantiles(log_odds: Array, log_weight: Array) -> tuple[float, float, float]:
    weight = np.exp(log_weight - log_weight.max())
    reached = np.cumsum(weight) - weight / 2
    low, likely, high = np.interp(np.array((0.1, 0.5, 0.9)) * weight.sum(), reached, log_odds)
    return float(1 / (1 + np.exp(-low))), float(1 / (1 + np.exp(-likely))), float(1 / (1 + np.exp(-high)))
