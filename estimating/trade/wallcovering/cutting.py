"""Which piece comes out of which roll: full strips first, part strips out of what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from estimating.errors import InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.trade._numbers import TOLERANCE
from estimating.trade.wallcovering.layout import Layout, PieceToCut, StripKind
from estimating.trade.wallcovering.rolls import cut_length, part_cut_length, strip_length
from estimating.units import Number


class Match(StrEnum):
    """How the pattern of one strip meets the next."""

    RANDOM = "random"
    STRAIGHT = "straight"
    HALF_DROP = "half drop"
    THIRD_DROP = "third drop"

    @property
    def drops(self) -> int:
        """In how many strips the pattern is at its first height again."""
        return {Match.HALF_DROP: 2, Match.THIRD_DROP: 3}.get(self, 1)


@dataclass(frozen=True)
class RollGoods:
    """A wallcovering as its label gives it, and the trims it is cut with; all lengths in one unit.

    Raises InputError for a roll that cannot be hung: no width, no length, a repeat longer than the roll.
    """

    width: float
    roll_length: float
    match: Match
    repeat: float
    top_trim: float
    bottom_trim: float

    def __post_init__(self) -> None:
        for field in ("width", "roll_length"):
            if not getattr(self, field) > 0:
                raise InputError(field, getattr(self, field), "more than 0")
        for field in ("repeat", "top_trim", "bottom_trim"):
            if not getattr(self, field) >= 0:
                raise InputError(field, getattr(self, field), "0 or more")
        if self.repeat > self.roll_length:
            raise InputError("repeat", self.repeat, f"no more than the roll is long, {self.roll_length:g}")
        if self.match is not Match.RANDOM and self.repeat == 0:
            raise InputError("repeat", self.repeat, f"more than 0 for a {self.match} match")

    @property
    def matched_repeat(self) -> float:
        """The repeat that has to be matched: none for a random match, whatever the label says."""
        return 0.0 if self.match is Match.RANDOM else self.repeat

    def full_cut(self, height: float) -> float:
        """Return what a full strip uses of the roll; InputError when a roll is too short for it."""
        strip = strip_length(height=height, top_trim=self.top_trim, bottom_trim=self.bottom_trim)
        cut = float(cut_length(strip_length=strip, repeat=self.matched_repeat, drops=self.match.drops))
        if cut > self.roll_length + TOLERANCE:
            needed = f"a height that cuts to no more than the roll, {self.roll_length:g}; it cuts to {cut:g}"
            raise InputError("height", height, needed)
        return cut

    def part_cut(self, piece: PieceToCut) -> float:
        """Return what a part strip uses of a roll or an offcut."""
        length = strip_length(height=piece.length, top_trim=self.top_trim, bottom_trim=self.bottom_trim)
        return float(
            part_cut_length(
                part_length=length,
                below_top=piece.below_top,
                repeat=self.matched_repeat,
                drops=self.match.drops,
                full_cut=self.full_cut(piece.wall_height),
            )
        )


@dataclass(frozen=True)
class Cut:
    """One cut: from which roll, where along it, how long, and for which strip of the layout."""

    roll: int
    start: float
    length: float
    strip: int
    kind: StripKind


@dataclass(frozen=True)
class CuttingPlan:
    """Every cut, and how long a roll is."""

    cuts: tuple[Cut, ...]
    roll_length: float

    @property
    def rolls(self) -> int:
        """How many rolls are opened."""
        return max((cut.roll for cut in self.cuts), default=0)

    def offcut(self, roll: int) -> float:
        """Return what is left at the end of a roll, in one length."""
        return self.roll_length - max((cut.start + cut.length for cut in self.cuts if cut.roll == roll), default=0.0)


def cutting_plan(room: Layout, goods: RollGoods) -> CuttingPlan:
    """Return which piece comes out of which roll, full strips before parts and the longer before the shorter.

    Rolls are taken to begin where the pattern is wanted. A strip whose pattern begins elsewhere than the free end of a
    roll may skip to it, or wait for another roll; strips may be cut in either order. Of these the one that opens
    the fewest rolls is returned. When the parts of one strip would use as much as a full strip, the strip is cut in
    full and the opening cut out.
    """
    to_cut = list(_to_cut(room, goods))
    methods = (
        _cuts(sorted(to_cut, key=lambda each: (not each[0].full, -each[1], order * each[0].number)), goods, skipping)
        for order in (1, -1)
        for skipping in ((False, True) if goods.match.drops > 1 else (False,))  # at a straight match there is no skip
    )
    return min((CuttingPlan(tuple(cuts), goods.roll_length) for cuts in methods), key=lambda plan: plan.rolls)


def _cuts(to_cut: Sequence[tuple[PieceToCut, float]], goods: RollGoods, skipping: bool) -> list[Cut]:
    drops = goods.match.drops
    step = goods.matched_repeat / drops
    cuts: list[Cut] = []
    used: list[float] = []
    due: list[int] = []  # which strip of the drop the free end of each roll would be
    for piece, length in to_cut:
        skips = [(piece.number - next_due) % drops if piece.full else 0 for next_due in due]
        fits = [
            (skip, roll)
            for roll, skip in enumerate(skips)
            if (skipping or not skip) and used[roll] + skip * step + length <= goods.roll_length + TOLERANCE
        ]
        if not fits:
            fits.append((0, len(used)))
            used.append(0.0)
            due.append(piece.number)
        skip, roll = min(fits)
        start = used[roll] + skip * step
        cuts.append(Cut(roll + 1, start, length, piece.number, piece.kind))
        used[roll] = start + length
        due[roll] = piece.number + (round(length / step) if step else 0)
    return cuts


def _to_cut(room: Layout, goods: RollGoods) -> Iterator[tuple[PieceToCut, float]]:
    by_number: dict[int, list[PieceToCut]] = {}
    for piece in room.pieces:
        by_number.setdefault(piece.number, []).append(piece)
    for number, pieces in by_number.items():
        tallest = max(piece.wall_height for piece in pieces)
        lengths = [goods.full_cut(tallest) if piece.full else goods.part_cut(piece) for piece in pieces]
        if len(pieces) > 1 and sum(lengths) >= goods.full_cut(tallest) - TOLERANCE:
            yield PieceToCut(number, StripKind.CUT_ROUND, tallest, 0.0, tallest), goods.full_cut(tallest)
        else:
            yield from zip(pieces, lengths, strict=True)


@rule(
    "rolls as laid out; where the walls are larger than taped by more than a limit, the rolls beyond that limit",
    "dimensionless",
    definition("counted by laying out the same walls larger and larger: corners and openings follow no formula"),
    rest="dimensionless",
    as_taped="dimensionless, 0 rolls or more",
    tape_accuracy="dimensionless",
)
def rolls_by_tape(*, as_taped: Number, tape_accuracy: Number, **steps: Number) -> Number:
    """Return the rolls that walls take which are `trueness` times what the tape said.

    steps: a limit of trueness, then the rolls beyond it, by turns and rising, under any names. Walls that turn out
    smaller save nothing: the order is made from the tape.
    """
    values = list(steps.values())
    if len(values) % 2:
        raise InputError("steps", len(values), "a limit and its rolls in turn, so an even number of them")
    rolls = as_taped
    for limit, count in zip(values[::2], values[1::2], strict=True):
        rolls = np.where(tape_accuracy > limit, count, rolls)
    return np.asarray(rolls, dtype=float)[()]
