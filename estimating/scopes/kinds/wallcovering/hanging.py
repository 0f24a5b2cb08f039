"""Hanging new wallcovering: the wall made ready, primed or sized, lined and papered, and what all that takes to buy."""

from __future__ import annotations

from typing import NamedTuple

from estimating.estimate.pricing.arrange import crew_size
from estimating.estimate.pricing.plan import Material, Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.wallcovering.facts import BARE, Papering
from estimating.scopes.kinds.wallcovering.layout import Count
from estimating.scopes.kinds.wallcovering.notes import FirstCoat, Gap, ObstacleKind, OldCovering, WallState
from estimating.scopes.shared import measure, prep, prime, protection
from estimating.scopes.shared.color import Coats
from estimating.scopes.shared.drying import dries, in_this_air
from estimating.scopes.shared.surface import SMOOTH, Surface
from estimating.scopes.shared.work_area import drop_zero_hours, for_tools, with_crew_note, with_dry_time
from estimating.takeoff import counted
from estimating.trade import labor, ordering
from estimating.trade.wallcovering import hanging
from estimating.trade.wallcovering import rolls as rules
from estimating.trade.wallcovering.cutting import Match

PRIMER_UNDER_PAPER = "wallcovering_primer"
PATTERNS = {Match.RANDOM: "pattern_random", Match.STRAIGHT: "pattern_straight"}
ROUND = {
    "door": (Gap.DOOR, Gap.ARCH),
    "window": (Gap.WINDOW, Gap.BUILT_IN, Gap.FIREPLACE),
}
OBSTACLES = {
    "outlet": ObstacleKind.OUTLET,
    "fixture": ObstacleKind.FIXTURE,
    "recess": ObstacleKind.RECESS,
}


class FirstCoatOn(NamedTuple):
    """What goes on the wall before the paper: tasks, paint and what is bought besides."""

    tasks: list[Task]
    paint: list[Material]
    bought: list[Supply]


def prepare(walls: Papering, *, stripped: bool, lined: bool) -> Task:
    """Return what the wall itself needs before it is primed."""
    area, state = walls.at_work, walls.item.wall
    if state is WallState.ROUGH and not lined:
        return prep.skim_wall(area, walls.area, area.basis.figure("wallcovering", "mend_wall", "rate"))
    if state is WallState.PATCHED and not lined:
        return prep.by_hand(area, "point_up", "Fill and sand holes and cracks", walls.area, "point_up")
    if stripped or state in BARE:
        return prep.by_hand(area, "dust_down", "Dust the wall down", walls.area, "dust_down")
    if state is WallState.GLOSS:
        return prep.by_hand(area, "degloss", "Dull the gloss so that paste holds", walls.area, "degloss")
    return prep.by_hand(area, "sand_wall", "Scuff the wall", walls.area, "sand_wall")


def first_coat(walls: Papering, *, stripped: bool) -> FirstCoatOn:
    """Return priming or sizing; a stripped wall is always primed, because what was mended takes paste in."""
    wanted = walls.item.first_coat or FirstCoat.PRIMER
    if wanted is FirstCoat.SIZE and not stripped:
        basis = walls.work_area.basis
        of_the_size = (
            basis.figure("wallcovering", "size_wall", "rate"),
            in_this_air(walls.work_area, basis.figure("wallcovering", "size_dry", "wait"), "size to dry, in this air"),
        )
        size = prep.size(walls.at_work, walls.area, *of_the_size)
        return FirstCoatOn([size], [], [by_gallon(walls, "wall_size", "Wall size")])
    if wanted is FirstCoat.NONE and not stripped:
        return FirstCoatOn([], [], [])
    return _primer(walls, stripped)


