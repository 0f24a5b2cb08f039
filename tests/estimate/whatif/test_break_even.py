"""What if: crossings against a library's root finder, differences by name, the worth of a test by hand."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.stats import betabinom, binom

from estimating.errors import InputError
from estimating.estimate.whatif.break_even import (
    _chance_of_bad,
    bad_though_sound,
    bad_when_weak,
    break_even,
    curve,
    fails_though_sound,
    fails_when_weak,
    value_of_tests,
)
from estimating.figures import leaf, total, work
from estimating.origins import definition, judgment
from estimating.rules import rule

MADE_UP = judgment("made up for the test")
HERE = definition("test")


@rule("c = s + a / r w", "dollar", HERE, start="dollar", area="ft**2", rate="ft**2/hour", wage="dollar/hour")
def _cost(*, start, area, rate, wage):
    return start + area / rate * wage


@rule("c = 10 ⌈a / 100⌉", "dollar", HERE, area="ft**2")
def _by_the_hundred(*, area):
    return 10 * np.ceil(area / 100)


@rule("c = (a - 10) (a - 20) (a - 30)", "dollar", HERE, area="ft**2")
def _cubic(*, area):
    return (area - 10) * (area - 20) * (area - 30)


def _area(key="", unit="ft**2"):
    return leaf("area", 400, unit, MADE_UP, low=350, high=450, key=key)


def _method(name, area, start, rate):
    return work(
        _cost,
        name,
        start=leaf("start", start, "dollar", MADE_UP),
        area=area,
        rate=leaf("rate", rate, "ft**2/hour", MADE_UP),
        wage=leaf("wage", 40, "dollar/hour", MADE_UP),
    )


def test_two_ways_cost_the_same_where_their_lines_cross():
    """80 + a / 400 · 40 = 20 + a / 100 · 40 at a = 200 ft²."""
    area = _area()
    spray, roll = _method("spray", area, 80, 400), _method("roll", area, 20, 100)
    assert break_even(spray, roll, area, low=1, high=2000) == pytest.approx([200], rel=1e-9)
    assert break_even(spray, roll, area, low=300, high=2000) == []


def test_every_crossing_is_found():
    """A cubic meets nothing at 10, 20 and 30."""
    area = _area()
    nothing = leaf("nothing", 0, "dollar", MADE_UP)
    assert break_even(work(_cubic, "cubic", area=area), nothing, area, low=0, high=41) == pytest.approx([10, 20, 30])


@given(st.floats(30, 300), st.floats(1.1, 5), st.floats(1, 79))
def test_crossings_are_those_of_a_library_root_finder(rate, faster, start):
    """For any two straight ways the crossing is the one scipy's brentq finds."""
    area = _area()
    fast, slow = _method("fast", area, start + 1, rate * faster), _method("slow", area, 1, rate)

    def gap(value):
        one, other = curve([fast, slow], area, [value])
        return float(one[0] - other[0])

    found = break_even(fast, slow, area, low=0, high=1e4)
    assert found == pytest.approx([brentq(gap, 0, 1e4, xtol=1e-9)], rel=1e-6) if gap(1e4) < 0 else found == []


def test_a_jump_is_a_crossing_where_it_jumps():
    """10 dollars a started hundred square feet passes 25 dollars at 200 ft²."""
    area = _area()
    fixed = leaf("fixed", 25, "dollar", MADE_UP)
    assert break_even(work(_by_the_hundred, "whole", area=area), fixed, area, low=1, high=1000) == pytest.approx([200])


def test_equal_ways_never_change_places():
    """Two ways that cost the same everywhere have no crossing."""
    area = _area()
    assert break_even(_method("one", area, 20, 100), _method("other", area, 20, 100), area, low=1, high=1000) == []


def test_ways_of_two_estimates_meet_by_key_and_unit():
    """The same field in another estimate moves too, in its own unit; the answer is in the unit of the figure given."""
    feet, yards = _area("rooms[1].area"), leaf("area", 44.4, "yard**2", MADE_UP, key="rooms[1].area")
    spray, roll = _method("spray", feet, 80, 400), _method("roll", yards, 20, 100)
    assert break_even(spray, roll, feet, low=1, high=2000) == pytest.approx([200], rel=1e-9)


def test_a_worked_figure_can_be_varied_too():
    """The total of two areas stands as given, whatever its parts."""
    whole = total("area", [_area(), _area()], unit="ft**2")
    (costs,) = curve([_method("roll", whole, 0, 100)], whole, [100, 200])
    assert costs.tolist() == [40, 80]


def test_a_curve_is_each_target_at_each_value():
    """Two targets on a grid of three, one of which does not move."""
    area = _area()
    moving, still = curve([_method("roll", area, 20, 100), leaf("fixed", 7, "dollar", MADE_UP)], area, [0, 100, 200])
    assert moving.tolist() == [20, 60, 100]
    assert still.tolist() == [7, 7, 7]


def test_a_figure_that_nothing_rests_on_is_refused():
    """Varying a stranger is a mistake, not a flat line."""
    area, stranger = _area(), _area()
    with pytest.raises(InputError, match="rests on"):
        curve([_method("roll", area, 20, 100)], stranger, [1, 2])


def test_low_must_be_below_high():
    """An empty span has no crossings to look for."""
    area = _area()
    with pytest.raises(InputError, match="low less than high"):
        break_even(_method("a", area, 1, 10), _method("b", area, 2, 20), area, low=5, high=5)


