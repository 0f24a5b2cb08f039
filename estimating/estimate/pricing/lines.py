"""Lines of an estimate: each an amount of money with the quantity it is for, rounded once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from estimating.figures import Figure
from estimating.units import cents


class Section(StrEnum):
    """The parts of a price, in the order they are built up."""

    LABOR = "labor"
    PAINT = "paint"
    SUPPLIES = "supplies"
    EQUIPMENT = "equipment"
    SUBCONTRACT = "subcontract"
    FEE = "fees"
    ALLOWANCE = "allowance"
    PURCHASE_TAX = "purchase tax"
    OVERHEAD = "overhead"
    PROFIT = "profit"
    MINIMUM = "minimum charge"
    DISCOUNT = "discount"
    SALES_TAX = "sales tax"
    ROUNDING = "rounding"


GAIN = (Section.PROFIT, Section.MINIMUM, Section.DISCOUNT, Section.ROUNDING)  # between cost and price, tax apart


@dataclass(frozen=True)
class Line:
    """One row of the estimate. `amount` is in dollars and not rounded; `cost` is rounded to the cent."""

    section: Section
    key: str
    item: str
    quantity: Figure
    unit_cost: Figure | None
    amount: Figure
    room: str = ""
    detail: str = ""
    row: str = ""  # the address of the reference row that actuals of this line can correct; blank where there is none

    @property
    def cost(self) -> Decimal:
        """The likely amount, to the cent."""
        return cents(self.amount.value)


def sum_of(lines: Iterable[Line]) -> Decimal:
    """Return the total of the rounded lines."""
    return sum((line.cost for line in lines), Decimal("0.00"))
