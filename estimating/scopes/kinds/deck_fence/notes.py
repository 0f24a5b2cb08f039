"""A deck, a fence or both in one place: what there is of it, what is on the wood now, and how it is to look."""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar, Literal

from estimating.job.model import WorkNotes
from estimating.job.open_work import Boards, Fence, Lattice, Railing, Stair
from estimating.job.surfaces import Coloring
from estimating.job.values import Answer, Length, Listed, Percent, Whole


class Finish(StrEnum):
    """How much of the wood shows through the new finish."""

    CLEAR = "clear"
    SEMITRANSPARENT = "semitransparent"
    SOLID = "solid"


class Wood(StrEnum):
    """What the wood feels like to the hand."""

    PLANED = "planed"
    ROUGH = "rough sawn"
    WEATHERED = "weathered gray"


class OldFinish(StrEnum):
    """What is on the wood now."""

    NONE = "none"
    WORN = "worn stain"
    FILM = "peeling film"


class DeckFence(WorkNotes):
    """The site notes of the decks and fences in one place."""

    kind: Literal["deck_fence"] = "deck_fence"
    boards: Boards = Boards()
    railings: Listed[Railing] | None = None
    stairs: Listed[Stair] | None = None
    lattice: Listed[Lattice] | None = None
    fences: Listed[Fence] | None = None
    finish: Finish | None = None
    stain: Coloring = Coloring()
    wood: Wood | None = None
    old_finish: OldFinish | None = None
    water_soaks_in: Answer | None = None  # a drop of water, within a few minutes
    moisture: Percent | None = None  # by the meter, on the day or before it
    treated_before_2004: Answer | None = None
    above_ground: Length | None = None  # the boards, where somebody has to work at the outside from below
    plants: Whole | None = None  # ground under shrubs and beds that is covered, ft²

    ONCE_A_ROOM: ClassVar[bool] = True