def _line(name, value, unit="dollar"):
    return leaf(name, value, unit, MADE_UP)


@given(st.integers(0, 12), st.floats(0.01, 0.99), st.floats(0.001, 0.9))
def test_counts_of_bad_tests_are_those_of_a_library(tests, chance, alike):
    """Independent tests are binomial and alike ones beta-binomial, as in scipy.stats."""
    # a correlation ρ within a cluster is a beta with a + b = 1 / ρ - 1
    a, b = chance * (1 / alike - 1), (1 - chance) * (1 / alike - 1)
    for bad in range(tests + 1):
        assert _chance_of_bad(bad, tests, chance, 0.0) == pytest.approx(binom.pmf(bad, tests, chance), rel=1e-9)
        assert _chance_of_bad(bad, tests, chance, alike) == pytest.approx(betabinom.pmf(bad, tests, a, b), rel=1e-6)


COSTS = {"holds_a": 300.0, "fails_a": 2300.0, "holds_b": 500.0, "fails_b": 700.0}


def test_one_test_worked_by_hand():
    """Chance 0.1, bad 0.8 / 0.2: now 500; after, 0.26 · 530.77 + 0.74 · 354.05.

    Now: a = 0.1 · 2300 + 0.9 · 300 = 500, b = 0.1 · 700 + 0.9 · 500 = 520. Bad (0.08 + 0.18 = 0.26): b is better,
    0.08 · 700 + 0.18 · 500 = 146. Clean (0.02 + 0.72): a is better, 0.02 · 2300 + 0.72 · 300 = 262. 500 - 408 = 92.
    """
    worth = value_of_tests(chance=0.1, bad_if_fails=0.8, bad_if_holds=0.2, tests=1, alike=0.0, **COSTS)
    assert worth == pytest.approx(92)


def test_certain_tests_are_worth_what_certainty_is():
    """A test that never errs saves 500 - (0.1 · 700 + 0.9 · 300) = 160; so, nearly, do very many weak ones."""
    sure = value_of_tests(chance=0.1, bad_if_fails=1.0, bad_if_holds=0.0, tests=1, alike=0.0, **COSTS)
    many = value_of_tests(chance=0.1, bad_if_fails=0.8, bad_if_holds=0.2, tests=60, alike=0.0, **COSTS)
    assert sure == pytest.approx(160)
    assert many == pytest.approx(160, abs=0.1)


@given(
    st.floats(0, 1),
    st.floats(0, 1),
    st.floats(0, 1),
    st.floats(0, 0.95),
    st.tuples(*[st.floats(0, 5000)] * 4),
)
def test_tests_never_cost_more_than_nothing_and_more_never_tell_less(chance, weak, sound, alike, costs):
    """Before they are paid for, tests are worth nothing or more, and n + 1 at least as much as n."""
    methods = dict(zip(COSTS, costs, strict=True))
    worth = [
        float(value_of_tests(chance=chance, bad_if_fails=weak, bad_if_holds=sound, tests=tests, alike=alike, **methods))
        for tests in range(6)
    ]
    assert worth[0] == pytest.approx(0, abs=1e-9)
    assert all(after >= before - 1e-8 for before, after in pairwise(worth))
    assert min(worth) >= 0


def test_tests_in_one_room_are_worth_less_than_tests_apart():
    """Five tests that repeat each other at 0.25 tell less than five independent ones."""
    apart, alike = (
        value_of_tests(chance=0.1, bad_if_fails=0.8, bad_if_holds=0.2, tests=5, alike=each, **COSTS)
        for each in (0.0, 0.25)
    )
    assert alike < apart


def test_draws_of_chances_and_costs_are_worked_at_once():
    """Arrays give what their numbers give one by one."""
    chances = np.array([0.05, 0.1, 0.4])
    together = value_of_tests(chance=chances, bad_if_fails=0.8, bad_if_holds=0.2, tests=2, alike=0.1, **COSTS)
    single = [
        value_of_tests(chance=each, bad_if_fails=0.8, bad_if_holds=0.2, tests=2, alike=0.1, **COSTS) for each in chances
    ]
    assert together == pytest.approx(single)


@pytest.mark.parametrize("tests", [-1, 1.5, np.array([1.0, 2.0])])
def test_the_number_of_tests_is_one_whole_number(tests):
    """Half a test, a negative number or several numbers are refused."""
    with pytest.raises(InputError, match="one whole number"):
        value_of_tests(chance=0.1, bad_if_fails=0.8, bad_if_holds=0.2, tests=tests, alike=0.0, **COSTS)


@given(st.floats(1.01, 50), st.floats(0.01, 0.99))
def test_likelihoods_give_back_both_ratios(bad, clean):
    """The two chances reproduce what a bad and a clean result multiply the odds by."""
    sound = bad_though_sound(ratio_bad=bad, ratio_clean=clean)
    weak = bad_when_weak(ratio_bad=bad, ratio_clean=clean)
    assert weak / sound == pytest.approx(bad)
    assert (1 - weak) / (1 - sound) == pytest.approx(clean, rel=1e-6)


@given(st.floats(0.01, 0.99), st.floats(0, 1))
def test_release_by_another_way_adds_up_to_its_chance(base, chance):
    """Weak and sound surfaces together release as often as the way does."""
    weak = fails_when_weak(base=base, chance=chance)
    sound = fails_though_sound(base=base, chance=chance)
    assert base * weak + (1 - base) * sound == pytest.approx(chance, abs=1e-12)
    assert 0 <= sound <= weak <= 1
