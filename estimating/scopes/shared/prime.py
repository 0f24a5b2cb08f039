"""Primers under the finish: on mended spots, stains and gloss, all over, and a tinted barrier under a strong change."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from estimating.estimate.pricing.plan import Material, Phase, Task
from estimating.figures import Figure, leaf, work
from estimating.job.repairs import Repairs
from estimating.job.surfaces import Stain, StainKind
from estimating.origins import Kind, Origin
from estimating.scopes.shared import repairs as mending
from estimating.scopes.shared.products import BONDING_PRIMER, DRYWALL_PRIMER, WATER_PRIMER
from estimating.scopes.shared.surface import SMOOTH, Surface
from estimating.scopes.shared.trim import coat_members
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, with_dry_time
from estimating.trade import walls

SMALL_STAIN = 20  # ft²; a larger one is rolled, not dabbed


class Layer(NamedTuple):
    """Tasks in order, and the paint they take."""

    tasks: Sequence[Task] = ()
    paint: Sequence[Material] = ()


def one_after_another(layers: Iterable[Layer]) -> Layer:
    """Return layers as one."""
    found = list(layers)
    return Layer([task for each in found for task in each.tasks], [paint for each in found for paint in each.paint])


def dried(layer: Layer, dries: Callable[[str], Figure], why: str = "primer to dry") -> Layer:
    """Return a layer with the wait after it: all of it dries together, so the slowest of its paints counts."""
    if not layer.tasks:
        return layer
    slowest = max((dries(each.product) for each in layer.paint), key=lambda figure: figure.value)
    return Layer([*layer.tasks[:-1], with_dry_time(layer.tasks[-1], slowest, why)], layer.paint)


def spots(work_area: WorkArea, repairs: Repairs, where: str) -> Layer:
    """Return priming mended patches and cracks."""
    opened = mending.disturbed(repairs, work_area, where)
    if not opened.value:
        return Layer()
    spread = work_area.spread(DRYWALL_PRIMER, SMOOTH, "very_porous", "first", "brush", "interior")
    count, cracks = mending.spots(repairs, where), mending.crack_area(repairs, work_area, where)
    tasks = [
        work_area.by_count("spot_prime", "Prime mended spots", Phase.PRIME, count, "spot_prime", "brush", "any"),
        work_area.by_area("prime_cracks", "Prime mended cracks", Phase.PRIME, cracks, "stain_spot", "brush", "any"),
    ]
    return Layer(drop_zero_hours(tasks), [work_area.paint(DRYWALL_PRIMER, opened, spread, "priming mended spots")])


def stains(
    work_area: WorkArea,
    noted: Sequence[Stain],
    product: str,
    where: str,
    *,
    texture: str = SMOOTH,
    porosity: str = "slight",
    whole: Figure | None = None,
) -> Layer:
    """Return sealing stains with a product: small ones are dabbed, large ones rolled.

    whole: the surfaces of the room, which are sealed all over where smoke of years has gone into one patch of them.
    """
    square_feet = sum(stain.square_feet for stain in noted)
    if not square_feet:
        return Layer()
    area = leaf("stained", float(square_feet), "ft**2", Origin(Kind.MEASURED, place=where), key=where)
    if whole is not None and in_all_of_it(noted):
        area = work(walls.at_least, "sealed against nicotine", measured=area, whole=whole)
    row, tool = ("stain_spot", "brush") if area.value <= SMALL_STAIN else ("stain_seal", "roll")
    spread = work_area.spread(product, texture, porosity, "first", tool, "interior")
    task = work_area.by_area("seal_stains", "Seal the stains", Phase.PRIME, area, row, tool, "any")
    return Layer([task], [work_area.paint(product, area, spread, "sealing stains")])


def in_all_of_it(noted: Iterable[Stain]) -> bool:
    """Say whether what stained a patch has gone into the whole room: nicotine has."""
    return any(stain.kind is StainKind.NICOTINE and stain.square_feet for stain in noted)


def bond(work_area: WorkArea, surface: Surface) -> Layer:
    """Return a bonding primer on trim that shines."""
    return on_members(work_area, surface, BONDING_PRIMER, "sealed", "bonding to gloss")


def on_members(work_area: WorkArea, surface: Surface, product: str, porosity: str, purpose: str) -> Layer:
    """Return one coat of primer on all members of a surface, by hand."""
    situation = "exterior" if surface.outside else "interior"
    spread = work_area.spread(product, surface.texture, porosity, "first", "brush", situation)
    tasks = coat_members(surface.members, work_area, 0, Phase.PRIME, "Prime")
    return Layer(tasks, [work_area.paint(product, surface.area, spread, purpose)])


def bare_spots(work_area: WorkArea, surface: Surface, bare: Figure, product: str, purpose: str) -> list[Material]:
    """Return the primer on bare spots of old paint (ft²); priming them is in the hours of getting them ready."""
    if not bare.value:
        return []
    situation = "exterior" if surface.outside else "interior"
    spread = work_area.spread(product, surface.texture, "porous", "first", "brush", situation)
    return [work_area.paint(product, bare, spread, purpose)]


def all_over(
    work_area: WorkArea, surface: Surface, product: str, title: str, purpose: str, *, back_rolled: bool = False
) -> Layer:
    """Return one coat of primer over a whole surface, by roller, or sprayed and rolled out at once."""
    losses = ("airless", "masked_interior") if back_rolled else ("roll", "interior")
    spread = work_area.spread(product, surface.texture, surface.porosity, "first", *losses)
    task = _primed(work_area, surface, f"prime_{surface.key}", title, back_rolled=back_rolled)
    return Layer([task], [work_area.paint(product, surface.area, spread, purpose)])


def _primed(work_area: WorkArea, surface: Surface, key: str, title: str, *, back_rolled: bool = False) -> Task:
    overhead = None
    row = ("prime_wall", "roll", "any")
    if back_rolled:
        row = ("prime_wall", "airless_back_roll", "any")
        overhead = work_area.basis.figure("factors", "element", "ceiling") if surface.overhead else None
    elif surface.overhead:
        row = ("roll_ceiling", "roll", surface.grade)
    return work_area.slowed(surface.pace.area, overhead).by_area(key, title, Phase.PRIME, surface.area, *row)


def barriers(work_area: WorkArea, surfaces: Sequence[Surface]) -> list[Layer]:
    """Return the tinted primers under a strong change of color, round by round: each dries before the next."""
    most = max((each.coats.barrier for each in surfaces), default=0)
    return [
        one_after_another(_barrier(work_area, each, number) for each in surfaces if each.coats.barrier >= number)
        for number in range(1, most + 1)
    ]


def _barrier(work_area: WorkArea, surface: Surface, number: int) -> Layer:
    coat, tool = "first" if number == 1 else "later", "brush" if surface.key == "trim" else "roll"
    spread = work_area.spread(WATER_PRIMER, surface.texture, surface.porosity, coat, tool, "interior")
    tint = f"tinted toward {surface.color}" if surface.color else "tinted gray"
    paint = work_area.paint(WATER_PRIMER, surface.area, spread, f"barrier under the {surface.name}", tint)
    return Layer(_barrier_tasks(work_area, surface, number), [paint])


def _barrier_tasks(work_area: WorkArea, surface: Surface, number: int) -> list[Task]:
    if surface.members:
        return coat_members(surface.members, work_area, number, Phase.PRIME, "Barrier")
    title = f"Barrier on the {surface.name}, coat {number}"
    key = f"barrier_{surface.key}_{number}"
    cut = work_area.slowed(surface.pace.first_line).by_length(
        f"cut_{key}", f"{title}, cut in", Phase.PRIME, surface.line, "cut_in", "brush", "sealed"
    )
    return [cut, _primed(work_area, surface, key, title)]
