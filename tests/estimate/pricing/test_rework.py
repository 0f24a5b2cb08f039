"""A price with one assumption moved, worked out from the standing tree."""

import time
from collections.abc import Iterable
from decimal import Decimal

import pytest
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Line
from estimating.evidence import OwnValue
from estimating.row_key import RowKey
from estimating.workbook import Outcome, estimate_job, read_job

BY_THE_DAY = {"daily_start", "travel", "waiting", "set_up_sprayer", "wash_sprayer", "equipment_sprayer"} | {
    "overhead", "markup", "minimum_charge",
}  # fmt: skip


@pytest.fixture(scope="module", params=sorted(path.stem for path in JOBS.glob("*.toml")))
def outcome(request: pytest.FixtureRequest) -> Outcome:
    return estimate_job(read_job(JOBS / f"{request.param}.toml"))


def anew(outcome: Outcome, key: str, value: float, unit: str) -> Outcome:
    """Return the job estimated anew with an own value, each piece by the method taken before."""
    methods = {place: plan.method for place, plan in enumerate(outcome.estimate.plans)}
    work = tuple(each.model_copy(update={"method": methods[place]}) for place, each in enumerate(outcome.job.work))
    return estimate_job(outcome.job.model_copy(update={"work": work}), own={key: OwnValue(value, unit)})


SEARCHED = Decimal("1.1")


def order_of_rooms(estimate: Estimate) -> list[tuple[str, str]]:
    return [(task.room, task.key) for task in estimate.schedule.on_site]


def by_name(lines: Iterable[tuple[Line, Decimal]]) -> dict[tuple[str, str], list[Decimal]]:
    """Return the lines that hang on no day and no order, by room and name."""
    found: dict[tuple[str, str], list[Decimal]] = {}
    for line, cost in lines:
        if line.key not in BY_THE_DAY:
            found.setdefault((line.room, line.key), []).append(cost)
    return {name: sorted(costs) for name, costs in found.items()}


@pytest.mark.parametrize(
    ("key", "unit", "times"),
    [
        ("business/wage", "dollar/hour", 1.1),
        ("business/overhead", "dollar/hour", 0.7),
        ("business/markup", "dimensionless", 1.5),
        ("production/mobilize/any/any", "hour", 3.0),
        ("production/daily_start/any/any", "hour", 1.4),
    ],
)
def test_one_assumption_moved_is_the_estimate_made_anew(outcome: Outcome, key: str, unit: str, times: float) -> None:
    """To the cent, line by line (allowances go by size), with the days that follow from it; the methods stay.

    Where planning anew would take the rooms of a house in another order, the standing one is no longer the best, and
    only what hangs on no day and no order has to agree; that happens only where a task comes on every day, or once. An
    order is searched for and not proven the best, so the one found anew may be dearer.
    """
    row = next(each for each in outcome.estimate.amount.walk() if each.key == key)
    value = row.value * times
    found, made = outcome.moved({key: value}), anew(outcome, key, value, row.unit).estimate
    if order_of_rooms(outcome.estimate) != order_of_rooms(made):
        assert len(outcome.job.rooms) >= 3
        assert row.unit == "hour"
        lines = zip(outcome.estimate.lines, found.amounts, strict=True)
        assert by_name((line, cost) for line, cost in lines) == by_name((line, line.cost) for line in made.lines)
        assert made.price <= found.price * SEARCHED
        return
    assert found.price == made.price
    assert sorted(found.amounts) == sorted(line.cost for line in made.lines)
    assert (found.days, found.hours) == (made.schedule.days.value, pytest.approx(made.hours.value))
    assert (found.cost, found.gallons) == (pytest.approx(made.cost.value), pytest.approx(made.gallons))


def test_nothing_moved_is_the_estimate(outcome: Outcome) -> None:
    """No values: every line as it stands."""
    assert outcome.moved({}).price == outcome.estimate.price


def test_cans_follow_the_gallons(outcome: Outcome) -> None:
    """Half the coverage: more gallons, and whole cans of them, so the paint lines jump and nothing else about them."""
    rates = [each for each in outcome.estimate.amount.walk() if RowKey.parse(each.key).table == "coverage"]
    found = outcome.moved({each.key: each.value / 2 for each in rates})
    assert found.gallons > outcome.estimate.gallons
    assert found.price > outcome.estimate.price


def test_a_key_the_price_does_not_rest_on_is_refused(outcome: Outcome) -> None:
    """A row of another trade moves nothing, and is not passed over in silence."""
    with pytest.raises(InputError, match="production/nothing"):
        outcome.moved({"production/nothing": 1.0})


def test_it_is_quick_enough_for_a_slider() -> None:
    """The whole house in a hundredth of a second or so: a fifth of what it takes to estimate it, at most."""
    job = read_job(JOBS / "hazel_bank_whole_house.toml")
    start = time.process_time()
    outcome = estimate_job(job)
    estimated = time.process_time() - start
    outcome.moved({"business/wage": 30.0})
    start = time.process_time()
    for wage in range(10):
        outcome.moved({"business/wage": 31.0 + wage})
    assert (time.process_time() - start) / 10 < estimated / 5
