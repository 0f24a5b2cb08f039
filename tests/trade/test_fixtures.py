import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import fixtures

ENTERED = Origin(Kind.ENTERED)


def test_the_face_of_a_trim():
    """A trim of 7½ in outside and 5 in inside has π / 4 · (56.25 − 25) = 24.54 in², worked by hand."""
    area = fixtures.ring_area(outer=7.5 / 12, inner=5 / 12)
    assert area * 144 == pytest.approx(24.54, abs=0.005)


def test_an_opening_leaves_a_rim():
    """An inside drawn beyond the outside is taken as the widest opening there can be; any other stays."""
    assert fixtures.opening_within(inner=5.0, outer=7.5) == 5.0
    assert fixtures.opening_within(inner=9.0, outer=7.5) == pytest.approx(7.35)
    many = fixtures.opening_within(inner=np.array([5.0, 9.0]), outer=7.5)
    assert (fixtures.ring_area(outer=7.5, inner=many) > 0).all()


def test_six_trims_take_a_cupful():
    """Six such trims, 4 passes of 1.5 thou wet, half of it lost: 2 × 6 × 24.54 in² × 0.006 in = 1.767 in³ of paint.

    A gallon is 231 in³ (NIST Handbook 44, appendix C), so that is 0.00765 gallons.
    """
    origin = {"origin": ENTERED}
    paint = work(
        fixtures.trim_paint,
        "paint",
        fixtures=leaf("trims", 6, "count", **origin),
        outer=leaf("outside", 7.5, "inch", **origin),
        inner=leaf("inside", 5, "inch", **origin),
        passes=leaf("passes", 4, "dimensionless", **origin),
        wet_film=leaf("wet film", 1.5, "thou", **origin),
        loss=leaf("loss", 50, "percent", **origin),
    )
    assert paint.unit == "gallon"
    assert paint.value == pytest.approx(2 * 6 * 24.544 * 0.006 / 231, rel=1e-3)


def test_labor_and_flash_are_two_clocks():
    """Six trims at 3 passes of 2 minutes are 36 minutes of labor; flashes of 20 minutes add 40 of waiting."""
    assert fixtures.spot_coat_hours(fixtures=6.0, passes=3.0, minutes=2.0) == pytest.approx(0.6)
    assert fixtures.flash_wait(passes=3.0, flash=1 / 3) == pytest.approx(2 / 3)
    assert fixtures.flash_wait(passes=1.0, flash=1 / 3) == 0


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: fixtures.ring_area(outer=0.4, inner=0.5), "outer"),
        (lambda: fixtures.ring_area(outer=0.4, inner=-0.5), "inner"),
        (lambda: fixtures.flash_wait(passes=0.0, flash=0.5), "passes"),
        (lambda: fixtures.flash_wait(passes=2.0, flash=-0.5), "flash"),
        (lambda: fixtures.spot_coat_hours(fixtures=-1.0, passes=2.0, minutes=1.0), "fixtures"),
        (
            lambda: fixtures.trim_paint(fixtures=1.0, outer=0.6, inner=0.4, passes=1.0, wet_film=1.0, loss=1.0),
            "loss",
        ),
    ],
)
def test_what_cannot_be_coated_is_refused(call, field):
    """A trim inside out, no pass at all, or paint that never arrives is named."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


def test_a_film_in_gallons_is_refused():
    """A diameter in gallons has no meaning."""
    with pytest.raises(InputError, match="unit"):
        work(
            fixtures.ring_area,
            "ring",
            outer=leaf("outside", 7.5, "gallon", ENTERED),
            inner=leaf("inside", 5, "inch", ENTERED),
        )


@given(st.lists(st.floats(0, 50), min_size=1, max_size=5), st.integers(1, 6))
def test_arrays_answer_as_scalars_do_and_more_takes_more(counts, passes):
    """Draws at once give what each gives alone, and a further pass never takes less."""
    at = {"outer": 0.6, "inner": 0.4, "wet_film": 1.5, "loss": 0.5}
    many = fixtures.trim_paint(fixtures=np.array(counts), passes=float(passes), **at)
    assert list(many) == [fixtures.trim_paint(fixtures=count, passes=float(passes), **at) for count in counts]
    assert np.all(fixtures.trim_paint(fixtures=np.array(counts), passes=passes + 1.0, **at) >= many)
