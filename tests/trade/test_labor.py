import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import labor as labor

ENTERED = Origin(Kind.ENTERED)
drop_zero_hours = st.floats(0, 1e4)
rates = st.floats(0.5, 1e4)


def test_hours_are_quantity_over_rate():
    """400 ft² at 100 ft² an hour and 120 ft at 240 ft an hour are 4 and ½ hours; 8 things at 15 minutes are 2."""
    assert labor.hours_by_area(area=400.0, rate=100.0) == 4
    assert labor.hours_by_length(length=120.0, rate=240.0) == 0.5
    assert labor.hours_by_count(count=8.0, minutes=15.0) == 2


def test_minutes_each_come_in_per_count_too():
    """A table that says minutes per count is read as minutes each."""
    hours = work(
        labor.hours_by_count,
        "trims",
        count=leaf("trims", 6, "count", ENTERED),
        minutes=leaf("each", 10, "minute/count", ENTERED),
    )
    assert hours.value == pytest.approx(1.0)
    assert hours.unit == "hour"


def test_a_rate_of_another_kind_is_refused():
    """An area cannot be worked off at a rate of lengths."""
    with pytest.raises(InputError, match="unit"):
        work(
            labor.hours_by_area,
            "ceiling",
            area=leaf("area", 100, "ft**2", ENTERED),
            rate=leaf("rate", 100, "ft/hour", ENTERED),
        )


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: labor.hours_by_area(area=1.0, rate=0.0), "rate"),
        (lambda: labor.hours_by_area(area=-1.0, rate=1.0), "area"),
        (lambda: labor.hours_by_length(length=1.0, rate=-1.0), "rate"),
        (lambda: labor.hours_by_count(count=-1.0, minutes=1.0), "count"),
        (lambda: labor.adjusted_hours(hours=1.0, factor=0.0), "factor"),
        (lambda: labor.part_factor(share=1.1, factor=2.0), "share"),
        (lambda: labor.labor_cost(hours=-1.0, loaded_wage=20.0), "hours"),
        (lambda: labor.loaded_wage(wage=20.0, burden=-0.3), "burden"),
        (lambda: labor.overhead_rate(yearly_overhead=1.0, productive_hours=0.0), "productive_hours"),
        (lambda: labor.overhead_cost(hours=1.0, overhead=-1.0), "overhead"),
        (lambda: labor.crew_elapsed(hours=1.0, crew=0.0), "crew"),
        (lambda: labor.working_day(day_length=8.0, daily_start=8.0, crew=1.0), "daily_start"),
        (lambda: labor.daily_hours(days=-1.0, hours=1.0), "days"),
        (lambda: labor.travel_hours(days=1.0, one_way=-0.5, crew=2.0), "one_way"),
    ],
)
def test_nonsense_is_refused_by_name(call, field):
    """A rate, crew or share out of range is named, never bent into range."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


def test_burden_as_the_statistics_office_reports_it():
    """BLS, Employer Costs for Employee Compensation, Table 4, construction, June 2022.

    Pay 33.97, insurance and retirement 5.55, legally required 4.03, total 43.56 dollars an hour, each rounded to the
    cent, so that the sum of the parts may be two cents off.
    """
    cost = labor.loaded_wage(wage=33.97, burden=(5.55 + 4.03) / 33.97)
    assert cost == pytest.approx(43.56, abs=0.02)
    assert cost / 33.97 == pytest.approx(1.282, abs=0.0005)  # "128.2 percent of pay" in the same table


def test_wage_load_and_overhead_build_up():
    """A published painter's example: wage 21.71, load 6.64 → 28.35; overhead 13.80 → 42.15 dollars an hour.

    "What Should I Charge For My Labor?", a trade web article; its load and overhead are called hypothetical there.
    """
    labor_of_an_hour = labor.labor_cost(hours=1.0, loaded_wage=labor.loaded_wage(wage=21.71, burden=6.64 / 21.71))
    assert labor_of_an_hour == pytest.approx(28.35, abs=0.005)
    assert labor_of_an_hour + labor.overhead_cost(hours=1.0, overhead=13.80) == pytest.approx(42.15, abs=0.005)


def test_percent_burden_is_a_share():
    """30 percent and 0.3 are the same burden."""
    wage = work(
        labor.loaded_wage,
        "wage",
        wage=leaf("wage", 20, "dollar/hour", ENTERED),
        burden=leaf("burden", 30, "percent", ENTERED),
    )
    cost = work(labor.labor_cost, "labor", hours=leaf("hours", 10, "hour", ENTERED), loaded_wage=wage)
    assert cost.value == pytest.approx(260)


def test_height_slows_only_the_high_part():
    """A quarter of the wall at three times the time makes the wall half as long again."""
    assert labor.part_factor(share=0.25, factor=3.0) == 1.5
    assert labor.part_factor(share=0.0, factor=3.0) == 1
    assert labor.part_factor(share=1.0, factor=3.0) == 3


def test_a_crew_shares_the_hours_not_the_cost():
    """Three people are done in a third of the time."""
    assert labor.crew_elapsed(hours=12.0, crew=3.0) == 4
    assert labor.overhead_rate(yearly_overhead=34_000.0, productive_hours=1_700.0) == 20


def test_what_every_day_on_site_takes():
    """One person-hour to open and close leaves two people 7½ of 8 hours; three days of it are 3 hours of labor.

    Half an hour each way for two people and three days is 6 hours on the road.
    """
    assert labor.working_day(day_length=8.0, daily_start=1.0, crew=2.0) == 7.5
    assert labor.daily_hours(days=3.0, hours=1.0) == 3
    assert labor.travel_hours(days=3.0, one_way=0.5, crew=2.0) == 6


@given(drop_zero_hours, drop_zero_hours, rates)
def test_more_never_takes_less(area, more, rate):
    """Hours grow with the quantity and shrink with the rate."""
    base = labor.hours_by_area(area=area, rate=rate)
    assert labor.hours_by_area(area=area + more, rate=rate) >= base
    assert labor.hours_by_area(area=area, rate=rate * 2) <= base


@given(st.lists(drop_zero_hours, min_size=1, max_size=5), rates)
def test_arrays_answer_as_scalars_do(areas, rate):
    """A thousand draws at once give what each would give alone."""
    many = labor.hours_by_area(area=np.array(areas), rate=rate)
    assert list(many) == [labor.hours_by_area(area=area, rate=rate) for area in areas]
    costs = labor.labor_cost(hours=np.array(areas), loaded_wage=26.0)
    assert list(costs) == [labor.labor_cost(hours=area, loaded_wage=26.0) for area in areas]
