"""Joint compound over a whole surface: coat after coat, each dry before the next, then sanded; and what it takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from estimating.estimate.pricing.plan import InAir, Phase, Supply, Task
from estimating.figures import Figure, work
from estimating.scopes.shared import protection
from estimating.scopes.shared.repairs import compound_dries
from estimating.scopes.shared.work_area import WorkArea, with_crew_note
from estimating.trade import walls

SKIM = {  # step: what it is called, and whether it is left wet
    "first_coat": ("First skim over the scraped ceiling", True),
    "second_coat": ("Second skim", True),
    "sanding": ("Sand the skim smooth", False),
}
BOARD = {
    "fixing": ("Fix board over the texture", False),
    "taping": ("Bed tape in the joints", True),
    "second_coat": ("Second coat on joints and screws", True),
    "sanding": ("Sand the joints", False),
}
DUST = "sander with a vacuum or damp sponge, in respirators; no dry sweeping"


def skim(work_area: WorkArea, area: Figure) -> Iterator[Task]:
    """Yield two skims over a scraped ceiling and the sanding after them; each coat is dry before the next step."""
    yield from _steps(work_area, area, "skim", "skim_ceiling", SKIM)


def skim_over(work_area: WorkArea, name: str, area: Figure, *, overhead: bool = False) -> Iterator[Task]:
    """Yield two skims over old paint and the sanding after them; name: of the surface, such as walls."""
    titles = {
        "first_coat": (f"First skim on the {name}", True),
        "second_coat": (f"Second skim on the {name}", True),
        "sanding": (f"Sand the skim on the {name} smooth", False),
    }
    row = "skim_ceiling" if overhead else "skim_wall"
    yield from _steps(work_area, area, f"skim_{name.replace(' ', '_')}", row, titles, shares="skim_ceiling")


def board(work_area: WorkArea, area: Figure) -> Iterator[Task]:
    """Yield board over the texture, its joints finished in two coats and sanded; each coat is dry before the next."""
    yield from _steps(work_area, area, "overlay", "overlay_board", BOARD)


def _steps(
    work_area: WorkArea, area: Figure, key: str, row: str, steps: dict[str, tuple[str, bool]], shares: str = ""
) -> Iterator[Task]:
    for step, (title, wet) in steps.items():
        slowed = work_area.slowed(work_area.basis.figure("factors", shares or row, step))
        task = slowed.by_area(f"{key}_{step}", title, Phase.PREPARE, area, row, "hand", "any")
        if wet:
            yield compound_dries(work_area, replace(task, wet=True, needs_dry=True))
        elif step == "sanding":
            yield with_crew_note(replace(task, wet=False, needs_dry=True, in_air=InAir.DUST), DUST)
        else:
            yield task


def for_skim(work_area: WorkArea, area: Figure) -> Iterator[Supply]:
    """Yield compound, abrasives, plastic under the wet texture and bags for it, for a ceiling that is skimmed."""
    yield _by_area(work_area, "joint_compound", "Joint compound", area, "joint_compound_skim", "bucket")
    yield from _sanded(work_area, area)


def for_skim_over(work_area: WorkArea, area: Figure) -> Iterator[Supply]:
    """Yield compound and sanding sheets for old paint that is skimmed."""
    yield _by_area(work_area, "joint_compound", "Joint compound", area, "joint_compound_skim", "bucket")
    yield _by_area(work_area, "sanding_pole_sheets", "Sanding sheets", area, "sanding_sheets", "pack")


def for_board(work_area: WorkArea, area: Figure) -> Iterator[Supply]:
    """Yield board, screws, tape, compound, abrasives, plastic and bags for a ceiling that is covered."""
    sheet = work_area.basis.figure("masking_stock", "ceiling_board", "area")
    yield work_area.supply("ceiling_board", "Ceiling board", area, sheet, "each")
    yield _by_area(work_area, "drywall_screws", "Drywall screws", area, "drywall_screws", "box")
    yield _by_area(work_area, "joint_tape", "Joint tape", area, "joint_tape", "roll")
    yield _by_area(work_area, "joint_compound", "Joint compound", area, "joint_compound_board", "bucket")
    yield from _sanded(work_area, area)


def _sanded(work_area: WorkArea, area: Figure) -> Iterator[Supply]:
    yield _by_area(work_area, "sanding_pole_sheets", "Sanding sheets", area, "sanding_sheets", "pack")
    yield protection.sheeting(work_area)
    yield work_area.bought("waste_bag", "pack", "Waste bags, a pack", 1.0, "one pack a ceiling, each bag a third full")


def _by_area(work_area: WorkArea, item: str, title: str, area: Figure, member: str, container: str) -> Supply:
    does = work_area.basis.figure("members", member, "area")
    packs = work(walls.packs_for_area, f"{title.lower()} for the ceiling", area=area, each=does)
    return work_area.supply(item, title, packs, None, container)
