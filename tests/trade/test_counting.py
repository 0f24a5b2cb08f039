import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.trade.counting import round_up


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
