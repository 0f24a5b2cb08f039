"""Every kind of work × method × hazard fact: which cautions, products and conditions a plan then has.

The kinds come from the registry and their notes from the demo jobs, so that a new kind is in it unasked.

Print it for a person to read:  python tests/hazard_table.py [kind]
"""

from __future__ import annotations

import copy
import sys
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from estimating.errors import EstimatingError
from estimating.estimate.pricing.plan import Plan
from estimating.evidence import Basis, load_library
from estimating.job.model import Job
from estimating.scopes.registry import KINDS
from estimating.workbook import build_job

JOBS = Path(__file__).resolve().parents[1] / "notebooks" / "jobs"
LIBRARY = load_library()
IGNITION = ("pilot_flame", "gas_appliance", "open_fire", "electric_motor")
SAFE: dict[str, Any] = {
    "year_built": 1995,
    "asbestos_test": "negative",
    "lead_test": "negative",
    "occupied": "yes",
    "household": ["pets"],
    "airflow": "yes",
    "ignition": dict.fromkeys(IGNITION, "absent"),
    "air": "72 degF",
    "surface": "70 degF",
    "humidity": 45,
}
WATER = [{"kind": "water", "square_feet": 6, "cause_cured": "yes"}]
PATCHED = {"large_patches": 3}
Set = tuple[tuple[str, ...], object]  # where in site, room or work an answer stands, and the answer


@dataclass(frozen=True)
class Case:
    """One job with one work item of a kind, and the facts it was set to."""

    kind: str
    facts: Mapping[str, str]
    job: Job

    def plans(self) -> tuple[Plan, ...]:
        """Return the plans of its work item, one a method."""
        return KINDS[self.kind].plans(self.job.work[0], self.job, Basis(LIBRARY))


FACTS: dict[str, dict[str, tuple[Set, ...]]] = {
    "year": {
        "1960": ((("site", "year_built"), 1960),),
        "1979": ((("site", "year_built"), 1979),),
        "1995": ((("site", "year_built"), 1995),),
        "unknown": ((("site", "year_built"), "unknown"),),
    },
    "asbestos": {each: ((("site", "asbestos_test"), each),) for each in ("not tested", "negative", "positive")},
    "lead": {each: ((("site", "lead_test"), each),) for each in ("not tested", "negative", "positive")},
    "pilot": {
        each: ((("site", "ignition", "pilot_flame"), each),)
        for each in ("absent", "can be shut off", "cannot be shut off", "unknown")
    },
    "airflow": {each: ((("site", "airflow"), each),) for each in ("yes", "no", "unknown")},
    "household": {
        "pets": ((("site", "household"), ["pets"]),),
        "pregnancy": ((("site", "household"), ["pregnancy"]),),
        "unknown": ((("site", "household"), "unknown"),),
    },
    "height": {each: ((("room", "height"), each),) for each in ("8 ft", "12 ft", "17 ft")},
    "furniture": {each: ((("room", "furniture"), each),) for each in ("light", "heavy")},
    "heat": {
        each: ((("site", "air"), each), (("site", "humidity"), 60)) for each in ("72 degF", "92 degF", "100 degF")
    },
    "stains": {"none": ((("work", "stains"), []),), "water": ((("work", "stains"), WATER),)},
    "patches": {"none": ((("work", "repairs"), {}),), "large": ((("work", "repairs"), PATCHED),)},
    "wall": {each: ((("work", "wall"), each),) for each in ("rough or sand finish", "damp", "bare board")},
    "sanding": {
        "walls sound": ((("work", "walls", "condition"), "sound"),),
        "walls failing": ((("work", "walls", "condition"), "failing"),),
        "wall patched": ((("work", "wall"), "patched or cracked"),),
        "ceiling failing": ((("work", "ceiling", "painted"), "yes"), (("work", "ceiling", "condition"), "failing")),
    },
    "texture": {
        "walls smooth": ((("work", "walls", "texture"), "smooth"),),
        "walls knockdown": ((("work", "walls", "texture"), "knockdown"),),
        "popcorn": ((("work", "texture"), "popcorn"),),
        "ceiling knockdown": ((("work", "ceiling", "painted"), "yes"), (("work", "ceiling", "texture"), "knockdown")),
    },
    "closets": {"walk-in": ((("work", "closets"), [{"size": "walk-in"}]),)},
    "stairs": {"over a stair": ((("work", "over_stairs_feet"), 8),), "papered": ((("work", "place"), "stairs"),)},
}
TOGETHER = (("year", "asbestos", "lead"), ("pilot", "airflow", "household", "stains"), ("year", "stains", "patches"))


