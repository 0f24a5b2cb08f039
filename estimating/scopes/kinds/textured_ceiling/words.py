"""A textured ceiling in a line of notes: popcorn ceiling painted twice, 2 coats."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from estimating.scopes.words import Around, Plain, WorkInWords, coats_in

TEXTURES = ("popcorn", "knockdown", "orange peel", "skip trowel")
HISTORY = {
    "never painted": "never painted",
    "painted twice": "primed and painted twice",
    "painted once": "painted once, primer unknown",
    "unpainted": "looks unpainted",
    "painted": "primed and painted",
}


def begin(around: Around) -> Plain:
    """Return what is known of the ceiling already."""
    return {**around.before, "kind": "textured_ceiling", "room": around.room["name"]}


def take(word: str, item: Plain, around: Around) -> Plain | None:
    """Return the ceiling with its texture, its history and the coats wanted, as far as the word says."""
    plain, coats = coats_in(word)
    texture = next((each for each in TEXTURES if each in plain), None)
    if texture is None or "ceiling" not in plain:
        return None
    history = next((known for spoken, known in HISTORY.items() if spoken in plain), None)
    more = {"coats": coats} if coats else {}
    return {**item, "texture": texture, **more, **({"history": history} if history else {})}


def said(item: Mapping[str, Any]) -> list[str]:
    """Return the ceiling by its texture."""
    return [f"{item.get('texture', 'popcorn')} ceiling"]


def covers(item: Mapping[str, Any]) -> set[str]:
    """Return the ceiling."""
    return {"ceiling"}


WORDS = WorkInWords(begin, take, said, covers)
