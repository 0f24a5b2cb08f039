"""Walls of a room that another work item of the job covers: they are not painted as well unless the notes say so."""

from __future__ import annotations

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.job.model import Claim, RoomPart
from estimating.job.room import OpeningKind
from estimating.origins import Kind, Origin
from estimating.scopes.shared.measure import CoveredWall, true_length
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import measuring
from estimating.units import Reading

LEAST_LEFT = 0.02  # of the walls: where less is left beside what is covered, nothing is meant to be painted


def covered_walls(work_area: WorkArea) -> tuple[CoveredWall, ...]:
    """Return the walls of this room that a work item of the job has claimed by name.

    Raises InputError where they leave no wall to speak of.
    """
    name = work_area.room.room.name
    claims = [claim for item in work_area.job.work if item.room == name for claim in item.claims()]
    found = tuple(
        _covered(claim, claim.width, work_area)
        for claim in claims
        if claim.part is RoomPart.WALLS and claim.width is not None
    )
    gone = sum(each.area.value for each in found) + _open(work_area)
    if found and gone > (1 - LEAST_LEFT) * work_area.room.walls.value:
        needed = "no: another work item covers every wall of this room"
        raise InputError(f'work "{name}" · walls · painted', "yes", needed)
    return found


def _open(work_area: WorkArea) -> float:
    openings = work_area.room.openings
    return sum(area.value for opening, area in openings if opening.kind is not OpeningKind.SKYLIGHT)


def _covered(claim: Claim, reading: Reading, work_area: WorkArea) -> CoveredWall:
    where = f'work "{work_area.room.room.name}" · {claim.wall}'
    width = true_length(work_area, reading, f"{claim.wall}, width", f"{where} · width")
    height = work_area.room.height
    if claim.height is not None:
        height = true_length(work_area, claim.height, f"{claim.wall}, height", f"{where} · height")
    whole = work(measuring.rectangle_area, f"{claim.wall}, whole", length=width, width=height)
    origin = Origin(Kind.MEASURED, place=f"{where} · openings")
    holes = leaf(f"{claim.wall}, openings", min(claim.openings, whole.value), "ft**2", origin)
    area = work(measuring.net_area, f"{claim.wall}, covered", gross_area=whole, deductions=holes)
    return CoveredWall(width if claim.height is None else None, area)
