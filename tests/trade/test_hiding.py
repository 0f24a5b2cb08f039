import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.evidence import load_library
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import hiding

MADE_UP = Origin(Kind.INVENTED)
coats = st.integers(0, 6).map(float)
chances = st.floats(0, 1)


def test_a_barrier_left_out_is_made_up_in_finish():
    """Two coats over one barrier that saves one are three without it; deep colors: three over one are four."""
    assert hiding.coats_without_barrier(coats=2.0, barrier=1.0, saved=1.0) == 3
    assert hiding.coats_without_barrier(coats=3.0, barrier=1.0, saved=1.0) == 4
    assert hiding.coats_without_barrier(coats=2.0, barrier=0.0, saved=1.0) == 2


def test_deep_colors_without_a_barrier_take_what_was_printed_for_them():
    """The source gives 4 to 5 coats without a tinted base (colour-coats-note): likely and high of ours are those."""
    deep, saved = (
        load_library().row("hiding", "deep_base", "coats"),
        load_library().row("hiding", "any", "saved").likely,
    )
    without = [hiding.coats_without_barrier(coats=each, barrier=1.0, saved=saved) for each in (deep.likely, deep.high)]
    assert without == [4, 5]


@pytest.mark.parametrize(
    ("planned", "chance"),
    [(1.0, 1.0), (2.0, 0.7), (3.0, 0.3), (4.0, 0.0)],
)
def test_coats_beyond_the_plan_have_the_chance_of_the_range_above_it(planned, chance):
    """Of 2, 3 or 4 coats, weighted 0.3, 0.4 and 0.3, one is too few for all, two for 0.4 + 0.3, three for 0.3."""
    asked = {"low": 2.0, "likely": 3.0, "high": 4.0, "tail": 0.3}
    assert hiding.chance_of_more_coats(planned=planned, **asked) == pytest.approx(chance)


@given(coats, coats, coats, coats, st.floats(0, 0.5))
def test_more_coats_planned_never_leave_a_higher_chance(planned, one, two, three, tail):
    """The chance is one, falls with every coat planned, and none is left at the high end."""
    low, likely, high = sorted((one, two, three))
    chance = [
        float(hiding.chance_of_more_coats(planned=planned + more, low=low, likely=likely, high=high, tail=tail))
        for more in range(8)
    ]
    assert all(0 <= each <= 1 for each in chance)
    assert chance == sorted(chance, reverse=True)
    assert chance[7] == 0


@given(chances, chances)
def test_either_is_no_less_likely_than_each_and_no_more_than_both_added(one, other):
    """Two independent events: at least the likelier, at most the sum, and the same whichever is named first."""
    either = hiding.either_chance(one=one, other=other)
    assert max(one, other) - 1e-12 <= either <= min(1.0, one + other) + 1e-12
    assert either == pytest.approx(hiding.either_chance(one=other, other=one))


def test_a_fifth_and_a_twentieth_are_about_a_quarter():
    """1 − 0.8 · 0.95 = 0.24."""
    assert hiding.either_chance(one=0.2, other=0.05) == pytest.approx(0.24)


def test_draws_are_answered_as_single_numbers_are():
    """An array of planned coats gives the chance of each."""
    planned = np.array([1.0, 2.0, 3.0])
    asked = {"low": 1.0, "likely": 2.0, "high": 3.0, "tail": 0.3}
    assert list(hiding.chance_of_more_coats(planned=planned, **asked)) == pytest.approx([0.7, 0.3, 0.0])


def test_chances_in_percent_come_in_through_figures():
    """Twenty percent is a fifth."""
    one = leaf("shows", 20, "percent", MADE_UP)
    other = leaf("flashes", 0.05, "dimensionless", MADE_UP)
    assert work(hiding.either_chance, "another coat", one=one, other=other).value == pytest.approx(0.24)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: hiding.coats_without_barrier(coats=-1.0, barrier=1.0, saved=1.0), "coats"),
        (lambda: hiding.coats_without_barrier(coats=1.0, barrier=-1.0, saved=1.0), "barrier"),
        (lambda: hiding.coats_without_barrier(coats=1.0, barrier=1.0, saved=-1.0), "saved"),
        (lambda: hiding.chance_of_more_coats(planned=1.0, low=3.0, likely=2.0, high=4.0, tail=0.3), "likely"),
        (lambda: hiding.chance_of_more_coats(planned=1.0, low=1.0, likely=2.0, high=4.0, tail=0.6), "tail"),
        (lambda: hiding.either_chance(one=1.2, other=0.0), "one"),
        (lambda: hiding.either_chance(one=0.2, other=-0.1), "other"),
    ],
)
def test_what_cannot_be_is_refused(call, field):
    """Negative coats, a range out of order, a chance above one: the field is named."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field
