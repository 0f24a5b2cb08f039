"""A room as the tape finds it: shape, height, openings, fixtures, and what stands in it."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, model_validator

from estimating.errors import InputError
from estimating.job.values import Length, Listed, Notes, Offset, Whole


class Rectangle(Notes):
    """Four square corners."""

    kind: Literal["rectangle"] = "rectangle"
    length: Length
    width: Length


class LShape(Notes):
    """A rectangle with a rectangular piece missing from one corner."""

    kind: Literal["l_shape"] = "l_shape"
    length: Length
    width: Length
    notch_length: Length
    notch_width: Length

    @model_validator(mode="after")
    def _notch_fits(self) -> LShape:
        for notch, side in (("notch_length", self.length), ("notch_width", self.width)):
            missing = getattr(self, notch)
            if missing.value >= side.value:
                raise InputError(notch, missing.text, f"less than the whole side, {side.text}")
        return self


class Polygon(Notes):
    """Any room with straight walls, by its corners in order, from one corner as origin."""

    kind: Literal["polygon"] = "polygon"
    corners: tuple[tuple[Offset, Offset], ...] = Field(min_length=3)


Shape = Annotated[Rectangle | LShape | Polygon, Field(discriminator="kind")]


class CeilingForm(StrEnum):
    """How the ceiling runs."""

    FLAT = "flat"
    SLOPED = "sloped"
    VAULTED = "vaulted"


class Soffit(Notes):
    """A boxed-down part of the ceiling: its length, its width, how far it hangs, and the sides that show."""

    length: Length
    width: Length
    drop: Length
    faces: Whole = 1  # long sides that show: 1 against a wall, 2 for a beam
    ends: Whole = 2


class OpeningKind(StrEnum):
    """What fills a hole in a wall or ceiling."""

    DOOR = "door"
    WINDOW = "window"
    ARCH = "arch"
    SKYLIGHT = "skylight"


class Opening(Notes):
    """A door, window, arch or skylight, and how many alike."""

    kind: OpeningKind
    width: Length
    height: Length
    count: Whole = 1
    reveal: Length | None = None  # depth of sides finished like the wall and painted with it; none behind a casing


class Fixtures(Notes):
    """Fixtures by kind; a kind that nobody counted is unknown, not none."""

    recessed_light: Whole | None = None
    ceiling_light: Whole | None = None
    pendant: Whole | None = None
    fan: Whole | None = None
    grille: Whole | None = None
    detector: Whole | None = None
    sprinkler_head: Whole | None = None
    speaker: Whole | None = None


class Floor(StrEnum):
    """What has to be kept clean underfoot."""

    HARD = "hard"
    CARPET = "carpet"
    UNFINISHED = "unfinished"
    OUTDOORS = "outdoors"  # a deck, a yard, the outside of a house


class Furniture(StrEnum):
    """What stands in the room on the day."""

    NONE = "none"
    LIGHT = "light"
    HEAVY = "heavy"


class Confidence(StrEnum):
    """How sure the estimator is of the measurements."""

    SURE = "sure"
    FAIR = "fair"
    GUESS = "guess"


class Room(Notes):
    """One room or space."""

    name: str
    shape: Shape
    height: Length | None = None
    ceiling: CeilingForm = CeilingForm.FLAT
    rise: Length | None = None  # how far a sloped or vaulted ceiling climbs
    soffits: Listed[Soffit] = ()
    openings: Listed[Opening] | None = None
    fixtures: Fixtures = Fixtures()
    floor: Floor | None = None
    furniture: Furniture | None = None
    measured: Confidence = Confidence.FAIR

    @model_validator(mode="after")
    def _slope_has_a_rise(self) -> Room:
        if self.ceiling is not CeilingForm.FLAT and self.rise is None:
            raise InputError("rise", None, f"how far the {self.ceiling} ceiling climbs, such as 2' 6\"")
        return self
