"""The outside of a house to be repainted: its sides, what they are clad with, how the old paint holds, its trim."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar, Literal

from estimating.job.elevations import Edge, Side
from estimating.job.model import Claim, RoomPart, WorkNotes
from estimating.job.surfaces import Coloring
from estimating.job.trim import PaintedDoor, PaintedWindow
from estimating.job.values import Answer, Length, Listed, Percent, Whole


class Cladding(StrEnum):
    """What the walls are clad with."""

    LAP = "lap"
    BOARD_AND_BATTEN = "board and batten"
    SHINGLE = "shingle"
    PANEL = "panel"


class Ground(StrEnum):
    """What ladders stand on."""

    LEVEL = "level"
    SLOPING = "sloping"


class Walls(Coloring):
    """The siding: whether it is painted, and the part of it whose old paint is failing."""

    painted: Answer | None = None
    failing_percent: Percent | None = None
    chalky: Answer | None = None  # powder on a dark cloth


class OutsideTrim(Coloring):
    """Eaves, edges, doors and windows on the outside, all in one color."""

    painted: Answer | None = None
    failing_percent: Percent | None = None
    soffit_depth: Length | None = None
    edges: Listed[Edge] | None = None
    doors: Listed[PaintedDoor] | None = None
    door_frames: Whole | None = None
    windows: Listed[PaintedWindow] | None = None
    shutters: Whole | None = None


class ExteriorRepaint(WorkNotes):
    """The site notes of the outside of one house."""

    kind: Literal["exterior_repaint"] = "exterior_repaint"
    cladding: Cladding | None = None
    exposure: Length | None = None  # of one course of lap siding or shingles
    elevations: Listed[Side] | None = None  # without them the outline of the place times its height
    walls: Walls = Walls()
    trim: OutsideTrim = OutsideTrim()
    joints_feet: Whole | None = None  # open joints to caulk; without them those round doors and windows
    mildew: Answer | None = None
    moisture: Percent | None = None  # by the meter
    stands_on: Ground | None = None
    plants: Whole | None = None  # ground under shrubs and beds that is covered, ft²

    ONCE_A_ROOM: ClassVar[bool] = True

    def claims(self) -> tuple[Claim, ...]:
        """Return the surfaces that are painted; both are unless the notes say no."""
        parts = ((RoomPart.WALLS, self.walls), (RoomPart.TRIM, self.trim))
        return tuple(Claim(part, field=f"{part} · painted") for part, notes in parts if notes.painted is not Answer.NO)
