"""The work of papering in tasks: protect, prepare, prime, line, hang, clear up."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Material, Phase, Supply, Task
from estimating.estimate.pricing.site_days import crew_size
from estimating.figures import Figure, total, work
from estimating.scopes.kinds.wallcovering.facts import BARE, Papering
from estimating.scopes.kinds.wallcovering.layout import Count, tape
from estimating.scopes.kinds.wallcovering.notes import FirstCoat, Gap, ObstacleKind, Place, WallState
from estimating.scopes.kinds.wallcovering.supplies import by_gallon
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, for_tools, with_crew_note, with_dry_time
from estimating.takeoff import counted
from estimating.trade import labor, ordering
from estimating.trade.wallcovering import hanging
from estimating.trade.wallcovering.cutting import Match

PRIMER = "wallcovering_primer"
PATTERNS = {Match.RANDOM: "pattern_random", Match.STRAIGHT: "pattern_straight"}
PLACES = {Place.SMALL: "kitchen_bath", Place.STAIRS: "stair_void"}
ROUND = {
    "door": (Gap.DOOR, Gap.ARCH),
    "window": (Gap.WINDOW, Gap.BUILT_IN, Gap.FIREPLACE),
}
OBSTACLES = {
    "outlet": ObstacleKind.OUTLET,
    "fixture": ObstacleKind.FIXTURE,
    "recess": ObstacleKind.RECESS,
}
SKIMMED = (WallState.ROUGH,)


def protect(walls: Papering) -> list[Task]:
    """Return moving the furniture and covering the floor."""
    return [*room_cover.furniture(walls.work_area), room_cover.cover_floor(walls.work_area)]


def clear_up(walls: Papering, hung: list[Task]) -> list[Task]:
    """Return washing table, brushes and floor on each day that paste was out, and taking up the floor covering."""
    return [_wash_up(walls, hung), room_cover.uncover_floor(walls.work_area, Phase.CLEAN)]


def _wash_up(walls: Papering, hung: list[Task]) -> Task:
    basis = walls.work_area.basis
    hanging_hours = total("hanging", [task.hours for task in hung], unit="hour")
    hours = work(labor.crew_elapsed, "hanging, by the clock", hours=hanging_hours, crew=crew_size(walls.work_area.job))
    day = basis.figure("business", "day_length")
    each = basis.figure("wallcovering", "wash_up", "hours")
    days = work(ordering.whole_containers, "days of paste", need=hours, holds=day)
    daily = work(labor.daily_hours, "washing up", days=days, hours=each)
    return for_tools(walls.work_area.task("wash_up", "Wash table, brushes and floor", Phase.CLEAN, daily, each))


def prepare(walls: Papering, *, stripped: bool, lined: bool) -> list[Task]:
    """Return what the wall itself needs before it is primed."""
    work_area = at_work(walls)
    state = walls.item.wall
    if state in SKIMMED and not lined:
        return [_skim(walls, work_area)]
    if state is WallState.PATCHED and not lined:
        return [_by_row(work_area, walls, "point_up", "Fill and sand holes and cracks", "point_up")]
    if stripped or state in BARE:
        return [_by_row(work_area, walls, "dust_down", "Dust the wall down", "dust_down")]
    if state is WallState.GLOSS:
        return [_by_row(work_area, walls, "degloss", "Dull the gloss so that paste holds", "degloss")]
    return [_by_row(work_area, walls, "sand_wall", "Scuff the wall", "sand_wall")]


def _by_row(work_area: WorkArea, walls: Papering, key: str, title: str, row: str) -> Task:
    return work_area.by_area(key, title, Phase.PREPARE, walls.area, row, "hand", "any")


def _skim(walls: Papering, work_area: WorkArea) -> Task:
    rate = work_area.basis.figure("wallcovering", "mend_wall", "rate")
    hours = work(labor.hours_by_area, "skimming", area=walls.area, rate=rate)
    task = work_area.task("skim", "Skim the wall smooth and sand it", Phase.PREPARE, hours, rate)
    dry = work_area.basis.figure("production", "dry", "joint_compound", "any")
    return with_dry_time(task, dry, "joint compound to dry")


def at_work(walls: Papering) -> WorkArea:
    """Return the work area with the factors of everything done on its walls."""
    work_area = walls.work_area
    place = PLACES.get(walls.item.place) if walls.item.place else None
    cramped = work_area.basis.figure("wallcovering", place, "factor") if place else None
    height = None if walls.item.place is Place.STAIRS else work_area.height_factor()  # a stair void is high by itself
    return work_area.slowed(work_area.crew_factor(), height, cramped)


def first_coat(walls: Papering, *, stripped: bool) -> tuple[list[Task], list[Material], list[Supply]]:
    """Return priming or sizing; a stripped wall is always primed, because what was mended drinks."""
    wanted = walls.item.first_coat or FirstCoat.PRIMER
    if wanted is FirstCoat.SIZE and not stripped:
        return _size(walls)
    if wanted is FirstCoat.NONE and not stripped:
        return [], [], []
    return _primer(walls, stripped)


def _primer(walls: Papering, stripped: bool) -> tuple[list[Task], list[Material], list[Supply]]:
    work_area = at_work(walls)
    bare = walls.item.wall in BARE
    porosity = "porous" if bare else "slight" if stripped or walls.item.wall is None else "sealed"
    surface = "smooth_plaster" if walls.item.wall is WallState.BARE_PLASTER else "smooth_drywall"
    spread = work_area.spread(PRIMER, surface, porosity, "first", "roll", "interior")
    paint = work_area.paint(PRIMER, "Wallcovering primer", walls.area, spread, "priming the walls for paper")
    task = work_area.by_area("prime", "Prime the walls for paper", Phase.PRIME, walls.area, "prime_wall", "roll", "any")
    dry = work_area.basis.figure("coatings", PRIMER, "recoat")
    left = room_cover.left_in(work_area, "roller", PRIMER, "Wallcovering primer")
    cover = work_area.bought("roller_cover", "each", "Roller covers", 1.0, "one for the primer")
    return [with_dry_time(task, dry, "wallcovering primer to dry")], [paint, left], [cover]


def _size(walls: Papering) -> tuple[list[Task], list[Material], list[Supply]]:
    work_area, basis = at_work(walls), walls.work_area.basis
    rate = basis.figure("wallcovering", "size_wall", "rate")
    task = work_area.task(
        "size", "Size the walls", Phase.PRIME, work(labor.hours_by_area, "sizing", area=walls.area, rate=rate), rate
    )
    dry = basis.figure("wallcovering", "size_dry", "wait")
    return [with_dry_time(task, dry, "size to dry")], [], [by_gallon(walls, "wall_size", "Wall size")]


def line(walls: Papering) -> list[Task]:
    """Return hanging the lining, which dries out before it is papered over."""
    tasks = _strips(walls, walls.lining, "line", "lining")
    dry = walls.work_area.basis.figure("wallcovering", "lining_dry", "wait")
    return [*tasks[:-1], with_dry_time(tasks[-1], dry, "lining to dry out")]


def hang(walls: Papering) -> list[Task]:
    """Return setting up the table, hanging full strips and parts, and cutting round what is in the way."""
    work_area, basis = at_work(walls), walls.work_area.basis
    hours = basis.figure("wallcovering", "set_up_table", "hours")
    table = for_tools(work_area.task("set_up_table", "Set up the table, lay out and plumb", Phase.FINISH, hours, hours))
    return [with_crew_note(table, _start(walls)), *_strips(walls, walls.paper, "hang", "paper"), *_round(walls)]


def _start(walls: Papering) -> str:
    room = walls.paper.layout
    rest = walls.work_area.basis.figure("wallcovering", "booking", "wait")
    return (
        f"every roll of one batch before the first cut; start at the left corner of {room.walls[0].name}; "
        f"a pasted strip rests about {rest.value:.0f} minutes"
    )


def _strips(walls: Papering, paper: Count, key: str, what: str) -> list[Task]:
    work_area = at_work(walls).slowed(tape(walls.work_area))  # larger walls take more strips
    pattern = PATTERNS.get(paper.paper.match, "pattern_drop")
    full, parts = f"hang_{paper.paper.hangs_as}", "hang_part"
    kinds = (
        (paper.full, full, f"{key}_full", f"Hang {what}, {paper.full.value:.0f} full strips"),
        (paper.parts, parts, f"{key}_parts", f"Hang {what}, {paper.parts.value:.0f} part strips"),
    )
    tasks = []
    for strips, row, name, title in kinds:
        minutes = work_area.basis.figure("wallcovering", row, "minutes_per_strip")
        factor = work_area.basis.figure("wallcovering", pattern, "factor")
        hours = work(hanging.hang_hours, title, strips=strips, minutes_each=minutes, pattern_factor=factor)
        tasks.append(work_area.task(name, title, Phase.FINISH, hours, minutes))
    return list(drop_zero_hours(tasks))


def _round(walls: Papering) -> list[Task]:
    work_area = at_work(walls)
    counts = {name: walls.gaps(*kinds) for name, kinds in ROUND.items()}
    counts |= {name: _obstacles(walls, kind) for name, kind in OBSTACLES.items()}
    counts["corner"] = walls.corners()
    tasks = [
        work_area.by_count(
            f"round_{name}", _title(name), Phase.FINISH, number, f"obstacle_{name}", "minutes", table="wallcovering"
        )
        for name, number in counts.items()
    ]
    return list(drop_zero_hours(tasks))


def _title(name: str) -> str:
    return "Turn and plumb anew at corners" if name == "corner" else f"Cut round {name}s and their like"


def _obstacles(walls: Papering, kind: ObstacleKind) -> Figure:
    number = sum(each.count for each in walls.item.obstacles or () if each.kind is kind)
    return counted(number, f"{kind}, count", f"{walls.where} · obstacles")
