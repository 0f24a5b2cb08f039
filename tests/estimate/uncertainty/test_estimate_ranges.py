import dataclasses

import numpy as np
import pytest
from made_up import made, masks, paint, plan, round_basis, small_job, tape, task

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.lines import Section
from estimating.estimate.pricing.plan import Phase, Risk, Task
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.estimate.uncertainty.ranges import chance_of_loss, price_for_chance
from estimating.figures import Figure, random_draw, work
from estimating.trade import adhesion


def uncertain() -> Estimate:
    """Return an estimate in which only the hours of one task, the paint and one event are not sure."""
    roll = Task("roll", "Roll", Phase.CEILING, made(10.0, "hour", 8.0, 14.0), "hall")
    gallons = dataclasses.replace(paint(1.5), gallons=made(1.5, "gallon", 1.2, 2.2))
    happens = work(adhesion.occurs, "happens", chance=made(0.25, "dimensionless"), random_draw=random_draw("release"))
    expected = work(adhesion.expected_cost, "allowance", chance=happens, cost=made(400.0, "dollar"))
    risk = Risk("release", "It comes down", made(0.25, "dimensionless"), made(400.0, "dollar"), expected)
    sure_parts = {"supplies": (tape(90.0), masks(2.0)), "risks": (risk,)}
    return build_up([plan(roll, materials=(gallons,), **sure_parts)], small_job(), round_basis())


@pytest.fixture(scope="module")
def estimate() -> Estimate:
    return uncertain()


@pytest.fixture(scope="module")
def sure(estimate: Estimate) -> EstimateRanges:
    return estimate_ranges(estimate)


def test_every_line_has_a_range_in_order(estimate: Estimate, sure: EstimateRanges) -> None:
    """Its low below its median below its high, for the need and for the money."""
    assert set(sure.amounts) == set(sure.quantities) == set(estimate.lines)
    for each in (*sure.amounts.values(), *sure.quantities.values(), sure.cost, sure.hours, sure.days):
        assert each.low <= each.median <= each.high


def test_the_range_of_a_line_is_that_of_its_figure(estimate: Estimate, sure: EstimateRanges) -> None:
    """10 h, 8 to 14, at 30 dollars sure: 240 to 420; what is sure has no range at all."""
    lines = {line.key: line for line in estimate.lines}
    hours, money = sure.quantities[lines["roll"]], sure.amounts[lines["roll"]]
    assert (hours.low, hours.median, hours.high) == pytest.approx((8.0, 10.0, 14.0), rel=0.01)
    assert (money.low, money.high) == pytest.approx((240.0, 420.0), rel=0.01)
    tape_line = sure.amounts[lines["tape"]]
    assert tape_line.low == tape_line.high == float(lines["tape"].cost)


def test_paint_is_bought_by_the_can_in_every_draw(estimate: Estimate, sure: EstimateRanges) -> None:
    """A need of 1.2 to 2.2 gallons is 42 to 72 dollars or so, in steps of a can."""
    (line,) = estimate.section(Section.PAINT)
    assert sure.amounts[line].low in (42.0, 54.0)
    assert sure.amounts[line].high in (72.0, 84.0)


def test_an_event_happens_or_does_not(estimate: Estimate, sure: EstimateRanges) -> None:
    """Its line is nothing in most draws and 400 dollars in a quarter; the likely price carries 100."""
    (line,) = estimate.section(Section.ALLOWANCE)
    assert line.cost == 100
    assert (sure.amounts[line].low, sure.amounts[line].median, sure.amounts[line].high) == (0.0, 0.0, 400.0)


def test_the_chance_of_loss_falls_as_the_price_rises(sure: EstimateRanges) -> None:
    """From certain to none, and a price for a chance has no more than that chance."""
    prices = np.linspace(sure.cost_draws.min() - 1, sure.cost_draws.max() + 1, 40)
    chances = [chance_of_loss(sure.cost_draws, float(price)) for price in prices]
    assert chances[0] == 1.0
    assert chances[-1] == 0.0
    assert chances == sorted(chances, reverse=True)
    for chance in (0.05, 0.1, 0.5):
        price = price_for_chance(sure.cost_draws, chance)
        assert chance_of_loss(sure.cost_draws, price) <= chance
        assert chance_of_loss(sure.cost_draws, price - 1.0) > chance - 0.03


@pytest.mark.parametrize("chance", [-0.1, 1.0, 1.5])
def test_no_price_is_for_a_chance_outside_nought_to_one(sure: EstimateRanges, chance: float) -> None:
    """Certain to lose is no offer."""
    with pytest.raises(InputError, match="a share from 0 to below 1"):
        price_for_chance(sure.cost_draws, chance)


def test_the_same_estimate_has_the_same_range(sure: EstimateRanges) -> None:
    """Built again from nothing it gives the same draws, to the last digit."""
    again = estimate_ranges(uncertain())
    np.testing.assert_array_equal(again.cost_draws, sure.cost_draws)
    assert again.cost == sure.cost


def test_nothing_to_do_costs_nothing_for_sure() -> None:
    """A declined job has no range, no hours and no chance of loss."""
    none = estimate_ranges(build_up([plan()], small_job(), round_basis()))
    assert none.cost.low == none.cost.high == 0.0
    assert none.hours.high == none.days.high == 0.0
    assert chance_of_loss(none.cost_draws, 0.0) == 0.0


def test_a_slow_crew_is_slow_at_everything() -> None:
    """Rates of the crew move together, so a job of many tasks is less sure than if each went its own way."""
    rates = [
        Task(f"roll {place}", "Roll", Phase.CEILING, _rate(place), "hall", rate_key=f"production/{place}")
        for place in range(8)
    ]
    together = estimate_ranges(build_up([plan(*rates)], small_job(), round_basis())).hours
    alone = [dataclasses.replace(each, hours=made(2.0, "hour", 1.0, 4.0)) for each in rates]
    apart = estimate_ranges(build_up([plan(*alone)], small_job(), round_basis())).hours
    assert together.high - together.low > 1.2 * (apart.high - apart.low)


def _rate(place: int) -> Figure:
    return dataclasses.replace(made(2.0, "hour", 1.0, 4.0), key=f"production/task {place}")


def test_one_task_may_be_sure() -> None:
    """Fixed hours stay fixed."""
    fixed = estimate_ranges(build_up([plan(task("roll", 4.0))], small_job(), round_basis()))
    assert fixed.hours.low == fixed.hours.high == pytest.approx(6.0)
