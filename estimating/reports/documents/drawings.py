"""The drawings of a job for a printed page: plans of ceilings, and walls piece by piece."""

from __future__ import annotations

import re
from collections.abc import Sequence

from estimating.estimate.pricing.plan import Phase
from estimating.reports.charts.room_drawing import ceiling_plan
from estimating.reports.charts.wall_drawing import wall_elevation
from estimating.reports.documents.content import Drawing
from estimating.reports.format import UnitSystem
from estimating.scopes.drawings import CeilingPlan, Elevation
from estimating.workbook import Outcome

_VARIABLE = re.compile(r"var\(--[\w-]+, ?(#[0-9a-fA-F]+)\)")


def printable(svg: str) -> str:
    """Return a drawing in the colors that stand in it: paper knows no theme."""
    return _VARIABLE.sub(r"\1", svg)


def drawings_by_room(outcome: Outcome, shown: UnitSystem) -> dict[str, list[Drawing]]:
    """Return the drawings of each room; under no name those that more than one room may be meant by.

    A ceiling is drawn where there is a gun to set up for it; for a roller its plan says nothing.
    """
    hung = [task.room for task in outcome.estimate.schedule.tasks if task.phase is Phase.FINISH and task.room]
    found: dict[str, list[Drawing]] = {}
    for each in outcome.drawings:
        if isinstance(each, CeilingPlan) and each.lanes:
            plan = ceiling_plan(outcome.job.room(each.room), each.lanes.value, shown)
            found.setdefault(each.room, []).append(Drawing(printable(plan), f"Plan of the ceiling, {each.room}"))
        elif isinstance(each, Elevation):
            wall = Drawing(printable(wall_elevation(each, shown)), each.title)
            found.setdefault(_only(list(dict.fromkeys(hung))), []).append(wall)
    return found


def _only(rooms: Sequence[str]) -> str:
    return rooms[0] if len(rooms) == 1 else ""
