"""Lines of the contractor's own: whatever the form has no field for, by the hour, by the piece or as a lump sum."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field, FiniteFloat, PlainSerializer, PlainValidator, model_validator

from estimating.errors import InputError
from estimating.job.values import Answer, Notes
from estimating.units import Reading, read_quantity


class ExtraKind(StrEnum):
    """Where in the price an own line stands."""

    LABOR = "labor"  # its quantity is hours, at the wage of the job
    MATERIALS = "materials"
    EQUIPMENT = "equipment"
    SUBCONTRACT = "subcontract"
    FEE = "fee"
    ALLOWANCE = "allowance"


Positive = Annotated[FiniteFloat, Field(ge=0)]


class Extra(Notes):
    """A line of the contractor's own. low and high: of the hours of labor, else of the dollars each."""

    text: str
    kind: ExtraKind
    room: str | None = None
    quantity: Positive = 1.0
    unit: str = "each"
    each: Positive | None = None  # dollars a unit, or the whole of a lump sum; none for labor
    low: Positive | None = None
    high: Positive | None = None
    taxed: Answer = Answer.YES  # is sales tax charged on it

    @model_validator(mode="after")
    def _has_a_price(self) -> Extra:
        if (self.each is None) != (self.kind is ExtraKind.LABOR):
            needed = "no dollars: its hours are paid at the wage" if self.kind is ExtraKind.LABOR else "dollars each"
            raise InputError("each", self.each, needed)
        likely = self.quantity if self.each is None else self.each
        low, high = (likely if end is None else end for end in (self.low, self.high))
        if not low <= likely <= high:
            raise InputError("low", (low, likely, high), "low ≤ likely ≤ high")
        return self


def _discount(given: object) -> Reading:
    if isinstance(given, Reading):
        return given
    text = str(given).strip()
    if text.endswith("%"):
        reading = Reading(text, read_quantity(f"{text[:-1].strip()} percent", "percent").value, "percent")
    else:
        reading = Reading(text, read_quantity(f"{text.removeprefix('$').strip()} dollar", "dollar").value, "dollar")
    if reading.value < 0 or (reading.unit == "percent" and reading.value > 100):
        raise InputError("", given, "a discount such as 5 % or $200")
    return reading


def _as_typed(reading: Reading) -> str:
    return reading.text


Discount = Annotated[Reading, PlainValidator(_discount), PlainSerializer(_as_typed)]
