"""What the site notes of a room to be repainted come to: surfaces in colors, what they need first, and their coats."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, total
from estimating.job.room import OpeningKind
from estimating.job.surfaces import Coloring, Plain, Preparation, Sheen, SurfaceNotes
from estimating.job.values import Answer
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.shared import access, coat, masking, measure, prep, prepare, prime, protection, repairs, trim
from estimating.scopes.shared.claimed import covered_walls
from estimating.scopes.shared.coat import Coating, Tool
from estimating.scopes.shared.color import Color, coats_of, further_colors
from estimating.scopes.shared.drying import dries
from estimating.scopes.shared.preparation import On, Step, level_of
from estimating.scopes.shared.prepare import Part
from estimating.scopes.shared.prime import Layer
from estimating.scopes.shared.products import CEILING_FLAT, TRIM_ENAMEL, WALL_PAINT
from estimating.scopes.shared.solvent import stain_primer
from estimating.scopes.shared.surface import TEXTURES, Pace, Surface, porosity_under
from estimating.scopes.shared.trim import Member
from estimating.scopes.shared.work_area import WorkArea

TOOLS = (coat.ROLLER, coat.BRUSH, coat.SPRAYER, coat.BACK_ROLLED)


@dataclass(frozen=True)
class Method:
    """A method to put the finish on large surfaces; trim is brushed; accent walls and closets are never sprayed."""

    method: str
    title: str
    tool: Tool
    barrier: bool = True  # a tinted barrier where the change of color asks for one

    @property
    def sprayed(self) -> bool:
        """Whether mist is in the room."""
        return self.tool.name == "sprayer"

    @property
    def back_rolled(self) -> bool:
        """Whether what is sprayed is rolled out."""
        return self.tool.back_rolled

    def tool_on(self, surface: Surface) -> Tool:
        """Return the tool for a surface."""
        if surface.key == "trim":
            return coat.BRUSH
        by_hand = surface.key == "closets" or surface.key.startswith("accent")
        return coat.ROLLER if self.sprayed and by_hand else self.tool


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class Repaint:
    """A room to be repainted as the methods need it."""

    item: InteriorRepaint
    work_area: WorkArea
    walls: Surface | None
    accents: tuple[Surface, ...]
    ceiling: Surface | None
    closets: Surface | None
    trim: Surface | None
    disturbed: Figure  # what repairs open up (ft²)

    @property
    def where(self) -> str:
        """The item's place in the job file."""
        return f'work "{self.item.room}"'

    @property
    def surfaces(self) -> tuple[Surface, ...]:
        """Every surface that is painted, in the order it is."""
        every = (self.ceiling, self.walls, *self.accents, self.closets, self.trim)
        return tuple(each for each in every if each is not None)

    @property
    def needs_barrier(self) -> bool:
        """Whether a change of color in the room asks for a tinted barrier under the finish."""
        return any(each.coats.barrier for each in self.surfaces)

    @property
    def occupied(self) -> bool:
        """Whether people live there during the work; without an answer they do."""
        return access.occupied(self.work_area)

    @property
    def lived_in(self) -> bool:
        """Whether the room stays furnished and people live with it."""
        return self.occupied and str(self.work_area.room.room.furniture or "light") != "none"

    @cached_property
    def at_work(self) -> WorkArea:
        """The work area at the pace of the room: crew, furniture, and people in the way."""
        area = self.work_area
        room = access.together("pace of the room", access.crew(area), access.furniture(area), access.people(area))
        return area.slowed(room)

    @cached_property
    def joints(self) -> Figure:
        """The joints to caulk (ft): as noted, else those along the trim where the preparation asks for them."""
        area, noted = self.work_area, self.item.caulk_feet
        if noted is None and any(Step.CAULK in part.steps for part in self.parts):
            return total("joints along the trim", [measure.floor_line(area), *measure.cased_lines(area)], unit="ft")
        return prep.joints(noted, f"{self.where} · caulk_feet")

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """The ceiling, the walls and the trim, as they are made ready."""
        item, where = self.item, self.where
        found = (
            (On.CEILING, item.ceiling, filter(None, (self.ceiling,))),
            (On.WALLS, item.walls, filter(None, (self.walls, *self.accents))),
            (On.TRIM, item.trim, filter(None, (self.trim,))),
        )
        surfaces = ((on, notes, tuple(several)) for on, notes, several in found)
        return tuple(
            Part(on, notes, self._level(notes), several, self._at(on), f"{where} · {on}")
            for on, notes, several in surfaces
            if several
        )

    def _level(self, notes: SurfaceNotes) -> Preparation:
        return level_of(notes.preparation, self.item.preparation, self.work_area.job.terms.preparation)

    @cached_property
    def prepared(self) -> tuple[Task, ...]:
        """Everything before the first primer, in order."""
        item, area = self.item, self.at_work
        mildew = prep.kill_mildew(area, item.stains or (), f"{self.where} · stains")
        return (
            *prep.take_down(item.removals, area, f"{self.where} · removals"),
            *prep.dried(area, [*mildew, *(task for part in self.parts for task in prepare.washed(part))]),
            *repairs.mend(item.repairs, self._at(On.WALLS), f"{self.where} · repairs"),
            *(task for part in self.parts for task in prepare.made_ready(part)),
            prep.caulk(self._at(On.WALLS), self.joints),
        )

    def _at(self, on: On) -> WorkArea:
        """Return the work area slowed where the ceiling or the walls are high or over a stair: all work there is."""
        if on is On.TRIM:
            return self.at_work
        if on is On.CEILING:
            return self.at_work.slowed(access.height(self.work_area))
        return self.at_work.slowed(_wall_pace(self.item, self.work_area, self.disturbed).area)

    @cached_property
    def sanded(self) -> Figure:
        """How much old paint is sanded, scuffed, scraped or cut open (ft²); mended spots lie in sanded walls."""
        found = prepare.sum_of("old paint disturbed", self.parts, lambda part: part.sanded)
        walls = any(part.on is On.WALLS and part.sanded is not None for part in self.parts)
        return found if walls else total("old paint disturbed", [found, self.disturbed], unit="ft**2")

    @property
    def primed_all_over(self) -> frozenset[str]:
        """The surfaces that are primed all over for their state or level, by key."""
        return frozenset(each.key for part in self.parts if Step.PRIME in part.steps for each in part.surfaces)

    @cached_property
    def primed(self) -> Mapping[bool, Layer]:
        """The primers of the room, with the barrier under a strong change of color and without."""
        item, area = self.item, self.at_work
        large = prepare.sum_of("walls and ceiling", self.parts, lambda part: None if part.on is On.TRIM else part.area)
        gloss = self.trim is not None and item.trim.sheen_now is Sheen.GLOSS and "trim" not in self.primed_all_over
        spots = [
            *([] if "walls" in self.primed_all_over else [prime.spots(area, item.repairs, f"{self.where} · repairs")]),
            *map(prepare.spots_primed, self.parts),
            prime.stains(area, item.stains or (), stain_primer(area.job.site), f"{self.where} · stains", whole=large),
            prime.bond(area, self.trim) if gloss and self.trim else Layer(),
            *(layer for part in self.parts for layer in prepare.all_primed(part, area)),
        ]
        first = prime.dried(prime.one_after_another(spots), dries(area))
        rest = [prime.dried(each, dries(area)) for each in prime.barriers(area, self.surfaces)]
        return {False: first, True: prime.one_after_another([first, *rest])}

    @cached_property
    def coatings(self) -> Mapping[tuple[str, Tool, bool], Coating]:
        """Every surface with each tool it may be coated with, over a barrier and not; each is worked out if asked."""
        return {
            (each.key, tool, primed): Coating(self.at_work, each, tool, primed)
            for each in self.surfaces
            for tool in TOOLS
            for primed in (False, True)
        }

    def coated(self, method: Method) -> list[Coating]:
        """Return the finish of every surface by a method."""
        return [self.coatings[each.key, method.tool_on(each), self._sealed(each, method)] for each in self.surfaces]

    def _sealed(self, surface: Surface, method: Method) -> bool:
        """Say whether a primer all over leaves the first coat nothing to soak into."""
        if surface.coats.barrier > 0:
            return method.barrier
        return surface.key in self.primed_all_over

    def covers_fixtures(self, method: Method) -> bool:
        """Say whether fixtures are covered: for mist, and for paint that is put on over them."""
        return method.sprayed or self.ceiling is not None

    @cached_property
    def masked(self) -> Masked:
        """What is masked where mist is in the room."""
        return Masked(self)


