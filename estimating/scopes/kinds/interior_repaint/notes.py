"""An interior repaint of one room: which surfaces are in, what state they are in, and what they are to become."""

from __future__ import annotations

from typing import ClassVar, Literal

from estimating.job.model import Claim, RoomPart, WorkNotes
from estimating.job.repairs import Removals, Repairs
from estimating.job.surfaces import Coloring, Plain, Preparation, Stain
from estimating.job.trim import Closet, Trim
from estimating.job.values import Answer, Length, Listed, Whole


class AccentWall(Coloring):
    """A wall, or a run of walls, in a color of its own."""

    name: str
    length: Length


class Walls(Plain):
    """The walls, with those in another color named."""

    accents: Listed[AccentWall] = ()
    covered_walls_too: Answer | None = None  # paint the walls, too, that another work item covers


class InteriorRepaint(WorkNotes):
    """The site notes of one room to be repainted."""

    kind: Literal["interior_repaint"] = "interior_repaint"
    preparation: Preparation | None = None  # of every surface here that is not told another
    walls: Walls = Walls()
    ceiling: Plain = Plain()
    trim: Trim = Trim()
    closets: Listed[Closet] | None = None
    repairs: Repairs = Repairs()
    caulk_feet: Whole | None = None
    removals: Removals = Removals()
    stains: Listed[Stain] | None = None
    over_stairs_feet: Whole | None = None  # length of wall that stands over a stair
    method: str | None = None

    ONCE_A_ROOM: ClassVar[bool] = True

    def claims(self) -> tuple[Claim, ...]:
        """Return the surfaces that are painted: walls unless the notes say no, the rest where they say yes."""
        walls = [RoomPart.WALLS] if self.walls.painted is not Answer.NO else []
        others = ((RoomPart.CEILING, self.ceiling), (RoomPart.TRIM, self.trim))
        painted = [*walls, *(part for part, surface in others if surface.painted is Answer.YES)]
        return tuple(Claim(part, field=f"{part} · painted") for part in painted)
