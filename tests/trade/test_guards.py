import numpy as np
import pytest

from estimating.errors import InputError
from estimating.trade.guards import require


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
