"""What a painter stands on, by the height of the work and by what is under it, and what that takes."""

from __future__ import annotations

from enum import StrEnum

from estimating.estimate.pricing.plan import Charge, Phase, Task
from estimating.evidence import Basis
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.work_area import with_share_key

STEPS, PLANKS = 9.0, 12.0  # ft: to here from a step ladder, to there from a plank between two
REACH = 7.0  # ft: what is reached from where the feet are, as a rule of thumb


class Footing(StrEnum):
    """What is stood on."""

    FLOOR = "floor"
    STEP_LADDER = "step ladder"
    PLANK = "plank between step ladders"
    SCAFFOLD = "rolling scaffold"
    EXTENSION_LADDER = "extension ladder and plank"


def footing(facts: Facts) -> Footing:
    """Return what is stood on for the highest part of a plan: an extension ladder only over a stair or outside."""
    top = facts.exposure.top
    if not facts.exposure.worked or top is None:
        return Footing.FLOOR
    if facts.exposure.over_stairs or (facts.exposure.outside and top.value > STEPS):
        return Footing.EXTENSION_LADDER
    if top.value <= REACH:
        return Footing.FLOOR
    if top.value <= STEPS:
        return Footing.STEP_LADDER
    return Footing.PLANK if top.value <= PLANKS else Footing.SCAFFOLD


def feet_at(facts: Facts) -> float:
    """Return how high the feet are at the highest work (ft); 0 where everything is reached from the floor."""
    top = facts.exposure.top
    return max(float(top.value) - REACH, 0.0) if top is not None and facts.exposure.worked else 0.0


def falls_far(facts: Facts, basis: Basis) -> bool:
    """Say whether somebody stands so high that a fall is more than off a step: over a stair always."""
    least = basis.library.row("cautions", "work_height").likely
    return facts.exposure.worked and (facts.exposure.over_stairs or feet_at(facts) >= least)


SET_UP = {
    Footing.PLANK: ("set_plank", "Set up step ladders and plank"),
    Footing.EXTENSION_LADDER: ("set_plank", "Set up ladder and plank over the stair"),
    Footing.SCAFFOLD: ("set_scaffold", "Set up the rolling scaffold and take it down"),
}


def set_up(facts: Facts) -> tuple[Task, ...]:
    """Return setting up what is stood on in a room and taking it away; a step ladder alone is no line."""
    area, stood = facts.work_area, footing(facts)
    if stood not in SET_UP:
        return ()
    row, title = SET_UP[stood]
    task = area.by_hours(row, title, Phase.PROTECT, row, "hand", "any")
    return (with_share_key(task, f"{row}, {area.room.room.name}"),)


def hire(facts: Facts) -> tuple[Charge, ...]:
    """Return the hire of a scaffold, for the days its work area would take by itself; ladders and planks are owned."""
    if footing(facts) is not Footing.SCAFFOLD:
        return ()
    return (facts.work_area.by_day_here("equipment_scaffold", "Rolling scaffold, a day", "scaffold"),)