@dataclass(frozen=True, eq=False)
class Masked:
    """Edges and openings masked against mist: not the trim, where it is painted after the walls."""

    repaint: Repaint

    @cached_property
    def kinds(self) -> tuple[OpeningKind, ...]:
        """The openings that get film of their own: glass always, doors where they are not painted after."""
        return masking.GLASS if self.repaint.trim else (*masking.GLASS, OpeningKind.DOOR)

    @cached_property
    def _ceiling_edge(self) -> Figure:
        walls = self.repaint.walls
        return total("ceiling edge", [self.repaint.work_area.room.perimeter] if walls else [], unit="ft")

    @cached_property
    def _trim_edge(self) -> Figure:
        area = self.repaint.work_area
        edges = [] if self.repaint.trim else [measure.floor_line(area), *measure.cased_lines(area)]
        return total("edge of the trim", edges, unit="ft")

    @cached_property
    def _run(self) -> Figure:
        return total("paper along edges", [self._ceiling_edge, self._trim_edge], unit="ft")

    @cached_property
    def _film(self) -> Figure:
        return masking.film_area(self.repaint.work_area, self.kinds)

    @cached_property
    def tasks(self) -> tuple[Task, ...]:
        """Putting it up."""
        area = self.repaint.at_work
        high = area.slowed(access.height(self.repaint.work_area))
        return (
            masking.edge_of_ceiling(high, self._ceiling_edge),
            masking.run_paper(area, "mask_trim", "Run paper along the trim", self._trim_edge),
            masking.film_openings(area, measure.count_openings(area, self.kinds, "openings to mask")),
        )

    @cached_property
    def stripped(self) -> Task:
        """Taking it down, before trim is brushed."""
        area = self.repaint.work_area
        sheets = total("sheets to strip", [masking.paper_area(area, self._run), self._film], unit="ft**2")
        return masking.strip(self.repaint.at_work, sheets, Phase.WALLS)

    @cached_property
    def supplies(self) -> tuple[Supply, ...]:
        """What it takes off the rolls, with the paper on the floor."""
        area = self.repaint.work_area
        tape = total("edges to tape", [self._run, *measure.cased_lines(area)], unit="ft")
        rolls = masking.rolls(area, paper=self._run, film=masking.film_run(area, self._film), tape=tape)
        return (*rolls, protection.floor_paper(area))


