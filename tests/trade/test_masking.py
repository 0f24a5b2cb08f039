import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import masking

ENTERED = Origin(Kind.ENTERED)
INCH = 1 / 12
flags = st.floats(0, 1)


def test_a_room_masked_by_hand():
    """A 12 × 10 ft room, 8 ft high, worked by hand.

    Paper 9 in, overlap 2 in, tail 6 in: 96 − 9 + 2 + 6 = 95 in of drop, which a 99 in film reaches.
    44 ft round in runs of 12 ft less 2 in: 3.72, so 4 strips; 44 ft + 4 × 2 in = 44⅔ ft of film.
    """
    drop = masking.drape_drop(height=8.0, paper_width=9 * INCH, overlap=2 * INCH, tail=6 * INCH)
    assert drop == pytest.approx(95 * INCH)
    assert masking.film_tiers(drop=drop, film_width=99 * INCH, overlap=2 * INCH) == 1
    strips = masking.film_strips(perimeter=44.0, run=12.0, overlap=2 * INCH)
    assert strips == 4
    assert masking.film_length(perimeter=44.0, strips=strips, overlap=2 * INCH, tiers=1.0) == pytest.approx(44 + 2 / 3)
    assert masking.film_seams(strips=strips, drop=drop, tiers=1.0, perimeter=44.0) == pytest.approx(4 * 95 * INCH)


def test_a_tall_wall_is_short_of_film():
    """On a 10 ft wall the same film misses the floor, and a second tier is hung."""
    drop = masking.drape_drop(height=10.0, paper_width=0.75, overlap=0.25, tail=0.5)
    assert drop == 10
    assert masking.film_tiers(drop=drop, film_width=99 * INCH, overlap=0.25) == 2
    assert masking.film_seams(strips=4.0, drop=drop, tiers=2.0, perimeter=44.0) == 40 + 44


def test_corners_and_cuts_waste_tape():
    """A twentieth more than the edge."""
    assert masking.tape_length(edge=60.0, waste=0.05) == pytest.approx(63)


def test_openings_and_fixtures_are_sealed_all_round():
    """Two doors 3 × 7 ft with 6 in to spare."""
    assert masking.opening_film_area(width=3.0, height=7.0, margin=0.5, count=2.0) == 64
    assert masking.opening_edges(width=3.0, height=7.0, count=2.0) == 40


def _laid(across, width, overlap):
    """Lay strips one at a time until the far side is reached, as the crew would."""
    strips, reached = 0, 0.0
    while reached < across * (1 - 1e-9):
        reached = width if strips == 0 else reached + width - overlap
        strips += 1
    return strips


@given(st.floats(0, 60), st.floats(0.5, 12), st.floats(0, 0.4))
def test_runs_agree_with_laying_them_out(across, width, overlap):
    """The closed form counts what laying strip after strip counts, give or take the last hair's breadth."""
    counted = masking.film_tiers(drop=across, film_width=width, overlap=overlap)
    for nudged in (across * (1 - 1e-6), across * (1 + 1e-6)):
        if _laid(nudged, width, overlap) == counted:
            return
    pytest.fail(f"{counted} runs, laid {_laid(across, width, overlap)}")


@given(st.just(0.0) | st.floats(0.001, 500), st.floats(1, 200), st.floats(0, 0.5))
def test_strips_go_all_the_way_round(perimeter, run, overlap):
    """Strips less their overlaps close the ring: of nothing, or of any length that a tape can tell from nothing.

    A thousandth of a foot is a third of a millimeter. Lengths near the smallest number a computer holds divide to 0.
    """
    strips = masking.film_strips(perimeter=perimeter, run=run, overlap=overlap)
    assert strips * (run - overlap) >= perimeter * (1 - 1e-8)


def test_an_odd_floor_takes_its_area_in_paper():
    """34 in of every 36 in paper count; 170 ft² take 60 ft."""
    assert masking.floor_paper_by_area(floor_area=170.0, stock_width=3.0, overlap=2 * INCH) == pytest.approx(60)


