import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from estimating.errors import InputError
from estimating.trade import measuring, outline


def _named(corners):
    return {
        f"{axis}{place}": float(each)
        for place, corner in enumerate(corners, 1)
        for axis, each in zip("xy", corner, strict=True)
    }


def area_inside(corners):
    """Return the area inside corners given as pairs, having checked that they bound a room."""
    outline.bounds_a_room(corners)
    return outline.outline_area(**_named(corners))


def way_round(corners):
    """Return the way round corners given as pairs."""
    return outline.outline_perimeter(**_named(corners))


def test_an_ell_is_the_polygon_it_looks_like():
    """The rectangle less its missing corner is the area inside the six corners, and the perimeter does not change."""
    corners = [(0, 0), (20, 0), (20, 9), (14, 9), (14, 15), (0, 15)]
    area = measuring.ell_area(length=20.0, width=15.0, notch_length=6.0, notch_width=6.0)
    assert area == area_inside(corners) == 264
    assert way_round(corners) == measuring.rectangle_perimeter(length=20.0, width=15.0)


@given(st.lists(st.tuples(st.integers(-30, 30), st.integers(-30, 30)), min_size=5, max_size=12, unique=True))
def test_any_convex_room_agrees_with_a_convex_hull(points):
    """Area and perimeter agree with SciPy's ConvexHull (Qhull), in which a 2-D hull's volume is its area."""
    assume(np.linalg.matrix_rank(np.array(points[1:]) - np.array(points[0])) == 2)
    hull = ConvexHull(np.array(points, dtype=float))
    corners = [points[place] for place in hull.vertices]
    assert area_inside(corners) == pytest.approx(hull.volume, rel=1e-12)
    assert way_round(corners) == pytest.approx(hull.area, rel=1e-12)


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
    assert area_inside(corners) == len(inside) + len(walls) / 2 - 1


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_where_the_tape_starts_does_not_matter(east, north):
    """A room keeps its area when measured from a far corner of the house, and when walked the other way."""
    corners = [(0.0, 0.0), (20.0, 0.0), (20.0, 9.0), (14.0, 9.0), (14.0, 15.0), (0.0, 15.0)]
    moved = [(x + east, y + north) for x, y in corners]
    assert area_inside(moved) == pytest.approx(264, rel=1e-8)
    assert area_inside(moved[::-1]) == pytest.approx(264, rel=1e-8)


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
    with pytest.raises(InputError) as refused:
        outline.bounds_a_room(corners)
    assert refused.value.field == "corners"


def test_a_corner_along_a_straight_wall_changes_nothing():
    """A tape that stops half-way along a wall is still right."""
    assert area_inside([(0, 0), (2, 0), (4, 0), (4, 4), (0, 4)]) == 16
