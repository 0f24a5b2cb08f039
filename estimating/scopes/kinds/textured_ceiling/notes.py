"""A textured ceiling to be recoated: what it is made of, its history, and what the tests showed."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from pydantic import model_validator

from estimating.errors import InputError
from estimating.job.model import Claim, RoomPart, WorkNotes
from estimating.job.surfaces import Stain, Substrate
from estimating.job.values import Answer, Listed, Notes, Percent, Whole


class Texture(StrEnum):
    """The kind of texture, from the finest to the heaviest."""

    ORANGE_PEEL = "orange peel"
    SKIP_TROWEL = "skip trowel"
    KNOCKDOWN = "knockdown"
    POPCORN = "popcorn"


class Depth(StrEnum):
    """How far popcorn stands off the board."""

    LIGHT = "light"
    MEDIUM = "medium"
    HEAVY = "heavy"


class History(StrEnum):
    """What has been put on the texture before, as far as anybody knows."""

    NEVER_PAINTED = "never painted"
    LOOKS_UNPAINTED = "looks unpainted"
    PAINTED_ONCE = "painted once, primer unknown"
    PRIMED_AND_PAINTED = "primed and painted"
    PAINTED_TWICE = "primed and painted twice"


class FieldTest(StrEnum):
    """The tests that can be made on a ladder. Every one of them disturbs the texture."""

    DRY_RUB = "dry rub"
    WATER_MIST = "water mist"
    TAPE_PULL = "tape pull"
    ROLLER_PATCH = "roller patch"


OUTCOMES = {
    FieldTest.DRY_RUB: ("clean", "chalky"),
    FieldTest.WATER_MIST: ("beads", "darkens"),
    FieldTest.ROLLER_PATCH: ("clean", "crumbs"),
}


class SpotTest(Notes):
    """One test in one place. A tape pull is read as the share of the tape's face that came away covered."""

    kind: FieldTest
    outcome: str | None = None
    removed: Percent | None = None
    where: str = ""

    @model_validator(mode="after")
    def _reads_as_its_kind(self) -> SpotTest:
        if self.kind is FieldTest.TAPE_PULL:
            if self.removed is None:
                raise InputError("removed", self.removed, "the share of the tape's face covered, such as 10 %")
        elif self.outcome not in OUTCOMES[self.kind]:
            raise InputError("outcome", self.outcome, f"{' or '.join(OUTCOMES[self.kind])} for a {self.kind} test")
        return self


class TexturedCeiling(WorkNotes):
    """The site notes of one textured ceiling."""

    kind: Literal["textured_ceiling"] = "textured_ceiling"
    substrate: Substrate | None = None
    texture: Texture
    depth: Depth | None = None
    history: History | None = None
    history_evidence: str = ""
    sound: Answer | None = None
    bare_board_behind_fallen: Answer | None = None
    next_room_came_down: Answer | None = None  # did the same texture come down to bare board in another room here
    humid_years: Answer | None = None  # a bath, a kitchen, or years of humid air
    tests: Listed[SpotTest] = ()
    stains: Listed[Stain] | None = None
    color_now: str | None = None
    color_wanted: str | None = None
    coats: Whole | None = None
    trims_to_coat: Whole | None = None
    smooth_wanted: Answer | None = None  # is the texture to go, rather than be painted
    walls_next: Answer | None = None  # are the walls painted after the ceiling
    tip: str | None = None

    @model_validator(mode="after")
    def _is_coated(self) -> TexturedCeiling:
        if self.coats == 0:
            raise InputError("coats", self.coats, "1 coat or more, or unknown; to leave the ceiling alone, decline it")
        return self

    def claims(self) -> tuple[Claim, ...]:
        """Return the ceiling."""
        return (Claim(RoomPart.CEILING),)
