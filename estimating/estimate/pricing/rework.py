"""A standing estimate worked out again with other values of a few assumptions, and nothing planned anew.

The tree of the price keeps its rules, so whatever a rule decides follows the values: cans and rolls by the piece, days
on site, waiting, the minimum charge. What was decided while planning stays as it was: the method of each piece, the
coats, the tips, which of two shared covers is the larger, and the order of the rooms. Where those too would come out
alike, the price is that of a new estimate, to the cent.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.figures import Figure, StandingTree, leaves
from estimating.units import cents


@dataclass(frozen=True)
class Reworked:
    """What a job comes to with other values: price to the cent, cost (dollars), hours, days on site and gallons."""

    price: Decimal
    cost: float
    hours: float
    days: float
    gallons: float
    amounts: tuple[Decimal, ...]  # of the lines of the estimate, in their order


class Reworking:
    """The tree of one estimate, standing."""

    def __init__(self, estimate: Estimate) -> None:
        self._estimate = estimate

    @cached_property
    def _tree(self) -> StandingTree:
        return StandingTree(self._targets)

    @cached_property
    def _targets(self) -> list[Figure]:
        made = self._estimate
        needs = [order.need for order in made.paint]
        return [made.cost, made.hours, made.schedule.days, *needs, *(line.amount for line in made.lines)]

    @cached_property
    def _leaves(self) -> Mapping[str, list[Figure]]:
        found: dict[str, list[Figure]] = {}
        for each in leaves(self._targets):
            if each.key:
                found.setdefault(each.key, []).append(each)
        return found

    def moved(self, values: Mapping[str, float]) -> Reworked:
        """Return the job with other values at these keys: rows such as business/wage, or fields of the job.

        Each value is in the unit of what it takes the place of. Raises InputError for a key the price does not rest
        on, and for a value outside a rule, naming the figure.
        """
        given: dict[Figure, float] = {}
        for key, value in values.items():
            if key not in self._leaves:
                raise InputError(key, value, "the key of an assumption that this price rests on")
            given |= dict.fromkeys(self._leaves[key], float(value))
        cost, hours, days, *rest = map(float, self._tree.at(given))
        needs = len(self._estimate.paint)
        amounts = tuple(cents(each) for each in rest[needs:])
        return Reworked(sum(amounts, Decimal("0.00")), cost, hours, days, sum(rest[:needs]), amounts)
