"""The ways to paper walls, each as a full plan of work."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from estimating.estimate.pricing.plan import OfTheSurface, Plan, Risk, Task
from estimating.estimate.pricing.totals import loaded_wage
from estimating.figures import Figure, random_draw, total, work
from estimating.scopes.kinds.wallcovering import hanging as tasks
from estimating.scopes.kinds.wallcovering import suitability, supplies
from estimating.scopes.kinds.wallcovering.facts import Papering
from estimating.scopes.kinds.wallcovering.removal import strip_tasks
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.work_area import drop_zero_hours
from estimating.trade import adhesion, labor, ordering

STOP_RULE = (
    "First 10 square feet of stripping: face paper or plaster on the back of the covering, or less than a quarter of "
    "the planned rate: stop, photograph, tell the client, and go on by the hour or not at all. First roll of paper: a "
    "shade, a print or a batch that differs: stop before the next strip is cut."
)


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
    plan = Plan(
        scope=scope_name(walls),
        method="decline",
        title="Decline to paper them",
        client_requirements=("keep the walls as they are until what stands against papering them is put right",),
        notes=("the honest last resort where no way of papering may be used here",),
        finishes=False,
    )
    return with_hazards(plan, walls.work_area, suitability.exposure(walls, "decline"))


WAYS: Mapping[str, Callable[[Papering], Plan]] = MappingProxyType(
    {"hang": hang, "strip_hang": strip_hang, "line_hang": line_hang, "hang_over": hang_over, "decline": decline}
)


def scope_name(walls: Papering) -> str:
    """Return what the work is called in reports."""
    return f"wallcovering, {walls.item.room}"


def _papered(walls: Papering, method: str, title: str) -> Plan:
    stripped, lined = suitability.strips(walls, method), method == "line_hang"
    primed, paint, bought = tasks.first_coat(walls, stripped=stripped)
    hung = [*(tasks.line(walls) if lined else []), *tasks.hang(walls)]
    work_ = [
        *tasks.protect(walls),
        *(strip_tasks(walls.removal, tasks.at_work(walls)) if stripped else []),
        *tasks.prepare(walls, stripped=stripped, lined=lined),
        *primed,
        *hung,
        *tasks.clear_up(walls, hung),
    ]
    over = method == "hang_over"
    plan = Plan(
        scope=scope_name(walls),
        method=method,
        title=title,
        tasks=drop_zero_hours(work_),
        materials=tuple(paint),
        supplies=(
            supplies.paper_supply(walls),
            *supplies.paste(walls, lined=lined, over_vinyl=over and supplies.over_vinyl(walls)),
            *bought,
            *supplies.sundries(walls, stripped=stripped),
        ),
        risks=(_lifts(walls, hung),) if over else (),
        findings=suitability.findings(walls, method),
        client_requirements=suitability.client_requirements(walls),
        notes=suitability.notes(walls, method),
        stop_rule=STOP_RULE,
        figures=_figures(walls, stripped),
    )
    return with_hazards(plan, walls.work_area, suitability.exposure(walls, method))


def _figures(walls: Papering, stripped: bool) -> tuple[Figure, ...]:
    paper = walls.paper
    counted = (paper.running,) if paper.paper.by_length else (supplies.paper_order(walls), suitability.waste(walls))
    found = (walls.area, paper.full, paper.parts, paper.rolls, *counted, suitability.second_opinion(walls))
    if not stripped:
        return found
    gone = walls.removal
    return (*found, gone.bad, gone.easy, *gone.stripping.values(), *gone.mending.values())


def _lifts(walls: Papering, hung: list[Task]) -> Risk:
    """Return the allowance for both coverings coming off: the chance of it, and doing the work again."""
    basis, found = walls.work_area.basis, walls.removal
    visit = basis.figure("business", "repair_visit")
    off = [task.hours for task in strip_tasks(found, tasks.at_work(walls))]
    hours = total("stripping both and hanging again", [visit, *off, *(task.hours for task in hung)], unit="hour")
    overhead = basis.figure("business", "overhead")
    supply = supplies.paper_supply(walls)
    count = (
        work(ordering.whole_containers, "paper again", need=supply.need, holds=supply.holds)
        if supply.holds
        else supply.need
    )
    cost = total(
        "both coverings off and paper again",
        [
            work(labor.labor_cost, "doing it again, labor", hours=hours, loaded_wage=loaded_wage(basis)),
            work(labor.overhead_cost, "doing it again, overhead", hours=hours, overhead=overhead),
            work(ordering.count_cost, "doing it again, paper", count=count, price=supply.price),
        ],
        unit="dollar",
    )
    happens = work(
        adhesion.occurs,
        "the old covering lets go",
        chance=found.lets_go,
        random_draw=random_draw("old covering lets go"),
    )
    told = basis.figure("release", "limit", "conditions", "probability")
    return Risk(
        "covering_lifts",
        "The old covering lets go",
        found.lets_go,
        cost,
        work(adhesion.expected_cost, "allowance for the old covering", chance=happens, cost=cost),
        "take both off, mend and prime the wall, and hang again",
        OfTheSurface(told=found.lets_go.value > told.value),
    )