def in_the_price(surface: SurfaceNotes, *, usual: bool = False) -> bool:
    """Say whether a surface is painted; `usual` is what an unanswered question is taken as."""
    return usual if surface.painted is None else surface.painted is Answer.YES


def walls_painted(item: InteriorRepaint) -> bool:
    """Say whether the walls are painted: they are unless the notes say no."""
    return in_the_price(item.walls, usual=True)


def colors(item: InteriorRepaint) -> list[Color]:
    """Return each paint and color of a room once, in the order they are noted."""
    walls = [item.walls, *item.walls.accents] if walls_painted(item) else []
    found = [(WALL_PAINT, each.color_wanted or "") for each in walls]
    others = ((CEILING_FLAT, item.ceiling), (TRIM_ENAMEL, item.trim))
    found += [(product, each.color_wanted or "") for product, each in others if in_the_price(each)]
    return list(dict.fromkeys(found))


def extra_colors(repaint: Repaint) -> list[Color]:
    """Return the colors of this room that are a further color on the job."""
    rooms = (colors(each) for each in repaint.work_area.job.work if isinstance(each, InteriorRepaint))
    return further_colors(colors(repaint.item), rooms)


def facts(item: InteriorRepaint, work_area: WorkArea) -> Repaint:
    """Return the room with its surfaces measured and its coats planned.

    Raises InputError where accent walls or openings are larger than the walls, or nothing is to be painted.
    """
    where = f'work "{item.room}"'
    opened = repairs.disturbed(item.repairs, work_area, f"{where} · repairs")
    main, accents = _walls(item, work_area, opened) if walls_painted(item) else (None, ())
    ceiling = _ceiling(item.ceiling, work_area) if in_the_price(item.ceiling) else None
    found = trim.members(item.trim, work_area, f"{where} · trim") if in_the_price(item.trim) else ()
    painted = _by_members("trim", TRIM_ENAMEL, item.trim, work_area, found)
    shut = trim.closets(item.closets or (), work_area, f"{where} · closets")
    inside = _by_members("closets", WALL_PAINT, item.walls, work_area, shut)
    if not (main or ceiling or painted or inside):
        raise InputError(where, "nothing to paint", "walls, ceiling or trim that are painted")
    return Repaint(item, work_area, main, accents, ceiling, inside, painted, opened)


