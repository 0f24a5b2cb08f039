"""What the contractor puts on paper beside the price. What is left unknown takes the usual wording."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from pydantic import PlainSerializer, PlainValidator

from estimating.errors import InputError
from estimating.job.values import Answer, Notes, Whole
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


class Terms(Notes):
    """Parties, dates and wording of the papers. Sentences are separated by semicolons; `none` leaves a part empty."""

    contractor: str | None = None
    contractor_contact: str | None = None
    license: str | None = None
    dated: Date | None = None
    validity_days: Whole | None = None
    start_earliest: Date | None = None
    start_latest: Date | None = None
    working_hours: str | None = None
    furniture: str | None = None  # who moves it
    exclusions: str | None = None
    allowances: str | None = None
    mended_square_feet: Whole | None = None  # how much of what comes down the price puts right
    acceptance: str | None = None
    change_rate: Hourly | None = None
    payment: str | None = None
    warranty: str | None = None
    show_range: Answer | None = None  # may the client see the range of the price
