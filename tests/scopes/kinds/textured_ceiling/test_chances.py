"""One model of texture coming loose: no test moves the chance expected of any method, and its worth is the walk's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from places import JOBS
from random_ceilings import plain_ceilings, shown

from estimating.estimate.pricing.preference import beyond_mending
from estimating.estimate.whatif.value_of_testing import Trial, results, worths
from estimating.evidence import Basis, load_library
from estimating.job.file import plain_job
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.kinds.textured_ceiling.methods import tests as further_tests
from estimating.scopes.kinds.textured_ceiling.notes import FieldTest, SpotTest
from estimating.scopes.kinds.textured_ceiling.release import Release
from estimating.scopes.kinds.textured_ceiling.suitability import COATED
from estimating.scopes.shared.work_area import WorkArea
from estimating.workbook import Outcome, build_job, estimate_job, read_job


def _release(plain: Mapping[str, Any]) -> Release:
    job = build_job(plain)
    item = job.work[0]
    return Ceiling(item, WorkArea.of(item, job, Basis(load_library()))).release


def _tested(plain: Mapping[str, Any], test: Mapping[str, Any], place: int = 0) -> dict[str, Any]:
    item = plain["work"][place]
    work = [*plain["work"]]
    work[place] = item | {"tests": [*item["tests"], test]}
    return {**plain, "work": work}


@pytest.mark.parametrize("seed", range(6))
def test_no_test_moves_the_chance_that_is_expected(seed: int) -> None:
    """Over random ceilings, every test and every method: the chance now is Σ P(result) · chance after, to 1e-9."""
    for plain in plain_ceilings(seed, 8):
        now = _release(plain)
        for kind, trial in zip(FieldTest, now.further_tests().trials, strict=True):
            assert trial.title == str(kind)
            found = results(trial, 1, now.signs.alike.value)[::-1]  # the clean result first, as they are shown
            weights = [float(each.chance(now.weak.value)) for each in found]
            after = [_release(_tested(plain, test)) for test in shown(kind)]
            assert sum(weights) == pytest.approx(1, abs=1e-12)
            for method in COATED:
                expected = sum(w * each.chance(method).value for w, each in zip(weights, after, strict=True))
                assert expected == pytest.approx(now.chance(method).value, abs=1e-9)


def test_what_is_shown_in_what_order_makes_no_difference() -> None:
    """Ten tests noted the other way round leave the same chance."""
    (plain,) = plain_ceilings(5, 1)
    tests = [test for kind in FieldTest for test in shown(kind)]
    one, other = (_release({**plain, "work": [plain["work"][0] | {"tests": each}]}) for each in (tests, tests[::-1]))
    assert one.weak.value == pytest.approx(other.weak.value, abs=1e-12)


def test_a_gentler_method_brings_down_a_share_whatever_is_known() -> None:
    """Known weak for sure, spraying still spares most of them: its chance never passes its share."""
    release = _release(next(plain_ceilings(3, 1)))
    sure = [SpotTest(kind=FieldTest.ROLLER_PATCH, outcome="crumbs")] * 40
    weak = replace(release, item=release.item.model_copy(update={"history": None, "tests": tuple(sure)}))
    share = release.work_area.basis.figure("release", "method", "spray", "share").value
    assert weak.chance("roll").value > 0.9
    assert weak.chance("spray").value <= share


def _weighed(outcome: Outcome, place: int) -> float:
    best = outcome.comparisons[place].recommended
    return best.likely.cost + beyond_mending(best.plan, outcome.comparisons[place].appetite)


def _walk(plain: Mapping[str, Any], trial: Trial, alike: float, now: Outcome, place: int) -> float:
    """Return what a test saves when each of its results is typed in and what is then recommended is done."""
    weak = now.comparisons[place].decision_figure
    assert weak is not None
    tests = shown(FieldTest(trial.title))
    saved = _weighed(now, place)
    for test, result in zip(tests, results(trial, 1, alike)[::-1], strict=True):
        after = estimate_job(build_job(_tested(plain, test, place)))
        saved -= float(result.chance(weak.value)) * _weighed(after, place)
    return saved


def _agrees(plain: Mapping[str, Any], place: int, kinds: tuple[FieldTest, ...]) -> None:
    now = estimate_job(build_job(plain))
    further = further_tests(now.job.work[place], now.job, now.basis)
    found = {each[0].trial.title: each for each in worths(further, now.comparisons[place], now.basis, most=1)}
    for kind in kinds:
        worth = found[str(kind)][1]
        walked = _walk(plain, worth.trial, further.alike.value, now, place)
        assert worth.saves.value == pytest.approx(max(0.0, walked), abs=0.02)
        assert worth.saves.value >= 0


@pytest.mark.parametrize("history", ["never painted", "looks unpainted", "unknown"])
def test_the_worth_of_a_test_is_that_of_walking_through_its_results(history: str) -> None:
    """The demo ceiling, by every test: each result typed in, and what is then recommended done."""
    plain = plain_job(read_job(JOBS / "alder_row_sitting_room.toml"))
    plain["work"][0]["history"] = history
    _agrees(plain, 0, tuple(FieldTest))


@pytest.mark.parametrize("seed", range(4))
def test_the_worth_is_the_walk_for_random_ceilings(seed: int) -> None:
    """Two random ceilings, each by a test of another kind."""
    for number, plain in enumerate(plain_ceilings(100 + seed, 2)):
        _agrees(plain, 0, (tuple(FieldTest)[(seed + number) % 4],))
