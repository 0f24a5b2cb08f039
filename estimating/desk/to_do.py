"""What is to be done in a room, in the few words of a line of notes: each kind of work is asked for its own words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from estimating.scopes.registry import KINDS
from estimating.scopes.words import Around

Plain = dict[str, Any]
NOT_WORK = (" x ", "×")
NOTHING = ("", "nothing", "none", "-", "–")
SPOKEN = {key: kind.words for key, kind in KINDS.items() if kind.words is not None}


def take_words(
    words: Sequence[str], room: Mapping[str, Any], work: Sequence[Plain], house: Mapping[str, Any]
) -> tuple[list[Plain], list[str]]:
    """Return the work of a room as these words have it, and the words that were not understood.

    Work that no word names is left out; what is known about work that stays is kept.
    """
    held = {str(item["kind"]): item for item in work}
    around = {key: Around(held.get(key, {}), room, house) for key in SPOKEN}
    made = {key: spoken.begin(around[key]) for key, spoken in SPOKEN.items()}
    named: set[str] = set()
    left: list[str] = []
    for word in words:
        plain = re.sub(r"\s+", " ", word.strip().lower())
        taken = {key: found for key, each in SPOKEN.items() if (found := each.take(plain, made[key], around[key]))}
        made |= taken
        named |= set(taken)
        left += [] if taken or plain in NOTHING else [word.strip()]
    silent = [item for item in work if str(item["kind"]) not in SPOKEN]
    return [*(made[key] for key in SPOKEN if key in named), *silent], left


def said(work: Sequence[Mapping[str, Any]]) -> str:
    """Return the work of a room in words that would be read back as the same."""
    spoken = [(SPOKEN.get(str(item.get("kind"))), item) for item in work]
    return ", ".join(word for words, item in spoken if words for word in words.said(item))


def covered(work: Sequence[Mapping[str, Any]]) -> set[str]:
    """Return the surfaces of a room that are painted or papered."""
    spoken = [(SPOKEN.get(str(item.get("kind"))), item) for item in work]
    return {surface for words, item in spoken if words for surface in words.covers(item)}
