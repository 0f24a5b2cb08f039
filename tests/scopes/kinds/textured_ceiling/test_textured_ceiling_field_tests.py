"""The tests still open on a textured ceiling: which, how often made, and when none may be."""

from __future__ import annotations

from typing import Any

import pytest
from places import JOBS

from estimating.estimate.whatif.scenario import apply
from estimating.estimate.whatif.value_of_testing import FurtherTests
from estimating.evidence import Basis, load_library
from estimating.job.file import plain_job
from estimating.scopes.registry import KINDS
from estimating.workbook import build_job, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"


def _further(**changes: Any) -> FurtherTests:
    plain = plain_job(read_job(DEMO))
    job = build_job(apply(plain, {("site", name): value for name, value in changes.items()}))
    tests = KINDS[job.work[0].kind].tests
    assert tests is not None
    return tests(job.work[0], job, Basis(load_library()))


def test_every_kind_is_offered_with_what_was_made_of_it() -> None:
    """The notes hold two dry rubs, clean, a mist that darkened, and a tape pull at 3 percent."""
    found = {each.title: (each.made, each.bad) for each in _further().trials}
    assert found == {"dry rub": (2, 0), "water mist": (1, 1), "tape pull": (1, 0), "roller patch": (0, 0)}


def test_the_two_results_lie_on_either_side_of_nothing_said() -> None:
    """A bad result is commoner on a weak surface, a clean one on a sound one; and one of them always comes."""
    for each in _further().trials:
        for shown in each.shows:
            assert (shown.weak.value > shown.sound.value) is shown.bad
        assert sum(shown.weak.value for shown in each.shows) == pytest.approx(1)
        assert sum(shown.sound.value for shown in each.shows) == pytest.approx(1)


@pytest.mark.parametrize(
    "site",
    [
        {"asbestos_test": "not tested"},
        {"asbestos_test": "unknown"},
        {"asbestos_test": "positive"},
        {"asbestos_test": "positive", "year_built": 2005},
        {"asbestos_test": "not tested", "year_built": "unknown"},
    ],
)
def test_no_test_before_the_laboratory(site: dict[str, Any]) -> None:
    """Rubbing, wetting and pulling disturb the texture: while asbestos is open, the caution stands in their place."""
    (caution,) = _further(**site).barred
    assert caution.key == "asbestos_texture"
    assert "laboratory" in caution.because


@pytest.mark.parametrize("site", [{}, {"asbestos_test": "not tested", "year_built": 2005}])
def test_a_laboratory_or_a_young_building_opens_them(site: dict[str, Any]) -> None:
    """With a negative result, or built after the year of the rule, tests may be made."""
    assert _further(**site).barred == ()


def test_a_test_made_moves_the_chance_as_the_worth_supposes() -> None:
    """A first clean patch brings the odds of the estimate to 0.15 of what they were."""
    plain = plain_job(read_job(DEMO))
    place = ("work", 0, "tests", len(plain["work"][0]["tests"]))
    tested = apply(plain, {place: {"kind": "roller patch", "outcome": "clean"}})
    before, after = (estimate_job(build_job(each)).comparisons[0].decision_figure for each in (plain, tested))
    assert before is not None
    assert after is not None
    odds_before, odds_after = (each.value / (1 - each.value) for each in (before, after))
    assert odds_after / odds_before == pytest.approx(0.15)
