"""What one work item adds to a job: the job with it, less the job without it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.plan import Plan
from estimating.evidence import Basis
from estimating.figures import Figure, work
from estimating.job.model import Job
from estimating.origins import definition
from estimating.rules import SAME, rule
from estimating.units import Number


@rule("with it − without it", SAME, definition("what a piece adds"), whole=SAME, without=SAME)
def added(*, whole: Number, without: Number) -> Number:
    """Return what a piece adds to a whole; below 0 where the job is cheaper with it."""
    return whole - without


@dataclass(frozen=True)
class Marginal:
    """A work item as the last one to be added to a job."""

    scope: str
    whole: Estimate
    rest: Estimate

    @property
    def price(self) -> Decimal:
        """The likely price of adding it."""
        return self.whole.price - self.rest.price

    @property
    def amount(self) -> Figure:
        """The price of adding it as a figure in dollars, unrounded: what both estimates rest on varies as one."""
        return work(added, f"adding {self.scope}", whole=self.whole.amount, without=self.rest.amount)

    @property
    def hours(self) -> Figure:
        """The hours that adding it takes, the road and the opening of further days among them."""
        return work(added, f"hours of adding {self.scope}", whole=self.whole.hours, without=self.rest.hours)

    @property
    def days(self) -> float:
        """The days on site that adding it takes; none where it fits into the waits of the others."""
        return self.whole.schedule.days.value - self.rest.schedule.days.value


def marginal(plans: Sequence[Plan], place: int, job: Job, basis: Basis) -> Marginal:
    """Return what the plan in this place adds to the others: it shares their mobilization, covers, cans and waits.

    The other plans stay as they are, each done the way it is planned. Raises InputError for a place that is none.
    """
    if not 0 <= place < len(plans):
        raise InputError("place", place, f"0 to {len(plans) - 1}, one of the work items")
    others = [*plans[:place], *plans[place + 1 :]]
    return Marginal(plans[place].scope, build_up(plans, job, basis), build_up(others, job, basis))
