"""From what the work costs to the price: tax on what is bought, overhead, profit, the least charge and sales tax.

Every rule of a price stands here or in order.py, once. build_up applies them to the figures of one job, line by line;
the engine has them standing, as trees with room for a few numbers, to price one job a hundred times over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from estimating.estimate.pricing.lines import Line, Section, sum_of
from estimating.estimate.pricing.plan import Charge, Task
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, total, work
from estimating.job.model import Job
from estimating.origins import Kind, Origin, definition
from estimating.trade import labor as labor
from estimating.trade import ordering, pricing

CENTS = definition("each line is rounded to the cent once")


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
    return Line(charge.section, charge.key, charge.title, quantity, charge.price, amount)


def add_up_price(
    hours: Sequence[Figure],
    direct: Sequence[Figure],
    bought: Sequence[Figure],
    basis: Basis,
    *,
    discount: Figure | None = None,
    untaxed: Sequence[Figure] = (),
) -> Totals:
    """Return the totals of a job, but for the rounding of its price.

    hours: of all labor. direct: the amounts of all labor, paint, supplies, equipment and allowances. bought: those
    among them that purchase tax is paid on; untaxed: those that are sold without sales tax. discount: a share of the
    price before tax, or dollars off it.
    """
    worked = total("labor hours", hours, unit="hour")
    loads = [*_purchase_tax(bought, basis), _overhead(worked, basis)]
    cost = total("cost", [*direct, *(line.amount for line in loads)], unit="dollar")
    profit = _share(Section.PROFIT, "markup", "Profit, as markup on cost", [cost], basis)
    before = total("cost and profit", [cost, profit.amount], unit="dollar")
    minimum = _minimum(before, worked, basis)
    net = total("price before tax", [before, minimum.amount], unit="dollar")
    less = [_discount(net, discount)] if discount else []
    net = total("price after discount", [net, less[0].amount], unit="dollar") if less else net
    tax = _share(Section.SALES_TAX, "sales_tax", "Tax charged on the price", [_taxable(net, untaxed, basis)], basis)
    price = total("price", [net, tax.amount], unit="dollar")
    return Totals(worked, cost, price, (*loads, profit, minimum, *less, tax))


def _minimum(price: Figure, hours: Figure, basis: Basis) -> Line:
    """Return what a small job is short of the minimum charge or of half a day, whichever is more."""
    charge = basis.figure("business", "minimum_charge")
    hourly = work(
        pricing.hourly_price,
        "hour of labor at the price",
        loaded_wage=loaded_wage(basis),
        overhead=basis.figure("business", "overhead"),
        markup=basis.figure("business", "markup"),
    )
    least = work(
        pricing.least_price,
        "least of a job",
        price=price,
        minimum=charge,
        hours=hours,
        least_hours=basis.figure("business", "minimum_hours"),
        hourly=hourly,
    )
    short = work(pricing.minimum_top_up, "up to the minimum charge", price=price, minimum=least)
    return Line(Section.MINIMUM, "minimum_charge", "Up to the minimum charge", charge, None, short)


def to_the_cent(lines: Sequence[Line]) -> list[Line]:
    """Return lines with the one that lifts a small job to its minimum such that they come to it, each rounded."""
    place = next(at for at, line in enumerate(lines) if line.section is Section.MINIMUM)
    minimum, before = lines[place], lines[:place]
    crumbs = float(sum_of(before)) - sum(line.amount.value for line in before)
    rounded = leaf("cents of the rounded lines", crumbs, "dollar", CENTS)
    amount = work(pricing.top_up_to_the_cent, "up to the minimum charge", top_up=minimum.amount, crumbs=rounded)
    settled = replace(minimum, amount=amount) if minimum.amount.value > 0 else minimum
    return [*before, settled, *lines[place + 1 :]]


def discount_of(job: Job) -> Figure | None:
    """Return the discount that the terms of a job give: a share, or dollars."""
    given, where = job.terms.discount, "terms · discount"
    return leaf("discount", given.value, given.unit, Origin(Kind.ENTERED, place=where), key=where) if given else None


def rounding(job: Job, price: Figure, lines: Sequence[Line]) -> list[Line]:
    """Return the line that rounds a price up as the terms say, to the cent; none where they do not."""
    step = job.terms.round_up_to
    if not step:
        return []
    where = "terms · round_up_to"
    to = leaf("whole dollars", float(step), "dollar", Origin(Kind.ENTERED, place=where), key=where)
    crumbs = leaf("cents of the rounded lines", float(sum_of(lines)) - price.value, "dollar", CENTS)
    amount = work(pricing.rounding_up, "rounding", price=price, crumbs=crumbs, step=to)
    return [Line(Section.ROUNDING, "rounding", "Rounding", to, None, amount)]


def _discount(net: Figure, discount: Figure) -> Line:
    off = pricing.share_off if discount.unit == "percent" else pricing.dollars_off
    amount = work(off, "discount", price=net, discount=discount)
    return Line(Section.DISCOUNT, "discount", "Discount", net, None, amount)


def _taxable(net: Figure, untaxed: Sequence[Figure], basis: Basis) -> Figure:
    if not untaxed:
        return net
    free = total("sold without sales tax, cost", untaxed, unit="dollar")
    return work(pricing.taxable, "taxable", price=net, untaxed=free, markup=basis.figure("business", "markup"))


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
