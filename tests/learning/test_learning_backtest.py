"""Learned rates judged on jobs they had no part in."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from estimating.errors import InputError
from estimating.evidence import Row
from estimating.learning.backtest import before_and_after, try_forward
from estimating.learning.rates import Observed
from estimating.origins import Kind, Origin

START = date(2026, 1, 5)
ROLL = Row("production", ("roll", "roller", "popcorn"), 100.0, 150.0, 225.0, "ft**2/hour", Origin(Kind.JUDGMENT))
FIXED = replace(ROLL, keys=("tick", "hand", "any"), low=60.0, likely=60.0, high=60.0)
ROWS = {row.key: row for row in (ROLL, FIXED)}
LINE = Observed("job 0", "roll", "hours", 3.0, 4.0, 6.0, 4.0, START, row=ROLL.key, assumed=150.0, unit="ft**2/hour")


def _jobs(overs: list[float]) -> list[Observed]:
    return [
        replace(LINE, job=f"job {number}", actual=4.0 * over, done_on=START + timedelta(days=14 * number))
        for number, over in enumerate(overs)
    ]


def test_a_steady_bias_is_learned_away() -> None:
    """A contractor who always takes a third longer is judged better by his own rate than by the published one."""
    seen = before_and_after(try_forward(ROWS, _jobs([1.33] * 8)))
    assert seen.n == 7
    assert seen.off_before == pytest.approx(1.33)
    assert seen.off_after < 1.2
    assert seen.text.startswith("on 7 lines")


def test_the_first_job_is_judged_by_nothing() -> None:
    """Without an earlier job there is nothing to compare, and that is said."""
    tried = try_forward(ROWS, _jobs([1.5]))
    assert tried == ()
    with pytest.raises(InputError, match="an earlier job"):
        before_and_after(tried)


def test_no_line_is_judged_by_itself_or_by_what_came_later() -> None:
    """The second job's learned rate is the same whatever it took itself, and whatever followed."""
    short, long = (try_forward(ROWS, _jobs([1.2, second, third]))[0] for second, third in ((0.8, 1.0), (1.6, 2.0)))
    assert short.learned == long.learned
    assert short.came_out == pytest.approx(150 / 0.8)


def test_lines_of_one_day_do_not_teach_each_other() -> None:
    """What was finished on the same day is not earlier."""
    jobs = [replace(each, done_on=START) for each in _jobs([1.2, 1.4])]
    assert try_forward(ROWS, jobs) == ()


def test_what_cannot_be_learned_is_left_out() -> None:
    """A row without a range, a row that is gone and a line without a row spoil nothing."""
    jobs = _jobs([1.2, 1.2])
    strays = [
        replace(jobs[1], row=FIXED.key),
        replace(jobs[1], row="production/gone"),
        replace(jobs[1], row="", assumed=0.0),
    ]
    assert len(try_forward(ROWS, [*jobs, *strays])) == 1


def test_a_range_that_held_is_counted() -> None:
    """Inside and outside are those of the row and of what was learned."""
    tried = try_forward(ROWS, _jobs([1.0, 1.0, 1.7]))
    assert [each.inside_before for each in tried] == [True, False]
    assert before_and_after(tried).inside_before == 1