@pytest.mark.parametrize(
    ("sprayed", "walls_next", "drape", "edge", "openings"),
    [
        (1.0, 0.0, 1.0, 1.0, 1.0),  # spray, walls stay
        (1.0, 1.0, 0.0, 0.0, 1.0),  # spray, walls painted next
        (0.0, 0.0, 0.0, 1.0, 0.0),  # roll, walls stay
        (0.0, 1.0, 0.0, 0.0, 0.0),  # roll, walls painted next
    ],
)
def test_what_each_way_of_working_needs(sprayed, walls_next, drape, edge, openings):
    """Film on walls only against mist; tape on the edge only where the wall is kept; glass covered only from mist."""
    assert masking.drape_share(sprayed=sprayed, walls_next=walls_next) == drape
    assert masking.edge_share(walls_next=walls_next) == edge
    assert masking.opening_share(sprayed=sprayed) == openings


def test_a_part_keeps_the_unit_of_its_quantity():
    """A share of a length is a length, and of hours hours."""
    half = leaf("share", 0.5, "dimensionless", ENTERED)
    for unit in ("ft", "hour", "ft**2"):
        figure = work(masking.part_needed, "part", quantity=leaf("whole", 60, unit, ENTERED), share=half)
        assert (figure.value, figure.unit) == (30, unit)


@given(st.floats(0, 1e4), flags, flags)
def test_a_part_is_no_more_than_the_whole(quantity, sprayed, walls_next):
    """Whatever the way of working, no more is masked than there is."""
    share = masking.drape_share(sprayed=sprayed, walls_next=walls_next)
    assert 0 <= masking.part_needed(quantity=quantity, share=share) <= quantity


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: masking.drape_drop(height=8.0, paper_width=9.0, overlap=0.1, tail=0.5), "paper_width"),
        (lambda: masking.drape_drop(height=8.0, paper_width=0.5, overlap=0.6, tail=0.5), "overlap"),
        (lambda: masking.film_strips(perimeter=40.0, run=0.2, overlap=0.2), "run"),
        (lambda: masking.film_tiers(drop=10.0, film_width=0.1, overlap=0.2), "film_width"),
        (lambda: masking.tape_length(edge=10.0, waste=-0.1), "waste"),
        (lambda: masking.drape_share(sprayed=2.0, walls_next=0.0), "sprayed"),
        (lambda: masking.film_seams(strips=4.0, drop=8.0, tiers=0.0, perimeter=40.0), "tiers"),
        (lambda: masking.opening_film_area(width=3.0, height=7.0, margin=-0.5, count=2.0), "margin"),
    ],
)
def test_what_cannot_be_hung_is_refused(call, field):
    """Stock narrower than its overlap, or paper wider than the wall, is named."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


def test_stock_in_inches_comes_in_through_figures():
    """Widths are sold in inches; a width in gallons is refused."""
    runs = work(
        masking.film_tiers,
        "tiers",
        drop=leaf("width", 10, "ft", ENTERED),
        film_width=leaf("film", 36, "inch", ENTERED),
        overlap=leaf("overlap", 2, "inch", ENTERED),
    )
    assert runs.value == 4
    with pytest.raises(InputError, match="unit"):
        work(
            masking.film_area,
            "drape",
            perimeter=leaf("perimeter", 44, "ft", ENTERED),
            drop=leaf("drop", 8, "gallon", ENTERED),
        )


@given(st.lists(st.floats(0, 60), min_size=1, max_size=5))
def test_arrays_answer_as_scalars_do(widths):
    """A thousand draws at once give what each would give alone."""
    many = masking.film_tiers(drop=np.array(widths), film_width=3.0, overlap=0.2)
    assert list(many) == [masking.film_tiers(drop=width, film_width=3.0, overlap=0.2) for width in widths]


@given(st.floats(1, 100), st.floats(0, 100))
def test_a_bigger_room_never_takes_less(perimeter, more):
    """Film grows with the room."""
    lengths = [
        masking.film_length(
            perimeter=size, strips=masking.film_strips(perimeter=size, run=12.0, overlap=0.2), overlap=0.2, tiers=1.0
        )
        for size in (perimeter, perimeter + more)
    ]
    assert lengths[1] >= lengths[0]
    assert masking.film_area(perimeter=perimeter + more, drop=8.0) >= masking.film_area(perimeter=perimeter, drop=8.0)
