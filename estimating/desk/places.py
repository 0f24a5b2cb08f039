"""Places in a job: found from the words an estimate uses for them, and said in the words of the desk."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from estimating.desk.form import words
from estimating.errors import Location
from estimating.estimate.whatif.scenario import ABSENT, value_at
from estimating.job.model import kind_words

STEP = re.compile(r'^(?P<name>\w+)(?:\[(?P<place>\d+)\])?(?:\s+"(?P<room>.*)")?$')
COLUMN = {"name": "name", "shape": "size", "height": "height"}  # columns of the grid by the field of the room


def find_place(field: str, job: Mapping[str, Any]) -> Location:
    """Return the place a question or a complaint is about, as far as the job has it; empty where it has none."""
    steps: list[str | int] = []
    for part in field.split(" · "):
        found = STEP.match(part.strip())
        if not found:
            return ()
        steps.append(found["name"])
        if found["room"] is not None:
            place = _by_room(job, found["name"], found["room"], field.split(" · ")[1:])
            if place is None:
                return ()
            steps.append(place)
        elif found["place"] is not None:
            steps.append(int(found["place"]))
    return tuple(steps)


def _by_room(job: Mapping[str, Any], several: str, room: str, rest: list[str]) -> int | None:
    """Return the place of a room, or of the work item in it that has such a field."""
    label = "name" if several == "rooms" else "room"
    found = [place for place, item in enumerate(job.get(several) or []) if item.get(label) == room]
    if several == "work" and len(found) > 1 and rest:
        name = rest[0].split("[")[0].strip()
        found = [place for place in found if name in _fields(job["work"][place])] or found
    return found[0] if found else None


def _fields(item: Mapping[str, Any]) -> frozenset[str]:
    from estimating.scopes.registry import KINDS

    kind = KINDS.get(str(item.get("kind")))
    return frozenset(kind.notes.model_fields) if kind else frozenset()


def spoken(location: Location, job: Mapping[str, Any]) -> str:
    """Return a place in words, the room first: bed 1, walls, coats."""
    if not location:
        return "the job"
    said: list[str] = []
    rest: Location = location
    if location[0] in ("rooms", "work") and len(location) > 1:
        item = value_at(job, location[:2])
        held = item if isinstance(item, Mapping) else {}
        said.append(str(held.get("name") or held.get("room") or "the job"))
        beside = [each for each in job.get("work") or [] if each.get("room") == held.get("room")]
        said += [kind_words(str(held["kind"]))] if location[0] == "work" and len(beside) > 1 else []
        rest = location[2:]
    for step in rest:
        said += [words(step)] if isinstance(step, str) else []
    return ", ".join(dict.fromkeys(part for part in said if part))


def row_and_column(location: Location) -> tuple[int, str] | None:
    """Return the line and column of the grid that show a place; None where it is not in the grid."""
    if len(location) >= 3 and location[0] == "rooms" and isinstance(location[1], int) and location[2] in COLUMN:
        return location[1], COLUMN[str(location[2])]
    return None


def room_of(location: Location, job: Mapping[str, Any]) -> int | None:
    """Return the place of the room that a place in the job belongs to; None for the job as a whole."""
    if len(location) < 2 or not isinstance(location[1], int):
        return None
    if location[0] == "rooms":
        return location[1]
    room = value_at(job, (*location[:2], "room"))
    names = [each.get("name") for each in job.get("rooms") or []]
    return names.index(room) if room is not ABSENT and room in names else None


def short(value: object) -> str:
    """Return what was typed, as much of it as fits beside a field."""
    text = "nothing" if value is None else str(value)
    return text if len(text) <= 60 else f"{text[:57]}…"
