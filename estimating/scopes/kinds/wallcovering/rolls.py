"""The goods to be hung, as figures and as what the layout cuts: size of the roll, trims, match and repeat."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.evidence import Basis
from estimating.figures import Figure, leaf
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.wallcovering.notes import Covering, Goods, RollFormat
from estimating.trade.wallcovering import cutting
from estimating.trade.wallcovering.cutting import Match
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
    return float(convert(figure.value, figure.unit, "ft"))


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
