"""Walls as SVG: each faced squarely, with the pieces put on it, their numbers, the seams and the openings."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from estimating.reports.format import UnitSystem, length
from estimating.scopes.drawings import Elevation, Patch
from estimating.workbook import Outcome

WIDTH = 720.0
TALLEST = 320.0
MARGIN = 40.0
UNDER = 44.0  # room for the width and the legend below a wall
BELOW_TOP = 0.6  # ft: a piece is numbered near its upper end, where no opening hides it
INK = "var(--jp-ui-font-color1,#222)"
PALE = "var(--jp-ui-font-color2,#555)"
PAPER = "var(--jp-layout-color1,#fff)"
PIECE = "var(--jp-layout-color2,#eee)"
SHADED = "#f6c28b"
SEAM = "#1d4ed8"


def wall_elevation(wall: Elevation, shown: UnitSystem = UnitSystem.US) -> str:
    """Return one wall with the pieces that fall on it, left to right as it is faced."""
    scale = min((WIDTH - 2 * MARGIN) / wall.width, TALLEST / wall.height)
    height = wall.height * scale + MARGIN + UNDER
    title = escape(wall.title)
    size = f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" width="{WIDTH:.0f}"'
    pieces = "".join(_box(each, wall, scale, f'fill="{SHADED if each.shaded else PIECE}"') for each in wall.pieces)
    seams = "".join(_seam(at, wall, scale) for at in wall.seams)
    openings = "".join(
        _box(each, wall, scale, f'fill="{PAPER}" stroke="{INK}"') + _named(each, wall, scale) for each in wall.openings
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" aria-label="{title}"><title>{title}</title>'
        f"{pieces}{seams}{openings}{_frame(wall, scale)}{_numbers(wall, scale)}"
        f"{_words(wall, scale, height, shown)}</svg>"
    )


def elevations(walls: Iterable[Elevation], shown: UnitSystem = UnitSystem.US) -> str:
    """Return walls one after the other."""
    return "".join(f'<div class="pe-drawing">{wall_elevation(wall, shown)}</div>' for wall in walls)


def drawn_walls(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return every wall that the kinds of work in a job have drawn."""
    return elevations((each for each in outcome.drawings if isinstance(each, Elevation)), shown)


def _at(across: float, up: float, wall: Elevation, scale: float) -> tuple[float, float]:
    return MARGIN + across * scale, MARGIN + (wall.height - up) * scale


def _box(patch: Patch, wall: Elevation, scale: float, style: str) -> str:
    x, y = _at(patch.left, patch.top, wall, scale)
    wide, tall = (patch.right - patch.left) * scale, (patch.top - patch.bottom) * scale
    return f'<rect x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{tall:.1f}" {style}/>'


def _named(patch: Patch, wall: Elevation, scale: float) -> str:
    x, y = _at((patch.left + patch.right) / 2, (patch.bottom + patch.top) / 2, wall, scale)
    style = f'text-anchor="middle" font-size="12" fill="{PALE}"'
    return f'<text x="{x:.1f}" y="{y + 4:.1f}" {style}>{escape(patch.words)}</text>'


def _seam(at: float, wall: Elevation, scale: float) -> str:
    (x, low), (_, top) = _at(at, 0.0, wall, scale), _at(at, wall.height, wall, scale)
    return f'<line class="pe-seam" x1="{x:.1f}" y1="{low:.1f}" x2="{x:.1f}" y2="{top:.1f}" stroke="{SEAM}"/>'


def _frame(wall: Elevation, scale: float) -> str:
    whole = Patch(0.0, wall.width, 0.0, wall.height)
    return _box(whole, wall, scale, f'fill="none" stroke="{INK}" stroke-width="2"')


def _numbers(wall: Elevation, scale: float) -> str:
    words = []
    for each in wall.pieces:
        below = min((each.top - each.bottom) / 2, BELOW_TOP)
        x, y = _at((each.left + each.right) / 2, each.top - below, wall, scale)
        words.append(
            f'<text class="pe-strip" x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle">{escape(each.words)}</text>'
        )
    return f'<g font-size="12" fill="{INK}">{"".join(words)}</g>'


def _words(wall: Elevation, scale: float, height: float, shown: UnitSystem) -> str:
    x, y = _at(wall.width / 2, 0.0, wall, scale)
    left, middle = _at(0.0, wall.height / 2, wall, scale)
    turned = f'transform="rotate(-90 {left - 12:.1f} {middle:.1f})"'
    return (
        f'<g font-size="12" fill="{PALE}"><text x="{x:.1f}" y="{y + 16:.1f}" text-anchor="middle">'
        f"{escape(wall.name)}, {length(wall.width, shown)}</text>"
        f'<text x="{left - 12:.1f}" y="{middle:.1f}" text-anchor="middle" {turned}>{length(wall.height, shown)}</text>'
        f'<text x="{MARGIN:.0f}" y="{height - 8:.1f}">{escape(wall.legend)}</text></g>'
    )
