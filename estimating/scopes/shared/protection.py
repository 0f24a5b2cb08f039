"""What a room needs once, whatever is done in it: furniture, floor and fixtures covered, tools, and all given back.

Each of these carries a word with the room's name, so that two kinds of work in one room do it once.
"""

from __future__ import annotations

from dataclasses import replace

from estimating.estimate.pricing.plan import Around, Charge, Material, Phase, Supply, Task
from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes.shared import access, conditions
from estimating.scopes.shared.products import title_of
from estimating.scopes.shared.work_area import WorkArea, for_tools, with_crew_note, with_share_key
from estimating.takeoff import counted
from estimating.trade import masking, mist

FIXTURES = ("recessed_light", "ceiling_light", "pendant", "fan", "grille", "detector", "sprinkler_head", "speaker")
COUNTED_BACK = ("detector", "sprinkler_head")
THE_JOB = "the job"
SPRAYER = ("equipment_sprayer", "Sprayer, hose and gun, a day")


def once_a_room(task: Task, word: str) -> Task:
    """Return the task as one that its room needs only once in the whole job."""
    return with_share_key(task, f"{word}, {task.room}")


def move_furniture(work_area: WorkArea) -> list[Task]:
    """Return moving the furniture; nothing where the room is empty."""
    standing = str(work_area.room.room.furniture or "light")
    if standing == "none":
        return []
    move = ("move_furniture", "Move and cover furniture", Phase.PROTECT, "move_furniture", "hand", standing)
    return [replace(once_a_room(work_area.by_hours(*move), "furniture"), moves_furniture=True)]


def cover_floor(work_area: WorkArea) -> Task:
    """Return covering the floor."""
    slowed = work_area.slowed(access.crew(work_area), access.furniture(work_area))
    cover = ("protect_floor", "Cover the floor", Phase.PROTECT, work_area.room.floor, "protect_floor", "hand", "any")
    return once_a_room(slowed.by_area(*cover), "floor cover")


def uncover_floor(work_area: WorkArea, phase: Phase) -> Task:
    """Return taking up what covers the floor."""
    slowed = work_area.slowed(access.crew(work_area))
    roll_up = ("unmask_floor", "Roll up the floor covering", phase, work_area.room.floor, "unmask", "hand", "any")
    return once_a_room(slowed.by_area(*roll_up), "floor uncovered")


def floor_paper(work_area: WorkArea) -> Supply:
    """Return the paper over the floor, in rolls."""
    return _floor_sheet(work_area, "floor_paper", "Floor paper")


def floor_plastic(work_area: WorkArea) -> Supply:
    """Return the plastic over the floor where it gets wet, in rolls."""
    return _floor_sheet(work_area, "floor_plastic", "Floor plastic")


def sheeting(work_area: WorkArea) -> Supply:
    """Return heavy plastic over the floor where dust or wet texture comes down, once for the room."""
    sheet = work_area.basis.figure("masking_stock", "plastic_sheeting", "area")
    bought = work_area.supply("plastic_sheeting", "Plastic sheeting, 6 mil", work_area.room.floor, sheet, "roll")
    return replace(bought, share_key=f"plastic sheeting, {work_area.room.room.name}")


def _floor_sheet(work_area: WorkArea, item: str, title: str) -> Supply:
    stock = work_area.basis
    length = work(
        masking.floor_paper_by_area,
        f"{title.lower()} to unroll",
        floor_area=work_area.room.floor,
        stock_width=stock.figure("masking_stock", item, "width"),
        overlap=stock.figure("masking_stock", "overlap", "floor"),
    )
    bought = work_area.supply(item, title, length, stock.figure("masking_stock", item, "length"), "roll")
    return replace(bought, share_key=f"{title.lower()}, {work_area.room.room.name}")


def fixture_count(work_area: WorkArea, kind: str) -> Figure:
    """Return how many fixtures of a kind there are; none counted is none planned for."""
    room = work_area.room.room
    return counted(
        getattr(room.fixtures, kind) or 0, f"{kind.replace('_', ' ')}s", f'rooms "{room.name}" · fixtures · {kind}'
    )


