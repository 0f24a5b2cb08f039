"""A line of site notes as a room: `bed 1: 12' x 11'6" x 8'; 2 doors, 1 window; walls, ceiling, baseboard`.

Words that are not understood are given back, never dropped.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from estimating.desk.to_do import NOT_WORK, take_words
from estimating.errors import InputError
from estimating.units import read_length

Plain = dict[str, Any]
BETWEEN_SIDES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
LESS = re.compile(r"\b(?:less|minus|without)\b", re.IGNORECASE)
COUNTED = re.compile(r"^(?P<count>\d+|an?|one|two|three|four|five|six|no)\s+(?P<what>[a-z ]+?)s?$", re.IGNORECASE)
NUMBERS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "no": 0}
OPENINGS = {"door": "door", "window": "window", "arche": "arch", "arch": "arch", "skylight": "skylight"}
BARE = re.compile(r"^\d+(?:\.\d+)?$")


@dataclass
class Line:
    """A line understood as far as it goes: the room, its work, and the words left over."""

    room: Plain
    work: list[Plain] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)


def read_line(text: str, house: Mapping[str, Any], unit: str = "ft") -> Line:
    """Return the room that a line of notes describes, with what is usual for the house where it says nothing."""
    name, rest = _name_and_rest(text)
    line = Line(usual_room(name, house))
    parts = [part.strip() for part in re.split(r"[;,]", rest) if part.strip()]
    words = [part for part in parts if not (_sides(part, line.room, unit) or _opening(part, line.room, house))]
    line.work, line.left_over = take_words(words, line.room, [], house)
    return line


def _name_and_rest(text: str) -> tuple[str, str]:
    name, colon, rest = text.partition(":")
    if colon:
        return name.strip(), rest
    name, _, rest = re.sub(r"\s+", " ", text).partition(";") if ";" in text else text.partition(",")
    return name.strip(), rest


def usual_room(name: str, house: Mapping[str, Any]) -> Plain:
    """Return a room with what is usual for the house; its size is still open."""
    return {
        "name": name,
        "shape": {"kind": "rectangle", "length": "", "width": ""},
        "height": house["height"],
        "floor": house["floor"],
        "furniture": house["furniture"],
        "openings": [],
    }


def read_size(text: str, unit: str = "ft") -> tuple[Plain, str | None]:
    """Return the shape in words such as 12' x 11'6" less 4' x 3', and a height where a third side is given.

    Raises InputError, saying what a size looks like.
    """
    plan, _, cut = _parted(text)
    sides = [_length(side, unit) for side in BETWEEN_SIDES.split(plan.strip())]
    notch = [_length(side, unit) for side in BETWEEN_SIDES.split(cut.strip())] if cut else []
    if notch and len(sides) == 2 and len(notch) == 3:
        sides.append(notch.pop())
    if not (2 <= len(sides) <= 3) or len(notch) not in (0, 2):
        raise InputError("size", text, "length x width, such as 12' x 11'6\", less a corner: 12' x 11' less 4' x 3'")
    shape: Plain = {"kind": "rectangle", "length": sides[0], "width": sides[1]}
    if notch:
        shape = {**shape, "kind": "l_shape", "notch_length": notch[0], "notch_width": notch[1]}
    return shape, sides[2] if len(sides) == 3 else None


def _parted(text: str) -> tuple[str, str, str]:
    found = LESS.search(text)
    return (text[: found.start()], found[0], text[found.end() :]) if found else (text, "", "")


def _length(text: str, unit: str) -> str:
    typed = text.strip()
    whole = f"{typed} {unit}" if BARE.match(typed) else typed
    return read_length(whole).text


def _sides(part: str, room: Plain, unit: str) -> bool:
    if not re.match(r"^[\d.½¼¾]", part) or not BETWEEN_SIDES.search(part):
        return False
    try:
        shape, height = read_size(part, unit)
    except InputError:
        return False
    room["shape"] = shape
    if height:
        room["height"] = height
    return True


def _opening(part: str, room: Plain, house: Mapping[str, Any]) -> bool:
    found = COUNTED.match(part)
    kind = OPENINGS.get(found["what"].strip().lower()) if found else None
    if not found or kind is None:
        return False
    set_openings(room, kind, NUMBERS.get(found["count"].lower()) or int(_digits(found["count"])), house)
    return True


def _digits(text: str) -> str:
    return text if text.isdigit() else "0"


def set_openings(room: Plain, kind: str, count: int, house: Mapping[str, Any]) -> None:
    """Let a room have so many doors, windows or arches; sizes that are there stay, new ones are the usual."""
    several = [each for each in room.get("openings") or [] if isinstance(each, dict)]
    same = [each for each in several if each.get("kind") == kind]
    others = [each for each in several if each.get("kind") != kind]
    while sum(_count(each) for each in same) > count:
        last = same[-1]
        last["count"] = _count(last) - 1
        same = [each for each in same if _count(each)]
    short = count - sum(_count(each) for each in same)
    if short and same:
        same[-1]["count"] = _count(same[-1]) + short
    elif short:
        size = "window" if kind in ("window", "skylight") else "door"
        same = [{"kind": kind, "width": house[f"{size}_width"], "height": house[f"{size}_height"], "count": short}]
    room["openings"] = [*same, *others]


def count_openings(room: Mapping[str, Any], kind: str) -> int:
    """Return how many doors or windows a room has."""
    several = room.get("openings")
    held = several if isinstance(several, list) else []
    return sum(_count(each) for each in held if each.get("kind") == kind)


def _count(opening: Mapping[str, Any]) -> int:
    text = str(opening.get("count", 1)).strip()
    return int(text) if text.isdigit() else 0


def is_notes(text: str) -> bool:
    """Say whether a pasted text is lines of notes rather than cells of a table."""
    return "\t" not in text and any(sign in text for sign in (":", ";", *NOT_WORK))
