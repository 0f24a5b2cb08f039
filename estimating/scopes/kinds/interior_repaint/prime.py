"""Primers under the finish: on mended spots, on stains, on gloss, and a tinted barrier under a strong change."""

from __future__ import annotations

from functools import lru_cache

from estimating.estimate.pricing.plan import Material, Phase, Task
from estimating.figures import Figure, leaf
from estimating.job.surfaces import Sheen
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.interior_repaint import repairs
from estimating.scopes.kinds.interior_repaint.color import BOND, SEALER, SPOT, TITLES
from estimating.scopes.kinds.interior_repaint.facts import Repaint, Surface
from estimating.scopes.kinds.interior_repaint.trim import coat_members
from estimating.scopes.shared.solvent import stain_primer
from estimating.scopes.shared.work_area import drop_zero_hours, with_dry_time

SMALL_STAIN = 20  # ft²; a larger one is rolled, not dabbed
Primed = tuple[list[Task], list[Material]]


@lru_cache(maxsize=8)  # the same whatever the room is painted with
def prime(repaint: Repaint, *, barrier: bool) -> tuple[tuple[Task, ...], tuple[Material, ...]]:
    """Return the primers of the room: tasks in order, and what they take. All of one round dry together."""
    rounds = [[_spots(repaint), _stains(repaint), _bond(repaint)]]
    if barrier:
        most = max(each.coats.barrier for each in repaint.coated)
        rounds += [
            [_barrier(repaint, each, number) for each in repaint.coated if each.coats.barrier >= number]
            for number in range(1, most + 1)
        ]
    tasks: list[Task] = []
    materials: list[Material] = []
    for parts in rounds:
        done = [task for part, _ in parts for task in part]
        paint = [each for _, part in parts for each in part]
        if done:
            dry = max((recoat(repaint, each.product) for each in paint), key=lambda figure: figure.value)
            done[-1] = with_dry_time(done[-1], dry, "primer to dry")
        tasks += done
        materials += paint
    return tuple(tasks), tuple(materials)


def recoat(repaint: Repaint, product: str) -> Figure:
    """Return how long a product dries before the next coat (hours)."""
    return repaint.work_area.basis.figure("coatings", product, "recoat")


def _spots(repaint: Repaint) -> Primed:
    if not repaint.disturbed.value:
        return [], []
    work_area = repaint.worked()
    where = f'work "{repaint.item.room}" · repairs'
    spread = work_area.spread(SPOT, "smooth_drywall", "very_porous", "first", "brush", "interior")
    count = repairs.spots(repaint.item.repairs, where)
    cracks = repairs.crack_area(repaint.item.repairs, work_area, where)
    tasks = [
        work_area.by_count("spot_prime", "Prime mended spots", Phase.PRIME, count, "spot_prime", "brush", "any"),
        work_area.by_area("prime_cracks", "Prime mended cracks", Phase.PRIME, cracks, "stain_spot", "brush", "any"),
    ]
    return list(drop_zero_hours(tasks)), [
        work_area.paint(SPOT, TITLES[SPOT], repaint.disturbed, spread, "priming mended spots")
    ]


def _stains(repaint: Repaint) -> Primed:
    square_feet = sum(stain.square_feet for stain in repaint.item.stains or ())
    if not square_feet:
        return [], []
    work_area, product = repaint.worked(), stain_primer(repaint.work_area.job.site)
    where = f'work "{repaint.item.room}" · stains'
    area = leaf("stained", float(square_feet), "ft**2", Origin(Kind.MEASURED, place=where), key=where)
    method = ("stain_spot", "brush", "any") if square_feet <= SMALL_STAIN else ("stain_seal", "roll", "any")
    spread = work_area.spread(product, "smooth_drywall", "slight", "first", method[1], "interior")
    task = work_area.by_area("seal_stains", "Seal the stains", Phase.PRIME, area, *method)
    return [task], [work_area.paint(product, TITLES[product], area, spread, "sealing stains")]


def _bond(repaint: Repaint) -> Primed:
    trim = repaint.trim
    if trim is None or repaint.item.trim.sheen_now is not Sheen.GLOSS:
        return [], []
    work_area = repaint.worked()
    tasks = coat_members(trim.members, work_area, 0, Phase.PRIME, "Prime")
    spread = work_area.spread(BOND, trim.surface, "sealed", "first", "brush", "interior")
    return tasks, [work_area.paint(BOND, TITLES[BOND], trim.area, spread, "bonding to gloss")]


def _barrier(repaint: Repaint, coated: Surface, number: int) -> Primed:
    coat, method = "first" if number == 1 else "later", "brush" if coated.key == "trim" else "roll"
    spread = repaint.work_area.spread(SEALER, coated.surface, coated.porosity, coat, method, "interior")
    tint = f"tinted toward {coated.color}" if coated.color else "tinted gray"
    paint = repaint.work_area.paint(
        SEALER, TITLES[SEALER], coated.area, spread, f"barrier under the {coated.name}", tint
    )
    return _barrier_coat(repaint, coated, number), [paint]


def _barrier_coat(repaint: Repaint, coated: Surface, number: int) -> list[Task]:
    if coated.members:
        return coat_members(coated.members, repaint.worked(), number, Phase.PRIME, "Barrier")
    pace = repaint.paces.ceiling if coated.overhead else repaint.paces.wall
    row = ("roll_ceiling", "roll", coated.grade) if coated.overhead else ("prime_wall", "roll", "any")
    line = ("cut_in", "brush", "sealed")
    high = repaint.paces.ceiling if coated.overhead else repaint.paces.first_line
    name = f"Barrier on the {coated.name}, coat {number}"
    return [
        repaint.worked(high).by_length(
            f"cut_barrier_{coated.key}_{number}", f"{name}, cut in", Phase.PRIME, coated.line, *line
        ),
        repaint.worked(pace).by_area(f"barrier_{coated.key}_{number}", name, Phase.PRIME, coated.area, *row),
    ]
