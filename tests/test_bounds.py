import math

import numpy as np
import pytest

from estimating.bounds import read_bound
from estimating.errors import EvidenceError, InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.units import Number


@pytest.mark.parametrize(
    ("words", "unit", "within", "without", "needed"),
    [
        ("0 or more", "ft", [0.0, 9.0], [-1e-12, math.nan], "0 ft or more"),
        ("more than 0", "psi", [5e-324, 3000.0], [0.0, -1.0], "more than 0 psi"),
        ("0 to 1", "dimensionless", [0.0, 1.0], [-0.1, 1.0000001], "0 to 1"),
        ("more than 0, at most 100", "percent", [0.1, 100.0], [0.0, 100.1], "more than 0, at most 100 percent"),
        ("0 or more, less than 100", "percent", [0.0, 99.9], [100.0], "0 or more, less than 100 percent"),
        ("−40 to 60 (−40 to 140 °F)", "degC", [-40.0, 60.0], [-41.0, 61.0], "−40 to 60 °C (−40 to 140 °F)"),
        ("1 pass or more", "dimensionless", [1.0], [0.9], "1 pass or more"),
        ("more than 0 people", "dimensionless", [1.0], [0.0], "more than 0 people"),
        ("0 or more, as a share of cost", "dimensionless", [0.0], [-0.1], "0 or more, as a share of cost"),
        ("a chance from 0 to 1", "dimensionless", [0.5], [1.5], "a chance from 0 to 1"),
        ("0 to 1, or not drawn", "dimensionless", [0.5, math.nan], [1.5], "0 to 1, or not drawn"),
    ],
)  # fmt: skip
def test_words_set_a_bound_and_say_it_with_the_unit(words, unit, within, without, needed):
    """What is read from the words is checked for one number and for many, and said as the words say it."""
    bound = read_bound(words, unit)
    assert bound.needed == needed
    assert all(bound.holds(each) for each in within)
    assert bound.holds(np.array(within))
    for each in without:
        assert not bound.holds(each)
        assert not bound.holds(np.array([*within, each]))


@pytest.mark.parametrize("words", ["", "any", "about 3", "or more"])
def test_words_that_set_no_bound_are_refused(words):
    """A slip in a card would otherwise let everything through."""
    with pytest.raises(EvidenceError, match="sets no bound"):
        read_bound(words, "ft")


@rule("A = l · w", "ft**2", definition("geometry"), rest="ft, more than 0", length="ft, 0 or more")
def area(*, length: Number, **widths: Number) -> Number:
    """Return an area of several widths."""
    return length * sum(widths.values())


def test_a_rule_refuses_before_it_runs():
    """The argument is named with the first number that breaks its bound and what is needed; further ones too."""
    assert area(length=2.0, a=3.0, b=1.0) == 8
    with pytest.raises(InputError, match=r"length: got -2\.0, needs 0 ft or more"):
        area(length=np.array([1.0, -2.0, -3.0]), a=1.0)
    with pytest.raises(InputError, match=r"b: got 0\.0, needs more than 0 ft"):
        area(length=1.0, a=1.0, b=0.0)


def test_an_empty_array_breaks_no_bound():
    """Nothing was drawn, so nothing is out of bounds."""
    assert read_bound("0 to 1", "dimensionless").holds(np.array([]))