@cache
def demo(kind: str) -> dict[str, Any]:
    """Return a job of one work item of a kind with its room, out of the demo jobs, on a site where nothing is wrong."""
    for path in sorted(JOBS.glob("*.toml")):
        job = tomllib.loads(path.read_text("utf-8"))
        for item in job["work"]:
            if item["kind"] == kind:
                room = next(each for each in job["rooms"] if each["name"] == item["room"])
                return {"title": kind, "site": copy.deepcopy(SAFE), "rooms": [room], "work": [item]}
    raise LookupError(f"no demo job has {kind}: put an invented one in {JOBS.name}")


def _set(job: dict[str, Any], steps: tuple[str, ...], answer: object) -> bool:
    """Put an answer into a job; False where the notes have something else in its place."""
    top, *path, last = steps
    at = job["site"] if top == "site" else job["rooms"][0] if top == "room" else job["work"][0]
    for step in path:
        at = at.setdefault(step, {})
        if not isinstance(at, dict):
            return False
    at[last] = answer
    return True


def case(kind: str, **facts: str) -> Case | None:
    """Return the case of a kind with these facts; None where its notes do not know one of them."""
    job = copy.deepcopy(demo(kind))
    answers = [each for fact, value in facts.items() for each in FACTS[fact][value]]
    if not all(_set(job, steps, answer) for steps, answer in answers):
        return None
    try:
        return Case(kind, facts, build_job(job))
    except (EstimatingError, ValueError):
        return None


def _combined(names: tuple[str, ...]) -> Iterator[dict[str, str]]:
    if not names:
        yield {}
        return
    for value in FACTS[names[0]]:
        for rest in _combined(names[1:]):
            yield {names[0]: value, **rest}


def cases() -> Iterator[Case]:
    """Yield every kind with every fact by itself, in a new and in an old untested house, and what acts together."""
    alone = [{fact: value} for fact, values in FACTS.items() for value in values]
    old = {"year": "1960", "asbestos": "not tested", "lead": "not tested"}
    sets = [
        {},
        *alone,
        *({**old, **each} for each in alone),
        *(each for names in TOGETHER for each in _combined(names)),
    ]
    unique = {tuple(sorted(each.items())): each for each in sets}
    for kind in KINDS:
        yield from (found for facts in unique.values() if (found := case(kind, **facts)) is not None)


def main() -> None:
    """Print the table: a line a plan, with its suitability, cautions, primers and first steps."""
    wanted = sys.argv[1:]
    for each in cases():
        if wanted and each.kind not in wanted:
            continue
        print(f"\n{each.kind}: " + (", ".join(f"{name} {value}" for name, value in each.facts.items()) or "as it is"))
        for plan in each.plans():
            products = ", ".join(dict.fromkeys(paint.product for paint in plan.materials if "primer" in paint.product))
            first = ", ".join(
                task.key for task in plan.tasks if task.key.startswith(("bulk_", "lead_", "set_plank", "set_sc"))
            )
            raised = ", ".join(caution.key for caution in plan.cautions)
            print(f"  {plan.method:16} {plan.suitability:15} {raised}")
            print(f"  {'':16} primers: {products or 'none'}; added: {first or 'none'}")
            for finding in plan.findings:
                print(f"  {'':16} {finding.suitability}: {finding.text}")


if __name__ == "__main__":
    main()
