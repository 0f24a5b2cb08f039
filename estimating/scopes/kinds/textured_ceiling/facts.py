"""What the site notes of a textured ceiling come to: its surface, what is masked around it, how it may be coated."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from estimating.estimate.pricing.plan import Phase, Question, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.model import RoomPart
from estimating.job.values import Answer
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.textured_ceiling.notes import Depth, History, Texture, TexturedCeiling
from estimating.scopes.kinds.textured_ceiling.release import Release
from estimating.scopes.shared import access, coat, drying, masking, measure, prime, protection
from estimating.scopes.shared.coat import Coating, Tool
from estimating.scopes.shared.color import Coats
from estimating.scopes.shared.masking import Drape
from estimating.scopes.shared.products import CEILING_FLAT
from estimating.scopes.shared.questions import (
    NICOTINE,
    Asked,
    asbestos_question,
    opening_question,
    room_questions,
    site_questions,
    solvent_questions,
    unanswered,
)
from estimating.scopes.shared.surface import SMOOTH, Surface
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade.masking import drape_share, edge_share, opening_share, part_needed

LIKELY_COATS = 2
TEXTURES = {
    Texture.ORANGE_PEEL: "orange_peel",
    Texture.SKIP_TROWEL: "skip_trowel",
    Texture.KNOCKDOWN: "knockdown",
}
POROSITY = {
    None: "very_porous",
    History.NEVER_PAINTED: "very_porous",
    History.LOOKS_UNPAINTED: "very_porous",
    History.PAINTED_ONCE: "porous",
    History.PRIMED_AND_PAINTED: "slight",
    History.PAINTED_TWICE: "sealed",
}
TOOLS = (coat.ROLLER, coat.PASS_BY_PASS)


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class Ceiling:
    """A textured ceiling as the methods need it."""

    item: TexturedCeiling
    work_area: WorkArea

    @property
    def where(self) -> str:
        """The item's place in the job file."""
        return f'work "{self.item.room}"'

    @property
    def area(self) -> Figure:
        """The ceiling, soffits included, texture not counted (ft²)."""
        return self.work_area.room.ceiling

    @cached_property
    def at_work(self) -> WorkArea:
        """The work area at the pace of this crew at this height."""
        return self.work_area.slowed(access.crew(self.work_area), access.height(self.work_area))

    @cached_property
    def surface(self) -> Surface:
        """The texture as it is coated."""
        coats = self.item.coats or LIKELY_COATS
        popcorn = self.item.texture is Texture.POPCORN
        return Surface(
            "ceiling",
            "ceiling",
            CEILING_FLAT,
            self.area,
            self.work_area.room.perimeter,
            Coats(coats, coats),
            f"popcorn_{self.item.depth or Depth.MEDIUM}" if popcorn else TEXTURES[self.item.texture],
            POROSITY[self.item.history],
            self.item.color_wanted or "",
            Phase.CEILING,
            overhead=True,
            fragile=True,
        )

    @cached_property
    def smooth(self) -> Surface:
        """The ceiling once its texture is gone."""
        return replace(self.surface, texture=SMOOTH, porosity="porous", fragile=False)

    @cached_property
    def coatings(self) -> Mapping[tuple[Tool, bool], Coating]:
        """The finish with each tool, straight on the texture and over a seal; each is worked out if asked for."""
        tip = (self.item.tip, f"{self.where} · tip")
        return {
            (tool, sealed): Coating(self.at_work, self.surface, tool, sealed, *tip)
            for tool in TOOLS
            for sealed in (False, True)
        }

    @cached_property
    def release(self) -> Release:
        """The odds that texture comes down, and what it costs."""
        return Release(self.item, self.work_area, self.surface)

    @property
    def smooth_wanted(self) -> bool:
        """Whether the client asked for a smooth ceiling; without an answer the texture stays and is painted."""
        return self.item.smooth_wanted is Answer.YES

    @property
    def walls_next(self) -> bool:
        """Whether the walls are painted after the ceiling: as the notes say, or as the job's other work has it."""
        if self.item.walls_next is None:
            return walls_in_the_job(self.item, self.work_area)
        return self.item.walls_next is Answer.YES

    @cached_property
    def masked(self) -> Mapping[bool, Masked]:
        """What is masked with mist or mud in the room, and without."""
        return {messy: Masked(self, messy) for messy in (False, True)}

    def dries(self, product: str) -> Figure:
        """Return how long a product dries before the next coat (hours)."""
        return drying.drying(self.work_area, product)


