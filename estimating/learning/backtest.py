"""Before and after learning: each finished line judged by the published rate, and by the jobs finished before it.

Nothing is judged by a rate that the line itself, or a later one, had a part in.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.evidence import Row
from estimating.learning.rates import MANNER, Learned, Manner, Observed, implied, learn


@dataclass(frozen=True)
class Tried:
    """A finished line: what its rate turned out to be, as published, and as learned from earlier jobs."""

    observed: Observed
    came_out: float
    row: Row
    learned: Learned

    @property
    def off_before(self) -> float:
        """How far the published likely rate was off, as a factor of 1 or more."""
        return _factor(self.came_out, self.row.likely)

    @property
    def off_after(self) -> float:
        """How far the learned likely rate was off, as a factor of 1 or more."""
        return _factor(self.came_out, self.learned.likely)

    @property
    def inside_before(self) -> bool:
        """Whether the published range held it."""
        return self.row.low <= self.came_out <= self.row.high

    @property
    def inside_after(self) -> bool:
        """Whether the learned range held it."""
        return self.learned.low <= self.came_out <= self.learned.high


@dataclass(frozen=True)
class BeforeAfter:
    """How rates did as published and as learned, on the same lines."""

    n: int
    off_before: float  # geometric mean factor
    off_after: float
    inside_before: int
    inside_after: int

    @property
    def text(self) -> str:
        """The comparison in words, without saying more than it can."""
        return (
            f"on {self.n} lines that earlier jobs could teach about, the published rate was off by a factor of "
            f"{self.off_before:.2f} and the learned one by {self.off_after:.2f}; the published range held "
            f"{self.inside_before} of them, the learned one {self.inside_after}"
        )


def _factor(one: float, other: float) -> float:
    return math.exp(abs(math.log(one / other)))


def try_forward(rows: Mapping[str, Row], observed: Sequence[Observed], *, manner: Manner = MANNER) -> tuple[Tried, ...]:
    """Return every line that has a row, with the rate learned from what was finished on an earlier day.

    Lines before which nothing of their measure was finished are left out, and so are those nothing can be learned of.
    """
    tried: list[Tried] = []
    for day in sorted({each.done_on for each in observed}):
        earlier = [each for each in observed if each.done_on < day]
        todays = [each for each in observed if each.done_on == day and _teachable(each, rows)]
        wanted = {each.row: rows[each.row] for each in todays}
        learned = {
            each.row.key: each
            for each in learn(rows, earlier, today=day, wanted=[*wanted.values()], manner=manner).updates
        }
        tried += [
            Tried(each, implied(each, rows[each.row]), rows[each.row], learned[each.row])
            for each in todays
            if each.row in learned
        ]
    return tuple(tried)


def _teachable(observed: Observed, rows: Mapping[str, Row]) -> bool:
    try:
        return bool(learn(rows, [observed], today=observed.done_on).updates)
    except InputError:
        return False


def before_and_after(tried: Iterable[Tried]) -> BeforeAfter:
    """Return how rates did as published and as learned; InputError when there is nothing to compare."""
    several = tuple(tried)
    if not several:
        raise InputError("finished lines", 0, "at least one line with an earlier job to learn from")
    n = len(several)
    off_before, off_after = (
        math.exp(sum(map(math.log, factors)) / n)
        for factors in ([each.off_before for each in several], [each.off_after for each in several])
    )
    inside_before, inside_after = (
        sum(held) for held in ([each.inside_before for each in several], [each.inside_after for each in several])
    )
    return BeforeAfter(n, off_before, off_after, inside_before, inside_after)
