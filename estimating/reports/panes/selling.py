"""What each line of an estimate comes to at the price: its cost with overhead, profit and taxes on it.

A client sees these amounts and never what they are made of.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Line, Section
from estimating.units import cents

WORK = (
    Section.LABOR,
    Section.PAINT,
    Section.SUPPLIES,
    Section.EQUIPMENT,
    Section.SUBCONTRACT,
    Section.FEE,
    Section.ALLOWANCE,
)
BOUGHT = (Section.PAINT, Section.SUPPLIES)


@dataclass(frozen=True)
class Loading:
    """What goes on top of cost in one estimate."""

    overhead: float  # dollars a labor hour
    purchase_tax: float  # shares from here on
    markup: float
    sales_tax: float

    @property
    def factor(self) -> float:
        """What a dollar of cost is sold for."""
        return (1 + self.markup) * (1 + self.sales_tax)

    def sold(self, line: Line) -> float:
        """Return what a line of work comes to at the price (dollars)."""
        cost = line.amount.value
        if line.section in BOUGHT:
            cost *= 1 + self.purchase_tax
        if line.section is Section.LABOR:
            cost += self.overhead * line.quantity.value_in("hour")
        return cost * self.factor


def loading(estimate: Estimate) -> Loading:
    """Return what an estimate puts on top of its costs."""
    return Loading(
        overhead=_rate(estimate, Section.OVERHEAD, "dollar/hour"),
        purchase_tax=_rate(estimate, Section.PURCHASE_TAX, "dimensionless"),
        markup=_rate(estimate, Section.PROFIT, "dimensionless"),
        sales_tax=_rate(estimate, Section.SALES_TAX, "dimensionless"),
    )


def _rate(estimate: Estimate, section: Section, unit: str) -> float:
    found = [line.unit_cost for line in estimate.section(section) if line.unit_cost]
    return found[0].value_in(unit) if found else 0.0


def sold_lines(estimate: Estimate) -> Mapping[Line, Decimal]:
    """Return what each line of work comes to at the price, to the cent; minimum charge and rounding are not in it."""
    load = loading(estimate)
    return {line: cents(load.sold(line)) for line in estimate.lines if line.section in WORK}


def hourly_charge(estimate: Estimate) -> Decimal | None:
    """Return what an hour of labor is sold for in this estimate; None where there is no labor in it."""
    worked = [line for line in estimate.section(Section.LABOR) if line.quantity.value > 0]
    if not worked:
        return None
    load = loading(estimate)
    hours = sum(line.quantity.value_in("hour") for line in worked)
    return cents(sum(map(load.sold, worked)) / hours)
