"""What a field test on a texture can show, and how often it shows that on a weak surface and on a sound one.

The table has what each result does to the odds of a weak surface. That the results of a test add up to one then says
how often each comes. A tape pull has three readings; the table also says how the two bad ones share.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from estimating.estimate.whatif.value_of_testing import Shows, Trial
from estimating.evidence import Basis
from estimating.figures import Figure, work
from estimating.scopes.kinds.textured_ceiling.notes import OUTCOMES, FieldTest, SpotTest
from estimating.takeoff import counted
from estimating.trade import adhesion

EVIDENCE = {
    (FieldTest.DRY_RUB, "clean"): "rub_clean",
    (FieldTest.DRY_RUB, "chalky"): "rub_chalky",
    (FieldTest.WATER_MIST, "beads"): "mist_beads",
    (FieldTest.WATER_MIST, "darkens"): "mist_darkens",
    (FieldTest.ROLLER_PATCH, "clean"): "patch_clean",
    (FieldTest.ROLLER_PATCH, "crumbs"): "patch_crumbs",
}
STRONGEST = "tape_over_25"
READINGS: Mapping[FieldTest, tuple[str, ...]] = {  # the clean one first, then the bad ones, the milder first
    FieldTest.DRY_RUB: ("rub_clean", "rub_chalky"),
    FieldTest.WATER_MIST: ("mist_beads", "mist_darkens"),
    FieldTest.TAPE_PULL: ("tape_under_5", "tape_5_to_25", STRONGEST),
    FieldTest.ROLLER_PATCH: ("patch_clean", "patch_crumbs"),
}
CLEAN = tuple(readings[0] for readings in READINGS.values())
TAPE_RESULTS = ("under 5 %", "5 to 25 %", "over 25 %")
SHOWN = {**OUTCOMES, FieldTest.TAPE_PULL: TAPE_RESULTS}
RESULTS = tuple((str(kind), result) for kind in FieldTest for result in SHOWN[kind])  # as they are typed afterward
NOTES = {FieldTest.ROLLER_PATCH: "looked at again next morning; a drive for that alone is not counted"}


def evidence_key(test: SpotTest) -> str:
    """Return the row of evidence that a test result falls under."""
    if test.kind is FieldTest.TAPE_PULL:
        removed = test.removed or 0.0
        return "tape_under_5" if removed < 5 else "tape_5_to_25" if removed <= 25 else STRONGEST
    return EVIDENCE[test.kind, test.outcome or ""]


@dataclass(frozen=True, eq=False)
class Signs:
    """The tests made on one ceiling, and what each of their results says."""

    tests: tuple[SpotTest, ...]
    basis: Basis
    where: str  # the field of the job they stand in

    @property
    def alike(self) -> Figure:
        """How far tests of one kind in one room repeat each other."""
        return self.basis.figure("release", "tests", "clustered", "correlation")

    @cached_property
    def made(self) -> Mapping[str, int]:
        """How many tests showed what."""
        return Counter(map(evidence_key, self.tests))

    def after(self, chance: Figure) -> Figure:
        """Return the chance of a weak surface after every test made, one result at a time."""
        for kind, readings in READINGS.items():
            for key in filter(self.made.__contains__, readings):
                chance = self._after(chance, kind, key)
        return chance

    def _after(self, chance: Figure, kind: FieldTest, key: str) -> Figure:
        said, shows = key.replace("_", " "), next(each for each in self.shows(kind) if each.key == key)
        ratio = work(
            adhesion.result_ratio,
            f"what {said} does to the odds",
            weak=shows.weak,
            sound=shows.sound,
            tests=counted(self.made[key], f"{said} tests", self.where),
            alike=self.alike,
        )
        return work(adhesion.after_result, f"weak, after {said}", chance=chance, ratio=ratio)

    def shows(self, kind: FieldTest) -> tuple[Shows, ...]:
        """Return what a test of a kind can show, the clean result first."""
        clean, *bad = READINGS[kind]
        found = work(
            adhesion.bad_though_sound,
            f"{kind}, bad on a sound surface",
            ratio_bad=self._bad_ratio(kind, bad),
            ratio_clean=self._odds(clean),
        )
        sound = work(adhesion.otherwise, f"{clean.replace('_', ' ')} on a sound surface", chance=found)
        return (self._shows(clean, sound), *(self._shows(key, each) for key, each in self._shared(found, bad)))

    def _bad_ratio(self, kind: FieldTest, bad: Sequence[str]) -> Figure:
        if len(bad) == 1:
            return self._odds(bad[0])
        mild, strong = map(self._odds, bad)
        return work(adhesion.either_ratio, f"{kind}, either bad result", mild=mild, strong=strong, share=self._strong)

    def _shared(self, found: Figure, bad: Sequence[str]) -> list[tuple[str, Figure]]:
        if len(bad) == 1:
            return [(bad[0], found)]
        rest = work(adhesion.otherwise, "share of the milder result", chance=self._strong)
        return [
            (key, work(adhesion.part_of, f"{key.replace('_', ' ')} on a sound surface", chance=found, share=share))
            for key, share in zip(bad, (rest, self._strong), strict=True)
        ]

    @property
    def _strong(self) -> Figure:
        return self.basis.figure("release", "evidence", STRONGEST, "share")

    def _odds(self, key: str) -> Figure:
        return self.basis.figure("release", "evidence", key, "odds")

    def _shows(self, key: str, sound: Figure) -> Shows:
        said = key.replace("_", " ")
        weak = work(adhesion.shown_when_weak, f"{said} on a weak surface", ratio=self._odds(key), sound=sound)
        return Shows(key, said, weak, sound, made=self.made.get(key, 0), bad=key not in CLEAN)

    def trials(self) -> tuple[Trial, ...]:
        """Return each kind of test that may be made, with what it can show and what it showed so far."""
        return tuple(self._trial(kind) for kind in READINGS)

    def _trial(self, kind: FieldTest) -> Trial:
        row = kind.value.replace(" ", "_")
        minutes = self.basis.figure("production", "spot_test", row, "any")
        return Trial(row, str(kind), self.shows(kind), minutes, NOTES.get(kind, ""))

    @property
    def reach(self) -> str:
        """How far the tests made so far reach, in words."""
        made, clean = self.clean_tests
        if not made:
            return "no spot test was made: the odds rest on history alone"
        share = adhesion.worst_fraction(clean=clean, tested=made, confidence=0.95)
        reach = f"up to {share:.0%} of the ceiling may still be bad (95 % one-sided, exact)"
        return f"{clean} of {made} spot tests clean: {reach}"

    @property
    def clean_tests(self) -> tuple[int, int]:
        """How many tests were made and how many of them showed nothing coming away."""
        return len(self.tests), sum(evidence_key(test) in CLEAN for test in self.tests)
