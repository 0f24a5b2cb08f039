"""The goods to be hung, the strips and rolls they come to on the walls, and how many more where those are larger."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from estimating.errors import InputError
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.values import Answer
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.wallcovering.notes import (
    Covering,
    Goods,
    PaperedWall,
    PlacedOpening,
    RollFormat,
    Wallcovering,
)
from estimating.scopes.shared import measure
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import outline
from estimating.trade.wallcovering import cutting
from estimating.trade.wallcovering.cutting import CuttingPlan, Match, cutting_plan, rolls_by_tape
from estimating.trade.wallcovering.layout import Layout, Wall, WallOpening, layout
from estimating.units import Reading, convert

FORMATS = {
    None: "roll_us_double",
    RollFormat.METRIC: "roll_metric",
    RollFormat.US_SINGLE: "roll_us_single",
    RollFormat.US_NARROW: "roll_us_narrow",
    RollFormat.US_DOUBLE: "roll_us_double",
    RollFormat.WEAVE: "grasscloth",
    RollFormat.WIDE: "commercial_54",
}
HANGS_AS = {
    None: "plain",
    Covering.PAPER: "plain",
    Covering.VINYL: "vinyl",
    Covering.GRASSCLOTH: "grasscloth",
    Covering.MURAL: "mural",
    Covering.COMMERCIAL: "commercial",
}
PASTES = {Covering.VINYL: "paste_clay", Covering.COMMERCIAL: "paste_clay"}
PASTE = "paste_clear"
LINING = "lining"
SPLITS = 5  # how often the span of sizes is halved to find where another roll is needed: to 1/32 of it
BEYOND = 2.25  # so far beyond its high end, on a log scale, the tape is looked at: past the 99th percentile


@dataclass(frozen=True)
class Paper:
    """A wallcovering by the roll or by length."""

    title: str
    hangs_as: str  # what its rate of hanging goes by
    paste: str
    width: Figure
    length: Figure  # of one roll or bolt
    trim: Figure  # top and bottom together
    repeat: Figure
    match: Match
    by_length: bool = False

    @property
    def to_cut(self) -> cutting.RollGoods:
        """The goods as the layout cuts them, in ft."""
        half = feet(self.trim) / 2
        return cutting.RollGoods(feet(self.width), feet(self.length), self.match, feet(self.repeat), half, half)

    @property
    def size(self) -> str:
        """The size of a roll and its match, in words."""
        match = "random match" if self.match is Match.RANDOM else f"{self.match} match, repeat {_inches(self.repeat)}"
        return f"{_inches(self.width)} wide, {feet(self.length):.1f} ft long, {match}"


def feet(figure: Figure) -> float:
    """Return a length in ft."""
    return figure.value_in("ft")


def _inches(figure: Figure) -> str:
    return f"{convert(figure.value, figure.unit, 'inch'):.4g} in"


def labelled(reading: Reading, name: str, key: str) -> Figure:
    """Return a length read off a label."""
    return leaf(name, reading.value, reading.unit, Origin(Kind.ENTERED, place=f"{key}, {reading.text}"), key=key)


def new_paper(goods: Goods, where: str, basis: Basis) -> Paper:
    """Return the new goods: as the label says, and as the format's row says where nobody has read the label."""
    row = FORMATS[goods.format]
    trim = "trim_drop_metric" if goods.format is RollFormat.METRIC else "trim_drop"

    def read(field: str, *keys: str) -> Figure:
        typed = getattr(goods, field)
        if typed is None:
            return basis.figure("wallcovering", *keys)
        title = basis.library.row("wallcovering", *keys).title
        return labelled(typed, title, f"{where} · goods · {field}")

    match = goods.match or Match.STRAIGHT
    return Paper(
        title=f"{goods.covering or 'wallcovering'}{f' “{goods.pattern}”' if goods.pattern else ''}",
        hangs_as=HANGS_AS[goods.covering],
        paste=PASTES.get(goods.covering, PASTE) if goods.covering else PASTE,
        width=read("width", row, "width"),
        length=read("length", row, "length"),
        trim=read("trim", trim, "length"),
        repeat=_none() if match is Match.RANDOM else read("repeat", "repeat_unknown", "length"),
        match=match,
        by_length=goods.format is RollFormat.WIDE,
    )


def lining_paper(basis: Basis) -> Paper:
    """Return lining paper, which has no pattern and is hung upright, its seams away from those of the paper."""
    return Paper(
        title="lining paper",
        hangs_as=LINING,
        paste=PASTE,
        width=basis.figure("wallcovering", LINING, "width"),
        length=basis.figure("wallcovering", LINING, "length"),
        trim=basis.figure("wallcovering", "trim_drop_metric", "length"),
        repeat=_none(),
        match=Match.RANDOM,
    )


def _none() -> Figure:
    return leaf("pattern repeat", 0.0, "ft", definition("a random match has nothing to meet"))


@dataclass(frozen=True)
class Count:
    """One kind of paper on the walls of a work area: where it falls, how it is cut, and what it comes to."""

    paper: Paper
    layout: Layout
    cuts: CuttingPlan
    full: Figure  # strips in full height
    parts: Figure  # part strips that no full strip gives
    rolls: Figure
    running: Figure  # the length used off the roll, ft
    rolls_at_worst: int | None  # every roll begins where the pattern is wanted least; None where it is too short then


