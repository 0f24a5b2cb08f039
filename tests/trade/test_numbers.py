import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.trade._numbers import require, round_up


def test_a_value_within_bounds_passes():
    """Nothing is raised where the condition holds throughout."""
    require(3.0 > 0, "width", 3.0, "more than 0")
    require(np.array([1.0, 2.0]) > 0, "width", np.array([1.0, 2.0]), "more than 0")


def test_the_first_bad_value_of_an_array_is_named():
    """Out of many draws the message shows the one that broke the rule."""
    widths = np.array([1.0, -2.0, -3.0])
    with pytest.raises(InputError, match=r"width: got -2\.0, needs more than 0"):
        require(widths > 0, "width", widths, "more than 0")


def test_a_scalar_compared_with_an_array_is_named():
    """A plain number that fails against one of many limits is shown as it is."""
    with pytest.raises(InputError, match=r"got 5\.0"):
        require(np.array([6.0, 4.0]) > 5.0, "small", 5.0, "less than large")


def test_not_a_number_is_refused():
    """A value that was never measured cannot slip through a comparison."""
    with pytest.raises(InputError, match="nan"):
        require(float("nan") >= 0, "height", float("nan"), "0 or more")


def test_whole_things_hold_what_is_needed():
    """2½ rolls of need are 3 rolls; none are needed for nothing."""
    assert round_up(250.0, 100.0) == 3
    assert round_up(0.0, 100.0) == 0
    assert list(round_up(np.array([99.0, 100.0, 101.0]), 100.0)) == [1, 1, 2]


def test_a_crumb_of_rounding_costs_no_roll():
    """0.1 + 0.2 needs three tenths, not four, though it is a hair more in binary."""
    assert round_up(0.1 + 0.2, 0.1) == 3


@given(st.floats(0, 1e6, allow_subnormal=False), st.floats(0.01, 1e3))
def test_never_short_and_never_one_too_many(amount, each):
    """What is counted holds the need, and one less would not."""
    count = round_up(amount, each)
    assert count * each >= amount * (1 - 1e-8)
    assert count == 0 or (count - 1) * each < amount


def test_nothing_to_divide_by_is_refused():
    """A roll without length or a need below nothing is refused."""
    with pytest.raises(InputError, match="each"):
        round_up(1.0, 0.0)
    with pytest.raises(InputError, match="amount"):
        round_up(-1.0, 1.0)
