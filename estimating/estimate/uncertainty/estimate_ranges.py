"""How sure an estimate is: the range of every line and of what the job costs, from one set of draws."""

from __future__ import annotations

from collections.abc import Generator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
import numpy.typing as npt

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Line
from estimating.estimate.uncertainty.ranges import Spread, simulating, spread
from estimating.figures import Figure, at_once
from estimating.row_key import RowKey

# What goes one way for one reason goes together: a crew is slow at everything, a shop is dear for everything.
CORRELATED_GROUPS: Mapping[str, tuple[RowKey, float]] = MappingProxyType(
    {"crew": (RowKey("production"), 0.4), "shop": (RowKey("prices"), 0.5), "surface": (RowKey("take_up"), 0.5)}
)


@dataclass(frozen=True)
class EstimateRanges:
    """The ranges of an estimate; its price is fixed. Percentiles of lines do not add up to those of the cost."""

    quantities: Mapping[Line, Spread]
    amounts: Mapping[Line, Spread]
    cost: Spread
    hours: Spread
    days: Spread
    cost_draws: npt.NDArray[np.float64]


def estimate_ranges(estimate: Estimate, *, points: int = 4096) -> EstimateRanges:
    """Return the ranges of an estimate; the same estimate gives the same ranges."""
    return at_once(ranges_by_and_by(estimate, points=points))


def ranges_by_and_by(estimate: Estimate, *, points: int = 4096) -> Generator[None, None, EstimateRanges]:
    """Work the ranges of an estimate out a little at a time, for somebody who must not be kept waiting."""
    lines = estimate.lines
    whole = [estimate.cost, estimate.hours, estimate.schedule.days]
    targets: list[Figure] = [*whole, *(line.quantity for line in lines), *(line.amount for line in lines)]
    drawn = yield from simulating(targets, points=points, groups=CORRELATED_GROUPS)
    spreads = []
    for each in drawn:
        spreads.append(spread(each))
        yield
    cost, hours, days, *rest = spreads
    count = len(lines)
    return EstimateRanges(
        quantities=MappingProxyType(dict(zip(lines, rest[:count], strict=True))),
        amounts=MappingProxyType(dict(zip(lines, rest[count:], strict=True))),
        cost=cost,
        hours=hours,
        days=days,
        cost_draws=drawn[0],
    )
