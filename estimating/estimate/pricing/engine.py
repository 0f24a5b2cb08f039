"""The likely price of one job by any plans, many times over: the rules of the price standing, with room for numbers.

A choice between methods asks for the price of the whole job beside every other method of every piece. Each rule of the
price is built once as a standing tree of figures, by the very functions that build_up builds lines with, and worked
out in plain numbers from then on. What a plan takes whatever it is done beside is added up once; what is shared
between plans, the days and the totals are worked out for each question.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

import numpy as np

from estimating.estimate.pricing.build_up import charged_once
from estimating.estimate.pricing.order import batches, by_item, paint_cost, supply_order
from estimating.estimate.pricing.plan import Charge, Material, Phase, Plan, Supply, Task
from estimating.estimate.pricing.preference import Appetite
from estimating.estimate.pricing.sharing import kept_once
from estimating.estimate.pricing.site_days import (
    brought,
    crew_size,
    every_day,
    on_site,
    wait_hours,
    working_day,
)
from estimating.estimate.pricing.totals import add_up_price, charge_line, labor_line, loaded_wage
from estimating.evidence import Basis
from estimating.figures import Figure, StandingTree, leaf
from estimating.job.model import Job
from estimating.origins import definition
from estimating.trade import drying
from estimating.units import Number, cents, convert

TOLERANCE = 1e-6  # of a day: a step may overrun its day by a crumb, which the least days must not count
GIVEN = definition("given anew each time")


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
    """What a plan takes whatever it is done beside; amount and rounded are its lines as they are and to the cent."""

    hours: float
    amount: float
    rounded: Decimal
    shared: tuple[Task, ...]  # what it may share with other plans


@dataclass(frozen=True)
class _Parts:
    """What plans take together, but for what every day on site brings."""

    hours: float
    amount: float
    rounded: Decimal
    bought: float
    gallons: float


class _Standing:
    """An amount as it hangs on one number, such as the cost of paint on its gallons."""

    def __init__(self, unit: str, amount_of: Callable[[Figure], Figure]) -> None:
        self.unit = unit
        self._given = leaf("given", 0.0, unit, GIVEN)
        self._tree = StandingTree([amount_of(self._given)])
        self._known: dict[float, float] = {}

    def of(self, number: float) -> float:
        if number not in self._known:
            self._known[number] = float(self._tree.at({self._given: number})[0])
        return self._known[number]

    def of_each(self, numbers: Sequence[float]) -> list[float]:
        (amounts,) = self._tree.at({self._given: np.array(numbers)})
        return [float(each) for each in np.broadcast_to(amounts, len(numbers))]


class _Whole:
    """The totals of a job as they hang on hours, amounts, what is bought and the days on site."""

    def __init__(self, job: Job, basis: Basis) -> None:
        self._hours, self._days = leaf("hours", 0.0, "hour", GIVEN), leaf("days", 0.0, "dimensionless", GIVEN)
        self._amount, self._bought = (leaf(name, 0.0, "dollar", GIVEN) for name in ("amount", "bought"))
        wage = loaded_wage(basis)
        daily = [labor_line(task, wage) for task in every_day(job, basis, self._days, crew_size(job))]
        totals = add_up_price(
            [self._hours, *(line.quantity for line in daily)],
            [self._amount, *(line.amount for line in daily)],
            [self._bought],
            basis,
        )
        lines = [line.amount for line in (*daily, *totals.lines)]
        self._tree = StandingTree([totals.cost, totals.hours, *lines])

    def of(self, parts: _Parts, days: float) -> Likely:
        given: dict[Figure, Number] = {
            self._hours: parts.hours,
            self._days: days,
            self._amount: parts.amount,
            self._bought: parts.bought,
        }
        cost, hours, *lines = map(float, self._tree.at(given))
        price = parts.rounded + _rounded(lines) if days else Decimal("0.00")
        return Likely(price, cost, hours, days, parts.gallons)


def _in(figure: Figure, unit: str) -> float:
    return float(convert(figure.value, figure.unit, unit))


def _hours(task: Task) -> float:
    return _in(task.hours, "hour")


def _rounded(amounts: Iterable[float]) -> Decimal:
    return sum(map(cents, amounts), Decimal("0.00"))


class Engine:
    """The standing price of one job; it lives as long as the estimate it was made for.

    What was worked out is kept by the plans it was worked out of, since neighboring questions share most of it: they
    have to outlive the engine.
    """

    def __init__(self, job: Job, basis: Basis) -> None:
        self.job = job
        self.basis = basis
        self._visit = brought(basis)
        self._paint: dict[str, _Standing] = {}
        self._bought: dict[tuple[str, Figure | None, Figure], _Standing] = {}
        self._charged: dict[Figure, _Standing] = {}
        self._own: dict[int, _Own] = {}
        self._together: dict[tuple[int, ...], _Parts] = {}
        self._alone: dict[int, float] = {}
        self._known: dict[tuple[int, ...], Likely] = {}

    @cached_property
    def appetite(self) -> Appetite:
        """What the contractor makes of chance."""
        return Appetite.of(self.basis)

    @cached_property
    def _whole(self) -> _Whole:
        return _Whole(self.job, self.basis)

    @cached_property
    def _labor(self) -> _Standing:
        wage = loaded_wage(self.basis)
        return _Standing("hour", lambda hours: labor_line(Task("", "labor", Phase.ARRIVE, hours), wage).amount)

    @cached_property
    def _day(self) -> tuple[float, float]:
        """The crew, and the hours of a day in which its work goes forward."""
        crew = crew_size(self.job)
        return crew.value, _in(working_day(self.basis, crew), "hour")

    def likely(self, plans: Sequence[Plan]) -> Likely:
        """Return what the job comes to when it is done by these plans."""
        key = tuple(map(id, plans))
        if key not in self._known:
            self._known[key] = self._whole.of(self._parts(plans), self._days(plans))
        return self._known[key]

    def at_least(self, plans: Sequence[Plan]) -> Decimal:
        """Return a price that the job by these plans is never below: as if its days were full of labor."""
        parts = self._parts(plans)
        crew, day = self._day
        return self._whole.of(parts, float(math.ceil(parts.hours / crew / day * (1 - TOLERANCE)))).price

    def _days(self, plans: Iterable[Plan]) -> float:
        tasks = on_site((task for plan in plans for task in plan.tasks), self.basis)
        steps = [(_hours(task), wait_hours(task)) for task in tasks]
        crew, day = self._day
        rooms = [task.room for task in tasks]
        return drying.days_on_site(steps, crew=crew, day_length=day, rooms=rooms) if steps else 0.0

    def _parts(self, plans: Sequence[Plan]) -> _Parts:
        key = tuple(map(id, plans))
        if key not in self._together:
            self._together[key] = self._summed(plans, [self._own_part(plan) for plan in plans])
        return self._together[key]

    def _summed(self, plans: Sequence[Plan], own: Sequence[_Own]) -> _Parts:
        shared = kept_once((task for each in own for task in each.shared), lambda task: task.hours.value)
        once = [_hours(task) for task in (*shared, *(self._visit if any(plan.tasks for plan in plans) else ()))]
        mixed = batches(each for plan in plans for each in plan.materials).values()
        needs = [sum(_in(each.gallons, "gallon") for each in batch) for batch in mixed]
        paint = [self._in_cans(batch[0], need) for batch, need in zip(mixed, needs, strict=True)]
        supplies = [self._in_packs(each) for each in by_item(each for plan in plans for each in plan.supplies).values()]
        charges = [self._charge(plan, charge) for plan, charge in charged_once(plans)]
        lines = [*map(self._labor.of, once), *paint, *supplies, *charges]
        return _Parts(
            sum(once, sum(each.hours for each in own)),
            sum(lines, sum(each.amount for each in own)),
            sum((each.rounded for each in own), _rounded(lines)),
            sum(paint) + sum(supplies),
            sum(needs, 0.0),
        )

    def _own_part(self, plan: Plan) -> _Own:
        if id(plan) not in self._own:
            hours = [_hours(task) for task in plan.tasks if not task.share_key]
            lines = [*self._labor.of_each(hours), *(_in(risk.expected, "dollar") for risk in plan.risks)]
            shared = tuple(task for task in plan.tasks if task.share_key)
            self._own[id(plan)] = _Own(sum(hours), sum(lines), _rounded(lines), shared)
        return self._own[id(plan)]

    def _in_cans(self, first: Material, need: float) -> float:
        if first.product not in self._paint:
            self._paint[first.product] = _Standing(
                "gallon", lambda gallons: paint_cost(first.title, first.product, gallons, self.basis)
            )
        return self._paint[first.product].of(need)

    def _in_packs(self, wanted: Sequence[Supply]) -> float:
        first = wanted[0]
        key = (first.need.unit, first.holds, first.price)
        if key not in self._bought:
            self._bought[key] = _Standing(first.need.unit, lambda need: supply_order(first, need).cost)
        return self._bought[key].of(sum(_in(each.need, first.need.unit) for each in wanted))

    def _charge(self, plan: Plan, charge: Charge) -> float:
        if charge.price not in self._charged:
            self._charged[charge.price] = _Standing("dimensionless", lambda count: charge_line(charge, count).amount)
        count = self._days_alone(plan) if charge.by_day else _in(charge.quantity, "dimensionless")
        return self._charged[charge.price].of(count)

    def _days_alone(self, plan: Plan) -> float:
        if id(plan) not in self._alone:
            self._alone[id(plan)] = self._days([plan])
        return self._alone[id(plan)]
