"""Trim, doors, windows and closets: members by length and by count, what they come to in paint, and their tasks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Phase, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.room import OpeningKind
from estimating.job.trim import ClosetSize, DoorKind, PaintedDoor, PaintedWindow, TrimKind, TrimRun
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.interior_repaint import measure
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import counted, taped
from estimating.trade import measuring, outline, walls

COEFFICIENTS = {
    DoorKind.FLUSH: "flush_door",
    DoorKind.PANEL: "panelled_door",
    DoorKind.GLAZED: "fully_glazed_wood",
    DoorKind.LOUVERED: "louvered",
    DoorKind.BIFOLD: "panelled_door",
}
WINDOWS = "fully_glazed_wood"
CLOSETS = {ClosetSize.SMALL: "small", ClosetSize.WALK_IN: "walk_in"}


@dataclass(frozen=True)
class Member:
    """One kind of trim, door, window or closet in the room."""

    key: str
    name: str
    quantity: Figure  # ft by length, a number by count
    area: Figure  # the even area its paint goes by (ft²)
    row: tuple[str, str, str]  # its production rate for a coat

    @property
    def by_length(self) -> bool:
        """Whether it goes by the foot."""
        return self.quantity.unit == "ft"

    def task(self, work_area: WorkArea, key: str, title: str, phase: Phase, *row: str) -> Task:
        """Return a task over the whole of it, at the rate of a row."""
        if self.by_length:
            return work_area.by_length(key, title, phase, self.quantity, *row)
        return work_area.by_count(key, title, phase, self.quantity, *row)


def members(item: InteriorRepaint, work_area: WorkArea) -> tuple[Member, ...]:
    """Return the members of trim that are painted, each kind once for each way it was noted."""
    where = f'work "{item.room}" · trim'
    trim = item.trim
    found = [
        *(_run(run, work_area, f"{where} · runs[{place}]") for place, run in enumerate(trim.runs or ())),
        *(_door(door, work_area, f"{where} · doors[{place}]") for place, door in enumerate(trim.doors or ())),
        *_frames(trim.door_frames or 0, work_area, f"{where} · door_frames"),
        *(_window(each, work_area, f"{where} · windows[{place}]") for place, each in enumerate(trim.windows or ())),
    ]
    return tuple(each for each in found if each.quantity.value > 0)


def _run(run: TrimRun, work_area: WorkArea, where: str) -> Member:
    word = str(run.kind).replace(" ", "_")
    if run.length is None:
        length = _run_of_the_room(run.kind, work_area)
    else:
        tape_accuracy = work_area.basis.figure("factors", "measured", str(work_area.room.room.measured))
        tape = taped(run.length, str(run.kind), f"{where} · length")
        length = work(outline.corrected_reading, f"run of {run.kind}", reading=tape, tape_accuracy=tape_accuracy)
    girth = work_area.basis.figure("members", word, "girth")
    area = work(measuring.girthed_area, f"{run.kind}, laid flat", length=length, girth=girth)
    return Member(word, str(run.kind), length, area, (f"paint_{word}", "brush", "any"))


def _run_of_the_room(kind: TrimKind, work_area: WorkArea) -> Figure:
    match kind:
        case TrimKind.CROWN | TrimKind.CHAIR_RAIL:
            return work_area.room.perimeter
        case TrimKind.BASE | TrimKind.SHOE:
            return measure.floor_line(work_area)
        case TrimKind.CASING:
            cased = [line for what, line in measure.opening_lines(work_area) if what is not OpeningKind.ARCH]
            return total("casing round doors and windows", cased, unit="ft")


def _door(door: PaintedDoor, work_area: WorkArea, where: str) -> Member:
    sides = counted(door.sides or 1, "sides painted", f"{where} · sides")
    faces = work(
        walls.several, f"faces of {door.kind} doors", each=sides, count=counted(door.count, "doors", f"{where} · count")
    )
    area = _even_area(door, work_area, where, "door_area", COEFFICIENTS[door.kind])
    name = f"{door.kind} doors"
    whole = work(walls.several, f"{name}, even area", each=area, count=faces)
    return Member(f"{door.kind}_door", name, faces, whole, ("paint_door", "brush", str(door.kind)))


def _frames(count: int, work_area: WorkArea, where: str) -> Iterator[Member]:
    frames = counted(count, "door frames", where)
    each = work_area.basis.figure("members", "door_frame", "area")
    area = work(walls.several, "door frames, laid flat", each=each, count=frames)
    yield Member("door_frame", "door frames", frames, area, ("paint_door_frame", "brush", "any"))


def _window(window: PaintedWindow, work_area: WorkArea, where: str) -> Member:
    area = _even_area(window, work_area, where, "window_area", WINDOWS)
    count = counted(window.count, "windows", f"{where} · count")
    name, word = f"{window.kind} windows", str(window.kind).replace(" ", "_")
    whole = work(walls.several, f"{name}, even area", each=area, count=count)
    return Member(f"{word}_window", name, count, whole, ("paint_window", "brush", word))


def _even_area(
    each: PaintedDoor | PaintedWindow, work_area: WorkArea, where: str, usual: str, coefficient: str
) -> Figure:
    """Return the even area of one face (ft²): its size, or an average one, times the coefficient of its kind."""
    factor = work_area.basis.figure("measuring", coefficient, "factor")
    if each.width is None or each.height is None:
        average = work_area.basis.figure("measuring", usual, "area")
        return work(measuring.developed_area, f"one {each.kind}", flat_area=average, area_factor=factor)
    return work(
        measuring.counted_area,
        f"one {each.kind}",
        width=taped(each.width, "width", f"{where} · width"),
        height=taped(each.height, "height", f"{where} · height"),
        sides=leaf("one side", 1.0, "dimensionless", Origin(Kind.DEFINITION, place="each side is counted by itself")),
        coefficient=factor,
    )


def closets(item: InteriorRepaint, work_area: WorkArea) -> tuple[Member, ...]:
    """Return the closets that are painted inside."""
    return tuple(
        _closet(CLOSETS[each.size], each.count, work_area, f'work "{item.room}" · closets[{place}] · count')
        for place, each in enumerate(item.closets or ())
        if each.count
    )


def _closet(size: str, number: int, work_area: WorkArea, where: str) -> Member:
    name = f"{size} closets".replace("_", "-")
    each = work_area.basis.figure("members", f"closet_{size}", "area")
    count = counted(number, name, where)
    area = work(walls.several, f"{name}, inside", each=each, count=count)
    return Member(f"closet_{size}", name, count, area, ("paint_closet", "roll", size))


def coat_members(
    found: tuple[Member, ...], work_area: WorkArea, number: int, phase: Phase, word: str = "Paint"
) -> list[Task]:
    """Return one coat on every member; the last of them is the one to wait after."""
    key, title = f"{word.lower()}_{{}}_{number}", f"{word} {{}}, coat {number}"
    return [each.task(work_area, key.format(each.key), title.format(each.name), phase, *each.row) for each in found]
