"""The season in the plan: days allowed, waited before any coat, told to everybody, and what is asked without one."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import pytest
from places import JOBS

from estimating.errors import InputError, InputErrors
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.evidence import Basis, load_library
from estimating.scopes.registry import KINDS
from estimating.units import convert
from estimating.workbook import build_job, estimate_job

LIBRARY = load_library()
OUTDOORS = {"deck_fence": "cedar_hollow_deck", "exterior_repaint": "willow_bend_house"}
MAY: dict[str, Any] = {
    "month": "May",
    "night_low": "48 degF",
    "day_high": "70 degF",
    "dew_point": "47 degF",
    "rain_days": 11,
    "source": "made up",
}
every_kind = pytest.mark.parametrize("kind", sorted(OUTDOORS))


def plan(kind: str, season: dict[str, Any]) -> Plan:
    """Return the first method of a demo job's first work item in a season."""
    plain = tomllib.loads((JOBS / f"{OUTDOORS[kind]}.toml").read_text("utf-8"))
    plain["site"] = copy.deepcopy(plain["site"]) | {"season": season}
    job = build_job(plain)
    return KINDS[kind].plans(job.work[0], job, Basis(LIBRARY))[0]


def waited(found: Plan) -> float:
    """Return the longest wait of a plan in days."""
    return max(float(convert(task.wait.value, task.wait.unit, "day")) for task in found.tasks if task.wait is not None)


@every_kind
def test_an_ordinary_month_adds_days_before_the_coats(kind: str) -> None:
    """By hand: 11 of 30.4 days wet, 0.638 dry, 0.747 dry again; 0.841 mild less 0.006 hot: 0.398 of days."""
    with_season, without = plan(kind, MAY), plan(kind, {})
    share, lost, slips, hours = with_season.figures
    assert share.value == pytest.approx(0.638 * 0.747 * (0.841 - 0.006), abs=0.002)
    assert lost.value >= 2
    assert waited(with_season) == pytest.approx(waited(without) + lost.value)
    assert 0 < slips.value < 0.6
    assert 0 < hours.value < 24
    assert any("days are fit for a coat" in note and "made up" in note for note in with_season.notes)
    assert not without.figures
    assert any("more days open" in each for each in with_season.client_requirements)


@every_kind
def test_a_month_of_rain_sets_conditions_and_winter_rules_out(kind: str) -> None:
    """No price for days that will not come."""
    winter = {"month": "January", "night_low": "20 degF", "day_high": "34 degF", "rain_days": 12}
    assert plan(kind, winter).suitability is Suitability.CLOSED
    wet = plan(kind, MAY | {"rain_days": 16})
    assert any("dates are left open" in each.text for each in wet.findings)
    sultry = plan(kind, MAY | {"dew_point": "68 degF"})
    assert any("over its dew point" in each.text for each in sultry.findings)


@every_kind
def test_a_dry_mild_month_adds_hardly_a_day(kind: str) -> None:
    """Two days of rain, mild nights: nine days in ten are fit."""
    dry = plan(kind, MAY | {"rain_days": 1, "night_low": "58 degF", "day_high": "74 degF"})
    assert dry.figures[0].value > 0.85
    assert dry.figures[1].value <= 2


def test_the_days_stand_in_the_schedule_and_not_in_the_price() -> None:
    """The crew is elsewhere; what was not looked up is asked."""
    plain = tomllib.loads((JOBS / "willow_bend_house.toml").read_text("utf-8"))
    plain["site"].pop("season", None)
    without = estimate_job(build_job(plain))
    plain["site"]["season"] = MAY
    with_season = estimate_job(build_job(plain))
    assert with_season.estimate.schedule.elapsed.value > without.estimate.schedule.elapsed.value + 24
    assert with_season.estimate.price == without.estimate.price
    assert {"site · season · rain_days", "site · season · month"} <= {each.field for each in without.questions}
    assert not any("season · rain_days" in each.field for each in with_season.questions)


@pytest.mark.parametrize(
    "season", [{"night_low": "60 degF", "day_high": "50 degF"}, {"rain_days": 40}, {"night_low": "200 degF"}]
)
def test_a_season_that_cannot_be_is_refused(season: dict[str, Any]) -> None:
    """A night warmer than its day, more rain than days."""
    with pytest.raises((InputError, InputErrors)):
        plan("deck_fence", season)
