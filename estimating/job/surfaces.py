"""What a surface is made of, how its old paint holds, what is stained, and what color it is to become."""

from __future__ import annotations

from enum import StrEnum

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.values import Answer, Notes, Percent, Whole


class Substrate(StrEnum):
    """What the texture sits on."""

    GYPSUM_BOARD = "gypsum board"
    PLASTER = "plaster"
    CONCRETE = "concrete"


class StainKind(StrEnum):
    """What bled into the ceiling."""

    WATER = "water"
    SMOKE = "smoke"
    NICOTINE = "nicotine"
    GREASE = "grease"
    MARKER = "marker"
    MILDEW = "mildew"


class Stain(Notes):
    """A stained patch, its size and whether its cause is cured."""

    kind: StainKind
    square_feet: Whole
    cause_cured: Answer | None = None


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


class Preparation(StrEnum):
    """How far a surface is made ready, from the spots noted alone to a wall as smooth as new."""

    TOUCH_UP = "touch up"
    LIGHT = "light"
    USUAL = "usual"
    THOROUGH = "thorough"
    LIKE_NEW = "like new"


class Washing(StrEnum):
    """How dirty the old paint is."""

    CLEAN = "clean"
    ORDINARY_DIRT = "ordinary dirt"
    GREASE = "grease"


class WallTexture(StrEnum):
    """What a wall or a plain ceiling feels like. Popcorn is a work item of its own."""

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
    failing_percent: Percent | None = None  # of a failing surface: how much of it is loose
    preparation: Preparation | None = None  # of this surface; else that of the room, else that of the job
    washing: Washing | None = None


class Plain(SurfaceNotes):
    """Walls, or a ceiling whose texture nobody doubts."""

    substrate: Substrate | None = None
    texture: WallTexture | None = None
