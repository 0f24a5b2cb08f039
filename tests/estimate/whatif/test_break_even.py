"""What if: crossings against a library's root finder, and differences by name."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from estimating.errors import InputError
from estimating.estimate.whatif.break_even import break_even, curve
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
