"""How a kind of work is said in a line of notes: walls, ceiling; wallpaper 64 cm half drop; popcorn ceiling."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

Plain = dict[str, Any]
YES, NO = "yes", "no"
COATS = re.compile(r"(?P<coats>\d+|one|two|three)\s+coats?")
NUMBERS = {"one": 1, "two": 2, "three": 3}


@dataclass(frozen=True)
class Around:
    """What a word is said about: the notes as they were before, if any, the room, and the usual house."""

    before: Mapping[str, Any]
    room: Mapping[str, Any]
    house: Mapping[str, Any]


@dataclass(frozen=True)
class WorkInWords:
    """What a kind hands over so that its notes can be begun from words, and said in them again.

    begin: the notes of a room before any word. take: the notes with one word taken in, None where it is no word of
    this kind. said: the words that would be read back as the same.
    covers: the surfaces that are painted or papered, for a drawing.
    """

    begin: Callable[[Around], Plain]
    take: Callable[[str, Plain, Around], Plain | None]
    said: Callable[[Mapping[str, Any]], list[str]]
    covers: Callable[[Mapping[str, Any]], set[str]]


def coats_in(word: str) -> tuple[str, int | None]:
    """Return a word without its number of coats, and that number."""
    found = COATS.search(word)
    if not found:
        return word, None
    count = NUMBERS.get(found["coats"]) or int(found["coats"])
    return COATS.sub("", word).strip(), count


def listed(value: Any) -> list[Plain]:
    """Return the items of a list of the notes; none where it is unknown."""
    return list(value) if isinstance(value, list) else []
