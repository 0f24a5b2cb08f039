"""Getting rid of texture: scraped off or covered with board, then painted smooth. Mud and dust want the room draped."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.estimate.pricing.plan import Material, Phase, Plan, Supply, Task
from estimating.scopes.kinds.textured_ceiling import protection, suitability
from estimating.scopes.kinds.textured_ceiling.facts import FINISH, Ceiling
from estimating.scopes.kinds.textured_ceiling.paint import coat_paint, left_in, scope_name, sundries
from estimating.scopes.kinds.textured_ceiling.trims import coat_trims
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.drying import drying
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, with_dry_time

SEALER = "drywall_sealer"
BARE = "smooth_drywall"


def scrape(ceiling: Ceiling) -> Plan:
    """Take the texture off wet, skim, prime and roll a smooth ceiling."""
    work_area, area = _work_area(ceiling), ceiling.area
    row = ("scrape_ceiling", "hand", "wet")
    taken = work_area.by_area("scrape", "Wet and scrape the texture off", Phase.REMOVE, area, *row)
    skim = work_area.by_area("skim", "Skim and sand smooth", Phase.PREPARE, area, "skim_ceiling", "hand", "any")
    return _made_smooth(ceiling, "scrape", "Scrape, skim and paint smooth", (taken, _dried(work_area, skim)))


def overlay(ceiling: Ceiling) -> Plan:
    """Cover the texture with thin board, finish the joints, prime and roll."""
    work_area, area = _work_area(ceiling), ceiling.area
    row = ("overlay_board", "hand", "any")
    board = work_area.by_area("overlay", "Fix and finish board over the texture", Phase.PREPARE, area, *row)
    sheet = work_area.basis.figure("masking_stock", "ceiling_board", "area")
    boards = work_area.supply("ceiling_board", "Ceiling board", area, sheet, "each")
    return _made_smooth(ceiling, "overlay", "Cover with board and paint smooth", (_dried(work_area, board),), boards)


def _work_area(ceiling: Ceiling) -> WorkArea:
    return ceiling.work_area.slowed(ceiling.work_area.crew_factor(), ceiling.work_area.height_factor())


def _dried(work_area: WorkArea, task: Task) -> Task:
    dry = work_area.basis.figure("production", "dry", "joint_compound", "any")
    return with_dry_time(task, dry, "joint compound to dry")


def _coats(ceiling: Ceiling) -> list[Task]:
    work_area = _work_area(ceiling)
    rolled = ("roll_ceiling", "roll", "smooth")
    prime = work_area.by_area("prime", "Prime", Phase.PRIME, ceiling.area, *rolled)
    tasks = [with_dry_time(prime, drying(ceiling.work_area, SEALER), "primer to dry")]
    for coat in range(1, ceiling.coats() + 1):
        title = f"coat {coat}"
        row = ("cut_in", "brush", "sealed")
        tasks.append(work_area.by_length(f"cut_in_{coat}", f"Cut in, {title}", Phase.CEILING, ceiling.edge, *row))
        done = work_area.by_area(f"roll_{coat}", f"Roll, {title}", Phase.CEILING, ceiling.area, *rolled)
        last = coat == ceiling.coats()
        tasks.append(
            done if last else with_dry_time(done, drying(ceiling.work_area, FINISH), f"{title} to dry before the next")
        )
    return tasks


def _materials(ceiling: Ceiling) -> list[Material]:
    work_area = ceiling.work_area
    sealer = work_area.spread(SEALER, BARE, "porous", "first", "roll", "interior")
    spread = work_area.spread(FINISH, BARE, "sealed", "later", "roll", "interior")
    coats = range(1, ceiling.coats() + 1)
    return [
        coat_paint(ceiling, SEALER, ceiling.area, sealer, "priming the bare ceiling"),
        *(coat_paint(ceiling, FINISH, ceiling.area, spread, f"coat {coat} of the ceiling") for coat in coats),
        left_in(ceiling, sprayed=False),
    ]


def _made_smooth(ceiling: Ceiling, method: str, title: str, first: Sequence[Task], *supplies: Supply) -> Plan:
    trims, enamel = coat_trims(ceiling)
    tasks = [
        *protection.protect(ceiling, sprayed=True),
        *first,
        *_coats(ceiling),
        *trims,
        *protection.unprotect(ceiling, sprayed=True),
        *room_cover.tools(ceiling.work_area, sprayed=False),
    ]
    bought = (*protection.masking_supplies(ceiling, sprayed=True), *sundries(ceiling, sprayed=False, sealed=False))
    plan = Plan(
        scope=scope_name(ceiling),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=(*_materials(ceiling), *enamel),
        supplies=(*bought, *supplies),
        charges=(ceiling.work_area.once("disposal", "Bags and dump fee"),),
        findings=suitability.findings(ceiling, method),
        notes=("the texture is gone: there is nothing left to release",),
    )
    return with_hazards(plan, ceiling.work_area, suitability.exposure(ceiling, method))
