"""Texture coming down: its odds from history and tests, what may still be tested, and what mending it costs."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from estimating.estimate.pricing.plan import Extent, OfTheSurface, Phase, Risk
from estimating.estimate.whatif.value_of_testing import FurtherTests, Trial
from estimating.figures import Figure, random_draw, work
from estimating.job.site import TestResult
from estimating.job.values import Answer
from estimating.row_key import RowKey
from estimating.scopes.kinds.textured_ceiling.notes import (
    OUTCOMES,
    FieldTest,
    History,
    SpotTest,
    TexturedCeiling,
)
from estimating.scopes.shared import masking, rework, solvent
from estimating.scopes.shared.asbestos import asbestos_open
from estimating.scopes.shared.surface import Surface
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import counted
from estimating.trade import adhesion

PRIORS = {
    None: "unknown",
    History.NEVER_PAINTED: "never_painted",
    History.LOOKS_UNPAINTED: "looks_unpainted",
    History.PAINTED_ONCE: "painted_once_unknown_primer",
    History.PRIMED_AND_PAINTED: "primed_and_painted",
    History.PAINTED_TWICE: "painted_twice",
}
EVIDENCE = {
    (FieldTest.DRY_RUB, "clean"): "rub_clean",
    (FieldTest.DRY_RUB, "chalky"): "rub_chalky",
    (FieldTest.WATER_MIST, "beads"): "mist_beads",
    (FieldTest.WATER_MIST, "darkens"): "mist_darkens",
    (FieldTest.ROLLER_PATCH, "clean"): "patch_clean",
    (FieldTest.ROLLER_PATCH, "crumbs"): "patch_crumbs",
}
CLEAN = ("rub_clean", "mist_beads", "patch_clean", "tape_under_5")
SURE_SIGN = "bare_board"
PRIOR = str(RowKey.of("release", "prior", "{history}", "probability"))  # own jobs can correct it
EXTENTS = ("spots", "patches", "sheets")
# A tape pull has three readings. The two above 5 % are taken as one, at the odds of the milder: the worth of a tape
# pull then comes out as the least that its readings allow, since telling more apart is never worth less.
READINGS = {
    FieldTest.DRY_RUB: ("rub_chalky", "rub_clean"),
    FieldTest.WATER_MIST: ("mist_darkens", "mist_beads"),
    FieldTest.TAPE_PULL: ("tape_5_to_25", "tape_under_5"),
    FieldTest.ROLLER_PATCH: ("patch_crumbs", "patch_clean"),
}
TAPE_RESULTS = ("under 5 %", "5 to 25 %", "over 25 %")
SHOWN = {**OUTCOMES, FieldTest.TAPE_PULL: TAPE_RESULTS}
RESULTS = tuple((str(kind), result) for kind in FieldTest for result in SHOWN[kind])  # as they are typed afterward
NOTES = {FieldTest.ROLLER_PATCH: "looked at again next morning; a drive for that alone is not counted"}
SEALED = ("seal_roll", "seal_spray")


def evidence_key(test: SpotTest) -> str:
    """Return the row of evidence that a test result falls under."""
    if test.kind is FieldTest.TAPE_PULL:
        removed = test.removed or 0.0
        return "tape_under_5" if removed < 5 else "tape_5_to_25" if removed <= 25 else "tape_over_25"
    return EVIDENCE[test.kind, test.outcome or ""]


@dataclass(frozen=True, eq=False)
class Release:
    """The odds that the texture of a ceiling comes down, and what it costs if it does."""

    item: TexturedCeiling
    work_area: WorkArea
    surface: Surface

    @property
    def history(self) -> str:
        """The class of its history, as the table has it."""
        return SURE_SIGN if self.item.bare_board_behind_fallen is Answer.YES else PRIORS[self.item.history]

    @property
    def prior(self) -> Figure:
        """The chance that goes with its history, before any test."""
        return self.work_area.basis.figure("release", "prior", self.history, "probability")

    @cached_property
    def base(self) -> Figure:
        """The chance that rolling with water-borne paint brings texture down: history first, then tests."""
        basis, item, chance = self.work_area.basis, self.item, self.prior
        if any(stain.kind == "water" for stain in item.stains or ()):
            added = basis.figure("release", "water_damage", "zone", "probability")
            chance = work(adhesion.with_damage, "release, with the water-damaged zone", chance=chance, added=added)
        results: dict[str, list[SpotTest]] = {}
        for test in item.tests:
            results.setdefault(evidence_key(test), []).append(test)
        for key, tests in results.items():
            chance = self._after(chance, key, len(tests))
        return chance

    @property
    def _alike(self) -> Figure:
        return self.work_area.basis.figure("release", "tests", "clustered", "correlation")

    def _after(self, chance: Figure, key: str, tests: int) -> Figure:
        said = key.replace("_", " ")
        made = counted(tests, f"{said} tests", f'work "{self.item.room}" · tests')
        weight = work(adhesion.effective_tests, f"{said}: worth of the tests", tests=made, correlation=self._alike)
        ratio = self._odds("evidence", key)
        return work(adhesion.updated_chance, f"release, after {said}", chance=chance, ratio=ratio, weight=weight)

    def _odds(self, group: str, key: str) -> Figure:
        return self.work_area.basis.figure("release", group, key, "odds")

    def chance(self, method: str) -> Figure:
        """Return the chance that texture comes down when the ceiling is done this way, with the primer used here."""
        water = method in SEALED and solvent.barred(self.work_area.job.site)
        return self._chance(f"{method}_waterborne" if water else method)

    @property
    def sealed_chances(self) -> tuple[Figure, Figure]:
        """The chance of release sealed and rolled: with the water-borne primer, and with the solvent-borne one."""
        return self._chance("seal_roll_waterborne"), self._chance("seal_roll")

    def _chance(self, row: str) -> Figure:
        name = f"release, done this way: {row.replace('_', ' ')}"
        return work(adhesion.release_probability, name, base=self.base, method_odds=self._odds("method", row))

    def risk(self, method: str) -> Risk:
        """Return the allowance for release: its chance times what mending costs, over the three extents."""
        chance = self.chance(method)
        primer = solvent.primer_word(self.work_area.job.site)
        mended = f"stop, let it dry, bind the edges with the {primer} primer, re-texture, prime, coat"
        told = (chance, self._cost, "release happens", mended, self._of_the_surface(chance))
        return rework.allowance("texture_release", "Texture comes down", *told)

    def _of_the_surface(self, chance: Figure) -> OfTheSurface:
        limit = self.work_area.basis.figure("release", "limit", "conditions", "probability")
        return OfTheSurface(
            told=chance.value > limit.value,
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
        made, clean = self.clean_tests
        if not made:
            return "no spot test was made: the odds rest on history alone"
        share = adhesion.worst_fraction(clean=clean, tested=made, confidence=0.95)
        reach = f"up to {share:.0%} of the ceiling may still be bad (95 % one-sided, exact)"
        return f"{clean} of {made} spot tests clean: {reach}"

    @property
    def clean_tests(self) -> tuple[int, int]:
        """How many tests were made and how many of them showed nothing coming away."""
        return len(self.item.tests), sum(evidence_key(test) in CLEAN for test in self.item.tests)

    def further_tests(self) -> FurtherTests:
        """Return what may still be tested before the method is chosen; the caution where nothing may be."""
        trials = tuple(self._trial(kind, *readings) for kind, readings in READINGS.items())
        site = self.work_area.job.site
        if not asbestos_open(site, self.work_area.basis):
            return FurtherTests(trials, self._alike)
        because = (
            "the laboratory found asbestos: no test is made by hand"
            if site.asbestos_test is TestResult.POSITIVE
            else "no test may be made before the laboratory has answered"
        )
        return FurtherTests(trials, self._alike, (self.work_area.caution("asbestos_texture", because),))

    def _trial(self, kind: FieldTest, bad: str, clean: str) -> Trial:
        made = [evidence_key(test) for test in self.item.tests if test.kind is kind]
        row = kind.value.replace(" ", "_")
        return Trial(
            key=row,
            title=str(kind),
            ratio_bad=self._odds("evidence", bad),
            ratio_clean=self._odds("evidence", clean),
            minutes=self.work_area.basis.figure("production", "spot_test", row, "any"),
            made=len(made),
            bad=sum(each != clean for each in made),
            note=NOTES.get(kind, ""),
        )
