"""New drywall to be painted in one room: how far it is finished, how light falls on it, and what it is to become."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar, Literal

from estimating.job.model import Claim, RoomPart, WorkNotes
from estimating.job.surfaces import Coloring, Sheen
from estimating.job.values import Answer


class Level(StrEnum):
    """The level of gypsum board finish, as the trade counts it: from board without tape to a skim over all of it."""

    NONE = "level 0"
    TAPED = "level 1"
    ONE_COAT = "level 2"
    TWO_COATS = "level 3"
    THREE_COATS = "level 4"
    SKIMMED = "level 5"


class Light(StrEnum):
    """How light falls on the board."""

    EVEN = "even"
    RAKING = "raking"


class Board(Coloring):
    """Walls or ceiling of new board: whether they are painted, and how the finish shines."""

    painted: Answer | None = None
    sheen: Sheen | None = None


class NewDrywall(WorkNotes):
    """The site notes of new drywall in one room."""

    kind: Literal["new_drywall"] = "new_drywall"
    level: Level | None = None
    light: Light | None = None
    walls: Board = Board()
    ceiling: Board = Board()
    dry: Answer | None = None  # are board and compound dry

    ONCE_A_ROOM: ClassVar[bool] = True

    def claims(self) -> tuple[Claim, ...]:
        """Return the surfaces that are painted; both are unless the notes say no."""
        parts = ((RoomPart.CEILING, self.ceiling), (RoomPart.WALLS, self.walls))
        return tuple(Claim(part, field=f"{part} · painted") for part, board in parts if board.painted is not Answer.NO)