def count(item: Wallcovering, work_area: WorkArea, paper: Paper) -> Count:
    """Return the strips and rolls of a paper on the walls as taped.

    Raises InputError, naming the wall and the field, for walls or goods that cannot be hung.
    """
    tape_accuracy = measure.tape(work_area)

    def lay(scale: float) -> tuple[Layout, CuttingPlan]:
        room = laid_out(item, work_area, paper, scale)
        return room, cutting_plan(room, paper.to_cut)

    try:
        room, cuts = lay(1.0)
    except InputError as problem:
        where = f'work "{item.room}"'
        raise InputError(f"{where} · {problem.field}", problem.value, problem.needed) from problem
    why = Origin(
        Kind.DEFINITION,
        place=f"counted by laying out {len(room.walls)} walls in strips of {paper.size}",
        note="corners, openings and the pattern use up wallcovering as no formula gives",
    )
    return Count(
        paper,
        room,
        cuts,
        full=leaf(f"{paper.title}: full strips", room.full_strips, "dimensionless", why),
        parts=leaf(f"{paper.title}: part strips", len(room.parts), "dimensionless", why),
        rolls=_rolls(paper, cuts.rolls, tape_accuracy, lambda scale: lay(scale)[1].rolls, why),
        running=_running(paper, cuts, tape_accuracy, why),
        rolls_at_worst=_at_worst(room, paper),
    )


def laid_out(item: Wallcovering, work_area: WorkArea, paper: Paper, scale: float = 1.0) -> Layout:
    """Return where the strips fall on walls `scale` times as large as taped."""
    height = work_area.room.room.height
    walls = [_wall(wall, height.value if height else 0.0, scale) for wall in item.walls]
    basis = work_area.basis
    return layout(
        walls,
        roll_width=feet(paper.width),
        wrap=feet(basis.figure("wallcovering", "trim_overlap_corner", "length")),
        least_piece=feet(basis.figure("wallcovering", "least_piece", "length")),
        around=item.closes_the_room is Answer.YES,
        start=item.start or "",
    )


def _wall(wall: PaperedWall, room_height: float, scale: float) -> Wall:
    height = wall.height.value if wall.height else room_height
    holes = tuple(_hole(each, scale) for each in wall.openings or ())
    return Wall(wall.name, wall.width.value * scale, height * scale, holes)


def _hole(opening: PlacedOpening, scale: float) -> WallOpening:
    sill = opening.sill.value if opening.sill else 0.0
    left, width, head = opening.left.value * scale, opening.width.value * scale, opening.head.value * scale
    return WallOpening(left, width, sill * scale, head, str(opening.kind))


def _rolls(paper: Paper, as_taped: int, tape_accuracy: Figure, rolls: Callable[[float], int], why: Origin) -> Figure:
    steps = {
        f"{name}_{number}": leaf(f"{name} {number}", value, "dimensionless", why)
        for number, step in enumerate(_steps(as_taped, tape_accuracy, rolls), 1)
        for name, value in zip(("limit", "rolls"), step, strict=True)
    }
    taped = leaf(f"{paper.title}: rolls as taped", as_taped, "dimensionless", why)
    return work(rolls_by_tape, f"{paper.title}: rolls", as_taped=taped, tape_accuracy=tape_accuracy, **steps)


def _steps(as_taped: int, tape_accuracy: Figure, rolls: Callable[[float], int]) -> Iterator[tuple[float, float]]:
    """Yield each limit of the tape beyond which more rolls are needed, and how many."""
    top = (tape_accuracy.high or 1.0) ** BEYOND
    if top <= 1:
        return
    most = as_taped
    for limit, wanted in _between((1.0, as_taped), (top, _where_it_hangs(rolls, top)), rolls, SPLITS):
        if wanted > most:
            yield limit, float(wanted)
            most = wanted


def _between(
    low: tuple[float, int], high: tuple[float, int | None], rolls: Callable[[float], int], splits: int
) -> Iterator[tuple[float, int]]:
    """Yield the limits from one size of wall to a larger one; where both take as many rolls, there is none."""
    if high[1] is not None and (high[1] <= low[1] or splits == 0):
        if high[1] > low[1]:
            yield low[0], high[1]
        return
    if splits == 0:
        return
    size = math.sqrt(low[0] * high[0])
    wanted = _where_it_hangs(rolls, size)
    yield from _between(low, (size, wanted), rolls, splits - 1)
    if wanted is not None:
        yield from _between((size, wanted), high, rolls, splits - 1)


def _where_it_hangs(rolls: Callable[[float], int], scale: float) -> int | None:
    """Return the rolls, or None for walls so tall that no strip comes out of a roll: no number of rolls would do."""
    try:
        return rolls(scale)
    except InputError:
        return None


def _running(paper: Paper, cuts: CuttingPlan, tape_accuracy: Figure, why: Origin) -> Figure:
    used = sum(cuts.roll_length - cuts.offcut(roll) for roll in range(1, cuts.rolls + 1))
    name = f"{paper.title}: running length"
    along = leaf(f"{name} as taped", used, "ft", why)
    for side in ("width", "height"):  # wider walls take more strips, taller ones longer strips
        along = work(
            outline.corrected_reading, f"{name}, {side} as true as the tape", reading=along, tape_accuracy=tape_accuracy
        )
    return along


def _at_worst(room: Layout, paper: Paper) -> int | None:
    """Return the rolls when each loses a whole repeat at its beginning; its last strip needs no matching length."""
    goods = paper.to_cut
    try:
        saved = min(goods.full_cut(wall.height) - wall.height for wall in room.walls) - feet(paper.trim)
        shorter = goods.roll_length - goods.matched_repeat + saved
        return cutting_plan(room, replace(goods, roll_length=shorter)).rolls
    except InputError:
        return None
