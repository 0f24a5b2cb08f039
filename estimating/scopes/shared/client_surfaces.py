"""Which surface a task and a coat of paint belong to, so that a surface has its own price and its own row."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from estimating.estimate.pricing.plan import Plan


def with_surfaces(plan: Plan, of_task: Callable[[str], str], of_paint: Callable[[str], str]) -> Plan:
    """Return the plan with a surface on each task and paint; blank where it serves the whole room.

    of_task: from the key of a task. of_paint: from the purpose of a material.
    """
    return replace(
        plan,
        tasks=tuple(replace(each, surface=of_task(each.key)) for each in plan.tasks),
        materials=tuple(replace(each, surface=of_paint(each.purpose) if each.room else "") for each in plan.materials),
    )


def on_one_surface(plan: Plan, name: str) -> Plan:
    """Return the plan of work that is all on one surface; primer that goes on stains alone is no coat of it."""
    return with_surfaces(plan, lambda key: name, lambda purpose: "" if "stains" in purpose else name)
