"""Surfaces made ready by their level: washed, scraped where paint is loose, sanded, filled or skimmed, and primed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.surfaces import Condition, Preparation, SurfaceNotes, Washing
from estimating.origins import Kind, Origin
from estimating.scopes.shared import mud, prep, prime, repairs
from estimating.scopes.shared.preparation import LIGHT, PROMISES, RISING, On, Step, steps
from estimating.scopes.shared.prime import Layer
from estimating.scopes.shared.products import BONDING_PRIMER, DRYWALL_PRIMER
from estimating.scopes.shared.surface import SMOOTH, Surface
from estimating.scopes.shared.work_area import WorkArea, with_crew_note
from estimating.trade import walls

SCRAPED = "scrape back to paint that holds; nothing loose is painted over"


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class Part:
    """The ceiling, all walls or the trim of a room, as it is made ready."""

    on: On
    notes: SurfaceNotes
    level: Preparation
    surfaces: tuple[Surface, ...]  # walls with their accent walls, the ceiling or the trim
    work_area: WorkArea  # at the pace of the room and its height
    where: str

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.on)

    @cached_property
    def area(self) -> Figure:
        """Its whole area (ft²)."""
        areas = [each.area for each in self.surfaces]
        return areas[0] if len(areas) == 1 else total(f"all {self.name} to paint", areas, unit="ft**2")

    @property
    def smooth(self) -> bool:
        """Whether a skim would take no texture away."""
        return self.surfaces[0].grade == "smooth"

    @cached_property
    def share_loose(self) -> Figure | None:
        """How much of its paint is loose; None where it holds."""
        if self.notes.condition is not Condition.FAILING:
            return None
        noted = self.notes.failing_percent
        if noted is None:
            return self.work_area.basis.figure("factors", "prep", "failing_share")
        field = f"{self.where} · failing_percent"
        return leaf("loose part", noted / 100, "dimensionless", Origin(Kind.MEASURED, place=field), key=field)

    @cached_property
    def loose(self) -> Figure | None:
        """The area of loose paint (ft²); None where there is none."""
        share = self.share_loose
        if share is None or not share.value:
            return None
        return work(walls.part_of_area, f"loose paint on the {self.name}", whole=self.area, share=share)

    @cached_property
    def steps(self) -> frozenset[Step]:
        """What is done to all of it: what its level asks for, and a primer where very much is loose."""
        found = steps(self.on, self.level, self.notes, smooth=self.smooth)
        limit = self.work_area.basis.figure("factors", "prep", "prime_all_from").value
        much = self.share_loose is not None and self.share_loose.value >= limit
        return found | {Step.PRIME} if much else found

    @property
    def skims_scraped(self) -> bool:
        """Whether the edges of scraped paint are leveled with compound, so that they do not show."""
        plain = self.on is not On.TRIM and self.smooth and Step.SKIM not in self.steps
        return self.loose is not None and plain and RISING.index(self.level) > RISING.index(LIGHT)

    @cached_property
    def skimmed(self) -> Figure | None:
        """The area that is skimmed (ft²): all of it, or where paint was scraped off; None where none is."""
        if Step.SKIM in self.steps:
            return self.area
        return self.loose if self.skims_scraped else None

    @cached_property
    def sanded(self) -> Figure | None:
        """How much old paint is sanded or scraped (ft²); None where none is."""
        return self.area if {Step.SCUFF, Step.SKIM} & self.steps else self.loose


def washed(part: Part) -> Iterator[Task]:
    """Yield washing, where the notes or the level ask for it."""
    washing = part.notes.washing
    if Step.WASH not in part.steps and not prep.wanted(washing):
        return
    if part.on is On.TRIM:
        yield prep.wash_trim(part.work_area, part.surfaces[0].line)
    else:
        dirt = washing if prep.wanted(washing) else Washing.ORDINARY_DIRT
        yield prep.wash(part.work_area, part.name, part.area, dirt, overhead=part.on is On.CEILING)


def made_ready(part: Part) -> Iterator[Task]:
    """Yield what comes between mending and primer: loose paint off, scuffed, filled or skimmed, dusted."""
    area, name = part.work_area, part.name
    yield from _scraped(part)
    if part.on is On.TRIM:
        yield from _trim_ready(part)
        return
    if Step.FILL in part.steps:
        title = f"Fill dents and nail holes in the {name}, found with a lamp"
        filled = prep.by_hand(area, f"fill_{name}", title, part.area, "fill_dents")
        yield repairs.spackle_dries(area, filled)
    if Step.SCUFF in part.steps:
        yield prep.scuff(area, name, part.area, part.notes)
    if part.skimmed is not None:
        what = name if Step.SKIM in part.steps else f"scraped {name}"
        yield from mud.skim_over(area, what, part.skimmed, overhead=part.on is On.CEILING)
    if Step.DUST in part.steps:
        yield prep.dust_ceiling(area, part.area) if part.on is On.CEILING else prep.dust_wall(area, name, part.area)


def _scraped(part: Part) -> Iterator[Task]:
    area, name, loose = part.work_area, part.name, part.loose
    if loose is None:
        return
    off = prep.by_hand(area, f"scrape_{name}", f"Scrape loose paint off the {name}", loose, "scrape_loose")
    yield with_crew_note(off, SCRAPED)
    edges = prep.by_hand(area, f"feather_{name}", f"Sand the edges of what was scraped on the {name}", loose, "feather")
    yield with_crew_note(edges, prep.WET)


def _trim_ready(part: Part) -> Iterator[Task]:
    area, surface = part.work_area, part.surfaces[0]
    if Step.NAIL_HOLES in part.steps:
        title, row = "Fill nail holes and dents in the trim", ("fill_nail_holes", "hand", "any")
        yield repairs.spackle_dries(area, area.by_length("fill_trim", title, Phase.PREPARE, surface.line, *row))
    if Step.SCUFF in part.steps:
        yield from prep.scuff_members(area, surface.members, surface.line, part.notes.condition)


def spots_primed(part: Part) -> Layer:
    """Return a primer on what was scraped bare; nothing where all of it is primed anyway."""
    loose = part.loose
    if loose is None or Step.PRIME in part.steps:
        return Layer()
    wood = part.on is On.TRIM
    product, texture = (BONDING_PRIMER, part.surfaces[0].texture) if wood else (DRYWALL_PRIMER, SMOOTH)
    porosity = "sealed" if wood else "very_porous"
    spread = part.work_area.spread(product, texture, porosity, "first", "brush", "interior")
    title = f"Prime the scraped spots on the {part.name}"
    task = part.work_area.by_area(f"prime_scraped_{part.name}", title, Phase.PRIME, loose, "stain_spot", "brush", "any")
    return Layer([task], [part.work_area.paint(product, loose, spread, f"scraped spots, {part.name}")])


def all_primed(part: Part, room: WorkArea) -> list[Layer]:
    """Return a primer over all of it, where its level or its state asks for one; room: at the pace of the room."""
    if Step.PRIME not in part.steps:
        return []
    if part.on is On.TRIM:
        return [prime.bond(room, part.surfaces[0])]
    under = [replace(each, porosity="very_porous") if Step.SKIM in part.steps else each for each in part.surfaces]
    return [
        prime.all_over(room, each, DRYWALL_PRIMER, f"Prime the {each.name}", f"primer on the {each.name}")
        for each in under
    ]


def sum_of(name: str, parts: Iterable[Part], area_of: Callable[[Part], Figure | None]) -> Figure:
    """Return an area of all parts together (ft²), those without one left out."""
    return total(name, [area for part in parts if (area := area_of(part)) is not None], unit="ft**2")


def supplies(work_area: WorkArea, parts: Sequence[Part]) -> list[Supply]:
    """Return compound and sanding sheets for what is skimmed."""
    skimmed = sum_of("skimmed", parts, lambda part: part.skimmed)
    return list(mud.for_skim_over(work_area, skimmed)) if skimmed.value else []


def in_words(parts: Sequence[Part]) -> str:
    """Return the levels of preparation in words: thorough, or each with the surfaces it is done on."""
    levels = {part.level: [each.name for each in parts if each.level is part.level] for part in parts}
    return ", ".join(
        f"{level} ({' and '.join(names)})" if len(levels) > 1 else level for level, names in levels.items()
    )


def promised(parts: Sequence[Part], *noted: Preparation | None) -> tuple[str, ...]:
    """Return what is promised at each level; nothing where no surface, room or job notes one.

    noted: of the room and of the job.
    """
    if not any([*noted, *(part.notes.preparation for part in parts)]):
        return ()
    levels = {part.level for part in parts}
    return tuple(f"{level.capitalize()}: {PROMISES[level]}" for level in RISING if level in levels)
