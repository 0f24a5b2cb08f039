"""The papered walls as they are drawn: strips numbered as they are hung, part strips shaded, seams and openings."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.scopes.drawings import Elevation, Patch
from estimating.trade.wallcovering.layout import WHOLE, Layout, Wall

LEGEND = "numbers: strips in the order they are hung · shaded: part strips · blue: seams"


def elevations(room: Layout) -> Iterator[Elevation]:
    """Yield every wall of a layout, in the order it is hung."""
    for wall in room.walls:
        yield Elevation(
            f"Papered wall, {wall.name}",
            wall.name,
            wall.width,
            wall.height,
            pieces=tuple(_strips(room, wall)),
            openings=tuple(Patch(each.left, each.right, each.sill, each.head, each.name) for each in wall.openings),
            seams=tuple(room.seams(wall.name)),
            legend=LEGEND,
        )


def _strips(room: Layout, wall: Wall) -> Iterator[Patch]:
    for each in room.strips:
        if each.wall == wall.name:
            top = each.bottom + each.length
            yield Patch(each.left, each.right, each.bottom, top, str(each.number), shaded=each.kind not in WHOLE)
