import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

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
        (lambda: measuring.soffit_area(length=9.0, depth=1.0, drop=1.0, faces=1.0, ends=3.0), "ends"),
        (lambda: measuring.opening_deduction(opening_area=9.0, small=5.0, large=32.0, share=2.0), "share"),
        (lambda: measuring.reveal_area(width=3.0, height=4.0, depth=0.5, sills=4.0), "sills"),
        (lambda: measuring.counted_girth(girth=0.0, small=0.5, large=1.0), "girth"),
        (lambda: measuring.pipe_girth(diameter=-1.0), "diameter"),
    ],
)
def test_what_cannot_be_measured_is_refused(call, field):
    """Outside its range a rule names the field instead of answering."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


def test_an_ell_is_the_polygon_it_looks_like():
    """The rectangle less its missing corner is the area inside the six corners, and the perimeter does not change."""
    corners = [(0, 0), (20, 0), (20, 9), (14, 9), (14, 15), (0, 15)]
    area = measuring.ell_area(length=20.0, width=15.0, notch_length=6.0, notch_width=6.0)
    assert area == measuring.polygon_area(corners) == 264
    assert measuring.polygon_perimeter(corners) == measuring.rectangle_perimeter(length=20.0, width=15.0)


@given(st.lists(st.tuples(st.integers(-30, 30), st.integers(-30, 30)), min_size=5, max_size=12, unique=True))
def test_any_convex_room_agrees_with_a_convex_hull(points):
    """Area and perimeter agree with SciPy's ConvexHull (Qhull), in which a 2-D hull's volume is its area."""
    assume(np.linalg.matrix_rank(np.array(points[1:]) - np.array(points[0])) == 2)
    hull = ConvexHull(np.array(points, dtype=float))
    corners = [points[place] for place in hull.vertices]
    assert measuring.polygon_area(corners) == pytest.approx(hull.volume, rel=1e-12)
    assert measuring.polygon_perimeter(corners) == pytest.approx(hull.area, rel=1e-12)


def test_a_room_that_is_not_convex_agrees_with_counted_lattice_points():
    """Pick's theorem (G. Pick, 1899): area = points inside + half the points on the walls − 1.

    The points of this five-cornered room were listed by hand; its two back slopes pass through no other one.
    """
    corners = [(0, 0), (4, 0), (4, 4), (2, 1), (0, 4)]
    inside = [(1, 1), (1, 2), (3, 1), (3, 2)]
    walls = [
        (0, 0),
        (1, 0),
        (2, 0),
        (3, 0),
        (4, 0),
        (4, 1),
        (4, 2),
        (4, 3),
        (4, 4),
        (2, 1),
        (0, 4),
        (0, 3),
        (0, 2),
        (0, 1),
    ]
    assert measuring.polygon_area(corners) == len(inside) + len(walls) / 2 - 1


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_where_the_tape_starts_does_not_matter(east, north):
    """A room keeps its area when measured from a far corner of the house, and when walked the other way."""
    corners = [(0.0, 0.0), (20.0, 0.0), (20.0, 9.0), (14.0, 9.0), (14.0, 15.0), (0.0, 15.0)]
    moved = [(x + east, y + north) for x, y in corners]
    assert measuring.polygon_area(moved) == pytest.approx(264, rel=1e-8)
    assert measuring.polygon_area(moved[::-1]) == pytest.approx(264, rel=1e-8)


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (4, 4), (4, 0), (0, 4)],  # bow tie
        [(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)],  # a corner on the far wall
        [(0, 0), (4, 0), (2, 0), (4, 4)],  # a wall that turns back
        [(0, 0), (4, 0), (8, 0)],  # a line
        [(0, 0), (4, 0)],
        [(0, 0), (4, 0), (4, 0), (0, 4)],
        [(0, 0), (4, 0), (4, 4), (0, 0)],  # the first corner named again
    ],
)
def test_an_outline_that_is_no_room_is_refused(corners):
    """Walls that cross, touch or fold back bound no single area."""
    for rule in (measuring.polygon_area, measuring.polygon_perimeter):
        with pytest.raises(InputError) as refused:
            rule(corners)
        assert refused.value.field == "corners"


def test_a_corner_along_a_straight_wall_changes_nothing():
    """A tape that stops half-way along a wall is still right."""
    assert measuring.polygon_area([(0, 0), (2, 0), (4, 0), (4, 4), (0, 4)]) == 16


def test_a_three_four_five_slope():
    """3 up over 4 along is 5 along the slope, so a vault has 5/4 of its plan area."""
    assert measuring.sloped_area(plan_area=160.0, rise=3.0, run=4.0) == 200
    assert measuring.vault_area(length=20.0, rise=3.0, left_run=4.0, right_run=4.0) == 200
    assert measuring.gable_area(width=8.0, rise=3.0) == 12


@given(lengths, st.floats(0, 40), lengths)
def test_a_slope_is_never_less_than_its_plan(plan, rise, run):
    """Pitch only adds."""
    assert measuring.sloped_area(plan_area=plan, rise=rise, run=run) >= plan * (1 - 1e-12)


def test_a_soffit_replaces_the_ceiling_it_hides():
    """Measured through, a soffit adds its sides; measured up to it, its underside as well."""
    shape = {"length": 10.0, "depth": 1.5, "drop": 1.0, "faces": 1.0, "ends": 2.0}
    assert measuring.soffit_sides(**shape) == 10 + 2 * 1.5
    hidden = measuring.rectangle_area(length=10.0, width=1.5)
    assert measuring.soffit_area(**shape) == measuring.soffit_sides(**shape) + hidden


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


@pytest.mark.parametrize(("inches", "counts"), [(3, 6), (5.9, 6), (6, 12), (9, 12), (12, 12), (13, 13), (20, 20)])
def test_narrow_work_counts_for_its_step(inches, counts):
    """'Measuring Painters' Work' (19th-century handbook): under 6 in called 6, 6 to 12 called 12, over as it is."""
    assert measuring.counted_girth(girth=float(inches), small=6.0, large=12.0) == counts


def test_a_pipe_is_its_girth_long():
    """A 4 in pipe has π · 4 in of girth."""
    girth = measuring.pipe_girth(diameter=4 / 12)
    assert measuring.girthed_area(length=10.0, girth=girth) == pytest.approx(10 * math.pi / 3)


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
    girths = measuring.counted_girth(girth=np.array(areas), small=0.5, large=1.0)
    assert list(girths) == [measuring.counted_girth(girth=area, small=0.5, large=1.0) for area in areas]


@given(lengths, lengths, st.floats(0, 50))
def test_a_bigger_room_never_has_less(length, width, more):
    """Area and perimeter grow with a side."""
    assert measuring.rectangle_area(length=length + more, width=width) >= measuring.rectangle_area(
        length=length, width=width
    )
    assert measuring.rectangle_perimeter(length=length + more, width=width) >= measuring.rectangle_perimeter(
        length=length, width=width
    )
