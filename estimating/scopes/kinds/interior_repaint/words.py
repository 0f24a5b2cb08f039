"""A repaint in a line of notes: walls 2 coats, ceiling, baseboard, doors, windows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from estimating.scopes.words import NO, YES, Around, Plain, WorkInWords, coats_in, listed

SURFACES = {"walls": "walls", "wall": "walls", "ceiling": "ceiling", "ceilings": "ceiling"}
RUNS = {
    "baseboard": "base",
    "base": "base",
    "crown": "crown",
    "casing": "casing",
    "chair rail": "chair rail",
    "shoe": "shoe",
}
SPOKEN = {"base": "baseboard"}
TRIM = ("baseboard", "door", "window")  # what is meant by trim alone
KNOWN = ("runs", "doors", "windows")


def begin(around: Around) -> Plain:
    """Return the repaint with nothing painted; what is known of its surfaces stays, else the usual of the house."""
    house, held = around.house, around.before
    surface = {name: house[name] for name in ("sheen_now", "condition", "washing")}
    plain = {**surface, "substrate": house["substrate"], "texture": house["texture"]}
    usual = {"walls": plain, "ceiling": plain, "trim": surface}
    parts = {name: {**(held.get(name) or usual[name]), "painted": NO} for name in usual}
    return {**held, "kind": "interior_repaint", "room": around.room["name"], **parts}


def take(word: str, item: Plain, around: Around) -> Plain | None:
    """Return the repaint with one surface, one kind of trim, or the doors or windows painted."""
    plain, coats = coats_in(word)
    if plain in SURFACES:
        name = SURFACES[plain]
        return {**item, name: {**item[name], "painted": YES, **({"coats": coats} if coats else {})}}
    plain = plain.removeprefix("paint ")
    wanted = TRIM if plain == "trim" else (plain.removesuffix("s"),)
    if not all(each in RUNS or each in ("door", "window") for each in wanted):
        return None
    trim = item["trim"]
    if trim["painted"] == NO:  # the first word about trim: only what is named is painted
        trim = {**trim, "painted": YES, **{name: [] for name in KNOWN}}
    for each in wanted:
        trim = _with_run(trim, RUNS[each]) if each in RUNS else _with_openings(trim, each, around)
    return {**item, "trim": trim}


def _with_run(trim: Plain, kind: str) -> Plain:
    return {**trim, "runs": [*listed(trim.get("runs")), {"kind": kind}]}


def _with_openings(trim: Plain, kind: str, around: Around) -> Plain:
    """Return the trim with the doors or windows of the room painted: those noted, else as many as the room has."""
    noted = listed((around.before.get("trim") or {}).get(f"{kind}s"))
    extra: Plain = {"kind": around.house[f"{kind}_kind"]} | ({"sides": 1} if kind == "door" else {})
    found = noted or [{**each, **extra} for each in listed(around.room.get("openings")) if each.get("kind") == kind]
    frames = {"door_frames": sum(int(str(one.get("count", 1))) for one in found)} if kind == "door" else {}
    return {**trim, f"{kind}s": found, **frames}


def said(item: Mapping[str, Any]) -> list[str]:
    """Return the surfaces and the trim that are painted."""
    words = [part for part in ("walls", "ceiling") if (item.get(part) or {}).get("painted") == YES]
    trim = item.get("trim") or {}
    if trim.get("painted") != YES:
        return words
    words += [SPOKEN.get(str(run.get("kind")), str(run.get("kind"))) for run in listed(trim.get("runs"))]
    return words + [several for several in ("doors", "windows") if listed(trim.get(several))]


def covers(item: Mapping[str, Any]) -> set[str]:
    """Return the surfaces that are painted."""
    return {part for part in ("walls", "ceiling", "trim") if (item.get(part) or {}).get("painted") == YES}


WORDS = WorkInWords(begin, take, said, covers)
