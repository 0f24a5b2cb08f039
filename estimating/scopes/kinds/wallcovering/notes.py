"""Walls to be papered: what they measure, what hangs on them now, what the test strips showed, and the new goods."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, PlainValidator, model_validator

from estimating.errors import InputError
from estimating.job.model import Claim, RoomPart, WorkNotes
from estimating.job.values import Answer, Length, Listed, Notes, Offset, Whole
from estimating.trade.wallcovering.cutting import Match


def _dollars(given: object) -> float:
    text = str(given).strip().removeprefix("$").removesuffix("dollar").replace(",", "").strip()
    try:
        amount = float(text)
    except ValueError:
        amount = -1.0
    if isinstance(given, bool) or not 0 <= amount < float("inf"):
        raise InputError("quantity", given, "dollars, such as 48 or $48.50, or unknown")
    return amount


Dollars = Annotated[float, PlainValidator(_dollars)]


class Gap(StrEnum):
    """What takes no paper in a papered wall."""

    DOOR = "door"
    ARCH = "arch"
    WINDOW = "window"
    BUILT_IN = "built-in"
    FIREPLACE = "fireplace"


STANDS_ON_THE_FLOOR = (Gap.DOOR, Gap.ARCH, Gap.FIREPLACE)


class PlacedOpening(Notes):
    """An opening and its place: from the wall's left end, and from the lower edge of the paper."""

    kind: Gap
    left: Offset
    width: Length
    sill: Offset | None = None  # its lower edge; a door's is 0
    head: Length  # its upper edge

    @model_validator(mode="after")
    def _has_edges(self) -> PlacedOpening:
        if self.sill is None and self.kind not in STANDS_ON_THE_FLOOR:
            raise InputError("sill", None, f"how far the lower edge of the {self.kind} is up, such as 2' 10\"")
        if self.sill is not None and self.sill.value >= self.head.value:
            raise InputError("head", self.head.text, f"more than the sill at {self.sill.text}")
        return self


class PaperedWall(Notes):
    """One wall from corner to corner, as it is faced; the next wall in the list is the one to its right."""

    name: str
    width: Length
    height: Length | None = None  # of the paper; the room's height where it goes from base to ceiling
    openings: Listed[PlacedOpening] | None = None

    @property
    def open_area(self) -> float:
        """What its openings take up (ft²)."""
        return sum(
            each.width.value * (each.head.value - (each.sill.value if each.sill else 0.0))
            for each in self.openings or ()
        )


class Covering(StrEnum):
    """What the new goods are made of."""

    PAPER = "paper"
    VINYL = "vinyl"
    GRASSCLOTH = "grasscloth"
    MURAL = "mural"
    COMMERCIAL = "commercial vinyl"


class RollFormat(StrEnum):
    """How the goods are put up."""

    METRIC = "metric roll"
    US_SINGLE = "US single roll"
    US_NARROW = "US single roll, 18 in"
    US_DOUBLE = "US double roll"
    WEAVE = "natural weave, 36 in"
    WIDE = "wide goods by length"


class Supplier(StrEnum):
    """Who buys the paper."""

    CLIENT = "client"
    CONTRACTOR = "contractor"


class Goods(Notes):
    """The new wallcovering as its label gives it."""

    pattern: str | None = None
    covering: Covering | None = None
    format: RollFormat | None = None
    width: Length | None = None  # as the label says, in place of the format's
    length: Length | None = None
    match: Match | None = None
    repeat: Length | None = None
    trim: Length | None = None  # cut off each strip at top and bottom together
    supplied_by: Supplier | None = None
    price: Dollars | None = None  # a roll; of wide goods, a step
    sold_by: Whole | None = None  # rolls that are only sold together
    step: Length | None = None  # wide goods are sold by this length
    spare: Whole | None = None  # rolls over and above; of wide goods, strips
    batch: str | None = None  # number of the dye lot on the rolls

    @model_validator(mode="after")
    def _can_be_bought(self) -> Goods:
        if self.sold_by == 0:
            raise InputError("sold_by", self.sold_by, "1 or more rolls sold together")
        if self.supplied_by is Supplier.CONTRACTOR and self.price is None:
            raise InputError("price", None, "what a roll costs, such as $48, where the contractor buys the paper")
        return self


