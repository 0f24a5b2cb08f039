"""What the contractor puts in writing beside the price. What is left unknown takes the usual wording."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import PlainSerializer, PlainValidator, model_validator

from estimating.errors import InputError
from estimating.job.extra import Discount
from estimating.job.surfaces import Preparation
from estimating.job.values import Answer, Listed, Notes, Percent, Whole
from estimating.units import Reading, read_quantity


def _date(given: object) -> str:
    try:
        return date.fromisoformat(str(given).strip()).isoformat()
    except ValueError:
        raise InputError("", given, "a date such as 2026-05-04, or unknown") from None


def _hourly(given: object) -> Reading:
    if isinstance(given, Reading):
        return given
    typed = str(given).strip()
    amount = typed.removeprefix("$").removesuffix("/h").strip()
    unit = "" if any(sign.isalpha() for sign in amount) else " dollar/hour"
    return Reading(typed, read_quantity(f"{amount}{unit}", "dollar/hour").value, "dollar/hour")


def _as_typed(reading: Reading) -> str:
    return reading.text


Date = Annotated[str, PlainValidator(_date)]
Hourly = Annotated[Reading, PlainValidator(_hourly), PlainSerializer(_as_typed)]


class Pricing(StrEnum):
    """What the client agrees to pay."""

    FIXED = "fixed price"
    TIME_AND_MATERIALS = "time and materials"


class Stage(Notes):
    """A payment on the way: when it falls due, and its share of the price. The last one takes what is left."""

    when: str
    percent: Percent


class Terms(Notes):
    """Parties, dates and wording of the documents. Sentences go apart by semicolons; `none` leaves a part empty."""

    contractor: str | None = None
    contractor_address: str | None = None
    contractor_contact: str | None = None
    license: str | None = None
    logo: str | None = None  # a PNG, JPEG or SVG file; beside the job file where no folder is named
    number: str | None = None  # of the proposal; its date where there is none
    dated: Date | None = None
    validity_days: Whole | None = None
    start_earliest: Date | None = None
    start_latest: Date | None = None
    working_hours: str | None = None
    preparation: Preparation | None = None  # agreed for every surface that is not told another
    furniture: str | None = None  # who moves it
    exclusions: str | None = None
    allowances: str | None = None
    mended_square_feet: Whole | None = None  # how much of what comes down the price puts right
    acceptance: str | None = None
    pricing: Pricing | None = None
    not_to_exceed: Whole | None = None  # whole dollars, for time and materials
    change_rate: Hourly | None = None
    discount: Discount | None = None  # off the price before sales tax: 5 % or $200
    round_up_to: Whole | None = None  # whole dollars: 5 makes $1,982.04 into $1,985.00
    client_supplies: Listed[str] | None = None  # paint by its name in the price list, such as wall_paint
    payment: str | None = None
    stages: Listed[Stage] | None = None
    warranty: str | None = None
    show_range: Answer | None = None  # is the client told that the price is fixed, whatever the work costs

    @model_validator(mode="after")
    def _stages_are_the_price(self) -> Terms:
        shares = [stage.percent for stage in self.stages or ()]
        if shares and abs(sum(shares) - 100) > 1e-6:
            raise InputError("stages", f"{sum(shares):g} %", "shares that add up to 100 %")
        return self
