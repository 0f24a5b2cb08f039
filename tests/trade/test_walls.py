import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import labor as labor
from estimating.trade import walls

MADE_UP = Origin(Kind.INVENTED)
BANDS = {"first": 9.0, "second": 12.0, "third": 16.0}
FACTORS = {"factor_first": 1.25, "factor_second": 1.65, "factor_third": 2.7}
lengths = st.floats(0.1, 200)
factors = st.floats(0.5, 5)


def test_each_band_of_a_high_wall_goes_at_its_own_pace():
    """18 ft: 9 at 1, 3 at 1.25, 4 at 1.65, 2 at 2.7 are 24.75 over 18, that is 1.375; the top alone would say 2.7."""
    assert walls.banded_factor(height=18.0, **BANDS, **FACTORS) == pytest.approx((9 + 3.75 + 6.6 + 5.4) / 18)
    assert walls.banded_factor(height=18.0, **BANDS, **FACTORS) == pytest.approx(1.375)


def test_a_wall_that_a_step_reaches_is_not_slowed():
    """Up to the first limit the factor is 1."""
    assert walls.banded_factor(height=8.0, **BANDS, **FACTORS) == 1
    assert walls.banded_factor(height=9.0, **BANDS, **FACTORS) == 1


def test_one_band_is_the_part_factor():
    """12 ft: a quarter of the wall at 1.25, as labor says of any part."""
    by_part = labor.part_factor(share=3 / 12, factor=1.25)
    assert walls.banded_factor(height=12.0, **BANDS, **FACTORS) == pytest.approx(by_part)


@given(st.floats(1, 40), st.floats(0, 10))
def test_a_higher_wall_is_never_faster_by_the_foot(height, more):
    """Rising factors give a rising factor."""
    low = walls.banded_factor(height=height, **BANDS, **FACTORS)
    high = walls.banded_factor(height=height + more, **BANDS, **FACTORS)
    assert 1 <= low <= high + 1e-12
    assert high <= 2.7


@given(st.lists(factors, max_size=5))
def test_conditions_on_the_same_hours_multiply(found):
    """In any order, and none is 1."""
    named = {f"factor_{number}": each for number, each in enumerate(found)}
    assert walls.together(**named) == pytest.approx(np.prod(found))


def test_the_line_round_a_door_has_no_sill():
    """Two doors of 30 by 80 in: 2 · (2.5 + 2 · 6.667) = 31 ft 8 in."""
    assert walls.door_edges(width=2.5, height=80 / 12, count=2.0) == pytest.approx(31 + 8 / 12)


def test_base_stops_at_the_doors():
    """44 ft round, two doors of 2 ft 6 in: 39 ft; more door than wall leaves none."""
    assert walls.run_between(whole=44.0, openings=5.0) == 39
    assert walls.run_between(whole=4.0, openings=5.0) == 0


def test_a_share_and_the_rest_are_the_whole():
    """11 ft of 44 are a quarter, and three quarters of the line are left."""
    share = walls.share_of_whole(part=11.0, whole=44.0)
    assert share == 0.25
    assert walls.rest_of_length(quantity=80.0, share=share) == 60


def test_spots_larger_than_the_wall_are_all_of_it():
    """The formula says so: at most all of it."""
    assert walls.share_of_whole(part=500.0, whole=400.0) == 1


def test_several_keep_the_unit_of_one():
    """Three faces of 21 ft² are 63 ft²; two widths of 30 in are 60 in."""
    three = leaf("three", 3, "dimensionless", MADE_UP)
    area = work(walls.several, "doors", each=leaf("one", 21, "ft**2", MADE_UP), count=three)
    assert (area.value, area.unit) == (63, "ft**2")
    width = work(walls.several, "gap", each=leaf("one", 30, "inch", MADE_UP), count=leaf("2", 2, "count", MADE_UP))
    assert (width.value, width.unit) == (60, "inch")


def test_film_is_unrolled_by_its_width():
    """66 ft² from a roll of 99 in (8 ft 3 in) are 8 ft."""
    width = leaf("film", 99, "inch", MADE_UP)
    assert work(walls.length_of_sheet, "film", area=leaf("over", 66, "ft**2", MADE_UP), width=width).value == (
        pytest.approx(8)
    )


@given(lengths, lengths)
def test_arrays_answer_as_scalars_do(one, other):
    """Draws at once give what each would give alone."""
    draws = one * np.array([0.5, 1.0, 2.0])
    for rule in (
        lambda draw: walls.share_of_whole(part=draw, whole=other),
        lambda draw: walls.run_between(whole=draw, openings=other),
        lambda draw: walls.banded_factor(height=draw, **BANDS, **FACTORS),
    ):
        assert list(rule(draws)) == pytest.approx([rule(draw) for draw in draws])


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: walls.banded_factor(height=0.0, **BANDS, **FACTORS), "height"),
        (lambda: walls.banded_factor(height=9.0, first=12.0, second=9.0, third=16.0, **FACTORS), "second"),
        (lambda: walls.together(crew=0.0), "crew"),
        (lambda: walls.share_of_whole(part=1.0, whole=0.0), "whole"),
        (lambda: walls.share_of_whole(part=-1.0, whole=4.0), "part"),
        (lambda: walls.rest_of_length(quantity=4.0, share=1.5), "share"),
        (lambda: walls.door_edges(width=-1.0, height=7.0, count=1.0), "width"),
        (lambda: walls.run_between(whole=-1.0, openings=1.0), "whole"),
        (lambda: walls.several(each=-1.0, count=1.0), "each"),
        (lambda: walls.length_of_sheet(area=1.0, width=0.0), "width"),
    ],
)
def test_what_cannot_be_measured_is_refused(call, field):
    """Outside its range a rule names the field instead of answering."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field
