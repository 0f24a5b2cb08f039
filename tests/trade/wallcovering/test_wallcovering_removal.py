from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import UNDRAWN
from estimating.trade.wallcovering.removal import (
    chance_after_tests,
    chance_of_the_rest,
    hours_by_outcome,
    rate_after_tests,
    rate_tested,
)

chances = st.floats(0.0, 1.0)
some_hours = st.floats(0.0, 100.0)
THREE = {"best": 1.0, "likely": 6.0, "worst": 20.0}


def test_a_test_strip_has_a_rate():
    """One and a half square feet in four minutes is 22½ ft² an hour."""
    assert rate_tested(area=1.5, minutes=4.0) == 22.5


def test_tests_pull_the_rate_of_the_table_their_way():
    """A table worth 2 tests at 40 ft²/h and 2 tests at 10: 0.025 and 0.1 h a ft², on average 0.0625 or 16 ft²/h."""
    assert rate_after_tests(rate=40.0, tested=10.0, tests=2.0, table_worth=2.0) == pytest.approx(16.0)
    assert rate_after_tests(rate=40.0, tested=10.0, tests=0.0, table_worth=2.0) == pytest.approx(40.0)


def test_clean_tests_halve_a_chance_and_never_end_it():
    """Five clean tests against a table worth five: from 20 to 10 %; one bad one among five: 20 %."""
    assert chance_after_tests(chance=0.2, share_seen=0.0, tests=5.0, table_worth=5.0) == pytest.approx(0.1)
    assert chance_after_tests(chance=0.2, share_seen=0.2, tests=5.0, table_worth=5.0) == pytest.approx(0.2)


@given(chances, chances, st.floats(0.0, 50.0))
def test_a_chance_after_tests_lies_between_the_table_and_the_tests(chance, seen, tests):
    """Weighing two shares gives neither more than the larger nor less than the smaller."""
    after = chance_after_tests(chance=chance, share_seen=seen, tests=tests, table_worth=5.0)
    assert min(chance, seen) - 1e-12 <= after <= max(chance, seen) + 1e-12


def test_a_chance_among_the_rest_is_larger():
    """One in five easy and one in five bad: of the four that are not bad, one is easy."""
    assert chance_of_the_rest(chance=0.2, other=0.2) == pytest.approx(0.25)
    assert chance_of_the_rest(chance=0.7, other=0.4) == 1  # two ranges drawn so high leave nothing over


def test_luck_falls_on_one_outcome():
    """A quarter bad, of the rest a third easy: below ¼ the worst, up to ½ the best, above it the likely hours."""
    random_draw = np.array([0.1, 0.24, 0.26, 0.49, 0.51, 0.99])
    drawn = hours_by_outcome(random_draw=random_draw, bad=0.25, easy=1 / 3, **THREE)
    assert drawn.tolist() == [20.0, 20.0, 1.0, 1.0, 6.0, 6.0]


def test_before_luck_is_drawn_the_hours_are_the_mean():
    """¼ of 20 and ¾ of (⅓ of 1 and ⅔ of 6) is 5 + 3.25 hours."""
    assert hours_by_outcome(random_draw=UNDRAWN, bad=0.25, easy=1 / 3, **THREE) == pytest.approx(8.25)


@given(chances, chances, some_hours, some_hours, some_hours)
def test_the_mean_is_what_many_draws_come_to(bad, easy, best, likely, worst):
    """The mean of the drawn hours over an even grid of luck is the mean before it is drawn."""
    random_draw = (np.arange(2000) + 0.5) / 2000
    hours = {"best": best, "likely": likely, "worst": worst}
    drawn = np.mean(hours_by_outcome(random_draw=random_draw, bad=bad, easy=easy, **hours))
    mean = hours_by_outcome(random_draw=UNDRAWN, bad=bad, easy=easy, **hours)
    assert drawn == pytest.approx(mean, abs=3 * 100 / 2000)  # each of the two limits may fall inside one cell


@pytest.mark.parametrize("field", ["bad", "easy", "best", "likely", "worst", "random_draw"])
def test_what_cannot_be_is_refused(field):
    """A chance above 1, hours below 0, luck outside 0 to 1."""
    wrong = {"random_draw": 0.5, "bad": 0.2, "easy": 0.2, **THREE} | {field: -1.0}
    with pytest.raises(InputError, match=field):
        hours_by_outcome(**wrong)
