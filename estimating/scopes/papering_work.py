"""The work of papering in tasks and things to buy: protect, prepare, prime, line, hang, clear up."""

from __future__ import annotations

from estimating.estimate.plan import Material, Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.wallcovering import FirstCoat, Gap, ObstacleKind, OldCovering, Place, WallState
from estimating.origins import Kind, Origin, definition
from estimating.scopes.papering_count import Count, tape
from estimating.scopes.papering_facts import BARE, Papering, one, spare
from estimating.scopes.piece import Piece, some, told, waiting
from estimating.takeoff import counted
from estimating.trade import labour, masking, ordering
from estimating.trade import wallcovering as rules
from estimating.trade import wallcovering_work as hanging
from estimating.trade.wallcovering_cutting import Match

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
    piece = walls.piece.slowed(walls.piece.crew_factor(), walls.piece.furniture_factor())
    floor = piece.by_area(
        "protect_floor", "Cover the floor", Phase.PROTECT, piece.room.floor, "protect_floor", "hand", "any"
    )
    standing = str(piece.room.room.furniture or "light")
    if standing == "none":
        return [floor]
    moved = walls.piece.by_hours(
        "move_furniture", "Move and cover furniture", Phase.PROTECT, "move_furniture", "hand", standing
    )
    return [moved, floor]


def clear_up(walls: Papering, hung: list[Task]) -> list[Task]:
    """Return taking up the floor covering, and washing table, brushes and floor on each day that paste was out."""
    piece = walls.piece.slowed(walls.piece.crew_factor())
    sheets = piece.by_area(
        "take_up", "Take up the floor covering", Phase.CLEAN, piece.room.floor, "unmask", "hand", "any"
    )
    return [_wash_up(walls, hung), sheets]


def _wash_up(walls: Papering, hung: list[Task]) -> Task:
    basis = walls.piece.basis
    people = walls.piece.job.crew.people
    crew = leaf("crew", people, "dimensionless", Origin(Kind.ENTERED, place="crew · people"), key="crew · people")
    hanging_hours = total("hanging", [task.hours for task in hung], unit="hour")
    hours = work(labour.crew_elapsed, "hanging, by the clock", hours=hanging_hours, crew=crew)
    day = basis.figure("business", "day_length", name="day on site")
    each = basis.figure("wallcovering", "wash_up", "hours", name="wash up, a day")
    days = work(ordering.whole_containers, "days of paste", need=hours, holds=day)
    daily = work(labour.daily_hours, "washing up", days=days, hours=each)
    return walls.piece.task("wash_up", "Wash table, brushes and floor", Phase.CLEAN, daily, each)


def prepare(walls: Papering, *, stripped: bool, lined: bool) -> list[Task]:
    """Return what the wall itself needs before it is primed."""
    piece = at_work(walls)
    state = walls.item.wall
    if state in SKIMMED and not lined:
        return [_skim(walls, piece)]
    if state is WallState.PATCHED and not lined:
        return [_by_row(piece, walls, "point_up", "Fill and sand holes and cracks", "point_up")]
    if stripped or state in BARE:
        return [_by_row(piece, walls, "dust_down", "Dust the wall down", "dust_down")]
    if state is WallState.GLOSS:
        return [_by_row(piece, walls, "degloss", "Dull the gloss so that paste holds", "degloss")]
    return [_by_row(piece, walls, "sand_wall", "Scuff the wall", "sand_wall")]


def _by_row(piece: Piece, walls: Papering, key: str, title: str, row: str) -> Task:
    return piece.by_area(key, title, Phase.PREPARE, walls.area, row, "hand", "any")


def _skim(walls: Papering, piece: Piece) -> Task:
    rate = piece.basis.figure("wallcovering", "mend_wall", "rate", name="mending a torn wall")
    hours = work(labour.hours_by_area, "skimming", area=walls.area, rate=rate)
    task = piece.task("skim", "Skim the wall smooth and sand it", Phase.PREPARE, hours, rate)
    dry = piece.basis.figure("production", "dry", "joint_compound", "any", name="joint compound to dry")
    return waiting(task, dry, "joint compound to dry")


def at_work(walls: Papering) -> Piece:
    """Return the piece with the factors of everything done on its walls."""
    piece = walls.piece
    place = PLACES.get(walls.item.place) if walls.item.place else None
    cramped = piece.basis.figure("wallcovering", place, "factor", name=f"{walls.item.place}") if place else None
    height = None if walls.item.place is Place.STAIRS else piece.height_factor()  # a stair void is high by itself
    return piece.slowed(piece.crew_factor(), height, cramped)


