"""Rooms as lines of a grid: what each column shows of the job, and what a change in it does to room and work."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from estimating.desk import to_do
from estimating.desk.quick_entry import count_openings, read_line, read_size, set_openings, usual_room
from estimating.errors import InputError
from estimating.reports.format import dollars
from estimating.reports.panes.selling import sold_lines
from estimating.units import read_length
from estimating.workbook import Outcome

Plain = dict[str, Any]
COLUMNS = (
    {"id": "name", "name": "Room", "kind": "text"},
    {"id": "size", "name": "Size", "kind": "text"},
    {"id": "height", "name": "Height", "kind": "number"},
    {"id": "door", "name": "Doors", "kind": "number"},
    {"id": "window", "name": "Windows", "kind": "number"},
    {"id": "to_do", "name": "To do", "kind": "text"},
    {"id": "hours", "name": "Hours", "kind": "read"},
    {"id": "price", "name": "Price", "kind": "read"},
)
TO_DO_HELP = "walls, ceiling, baseboard, crown, casing, doors, windows, popcorn ceiling or wallpaper"


def room_id(place: int) -> str:
    """Return the name of a line of the grid."""
    return f"r{place}"


def place_of(row: str) -> int:
    """Return the place in the job of a line of the grid; -1 for none."""
    return int(row[1:]) if row[1:].isdigit() else -1


def size_words(shape: Mapping[str, Any]) -> str:
    """Return a shape in the words it would be typed in."""
    if shape.get("kind") == "polygon":
        return f"{len(shape.get('corners') or [])} corners"
    sides = [str(shape.get(side) or "") for side in ("length", "width")]
    whole = " x ".join(sides) if any(sides) else ""
    if shape.get("kind") == "l_shape":
        whole += f" less {shape.get('notch_length')} x {shape.get('notch_width')}"
    return whole


@dataclass(frozen=True)
class RoomSum:
    """What a room comes to."""

    hours: float = 0.0
    price: Decimal = Decimal(0)


def room_sums(outcome: Outcome) -> dict[str, RoomSum]:
    """Return the hours and the sold price of each room; what the job needs once stands under no room."""
    hours: dict[str, float] = defaultdict(float)
    price: dict[str, Decimal] = defaultdict(Decimal)
    for task in outcome.estimate.schedule.tasks:
        hours[task.room] += task.hours.value_in("hour")
    for line, sold in sold_lines(outcome.estimate).items():
        price[line.room] += sold
    return {room: RoomSum(hours[room], price[room]) for room in {**hours, **price}}


def grid_rows(job: Mapping[str, Any], sums: Mapping[str, RoomSum], bad: Mapping[str, Mapping[str, str]]) -> list[Plain]:
    """Return the lines of the grid; `bad` holds complaints by line and column."""
    return [_row(job, place, room, sums, bad) for place, room in enumerate(job.get("rooms") or [])]


def _row(
    job: Mapping[str, Any],
    place: int,
    room: Mapping[str, Any],
    sums: Mapping[str, RoomSum],
    bad: Mapping[str, Mapping[str, str]],
) -> Plain:
    name, row = str(room.get("name", "")), room_id(place)
    comes_to = sums.get(name)
    cells = {
        "name": name,
        "size": size_words(room.get("shape") or {}),
        "height": "" if room.get("height") == "unknown" else str(room.get("height") or ""),
        "door": str(count_openings(room, "door")),
        "window": str(count_openings(room, "window")),
        "to_do": to_do.said(work_in(job, name)),
        "hours": hours_words(comes_to.hours) if comes_to else "",
        "price": f"${comes_to.price:,.0f}" if comes_to else "",
    }
    return {"id": row, "cells": cells, "bad": dict(bad.get(row, {}))}


def hours_words(hours: float) -> str:
    """Return hours as a crew says them: 4.5."""
    return f"{hours:,.1f}"


def foot(job: Mapping[str, Any], outcome: Outcome, sums: Mapping[str, RoomSum]) -> list[str]:
    """Return the last line of the grid: the whole job, with what belongs to no room, its hours and its price."""
    names = {str(room.get("name")) for room in job.get("rooms") or []}
    inside = sum((each.price for name, each in sums.items() if name in names), Decimal(0))
    price = outcome.estimate.price
    whole = f"Whole job, with {dollars(price - inside).split('.')[0]} that belongs to no one room"
    return [whole, hours_words(outcome.estimate.hours.value), f"${price:,.0f}"]


def work_in(job: Mapping[str, Any], room: str) -> list[Plain]:
    """Return the work items in a room."""
    return [item for item in job.get("work") or [] if item.get("room") == room]


def changed(job: Mapping[str, Any], row: str, column: str, text: str, house: Mapping[str, Any], unit: str) -> Plain:
    """Return the job with one cell of the grid changed; InputError where the text cannot be read."""
    made = _copy(job)
    room = made["rooms"][place_of(row)]
    text = text.strip()
    match column:
        case "name":
            return renamed(made, place_of(row), text)
        case "size":
            shape, height = read_size(text, unit)
            room["shape"] = {**shape}
            room.update({"height": height} if height else {})
        case "height":
            room["height"] = read_length(f"{text} {unit}" if text.replace(".", "", 1).isdigit() else text).text
        case "door" | "window":
            set_openings(room, column, _whole(text), house)
        case "to_do":
            _let_do(made, room, text, house)
    return made


def _whole(text: str) -> int:
    if text in ("", "none", "no"):
        return 0
    if not text.isdigit() or int(text) > 100:
        raise InputError("count", text, "how many there are, such as 2")
    return int(text)


def _let_do(job: Plain, room: Plain, text: str, house: Mapping[str, Any]) -> None:
    words = [word for word in text.replace(";", ",").split(",") if word.strip()]
    work, left = to_do.take_words(words, room, work_in(job, room["name"]), house)
    if left:
        raise InputError("to do", ", ".join(left), f"some of {TO_DO_HELP}")
    job["work"] = _with(job.get("work") or [], room["name"], work)


def _with(work: Sequence[Plain], room: str, mine: Sequence[Plain]) -> list[Plain]:
    """Return all work with that of one room replaced, in its place."""
    first = next((place for place, item in enumerate(work) if item.get("room") == room), len(work))
    before = [item for item in work[:first] if item.get("room") != room]
    return [*before, *mine, *(item for item in work[first:] if item.get("room") != room)]


def renamed(job: Plain, place: int, name: str) -> Plain:
    """Return the job with a room called otherwise; its work goes along."""
    if not name:
        raise InputError("name", name, "a name for the room")
    if any(other != place and room.get("name") == name for other, room in enumerate(job["rooms"])):
        raise InputError("name", name, "a name that no other room has")
    old = job["rooms"][place]["name"]
    job["rooms"][place]["name"] = name
    for item in job.get("work") or []:
        if item.get("room") == old:
            item["room"] = name
    return job


def free_name(job: Mapping[str, Any], name: str) -> str:
    """Return a name no room has yet: the one given, or with the next number after it."""
    taken = {str(room.get("name")) for room in job.get("rooms") or []}
    if name and name not in taken:
        return name
    stem = name.rstrip("0123456789").strip() or "room"
    return next(each for number in range(2, 10_000) if (each := f"{stem} {number}") not in taken)


def copied(job: Mapping[str, Any], row: str) -> Plain:
    """Return the job with a room once more after it, its work with it."""
    made, place = _copy(job), place_of(row)
    room = deepcopy(made["rooms"][place])
    old, room["name"] = room["name"], free_name(made, room["name"])
    made["rooms"].insert(place + 1, room)
    again = [{**deepcopy(item), "room": room["name"]} for item in work_in(made, old)]
    made["work"] = [*(made.get("work") or []), *again]
    return made


def moved(job: Mapping[str, Any], row: str, by: int) -> Plain:
    """Return the job with a room moved up or down by some lines, as far as there are any; its work is told by name."""
    made, place = _copy(job), place_of(row)
    room = made["rooms"].pop(place)
    made["rooms"].insert(max(place + by, 0), room)
    return made


def removed(job: Mapping[str, Any], row: str) -> Plain:
    """Return the job without a room and without its work."""
    made = _copy(job)
    name = made["rooms"].pop(place_of(row))["name"]
    made["work"] = [item for item in made.get("work") or [] if item.get("room") != name]
    return made


def _copy(job: Mapping[str, Any]) -> Plain:
    return {name: deepcopy(value) for name, value in job.items()}


def with_lines(job: Mapping[str, Any], text: str, house: Mapping[str, Any], unit: str) -> tuple[Plain, list[str], int]:
    """Return the job with the rooms of pasted lines, the lines with what was not understood, and how many came in.

    A line with a room's own name adds to the job a room of the next free name; nothing is overwritten.
    """
    made = _copy(job)
    unclear: list[str] = []
    count = 0
    for typed in (line.strip() for line in text.splitlines() if line.strip()):
        line = read_line(typed, house, unit)
        if line.left_over or not line.room["shape"]["length"]:
            unclear.append(_marked(typed, line.left_over))
            continue
        line.room["name"] = free_name(made, line.room["name"])
        made.setdefault("rooms", []).append(line.room)
        made["work"] = [*(made.get("work") or []), *({**item, "room": line.room["name"]} for item in line.work)]
        count += 1
    return made, unclear, count


def _marked(typed: str, left_over: Sequence[str]) -> str:
    missing = [f"“{part}” is not understood" for part in left_over] or ["the size is missing"]
    return f"{typed}  ← {'; '.join(missing)}"


def with_cells(
    job: Mapping[str, Any], row: str, column: str, text: str, house: Mapping[str, Any], unit: str
) -> tuple[Plain, dict[str, dict[str, str]]]:
    """Return the job with pasted cells put in from one cell on, and what could not be read by line and column."""
    names = [each["id"] for each in COLUMNS if each["kind"] != "read"]
    bad: dict[str, dict[str, str]] = {}
    made = _copy(job)
    for down, line in enumerate(each for each in text.splitlines() if each.strip()):
        place = place_of(row) + down
        if place >= len(made["rooms"]):
            made["rooms"].append(usual_room(free_name(made, ""), house))
        for across, cell in enumerate(line.split("\t")[: len(names) - names.index(column)]):
            name = names[names.index(column) + across]
            try:
                made = changed(made, room_id(place), name, cell, house, unit)
            except InputError as problem:
                bad.setdefault(room_id(place), {})[name] = f"{cell}: needs {problem.needed}"
    return made, bad
