"""Where the strips of a room fall: a walk along its walls, seam by seam and corner by corner.

All lengths are in one unit, whichever the caller uses. Walls are plain rectangles; a slope is given as its height.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from itertools import pairwise

from estimating.errors import InputError
from estimating.trade._numbers import TOLERANCE  # lengths closer than this are one length


class StripKind(StrEnum):
    """What a piece of paper on a wall is."""

    FULL = "full height"
    CUT_ROUND = "full height, cut round an opening"
    OVER = "over an opening"
    UNDER = "under an opening"
    BETWEEN = "between two openings"


WHOLE = frozenset({StripKind.FULL, StripKind.CUT_ROUND})


@dataclass(frozen=True)
class WallOpening:
    """A door, window or built-in that takes no paper, from the wall's left end and its bottom edge.

    sill: its lower edge, 0 for a door. head: its upper edge.
    """

    left: float
    width: float
    sill: float
    head: float
    name: str = "opening"

    @property
    def right(self) -> float:
        """Its right edge, from the wall's left end."""
        return self.left + self.width


@dataclass(frozen=True)
class Wall:
    """One wall, papered from end to end but for its openings; walls follow each other to the right."""

    name: str
    width: float
    height: float
    openings: tuple[WallOpening, ...] = ()


@dataclass(frozen=True)
class Strip:
    """One piece of paper on one wall.

    number: the strip off the roll it belongs to; a strip that meets a corner is split and has a piece on each wall.
    left, right: on the wall. bottom: above the wall's lower edge. below_top: its upper end below the ceiling.
    wrap_left, wrap_right: further paper that goes round the corner.
    """

    number: int
    wall: str
    left: float
    right: float
    bottom: float
    length: float
    below_top: float
    kind: StripKind
    wrap_left: float = 0.0
    wrap_right: float = 0.0


@dataclass(frozen=True)
class PieceToCut:
    """One length to cut from a roll or an offcut: a full strip, or a part that no full strip gives."""

    number: int
    kind: StripKind
    length: float
    below_top: float
    wall_height: float

    @property
    def full(self) -> bool:
        """Whether it is a strip from top to bottom."""
        return self.kind in WHOLE


@dataclass(frozen=True)
class Layout:
    """Every piece of paper of a run of walls, in the order it is hung."""

    walls: tuple[Wall, ...]
    roll_width: float
    strips: tuple[Strip, ...]

    @property
    def strips_taken(self) -> int:
        """How many widths of the roll the walk uses, whether in full height or in parts."""
        return max(strip.number for strip in self.strips) if self.strips else 0

    @property
    def full_strips(self) -> int:
        """How many strips are cut in full height."""
        return sum(piece.full for piece in self.pieces)

    @property
    def parts(self) -> tuple[PieceToCut, ...]:
        """The part strips that no full strip gives."""
        return tuple(piece for piece in self.pieces if not piece.full)

    @cached_property
    def pieces(self) -> tuple[PieceToCut, ...]:
        """What has to be cut, by strip: one full strip, or each part of a strip that meets only openings."""
        heights = self._heights()
        return tuple(piece for group in self._by_number() for piece in _pieces_of(group, heights))

    @property
    def covered_area(self) -> float:
        """The wall less its openings."""
        return sum(
            wall.width * wall.height - sum(each.width * (each.head - each.sill) for each in wall.openings)
            for wall in self.walls
        )

    def seams(self, wall: str) -> tuple[float, ...]:
        """Return where two strips meet on a wall, from its left end; its corners are not among them."""
        ends = {strip.right for strip in self.strips if strip.wall == wall}
        return tuple(sorted(ends & {strip.left for strip in self.strips if strip.wall == wall}))

    def _heights(self) -> dict[str, float]:
        return {wall.name: wall.height for wall in self.walls}

    def _by_number(self) -> Iterator[list[Strip]]:
        for number in range(1, self.strips_taken + 1):
            yield [strip for strip in self.strips if strip.number == number]


def layout(
    walls: Sequence[Wall],
    *,
    roll_width: float,
    wrap: float,
    least_piece: float,
    around: bool,
    start: str = "",
) -> Layout:
    """Return where every strip falls, hung to the right from the left corner of the starting wall.

    wrap: paper carried round each corner; the rest of the strip starts the next wall over it, hung plumb again. A
    strip too narrow to go round leaves the wrap to the first strip of the next wall.
    least_piece: the narrowest remainder worth hanging beyond a corner; a narrower one is waste.
    around: the walls close a room, so that the last meets the first; otherwise both ends are trimmed.
    start: name of the wall to begin with, the first when empty.
    Raises InputError for what cannot be hung, naming the wall, the opening and the field.
    """
    _check_walls(walls)
    _check_paper(walls, roll_width, wrap, least_piece)
    ordered = _from(walls, start)
    spans = _walk([wall.width for wall in ordered], roll_width, wrap, least_piece, around)
    strips = tuple(strip for span in spans for strip in _strips_of(span, ordered[span.wall]))
    return Layout(ordered, roll_width, strips)


@dataclass(frozen=True)
class _Span:
    number: int
    wall: int
    left: float
    right: float
    wrap_left: float
    wrap_right: float = 0.0


def _walk(widths: Sequence[float], roll_width: float, wrap: float, least_piece: float, around: bool) -> list[_Span]:
    spans: list[_Span] = []
    number, behind = 1, wrap if around else 0.0
    free = roll_width - behind
    for wall, width in enumerate(widths):
        left = 0.0
        while width - left > TOLERANCE:
            if free <= TOLERANCE:
                number, free = number + 1, roll_width
            right = width if width - left - free <= TOLERANCE else left + free
            spans.append(_Span(number, wall, left, right, behind))
            free, left, behind = free - (right - left), right, 0.0
        if wall + 1 == len(widths):
            break
        if free < wrap - TOLERANCE:
            number, free, behind = number + 1, roll_width - wrap, wrap
        else:
            spans[-1] = replace(spans[-1], wrap_right=wrap)
            free = free - wrap if free - wrap >= least_piece - TOLERANCE else 0.0
    return spans


