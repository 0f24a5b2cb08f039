import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import measuring

TAPE = Origin(Kind.MEASURED, place="tape")
lengths = st.floats(0.1, 200)


def test_a_rectangle_is_length_times_width():
    """A 12 × 10 ft room has 120 ft² of floor and 44 ft of wall."""
    assert measuring.rectangle_area(length=12.0, width=10.0) == 120
    assert measuring.rectangle_perimeter(length=12.0, width=10.0) == 44


def test_inches_and_meters_come_in_through_figures():
    """A side in another unit of length is converted at the door, one of another kind is refused."""
    length = leaf("length", 144, "inch", TAPE)
    assert work(measuring.rectangle_area, "floor", length=length, width=leaf("width", 10, "ft", TAPE)).value == (
        pytest.approx(120)
    )
    with pytest.raises(InputError, match="unit"):
        work(measuring.rectangle_area, "floor", length=length, width=leaf("width", 10, "gallon", TAPE))


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: measuring.rectangle_area(length=-1.0, width=1.0), "length"),
        (lambda: measuring.rectangle_perimeter(length=1.0, width=-1.0), "width"),
        (lambda: measuring.ell_area(length=5.0, width=5.0, notch_length=6.0, notch_width=1.0), "notch_length"),
        (lambda: measuring.sloped_area(plan_area=9.0, rise=1.0, run=0.0), "run"),
        (lambda: measuring.developed_area(flat_area=9.0, area_factor=0.0), "area_factor"),
        (lambda: measuring.net_area(gross_area=9.0, deductions=10.0), "deductions"),
        (lambda: measuring.counted_area(width=3.0, height=7.0, sides=3.0, coefficient=1.3), "sides"),
        (lambda: measuring.opening_deduction(opening_area=9.0, small=5.0, large=32.0, share=2.0), "share"),
        (lambda: measuring.reveal_area(width=3.0, height=4.0, depth=0.5, sills=4.0), "sills"),
    ],
)
def test_what_cannot_be_measured_is_refused(call, field):
    """Outside its range a rule names the field instead of answering."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


def test_a_three_four_five_slope():
    """3 up over 4 along is 5 along the slope, so a vault has 5/4 of its plan area."""
    assert measuring.sloped_area(plan_area=160.0, rise=3.0, run=4.0) == 200
    assert measuring.gable_area(width=8.0, rise=3.0) == 12


@given(lengths, st.floats(0, 40), lengths)
def test_a_slope_is_never_less_than_its_plan(plan, rise, run):
    """Pitch only adds."""
    assert measuring.sloped_area(plan_area=plan, rise=rise, run=run) >= plan * (1 - 1e-12)


def test_a_soffit_adds_its_sides():
    """Measured through, a soffit adds what hangs below the ceiling."""
    shape = {"length": 10.0, "depth": 1.5, "drop": 1.0, "faces": 1.0, "ends": 2.0}
    assert measuring.soffit_sides(**shape) == 10 + 2 * 1.5


@pytest.mark.parametrize(
    ("square_meters", "share", "taken"),
    [
        # IS 1200 (Part 13):1994, cl. 3.2.1: openings not exceeding 0.5 m² each, no deduction; exceeding 0.5 but not
        # exceeding 3 m², from one face only, or half from each where reveals are alike; cl. 3.2.2: above 3 m², full.
        (0.4, 1.0, 0.0),
        (0.5, 1.0, 0.0),
        (0.51, 1.0, 0.51),
        (2.0, 1.0, 2.0),
        (2.0, 0.5, 1.0),
        (2.0, 0.0, 0.0),
        (3.0, 0.5, 1.5),
        (3.1, 0.0, 3.1),
        (3.1, 0.5, 3.1),
    ],
)
def test_openings_are_deducted_as_the_standard_says(square_meters, share, taken):
    """IS 1200 (Part 13):1994, Bureau of Indian Standards, cl. 3.2, read in two independent copies of its text."""
    deducted = measuring.opening_deduction(
        opening_area=square_meters, small=0.5, large=3.0, share=share
    )  # any one unit of area will do, as nothing but areas goes in
    assert deducted == pytest.approx(taken)


def test_the_thresholds_of_the_standard_in_square_feet():
    """0.5 m² and 3 m² are 5.4 and 32.3 ft², converted at the door."""
    figure = work(
        measuring.opening_deduction,
        "window",
        opening_area=leaf("window", 5.4, "ft**2", TAPE),
        small=leaf("small", 0.5, "m**2", TAPE),
        large=leaf("large", 3.0, "m**2", TAPE),
        share=leaf("share", 1.0, "dimensionless", TAPE),
    )
    assert figure.value == pytest.approx(5.4)
    assert figure.origin.source.startswith("is-1200-13")


@given(st.floats(0, 100), st.floats(0, 1))
def test_no_more_is_taken_off_than_the_opening(area, share):
    """A deduction lies between nothing and the opening itself."""
    assert 0 <= measuring.opening_deduction(opening_area=area, small=5.4, large=32.3, share=share) <= area


def test_two_windows_in_full():
    """Two 3 × 4 ft windows take 24 ft² off a wall of 44 ft round and 8 ft high."""
    windows = measuring.full_deduction(width=3.0, height=4.0, count=2.0)
    walls = measuring.wall_area(perimeter=44.0, height=8.0)
    assert measuring.net_area(gross_area=walls, deductions=windows) == 352 - 24


def test_reveals_go_round_the_opening():
    """A window of 3 × 4 ft set 6 in deep has 2 × 3 + 2 × 4 = 14 ft of reveal, a door 3 + 2 × 7 = 17 ft."""
    assert measuring.reveal_area(width=3.0, height=4.0, depth=0.5, sills=2.0) == 7
    assert measuring.reveal_area(width=3.0, height=7.0, depth=0.5, sills=1.0) == 8.5


@pytest.mark.parametrize(
    ("coefficient", "expected"),
    [(1.30, 54.6), (1.20, 50.4), (0.80, 33.6), (1.80, 75.6)],
)
def test_doors_count_by_coefficient(coefficient, expected):
    """Two published tables of painting coefficients: panelled 1.30, flush 1.20, glazed 0.80, louvered 1.80, each side.

    "Painting Coefficients" and "Coefficient for painting measurement" (2018), public-works practice in India.

    21 ft² a side for a 3 × 7 ft door, both sides, worked by hand: 42 × coefficient.
    """
    area = measuring.counted_area(width=3.0, height=7.0, sides=2.0, coefficient=coefficient)
    assert area == pytest.approx(expected)


@given(st.lists(st.floats(0.1, 60), min_size=2, max_size=5))
def test_arrays_answer_as_scalars_do(areas):
    """A thousand draws at once give what each would give alone."""
    many = measuring.opening_deduction(opening_area=np.array(areas), small=5.4, large=32.3, share=0.5)
    assert list(many) == [
        measuring.opening_deduction(opening_area=area, small=5.4, large=32.3, share=0.5) for area in areas
    ]
    slopes = measuring.sloped_area(plan_area=np.array(areas), rise=3.0, run=4.0)
    assert list(slopes) == [measuring.sloped_area(plan_area=area, rise=3.0, run=4.0) for area in areas]


@given(lengths, lengths, st.floats(0, 50))
def test_a_bigger_room_never_has_less(length, width, more):
    """Area and perimeter grow with a side."""
    assert measuring.rectangle_area(length=length + more, width=width) >= measuring.rectangle_area(
        length=length, width=width
    )
    assert measuring.rectangle_perimeter(length=length + more, width=width) >= measuring.rectangle_perimeter(
        length=length, width=width
    )
