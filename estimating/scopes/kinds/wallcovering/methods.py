"""The methods to paper walls, each as a full plan of work."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from estimating.estimate.pricing.plan import OfTheSurface, Phase, Plan, Risk, Task
from estimating.evidence import Basis
from estimating.figures import Figure, work
from estimating.job.model import Job
from estimating.scopes.kinds.wallcovering import hanging, suitability
from estimating.scopes.kinds.wallcovering.facts import Papering, facts
from estimating.scopes.kinds.wallcovering.notes import Wallcovering
from estimating.scopes.kinds.wallcovering.removal import BAD, strip_tasks
from estimating.scopes.shared import protection, rework
from estimating.scopes.shared.client_surfaces import on_one_surface
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.standing import declined
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours
from estimating.trade import ordering

STOP_RULE = (
    "First 10 square feet of stripping: face paper or plaster on the back of the covering, or less than a quarter of "
    "the planned rate: stop, photograph, tell the client, and go on by the hour or not at all. First roll of paper: a "
    "shade, a print or a batch that differs: stop before the next strip is cut."
)


def plans(item: Wallcovering, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every method of papering the walls."""
    walls = facts(item, WorkArea.of(item, job, basis))
    return tuple(on_one_surface(method(walls), "wallcovering") for method in METHODS.values())


def decision_figure(plan: Plan) -> Figure | None:
    """Return the figure on which the choice between methods turns: the chance that the wall comes off badly."""
    return next((figure for figure in plan.figures if figure.name == BAD), None)


def hang(walls: Papering) -> Plan:
    """Hang on the wall as it stands, prepared and primed."""
    return _papered(walls, "hang", "Prepare the wall, then hang")


def strip_hang(walls: Papering) -> Plan:
    """Take the old covering off, mend and prime the wall, then hang."""
    return _papered(walls, "strip_hang", "Strip first, then hang")


def line_hang(walls: Papering) -> Plan:
    """Line the wall first, after taking off what hangs on it, then hang."""
    first = "Strip and line first" if suitability.strips(walls, "line_hang") else "Line first"
    return _papered(walls, "line_hang", f"{first}, then hang")


def hang_over(walls: Papering) -> Plan:
    """Leave the old covering on and hang over it."""
    return _papered(walls, "hang_over", "Hang over the old covering")


def decline(walls: Papering) -> Plan:
    """Leave the walls alone and say so."""
    return declined(
        walls.work_area,
        suitability.exposure(walls, "decline"),
        scope=scope_name(walls),
        verb="paper them",
        asked_of_client="keep the walls as they are until what stands against it is put right",
        last_resort="no method of hanging wallcovering is OK here",
    )


METHODS: Mapping[str, Callable[[Papering], Plan]] = MappingProxyType(
    {"hang": hang, "strip_hang": strip_hang, "line_hang": line_hang, "hang_over": hang_over, "decline": decline}
)


def scope_name(walls: Papering) -> str:
    """Return what the work is called in reports."""
    return f"wallcovering, {walls.item.room}"


def _papered(walls: Papering, method: str, title: str) -> Plan:
    area = walls.work_area
    stripped, lined, over = suitability.strips(walls, method), method == "line_hang", method == "hang_over"
    first = hanging.first_coat(walls, stripped=stripped)
    hung = [*(hanging.line(walls) if lined else []), *hanging.hang(walls)]
    tasks = [
        *protection.move_furniture(area),
        protection.cover_floor(area),
        *(strip_tasks(walls.removal, walls.at_work) if stripped else []),
        hanging.prepare(walls, stripped=stripped, lined=lined),
        *first.tasks,
        *hung,
        hanging.wash_up(walls, hung),
        protection.uncover_floor(area, Phase.CLEAN),
    ]
    plan = Plan(
        scope=scope_name(walls),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=tuple(first.paint),
        supplies=(
            hanging.paper_supply(walls),
            *hanging.paste(walls, lined=lined, over_vinyl=over and hanging.over_vinyl(walls)),
            *first.bought,
            *hanging.sundries(walls, stripped=stripped),
        ),
        risks=(_lifts(walls, hung),) if over else (),
        findings=suitability.findings(walls, method),
        client_requirements=suitability.client_requirements(walls),
        notes=suitability.notes(walls, method),
        stop_rule=STOP_RULE,
        figures=_figures(walls, stripped),
    )
    return with_hazards(plan, area, suitability.exposure(walls, method))


def _figures(walls: Papering, stripped: bool) -> tuple[Figure, ...]:
    paper = walls.paper
    counted = (paper.running,) if paper.paper.by_length else (hanging.paper_order(walls), suitability.waste(walls))
    found = (walls.area, paper.full, paper.parts, paper.rolls, *counted, suitability.second_opinion(walls))
    if not stripped:
        return found
    gone = walls.removal
    return (*found, gone.bad, gone.easy, *gone.stripping.values(), *gone.mending.values())


def _lifts(walls: Papering, hung: list[Task]) -> Risk:
    """Return the allowance for both coverings coming off: the chance of it, and doing the work again."""
    basis, chance = walls.work_area.basis, walls.removal.lets_go
    visit = basis.figure("business", "repair_visit")
    again = [*strip_tasks(walls.removal, walls.at_work), *hung]
    hours = [visit, *(task.hours for task in again)]
    told = basis.figure("release", "limit", "conditions", "probability")
    return rework.allowance(
        "covering_lifts",
        "The old covering lets go",
        chance,
        rework.cost_again(walls.work_area, "doing it again", hours, _paper_again(walls)),
        "the old covering lets go",
        "take both off, mend and prime the wall, and hang again",
        OfTheSurface(told=chance.value > told.value),
    )


def _paper_again(walls: Papering) -> Figure:
    supply = hanging.paper_supply(walls)
    count = supply.need
    if supply.holds:
        count = work(ordering.whole_containers, "paper again", need=supply.need, holds=supply.holds)
    return work(ordering.count_cost, "doing it again, paper", count=count, price=supply.price)
