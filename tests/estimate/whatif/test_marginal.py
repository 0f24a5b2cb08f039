from decimal import Decimal

import pytest
from made_up import round_basis, small_job, task

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Plan
from estimating.estimate.whatif.marginal import marginal

COVER = task("cover", 1.0, share_key="floor cover, hall")
CEILING = Plan("ceiling", "roll", "Roll", tasks=(COVER, task("roll", 4.0)))
WALLS = Plan("walls", "roll", "Roll", tasks=(COVER, task("walls", 3.0)))


def test_a_second_piece_pays_neither_the_van_nor_the_cover_again():
    """By hand, at 30 dollars an hour, 10 of overhead and 25 % markup, eight hours a day.

    Both: load 1, cover 1, roll 4, walls 3, walk 0.5 are 9.5 h, so two days and 1 h of opening them: 10.5 h, 525.00.
    The ceiling alone: 6.5 h in one day and half an hour: 7 h, 350.00. The walls add 3.5 h, a day and 175.00.
    """
    walls = marginal([CEILING, WALLS], 1, small_job(), round_basis())
    assert (walls.whole.price, walls.rest.price, walls.price) == (
        Decimal("525.00"),
        Decimal("350.00"),
        Decimal("175.00"),
    )
    assert walls.hours.value == pytest.approx(3.5)
    assert walls.days == 1
    assert walls.amount.value == pytest.approx(175)
    assert walls.scope == "walls"


def test_the_only_piece_of_a_job_is_all_of_it():
    """Without it there is no job, and no price."""
    alone = marginal([CEILING], 0, small_job(), round_basis())
    assert alone.price == alone.whole.price == Decimal("350.00")
    assert (alone.days, alone.rest.price) == (1, 0)


def test_what_is_shared_varies_as_one():
    """The figure of what a piece adds rests on the same wage as the job, so that draws of it move both."""
    walls = marginal([CEILING, WALLS], 1, small_job(), round_basis())
    assert set(walls.rest.amount.walk()) & set(walls.whole.amount.walk())


@pytest.mark.parametrize("place", [-1, 2])
def test_a_place_that_is_none_is_refused(place):
    """There is no third piece of two."""
    with pytest.raises(InputError, match="one of the work items"):
        marginal([CEILING, WALLS], place, small_job(), round_basis())