def _strips_of(span: _Span, wall: Wall) -> Iterator[Strip]:
    near = [each for each in wall.openings if each.left < span.right - TOLERANCE and each.right > span.left + TOLERANCE]
    for bottom, top in _bands_to_paper(span, wall.height, near):
        yield Strip(
            span.number,
            wall.name,
            span.left,
            span.right,
            bottom,
            top - bottom,
            wall.height - top,
            _kind(bottom, top, wall.height, bool(near)),
            span.wrap_left,
            span.wrap_right,
        )


def _kind(bottom: float, top: float, height: float, meets_opening: bool) -> StripKind:
    if bottom == 0 and top == height:
        return StripKind.CUT_ROUND if meets_opening else StripKind.FULL
    if bottom == 0:
        return StripKind.UNDER
    return StripKind.OVER if top == height else StripKind.BETWEEN


def _bands_to_paper(span: _Span, height: float, near: Sequence[WallOpening]) -> list[tuple[float, float]]:
    """Return the heights, low to high, at which some of the span's width needs paper."""
    edges = {span.left, span.right}
    edges.update(x for each in near for x in (each.left, each.right) if span.left < x < span.right)
    columns = pairwise(sorted(edges))
    return _joined(band for left, right in columns for band in _gaps(height, near, (left + right) / 2))


def _gaps(height: float, near: Sequence[WallOpening], at: float) -> Iterator[tuple[float, float]]:
    bottom = 0.0
    for opening in sorted((each for each in near if each.left < at < each.right), key=lambda each: each.sill):
        if opening.sill - bottom > TOLERANCE:
            yield bottom, opening.sill
        bottom = opening.head
    if height - bottom > TOLERANCE:
        yield bottom, height


def _joined(bands: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    joined: list[tuple[float, float]] = []
    for bottom, top in sorted(bands):
        if joined and bottom <= joined[-1][1] + TOLERANCE:
            joined[-1] = joined[-1][0], max(top, joined[-1][1])
        else:
            joined.append((bottom, top))
    return joined


def _pieces_of(group: Sequence[Strip], heights: dict[str, float]) -> Iterator[PieceToCut]:
    whole = [strip for strip in group if strip.kind in WHOLE]
    kinds = dict.fromkeys(strip.kind for strip in group)
    for kind in [whole[0].kind] if whole else kinds:
        alike = group if whole else [strip for strip in group if strip.kind == kind]
        tallest = max(heights[strip.wall] for strip in alike)
        yield PieceToCut(
            group[0].number,
            kind,
            tallest if whole else max(strip.length for strip in alike),
            0.0 if whole else min(strip.below_top for strip in alike),
            tallest,
        )


def _from(walls: Sequence[Wall], start: str) -> tuple[Wall, ...]:
    names = [wall.name for wall in walls]
    if start and start not in names:
        raise InputError("start", start, f"one of the walls: {', '.join(names)}")
    first = names.index(start) if start else 0
    return (*walls[first:], *walls[:first])


def _check_walls(walls: Sequence[Wall]) -> None:
    if not walls:
        raise InputError("walls", 0, "at least one wall")
    for place, wall in enumerate(walls):
        where = f'walls[{place}] "{wall.name}"'
        if wall.name in {each.name for each in walls[:place]}:
            raise InputError(f"{where} · name", wall.name, "a name no other wall has")
        for field, value in (("width", wall.width), ("height", wall.height)):
            if not value > 0:
                raise InputError(f"{where} · {field}", value, "more than 0")
        for number, opening in enumerate(wall.openings):
            _check_opening(f'{where} · openings[{number}] "{opening.name}"', opening, wall, wall.openings[:number])


def _check_opening(where: str, opening: WallOpening, wall: Wall, earlier: Sequence[WallOpening]) -> None:
    if not opening.left >= 0:
        raise InputError(f"{where} · left", opening.left, "0 or more: openings stand inside their wall")
    if not 0 < opening.width <= wall.width - opening.left + TOLERANCE:
        needed = f"more than 0 and at most {wall.width - opening.left:g}, to end inside its wall"
        raise InputError(f"{where} · width", opening.width, needed)
    if not opening.sill >= 0:
        raise InputError(f"{where} · sill", opening.sill, "0 or more")
    if not opening.sill < opening.head <= wall.height + TOLERANCE:
        needed = f"more than the sill at {opening.sill:g} and at most the wall's height, {wall.height:g}"
        raise InputError(f"{where} · head", opening.head, needed)
    for other in earlier:
        beside = opening.right <= other.left + TOLERANCE or other.right <= opening.left + TOLERANCE
        above_or_below = opening.head <= other.sill + TOLERANCE or other.head <= opening.sill + TOLERANCE
        if not (beside or above_or_below):
            raise InputError(f"{where} · left", opening.left, f'a place clear of "{other.name}"')


def _check_paper(walls: Sequence[Wall], roll_width: float, wrap: float, least_piece: float) -> None:
    if not roll_width > 0:
        raise InputError("roll_width", roll_width, "more than 0")
    narrowest = min(wall.width for wall in walls)
    if not 0 <= wrap < min(roll_width, narrowest):
        raise InputError("wrap", wrap, "0 or more, and less than the roll and the narrowest wall are wide")
    if not 0 <= least_piece < roll_width:
        raise InputError("least_piece", least_piece, "0 or more, and less than the roll is wide")
