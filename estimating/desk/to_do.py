"""What is to be done in a room, in the few words of a line of notes, and the site notes those words stand for."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any

Plain = dict[str, Any]
YES, NO = "yes", "no"
NOT_WORK = (" x ", "×")
REPAINT, TEXTURED, PAPER = "interior_repaint", "textured_ceiling", "wallcovering"
RUNS = {"baseboard": "base", "base": "base", "crown": "crown", "casing": "casing", "chair rail": "chair rail"}
RUN_WORDS = {"base": "baseboard", "crown": "crown", "casing": "casing", "chair rail": "chair rail", "shoe": "shoe"}
RUNS["shoe"] = "shoe"
LENGTH = r"\d[\d\s./]*(?:'(?:\s*\d[\d\s/]*(?:\"|in)?)?|ft|feet|m|cm|in|\")?"
WALLPAPER = re.compile(r"^(?:(?P<width>" + LENGTH + r")\s+)?(?:wall\s*paper|wallcovering|paper)(?:ed)?\b(?P<rest>.*)$")
REPEAT = re.compile(r"(?P<repeat>\d+(?:\.\d+)?\s*(?:cm|in|mm|\"))?\s*(?P<match>half drop|third drop|straight|random)")
ON_A_WALL = re.compile(r"(?P<width>" + LENGTH + r")\s*(?:wide\s+)?(?:wall)?")
TEXTURES = ("popcorn", "knockdown", "orange peel", "skip trowel")
COATS = re.compile(r"(?P<coats>\d+|one|two|three)\s+coats?")
NUMBERS = {"one": 1, "two": 2, "three": 3}
HISTORY = {
    "never painted": "never painted",
    "painted twice": "primed and painted twice",
    "painted once": "painted once, primer unknown",
    "unpainted": "looks unpainted",
    "painted": "primed and painted",
}


def take_words(
    words: Sequence[str], room: Mapping[str, Any], work: Sequence[Plain], house: Mapping[str, Any]
) -> tuple[list[Plain], list[str]]:
    """Return the work of a room as these words have it, and the words that were not understood.

    Work that no word names is left out; what is known about work that stays is kept.
    """
    name = str(room["name"])
    kept = {str(item["kind"]): deepcopy(item) for item in work}
    repaint = kept.get(REPAINT) or _no_repaint(name, house)
    _nothing_painted(repaint)
    made: dict[str, Plain] = {}
    left: list[str] = []
    for word in words:
        plain = re.sub(r"\s+", " ", word.strip().lower())
        if _painted(plain, repaint, room, house):
            made[REPAINT] = repaint
        elif (other := _ceiling(plain, name, kept) or _paper(plain, name, kept)) is not None:
            made[str(other["kind"])] = other
        elif plain and plain not in ("nothing", "none", "–", "-"):
            left.append(word.strip())
    _put_back(repaint["trim"])
    further = [item for kind, item in kept.items() if kind not in (TEXTURED, REPAINT, PAPER)]
    return [made[kind] for kind in (TEXTURED, REPAINT, PAPER) if kind in made] + further, left


def said(work: Sequence[Mapping[str, Any]]) -> str:
    """Return the work of a room in words that would be read back as the same."""
    words: list[str] = []
    for item in work:
        match item.get("kind"):
            case "interior_repaint":
                words += _repaint_words(item)
            case "textured_ceiling":
                words.append(f"{item.get('texture', 'popcorn')} ceiling")
            case _:
                words.append("wallpaper")
    return ", ".join(words)


def _no_repaint(room: str, house: Mapping[str, Any]) -> Plain:
    surface = {name: house[name] for name in ("sheen_now", "condition", "washing")}
    plain = {**surface, "substrate": house["substrate"], "texture": house["texture"]}
    return {"kind": REPAINT, "room": room, "walls": plain, "ceiling": {**plain}, "trim": {**surface}}


def _nothing_painted(repaint: Plain) -> None:
    for part in ("walls", "ceiling", "trim"):
        repaint[part] = {**(repaint.get(part) or {}), "painted": NO}
    repaint["trim"]["_before"] = {name: repaint["trim"].pop(name, None) for name in ("runs", "doors", "windows")}


def _put_back(trim: Plain) -> None:
    """Leave what was known about trim where it stood, if none of it is painted now."""
    before = trim.pop("_before")
    if trim["painted"] == NO:
        trim.update({name: value for name, value in before.items() if value is not None})


def _painted(word: str, repaint: Plain, room: Mapping[str, Any], house: Mapping[str, Any]) -> bool:
    """Take a word into the repaint; say whether it was one of its words."""
    coats = COATS.search(word)
    word = COATS.sub("", word).strip() if coats else word
    if word in ("walls", "wall", "ceiling", "ceilings"):
        part = repaint["walls" if word.startswith("wall") else "ceiling"]
        part["painted"] = YES
        if coats:
            part["coats"] = NUMBERS.get(coats["coats"]) or int(coats["coats"])
        return True
    return _trim(word.removeprefix("paint ").removesuffix("s") if word != "trim" else word, repaint, room, house)


def _trim(word: str, repaint: Plain, room: Mapping[str, Any], house: Mapping[str, Any]) -> bool:
    trim = repaint["trim"]
    before = trim["_before"]
    wanted = {"trim": ("baseboard", "door", "window")}.get(word, (word,))
    if not all(each in RUNS or each in ("door", "window") for each in wanted):
        return False
    trim["painted"] = YES
    for each in wanted:
        if each in RUNS:
            held = [run for run in _list(before["runs"]) if run.get("kind") == RUNS[each]]
            trim["runs"] = [*_list(trim.get("runs")), *(held or [{"kind": RUNS[each]}])]
            continue
        several = _list(before[f"{each}s"]) or _as_openings(each, room, house)
        trim[f"{each}s"] = several
        if each == "door":
            trim["door_frames"] = sum(int(str(one.get("count", 1))) for one in several)
    return True


def _as_openings(kind: str, room: Mapping[str, Any], house: Mapping[str, Any]) -> list[Plain]:
    """Return the doors or windows of a room as painted ones, as many and as large as the room has."""
    found = [each for each in _list(room.get("openings")) if each.get("kind") == kind]
    extra = {"sides": 1} if kind == "door" else {}
    return [{**each, "kind": house[f"{kind}_kind"], **extra} for each in found]


def _ceiling(word: str, room: str, kept: Mapping[str, Plain]) -> Plain | None:
    texture = next((each for each in TEXTURES if each in word), None)
    if texture is None or "wall" in word:
        return None
    item: Plain = kept.get(TEXTURED) or {"kind": TEXTURED, "room": room}
    item["texture"] = texture
    coats = COATS.search(word)
    if coats:
        item["coats"] = NUMBERS.get(coats["coats"]) or int(coats["coats"])
    history = next((known for spoken, known in HISTORY.items() if spoken in word), None)
    return {**item, "history": history} if history else item


def _paper(word: str, room: str, kept: Mapping[str, Plain]) -> Plain | None:
    found = WALLPAPER.match(word)
    if not found:
        return None
    item: Plain = kept.get(PAPER) or {"kind": PAPER, "room": room, "walls": [], "goods": {}}
    rest = found["rest"]
    pattern = REPEAT.search(rest)
    if pattern:
        repeat = {"repeat": pattern["repeat"]} if pattern["repeat"] else {}
        item["goods"] = {**item["goods"], "match": pattern["match"], **repeat}
        rest = rest.replace(pattern[0], " ")
    on = ON_A_WALL.search(rest)
    width = found["width"] or (on["width"] if on else None)
    if width:
        item["walls"] = [{"name": "papered wall", "width": width.strip(), "openings": []}]
    return item


def _repaint_words(item: Mapping[str, Any]) -> list[str]:
    words = [part for part in ("walls", "ceiling") if (item.get(part) or {}).get("painted") == YES]
    trim = item.get("trim") or {}
    if trim.get("painted") != YES:
        return words
    words += [RUN_WORDS.get(str(run.get("kind")), str(run.get("kind"))) for run in _list(trim.get("runs"))]
    return words + [several for several in ("doors", "windows") if _list(trim.get(several))]


def _list(value: Any) -> list[Plain]:
    return list(value) if isinstance(value, list) else []
