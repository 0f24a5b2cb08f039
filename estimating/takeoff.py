"""Take-off: the quantities of a room, each as a figure that leads back to the tape."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from estimating.errors import InputError
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, total, work
from estimating.job.room import CeilingForm, LShape, Opening, OpeningKind, Polygon, Rectangle, Room, Soffit
from estimating.origins import Kind, Origin, definition
from estimating.trade import measuring, outline, walls
from estimating.units import Reading

FLAT = definition("a place on the flat: nothing in it hangs on a wall")
HEAD_AND_SILL = definition("a window has a head and a sill, a door and an arch a head alone")


@dataclass(frozen=True)
class TakeOff:
    """What a room measures: areas (ft²), lengths (ft) and counts."""

    room: Room
    floor: Figure
    perimeter: Figure
    height: Figure
    ceiling: Figure  # plan or sloped, with soffit sides; texture not yet counted
    walls: Figure  # gross, with gables under a vault
    openings: tuple[tuple[Opening, Figure], ...]  # the area of each kind of opening
    reveals: tuple[Figure, ...] = ()  # the sides of openings that are finished like the wall

    def opening_area(self, *kinds: OpeningKind) -> Figure:
        """Return the area of all openings of the given kinds; of all kinds when none is given."""
        chosen = [area for opening, area in self.openings if not kinds or opening.kind in kinds]
        return total("openings", chosen, unit="ft**2")


def taped(reading: Reading, name: str, key: str) -> Figure:
    """Return a tape reading as a figure; its origin is the tape, its place the field of the job."""
    return leaf(name, reading.value, reading.unit, Origin(Kind.MEASURED, place=f"{key}, {reading.text}"), key=key)


def counted(number: float, name: str, key: str) -> Figure:
    """Return a count made on site as a figure."""
    return leaf(name, number, "dimensionless", Origin(Kind.MEASURED, place=f"{key}, counted"), key=key)


def take_off(room: Room, basis: Basis, *, flat: bool = False) -> TakeOff:
    """Return the quantities of one room; of a place on the flat, such as a deck, without walls or height.

    Raises InputError when the height was not measured: it is needed for everything that hangs on the walls.
    """
    where = f'rooms "{room.name}"'
    if room.height is None and not flat:
        raise InputError(f"{where} · height", "unknown", "the height of the room, such as 8' 2\"")
    tape_accuracy = basis.figure("factors", "measured", str(room.measured))
    read = partial(_measured, where=where, tape_accuracy=tape_accuracy)
    floor, perimeter = _plan(room, read, where, tape_accuracy)
    height = leaf("no walls", 0.0, "ft", FLAT) if flat or room.height is None else read(room.height, "height")
    openings = tuple(_opening(each, place, where, read) for place, each in enumerate(room.openings or ()))
    return TakeOff(
        room,
        floor,
        perimeter,
        height,
        ceiling=_ceiling(room, floor, read),
        walls=_walls(room, perimeter, height, read),
        openings=openings,
        reveals=tuple(
            _reveals(*each, place, read) for place, each in enumerate(openings) if each[0].reveal is not None
        ),
    )


def _measured(reading: Reading, name: str, *, where: str, tape_accuracy: Figure) -> Figure:
    tape = taped(reading, name, f"{where} · {name}")
    return work(outline.corrected_reading, name, reading=tape, tape_accuracy=tape_accuracy)


def _plan(room: Room, read: partial[Figure], where: str, tape_accuracy: Figure) -> tuple[Figure, Figure]:
    match room.shape:
        case Rectangle(length=length, width=width):
            sides = {"length": read(length, "length"), "width": read(width, "width")}
            area = work(measuring.rectangle_area, "floor area", **sides)
            return area, work(measuring.rectangle_perimeter, "perimeter", **sides)
        case LShape() as ell:
            sides = {"length": read(ell.length, "length"), "width": read(ell.width, "width")}
            notch = {name: read(getattr(ell, name), name) for name in ("notch_length", "notch_width")}
            area = work(measuring.ell_area, "floor area", **sides, **notch)
            return area, work(measuring.rectangle_perimeter, "perimeter", **sides)
        case Polygon(corners=corners):
            _bounds_a_room(corners, where)
            points = {
                f"{axis}{number}": work(
                    outline.corrected_reading,
                    f"corner {number} {axis}",
                    reading=taped(each, f"corner {number} {axis}", f"{where} · shape · corners"),
                    tape_accuracy=tape_accuracy,
                )
                for number, corner in enumerate(corners, 1)
                for axis, each in zip("xy", corner, strict=True)
            }
            area = work(outline.outline_area, "floor area", **points)
            return area, work(outline.outline_perimeter, "perimeter", **points)


def _bounds_a_room(corners: Sequence[tuple[Reading, Reading]], where: str) -> None:
    try:
        outline.bounds_a_room([(x.value, y.value) for x, y in corners])
    except InputError as problem:
        raise InputError(f"{where} · shape · {problem.field}", problem.value, problem.needed) from problem


def _sides(room: Room) -> tuple[Reading, Reading]:
    if isinstance(room.shape, Polygon):
        field = f'rooms "{room.name}" · ceiling'
        raise InputError(field, str(room.ceiling), "flat for a room given by corners, or a rectangular room")
    return room.shape.length, room.shape.width


def _ceiling(room: Room, floor: Figure, read: partial[Figure]) -> Figure:
    surface = floor
    if room.ceiling is not CeilingForm.FLAT and room.rise is not None:
        span = read(_sides(room)[1], "width")
        rise = read(room.rise, "rise")
        run = span if room.ceiling is CeilingForm.SLOPED else work(outline.half, "half the width", length=span)
        surface = work(measuring.sloped_area, "sloped ceiling", plan_area=floor, rise=rise, run=run)
    boxed = [_soffit(each, place, room.name, read) for place, each in enumerate(room.soffits)]
    return total("ceiling area", [surface, *boxed], unit="ft**2")


def _soffit(soffit: Soffit, place: int, room: str, read: partial[Figure]) -> Figure:
    key = f'rooms "{room}" · soffits[{place}]'
    return work(
        measuring.soffit_sides,
        f"soffit {place + 1} sides",
        length=read(soffit.length, f"soffits[{place}] · length"),
        depth=read(soffit.width, f"soffits[{place}] · width"),
        drop=read(soffit.drop, f"soffits[{place}] · drop"),
        faces=counted(soffit.faces, "long sides that show", f"{key} · faces"),
        ends=counted(soffit.ends, "ends that show", f"{key} · ends"),
    )


def _walls(room: Room, perimeter: Figure, height: Figure, read: partial[Figure]) -> Figure:
    flat = work(measuring.wall_area, "wall area", perimeter=perimeter, height=height)
    if room.ceiling is CeilingForm.FLAT or room.rise is None:
        return flat
    length, width = _sides(room)
    rise = read(room.rise, "rise")
    gable = work(measuring.gable_area, "gable", width=read(width, "width"), rise=rise)
    above = [gable, gable]
    if room.ceiling is CeilingForm.SLOPED:
        edge = read(length, "length")
        above.append(work(measuring.wall_area, "wall under the high edge", perimeter=edge, height=rise))
    return total("wall area", [flat, *above], unit="ft**2")


def _opening(opening: Opening, place: int, where: str, read: partial[Figure]) -> tuple[Opening, Figure]:
    key = f"openings[{place}]"
    area = work(
        measuring.full_deduction,
        f"{opening.kind} openings",
        width=read(opening.width, f"{key} · width"),
        height=read(opening.height, f"{key} · height"),
        count=counted(opening.count, f"{opening.kind} count", f"{where} · {key} · count"),
    )
    return opening, area


def _reveals(opening: Opening, area: Figure, place: int, read: partial[Figure]) -> Figure:
    """Return the painted sides of a kind of opening: both jambs and the head, and the sill of a window."""
    key = f"openings[{place}] · reveal"
    if opening.reveal is None or opening.kind is OpeningKind.SKYLIGHT:
        raise InputError(key, str(opening.reveal), "none for a skylight: note the sides of its shaft as a soffit")
    size = dict(area.inputs)
    has_sill = opening.kind is OpeningKind.WINDOW
    one = work(
        measuring.reveal_area,
        f"reveal of one {opening.kind}",
        width=size["width"],
        height=size["height"],
        depth=read(opening.reveal, key),
        sills=leaf("head and sill" if has_sill else "head", 2 if has_sill else 1, "dimensionless", HEAD_AND_SILL),
    )
    return work(walls.several, f"reveals of {opening.kind}s", each=one, count=size["count"])
