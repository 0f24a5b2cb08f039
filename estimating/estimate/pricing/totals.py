"""From what the work costs to the price: tax on what is bought, overhead, profit, the least charge and sales tax.

Every rule of a price stands here or in order.py, once. build_up applies them to the figures of one job, line by line;
the engine has them standing, as trees with room for a few numbers, to price one job a hundred times over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimating.estimate.pricing.lines import Line, Section
from estimating.estimate.pricing.plan import Charge, Task
from estimating.evidence import Basis
from estimating.figures import Figure, total, work
from estimating.trade import labor as labor
from estimating.trade import ordering, pricing


@dataclass(frozen=True)
class Totals:
    """What the whole job costs and is sold at, and the lines that lie between the two; figures are unrounded."""

    hours: Figure
    cost: Figure  # before profit
    price: Figure
    lines: tuple[Line, ...]


def loaded_wage(basis: Basis) -> Figure:
    """Return what an hour of labor costs with its burden."""
    return work(
        labor.loaded_wage,
        "wage with burden",
        wage=basis.figure("business", "wage"),
        burden=basis.figure("business", "burden"),
    )


def labor_line(task: Task, wage: Figure) -> Line:
    """Return what a task costs in labor."""
    paid = work(labor.labor_cost, f"{task.title}, cost", hours=task.hours, loaded_wage=wage)
    return Line(Section.LABOR, task.key, task.title, task.hours, wage, paid, task.room, task.detail, task.rate_key)


def charge_line(charge: Charge, quantity: Figure) -> Line:
    """Return what a number of days, tests or loads is charged."""
    amount = work(ordering.count_cost, charge.title, count=quantity, price=charge.price)
    return Line(Section.EQUIPMENT, charge.key, charge.title, quantity, charge.price, amount)


def add_up_price(hours: Sequence[Figure], direct: Sequence[Figure], bought: Sequence[Figure], basis: Basis) -> Totals:
    """Return the totals of a job.

    hours: of all labor. direct: the amounts of all labor, paint, supplies, equipment and allowances. bought: those
    among them that purchase tax is paid on.
    """
    worked = total("labor hours", hours, unit="hour")
    loads = [*_purchase_tax(bought, basis), _overhead(worked, basis)]
    cost = total("cost", [*direct, *(line.amount for line in loads)], unit="dollar")
    profit = _share(Section.PROFIT, "markup", "Profit, as markup on cost", [cost], basis)
    before = total("cost and profit", [cost, profit.amount], unit="dollar")
    least = basis.figure("business", "minimum_charge")
    short = work(pricing.minimum_top_up, "up to the minimum charge", price=before, minimum=least)
    minimum = Line(Section.MINIMUM, "minimum_charge", "Up to the minimum charge", least, None, short)
    net = total("price before tax", [before, short], unit="dollar")
    tax = _share(Section.SALES_TAX, "sales_tax", "Tax charged on the price", [net], basis)
    price = total("price", [net, tax.amount], unit="dollar")
    return Totals(worked, cost, price, (*loads, profit, minimum, tax))


def _purchase_tax(bought: Sequence[Figure], basis: Basis) -> list[Line]:
    return [_share(Section.PURCHASE_TAX, "purchase_tax", "Tax paid on what is bought", bought, basis)] if bought else []


def _overhead(hours: Figure, basis: Basis) -> Line:
    rate = basis.figure("business", "overhead")
    amount = work(labor.overhead_cost, "overhead", hours=hours, overhead=rate)
    return Line(Section.OVERHEAD, "overhead", "Overhead", hours, rate, amount)


def _share(section: Section, key: str, title: str, of: Sequence[Figure], basis: Basis) -> Line:
    base = total(f"{title}: base", of, unit="dollar") if len(of) > 1 else of[0]
    share = basis.figure("business", key)
    return Line(section, key, title, base, share, work(pricing.share_of, title, amount=base, share=share))
