"""What a range and a profit rest on, each by a number worked out beside the test: a change of the rule fails here."""

import dataclasses
import math

import numpy as np
import pytest
from made_up import charge, made, plan, round_basis, small_job, task

from estimating.estimate.pricing.build_up import build_up
from estimating.estimate.pricing.engine import Engine
from estimating.estimate.pricing.plan import Task
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.estimate.uncertainty.price_risk import bid_for, risk_at_price
from estimating.estimate.uncertainty.ranges import draws_for


def rated(number: int) -> Task:
    """Return 2 hours that depend on the crew, 1.8 to 2.2."""
    hours = dataclasses.replace(made(2.0, "hour", 1.8, 2.2), key=f"production/task {number}")
    return dataclasses.replace(task(f"roll {number}", 2.0), hours=hours)


def test_the_rates_of_one_crew_share_four_tenths_of_what_they_vary_by() -> None:
    """Twenty like tasks of correlation 0.4: their sum varies √((1 + 19 · 0.4) / 20) = 0.656 of twenty alike as one.

    With 0.3 it would be 0.579, with 0.5 0.725.
    """
    several = [rated(number) for number in range(20)]
    hours = estimate_ranges(build_up([plan(*several)], small_job(), round_basis(daily_start=0.0))).hours
    assert (hours.high - hours.low) / (20 * 0.4) == pytest.approx(math.sqrt((1 + 19 * 0.4) / 20), rel=0.04)


def test_nobody_claims_anything_beyond_the_first_and_the_ninety_ninth_percentile() -> None:
    """8 to 12 about 10: the two-term logistic curve of 2 / ln 9 ends at 10 ± 0.9102 · ln 99 = 5.82 and 14.18."""
    length = made(10.0, "degF", 8.0, 12.0)  # a unit without bounds, so that the curve is the plain one
    (drawn,) = draws_for([length]).values()
    reach = 2 / math.log(9) * math.log(99)
    assert (np.min(drawn), np.max(drawn)) == pytest.approx((10 - reach, 10 + reach), abs=1e-9)


def test_sales_tax_is_no_profit() -> None:
    """12½ hours at 40 dollars: 500 of cost, 125 of profit; 7 % on top of 625 goes to the state."""
    made_of = build_up([plan(task("roll", 10.0))], small_job(), round_basis(sales_tax=7.0))
    cost = (10 + 1.5 + 2 * 0.5) * 40  # the visit takes 1½ hours, opening up ½ on each of two days
    assert float(made_of.price) == pytest.approx(1.25 * cost * 1.07)
    assert float(made_of.profit) == pytest.approx(0.25 * cost)
    assert made_of.margin == pytest.approx(0.25 / 1.25)  # of what is kept: 0.187 of what the client pays
    costs = np.full(100, float(cost))
    sold = risk_at_price(made_of, costs, float(made_of.price))
    assert (sold.kept, sold.profit) == (pytest.approx(1.25 * cost), pytest.approx(0.25 * cost))
    assert risk_at_price(made_of, costs, 1.06 * cost).chance == 1.0
    assert bid_for(made_of, costs, 0.1).price == pytest.approx(1.07 * cost)


def test_a_charge_that_rooms_share_is_charged_once() -> None:
    """One dump fee of 40 dollars for two rooms, in the estimate and in the choice between methods."""
    rooms = [plan(task("roll", 1.0), charges=(charge("dump", 40.0, share_key="dump"),)) for _ in range(2)]
    job, basis = small_job(), round_basis()
    fees = [line for line in build_up(rooms, job, basis).lines if line.key == "dump"]
    assert [float(line.cost) for line in fees] == [40.0]
    apart = [plan(task("roll", 1.0), charges=(charge("dump", 40.0),)) for _ in range(2)]
    assert build_up(apart, job, basis).price - build_up(rooms, job, basis).price == 50  # with a quarter on top
    assert Engine(job, basis).likely(rooms).price == build_up(rooms, job, basis).price
