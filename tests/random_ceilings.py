"""Random textured ceilings, one to a job: sizes, histories, tests, stains and rooms as they come."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any

from places import JOBS

from estimating.job.file import plain_job
from estimating.job.model import Job
from estimating.scopes.kinds.textured_ceiling.notes import OUTCOMES, FieldTest, History
from estimating.workbook import build_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
TAPES = (2, 15, 40)


def shown(kind: FieldTest) -> list[dict[str, Any]]:
    """Return a test of a kind with each of its results, as notes have it."""
    if kind is FieldTest.TAPE_PULL:
        return [{"kind": str(kind), "removed": each} for each in TAPES]
    return [{"kind": str(kind), "outcome": each} for each in OUTCOMES[kind]]


def plain_ceilings(seed: int, count: int) -> Iterator[dict[str, Any]]:
    """Yield the plain values of so many jobs, the same for the same seed."""
    dice, demo = Random(seed), plain_job(read_job(DEMO))
    for _ in range(count):
        yield _one(dice, demo)


def ceilings(seed: int, count: int) -> Iterator[Job]:
    """Yield so many jobs, the same for the same seed."""
    return map(build_job, plain_ceilings(seed, count))


def _one(dice: Random, demo: dict[str, Any]) -> dict[str, Any]:
    room = demo["rooms"][0] | {
        "height": f"{dice.choice((8, 8, 9, 10, 12))} ft",
        "shape": {"kind": "rectangle", "length": f"{dice.randint(9, 26)} ft", "width": f"{dice.randint(8, 18)} ft"},
        "soffits": [],
        "furniture": dice.choice(("none", "light", "heavy")),
    }
    tests = [dice.choice(shown(dice.choice(list(FieldTest)))) for _ in range(dice.choice((0, 0, 1, 1, 2, 3, 5)))]
    stain = {"kind": dice.choice(("water", "smoke")), "square_feet": dice.randint(2, 12), "cause_cured": "yes"}
    work = demo["work"][0] | {
        "depth": dice.choice(("light", "medium", "heavy")),
        "history": dice.choice(("unknown", *map(str, History))),
        "tests": tests,
        "stains": [stain] if dice.random() < 0.3 else [],
        "trims_to_coat": dice.choice((0, 4)),
        "walls_next": dice.choice(("yes", "no")),
    }
    site = demo["site"] | {"occupied": dice.choice(("yes", "no")), "household": dice.choice(([], ["children"]))}
    return demo | {"rooms": [room], "work": [work], "site": site}
