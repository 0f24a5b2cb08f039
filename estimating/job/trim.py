"""Trim by length, doors, windows and closets, as they are noted for painting."""

from __future__ import annotations

from enum import StrEnum

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.surfaces import SurfaceNotes
from estimating.job.values import Length, Listed, Notes, Whole


class TrimKind(StrEnum):
    """Trim that goes by length."""

    BASE = "base"
    CROWN = "crown"
    CASING = "casing"
    CHAIR_RAIL = "chair rail"
    SHOE = "shoe"


class TrimRun(Notes):
    """One kind of trim; a length nobody measured follows from the room and its openings."""

    kind: TrimKind
    length: Length | None = None


class DoorKind(StrEnum):
    """How a door is made."""

    FLUSH = "flush"
    PANEL = "panel"
    GLAZED = "glazed"
    LOUVERED = "louvered"
    BIFOLD = "bifold"


class PaintedDoor(Notes):
    """Doors alike: kind, size, and how many sides of each are painted from this room's price."""

    kind: DoorKind
    width: Length | None = None
    height: Length | None = None
    sides: Whole | None = None
    count: Whole = 1

    @model_validator(mode="after")
    def _has_sides(self) -> PaintedDoor:
        if self.sides not in (None, 1, 2):
            raise InputError("sides", self.sides, "1 or 2 sides, or unknown")
        return self


class WindowKind(StrEnum):
    """How a window is made."""

    SINGLE = "single"
    DOUBLE_HUNG = "double hung"
    DIVIDED = "divided"
    CASEMENT = "casement"


class PaintedWindow(Notes):
    """Windows alike whose sash and frame are painted on the inside."""

    kind: WindowKind
    width: Length | None = None
    height: Length | None = None
    count: Whole = 1


class Trim(SurfaceNotes):
    """Trim by length, doors and windows, all in one color."""

    runs: Listed[TrimRun] | None = None
    doors: Listed[PaintedDoor] | None = None
    door_frames: Whole | None = None
    windows: Listed[PaintedWindow] | None = None


class ClosetSize(StrEnum):
    """Whether one can walk into a closet."""

    SMALL = "small"
    WALK_IN = "walk-in"


class Closet(Notes):
    """Closets alike, painted inside as the walls are."""

    size: ClosetSize
    count: Whole = 1
