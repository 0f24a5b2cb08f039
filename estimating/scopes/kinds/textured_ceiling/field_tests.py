"""The tests that can still be made on a textured ceiling, what their results say, and when none may be made."""

from __future__ import annotations

from estimating.estimate.whatif.value_of_testing import FurtherTests, Trial
from estimating.job.site import TestResult
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling, evidence_key
from estimating.scopes.kinds.textured_ceiling.notes import OUTCOMES, FieldTest
from estimating.scopes.shared.asbestos import asbestos_open

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


def further_tests(ceiling: Ceiling) -> FurtherTests:
    """Return what may still be tested on a ceiling before its way is chosen."""
    alike = ceiling.work_area.basis.figure("release", "tests", "clustered", "correlation")
    trials = tuple(_trial(ceiling, kind, *readings) for kind, readings in READINGS.items())
    found = ceiling.work_area.job.site.asbestos_test is TestResult.POSITIVE
    if not asbestos_open(ceiling.work_area.job.site, ceiling.work_area.basis):
        return FurtherTests(trials, alike)
    because = (
        "the laboratory found asbestos: no test is made by hand"
        if found
        else "no test may be made before the laboratory has answered"
    )
    return FurtherTests(trials, alike, (ceiling.work_area.caution("asbestos_texture", because),))


def _trial(ceiling: Ceiling, kind: FieldTest, bad: str, clean: str) -> Trial:
    basis = ceiling.work_area.basis
    made = [evidence_key(test) for test in ceiling.item.tests if test.kind is kind]
    row = kind.value.replace(" ", "_")
    return Trial(
        key=row,
        title=str(kind),
        ratio_bad=basis.figure("release", "evidence", bad, "odds"),
        ratio_clean=basis.figure("release", "evidence", clean, "odds"),
        minutes=basis.figure("production", "spot_test", row, "any"),
        made=len(made),
        bad=sum(each != clean for each in made),
        note=NOTES.get(kind, ""),
    )