def _primer(walls: Papering, stripped: bool) -> FirstCoatOn:
    area, state = walls.at_work, walls.item.wall
    porosity = "porous" if state in BARE else "slight" if stripped or state is None else "sealed"
    texture = "smooth_plaster" if state is WallState.BARE_PLASTER else SMOOTH
    line = total("no line to cut in", [], unit="ft")
    surface = Surface("walls", "walls", PRIMER_UNDER_PAPER, walls.area, line, Coats(1, 1), texture, porosity)
    titled = ("Prime the walls for paper", "priming the walls for paper")
    layer = prime.dried(
        prime.all_over(area, surface, PRIMER_UNDER_PAPER, *titled), dries(area), "wallcovering primer to dry"
    )
    left = protection.left_in(area, "roller", PRIMER_UNDER_PAPER)
    cover = area.bought("roller_cover", "each", "Roller covers", 1.0, "one for the primer")
    return FirstCoatOn([*layer.tasks], [*layer.paint, left], [cover])


def line(walls: Papering) -> list[Task]:
    """Return hanging the lining, which dries out before it is papered over."""
    tasks = _strips(walls, walls.lining, "line", "lining")
    printed = walls.work_area.basis.figure("wallcovering", "lining_dry", "wait")
    dry = in_this_air(walls.work_area, printed, "lining to dry out, in this air")
    return [*tasks[:-1], with_dry_time(tasks[-1], dry, "lining to dry out")]


def hang(walls: Papering) -> list[Task]:
    """Return setting up the table, hanging full strips and parts, and cutting round what is in the way."""
    work_area, basis = walls.at_work, walls.work_area.basis
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
    work_area = walls.at_work.slowed(measure.tape(walls.work_area))  # larger walls take more strips
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
    work_area = walls.at_work
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


def wash_up(walls: Papering, hung: list[Task]) -> Task:
    """Return washing table, brushes and floor on each day that paste was out."""
    basis = walls.work_area.basis
    hanging_hours = total("hanging", [task.hours for task in hung], unit="hour")
    hours = work(labor.crew_elapsed, "hanging, by the clock", hours=hanging_hours, crew=crew_size(walls.work_area.job))
    day = basis.figure("business", "day_length")
    each = basis.figure("wallcovering", "wash_up", "hours")
    days = work(ordering.whole_containers, "days of paste", need=hours, holds=day)
    daily = work(labor.daily_hours, "washing up", days=days, hours=each)
    return for_tools(walls.work_area.task("wash_up", "Wash table, brushes and floor", Phase.CLEAN, daily, each))


def paper_supply(walls: Papering) -> Supply:
    """Return the new paper: whole rolls of one batch with the spare, or a length of wide goods in whole steps."""
    return _by_length(walls) if walls.paper.paper.by_length else _by_roll(walls)


def paper_order(walls: Papering) -> Figure:
    """Return the rolls to order, all of one batch."""
    sold = walls.item.goods.sold_by
    key = f"{walls.where} · goods · sold_by"
    pack = (
        leaf("rolls sold together", sold, "dimensionless", Origin(Kind.ENTERED, place=key), key=key)
        if sold
        else _one("rolls sold together", "dimensionless", "sold one by one unless the label says otherwise")
    )
    title = walls.paper.paper.title
    return work(rules.rolls_to_order, f"{title}: rolls to order", rolls=walls.paper.rolls, spare=walls.spare, pack=pack)


def _by_roll(walls: Papering) -> Supply:
    return Supply(
        _item(walls), f"{_title_of(walls)}, rolls of one batch", paper_order(walls), None, _price(walls), chosen=True
    )


def _by_length(walls: Papering) -> Supply:
    paper, goods = walls.paper, walls.item.goods
    key = f"{walls.where} · goods · step"
    step = (
        leaf("sold by", goods.step.value, "ft", Origin(Kind.ENTERED, place=f"{key}, {goods.step.text}"), key=key)
        if goods.step
        else leaf("sold by", 3.0, "ft", Origin(Kind.COMMON_PRACTICE, note="wide goods are sold by the yard"), key=key)
    )
    tallest = max(wall.height for wall in paper.layout.walls)
    cut = leaf("one strip", paper.paper.to_cut.full_cut(tallest), "ft", paper.full.origin)
    over = work(rules.running_length, "spare length", strips=walls.spare, cut_length=cut)
    need = work(
        rules.length_to_order, f"{paper.paper.title}: length to order", length=paper.running, spare=over, step=step
    )
    return Supply(_item(walls), f"{_title_of(walls)}, off one bolt", need, step, _price(walls), chosen=True)


