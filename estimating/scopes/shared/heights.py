"""What a painter stands on, by the height of the work and by what is under it."""

from __future__ import annotations

from enum import StrEnum

from estimating.evidence import Basis
from estimating.scopes.shared.exposure import Facts

BANDS = (9.0, 12.0, 16.0)  # ft: the limits of the classes of height in the table of factors
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
    if facts.exposure.over_stairs or (facts.exposure.outside and top.value > BANDS[0]):
        return Footing.EXTENSION_LADDER
    if top.value <= REACH:
        return Footing.FLOOR
    by_band = (Footing.STEP_LADDER, Footing.PLANK)
    return next((each for each, limit in zip(by_band, BANDS, strict=False) if top.value <= limit), Footing.SCAFFOLD)


def feet_at(facts: Facts) -> float:
    """Return how high the feet are at the highest work (ft); 0 where everything is reached from the floor."""
    top = facts.exposure.top
    return max(float(top.value) - REACH, 0.0) if top is not None and facts.exposure.worked else 0.0


def falls_far(facts: Facts, basis: Basis) -> bool:
    """Say whether somebody stands so high that a fall is more than off a step: over a stair always."""
    least = basis.library.row("cautions", "work_height").likely
    return facts.exposure.worked and (facts.exposure.over_stairs or feet_at(facts) >= least)
