"""No work goes over what is still wet: every kind and method, under every hazard fact, read off the plan's steps."""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hazard_table import LIBRARY, cases, demo

from estimating.estimate.pricing.arrange import Arranger
from estimating.estimate.pricing.plan import Phase, Plan, Task
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.scopes.registry import KINDS
from estimating.workbook import build_job

COAT = re.compile(r"(?:cut_)?(.+)_(\d+)")  # cutting in and what is rolled into it are one coat


def coat_of(task: Task) -> tuple[str, int]:
    """Return the surface and the coat of a task by its key; no coat where it is none."""
    found = COAT.fullmatch(task.key)
    return (found[1], int(found[2])) if found else (task.key, 0)


def goes_over(task: Task, wet: Task) -> bool:
    """Say whether a task goes over what another left wet: preparation, a primer, or an earlier coat there."""
    if not task.needs_dry:
        return False
    if wet.phase is Phase.PREPARE:
        return True
    (here, coat), (there, earlier) = coat_of(task), coat_of(wet)
    if wet.phase is Phase.PRIME and task.phase > Phase.PRIME:
        return True
    return here == there and coat > earlier


def too_wet(plan: Plan, job: Job, basis: Basis) -> Iterator[str]:
    """Yield what a plan does over something wet, by the steps of its rooms."""
    work = Arranger(job, basis).work([plan])
    for steps in work.rooms.values() if work else ():
        wet: list[Task] = []
        for step in steps:
            for task in step.all:
                yield from (f"{plan.method}: {task.key} over {each.key}" for each in wet if goes_over(task, each))
                wet += [task] if task.wet else []
            if step.wait.value > 0:
                wet = []


def faults(job: Job) -> set[str]:
    basis = Basis(LIBRARY)
    plans = (plan for item in job.work for plan in KINDS[item.kind].plans(item, job, basis))
    return {fault for plan in plans for fault in too_wet(plan, job, basis)}


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_no_method_of_any_kind_works_over_something_wet(kind: str) -> None:
    """In every case of the hazard table."""
    found: dict[str, str] = {}
    for case in cases():
        if case.kind == kind:
            found |= dict.fromkeys(faults(case.job), str(dict(case.facts)))
    assert not found


WASHED = ("clean", "ordinary dirt", "grease")
MENDED = ({"nail_pops": 9}, {"small_patches": 3}, {"large_patches": 2}, {"hairline_crack_feet": 12}, {})


@pytest.mark.parametrize("washing", WASHED)
@pytest.mark.parametrize("repairs", MENDED, ids=lambda each: "".join(each) or "none")
def test_washed_and_mended_rooms_dry_before_they_are_sanded_and_painted(washing: str, repairs: dict[str, int]) -> None:
    """Walls, ceiling and trim washed, and every kind of repair."""
    plain = copy.deepcopy(demo("interior_repaint"))
    for item in plain["work"]:
        item["repairs"] = repairs
        for surface in ("ceiling", "walls", "trim"):
            if surface in item:
                item[surface]["washing"] = washing
    assert not faults(build_job(plain))


def test_a_plan_without_its_waits_is_found_out() -> None:
    """The test sees what it looks for: the same plans with every wait taken out are full of faults."""
    for kind in sorted(KINDS):
        job, basis = build_job(demo(kind)), Basis(LIBRARY)
        plans = [plan for item in job.work for plan in KINDS[item.kind].plans(item, job, basis) if plan.tasks]
        hasty = [replace(plan, tasks=tuple(replace(task, wait=None) for task in plan.tasks)) for plan in plans]
        assert any(set(too_wet(plan, job, basis)) for plan in hasty), kind
