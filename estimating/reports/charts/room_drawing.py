"""A plan of the ceiling as SVG: outline, drape line, lanes of the gun, and fixtures by kind.

Fixtures are set out evenly: the site notes count them and do not say where they are, and the drawing says so.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from zlib import crc32

from estimating.job.room import Fixtures, LShape, Polygon, Room
from estimating.reports.format import UnitSystem, length, quantity
from estimating.scopes.drawings import CeilingPlan
from estimating.workbook import Outcome

Point = tuple[float, float]
WIDTH = 720.0
MARGIN = 46.0
INK = "var(--jp-ui-font-color1,#222)"
PAPER = "var(--jp-layout-color1,#fff)"
TAPE = "#c2410c"
SIGNS = {
    "recessed_light": ("○", "recessed light"),
    "ceiling_light": ("◎", "ceiling light"),
    "pendant": ("◇", "pendant"),
    "fan": ("✳", "fan"),
    "grille": ("▤", "grille"),
    "detector": ("◉", "detector"),
    "sprinkler_head": ("✕", "sprinkler head"),
    "speaker": ("◍", "speaker"),
}


def corners(room: Room) -> list[Point]:
    """Return the corners of a room's outline (ft), from the corner its tape readings start at."""
    shape = room.shape
    if isinstance(shape, Polygon):
        return [(x.value, y.value) for x, y in shape.corners]
    length, width = shape.length.value, shape.width.value
    if isinstance(shape, LShape):
        cut_length, cut_width = length - shape.notch_length.value, width - shape.notch_width.value
        return [(0, 0), (length, 0), (length, cut_width), (cut_length, cut_width), (cut_length, width), (0, width)]
    return [(0, 0), (length, 0), (length, width), (0, width)]


def ceiling_plan(room: Room, spacing_inches: float | None = None, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the plan of a ceiling; lanes are drawn where the spacing of the strokes is given."""
    points = corners(room)
    left, bottom = min(x for x, _ in points), min(y for _, y in points)
    wide = max(x for x, _ in points) - left
    deep = max(y for _, y in points) - bottom
    scale = min((WIDTH - 2 * MARGIN) / wide, 460 / deep)
    height = deep * scale + 2 * MARGIN + 40

    def at(point: Point) -> Point:
        return MARGIN + (point[0] - left) * scale, MARGIN + (point[1] - bottom) * scale

    outline = " ".join(f"{x:.1f},{y:.1f}" for x, y in map(at, points))
    clip = f"pe-clip-{crc32(outline.encode()):08x}"
    lanes = _lanes(points, spacing_inches, at, clip) if spacing_inches else ""
    title = escape(f"Plan of the ceiling, {room.name}")
    size = f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" width="{WIDTH:.0f}"'
    edge = f'<polygon points="{outline}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" aria-label="{title}"><title>{title}</title>'
        f'<defs><clipPath id="{clip}">{edge}/></clipPath></defs>'
        f'{edge} fill="{PAPER}" stroke="{INK}" stroke-width="2"/>{lanes}'
        f'{edge} fill="none" stroke="{TAPE}" stroke-width="5" stroke-dasharray="12 5" opacity="0.75"/>'
        f"{_sizes(points, at, shown)}{_fixtures(points, room.fixtures, at)}"
        f"{_legend(room, spacing_inches, height, shown)}</svg>"
    )


def _lanes(points: list[Point], spacing_inches: float, at: Callable[[Point], Point], clip: str) -> str:
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, top = min(y for _, y in points), max(y for _, y in points)
    step = spacing_inches / 12
    count = min(400, int((top - low) / step))
    rows = [low + step * (number + 0.5) for number in range(count)]
    ends = ((at((left, y)), at((right, y))) for y in rows)
    strokes = "".join(f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}"/>' for (x1, y1), (x2, y2) in ends)
    return f'<g clip-path="url(#{clip})" stroke="var(--jp-brand-color2,#64b5f6)" stroke-width="1">{strokes}</g>'


def _sizes(points: list[Point], at: Callable[[Point], Point], shown: UnitSystem) -> str:
    sides = list(zip(points, points[1:] + points[:1], strict=True))
    turn = 1 if sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in sides) > 0 else -1
    words = []
    for (x1, y1), (x2, y2) in sides:
        side = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        x, y = at(((x1 + x2) / 2, (y1 + y2) / 2))
        across, along = turn * (y2 - y1) / side, turn * (x1 - x2) / side  # outward
        place = f'x="{x + 26 * across:.1f}" y="{y + 18 * along + 4:.1f}"'
        words.append(f'<text {place} text-anchor="middle">{length(side, shown)}</text>')
    return f'<g font-size="12" fill="{INK}">{"".join(words)}</g>'


def _inside(point: Point, points: list[Point]) -> bool:
    x, y = point
    crossings = 0
    for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1], strict=True):
        if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
            crossings += 1
    return crossings % 2 == 1


def _places(points: list[Point], count: int) -> list[Point]:
    """Return so many places spread over the inside of an outline, on the coarsest even grid that has room for them."""
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, top = min(y for _, y in points), max(y for _, y in points)
    for cells in range(1, 60):
        grid = [
            (left + (right - left) * (column + 0.5) / cells, low + (top - low) * (row + 0.5) / cells)
            for row in range(cells)
            for column in range(cells)
        ]
        found = [place for place in grid if _inside(place, points)]
        if len(found) >= count:
            every = len(found) / count
            return [found[int(number * every)] for number in range(count)]
    return []


def _fixtures(points: list[Point], fixtures: Fixtures, at: Callable[[Point], Point]) -> str:
    signs = [sign for kind, (sign, _) in SIGNS.items() for _ in range(getattr(fixtures, kind) or 0)]
    places = _places(points, len(signs)) if signs else []
    words = "".join(
        f'<text x="{at(place)[0]:.1f}" y="{at(place)[1] + 6:.1f}" text-anchor="middle">{sign}</text>'
        for sign, place in zip(signs, places, strict=False)
    )
    return f'<g font-size="20" fill="{INK}">{words}</g>'


def _legend(room: Room, spacing_inches: float | None, height: float, shown: UnitSystem) -> str:
    parts = ["dashed: paper, tape and drape"]
    if spacing_inches:
        apart = quantity(spacing_inches, "inch", shown, digits=2)
        parts.append(f"lines: strokes {apart} apart, first pass; cross them on the second")
    parts += [f"{sign} {name}" for kind, (sign, name) in SIGNS.items() if getattr(room.fixtures, kind)]
    note = "fixtures are counted, not placed"
    return (
        f'<g font-size="12" fill="var(--jp-ui-font-color2,#555)"><text x="{MARGIN:.0f}" y="{height - 26:.0f}">'
        f'{escape("  ·  ".join(parts[:2]))}</text><text x="{MARGIN:.0f}" y="{height - 8:.0f}">'
        f"{escape('  ·  '.join([*parts[2:], note]))}</text></g>"
    )


def plans_of_ceilings(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the plan of every room whose ceiling is coated, with the gun's lanes where its ceiling is sprayed."""
    plans = {
        each.room: each.lanes.value if each.lanes else None
        for each in outcome.drawings
        if isinstance(each, CeilingPlan)
    }
    return "".join(
        f'<div class="pe-drawing">{ceiling_plan(outcome.job.room(room), lanes, shown)}</div>'
        for room, lanes in plans.items()
    )
