"""The likely price of a job in plain numbers: what build_up comes to, without the figures that say why.

For choosing between ways, where one large job is priced a hundred times over. The same rules and the same rounding as
in build_up: the two agree to the cent, and tests/estimate/test_likely.py holds them to it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import starmap
from typing import TypeAlias, TypeVar

from estimating.estimate.pricing.build_up import charged_once, loaded_wage
from estimating.estimate.pricing.order import by_item, can_prices
from estimating.estimate.pricing.plan import Charge, Plan, Supply, Task
from estimating.estimate.pricing.site_days import (
    brought,
    crew_size,
    daily_start,
    on_site,
    one_way,
    wait_hours,
    working_day,
)
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.model import Job
from estimating.trade import drying, labor, ordering, pricing
from estimating.units import cents, convert

T = TypeVar("T", tuple[float, float], tuple[float, tuple[str, str]])
Batch: TypeAlias = tuple[str, str]  # product and color
TOLERANCE = 1e-6  # of a day: a step may overrun its day by a crumb, which the least days must not count


@dataclass(frozen=True)
class Likely:
    """What a job comes to: the price it is sold at, its cost (dollars), hours, days on site, and gallons coated on."""

    price: Decimal
    cost: float
    hours: float
    days: float
    gallons: float


@dataclass(frozen=True)
class _Own:
    """What a plan takes whatever it is done beside, and what it may share, by the word for that.

    amount, rounded: of its lines, added up as they are and as each is rounded. Gallons go by product and color.
    """

    hours: float
    amount: float
    rounded: Decimal
    shared: Mapping[str, tuple[float, float]]  # hours, and what they are paid
    gallons: Mapping[Batch, float]
    shared_gallons: Mapping[str, tuple[float, Batch]]


@dataclass(frozen=True)
class _Parts:
    """What plans take together, but for what every day on site brings."""

    hours: float
    amount: float
    rounded: Decimal
    bought: float
    gallons: float


def _in(figure: Figure, unit: str) -> float:
    return float(convert(figure.value, figure.unit, unit))


def _hours(task: Task) -> float:
    return _in(task.hours, "hour")


def _rounded(amounts: Iterable[float]) -> Decimal:
    return sum(map(cents, amounts), Decimal("0.00"))


class Reckoner:
    """The rates of one job as plain numbers; it lives as long as the estimate it was made for.

    What was reckoned is kept by the plans it was reckoned of, since neighboring questions share most of it.
    """

    def __init__(self, job: Job, basis: Basis) -> None:
        self.job = job
        self.basis = basis
        crew = crew_size(job)
        self._crew, self._day = crew.value, _in(working_day(basis, crew), "hour")
        self._wage = _in(loaded_wage(basis), "dollar/hour")
        self._overhead = _in(basis.figure("business", "overhead"), "dollar/hour")
        self._visit = [self._worked(task) for task in brought(basis)]
        self._start = _in(daily_start(basis), "hour")
        drive = one_way(job)
        self._drive = None if drive is None else _in(drive, "hour")
        self._own: dict[int, _Own] = {}
        self._together: dict[tuple[int, ...], _Parts] = {}
        self._alone: dict[int, float] = {}
        self._cans: dict[tuple[str, float], float] = {}
        self._known: dict[tuple[int, ...], Likely] = {}

    def likely(self, plans: Sequence[Plan]) -> Likely:
        """Return what the job comes to when it is done by these plans, which have to outlive the reckoner."""
        key = tuple(map(id, plans))
        if key not in self._known:
            self._known[key] = self._priced(self._parts(plans), self._days(plans))
        return self._known[key]

    def _days(self, plans: Iterable[Plan]) -> float:
        tasks = on_site((task for plan in plans for task in plan.tasks), self.basis)
        steps = [(_hours(task), wait_hours(task)) for task in tasks]
        rooms = [task.room for task in tasks]
        return drying.days_on_site(steps, crew=self._crew, day_length=self._day, rooms=rooms) if steps else 0.0

    def at_least(self, plans: Sequence[Plan]) -> Decimal:
        """Return a price that the job by these plans is never below: as if its days were full of labor."""
        parts = self._parts(plans)
        return self._priced(parts, float(math.ceil(parts.hours / self._crew / self._day * (1 - TOLERANCE)))).price

    def _parts(self, plans: Sequence[Plan]) -> _Parts:
        key = tuple(map(id, plans))
        if key not in self._together:
            self._together[key] = self._summed(plans, [self._own_part(plan) for plan in plans])
        return self._together[key]

    def _summed(self, plans: Sequence[Plan], own: Sequence[_Own]) -> _Parts:
        visit = self._visit if any(plan.tasks for plan in plans) else ()
        once = [*_largest(each.shared for each in own).values(), *visit]
        needs = _needs(own)
        paint = [self._in_cans(product, need) for (product, _), need in needs.items()]
        supplies = [_bought(each) for each in by_item(each for plan in plans for each in plan.supplies).values()]
        lines = [*(paid for _, paid in once), *paint, *supplies, *starmap(self._charged, charged_once(plans))]
        return _Parts(
            sum((hours for hours, _ in once), sum((each.hours for each in own), 0.0)),
            sum(lines, sum(each.amount for each in own)),
            sum((each.rounded for each in own), _rounded(lines)),
            sum(paint) + sum(supplies),
            sum(needs.values(), 0.0),
        )

    def _own_part(self, plan: Plan) -> _Own:
        if id(plan) not in self._own:
            hours = [_hours(task) for task in plan.tasks if not task.share_key]
            lines = [*map(self._paid, hours), *(_in(risk.expected, "dollar") for risk in plan.risks)]
            shared = _largest({task.share_key: self._worked(task)} for task in plan.tasks if task.share_key)
            paint = [
                (each.share_key, _in(each.gallons, "gallon"), (each.product, each.color)) for each in plan.materials
            ]
            gallons: dict[Batch, float] = {}
            for word, need, batch in paint:
                gallons[batch] = gallons.get(batch, 0.0) + (0.0 if word else need)
            left = _largest({word: (need, batch)} for word, need, batch in paint if word)
            self._own[id(plan)] = _Own(sum(hours), sum(lines), _rounded(lines), shared, gallons, left)
        return self._own[id(plan)]

    def _worked(self, task: Task) -> tuple[float, float]:
        hours = _hours(task)
        return hours, self._paid(hours)

    def _paid(self, hours: float) -> float:
        return float(labor.labor_cost(hours=hours, loaded_wage=self._wage))

    def _charged(self, plan: Plan, charge: Charge) -> float:
        count = self._days_alone(plan) if charge.by_day else _in(charge.quantity, "dimensionless")
        return float(ordering.count_cost(count=count, price=_in(charge.price, "dollar")))

    def _days_alone(self, plan: Plan) -> float:
        if id(plan) not in self._alone:
            self._alone[id(plan)] = self._days([plan])
        return self._alone[id(plan)]

    def _in_cans(self, product: str, need: float) -> float:
        if (product, need) not in self._cans:
            prices = {size: _in(each, "dollar") for size, each in can_prices(self.basis, product).items()}
            self._cans[product, need] = float(ordering.least_cost(need=need, **prices))
        return self._cans[product, need]

    def _rate(self, key: str, unit: str) -> float:
        return _in(self.basis.figure("business", key), unit)

    def _daily(self, days: float) -> list[float]:
        hours = [labor.daily_hours(days=days, hours=self._start)]
        if self._drive is not None:
            hours.append(labor.travel_hours(days=days, one_way=self._drive, crew=self._crew))
        return [*map(float, hours)]

    def _priced(self, parts: _Parts, days: float) -> Likely:
        daily = self._daily(days) if days else []
        hours = sum(daily, parts.hours)
        further = [
            *map(self._paid, daily),
            pricing.share_of(amount=parts.bought, share=self._rate("purchase_tax", "dimensionless")),
            labor.overhead_cost(hours=hours, overhead=self._overhead),
        ]
        cost = sum(map(float, further), parts.amount)
        sold = self._sold(cost) if days else []
        price = parts.rounded + _rounded([*map(float, further), *sold]) if days else Decimal("0.00")
        return Likely(price, cost, hours, days, parts.gallons)

    def _sold(self, cost: float) -> list[float]:
        """Return profit, what is short of the minimum charge, and tax on the price."""
        profit = pricing.share_of(amount=cost, share=self._rate("markup", "dimensionless"))
        least = self._rate("minimum_charge", "dollar")
        short = pricing.minimum_top_up(price=cost + profit, minimum=least)
        tax = pricing.share_of(amount=cost + profit + short, share=self._rate("sales_tax", "dimensionless"))
        return [float(profit), float(short), float(tax)]


def _largest(several: Iterable[Mapping[str, T]]) -> dict[str, T]:
    """Return the largest of what goes by each word."""
    found: dict[str, T] = {}
    for each in several:
        for word, amount in each.items():
            if word not in found or amount > found[word]:
                found[word] = amount
    return found


def _needs(own: Sequence[_Own]) -> dict[Batch, float]:
    """Return the gallons of each product and color."""
    found: dict[Batch, float] = {}
    for each in own:
        for batch, gallons in each.gallons.items():
            found[batch] = found.get(batch, 0.0) + gallons
    for gallons, batch in _largest(each.shared_gallons for each in own).values():
        found[batch] = found.get(batch, 0.0) + gallons
    return found


def _bought(batch: Sequence[Supply]) -> float:
    first = batch[0]
    need = sum(_in(each.need, first.need.unit) for each in batch)
    holds = None if first.holds is None else _in(first.holds, first.need.unit)
    return _in_packs(need, holds, _in(first.price, "dollar"))


@lru_cache(maxsize=1024)  # most of what is bought is the same whichever way one piece is done
def _in_packs(need: float, holds: float | None, price: float) -> float:
    count = need if holds is None else ordering.whole_containers(need=need, holds=holds)
    return float(ordering.count_cost(count=count, price=price))
