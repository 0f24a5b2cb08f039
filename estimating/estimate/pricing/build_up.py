"""The build-up of a price: labor, paint, supplies, equipment and allowances; then overhead, profit and taxes.

Lines are rounded to the cent once; the price is the sum of the rounded lines.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.estimate.pricing.lines import Line, Section, sum_of
from estimating.estimate.pricing.order import PaintOrder, SupplyOrder, order_paint, order_supplies
from estimating.estimate.pricing.plan import Charge, Plan, Question
from estimating.estimate.pricing.site_days import Schedule, schedule
from estimating.evidence import Basis
from estimating.figures import Figure, total, work
from estimating.job.model import Job
from estimating.trade import labor, ordering, pricing


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

    @property
    def price(self) -> Decimal:
        """The likely price: the sum of the rounded lines."""
        return sum_of(self.lines)

    @property
    def profit(self) -> Decimal:
        """What is left after every cost and tax."""
        return sum_of(line for line in self.lines if line.section in (Section.PROFIT, Section.MINIMUM))

    @property
    def margin(self) -> float:
        """Profit as a share of the price."""
        return float(self.profit / self.price) if self.price else 0.0

    @property
    def gallons(self) -> float:
        """Gallons of everything that is coated on."""
        return sum(order.need.value for order in self.paint)

    def section(self, section: Section) -> tuple[Line, ...]:
        """Return the lines of one section."""
        return tuple(line for line in self.lines if line.section is section)


def build_up(plans: Sequence[Plan], job: Job, basis: Basis, questions: Sequence[Question] = ()) -> Estimate:
    """Return the estimate of a job done by these plans: one mobilization, one order, one schedule."""
    days = schedule((task for plan in plans for task in plan.tasks), job, basis)
    paint = order_paint((each for plan in plans for each in plan.materials), basis)
    supplies = order_supplies(each for plan in plans for each in plan.supplies)
    direct = [
        *_labor(days, basis),
        *_paint(paint),
        *_supplies(supplies),
        *_equipment(plans, days, job, basis),
        *_allowances(plans),
    ]
    hours = total("labor hours", [task.hours for task in days.tasks], unit="hour")
    loaded = [*direct, *_purchase_tax(direct, basis), _overhead(hours, basis)]
    cost = total("cost", [line.amount for line in loaded], unit="dollar")
    lines, amount = _to_price(loaded, cost, basis) if days.tasks else ([], cost)
    return Estimate(job, tuple(plans), days, paint, supplies, tuple(lines), cost, amount, hours, tuple(questions))


def loaded_wage(basis: Basis) -> Figure:
    """Return what an hour of labor costs with its burden."""
    return work(
        labor.loaded_wage,
        "wage with burden",
        wage=basis.figure("business", "wage"),
        burden=basis.figure("business", "burden"),
    )


def _labor(days: Schedule, basis: Basis) -> list[Line]:
    wage = loaded_wage(basis)
    return [
        Line(
            Section.LABOR,
            task.key,
            task.title,
            task.hours,
            wage,
            work(labor.labor_cost, f"{task.title}, cost", hours=task.hours, loaded_wage=wage),
            task.room,
            task.detail,
            task.rate_key,
        )
        for task in days.tasks
    ]


def _paint(orders: Iterable[PaintOrder]) -> list[Line]:
    return [
        Line(
            Section.PAINT,
            order.product,
            f"{order.title}{f', {order.color}' if order.color else ''}",
            order.need,
            None,
            order.cost,
            detail=f"buy {order.containers}; {'; '.join(order.purposes)}",
            row=order.coverage_key,
        )
        for order in orders
    ]


def _supplies(orders: Iterable[SupplyOrder]) -> list[Line]:
    return [Line(Section.SUPPLIES, order.item, order.title, order.count, order.price, order.cost) for order in orders]


def _equipment(plans: Sequence[Plan], days: Schedule, job: Job, basis: Basis) -> list[Line]:
    lines = []
    for plan, charge in charged_once(plans):
        quantity = _days_alone(plan, plans, days, job, basis) if charge.by_day else charge.quantity
        amount = work(ordering.count_cost, charge.title, count=quantity, price=charge.price)
        lines.append(Line(Section.EQUIPMENT, charge.key, charge.title, quantity, charge.price, amount))
    return lines


def _days_alone(plan: Plan, plans: Sequence[Plan], days: Schedule, job: Job, basis: Basis) -> Figure:
    """Return the days on site that a plan would take by itself; in a larger job its machine is not out every day."""
    return days.days if len(plans) == 1 else schedule(plan.tasks, job, basis).days


def charged_once(plans: Iterable[Plan]) -> list[tuple[Plan, Charge]]:
    """Return the charges, those of one word once, each with its plan."""
    once: dict[str, tuple[Plan, Charge]] = {}
    for number, plan in enumerate(plans):
        for place, charge in enumerate(plan.charges):
            once.setdefault(charge.share_key or f"{number} {place}", (plan, charge))
    return list(once.values())


def _allowances(plans: Iterable[Plan]) -> list[Line]:
    return [
        Line(Section.ALLOWANCE, risk.key, risk.title, risk.chance, risk.cost_if, risk.expected, detail=risk.what_then)
        for plan in plans
        for risk in plan.risks
    ]


def _purchase_tax(lines: Iterable[Line], basis: Basis) -> list[Line]:
    bought = [line.amount for line in lines if line.section in (Section.PAINT, Section.SUPPLIES)]
    return [_share(Section.PURCHASE_TAX, "purchase_tax", "Tax paid on what is bought", bought, basis)] if bought else []


def _overhead(hours: Figure, basis: Basis) -> Line:
    rate = basis.figure("business", "overhead")
    amount = work(labor.overhead_cost, "overhead", hours=hours, overhead=rate)
    return Line(Section.OVERHEAD, "overhead", "Overhead", hours, rate, amount)


def _to_price(loaded: list[Line], cost: Figure, basis: Basis) -> tuple[list[Line], Figure]:
    profit = _share(Section.PROFIT, "markup", "Profit, as markup on cost", [cost], basis)
    before = total("cost and profit", [cost, profit.amount], unit="dollar")
    least = basis.figure("business", "minimum_charge")
    short = work(pricing.minimum_top_up, "up to the minimum charge", price=before, minimum=least)
    minimum = Line(Section.MINIMUM, "minimum_charge", "Up to the minimum charge", least, None, short)
    net = total("price before tax", [before, short], unit="dollar")
    tax = _share(Section.SALES_TAX, "sales_tax", "Tax charged on the price", [net], basis)
    lines = [*loaded, profit, minimum, tax]
    return lines, total("price", [net, tax.amount], unit="dollar")


def _share(section: Section, key: str, title: str, of: list[Figure], basis: Basis) -> Line:
    base = total(f"{title}: base", of, unit="dollar") if len(of) > 1 else of[0]
    share = basis.figure("business", key)
    return Line(section, key, title, base, share, work(pricing.share_of, title, amount=base, share=share))
