"""The build-up of a price: labor, paint, supplies, equipment and allowances; then overhead, profit and taxes.

Lines are rounded to the cent once; the price is the sum of the rounded lines.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.estimate.pricing.arrange import Arranger, in_order_of_content
from estimating.estimate.pricing.lines import GAIN, Line, Section, sum_of
from estimating.estimate.pricing.order import PaintOrder, SupplyOrder, order_paint, order_supplies
from estimating.estimate.pricing.own_lines import SCOPE, untaxed_keys, with_own_lines
from estimating.estimate.pricing.plan import Plan, Question
from estimating.estimate.pricing.sharing import charged_once
from estimating.estimate.pricing.site_days import Schedule, schedule
from estimating.estimate.pricing.totals import (
    add_up_price,
    charge_line,
    discount_of,
    labor_line,
    loaded_wage,
    rounding,
    to_the_cent,
)
from estimating.evidence import Basis
from estimating.figures import Figure, total
from estimating.job.model import Job

NO_OWN_LINES = Plan("", "", "")


@dataclass(frozen=True)
class Estimate:
    """A priced job: its lines, orders and days, and the plans they come from."""

    job: Job
    plans: tuple[Plan, ...]
    schedule: Schedule
    paint: tuple[PaintOrder, ...]
    supplies: tuple[SupplyOrder, ...]
    lines: tuple[Line, ...]
    cost: Figure  # what the job costs the contractor before profit, in dollars, unrounded
    amount: Figure  # the price in dollars, unrounded
    hours: Figure
    questions: tuple[Question, ...] = ()
    own: Plan = NO_OWN_LINES  # the contractor's own lines, which belong to no work item

    @property
    def price(self) -> Decimal:
        """The likely price: the sum of the rounded lines."""
        return sum_of(self.lines)

    @property
    def profit(self) -> Decimal:
        """What is left after every cost and tax."""
        return sum_of(line for line in self.lines if line.section in GAIN)

    @property
    def kept(self) -> Decimal:
        """The price without the sales tax on it, which is passed on."""
        return self.price - sum_of(self.section(Section.SALES_TAX))

    @property
    def margin(self) -> float:
        """Profit as a share of the price before sales tax."""
        return float(self.profit / self.kept) if self.kept else 0.0

    @property
    def gallons(self) -> float:
        """Gallons of everything that is coated on."""
        return sum(order.need.value for order in self.paint)

    def section(self, section: Section) -> tuple[Line, ...]:
        """Return the lines of one section."""
        return tuple(line for line in self.lines if line.section is section)


def build_up(
    plans: Sequence[Plan],
    job: Job,
    basis: Basis,
    questions: Sequence[Question] = (),
    arranger: Arranger | None = None,
) -> Estimate:
    """Return the estimate of a job done by these plans: one mobilization, one order, one schedule.

    The order of the plans moves nothing. arranger: one that has put work of this job in order before.
    """
    given, plans = tuple(plans), in_order_of_content(with_own_lines(plans, job))
    days = schedule(plans, job, basis, arranger)
    paint = order_paint((each for plan in plans for each in plan.materials), basis)
    supplies = order_supplies(each for plan in plans for each in plan.supplies)
    wage = loaded_wage(basis)
    direct = [
        *(labor_line(task, wage) for task in days.tasks),
        *_paint(paint),
        *_supplies(supplies),
        *_equipment(plans, days),
        *_allowances(plans),
    ]
    bought = [line.amount for line in direct if line.section in (Section.PAINT, Section.SUPPLIES)]
    whole = add_up_price(
        [task.hours for task in days.tasks],
        [line.amount for line in direct],
        bought,
        basis,
        discount=discount_of(job),
        untaxed=[line.amount for line in direct if line.key in untaxed_keys(job)],
    )
    settled = tuple(to_the_cent((*direct, *whole.lines)))
    lines, amount = _rounded(job, settled, whole.price) if days.tasks else ((), whole.cost)
    own = next((plan for plan in plans if plan.scope == SCOPE), NO_OWN_LINES)
    return Estimate(job, given, days, paint, supplies, lines, whole.cost, amount, whole.hours, tuple(questions), own)


def _rounded(job: Job, lines: tuple[Line, ...], price: Figure) -> tuple[tuple[Line, ...], Figure]:
    rounded = rounding(job, price, lines)
    if not rounded:
        return lines, price
    return (*lines, *rounded), total("price, rounded", [price, rounded[0].amount], unit="dollar")


def _paint(orders: Iterable[PaintOrder]) -> list[Line]:
    return [
        Line(
            Section.PAINT,
            order.product,
            f"{order.title}{f', {order.color}' if order.color else ''}",
            order.need,
            None,
            order.cost,
            detail="; ".join((f"buy {order.containers}", *order.purposes, *order.remarks)),
            row=order.coverage_key,
        )
        for order in orders
    ]


def _supplies(orders: Iterable[SupplyOrder]) -> list[Line]:
    return [Line(Section.SUPPLIES, order.item, order.title, order.count, order.price, order.cost) for order in orders]


def _equipment(plans: Sequence[Plan], days: Schedule) -> list[Line]:
    return [
        charge_line(each, days.days_with(each.machine, each.room) if each.machine else each.quantity)
        for each in charged_once(each for plan in plans for each in plan.charges)
    ]


def _allowances(plans: Iterable[Plan]) -> list[Line]:
    return [
        Line(Section.ALLOWANCE, risk.key, risk.title, risk.chance, risk.cost_if, risk.expected, detail=risk.what_then)
        for plan in plans
        for risk in plan.risks
    ]