def first_coat(walls: Papering, *, stripped: bool) -> tuple[list[Task], list[Material], list[Supply]]:
    """Return priming or sizing; a stripped wall is always primed, because what was mended drinks."""
    wanted = walls.item.first_coat or FirstCoat.PRIMER
    if wanted is FirstCoat.SIZE and not stripped:
        return _size(walls)
    if wanted is FirstCoat.NONE and not stripped:
        return [], [], []
    return _primer(walls, stripped)


def _primer(walls: Papering, stripped: bool) -> tuple[list[Task], list[Material], list[Supply]]:
    piece = at_work(walls)
    bare = walls.item.wall in BARE
    porosity = "porous" if bare else "slight" if stripped or walls.item.wall is None else "sealed"
    surface = "smooth_plaster" if walls.item.wall is WallState.BARE_PLASTER else "smooth_drywall"
    spread = piece.spread(PRIMER, surface, porosity, "first", "roll", "interior")
    paint = piece.paint(PRIMER, "Wallcovering primer", walls.area, spread, "priming the walls for paper")
    left = piece.basis.figure("losses", "equipment", "roller", name="paint left in the roller")
    task = piece.by_area("prime", "Prime the walls for paper", Phase.PRIME, walls.area, "prime_wall", "roll", "any")
    dry = piece.basis.figure("coatings", PRIMER, "recoat", name="wallcovering primer to dry")
    washed_out = Material(PRIMER, "Wallcovering primer", left, "left in the roller", room=walls.item.room)
    cover = piece.pieces("roller_cover", "each", "Roller covers", 1.0, "one for the primer")
    return [waiting(task, dry, "wallcovering primer to dry")], [paint, washed_out], [cover]


def _size(walls: Papering) -> tuple[list[Task], list[Material], list[Supply]]:
    piece, basis = at_work(walls), walls.piece.basis
    rate = basis.figure("wallcovering", "size_wall", "rate", name="sizing")
    task = piece.task(
        "size", "Size the walls", Phase.PRIME, work(labour.hours_by_area, "sizing", area=walls.area, rate=rate), rate
    )
    dry = basis.figure("wallcovering", "size_dry", "wait", name="size to dry")
    return [waiting(task, dry, "size to dry")], [], [_by_gallon(walls, "wall_size", "Wall size")]


def _by_gallon(walls: Papering, item: str, title: str) -> Supply:
    basis = walls.piece.basis
    need = work(
        hanging.paste_needed,
        title.lower(),
        area=walls.area,
        spread=basis.figure("wallcovering", item, "spread", name=f"{title.lower()}, spread"),
        waste=basis.figure("wallcovering", "paste_waste", "share", name="paste for trims and bucket"),
    )
    return walls.piece.supply(item, title, need, one("a gallon", "gallon", "sold by the gallon"), "gallon")


def line(walls: Papering) -> list[Task]:
    """Return hanging the lining, which dries out before it is papered over."""
    tasks = _strips(walls, walls.lining, "line", "lining")
    dry = walls.piece.basis.figure("wallcovering", "lining_dry", "wait", name="lining to dry out")
    return [*tasks[:-1], waiting(tasks[-1], dry, "lining to dry out")]


def hang(walls: Papering) -> list[Task]:
    """Return setting up the table, hanging full strips and parts, and cutting round what is in the way."""
    piece, basis = at_work(walls), walls.piece.basis
    hours = basis.figure("wallcovering", "set_up_table", "hours", name="table, plumb lines and layout")
    table = piece.task("set_up_table", "Set up the table, lay out and plumb", Phase.HANG, hours, hours)
    return [told(table, _start(walls)), *_strips(walls, walls.paper, "hang", "paper"), *_round(walls)]


def _start(walls: Papering) -> str:
    room = walls.paper.layout
    rest = walls.piece.basis.figure("wallcovering", "booking", "wait", name="pasted strip rests")
    return (
        f"every roll of one batch before the first cut; start at the left corner of {room.walls[0].name}; "
        f"a pasted strip rests about {rest.value:.0f} minutes"
    )


def _strips(walls: Papering, paper: Count, key: str, what: str) -> list[Task]:
    piece = at_work(walls).slowed(tape(walls.piece))  # larger walls take more strips
    pattern = PATTERNS.get(paper.paper.match, "pattern_drop")
    full, parts = f"hang_{paper.paper.hangs_as}", "hang_part"
    kinds = (
        (paper.full, full, f"{key}_full", f"Hang {what}, {paper.full.value:.0f} full strips"),
        (paper.parts, parts, f"{key}_parts", f"Hang {what}, {paper.parts.value:.0f} part strips"),
    )
    tasks = []
    for strips, row, name, title in kinds:
        minutes = piece.basis.figure("wallcovering", row, "minutes_per_strip")
        factor = piece.basis.figure("wallcovering", pattern, "factor", name=pattern.replace("_", " "))
        hours = work(hanging.hang_hours, title, strips=strips, minutes_each=minutes, pattern_factor=factor)
        tasks.append(piece.task(name, title, Phase.HANG, hours, minutes))
    return list(some(tasks))


