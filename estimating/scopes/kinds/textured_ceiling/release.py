"""Texture coming down: its chance from history and tests, what may still be tested, and what mending it costs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from estimating.estimate.pricing.plan import Extent, OfTheSurface, Phase, Risk
from estimating.estimate.whatif.value_of_testing import FurtherTests
from estimating.figures import Figure, random_draw, work
from estimating.job.site import TestResult
from estimating.job.values import Answer
from estimating.row_key import RowKey
from estimating.scopes.kinds.textured_ceiling.notes import (
    History,
    TexturedCeiling,
)
from estimating.scopes.kinds.textured_ceiling.signs import Signs
from estimating.scopes.shared import masking, rework, solvent
from estimating.scopes.shared.asbestos import asbestos_open
from estimating.scopes.shared.surface import Surface
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import adhesion

PRIORS = {
    None: "unknown",
    History.NEVER_PAINTED: "never_painted",
    History.LOOKS_UNPAINTED: "looks_unpainted",
    History.PAINTED_ONCE: "painted_once_unknown_primer",
    History.PRIMED_AND_PAINTED: "primed_and_painted",
    History.PAINTED_TWICE: "painted_twice",
}
SURE_SIGN = "bare_board"
PRIOR = str(RowKey.of("release", "prior", "{history}", "probability"))  # own jobs can correct it
EXTENTS = ("spots", "patches", "sheets")
SEALED = ("seal_roll", "seal_spray")


def _alike(one: TexturedCeiling, other: TexturedCeiling) -> bool:
    if (one.texture, one.depth) != (other.texture, other.depth):
        return False
    return None in (one.history, other.history) or one.history == other.history


@dataclass(frozen=True, eq=False)
class Release:
    """The chance that the texture of a ceiling comes down, and what it costs if it does."""

    item: TexturedCeiling
    work_area: WorkArea
    surface: Surface

    @property
    def history(self) -> str:
        """The class of its history, as the table has it."""
        if self.bare_board:
            return SURE_SIGN
        known = (each.history for each in (self.item, *self.twins) if each.history is not None)
        return PRIORS[next(known, None)]

    @cached_property
    def twins(self) -> tuple[TexturedCeiling, ...]:
        """The ceilings of the job with the same texture, put on with this one as far as anybody knows.

        What one of them showed counts for the others. Another depth or another history makes it another ceiling.
        """
        mine = self.item
        others = [each for each in self.work_area.job.work if isinstance(each, TexturedCeiling) and each is not mine]
        return tuple(each for each in others if _alike(each, mine))

    @property
    def bare_board(self) -> bool:
        """Whether texture fell from bare board here or from a twin: it was never primed."""
        signs = ((each.bare_board_behind_fallen, each.next_room_came_down) for each in (self.item, *self.twins))
        return any(Answer.YES in sign for sign in signs)

    @property
    def prior(self) -> Figure:
        """The chance that goes with its history, before any test."""
        return self.work_area.basis.figure("release", "prior", self.history, "probability")

    @cached_property
    def signs(self) -> Signs:
        """What the tests made on it say."""
        tests = [test for each in (self.item, *self.twins) for test in each.tests]
        return Signs(tuple(tests), self.work_area.basis, f'work "{self.item.room}" · tests')

    @cached_property
    def weak(self) -> Figure:
        """The chance that the surface is weak, so that rolling brings texture down: history first, then tests."""
        chance = self.prior
        if any(stain.kind == "water" for stain in self.item.stains or ()):
            added = self.work_area.basis.figure("release", "water_damage", "zone", "probability")
            chance = work(adhesion.with_damage, "weak, with the water-damaged zone", chance=chance, added=added)
        if self.item.humid_years is Answer.YES:
            added = self.work_area.basis.figure("release", "humid_air", "years", "probability")
            chance = work(adhesion.with_damage, "weak, after years of humid air", chance=chance, added=added)
        return self.signs.after(chance)

    def chance(self, method: str) -> Figure:
        """Return the chance that texture comes down when the ceiling is done this way, with the primer used here."""
        water = method in SEALED and solvent.barred(self.work_area.job.site)
        return self._chance(f"{method}_waterborne" if water else method)

    @property
    def sealed_chances(self) -> tuple[Figure, Figure]:
        """The chance of release sealed and rolled: with the water-borne primer, and with the solvent-borne one."""
        return self._chance("seal_roll_waterborne"), self._chance("seal_roll")

    def _chance(self, row: str) -> Figure:
        name, basis = f"release, by this method: {row.replace('_', ' ')}", self.work_area.basis
        share = basis.figure("release", "method", row, "share")
        sound = basis.figure("release", "sound", "coated", "probability")
        return work(adhesion.release_probability, name, weak=self.weak, share=share, sound=sound)

    def risk(self, method: str) -> Risk:
        """Return the allowance for release: its chance times what mending costs, over the three extents."""
        chance = self.chance(method)
        primer = solvent.primer_word(self.work_area.job.site)
        mended = f"stop, let it dry, bind the edges with the {primer} primer, re-texture, prime, coat"
        told = (chance, self._cost, "release happens", mended, self._of_the_surface(chance))
        return rework.allowance("texture_release", "Texture comes down", *told, luck=self._luck)

    @cached_property
    def _luck(self) -> Figure:
        """The draw that every method of this ceiling meets with: a surface that is weak is so for all of them."""
        return random_draw("release happens")

    def _of_the_surface(self, chance: Figure) -> OfTheSurface:
        told, closed = (
            self.work_area.basis.figure("release", "limit", each, "probability") for each in ("conditions", "closed")
        )
        return OfTheSurface(
            told=chance.value > told.value,
            closed_above=closed,
            tested=self.tested,
            history=self.history,
            prior=self.prior,
            area=self.surface.area,
            extents=self._extents,
        )

    @cached_property
    def _extents(self) -> tuple[Extent, ...]:
        return tuple(
            Extent(each, self._of_extent(each, "probability"), self._of_extent(each, "area"), self._down(each), cost)
            for each, cost in self.repair_costs.items()
        )

    def _of_extent(self, extent: str, what: str) -> Figure:
        return self.work_area.basis.figure("release", "extent", extent, what)

    def _down(self, extent: str) -> Figure:
        share = self._of_extent(extent, "area")
        return work(adhesion.released_area, f"texture down, {extent}", ceiling=self.surface.area, share=share)

    @cached_property
    def _cost(self) -> Figure:
        parts = {f"chance_{each}": self._of_extent(each, "probability") for each in EXTENTS}
        parts |= {f"cost_{each}": cost for each, cost in self.repair_costs.items()}
        draw = random_draw("extent of the release")
        return work(adhesion.cost_by_extent, "mending, whatever comes down", random_draw=draw, **parts)

    @cached_property
    def repair_costs(self) -> dict[str, Figure]:
        """What mending costs the contractor by how much comes down (dollars): labor, overhead and paint.

        A touched-up ceiling shows, so floor and edges are covered again and the whole ceiling gets another coat.
        """
        return {each: self._repair_cost(each) for each in EXTENTS}

    def _repair_cost(self, extent: str) -> Figure:
        basis, name = self.work_area.basis, f"mending, {extent}"
        rate = basis.nearest("production", "repair_release", extent, "any")
        visit = basis.figure("business", "repair_visit")
        mending = work(adhesion.repair_hours, name, area=self._down(extent), rate=rate, visit=visit)
        return rework.cost_again(self.work_area, name, [mending, *self._coat_after], self._paint_after)

    @cached_property
    def _coat_after(self) -> list[Figure]:
        area, surface = self.work_area, self.surface
        cover = ("cover_again", "Cover the floor again", Phase.PROTECT, area.room.floor, "protect_floor", "hand", "any")
        coat = ("coat_again", "Coat again", Phase.CEILING, surface.area, "roll_ceiling", "roll", surface.grade)
        edge = masking.run_paper(area, "edge_again", "Mask the edges again", surface.line)
        return [area.by_area(*cover).hours, edge.hours, area.by_area(*coat).hours]

    @cached_property
    def _paint_after(self) -> Figure:
        area, surface = self.work_area, self.surface
        spread = area.spread(surface.product, surface.texture, "sealed", "later", "roll", "interior")
        paint = area.paint(surface.product, surface.area, spread, "another coat after mending")
        return rework.paint_again(area, "another coat", paint)

    @property
    def tested(self) -> str:
        """How far the spot tests made so far reach, in words."""
        return self.signs.reach

    def further_tests(self) -> FurtherTests:
        """Return what may still be tested before the method is chosen; the caution where nothing may be."""
        trials, alike = self.signs.trials(), self.signs.alike
        site = self.work_area.job.site
        if not asbestos_open(site, self.work_area.basis):
            return FurtherTests(trials, alike)
        because = (
            "the laboratory found asbestos: no test is made by hand"
            if site.asbestos_test is TestResult.POSITIVE
            else "no test may be made before the laboratory has answered"
        )
        return FurtherTests(trials, alike, (self.work_area.caution("asbestos_texture", because),))
