"""Which method would be recommended along the values of the figure that the choice turns on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.plan import Plan, Risk, Suitability
from estimating.estimate.pricing.preference import Array
from estimating.figures import Figure, StandingTree

GRID = 401
HALVINGS = 40


@dataclass(frozen=True, eq=False)
class Priced:
    """A method and the job done by it, to be worked out at many values of the figure that the choice turns on."""

    plan: Plan
    estimate: Estimate

    @cached_property
    def _risks(self) -> list[Risk]:
        return [risk for risk in self.plan.risks if risk.surface]

    @cached_property
    def _tree(self) -> StandingTree:
        risks = [*(each.chance for each in self._risks), *(each.expected for each in self._risks)]
        return StandingTree([self.estimate.amount, self.estimate.cost, *risks])

    def at(self, figure: Figure, values: Array) -> At:
        """Return the job at each value of the figure."""
        worked = self._tree.at({figure: values})
        price, cost, *risks = (np.broadcast_to(np.asarray(each, dtype=float), values.shape) for each in worked)
        chances, expected = np.split(np.array(risks), 2) if risks else (np.zeros((1, *values.shape)),) * 2
        return At(price, cost, chances.max(axis=0), expected.sum(axis=0), self._allowed(chances))

    def _allowed(self, chances: Array) -> npt.NDArray[np.bool_]:
        closed = any(each.suitability is Suitability.CLOSED and not each.of_chance for each in self.plan.findings)
        limits = [each.surface.closed_above for each in self._risks if each.surface]
        allowed = np.full(chances.shape[1:], self.plan.finishes and not closed)
        for limit, chance in zip(limits, chances, strict=False):
            allowed &= chance <= (np.inf if limit is None else limit.value)
        return allowed


@dataclass(frozen=True)
class At:
    """A job at values of one figure: dollars, the chance that something comes down, and what mending is expected."""

    price: Array
    cost: Array
    chance: Array
    mending: Array
    allowed: npt.NDArray[np.bool_]


@dataclass(frozen=True)
class Stretch:
    """From where to where along a figure one method is recommended; its place among the methods."""

    low: float
    high: float
    place: int


def stretches(
    recommended: Callable[[Array], npt.NDArray[np.intp]], low: float = 0.0, high: float = 1.0
) -> tuple[Stretch, ...]:
    """Return the stretches of the recommendation from low to high, each end found by halving.

    Looked for on an even grid: a stretch between two neighbors of the grid is missed.
    """
    grid = np.linspace(low, high, GRID)
    found = recommended(grid)
    turns = np.flatnonzero(np.diff(found))
    ends = _halved(recommended, grid[turns], grid[turns + 1], found[turns])
    places = [int(found[0]), *(int(found[turn + 1]) for turn in turns)]
    starts, stops = [low, *map(float, ends)], [*map(float, ends), high]
    return tuple(Stretch(*each) for each in zip(starts, stops, places, strict=True))


def _halved(
    recommended: Callable[[Array], npt.NDArray[np.intp]], below: Array, above: Array, first: npt.NDArray[np.intp]
) -> Array:
    for _ in range(HALVINGS if below.size else 0):
        middle = (below + above) / 2
        same = recommended(middle) == first
        below, above = np.where(same, middle, below), np.where(same, above, middle)
    return above
