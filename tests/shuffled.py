"""Write random jobs of all kinds in other words and another order, and look whether a cent moves.

    python tests/shuffled.py [jobs] [first seed]

A job has one to six rooms, each with work of some kind. Written otherwise: rooms, work and the keys of every table
in another order, lengths in other units and spellings. Every job is made up, out of the demo jobs.
"""

from __future__ import annotations

import copy
import random
import re
import sys
from collections import Counter
from typing import Any

from hazard_table import SAFE, demo

from estimating.errors import EstimatingError
from estimating.scopes.registry import KINDS
from estimating.units import read_length
from estimating.workbook import build_job, estimate_job

SITES: tuple[dict[str, Any], ...] = (
    {},
    {"year_built": 1962, "lead_test": "not tested"},
    {"household": ["pregnancy"]},
    {"travel_minutes": 35},
)
TAPE = re.compile(r"(\d+)' (\d+)\"")


def random_job(seed: int) -> dict[str, Any]:
    """Return a made-up job as plain values."""
    dice = random.Random(seed)
    found = [_room_with_work(f"room {number + 1}", dice) for number in range(dice.randint(1, 6))]
    rooms, work = [room for room, _ in found], [item for _, item in found]
    site = {**copy.deepcopy(SAFE), **dice.choice(SITES)}
    crew = {"people": dice.randint(1, 4), "experience": "experienced"}
    return {"title": f"made up, {seed}", "site": site, "crew": crew, "rooms": rooms, "work": work}


def _room_with_work(name: str, dice: random.Random) -> tuple[dict[str, Any], dict[str, Any]]:
    plain = copy.deepcopy(demo(dice.choice(sorted(KINDS))))
    (room,), (item,) = plain["rooms"], plain["work"]
    shape = room["shape"]
    if shape["kind"] == "rectangle" and item["kind"] != "wallcovering":  # papered walls have lengths of their own
        shape |= {"length": _tape(dice, 9, 20), "width": _tape(dice, 8, 15)}
    room["name"] = item["room"] = name
    return room, item


def _tape(dice: random.Random, least: int, most: int) -> str:
    return f"{dice.randint(least, most)}' {dice.randint(0, 11)}\""


def otherwise(job: dict[str, Any], seed: int) -> dict[str, Any]:
    """Return the same job written in another order and other words."""
    dice = random.Random(seed)
    other = {key: _turned(value, dice) for key, value in _mixed(job, dice)}
    for several in (other["rooms"], other["work"]):
        dice.shuffle(several)
    return other


def _turned(value: Any, dice: random.Random) -> Any:
    if isinstance(value, dict):
        return {key: _turned(each, dice) for key, each in _mixed(value, dice)}
    if isinstance(value, list):
        return [_turned(each, dice) for each in value]
    return _said_otherwise(value, dice) if isinstance(value, str) and TAPE.fullmatch(value) else value


def _mixed(table: dict[str, Any], dice: random.Random) -> list[tuple[str, Any]]:
    items = list(table.items())
    dice.shuffle(items)
    return items


def _said_otherwise(tape: str, dice: random.Random) -> str:
    feet, inches = TAPE.fullmatch(tape).groups()  # type: ignore[union-attr]
    ways = (tape, f"{feet} ft {inches} in", f"{feet}-{inches}", f"{12 * int(feet) + int(inches)} in")
    found = dice.choice(ways)
    assert abs(read_length(found).value - read_length(tape).value) < 1e-9
    return found


def outcome_of(job: dict[str, Any]) -> tuple[str, ...]:
    """Return the price, days and methods of a job, or what is wrong with it."""
    try:
        outcome = estimate_job(build_job(job))
    except EstimatingError as problem:
        return ("refused", type(problem).__name__)
    estimate = outcome.estimate
    taken = zip(outcome.job.work, estimate.plans, strict=True)
    methods = sorted(f"{item.room}: {item.kind} {plan.method}" for item, plan in taken)
    return (str(estimate.price), f"{estimate.schedule.days.value:.0f}", *methods)


def main(words: list[str]) -> None:
    """Print how many moved, and which."""
    count, first = [*map(int, words), *(300, 0)[len(words) :]]
    seen: Counter[str] = Counter()
    for seed in range(first, first + count):
        job = random_job(seed)
        before, after = outcome_of(job), outcome_of(otherwise(job, seed))
        seen["refused" if before[0] == "refused" else "priced"] += 1
        seen["moved"] += before != after
        if before != after:
            print(f"{seed}: {before} became {after}", flush=True)
    print(f"{seen['priced']} jobs priced, {seen['refused']} refused, {seen['moved']} moved")


if __name__ == "__main__":
    main(sys.argv[1:])
