"""The contractor's own lines as a plan: they share days, orders, price and ranges with all other work."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.estimate.pricing.lines import Section
from estimating.estimate.pricing.plan import Charge, Phase, Plan, Risk, Supply, Task
from estimating.figures import Figure, leaf, work
from estimating.job.extra import Extra, ExtraKind
from estimating.job.model import Job
from estimating.job.values import Answer
from estimating.origins import Kind, Origin
from estimating.trade import ordering

SCOPE = "also included"
CHARGED = {
    ExtraKind.EQUIPMENT: Section.EQUIPMENT,
    ExtraKind.SUBCONTRACT: Section.SUBCONTRACT,
    ExtraKind.FEE: Section.FEE,
}


def own_lines(job: Job) -> Plan:
    """Return the plan of a job's own lines; empty where it has none."""
    numbered = list(enumerate(job.extra))
    return Plan(
        SCOPE,
        "own",
        "As noted",
        tasks=tuple(_task(place, each, job) for place, each in numbered if each.kind is ExtraKind.LABOR),
        supplies=tuple(_supply(place, each) for place, each in numbered if each.kind is ExtraKind.MATERIALS),
        charges=tuple(_charge(place, each) for place, each in numbered if each.kind in CHARGED),
        risks=tuple(_allowance(place, each) for place, each in numbered if each.kind is ExtraKind.ALLOWANCE),
    )


def with_own_lines(plans: Sequence[Plan], job: Job) -> Sequence[Plan]:
    """Return plans with the own lines of the job, which come with any work at all."""
    return (*plans, own_lines(job)) if job.extra and any(plan.tasks for plan in plans) else plans


def key_of(place: int) -> str:
    """Return the key of the line that stands in this place among the own lines."""
    return f"own_line_{place + 1}"


def untaxed_keys(job: Job) -> frozenset[str]:
    """Return the keys of the own lines on which no sales tax is charged."""
    return frozenset(key_of(place) for place, each in enumerate(job.extra) if each.taxed is Answer.NO)


def place_of(key: str, job: Job) -> tuple[str, str] | None:
    """Return the room and the text of an own line; None for any other line."""
    return next(((each.room or "", each.text) for place, each in enumerate(job.extra) if key_of(place) == key), None)


def _figure(place: int, extra: Extra, field: str, value: float, unit: str) -> Figure:
    where = f"extra[{place}] · {field}"
    low, high = (extra.low, extra.high) if field == ("quantity" if extra.each is None else "each") else (None, None)
    return leaf(extra.text, value, unit, Origin(Kind.ENTERED, place=where), low=low, high=high, key=where)


def _quantity(place: int, extra: Extra) -> Figure:
    return _figure(place, extra, "quantity", extra.quantity, "dimensionless")


def _each(place: int, extra: Extra) -> Figure:
    return _figure(place, extra, "each", extra.each or 0.0, "dollar")


def titled(extra: Extra) -> str:
    """Return an own line in words, with its unit where it goes by one."""
    return extra.text if extra.unit in ("", "each") else f"{extra.text}, by the {extra.unit}"


def _task(place: int, extra: Extra, job: Job) -> Task:
    hours = _figure(place, extra, "quantity", extra.quantity, "hour")
    return Task(
        key_of(place), extra.text, Phase.FINISH, hours, room=extra.room or job.rooms[0].name, surface=extra.text
    )


def _supply(place: int, extra: Extra) -> Supply:
    return Supply(key_of(place), titled(extra), _quantity(place, extra), None, _each(place, extra), chosen=True)


def _charge(place: int, extra: Extra) -> Charge:
    section = CHARGED[extra.kind]
    return Charge(key_of(place), titled(extra), _quantity(place, extra), _each(place, extra), section=section)


def _allowance(place: int, extra: Extra) -> Risk:
    quantity, each = _quantity(place, extra), _each(place, extra)
    cost = work(ordering.count_cost, extra.text, count=quantity, price=each)
    return Risk(key_of(place), titled(extra), quantity, each, cost)
