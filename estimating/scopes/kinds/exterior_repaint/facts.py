"""What the site notes of a house's outside come to: siding and trim by their skin, their preparation, their coats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Material, Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.trim import Trim
from estimating.job.values import Answer
from estimating.origins import Kind, Origin, definition
from estimating.scopes.kinds.exterior_repaint.notes import Cladding, ExteriorRepaint, Ground
from estimating.scopes.shared import access, coat, drying, masking, measure, outdoors, prep, prime
from estimating.scopes.shared.coat import Coating, Tool
from estimating.scopes.shared.color import coats_of
from estimating.scopes.shared.elevations import Elevations
from estimating.scopes.shared.prime import Layer
from estimating.scopes.shared.products import EXTERIOR_PAINT, WATER_PRIMER
from estimating.scopes.shared.surface import Pace, Surface
from estimating.scopes.shared.trim import Member, members
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours
from estimating.takeoff import counted
from estimating.trade import measuring, siding, walls

TEXTURES = {
    Cladding.LAP: "lap_siding",
    Cladding.BOARD_AND_BATTEN: "board_and_batten",
    Cladding.SHINGLE: "shingle",
    Cladding.PANEL: "board_and_batten",
}
SEVERE, MODERATE = 30.0, 10.0  # percent of a surface failing from which its preparation is so; judgment
SPOTS = "bare spots of the"
PRIMED_WHOLE = 40.0  # percent: from here spots are no fewer hours than a whole coat of primer; judgment


@dataclass(frozen=True, eq=False)  # told apart as itself: what is worked out of it is kept on it
class Outside:
    """The outside of one house as the methods need it."""

    item: ExteriorRepaint
    work_area: WorkArea

    @property
    def where(self) -> str:
        """Where its notes stand."""
        return f'work "{self.item.room}"'

    @cached_property
    def sides(self) -> Elevations:
        """Its walls from the tape."""
        return Elevations(self.work_area, self.item.elevations or (), self.where)

    @property
    def cladding(self) -> Cladding:
        """What it is clad with; without an answer lap siding."""
        return self.item.cladding or Cladding.LAP

    @cached_property
    def at_work(self) -> WorkArea:
        """The work area at the pace of the crew, and of the ground that ladders stand on."""
        area = self.work_area
        steep = self.item.stands_on is Ground.SLOPING
        return area.slowed(access.crew(area), area.basis.figure("factors", "ground", "sloping") if steep else None)

    @cached_property
    def high(self) -> Figure | None:
        """The factor on hours for the high part of the walls."""
        return access.high_wall(self.work_area, self.sides.height)

    def surfaces(self, tool: Tool) -> list[Surface]:
        """Return the siding and the trim that are painted; the siding by a tool, the trim by brush."""
        found = []
        if self.item.walls.painted is not Answer.NO:
            found.append(self._siding(tool))
        if self.item.trim.painted is not Answer.NO:
            trim = tuple(self._trim_members())
            found += [self._surface("trim", "outside trim", trim, "trim", Phase.TRIM)] if trim else []
        return found

    @cached_property
    def by_brush(self) -> tuple[Surface, ...]:
        """The surfaces as they are got ready: by hand, with whatever they are coated."""
        return tuple(self.surfaces(coat.BRUSH))

    @cached_property
    def up_there(self) -> WorkArea:
        """The work area at the pace of work on the walls, slowed on their high part."""
        return self.at_work.slowed(self.high)

    def coatings(self, tool: Tool) -> list[Coating]:
        """Return the coats on siding and trim."""
        tools = {"siding": tool, "trim": coat.BRUSH}
        return [Coating(self.up_there, each, tools[each.key]) for each in self.surfaces(tool)]

    def _siding(self, tool: Tool) -> Surface:
        shingle = self.cladding is Cladding.SHINGLE
        row = ("shingle" if shingle else "siding", "brush", "any")
        if tool.name == "sprayer":
            row = ("siding", "airless_back_brush", "any")
        flat = self.sides.net
        skin = work(measuring.developed_area, "siding, laid flat", flat_area=flat, area_factor=self._skin_factor)
        member = Member("siding", "siding", flat, skin, row)
        return self._surface("siding", "siding", (member,), TEXTURES[self.cladding], Phase.WALLS)

    @property
    def _skin_factor(self) -> Figure:
        usual = self.work_area.basis.figure
        if self.cladding is Cladding.LAP:
            exposure = self._exposure("lap_course")
            return work(
                siding.lapped_factor, "skin of laps", butt=usual("members", "lap_course", "butt"), exposure=exposure
            )
        if self.cladding is Cladding.BOARD_AND_BATTEN:
            sizes = {name: usual("members", "batten", name) for name in ("thickness", "spacing")}
            return work(siding.batten_factor, "skin of battens", **sizes)
        return leaf(
            "no edges apart", 1.0, "dimensionless", definition("the rates are for the flat wall, edges in them")
        )

    def _exposure(self, course: str) -> Figure:
        noted = self.item.exposure
        if noted is None:
            return self.work_area.basis.figure("members", course, "exposure")
        return self.sides.length(noted, "exposure", "exposure of a course")

    def _trim_members(self) -> Iterator[Member]:
        notes, area = self.item.trim, self.work_area
        if notes.soffit_depth is not None:
            yield self.sides.eaves(notes.soffit_depth)
        yield from self.sides.edges(notes.edges or ())
        inside = Trim(doors=notes.doors, door_frames=notes.door_frames, windows=notes.windows)
        yield from members(inside, area, f"{self.where} · trim")
        if notes.shutters:
            count = counted(notes.shutters, "shutters", f"{self.where} · trim · shutters")
            each = area.basis.figure("members", "shutter", "area")
            skin = work(walls.several, "shutters, laid flat", each=each, count=count)
            yield Member("shutters", "shutters", count, skin, ("shutter", "brush", "louvered"))

    def _surface(self, key: str, name: str, found: tuple[Member, ...], texture: str, phase: Phase) -> Surface:
        notes = self.item.walls if key == "siding" else self.item.trim
        chalky = key == "siding" and self.item.walls.chalky is Answer.YES
        return Surface(
            key,
            name,
            EXTERIOR_PAINT,
            total(f"{name}, laid flat", [each.area for each in found], unit="ft**2"),
            total("no line to cut in", [], unit="ft"),
            coats_of(notes, self.work_area.basis, even=True),
            texture=texture,
            porosity="slight" if chalky else "sealed",
            color=notes.color_wanted or "",
            phase=phase,
            pace=Pace(later=self.work_area.basis.figure("factors", "coat", "second")),
            members=found,
            outside=True,
        )

    def failing_percent(self, key: str) -> float:
        """Return the part of a surface whose old paint fails; without an answer none is priced, and it is asked."""
        notes = self.item.walls if key == "siding" else self.item.trim
        return notes.failing_percent or 0.0

    def failing(self, surface: Surface) -> Figure:
        """Return the old paint of a surface that fails and is scraped and sanded (ft²)."""
        place = f"{self.where} · {'walls' if surface.key == 'siding' else 'trim'} · failing_percent"
        share = leaf(
            f"failing, {surface.name}", self.failing_percent(surface.key), "percent", Origin(Kind.MEASURED, place=place)
        )
        return work(walls.part_of_area, f"failing paint, {surface.name}", whole=surface.area, share=share)

    @cached_property
    def disturbed(self) -> Figure:
        """All old paint that is scraped and sanded (ft²)."""
        return total("old paint scraped and sanded", [self.failing(each) for each in self.by_brush], unit="ft**2")

    @cached_property
    def skin(self) -> Figure:
        """Siding and trim laid flat (ft²)."""
        return total("siding and trim laid flat", [each.area for each in self.by_brush], unit="ft**2")

    @cached_property
    def washed(self) -> Task:
        """Washing siding and trim, and the days until they are dry."""
        return outdoors.dried(self.work_area, outdoors.wash(self.at_work, "siding and trim", self.skin))

    @cached_property
    def ready(self) -> list[Task]:
        """Scraping, sanding and spot priming what fails, by how much of the surface it is."""
        tasks = []
        for each in self.by_brush:
            share = self.failing_percent(each.key)
            how = "severe" if share >= SEVERE else "moderate" if share >= MODERATE else "light"
            titled = (f"loose_paint_{each.key}", f"Scrape, sand and spot-prime the {each.name}", Phase.PREPARE)
            tasks.append(self.up_there.by_area(*titled, self.failing(each), "scrape_sand_prime", "hand", how))
        return tasks

    @property
    def whole_primer(self) -> int:
        """The coats of primer that go on all over: one where any surface gets it."""
        return int(any(self.failing_percent(each.key) >= PRIMED_WHOLE for each in self.by_brush))

    @cached_property
    def primed(self) -> Layer:
        """The primer: on the spots, or all over where as much fails that spots are no gain."""
        spots: list[Material] = []
        layers: list[Layer] = []
        for each in self.by_brush:
            if self.failing_percent(each.key) >= PRIMED_WHOLE:
                layers.append(prime.on_members(self.up_there, each, WATER_PRIMER, "porous", f"primer, {each.name}"))
            else:
                bare = self.failing(each)
                spots += prime.bare_spots(self.up_there, each, bare, WATER_PRIMER, f"{SPOTS} {each.name}")
        whole = prime.dried(prime.one_after_another(layers), self.dries)
        return Layer(whole.tasks, [*spots, *whole.paint])

    @cached_property
    def joints(self) -> Figure:
        """The joints to caulk (ft): as noted, or round every door and window."""
        if self.item.joints_feet is not None:
            return prep.joints(self.item.joints_feet, f"{self.where} · joints_feet")
        return total("joints round doors and windows", measure.cased_lines(self.work_area), unit="ft")

    def dries(self, product: str) -> Figure:
        """Return how long a product dries in the air of this job (hours)."""
        return drying.drying(self.work_area, product)

    @cached_property
    def masked(self) -> tuple[Task, ...]:
        """Doors and windows under film where siding is sprayed: hung once all is washed and primed."""
        count = measure.count_openings(self.work_area, OPENINGS, "openings to mask")
        sheets = masking.film_area(self.work_area, OPENINGS)
        hung = replace(masking.film_openings(self.at_work, count), phase=Phase.PRIME)
        return drop_zero_hours((hung, masking.strip(self.at_work, sheets, Phase.CLEAN)))

    def film(self) -> list[Supply]:
        """Return the film over them and its tape."""
        area = self.work_area
        sheets = masking.film_area(area, OPENINGS)
        tape = total("edges to tape", [line for _, line in measure.opening_lines(area)], unit="ft")
        nothing = total("no paper", [], unit="ft")
        return masking.rolls(area, paper=nothing, film=masking.film_run(area, sheets), tape=tape)


OPENINGS = (*masking.GLASS, *measure.IN_WALLS[:1])


def facts(item: ExteriorRepaint, work_area: WorkArea) -> Outside:
    """Return the outside of a house, measured; raises InputError where nothing of it is painted."""
    found = Outside(item, work_area)
    if not found.by_brush:
        raise InputError(f"{found.where} · walls · painted", "nothing to paint", "siding or trim that is painted")
    return found
