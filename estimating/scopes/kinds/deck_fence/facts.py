"""What the site notes of a deck or fence come to: its parts by their skin, its preparation, and its coats of stain."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, total
from estimating.job.values import Answer
from estimating.scopes.kinds.deck_fence.notes import DeckFence, Finish, OldFinish, Wood
from estimating.scopes.shared import access, coat, drying, outdoors, prep
from estimating.scopes.shared.coat import Coating, Tool
from estimating.scopes.shared.color import Coats
from estimating.scopes.shared.open_work import Parts
from estimating.scopes.shared.products import CLEAR_FINISH, SEMITRANSPARENT_STAIN, SOLID_STAIN
from estimating.scopes.shared.surface import Pace, Surface
from estimating.scopes.shared.trim import Member
from estimating.scopes.shared.work_area import WorkArea

PRODUCTS = {
    Finish.CLEAR: CLEAR_FINISH,
    Finish.SEMITRANSPARENT: SEMITRANSPARENT_STAIN,
    Finish.SOLID: SOLID_STAIN,
}
TEXTURES = {Wood.PLANED: "smooth_wood", Wood.ROUGH: "rough_wood", Wood.WEATHERED: "weathered_wood"}
BOARDS = {"roller": "roll", "sprayer": "airless_back_brush"}
FENCES = {"roller": "brush", "sprayer": "airless_back_brush"}


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class DeckWork:
    """The decks and fences of one place as the methods need them."""

    item: DeckFence
    work_area: WorkArea

    @property
    def where(self) -> str:
        """Where its notes stand."""
        return f'work "{self.item.room}"'

    @property
    def finish(self) -> Finish:
        """How much of the wood shows through; without an answer some of it."""
        return self.item.finish or Finish.SEMITRANSPARENT

    @property
    def old_finish(self) -> OldFinish:
        """What is on the wood; without an answer worn stain."""
        return self.item.old_finish or OldFinish.WORN

    @property
    def wood(self) -> Wood:
        """What the wood feels like; without an answer weathered."""
        return self.item.wood or Wood.WEATHERED

    @cached_property
    def at_work(self) -> WorkArea:
        """The work area at the pace of the crew."""
        return self.work_area.slowed(access.crew(self.work_area))

    @cached_property
    def skin(self) -> Figure:
        """Everything that is washed and coated, laid flat (ft²)."""
        return total("wood laid flat", [each.surface.area for each in self.coatings(coat.ROLLER)], unit="ft**2")

    @cached_property
    def ground(self) -> Figure:
        """The line of ground along the work (ft): round the deck, and along its fences."""
        runs = [
            self._parts.length(each.length, f"fences[{n}]", "fence") for n, each in enumerate(self.item.fences or ())
        ]
        around = [] if self.item.boards.coated is Answer.NO else [self.work_area.room.perimeter]
        return total("ground along the work", [*around, *runs], unit="ft")

    @cached_property
    def rail_top(self) -> Figure | None:
        """How high the top of a railing stands over the ground (ft); None where nobody noted the boards."""
        if self.item.above_ground is None:
            return None
        boards = self._parts.length(self.item.above_ground, "above_ground", "boards above the ground")
        return total("top of the railing", [boards, self._parts.usual("guard", "height")], unit="ft")

    def coatings(self, tool: Tool) -> list[Coating]:
        """Return the coats on rails and stairs, always by brush, and on fences and boards with a tool."""
        by_tool = coat.BACK_ROLLED if tool.name == "sprayer" else tool
        groups = (
            ("rails", "rails and stairs", coat.BRUSH, tuple(self._open()), Phase.WALLS),
            ("fences", "fences", coat.BRUSH if tool is coat.ROLLER else by_tool, self._fences(tool), Phase.WALLS),
            ("boards", "deck boards", by_tool, self._boards(tool), Phase.TRIM),
        )
        return [
            Coating(self.at_work, self._surface(key, name, members, phase), with_tool)
            for key, name, with_tool, members, phase in groups
            if members
        ]

    def _surface(self, key: str, name: str, members: tuple[Member, ...], phase: Phase) -> Surface:
        area = total(f"{name}, laid flat", [each.area for each in members], unit="ft**2")
        no_line = total("no line to cut in", [], unit="ft")
        later = self.work_area.basis.figure("factors", "coat", "second")
        return Surface(
            key,
            name,
            PRODUCTS[self.finish],
            area,
            no_line,
            self.coats,
            texture=TEXTURES[self.wood],
            porosity="porous",
            color=self.item.stain.color_wanted or "",
            phase=phase,
            pace=Pace(later=later),
            members=members,
            verb="Stain",
            outside=True,
        )

    @cached_property
    def coats(self) -> Coats:
        """Two coats of a solid stain and on rough wood, one where smooth wood takes up no more."""
        asked = self.item.stain.coats
        usual = 1 if self.finish is not Finish.SOLID and self.wood is Wood.PLANED else 2
        contrast = "near" if self.finish is Finish.SOLID else "same"
        return Coats(asked or usual, asked or usual, contrast=contrast, asked=asked is not None)

    def dries(self, product: str) -> Figure:
        """Return how long a product dries in the air of this job (hours)."""
        return drying.drying(self.work_area, product)

    @cached_property
    def washed(self) -> Task:
        """Washing all of it."""
        return outdoors.wash(self.at_work, "wood", self.skin)

    @cached_property
    def stripped(self) -> Task:
        """Taking the old finish off with stripper."""
        titled = ("remove_finish", "Remove the old finish: stripper, scrub, rinse", self.skin, "remove_finish")
        return prep.by_hand(self.at_work, *titled, "stripper")

    @cached_property
    def brightened(self) -> Task:
        """Brightening what was washed or stripped, and drying: acid takes the gray and the lye out."""
        titled = ("brighten", "Brighten the wood and rinse it", self.skin, "brighten")
        return outdoors.dried(self.work_area, prep.by_hand(self.at_work, *titled))

    @cached_property
    def sanded(self) -> Task:
        """Sanding it bare by machine."""
        row = ("sand_deck", "machine", "bare")
        return self.at_work.by_area("sand_deck", "Sand the wood bare, dust caught", Phase.PREPARE, self.skin, *row)

    @cached_property
    def smoothed(self) -> Task:
        """Sanding raised grain and splinters off washed boards; fences and rails are left as they are."""
        boards = total("boards to sand", [each.quantity for each in self._boards(coat.ROLLER)], unit="ft**2")
        titled = ("sand_boards", "Set nails, sand raised grain off the boards", Phase.PREPARE, boards)
        return self.at_work.by_area(*titled, "sand_deck", "machine", "light")

    def chemicals(self, *, stripped: bool, brightened: bool) -> Iterator[Supply]:
        """Yield what is brushed on and rinsed off, and what the crew wears for it."""
        area, skin = self.work_area, self.skin
        if stripped:
            yield outdoors.chemical(area, "wood_stripper", "gallon", "Wood stripper", skin)
        else:
            yield outdoors.chemical(area, "cleaner", "gallon", "Wood cleaner, mixed", skin)
        if brightened:
            yield outdoors.chemical(area, "wood_brightener", "pack", "Wood brightener, a pack", skin)
        yield from outdoors.against_splash(area)

    @property
    def _parts(self) -> Parts:
        return Parts(self.work_area, self.where)

    def _open(self) -> Iterator[Member]:
        parts = self._parts
        for n, railing in enumerate(self.item.railings or ()):
            yield from parts.railing(railing, n)
        yield from (parts.stair(stair, n) for n, stair in enumerate(self.item.stairs or ()) if stair.steps)
        yield from (parts.lattice(each, n) for n, each in enumerate(self.item.lattice or ()))

    def _fences(self, tool: Tool) -> tuple[Member, ...]:
        return tuple(self._parts.fence(each, n, FENCES[tool.name]) for n, each in enumerate(self.item.fences or ()))

    def _boards(self, tool: Tool) -> tuple[Member, ...]:
        notes = self.item.boards
        return () if notes.coated is Answer.NO else (self._parts.boards(notes, BOARDS[tool.name]),)


def facts(item: DeckFence, work_area: WorkArea) -> DeckWork:
    """Return the deck or fence with its parts measured; raises InputError where nothing of it is coated."""
    found = DeckWork(item, work_area)
    if not found.skin.value:
        raise InputError(f"{found.where} · boards · coated", "nothing to coat", "boards, a railing, a stair or a fence")
    return found
