"""A price with one assumption moved, worked out from the standing tree."""

import time

import pytest
from places import JOBS

from estimating.errors import InputError
from estimating.evidence import OwnValue
from estimating.row_key import RowKey
from estimating.workbook import Outcome, estimate_job, read_job


@pytest.fixture(scope="module", params=sorted(path.stem for path in JOBS.glob("*.toml")))
def outcome(request: pytest.FixtureRequest) -> Outcome:
    return estimate_job(read_job(JOBS / f"{request.param}.toml"))


def anew(outcome: Outcome, key: str, value: float, unit: str) -> Outcome:
    """Return the job estimated anew with an own value, each piece by the method taken before."""
    methods = {place: plan.method for place, plan in enumerate(outcome.estimate.plans)}
    work = tuple(each.model_copy(update={"method": methods[place]}) for place, each in enumerate(outcome.job.work))
    return estimate_job(outcome.job.model_copy(update={"work": work}), own={key: OwnValue(value, unit)})


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
    """To the cent, line by line (allowances go by size), with the days that follow from it; the methods stay."""
    row = next(each for each in outcome.estimate.amount.walk() if each.key == key)
    value = row.value * times
    found, made = outcome.moved({key: value}), anew(outcome, key, value, row.unit).estimate
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
