"""One model of texture coming loose: no test moves the chance expected of any method, and its worth is the walk's.

`python tests/walks.py` does the same for every ceiling of the demo jobs and fifty random ones.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from places import JOBS
from random_ceilings import plain_ceilings, shown
from walks import moved, release_of, walks

from estimating.job.file import plain_job
from estimating.scopes.kinds.textured_ceiling.notes import FieldTest, SpotTest
from estimating.workbook import read_job


@pytest.mark.parametrize("seed", range(6))
def test_no_test_moves_the_chance_that_is_expected(seed: int) -> None:
    """Over random ceilings, every test and every method: the chance now is Σ P(result) · chance after, to 1e-9."""
    for plain in plain_ceilings(seed, 8):
        assert moved(plain) < 1e-9


def test_what_is_shown_in_what_order_makes_no_difference() -> None:
    """Ten tests noted the other way round leave the same chance."""
    (plain,) = plain_ceilings(5, 1)
    tests = [test for kind in FieldTest for test in shown(kind)]
    one, other = (release_of({**plain, "work": [plain["work"][0] | {"tests": each}]}) for each in (tests, tests[::-1]))
    assert one.weak.value == pytest.approx(other.weak.value, abs=1e-12)


def test_a_gentler_method_brings_down_a_share_whatever_is_known() -> None:
    """Known weak for sure, spraying still spares most of them: its chance never passes its share."""
    release = release_of(next(plain_ceilings(3, 1)))
    sure = [SpotTest(kind=FieldTest.ROLLER_PATCH, outcome="crumbs")] * 40
    weak = replace(release, item=release.item.model_copy(update={"history": None, "tests": tuple(sure)}))
    share = release.work_area.basis.figure("release", "method", "spray", "share").value
    assert weak.chance("roll").value > 0.9
    assert weak.chance("spray").value <= share


@pytest.mark.parametrize("history", ["never painted", "looks unpainted", "unknown"])
def test_the_worth_of_a_test_is_that_of_walking_through_its_results(history: str) -> None:
    """The demo ceiling, by every test: each result typed in, and what is then recommended done."""
    plain = plain_job(read_job(JOBS / "alder_row_sitting_room.toml"))
    plain["work"][0]["history"] = history
    for walk in walks(plain):
        assert walk.said >= 0
        assert walk.apart < 0.01, walk


def test_in_a_house_what_one_ceiling_shows_counts_for_its_like() -> None:
    """The patch on a ceiling of the whole house: others with the same texture are judged by it as well."""
    plain = plain_job(read_job(JOBS / "hazel_bank_whole_house.toml"))
    (walk,) = walks(plain, 0, [FieldTest.ROLLER_PATCH])
    assert walk.said >= 0
    assert walk.apart < 0.01, walk


@pytest.mark.parametrize("seed", range(4))
def test_the_worth_is_the_walk_for_random_ceilings(seed: int) -> None:
    """Two random ceilings, by every test."""
    for walk in (each for plain in plain_ceilings(100 + seed, 2) for each in walks(plain)):
        assert walk.said >= 0
        assert walk.apart < 0.01, walk
