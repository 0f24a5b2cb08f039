"""What a painter stands on, by the height of the work and by what is under it, and what that takes."""

from __future__ import annotations

from enum import StrEnum

from estimating.estimate.pricing.plan import Charge, Phase, Task
from estimating.evidence import Basis
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.work_area import with_crew_note, with_share_key
from estimating.trade import walls

STEPS, PLANKS = 9.0, 12.0  # ft: to here from a step ladder, to there from a plank between two
JACKS = 20.0  # ft: no plank on ladder jacks lies higher (R 408.10528 of one state); above it a scaffold
REACH = 7.0  # ft: what is reached from where the feet are, as a rule of thumb


GONE_OVER = Origin(Kind.DEFINITION, place="washing, preparation, primer and each coat")


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
    if facts.exposure.over_stairs:
        return Footing.EXTENSION_LADDER
    if facts.exposure.outside and top.value > STEPS:
        return Footing.EXTENSION_LADDER if feet_at(facts) <= JACKS else Footing.SCAFFOLD
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
    if facts.exposure.outside and stood is Footing.EXTENSION_LADDER:
        return (_moved(facts),)
    if stood not in SET_UP:
        return ()
    row, title = SET_UP[stood]
    task = area.by_hours(row, title, Phase.PROTECT, row, "hand", "any")
    return (with_share_key(task, f"{row}, {area.room.room.name}"),)


def _moved(facts: Facts) -> Task:
    """Return setting ladders along a wall, each time it is gone over, and taking them away."""
    area, exposure = facts.work_area, facts.exposure
    run = exposure.ground or area.room.perimeter
    passes = leaf("times the wall is gone over", float(exposure.passes), "dimensionless", GONE_OVER)
    reach = area.basis.figure("members", "ladder_set", "run")
    moves = work(walls.ladder_sets, "ladder sets", run=run, reach=reach, passes=passes)
    title = "Set ladders and planks, move them along, take them down"
    task = area.by_count("move_ladders", title, Phase.PROTECT, moves, "move_ladder", "hand", "any")
    note = "firm level footing, tied off; a plank on ladder jacks no higher than 20 ft, two people on it at most"
    return with_share_key(with_crew_note(task, note), f"ladders, {area.room.room.name}")


def hire(facts: Facts) -> tuple[Charge, ...]:
    """Return the hire of a scaffold, for the days its work area would take by itself; ladders and planks are owned."""
    if footing(facts) is not Footing.SCAFFOLD:
        return ()
    return (facts.work_area.by_day_here("equipment_scaffold", "Rolling scaffold, a day", "scaffold"),)