def kinds_there(work_area: WorkArea) -> list[str]:
    """Return the kinds of fixture that were counted in the room."""
    return [kind for kind in FIXTURES if getattr(work_area.room.room.fixtures, kind)]


def cover_fixtures(work_area: WorkArea) -> list[Task]:
    """Return covering every fixture, kind by kind."""
    return [_fixture(work_area, kind, "mask", "Cover", Phase.MASK) for kind in kinds_there(work_area)]


def uncover_fixtures(work_area: WorkArea, phase: Phase) -> list[Task]:
    """Return uncovering every fixture, kind by kind."""
    return [_fixture(work_area, kind, "uncover", "Uncover", phase) for kind in kinds_there(work_area)]


def _fixture(work_area: WorkArea, kind: str, treatment: str, verb: str, phase: Phase) -> Task:
    count = fixture_count(work_area, kind)
    key, title = f"{treatment}_{kind}", f"{verb} {kind.replace('_', ' ')}s"
    slowed = work_area.slowed(access.crew(work_area))
    task = once_a_room(slowed.by_count(key, title, phase, count, kind, treatment, table="fixtures"), key)
    if kind in COUNTED_BACK:
        task = replace(task, around=Around.AFTER if treatment == "uncover" else Around.BEFORE)
    return with_crew_note(task, f"{count.value:.0f} out, {count.value:.0f} back" if kind in COUNTED_BACK else "")


def tools(work_area: WorkArea, *, sprayed: bool) -> list[Task]:
    """Return setting up and cleaning the tools: rollers once a job, the sprayer on each day it is used."""
    if not sprayed:
        wash = ("wash_rollers", "Wash rollers and brushes", Phase.CLEAN, "wash_rollers", "roll", "any")
        return [_of_the_job(work_area.by_hours(*wash))]
    set_up = ("set_up_sprayer", "Set up and prime the sprayer", Phase.PREPARE, "set_up_sprayer", "airless", "any")
    flush = ("wash_sprayer", "Flush and clean the sprayer", Phase.CLEAN, "wash_sprayer", "airless", "any")
    return [
        replace(_of_the_job(work_area.by_hours(*each)), machine=conditions.SPRAYER, around=when)
        for each, when in ((set_up, Around.BEFORE), (flush, Around.AFTER))
    ]


def _of_the_job(task: Task) -> Task:
    return for_tools(replace(task, room="", share_key=task.key))


def sprayer_by_the_day(work_area: WorkArea) -> Charge:
    """Return the sprayer, for each day on which it is used, once for the whole job."""
    return work_area.by_day(*SPRAYER, conditions.SPRAYER)


def against_mist(work_area: WorkArea, *, tips: int = 1, once: str = "") -> list[Supply]:
    """Return a fresh tip of each size and a respirator each; `once` says for what they are needed only once."""
    people = float(work_area.job.crew.people)
    return [
        work_area.bought(
            "spray_tip", "each", "Spray tip", float(tips), "a fresh tip of each size, for an even fan", once=once
        ),
        work_area.bought("dust_mask", "each", "Particle respirators", people, "one each", once=once),
    ]


def left_in(work_area: WorkArea, tool: str, product: str, color: str = "") -> Material:
    """Return the paint that stays in the sprayer or the roller, once for each product and color of the job."""
    left = work_area.basis.figure("losses", "equipment", tool)
    word = f"left in the {tool}, {product}, {color}"
    return Material(product, title_of(product), left, f"left in the {tool}", color, share_key=word, stays_in_tools=True)


def mist_settles(work_area: WorkArea, product: str, droplets: str = "fine", name: str = "fine mist down") -> Figure:
    """Return how long mist needs to fall (hours): the fine one that is breathed, or with "marks" what lands wet."""
    basis = work_area.basis
    return work(
        mist.settle_before_unmasking,
        name,
        height=work_area.room.height,
        droplet=basis.figure("spray", "droplet", droplets),
        volume_solids=basis.figure("coatings", product, "volume_solids"),
        density=basis.figure("coatings", product, "density"),
        volatile_density=leaf("water, at 20 °C", 0.998, "g/cm**3", Origin(Kind.MEMORY, note="what leaves as it dries")),
        left=basis.figure("spray", "settle", "left"),
        air_changes=basis.figure("spray", "settle", "air_changes"),
    )
