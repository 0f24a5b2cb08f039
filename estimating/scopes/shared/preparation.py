"""Levels of preparation: what each does to walls, ceilings and trim, and what a client may expect of it.

A level adds to what is noted: patches, washing and caulk that the notes ask for are done at every level.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from estimating.job.surfaces import Condition, Preparation, SurfaceNotes
from estimating.scopes.shared.surface import GLOSSY


class Step(StrEnum):
    """One thing that is done to a whole surface before its first primer."""

    WASH = "wash"
    FILL = "fill"  # dents and nail holes, found along a lamp
    NAIL_HOLES = "nail holes"
    SCUFF = "scuff"
    SKIM = "skim"
    DUST = "dust"
    CAULK = "caulk"
    PRIME = "prime"


class On(StrEnum):
    """What is prepared."""

    WALLS = "walls"
    CEILING = "ceiling"
    TRIM = "trim"


TOUCH_UP, LIGHT, USUAL, THOROUGH, LIKE_NEW = Preparation
RISING = tuple(Preparation)
STEPS: Mapping[On, Mapping[Preparation, tuple[Step, ...]]] = MappingProxyType(
    {
        On.WALLS: {
            TOUCH_UP: (),
            LIGHT: (Step.DUST,),
            USUAL: (Step.SCUFF, Step.DUST),
            THOROUGH: (Step.WASH, Step.FILL, Step.SCUFF, Step.DUST, Step.CAULK),
            LIKE_NEW: (Step.WASH, Step.SCUFF, Step.SKIM, Step.DUST, Step.CAULK, Step.PRIME),
        },
        On.CEILING: {
            TOUCH_UP: (),
            LIGHT: (Step.DUST,),
            USUAL: (Step.DUST,),
            THOROUGH: (Step.FILL, Step.SCUFF, Step.DUST),
            LIKE_NEW: (Step.SCUFF, Step.SKIM, Step.DUST, Step.PRIME),
        },
        On.TRIM: {
            TOUCH_UP: (),
            LIGHT: (Step.SCUFF,),
            USUAL: (Step.SCUFF,),
            THOROUGH: (Step.WASH, Step.NAIL_HOLES, Step.SCUFF, Step.CAULK),
            LIKE_NEW: (Step.WASH, Step.NAIL_HOLES, Step.SCUFF, Step.CAULK, Step.PRIME),
        },
    }
)
PROMISES: Mapping[Preparation, str] = MappingProxyType(
    {
        TOUCH_UP: "We fix and prime the spots listed, and nothing else. Old marks elsewhere will show.",
        LIGHT: "We fix and prime the spots listed and dust before painting. Small dents and old marks will show.",
        USUAL: "We also sand, so that the new paint holds and looks even. Old dents and waves in the wall will show.",
        THOROUGH: "We also wash, fill the dents and nail holes we find with a lamp, and caulk open joints. Waves in "
        "the wall may still show in light from the side.",
        LIKE_NEW: "We also skim smooth walls and ceilings with joint compound, sand them and prime all over, so that "
        "they are smooth in any light. A texture stays as it is.",
    }
)


def level_of(*noted: Preparation | None) -> Preparation:
    """Return the first level that is noted, from the surface to the room to the job; the usual one where none is."""
    return next((each for each in noted if each is not None), USUAL)


def steps(on: On, level: Preparation, notes: SurfaceNotes, *, smooth: bool = True) -> frozenset[Step]:
    """Return what a level does to a surface in its state: old paint that shines or is worn is scuffed from light up.

    smooth: a textured surface is filled where a smooth one is skimmed, for a skim would take its texture away.
    """
    found = set(STEPS[on][level])
    if level is not TOUCH_UP and _needs_scuffing(notes, level):
        found.add(Step.SCUFF)
    if Step.SKIM in found and not smooth:
        found = found - {Step.SKIM} | {Step.FILL}
    return frozenset(found)


def _needs_scuffing(notes: SurfaceNotes, level: Preparation) -> bool:
    worn = notes.condition not in (None, Condition.SOUND)
    return notes.sheen_now in GLOSSY or (worn and level is not LIGHT)
