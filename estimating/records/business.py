"""My business: what is typed once and used by every job, kept beside the records.

Rates and prices go into the contractor's own table, where every other figure of one's own stands; here is the rest:
who sends the documents, the usual terms and the usual house.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import tomli_w
from pydantic import ValidationError

from estimating.errors import InputError, InputErrors, RecordsError
from estimating.files import write_aside
from estimating.job.model import Job
from estimating.job.terms import Terms
from estimating.job.values import UNKNOWN, Length, Notes, Whole

FILE = "business.toml"
RATES = {  # rows of the own table that are asked for by name, in the words of the desk
    "wage": "Wage, $/h",
    "burden": "Payroll burden, %",
    "overhead": "Overhead, $ per labor hour",
    "day_length": "Day on site, hours",
    "markup": "Markup on cost, %",
    "minimum_charge": "Least a job costs, $",
    "minimum_hours": "Least hours a job is charged, such as half a day",
    "purchase_tax": "Tax on what you buy, %",
    "sales_tax": "Tax on the price, %",
}


class UsualHouse(Notes):
    """What is nearly always so. Every default is this project's judgment of an ordinary US house."""

    height: Length | None = None
    door_width: Length | None = None
    door_height: Length | None = None
    window_width: Length | None = None
    window_height: Length | None = None
    substrate: str | None = "gypsum board"
    texture: str | None = "smooth"
    sheen_now: str | None = "flat"
    condition: str | None = "sound"
    washing: str | None = "clean"
    floor: str | None = "carpet"
    furniture: str | None = "light"
    door_kind: str | None = "panel"
    window_kind: str | None = "double hung"


USUAL_LENGTHS = {
    "height": "8 ft",
    "door_width": "30 in",
    "door_height": "80 in",
    "window_width": "3 ft",
    "window_height": "4 ft",
}


class Business(Notes):
    """The business as its documents show it, and what its jobs begin with."""

    company: str | None = None
    address: str | None = None
    contact: str | None = None  # telephone, mail
    license: str | None = None
    logo: str | None = None  # a picture file
    people: Whole = 1  # in the crew, usually
    terms: Terms = Terms()
    house: UsualHouse = UsualHouse()


def business_file(records: Path) -> Path:
    """Return where the business is kept: beside the records file."""
    return records.parent / FILE


def read_business(records: Path) -> dict[str, Any]:
    """Return the business as plain values, with the usual where nothing was typed; RecordsError when unreadable."""
    path = business_file(records)
    try:
        held = tomllib.loads(path.read_text(encoding="utf-8")) if path.exists() else {}
        return plain_business(check_business(held))
    except (OSError, tomllib.TOMLDecodeError, InputErrors) as problem:
        raise RecordsError(f"{path}: cannot be read as your business ({problem})") from problem


def check_business(plain: Mapping[str, Any]) -> Business:
    """Return the business made of plain values; InputErrors lists every field that is wrong."""
    try:
        return Business.model_validate(plain)
    except ValidationError as problem:
        raise InputErrors([_refused(dict(error)) for error in problem.errors()]) from problem


def _refused(error: Mapping[str, Any]) -> InputError:
    raised = error.get("ctx", {}).get("error")
    place = tuple(error["loc"])
    needed = raised.needed if isinstance(raised, InputError) else error["msg"]
    return InputError(" · ".join(map(str, place)), error.get("input"), needed, place)


def plain_business(business: Business) -> dict[str, Any]:
    """Return the business as a form takes it; what is not typed is unknown, but a usual length stands."""
    plain: dict[str, Any] = _open(business.model_dump(mode="json"))
    plain["house"] = {
        name: USUAL_LENGTHS.get(name, value) if value == UNKNOWN else value for name, value in plain["house"].items()
    }
    return plain


def _open(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {name: _open(each) for name, each in value.items()}
    return UNKNOWN if value is None else value


def keep_business(records: Path, plain: Mapping[str, Any]) -> None:
    """Keep the business; InputErrors where a field is wrong, and what was kept stays."""
    check_business(plain)
    path = business_file(records)
    path.parent.mkdir(parents=True, exist_ok=True)
    write_aside(path, tomli_w.dumps(dict(plain)))


def is_known(business: Mapping[str, Any]) -> bool:
    """Say whether somebody has typed who sends the documents."""
    return str(business.get("company", UNKNOWN)).strip() not in ("", UNKNOWN)


def usual_job(business: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a new job begins with: crew and terms of the business, and who sends the documents."""
    sender = {
        "contractor": business["company"],
        "contractor_address": business["address"],
        "contractor_contact": business["contact"],
        "logo": business["logo"],
        "license": business["license"],
    }
    terms = {**dict.fromkeys(Terms.model_fields, UNKNOWN), **business["terms"], **sender}
    return {"crew": {**plain_crew(), "people": business["people"]}, "terms": terms}


def plain_crew() -> dict[str, Any]:
    """Return a crew as a new job begins with it."""
    crew: dict[str, Any] = Job.model_fields["crew"].default.model_dump(mode="json")
    return crew