@dataclass(frozen=True, eq=False)
class Masked:
    """What is masked around a ceiling: walls that are finished, and all of them where there is mist or mud."""

    ceiling: Ceiling
    messy: bool

    @cached_property
    def _walls_next(self) -> Figure:
        """1 where the walls are painted after the ceiling and 0 where not; its origin tells who says so."""
        item, where = self.ceiling.item, self.ceiling.where
        if item.walls_next is None and self.ceiling.walls_next:
            origin = Origin(Kind.DEFINITION, place=f"{where}: the walls of this room are painted in the same job")
        else:
            origin = Origin(Kind.ENTERED, place=f"{where} · walls_next")
        return leaf("walls painted next", float(self.ceiling.walls_next), "dimensionless", origin)

    @cached_property
    def _sprayed(self) -> Figure:
        origin = Origin(Kind.DEFINITION, place="1 sprayed, 0 rolled")
        return leaf("sprayed", float(self.messy), "dimensionless", origin)

    @cached_property
    def _edge(self) -> Figure:
        """The run of paper and tape along the ceiling edge (ft): what a drape or a finished wall needs."""
        whole = self.ceiling.work_area.room.perimeter
        if self.messy and not self.ceiling.walls_next:
            return whole
        share = work(edge_share, "share of the edge masked", walls_next=self._walls_next)
        return work(part_needed, "edge to mask", quantity=whole, share=share)

    @cached_property
    def _drape(self) -> Drape:
        flags = {"sprayed": self._sprayed, "walls_next": self._walls_next}
        return Drape(self.ceiling.work_area, work(drape_share, "share of the drape needed", **flags))

    @cached_property
    def _openings(self) -> Figure:
        share = work(opening_share, "share of the openings masked", sprayed=self._sprayed)
        count = measure.count_openings(self.ceiling.work_area, measure.IN_WALLS)
        return work(part_needed, "openings to mask", quantity=count, share=share)

    @cached_property
    def tasks(self) -> tuple[Task, ...]:
        """Putting it up."""
        area = self.ceiling.work_area
        slowed = area.slowed(access.crew(area), access.furniture(area))
        high = slowed.slowed(access.height(area))
        return (
            masking.edge_of_ceiling(high, self._edge),
            self._drape.hang(high),
            masking.film_openings(slowed, self._openings),
        )

    @cached_property
    def stripped(self) -> Task:
        """Taking it down."""
        area = self.ceiling.work_area
        return masking.strip(area.slowed(access.crew(area)), self._drape.area, Phase.UNMASK)

    @cached_property
    def supplies(self) -> tuple[Supply, ...]:
        """What it takes off the rolls, with the paper on the floor."""
        area = self.ceiling.work_area
        tape = total("edges and seams", [self._edge, *self._drape.seams, area.room.perimeter], unit="ft")
        rolls = masking.rolls(area, paper=self._edge, film=self._drape.film, tape=tape)
        return (*rolls, protection.floor_paper(area))


def walls_in_the_job(item: TexturedCeiling, work_area: WorkArea) -> bool:
    """Say whether the walls of the ceiling's room are painted in the same job, which is then known without asking."""
    others = (each for each in work_area.job.work if each.room == item.room)
    return any(claim.part is RoomPart.WALLS and not claim.wall for each in others for claim in each.claims())


def questions(item: TexturedCeiling, work_area: WorkArea) -> tuple[Question, ...]:
    """Return what the notes leave open, and whether the price has to wait for it."""
    return unanswered((*_of_the_texture(item, work_area), *_of_the_place(work_area)))


def _of_the_texture(item: TexturedCeiling, work_area: WorkArea) -> Iterator[Asked]:
    where = f'work "{item.room}"'
    next_ = True if walls_in_the_job(item, work_area) else item.walls_next
    trims = 0 if work_area.room.room.fixtures.recessed_light == 0 else item.trims_to_coat
    depth = item.depth if item.texture is Texture.POPCORN else ""
    taken = "Was the texture ever primed or painted? Taken as not known: the range widens."
    yield f"{where} · history", item.history, taken
    yield f"{where} · depth", depth, "How deep is it? Taken as medium."
    yield f"{where} · sound", item.sound, "Is the texture sound now? Taken as sound."
    yield f"{where} · stains", item.stains, "Are there stains, and is their cause cured? None are planned for."
    if prime.in_all_of_it(item.stains or ()):
        yield f"{where} · stains", None, NICOTINE
    yield f"{where} · walls_next", next_, "Are the walls painted after? Taken as no: the walls are protected."
    yield f"{where} · substrate", item.substrate, "What is behind the texture?"
    yield f"{where} · trims_to_coat", trims, "Are the trims of the lights to be coated? None are in this price."


def _of_the_place(work_area: WorkArea) -> Iterator[Asked]:
    yield opening_question(work_area, "None are masked in this price.")
    yield from room_questions(work_area)
    yield from site_questions(work_area)
    yield from asbestos_question(work_area)
    yield from solvent_questions(work_area)
