"""Three prices to offer: each worked out beside the test, and each the price that its markup comes to."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from made_up import plan, round_basis, small_job, task
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.rework import Reworking
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.estimate.uncertainty.offers import MARKUP, By, Offer, Priced, markup_for, offers
from estimating.job.file import plain_job
from estimating.workbook import build_job, estimate_job, read_job

COSTS = np.linspace(400.0, 898.0, 250)  # the mean is 649


def priced(estimate: Estimate) -> Priced:
    standing = Reworking(estimate)
    return lambda markup: float(standing.moved({MARKUP: markup}).price)


def by_hand(estimate: Estimate) -> dict[By, Offer]:
    return {each.by: each for each in offers(estimate, COSTS, priced(estimate), usual=25.0)}


def test_the_three_prices_by_hand() -> None:
    """Cost 500 as planned and 649 on average, 25 % on either; a tenth of the draws lies above 848."""
    found = by_hand(build_up([plan(task("roll", 10.0))], small_job(), round_basis()))
    assert (found[By.PLAN].risk.price, found[By.PLAN].markup) == (625.0, 25.0)
    assert found[By.PLAN].risk.profit == pytest.approx(625 - 649)
    assert found[By.MEAN].risk.price == pytest.approx(1.25 * 649, abs=0.06)
    assert found[By.MEAN].markup == pytest.approx(62.25)
    assert found[By.MEAN].risk.margin == pytest.approx(0.2, abs=1e-4)
    assert found[By.CHANCE].risk.price == pytest.approx(848.0, abs=0.06)
    assert found[By.CHANCE].risk.chance <= 0.1


def test_sales_tax_goes_on_top_of_every_one() -> None:
    """At 7 % the client pays 7 % more for the same markups, and the risk is the same."""
    bare, taxed = (
        by_hand(build_up([plan(task("roll", 10.0))], small_job(), round_basis(sales_tax=tax))) for tax in (0.0, 7.0)
    )
    for by in By:
        assert taxed[by].markup == pytest.approx(bare[by].markup, abs=0.011)
        assert taxed[by].risk.price == pytest.approx(1.07 * bare[by].risk.price, abs=0.1)
        assert taxed[by].risk.chance == bare[by].risk.chance


def test_a_least_charge_may_do_without_a_markup() -> None:
    """A job of 500 that is sold for 900 at least needs no markup to come to 848, and none comes to a million."""
    least = build_up([plan(task("roll", 10.0))], small_job(), round_basis(minimum_charge=900.0))
    assert by_hand(least)[By.CHANCE].markup == 0.0
    with pytest.raises(InputError, match="a price that a markup of 1000 % comes to"):
        markup_for(1e6, priced(least))


@pytest.mark.parametrize("terms", [{}, {"discount": "5 %"}, {"discount": "$150", "round_up_to": 5}])
def test_the_workbook_sells_the_job_at_the_price_that_was_offered(terms: dict[str, Any]) -> None:
    """With a job's own markup in place of the usual one, whatever tax, discount and rounding do to it."""
    plain = plain_job(read_job(JOBS / "alder_row_sitting_room.toml"))
    tax = {"business/sales_tax": {"likely": 6, "unit": "percent"}}
    job = {**plain, "terms": {**plain["terms"], **terms}, "own": tax}
    made = estimate_job(build_job(job)).estimate
    draws = estimate_ranges(made, points=512).cost_draws
    for each in offers(made, draws, priced(made), usual=35.0, chance=0.2):
        own = {**tax, MARKUP: {"likely": each.markup, "unit": "percent"}}
        again = estimate_job(build_job({**job, "own": own})).estimate
        assert float(again.price) == pytest.approx(each.risk.price, abs=0.011)  # rounded up after cents of lines
        assert again.cost.value == pytest.approx(made.cost.value)
        assert each.by is not By.CHANCE or each.risk.chance <= 0.2
