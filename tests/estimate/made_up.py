"""Plans and prices so round that an estimate made of them can be worked out with a pencil."""

from __future__ import annotations

from typing import Any

from estimating.estimate.pricing.plan import Charge, Material, Phase, Plan, Supply, Task
from estimating.evidence import Basis, OwnValue, load_library
from estimating.figures import Figure, leaf
from estimating.job.model import Job
from estimating.origins import Kind, Origin
from estimating.workbook import build_job

MADE_UP = Origin(Kind.INVENTED)
ROUND = {
    "business/wage": (20.0, "dollar/hour"),
    "business/burden": (50.0, "percent"),  # so 30 dollars an hour
    "business/overhead": (10.0, "dollar/hour"),
    "business/markup": (25.0, "percent"),
    "business/purchase_tax": (10.0, "percent"),
    "business/sales_tax": (0.0, "percent"),
    "business/minimum_charge": (0.0, "dollar"),
    "business/methods_tie": (0.0, "percent"),
    "business/day_length": (8.5, "hour"),
    "business/overtime": (0.5, "hour"),
    "business/longest_wait": (2.0, "hour"),
    "business/rooms_open": (3.0, "dimensionless"),
    "production/daily_start/any/any": (0.5, "hour"),  # for one person: 8 hours left of the day
    "production/mobilize/any/any": (1.0, "hour"),
    "production/final_walk/any/any": (0.5, "hour"),
    "prices/ceiling_flat/quart": (12.0, "dollar"),
    "prices/ceiling_flat/gallon": (30.0, "dollar"),
    "prices/ceiling_flat/five": (120.0, "dollar"),
}


def round_basis(**changed: float) -> Basis:
    """Return assumptions that are round and fixed; those named (by the last word of their address) as given."""
    values = {key: (changed.get(key.split("/")[1], value), unit) for key, (value, unit) in ROUND.items()}
    own = {key: OwnValue(value, unit, value, value) for key, (value, unit) in values.items()}
    return Basis(load_library(), own)


def small_job(people: int = 1, **site: Any) -> Job:
    """Return a job that says nothing but how many work on it, and what is given of its site."""
    return build_job(
        {
            "title": "made up",
            "crew": {"people": people},
            "site": site,
            "rooms": [{"name": "hall", "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}}],
            "work": [{"kind": "textured_ceiling", "room": "hall", "texture": "popcorn"}],
        }
    )


def made(value: float, unit: str = "hour", low: float | None = None, high: float | None = None) -> Figure:
    """Return a figure that nobody measured."""
    return leaf("made up", value, unit, MADE_UP, low=low, high=high)


def task(key: str, hours: float, phase: Phase = Phase.CEILING, wait: float | None = None, share_key: str = "") -> Task:
    """Return a task in the hall; `wait` is in hours."""
    return Task(key, key, phase, made(hours), "hall", made(wait) if wait is not None else None, share_key=share_key)


def paint(gallons: float, color: str = "white", purpose: str = "a coat") -> Material:
    """Return so much ceiling paint."""
    return Material("ceiling_flat", "Ceiling flat", made(gallons, "gallon"), purpose, color)


def tape(feet: float, roll: float = 180.0, price: float = 5.0) -> Supply:
    """Return so much tape, by the roll."""
    return Supply("tape", "Tape", made(feet, "ft"), made(roll, "ft"), made(price, "dollar"))


def masks(count: float, price: float = 4.0) -> Supply:
    """Return so many masks, bought singly."""
    return Supply("mask", "Masks", made(count, "dimensionless"), None, made(price, "dollar"))


def charge(key: str, price: float, quantity: float = 1.0, share_key: str = "", machine: str = "") -> Charge:
    """Return something that is paid for by the piece or the day."""
    return Charge(key, key, made(quantity, "dimensionless"), made(price, "dollar"), share_key, machine)


def plan(*tasks: Task, **parts: Any) -> Plan:
    """Return a plan of work in the hall."""
    return Plan("ceiling, hall", "roll", "Roll", tasks=tasks, **parts)
