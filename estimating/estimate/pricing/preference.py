"""Which of several methods is recommended: the one rule, for the choice, the comparison and the worth of a test.

Least of cost and of what a failure costs beyond the mending. Of methods that cost the same but for the noise, the
plainer one, which a kind of work lists first. And where that one fails oftener than is liked, a calmer one that costs
little more. All three are the contractor's own appetite for risk: rows of the table business.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from estimating.estimate.pricing.plan import Plan
from estimating.evidence import Basis
from estimating.units import Number

Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Appetite:
    """What a contractor makes of chance; all as shares, 0 to 1 unless said."""

    beyond: float = 0.0  # of the mending: what a failure costs beyond it; may be more than 1
    shunned: float = 1.0  # a chance of failure above this is kept away from
    calm: float = 0.5  # of that, or of the chance of the method in question: below it one is calmer
    dearer: float = 0.0  # of the price: what a calmer one may cost more
    tie: float = 0.0  # of the cost: what lies in the noise

    @classmethod
    def of(cls, basis: Basis) -> Appetite:
        """Return the appetite in the reference tables, or the contractor's own."""
        rows = ("beyond_mending", "chance_shunned", "chance_calm", "calm_dearer", "methods_tie")
        figures = [basis.figure("business", row) for row in rows]
        return cls(*(each.value_in("dimensionless") for each in figures))


@dataclass(frozen=True)
class Weighed:
    """Methods of one piece of work, one row each; numbers, or arrays of one shape."""

    cost: Array  # of the job less what it costs without the piece, and what failing costs beyond mending, dollars
    price: Array  # of the job less what it is without the piece, dollars
    chance: Array  # that what was there before comes down
    allowed: npt.NDArray[np.bool_]

    @classmethod
    def of(cls, rows: Sequence[tuple[Number, Number, Number, Any]]) -> Weighed:
        """Return the methods, each given as cost, price, chance and whether it may be used."""
        columns = [np.stack(np.broadcast_arrays(*each)) for each in zip(*rows, strict=True)]
        cost, price, chance, allowed = np.broadcast_arrays(*columns)
        return cls(cost.astype(float), price.astype(float), chance.astype(float), allowed.astype(bool))


@dataclass(frozen=True)
class Picked:
    """Places of methods: the cheapest, the plainest of those that cost the same, and the one recommended."""

    cheapest: npt.NDArray[np.intp]
    plainest: npt.NDArray[np.intp]
    recommended: npt.NDArray[np.intp]


def pick(methods: Weighed, appetite: Appetite) -> Picked:
    """Return which method is recommended, by the rule of this module; the last where none may be used."""
    some = methods.allowed.any(axis=0)
    methods = replace(methods, allowed=methods.allowed | ~some)
    cost = np.where(methods.allowed, methods.cost, np.inf)
    cheapest = np.argmin(cost, axis=0)
    least, chance = _at(cost, cheapest), _at(methods.chance, cheapest)
    tied = methods.allowed & (cost <= least + appetite.tie * np.abs(least))
    tied &= methods.chance <= np.maximum(chance, appetite.shunned)
    plainest = np.argmax(tied, axis=0)
    found = (cheapest, plainest, _calmer(methods, cost, plainest, appetite))
    return Picked(*(np.where(some, each, len(cost) - 1) for each in found))


def _calmer(methods: Weighed, cost: Array, taken: npt.NDArray[np.intp], appetite: Appetite) -> npt.NDArray[np.intp]:
    """Return the calmer method where the one taken fails too often: one that seldom does, or else half as often."""
    price, chance = _at(methods.price, taken), _at(methods.chance, taken)
    near = methods.allowed & (methods.price <= price + appetite.dearer * np.abs(price))
    for limit in (appetite.calm * chance, appetite.calm * appetite.shunned):  # the stricter one has the last word
        calm = near & (methods.chance < limit)
        wanted = (chance > appetite.shunned) & calm.any(axis=0)
        taken = np.where(wanted, np.argmin(np.where(calm, cost, np.inf), axis=0), taken)
    return taken


def _at(values: Array, places: npt.NDArray[np.intp]) -> Array:
    return np.asarray(np.take_along_axis(values, places[np.newaxis], axis=0)[0])


def chance_of_surface(plan: Plan) -> float:
    """Return the chance that something of what was there before comes down; the largest where there are several."""
    return max((risk.chance.value for risk in plan.risks if risk.surface), default=0.0)


def beyond_mending(plan: Plan, appetite: Appetite) -> float:
    """Return what a plan's failures are expected to cost beyond their mending, in dollars."""
    return appetite.beyond * sum(risk.expected.value for risk in plan.risks if risk.surface)
