"""Coating recessed trims where they are, in several light passes."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Material, Phase, Task
from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.shared.work_area import with_crew_note, with_dry_time
from estimating.trade import fixtures

TRIM = "recessed_trim"
CARE = "lamps out, power off and locked by somebody licensed; light, dry passes"


def coat_trims(ceiling: Ceiling) -> tuple[list[Task], list[Material]]:
    """Return the tasks and the paint of coating trims in place; nothing where none are to be coated."""
    count = ceiling.item.trims_to_coat or 0
    if not count:
        return [], []
    origin = Origin(Kind.ENTERED, place=f'work "{ceiling.item.room}" · trims_to_coat')
    trims = leaf("trims to coat", float(count), "dimensionless", origin)
    passes = ceiling.work_area.basis.figure("fixtures", TRIM, "passes")
    enamel = Material("trim_enamel", "Enamel for trims", _paint(ceiling, trims, passes), "recessed trims")
    return [_scuff(ceiling, trims), _coat(ceiling, trims, passes)], [enamel]


def _scuff(ceiling: Ceiling, trims: Figure) -> Task:
    row = ("clean_scuff", "hand", "any")
    return ceiling.work_area.by_count("scuff_trims", "Clean and scuff trims", Phase.FIXTURES, trims, *row)


def _coat(ceiling: Ceiling, trims: Figure, passes: Figure) -> Task:
    basis = ceiling.work_area.basis
    each = basis.figure("production", "spot_coat", "airless", "any")
    hours = work(fixtures.spot_coat_hours, "coating trims", fixtures=trims, passes=passes, minutes=each)
    flash_time = basis.figure("fixtures", TRIM, "flash")
    flash = work(fixtures.flash_wait, "flash time between passes", passes=passes, flash=flash_time)
    task = ceiling.work_area.task("coat_trims", "Coat trims in place, light passes", Phase.FIXTURES, hours, each)
    return with_dry_time(with_crew_note(task, CARE), flash, "trims to flash off")


def _paint(ceiling: Ceiling, trims: Figure, passes: Figure) -> Figure:
    basis = ceiling.work_area.basis
    return work(
        fixtures.trim_paint,
        "paint for trims",
        fixtures=trims,
        outer=basis.figure("fixtures", TRIM, "outer_diameter"),
        inner=basis.figure("fixtures", TRIM, "inner_diameter"),
        passes=passes,
        wet_film=basis.figure("fixtures", TRIM, "wet_film"),
        loss=basis.figure("losses", "airless", "open_parts"),
    )