def _item(walls: Papering) -> str:
    return f"wallcovering, {walls.item.goods.pattern or walls.item.room}, {_price(walls).value:.2f}"


def _title_of(walls: Papering) -> str:
    title = walls.paper.paper.title
    return f"{title[:1].upper()}{title[1:]}{' (the client buys it)' if walls.clients_paper else ''}"


def _price(walls: Papering) -> Figure:
    goods = walls.item.goods
    key = f"{walls.where} · goods · price"
    if walls.clients_paper or goods.price is None:
        return leaf("price of the paper", 0.0, "dollar", definition("the client buys it: no cost here"))
    return leaf("price of the paper", goods.price, "dollar", Origin(Kind.ENTERED, place=key), key=key)


def by_gallon(walls: Papering, item: str, title: str) -> Supply:
    """Return what goes over the walls by the gallon, with something for trims and bucket."""
    basis = walls.work_area.basis
    need = work(
        hanging.paste_needed,
        title.lower(),
        area=walls.area,
        spread=basis.figure("wallcovering", item, "spread"),
        waste=basis.figure("wallcovering", "paste_waste", "share"),
    )
    return walls.work_area.supply(item, title, need, _one("a gallon", "gallon", "sold by the gallon"), "gallon")


def paste(walls: Papering, *, lined: bool, over_vinyl: bool = False) -> list[Supply]:
    """Return paste for the paper, for the lining, and for seams over old vinyl; lining paper in whole rolls."""
    item = walls.paper.paper.paste
    found = [by_gallon(walls, item, _paste_title(item))]
    if over_vinyl:
        why = "one quart for the seams over old vinyl"
        found.append(walls.work_area.bought("paste_vinyl_over_vinyl", "quart", "Paste for vinyl over vinyl", 1.0, why))
    if lined:
        found.append(by_gallon(walls, walls.lining.paper.paste, _paste_title(walls.lining.paper.paste)))
        found.append(walls.work_area.supply("lining_paper", "Lining paper", walls.lining.rolls, None, "roll"))
    return found


def _paste_title(item: str) -> str:
    return "Clay paste" if item == "paste_clay" else "Clear paste"


def sundries(walls: Papering, *, stripped: bool) -> list[Supply]:
    """Return blades, rollers, rags and floor covering; for stripping, plastic, bags and stripper too."""
    work_area = walls.work_area
    wanted = [
        ("snap_blades", "pack", "Snap-off blades, a pack", "a fresh edge for every strip"),
        ("seam_roller", "each", "Seam roller", "one a job"),
        ("rags", "box", "Rags, a box", "one box a room"),
    ]
    if stripped:
        wanted += [
            ("stripper_concentrate", "quart", "Stripper concentrate", "one quart a room"),
            ("razor_blades", "pack", "Scraper blades, a pack", "one pack a room"),
            ("waste_bag", "pack", "Waste bags, a pack", "one pack a room"),
        ]
    bought = [work_area.bought(item, container, title, 1.0, why) for item, container, title, why in wanted]
    return [*bought, protection.floor_paper(work_area), *([protection.floor_plastic(work_area)] if stripped else [])]


def over_vinyl(walls: Papering) -> bool:
    """Say whether the paper would hang on old vinyl."""
    return walls.item.existing.covering is OldCovering.VINYL


def _one(name: str, unit: str, why: str) -> Figure:
    """Return one of something, as its own measure."""
    return leaf(name, 1.0, unit, definition(why))