def _round(walls: Papering) -> list[Task]:
    piece = at_work(walls)
    counts = {name: walls.gaps(*kinds) for name, kinds in ROUND.items()}
    counts |= {name: _obstacles(walls, kind) for name, kind in OBSTACLES.items()}
    counts["corner"] = walls.corners()
    tasks = [
        piece.by_count(
            f"round_{name}", _title(name), Phase.HANG, number, f"obstacle_{name}", "minutes", table="wallcovering"
        )
        for name, number in counts.items()
    ]
    return list(some(tasks))


def _title(name: str) -> str:
    return "Turn and plumb anew at corners" if name == "corner" else f"Cut round {name}s and their like"


def _obstacles(walls: Papering, kind: ObstacleKind) -> Figure:
    number = sum(each.count for each in walls.item.obstacles or () if each.kind is kind)
    return counted(number, f"{kind}, count", f"{walls.where} · obstacles")


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
        else one("rolls sold together", "dimensionless", "sold one by one unless the label says otherwise")
    )
    title = walls.paper.paper.title
    return work(
        rules.rolls_to_order, f"{title}: rolls to order", rolls=walls.paper.rolls, spare=spare(walls), pack=pack
    )


def _by_roll(walls: Papering) -> Supply:
    return Supply(_item(walls), f"{_title_of(walls)}, rolls of one batch", paper_order(walls), None, _price(walls))


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
    over = work(rules.running_length, "spare length", strips=spare(walls), cut_length=cut)
    need = work(
        rules.length_to_order, f"{paper.paper.title}: length to order", length=paper.running, spare=over, step=step
    )
    return Supply(_item(walls), f"{_title_of(walls)}, off one bolt", need, step, _price(walls))


def _item(walls: Papering) -> str:
    return f"wallcovering, {walls.item.goods.pattern or walls.item.room}, {_price(walls).value:.2f}"


def _title_of(walls: Papering) -> str:
    title = walls.paper.paper.title
    return f"{title[:1].upper()}{title[1:]}{' (the client buys it)' if walls.clients_paper else ''}"


def _price(walls: Papering) -> Figure:
    goods = walls.item.goods
    key = f"{walls.where} · goods · price"
    if walls.clients_paper or goods.price is None:
        return leaf("price of a roll", 0.0, "dollar", definition("the client buys it: no cost here"))
    return leaf("price of a roll", goods.price, "dollar", Origin(Kind.ENTERED, place=key), key=key)


def paste(walls: Papering, *, lined: bool, over_vinyl: bool = False) -> list[Supply]:
    """Return paste for the paper, for the lining, and for seams over old vinyl; lining paper in whole rolls."""
    item = walls.paper.paper.paste
    found = [_by_gallon(walls, item, _paste_title(item))]
    if over_vinyl:
        why = "one quart for the seams over old vinyl"
        found.append(walls.piece.pieces("paste_vinyl_over_vinyl", "quart", "Paste for vinyl over vinyl", 1.0, why))
    if lined:
        found.append(_by_gallon(walls, walls.lining.paper.paste, _paste_title(walls.lining.paper.paste)))
        found.append(walls.piece.supply("lining_paper", "Lining paper", walls.lining.rolls, None, "roll"))
    return found


def _paste_title(item: str) -> str:
    return "Clay paste" if item == "paste_clay" else "Clear paste"


def sundries(walls: Papering, *, stripped: bool) -> list[Supply]:
    """Return blades, rollers, rags and floor covering; for stripping, plastic underfoot, bags and stripper too."""
    piece = walls.piece
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
    floor = "floor_plastic" if stripped else "floor_paper"
    bought = [piece.pieces(item, container, title, 1.0, why) for item, container, title, why in wanted]
    return [*bought, _floor(piece, floor)]


def _floor(piece: Piece, item: str) -> Supply:
    stock, title = piece.basis, "Floor plastic" if item == "floor_plastic" else "Floor paper"
    length = work(
        masking.floor_paper_by_area,
        "floor covering to unroll",
        floor_area=piece.room.floor,
        stock_width=stock.figure("masking_stock", item, "width"),
        overlap=stock.figure("masking_stock", "overlap", "floor"),
    )
    return piece.supply(
        item, title, length, stock.figure("masking_stock", item, "length", name=f"{title}, one roll"), "roll"
    )


def over_vinyl(walls: Papering) -> bool:
    """Say whether the paper would hang on old vinyl."""
    return walls.item.existing.covering is OldCovering.VINYL
