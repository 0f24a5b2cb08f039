"""Finish coats on ceiling, walls, accent walls and trim, by roller, by sprayer or by brush."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from estimating.estimate.pricing.order import can_prices
from estimating.estimate.pricing.plan import Material, Phase, Risk, Task
from estimating.estimate.pricing.totals import loaded_wage
from estimating.figures import Figure, random_draw, total, work
from estimating.scopes.kinds.interior_repaint.color import TITLES, WALL, chance_of_another, extra_colors
from estimating.scopes.kinds.interior_repaint.facts import Repaint, Surface
from estimating.scopes.kinds.interior_repaint.prime import Primed, recoat
from estimating.scopes.kinds.interior_repaint.trim import coat_members
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.work_area import WorkArea, for_tools, with_crew_note, with_dry_time, with_share_key
from estimating.trade import adhesion, labor, ordering

LOSSES = {"roller": ("roll", "interior"), "brush": ("brush", "interior"), "sprayer": ("airless", "masked_interior")}


class Tool(NamedTuple):
    """What a surface is painted with: roller, sprayer or brush."""

    name: str
    back_rolled: bool = False


@dataclass(frozen=True)
class Method:
    """A way to put the finish on large surfaces; trim is brushed; accent walls and closets are never sprayed."""

    method: str
    title: str
    tool: str  # roller, sprayer or brush
    back_rolled: bool = False
    barrier: bool = True  # a tinted barrier where the change of color asks for one

    @property
    def sprayed(self) -> bool:
        """Whether mist is in the room."""
        return self.tool == "sprayer"

    def tool_on(self, coated: Surface) -> Tool:
        """Return the tool for a surface."""
        if coated.key == "trim":
            return Tool("brush")
        by_hand = coated.key == "closets" or coated.key.startswith("accent")
        return Tool("roller") if self.sprayed and by_hand else Tool(self.tool, self.back_rolled)


def finish(repaint: Repaint, method: Method) -> Primed:
    """Return the finish coats of the room, and their paint: ceiling, then walls, then trim.

    Surfaces that are painted together get a coat each before any of them waits to dry.
    """
    tasks: list[Task] = []
    for phase in sorted({each.phase for each in repaint.coated}):
        group = [each for each in repaint.coated if each.phase is phase]
        most = max(each.coats.planned(barrier=method.barrier) for each in group)
        for number in range(1, most + 1):
            done = [task for each in group for task in _if_planned(repaint, each, method, number)]
            if number < most:
                dry = recoat(repaint, group[0].product)
                done[-1] = with_dry_time(done[-1], dry, f"coat {number} to dry before the next")
            tasks += done
    return tasks, [paint for each in repaint.coated for paint in _all_paint(repaint, each, method)]


def _if_planned(repaint: Repaint, coated: Surface, method: Method, number: int) -> list[Task]:
    last = coated.coats.planned(barrier=method.barrier)
    if number > last:
        return []
    done = list(coat(repaint, coated, method.tool_on(coated), number))
    if number == last and method.tool_on(coated).name == "sprayer":
        settled = room_cover.mist_settles(repaint.work_area, coated.product, "fine")
        done[-1] = with_dry_time(done[-1], settled, "mist to settle before unmasking")
    return done


def _all_paint(repaint: Repaint, coated: Surface, method: Method) -> Iterator[Material]:
    for number in range(1, coated.coats.planned(barrier=method.barrier) + 1):
        yield _paint(repaint, coated, method.tool_on(coated).name, number, barrier=method.barrier)
    tool, title = method.tool_on(coated), TITLES[coated.product]
    yield room_cover.left_in(repaint.work_area, tool.name, coated.product, title, coated.color)


@lru_cache(maxsize=64)  # the same in every way that uses this tool here
def coat(repaint: Repaint, coated: Surface, tool: Tool, number: int) -> tuple[Task, ...]:
    """Return one finish coat on a surface; the last of its tasks is the one to wait after."""
    later = repaint.paces.later if number > 1 else None
    if coated.members:
        return tuple(coat_members(coated.members, repaint.worked(later), number, coated.phase))
    pace = repaint.paces.ceiling if coated.overhead else repaint.paces.wall
    work_area = repaint.worked(pace, later, _overhead_factor(coated, tool.name, repaint.work_area))
    verb, row = _by_tool(coated, tool)
    title = f"{verb} the {coated.name}, coat {number}"
    task = work_area.by_area(f"{coated.key}_{number}", title, coated.phase, coated.area, *row)
    if tool.name != "roller":
        return (task,)
    nap = work_area.basis.figure("naps", "light_texture" if coated.grade == "light_texture" else "wall", "nap")
    return _cut(repaint, coated, number), with_crew_note(
        task, f"nap about {nap.value:g} in; keep a wet edge to the cut"
    )


def _cut(repaint: Repaint, coated: Surface, number: int) -> Task:
    paces = repaint.paces
    line = paces.first_line if number == 1 else paces.line
    later = paces.later if number > 1 else None
    work_area = repaint.worked(paces.ceiling if coated.overhead else line, later)
    title = f"Cut in the {coated.name}, coat {number}"
    return work_area.by_length(
        f"cut_{coated.key}_{number}", title, coated.phase, coated.line, "cut_in", "brush", "sealed"
    )


def _by_tool(coated: Surface, tool: Tool) -> tuple[str, tuple[str, str, str]]:
    if tool.name == "roller":
        return "Roll", ("roll_ceiling" if coated.overhead else "roll_wall", "roll", coated.grade)
    if tool.name == "brush":
        return "Brush", ("brush_wall", "brush", "any")
    if tool.back_rolled:
        return "Spray and back-roll", ("spray_wall", "airless_back_roll", "any")
    return "Spray", ("spray_wall", "airless", "any")


def _overhead_factor(coated: Surface, tool: str, work_area: WorkArea) -> Figure | None:
    """Return what a ceiling takes over a wall, where the rate is one for walls."""
    if not coated.overhead or tool == "roller":
        return None
    return work_area.basis.figure("factors", "element", "ceiling")


@lru_cache(maxsize=64)  # as above
def _paint(repaint: Repaint, coated: Surface, tool: str, number: int, *, barrier: bool) -> Material:
    primed = barrier and coated.coats.barrier > 0
    porosity, coat_ = ("sealed", "later") if primed else (coated.porosity, "first" if number == 1 else "later")
    losses = LOSSES[tool]
    spread = repaint.work_area.spread(coated.product, coated.surface, porosity, coat_, *losses)
    purpose = f"coat {number} of the {coated.name}"
    return repaint.work_area.paint(coated.product, TITLES[coated.product], coated.area, spread, purpose, coated.color)


def another_coat(repaint: Repaint, coated: Surface, method: Method) -> Risk:
    """Return the allowance for one more coat on a surface: its chance times what the coat costs."""
    chance = chance_of_another(coated.coats, repaint.work_area.basis, barrier=method.barrier)
    happens = work(adhesion.occurs, "one more coat is put on", chance=chance, random_draw=random_draw("one more coat"))
    cost = _cost_of_a_coat(repaint, coated, method.tool_on(coated), barrier=method.barrier)
    return Risk(
        f"another_coat_{coated.key}",
        f"One more coat on the {coated.name}, {repaint.item.room}",
        chance,
        cost,
        work(adhesion.expected_cost, "one more coat, allowance", chance=happens, cost=cost),
        "look at it dry, in daylight and under a lamp; one more coat over the whole surface, corner to corner",
    )


def risks(repaint: Repaint, method: Method) -> tuple[Risk, ...]:
    """Return the allowances for one more coat on each surface, the one that weighs most first."""
    found = [another_coat(repaint, each, method) for each in repaint.coated]
    return tuple(sorted(found, key=lambda risk: -risk.expected.value))


@lru_cache(maxsize=64)  # as above
def _cost_of_a_coat(repaint: Repaint, coated: Surface, tool: Tool, *, barrier: bool) -> Figure:
    basis = repaint.work_area.basis
    last = coated.coats.planned(barrier=barrier) + 1
    name = f"one more coat on the {coated.name}"
    hours = total(f"{name}, hours", [task.hours for task in coat(repaint, coated, tool, last)], unit="hour")
    overhead = basis.figure("business", "overhead")
    need = _paint(repaint, coated, tool.name, last, barrier=barrier).gallons
    parts = [
        work(labor.labor_cost, f"{name}, labor", hours=hours, loaded_wage=loaded_wage(basis)),
        work(labor.overhead_cost, f"{name}, overhead", hours=hours, overhead=overhead),
        work(ordering.least_cost, f"{name}, paint", need=need, **can_prices(basis, coated.product)),
    ]
    return total(name, parts, unit="dollar")


def colors(repaint: Repaint, method: Method) -> list[Task]:
    """Return what further colors cost: in this room for accent walls, on the job for each new can."""
    work_area = repaint.worked()
    accents = [
        for_tools(
            work_area.by_hours(
                f"extra_{each.key}", f"A color of its own: {each.name}", Phase.WALLS, "accent_wall", "any", "any"
            )
        )
        for each in repaint.accents
    ]
    further = []
    for product, color in extra_colors(repaint.work_area.job, repaint.item):
        said = f"{TITLES[product]}, {color or 'color not known'}"
        opened = work_area.by_hours(
            "extra_color", f"A further color: {said}", Phase.PREPARE, "extra_color", "any", "any"
        )
        further.append(for_tools(with_share_key(opened, f"further color, {product}, {color}")))
        if method.sprayed and product == WALL and repaint.walls and color == repaint.walls.color:
            title = f"Change over to {color or 'the next color'}"
            flush = work_area.by_hours("change_color", title, Phase.WALLS, "change_color", "airless", "any")
            further.append(with_share_key(flush, f"change over, {product}, {color}"))
    return [*accents, *further]