class OldCovering(StrEnum):
    """What hangs on the walls now."""

    NONE = "none"
    PAPER = "paper"
    STRIPPABLE = "strippable paper"
    VINYL = "vinyl"
    EMBOSSED = "embossed or textured"
    GRASSCLOTH = "grasscloth"
    FOIL = "foil"


class Release(StrEnum):
    """How a test strip came off, from the easiest to the worst."""

    DRY = "peeled dry"
    WATER = "came with water"
    STEAM = "came with steam"
    TORN = "took face paper or plaster"
    STUCK = "would not come"


class StripTest(Notes):
    """One test strip, taken off in one place."""

    where: str | None = None
    result: Release
    width: Length | None = None
    height: Length | None = None
    minutes: Whole | None = None


class Existing(Notes):
    """The covering on the walls now, and how it let go where it was tried."""

    covering: OldCovering | None = None
    layers: Whole | None = None
    painted_over: Answer | None = None
    wall_sized: Answer | None = None  # was the wall sized or primed before it was papered
    tight: Answer | None = None  # no open seam, no blister, no loose edge
    tests: Listed[StripTest] = ()

    @model_validator(mode="after")
    def _has_layers(self) -> Existing:
        if self.layers == 0 and self.covering not in (None, OldCovering.NONE):
            raise InputError("layers", self.layers, f"1 or more layers of {self.covering}, or unknown")
        return self


class WallState(StrEnum):
    """The wall itself, as far as it can be seen."""

    FLAT = "sound, flat paint"
    GLOSS = "sound, gloss paint"
    BARE_BOARD = "bare board"
    BARE_PLASTER = "bare plaster"
    PATCHED = "patched or cracked"
    ROUGH = "rough or sand finish"
    DAMP = "damp"


class FirstCoat(StrEnum):
    """What the wall gets before paper."""

    PRIMER = "wallcovering primer"
    SIZE = "size"
    NONE = "none"


class CeilingLine(StrEnum):
    """Where the paper ends at its top."""

    LEVEL = "straight and level"
    UNEVEN = "out of level"
    CROWN = "crown molding"
    COVE = "cove"
    SLOPED = "sloped"


class Place(StrEnum):
    """How much room there is to work in."""

    OPEN = "open room"
    SMALL = "kitchen, bath or powder room"
    STAIRS = "stairs"


class ObstacleKind(StrEnum):
    """What has to be cut round beside doors and windows."""

    OUTLET = "outlet or switch"
    FIXTURE = "lamp, bracket or rail"
    RECESS = "papered recess"


class Obstacle(Notes):
    """Obstacles of one kind, and how many."""

    kind: ObstacleKind
    count: Whole


class Wallcovering(WorkNotes):
    """The site notes of walls to be papered."""

    kind: Literal["wallcovering"] = "wallcovering"
    walls: tuple[PaperedWall, ...] = Field(min_length=1)
    closes_the_room: Answer | None = None  # does the last wall meet the first
    start: str | None = None  # the wall to begin at its left corner
    goods: Goods = Goods()
    existing: Existing = Existing()
    wall: WallState | None = None
    first_coat: FirstCoat | None = None
    obstacles: Listed[Obstacle] | None = None
    ceiling_line: CeilingLine | None = None
    place: Place | None = None

    @model_validator(mode="after")
    def _walls_have_names_of_their_own(self) -> Wallcovering:
        names = [wall.name for wall in self.walls]
        if len(set(names)) < len(names):
            raise InputError("walls", ", ".join(names), "a different name for each wall")
        if self.start is not None and self.start not in names:
            raise InputError("start", self.start, f"one of the walls: {', '.join(names)}, or unknown")
        return self

    def claims(self) -> tuple[Claim, ...]:
        """Return each wall that is papered, by its name."""
        return tuple(
            Claim(RoomPart.WALLS, wall.name, width=wall.width, height=wall.height, openings=wall.open_area)
            for wall in self.walls
        )
