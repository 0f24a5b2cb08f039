"""An interior repaint of one room: which surfaces are in, what state they are in, and what they are to become."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.ceiling import Stain, Substrate
from estimating.job.values import Answer, Length, Listed, Notes, Whole


class Change(StrEnum):
    """How far the new color is from the old, as it looks on site."""

    SAME = "same color"
    NEAR = "near"
    STRONG = "strong"


class Sheen(StrEnum):
    """How the old paint shines."""

    FLAT = "flat"
    EGGSHELL = "eggshell"
    SATIN = "satin"
    SEMI_GLOSS = "semi-gloss"
    GLOSS = "gloss"


class Condition(StrEnum):
    """How the old paint holds."""

    SOUND = "sound"
    WORN = "worn"
    FAILING = "failing"


class Washing(StrEnum):
    """How dirty the old paint is."""

    CLEAN = "clean"
    ORDINARY_DIRT = "ordinary dirt"
    GREASE = "grease"


class WallTexture(StrEnum):
    """What a wall or a plain ceiling feels like. Popcorn is a piece of work of its own."""

    SMOOTH = "smooth"
    ORANGE_PEEL = "orange peel"
    SKIP_TROWEL = "skip trowel"
    KNOCKDOWN = "knockdown"


class Coloring(Notes):
    """A color now, a color wanted, and the coats asked for; without a number of coats the change decides."""

    color_now: str | None = None
    color_wanted: str | None = None
    change: Change | None = None
    deep_base: Answer | None = None  # a strong color mixed from a clear or deep base
    coats: Whole | None = None

    @model_validator(mode="after")
    def _is_coated(self) -> Coloring:
        if self.coats == 0:
            raise InputError(
                "coats", self.coats, "1 coat or more, or unknown; a surface that is left alone is not painted"
            )
        return self


class SurfaceNotes(Coloring):
    """One kind of surface in the room, all of it."""

    painted: Answer | None = None  # is it in the price
    sheen_now: Sheen | None = None
    condition: Condition | None = None
    washing: Washing | None = None


class AccentWall(Coloring):
    """A wall, or a run of walls, in a color of its own."""

    name: str
    length: Length


class Plain(SurfaceNotes):
    """Walls, or a ceiling whose texture nobody doubts."""

    substrate: Substrate | None = None
    texture: WallTexture | None = None


class Walls(Plain):
    """The walls, with those in another color named."""

    accents: Listed[AccentWall] = ()


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


class Repairs(Notes):
    """What has to be mended first: counts by size, cracks in feet."""

    nail_pops: Whole | None = None
    small_patches: Whole | None = None  # to 2 in
    medium_patches: Whole | None = None  # 2 to 6 in
    large_patches: Whole | None = None  # 6 to 12 in
    hairline_crack_feet: Whole | None = None
    taped_crack_feet: Whole | None = None


class Removals(Notes):
    """What is taken down before and put back after."""

    plates: Whole | None = None
    blinds: Whole | None = None
    pictures: Whole | None = None


class InteriorRepaint(Notes):
    """The site notes of one room to be repainted."""

    kind: Literal["interior_repaint"] = "interior_repaint"
    room: str
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
