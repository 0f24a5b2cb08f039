"""Wallcovering in a line of notes: wallpaper 64 cm half drop on 12' wall."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from estimating.scopes.words import Around, Plain, WorkInWords

LENGTH = r"\d[\d\s./]*(?:'(?:\s*\d[\d\s/]*(?:\"|in)?)?|ft|feet|m|cm|in|\")?"
PAPER = re.compile(r"^(?:(?P<width>" + LENGTH + r")\s+)?(?:wall\s*paper|wallcovering|paper)(?:ed)?\b(?P<rest>.*)$")
PATTERN = re.compile(r"(?P<repeat>\d+(?:\.\d+)?\s*(?:cm|in|mm|\"))?\s*(?P<match>half drop|third drop|straight|random)")
ON_A_WALL = re.compile(r"(?P<width>" + LENGTH + r")\s*(?:wide\s+)?(?:wall)?")


def begin(around: Around) -> Plain:
    """Return what is known of the papered walls already."""
    return {"walls": [], "goods": {}, **around.before, "kind": "wallcovering", "room": around.room["name"]}


def take(word: str, item: Plain, around: Around) -> Plain | None:
    """Return the work with the width of its wall and the match and repeat of the pattern, as far as the word says."""
    found = PAPER.match(word)
    if not found:
        return None
    rest = found["rest"]
    pattern = PATTERN.search(rest)
    if pattern:
        repeat = {"repeat": pattern["repeat"]} if pattern["repeat"] else {}
        item = {**item, "goods": {**item["goods"], "match": pattern["match"], **repeat}}
        rest = rest.replace(pattern[0], " ")
    on = ON_A_WALL.search(rest)
    width = found["width"] or (on["width"] if on else None)
    return {**item, "walls": [{"name": "papered wall", "width": width.strip(), "openings": []}]} if width else item


def said(item: Mapping[str, Any]) -> list[str]:
    """Return the one word; walls and pattern stay as they are noted."""
    return ["wallpaper"]


def covers(item: Mapping[str, Any]) -> set[str]:
    """Return that a wall is papered."""
    return {"paper"}


WORDS = WorkInWords(begin, take, said, covers)
