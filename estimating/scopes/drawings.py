"""What a kind of work can have drawn: shapes in feet with their words, and nothing of how they are painted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from estimating.estimate.pricing.plan import Phase, Plan
from estimating.figures import Figure
from estimating.trade import spraying


@dataclass(frozen=True)
class CeilingPlan:
    """The ceiling of a room seen from below, with the lanes of the gun where it is sprayed."""

    room: str
    lanes: Figure | None = None  # how far the strokes lie apart


@dataclass(frozen=True)
class Patch:
    """A rectangle on a wall (ft), from its left end and its lower edge, with the words that stand on it."""

    left: float
    right: float
    bottom: float
    top: float
    words: str = ""
    shaded: bool = False


@dataclass(frozen=True)
class Elevation:
    """One wall faced squarely (ft): the pieces put on it, its openings and the seams between the pieces."""

    title: str
    name: str
    width: float
    height: float
    pieces: tuple[Patch, ...] = ()
    openings: tuple[Patch, ...] = ()
    seams: tuple[float, ...] = ()
    legend: str = ""


Drawing: TypeAlias = CeilingPlan | Elevation


def coated_ceilings(plan: Plan) -> tuple[CeilingPlan, ...]:
    """Return the ceiling of each room that a plan coats."""
    lanes = next((figure for figure in plan.figures if figure.rule is spraying.pass_spacing), None)
    rooms = dict.fromkeys(task.room for task in plan.tasks if task.phase is Phase.CEILING and task.room)
    return tuple(CeilingPlan(room, lanes) for room in rooms)