def _later(work_area: WorkArea) -> Figure:
    return work_area.basis.figure("factors", "coat", "second")


def _wall_pace(item: InteriorRepaint, area: WorkArea, opened: Figure) -> Pace:
    stairs = access.over_stairs(area, item.over_stairs_feet, f'work "{item.room}" · over_stairs_feet')
    high = access.top_line(area, measure.cut_line(area))
    line = access.together("cutting in, high and over stairs", high, stairs)
    return Pace(
        access.together("wall, high and over stairs", access.high_wall(area), stairs),
        line,
        access.together("cutting in, first coat", line, access.across_patches(area, opened)),
        _later(area),
    )


def _walls(item: InteriorRepaint, area: WorkArea, opened: Figure) -> tuple[Surface, tuple[Surface, ...]]:
    where = f'work "{item.room}" · walls · accents'
    covered = () if item.walls.covered_walls_too is Answer.YES else covered_walls(area)
    accents = [(each.name, each.length) for each in item.walls.accents]
    main, apart = measure.measured_walls(area, accents, where, covered)
    pace = _wall_pace(item, area, opened)
    named: list[tuple[str, str, Coloring, measure.Measured]] = [("walls", "walls", item.walls, main)]
    named += [
        (f"accent_{number}", f"accent wall, {notes.name}", notes, each)
        for number, (notes, each) in enumerate(zip(item.walls.accents, apart, strict=True), 1)
    ]
    first, *others = [
        Surface(
            key,
            name,
            WALL_PAINT,
            each.area,
            each.line,
            coats_of(notes, area.basis, even=True),
            TEXTURES[item.walls.texture],
            porosity_under(item.walls.sheen_now),
            notes.color_wanted or "",
            pace=pace,
        )
        for key, name, notes, each in named
    ]
    return first, tuple(others)


def _ceiling(notes: Plain, area: WorkArea) -> Surface:
    top = access.height(area)
    return Surface(
        "ceiling",
        "ceiling",
        CEILING_FLAT,
        area.room.ceiling,
        area.room.perimeter,
        coats_of(notes, area.basis, even=False),
        TEXTURES[notes.texture],
        porosity_under(notes.sheen_now),
        notes.color_wanted or "",
        Phase.CEILING,
        overhead=True,
        pace=Pace(top, top, top, _later(area)),
    )


def _by_members(
    key: str, product: str, notes: SurfaceNotes, area: WorkArea, found: tuple[Member, ...]
) -> Surface | None:
    if not found:
        return None
    wood = product == TRIM_ENAMEL
    return Surface(
        key,
        key,
        product,
        total(f"{key}, laid flat", [each.area for each in found], unit="ft**2"),
        total(f"{key} by length", [each.quantity for each in found if each.by_length], unit="ft"),
        coats_of(notes, area.basis, even=not wood),
        "smooth_wood" if wood else TEXTURES[None],
        porosity_under(notes.sheen_now),
        notes.color_wanted or "",
        Phase.TRIM if wood else Phase.WALLS,
        pace=Pace(later=_later(area)),
        members=found,
    )
