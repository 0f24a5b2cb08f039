"""Papered walls as SVG: each wall faced squarely, with its strips numbered as they are hung, seams and openings."""

from __future__ import annotations

from html import escape

from estimating.evidence import Basis
from estimating.reports.format import UnitSystem, length
from estimating.scopes.kinds.wallcovering.layout import laid_out
from estimating.scopes.kinds.wallcovering.notes import Wallcovering
from estimating.scopes.kinds.wallcovering.rolls import new_paper
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import take_off
from estimating.trade.wallcovering.layout import WHOLE, Layout, Strip, Wall
from estimating.workbook import Outcome

WIDTH = 720.0
TALLEST = 320.0
MARGIN = 40.0
UNDER = 44.0  # room for the width and the legend below a wall
INK = "var(--jp-ui-font-color1,#222)"
PALE = "var(--jp-ui-font-color2,#555)"
PAPER = "var(--jp-layout-color1,#fff)"
STRIP = "var(--jp-layout-color2,#eee)"
PART = "#f6c28b"
SEAM = "#1d4ed8"
LEGEND = "numbers: strips in the order they are hung · shaded: part strips · blue: seams"


def wall_elevation(room: Layout, wall: Wall, shown: UnitSystem = UnitSystem.US) -> str:
    """Return one wall of a layout (in ft) with the strips that fall on it, left to right as it is faced."""
    scale = min((WIDTH - 2 * MARGIN) / wall.width, TALLEST / wall.height)
    height = wall.height * scale + MARGIN + UNDER
    strips = [strip for strip in room.strips if strip.wall == wall.name]
    title = escape(f"Papered wall, {wall.name}")
    size = f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" width="{WIDTH:.0f}"'
    pieces = "".join(_work_area(strip, wall, scale) for strip in strips)
    seams = "".join(_seam(at, wall, scale) for at in room.seams(wall.name))
    openings = "".join(
        _box(each.left, each.right, each.sill, each.head, wall, scale, f'fill="{PAPER}" stroke="{INK}"', each.name)
        for each in wall.openings
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" aria-label="{title}"><title>{title}</title>'
        f"{pieces}{seams}{openings}{_frame(wall, scale)}{_numbers(strips, wall, scale)}"
        f"{_words(wall, scale, height, shown)}</svg>"
    )


def elevations(room: Layout, shown: UnitSystem = UnitSystem.US) -> str:
    """Return every wall of a layout, in the order it is hung."""
    return "".join(f'<div class="pe-drawing">{wall_elevation(room, wall, shown)}</div>' for wall in room.walls)


def drawn_walls(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the walls of every piece of papering in a job."""
    basis = outcome.basis
    papered = (item for item in outcome.job.work if isinstance(item, Wallcovering))
    return "".join(elevations(_layout(item, outcome, basis), shown) for item in papered)


def _layout(item: Wallcovering, outcome: Outcome, basis: Basis) -> Layout:
    work_area = WorkArea(outcome.job, take_off(outcome.job.room(item.room), basis), basis)
    return laid_out(item, work_area, new_paper(item.goods, f'work "{item.room}"', basis))


def _at(across: float, up: float, wall: Wall, scale: float) -> tuple[float, float]:
    return MARGIN + across * scale, MARGIN + (wall.height - up) * scale


def _box(
    left: float, right: float, bottom: float, top: float, wall: Wall, scale: float, style: str, name: str = ""
) -> str:
    x, y = _at(left, top, wall, scale)
    wide, tall = (right - left) * scale, (top - bottom) * scale
    said = (
        f'<text x="{x + wide / 2:.1f}" y="{y + tall / 2 + 4:.1f}" text-anchor="middle" font-size="12" fill="{PALE}">'
        f"{escape(name)}</text>"
        if name
        else ""
    )
    return f'<rect x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{tall:.1f}" {style}/>{said}'


def _work_area(strip: Strip, wall: Wall, scale: float) -> str:
    style = f'fill="{STRIP if strip.kind in WHOLE else PART}"'
    return _box(strip.left, strip.right, strip.bottom, strip.bottom + strip.length, wall, scale, style)


def _seam(at: float, wall: Wall, scale: float) -> str:
    (x, low), (_, top) = _at(at, 0.0, wall, scale), _at(at, wall.height, wall, scale)
    return f'<line class="pe-seam" x1="{x:.1f}" y1="{low:.1f}" x2="{x:.1f}" y2="{top:.1f}" stroke="{SEAM}"/>'


def _frame(wall: Wall, scale: float) -> str:
    return _box(0.0, wall.width, 0.0, wall.height, wall, scale, f'fill="none" stroke="{INK}" stroke-width="2"')


def _numbers(strips: list[Strip], wall: Wall, scale: float) -> str:
    words = []
    for strip in strips:
        top = strip.bottom + strip.length
        below = min(strip.length / 2, 0.6)  # near its upper end, where no opening hides it
        x, y = _at((strip.left + strip.right) / 2, top - below, wall, scale)
        words.append(f'<text class="pe-strip" x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle">{strip.number}</text>')
    return f'<g font-size="12" fill="{INK}">{"".join(words)}</g>'


def _words(wall: Wall, scale: float, height: float, shown: UnitSystem) -> str:
    x, y = _at(wall.width / 2, 0.0, wall, scale)
    left, middle = _at(0.0, wall.height / 2, wall, scale)
    turned = f'transform="rotate(-90 {left - 12:.1f} {middle:.1f})"'
    return (
        f'<g font-size="12" fill="{PALE}"><text x="{x:.1f}" y="{y + 16:.1f}" text-anchor="middle">'
        f"{escape(wall.name)}, {length(wall.width, shown)}</text>"
        f'<text x="{left - 12:.1f}" y="{middle:.1f}" text-anchor="middle" {turned}>{length(wall.height, shown)}</text>'
        f'<text x="{MARGIN:.0f}" y="{height - 8:.1f}">{escape(LEGEND)}</text></g>'
    )
