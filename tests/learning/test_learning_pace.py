"""The crew's pace, its drift, likely slips, and jobs nobody wrote down."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from estimating.evidence import OwnValue, Row
from estimating.learning.pace import drift, pace, slips, unrecorded
from estimating.learning.rates import Observed, learn
from estimating.origins import Kind, Origin

TODAY = date(2026, 6, 1)
ROLL, SAND, FIXED = (
    Row("production", (task, "hand", "any"), *ends, "ft**2/hour", Origin(Kind.JUDGMENT))
    for task, ends in (("roll", (70.0, 100.0, 140.0)), ("sand", (150.0, 250.0, 400.0)), ("tick", (9.0, 9.0, 9.0)))
)
ROWS = {row.key: row for row in (ROLL, SAND, FIXED)}
WHOLE = Observed("parlor", "whole_job", "hours", 26.0, 32.0, 40.0, 40.0, TODAY, whole=True)
LINE = Observed("parlor", "roll", "hours", 2.9, 4.0, 5.7, 5.0, TODAY, row=ROLL.key, assumed=100.0, unit="ft**2/hour")


def _jobs(overs: list[float]) -> list[Observed]:
    days = [TODAY - timedelta(days=30 * (len(overs) - number)) for number in range(len(overs))]
    return [
        replace(WHOLE, job=f"job {number}", actual=32.0 * over, done_on=day)
        for number, (over, day) in enumerate(zip(overs, days, strict=True))
    ]


def test_total_hours_move_every_rate_nobody_recorded() -> None:
    """Slow totals make every rate of hours slower, but for rows without a range, recorded ones and own ones."""
    found = pace(ROWS, _jobs([1.3, 1.25, 1.35]), today=TODAY)
    assert found is not None
    assert {each.row.key for each in found.updates} == {ROLL.key, SAND.key}
    assert 1.1 < found.hours < 1.4
    assert "more hours than the tables say" in found.text
    own = {SAND.key: OwnValue(250.0, "ft**2/hour")}
    assert [each.row.key for each in pace(ROWS, _jobs([1.3, 1.3]), today=TODAY, own=own).updates] == [ROLL.key]


def test_without_hours_there_is_no_pace() -> None:
    """No record, no pace; and no pace where every job took what was estimated and no range is news."""
    assert pace(ROWS, [], today=TODAY) is None


def test_a_total_beside_its_lines_says_nothing_twice() -> None:
    """Where the lines of a job were written down its total is passed over."""
    lines_only = learn(ROWS, [LINE], today=TODAY, wanted=[SAND])
    assert learn(ROWS, [LINE, WHOLE], today=TODAY, wanted=[SAND]) == lines_only


def test_a_likely_slip_is_asked_about_and_teaches_nothing() -> None:
    """Ten times the promise is put as a question, and learned from by nobody."""
    slip = replace(LINE, actual=40.0)
    assert [each.text for each in slips([LINE, slip])] == [
        "parlor · roll: 40 hours against 4, 10 times what was estimated. Is it right, or a slip?"
    ]
    assert "a 10th of" in slips([replace(LINE, actual=0.4)])[0].text
    found = learn(ROWS, [slip], today=TODAY)
    assert found.updates == ()
    assert "a slip of the pen" in found.left_out[0].reason


def test_another_crew_teaches_less() -> None:
    """What one crew took moves the next job of the other crew less than its own."""
    jobs = [replace(each, crew="second") for each in _jobs([1.4, 1.4, 1.4])]
    mine, theirs = (
        learn(ROWS, jobs, today=TODAY, wanted=[ROLL], crew=crew).updates[0].likely for crew in ("second", "")
    )
    assert mine < theirs < ROLL.likely


def test_a_steady_trend_is_said_and_scatter_is_not() -> None:
    """Five percent fewer hours a job is a drift; the same figures shuffled are none, and five jobs are too few."""
    falling = [1.2 * 0.95**number for number in range(10)]
    found = drift(_jobs(falling))
    assert found is not None
    assert found.a_year == pytest.approx(0.95 ** (365.25 / 30), rel=1e-6)
    assert "fewer a year" in found.text
    assert drift(_jobs([1.0, 1.2, 0.9, 1.1, 0.95, 1.15, 1.0, 1.05])) is None
    assert drift(_jobs(falling[:5])) is None


def test_chance_alone_is_seldom_called_a_drift() -> None:
    """Of 400 steady contractors about one in twenty is said to drift."""
    chance = np.random.default_rng(3)
    said = sum(drift(_jobs([*np.exp(0.15 * chance.normal(size=8))])) is not None for _ in range(400))
    assert 6 <= said <= 36


def test_jobs_nobody_wrote_down_are_minded() -> None:
    """Some of many is warned of; all, and none at all, are not."""
    assert unrecorded(12, 4).startswith("4 of 12 jobs sent have hours written down.")
    assert unrecorded(4, 4) == unrecorded(4, 0) == ""
