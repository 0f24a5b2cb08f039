"""How many bulk samples are taken of a material."""

import numpy as np
import pytest

from estimating.errors import InputError
from estimating.trade.sampling import bulk_samples


def test_three_five_or_seven_by_the_area() -> None:
    """The steps of the school rule, 40 CFR 763.86(a), as remembered; on a limit the smaller number."""
    assert bulk_samples(area=200.0) == 3
    assert bulk_samples(area=1000.0) == 3
    assert bulk_samples(area=1001.0) == 5
    assert bulk_samples(area=5001.0) == 7
    assert bulk_samples(area=0.0) == 0


def test_arrays_come_back_as_arrays() -> None:
    """One rule for one area or for many."""
    assert np.array_equal(bulk_samples(area=np.array([0.0, 10.0, 2000.0])), [0.0, 3.0, 5.0])


def test_no_area_is_less_than_none() -> None:
    """A negative area is refused."""
    with pytest.raises(InputError):
        bulk_samples(area=-1.0)
