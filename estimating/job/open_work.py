"""Parts of decks, fences and railings as the tape finds them; sizes nobody measured are the usual ones."""

from __future__ import annotations

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.values import Answer, Length, Notes, Whole


class Boards(Notes):
    """The boards that are walked on, as large as the place is noted; sizes nobody measured are the usual ones."""

    coated: Answer | None = None
    width: Length | None = None
    gap: Length | None = None


class Railing(Notes):
    """A railing with upright balusters, by its length."""

    length: Length
    height: Length | None = None
    gap: Length | None = None  # between balusters


class Stair(Notes):
    """A stair by its steps; closed means that it has risers."""

    steps: Whole
    width: Length
    closed: Answer | None = None


class Lattice(Notes):
    """Lattice by its length and height, coated all round."""

    length: Length
    height: Length


class Fence(Notes):
    """A run of upright fence boards: tight ones, or pickets with a gap."""

    length: Length
    height: Length
    sides: Whole = 2
    gap: Length | None = None  # none where the boards stand tight
    width: Length | None = None

    @model_validator(mode="after")
    def _has_sides(self) -> Fence:
        if self.sides not in (1, 2):
            raise InputError("sides", self.sides, "1 or 2 sides")
        return self
