"""Trim, doors, windows, closets and trims of lights: members by length and by count, their paint and their tasks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Material, Phase, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.trim import Closet, ClosetSize, DoorKind, PaintedDoor, PaintedWindow, Trim, TrimKind, TrimRun
from estimating.origins import Kind, Origin
from estimating.scopes.shared import measure
from estimating.scopes.shared.products import TRIM_ENAMEL, title_of
from estimating.scopes.shared.work_area import WorkArea, with_crew_note, with_dry_time
from estimating.takeoff import counted, taped
from estimating.trade import fixtures, measuring, walls

COEFFICIENTS = {
    DoorKind.FLUSH: "flush_door",
    DoorKind.PANEL: "panelled_door",
    DoorKind.GLAZED: "fully_glazed_wood",
    DoorKind.LOUVERED: "louvered",
    DoorKind.BIFOLD: "panelled_door",
}
WINDOWS = "fully_glazed_wood"
LIGHT_TRIM = "recessed_light"
POWER_OFF = "lamps out, power off and locked by somebody licensed; let each pass flash off"
CLOSETS = {ClosetSize.SMALL: "small", ClosetSize.WALK_IN: "walk_in"}


@dataclass(frozen=True)
class Member:
    """One kind of trim, door, window or closet in the room, or of siding, boards and rails outdoors."""

    key: str
    name: str
    quantity: Figure  # ft by length, ft² by area, a number by count
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
        if self.quantity.unit == "ft**2":
            return work_area.by_area(key, title, phase, self.quantity, *row)
        return work_area.by_count(key, title, phase, self.quantity, *row)


def members(trim: Trim, work_area: WorkArea, where: str) -> tuple[Member, ...]:
    """Return the members of trim that are painted, each kind once for each way it was noted."""
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
        length = measure.true_length(work_area, run.length, str(run.kind), f"{where} · length", f"run of {run.kind}")
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
            return total("casing round doors and windows", measure.cased_lines(work_area), unit="ft")


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


def closets(notes: Sequence[Closet], work_area: WorkArea, where: str) -> tuple[Member, ...]:
    """Return the closets that are painted inside."""
    return tuple(
        _closet(CLOSETS[each.size], each.count, work_area, f"{where}[{place}] · count")
        for place, each in enumerate(notes)
        if each.count
    )


def _closet(size: str, number: int, work_area: WorkArea, where: str) -> Member:
    name = f"{size} closets".replace("_", "-")
    each = work_area.basis.figure("members", f"closet_{size}", "area")
    count = counted(number, name, where)
    area = work(walls.several, f"{name}, inside", each=each, count=count)
    return Member(f"closet_{size}", name, count, area, ("paint_closet", "roll", size))


def coat_members(
    found: tuple[Member, ...], work_area: WorkArea, number: int, phase: Phase, verb: str = "Paint"
) -> list[Task]:
    """Return one coat on every member; the last of them is the one to wait after."""
    return [
        each.task(
            work_area, f"{verb.lower()}_{each.key}_{number}", f"{verb} {each.name}, coat {number}", phase, *each.row
        )
        for each in found
    ]


def coat_light_trims(work_area: WorkArea, count: int, where: str) -> tuple[list[Task], list[Material]]:
    """Return coating the trims of recessed lights where they are, in light passes, and the enamel it takes."""
    if not count:
        return [], []
    trims = leaf("trims to coat", float(count), "dimensionless", Origin(Kind.ENTERED, place=where))
    passes = work_area.basis.figure("fixtures", LIGHT_TRIM, "passes")
    scuff = ("scuff_trims", "Clean and scuff trims", Phase.FIXTURES, trims, "clean_scuff", "hand", "any")
    gallons = _light_trim_paint(work_area, trims, passes)
    enamel = Material(TRIM_ENAMEL, title_of(TRIM_ENAMEL), gallons, "recessed lights")
    return [work_area.by_count(*scuff), _light_passes(work_area, trims, passes)], [enamel]


def _light_passes(work_area: WorkArea, trims: Figure, passes: Figure) -> Task:
    basis = work_area.basis
    each = basis.figure("production", "spot_coat", "airless", "any")
    hours = work(fixtures.spot_coat_hours, "coating trims", fixtures=trims, passes=passes, minutes=each)
    flash_time = basis.figure("fixtures", LIGHT_TRIM, "flash")
    flash = work(fixtures.flash_wait, "flash time between passes", passes=passes, flash=flash_time)
    task = work_area.task("coat_trims", "Coat trims in place, light passes", Phase.FIXTURES, hours, each)
    note = f"{passes.value:g} light passes; {POWER_OFF}"
    return with_dry_time(with_crew_note(task, note), flash, "trims to flash off")


def _light_trim_paint(work_area: WorkArea, trims: Figure, passes: Figure) -> Figure:
    basis = work_area.basis
    outer = basis.figure("fixtures", LIGHT_TRIM, "outer_diameter")
    inner = basis.figure("fixtures", LIGHT_TRIM, "inner_diameter")
    return work(
        fixtures.trim_paint,
        "paint for trims",
        fixtures=trims,
        outer=outer,
        inner=work(fixtures.opening_within, "opening within a trim", inner=inner, outer=outer),
        passes=passes,
        wet_film=basis.figure("fixtures", LIGHT_TRIM, "wet_film"),
        loss=basis.figure("losses", "airless", "open_parts"),
    )
