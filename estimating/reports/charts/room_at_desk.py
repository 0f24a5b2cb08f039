"""The chosen room beside the typing: its plan to scale, its walls unfolded, and what is painted and papered in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from html import escape
from itertools import pairwise
from typing import Any

from estimating.errors import EstimatingError
from estimating.job.room import Opening, OpeningKind, Room
from estimating.reports.charts.room_drawing import Point, corners
from estimating.reports.format import UnitSystem, length

WIDTH, PLAN, GAP, MARGIN = 420.0, 190.0, 14.0, 34.0
NOT_YET = "The room is drawn here once its size and height can be read."
COUNTED = "Doors and windows are counted, not placed: they are drawn where there is room."


def room_drawing(job: Mapping[str, Any], place: int, done: set[str], shown: UnitSystem = UnitSystem.US) -> str:
    """Return the drawing of one room of a job as typed; a line of words while it cannot be drawn.

    done: the surfaces that are painted (walls, ceiling) or papered (paper).
    """
    rooms = job.get("rooms") or []
    if not 0 <= place < len(rooms):
        return f'<p class="pe-small">{NOT_YET}</p>'
    try:
        room = Room.model_validate(rooms[place])
    except (EstimatingError, ValueError):
        return f'<h2>{escape(str(rooms[place].get("name", "")))}</h2><p class="pe-small">{NOT_YET}</p>'
    points = corners(room)
    height = room.height.value if room.height else 0.0
    said = f"{room.name} to scale, {length(_wide(points), shown)} by {length(_deep(points), shown)}"
    plan, high = _plan(points, "ceiling" in done, shown)
    walls, more = _walls(room, points, height, done, high, shown)
    note = f'<p class="pe-small">{COUNTED}</p>' if room.openings else ""
    return (
        f"<h2>{escape(room.name)}, to scale</h2>"
        f'<div class="pe-drawing"><svg viewBox="0 0 {WIDTH:g} {high + more:.0f}" role="img" '
        f'aria-label="{escape(said)}">'
        f"{plan}{walls}</svg></div>{note}"
    )


def _wide(points: Sequence[Point]) -> float:
    return max(x for x, _ in points) - min(x for x, _ in points)


def _deep(points: Sequence[Point]) -> float:
    return max(y for _, y in points) - min(y for _, y in points)


def _plan(points: Sequence[Point], painted: bool, shown: UnitSystem) -> tuple[str, float]:
    left, low = min(x for x, _ in points), min(y for _, y in points)
    wide, deep = _wide(points), _deep(points)
    scale = min((WIDTH - 3 * MARGIN) / wide, PLAN / deep)
    across, down = wide * scale, deep * scale
    start = (WIDTH - across) / 2
    path = " ".join(f"{start + (x - left) * scale:.1f},{22 + (y - low) * scale:.1f}" for x, y in points)
    kind = "room-painted" if painted else "room-bare"
    words = "ceiling painted" if painted else "ceiling left as it is"
    return (
        f'<polygon points="{path}" class="{kind} room-edge"/>'
        f'<text x="{WIDTH / 2:g}" y="14" text-anchor="middle">{escape(length(wide, shown))}</text>'
        f'<text x="{start + across + 6:.1f}" y="{22 + down / 2:.1f}">{escape(length(deep, shown))}</text>'
        f'<text x="{start + 8:.1f}" y="{22 + down - 8:.1f}" class="room-word">{words}</text>',
        down + 22 + GAP,
    )


def _sides(points: Sequence[Point]) -> list[float]:
    ring = [*points, points[0]]
    return [((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 for (ax, ay), (bx, by) in pairwise(ring)]


def _walls(
    room: Room, points: Sequence[Point], height: float, done: set[str], top: float, shown: UnitSystem
) -> tuple[str, float]:
    """Return the walls unfolded in a row, their openings in them, and how much of the drawing they take."""
    sides = _sides(points)
    if not height:
        return "", 0.0
    scale = min((WIDTH - 6 * len(sides)) / sum(sides), 110 / height)
    holes = _placed(room.openings or (), sides, height)
    papered = _papered(sides, done)
    at, drawn = (WIDTH - sum(sides) * scale - 6 * (len(sides) - 1)) / 2, []
    for number, side in enumerate(sides):
        kind = "room-papered" if number == papered else "room-painted" if "walls" in done else "room-bare"
        drawn.append(_box(at, top, side * scale, height * scale, f"{kind} room-edge"))
        drawn += [_hole(hole, at, top, scale, height) for hole in holes[number]]
        if side * scale > 34:
            place = f'x="{at + side * scale / 2:.1f}" y="{top + height * scale + 12:.1f}"'
            drawn.append(f'<text {place} text-anchor="middle">{escape(length(side, shown))}</text>')
        at += side * scale + 6
    legend = _legend(done, top + height * scale + 30)
    return "".join(drawn) + legend, height * scale + 40


def _papered(sides: Sequence[float], done: set[str]) -> int:
    """Return which wall is drawn as papered: one as wide as the notes say, else the longest; -1 for none."""
    if "paper" not in done:
        return -1
    return max(range(len(sides)), key=lambda number: sides[number])


Hole = tuple[str, float, float, float]  # kind, left, width, height (ft)


def _placed(openings: Iterable[Opening], sides: Sequence[float], height: float) -> list[list[Hole]]:
    """Return the openings on the walls that have most room left for them."""
    free = list(sides)
    holes: list[list[Hole]] = [[] for _ in sides]
    for opening in openings:
        if opening.kind is OpeningKind.SKYLIGHT:
            continue
        for _ in range(min(opening.count, 12)):
            wall = max(range(len(free)), key=lambda number: free[number])
            width = min(opening.width.value, sides[wall])
            taken = sides[wall] - free[wall]
            left = min(taken + 0.8, max(0.0, sides[wall] - width))
            holes[wall].append((str(opening.kind), left, width, min(opening.height.value, height)))
            free[wall] -= width + 0.8
    return holes


def _hole(hole: Hole, at: float, top: float, scale: float, height: float) -> str:
    kind, left, width, tall = hole
    sill = max(0.0, min(height - tall, 2.8)) if kind == "window" else 0.0
    y = top + (height - sill - tall) * scale
    return _box(at + left * scale, y, width * scale, tall * scale, f"room-{kind}")


def _box(left: float, top: float, wide: float, high: float, kind: str) -> str:
    return f'<rect x="{left:.1f}" y="{top:.1f}" width="{wide:.1f}" height="{high:.1f}" class="{kind}"/>'


def _legend(done: set[str], y: float) -> str:
    words = [("room-painted", "painted")] if {"walls", "ceiling"} & done else []
    words += [("room-papered", "papered")] if "paper" in done else []
    words += [("room-bare", "left as it is")]
    return "".join(
        f'<rect x="{20 + 120 * place}" y="{y - 9:.1f}" width="11" height="11" class="{kind} room-edge"/>'
        f'<text x="{36 + 120 * place}" y="{y:.1f}">{word}</text>'
        for place, (kind, word) in enumerate(words)
    )
