import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade import drying

ENTERED = Origin(Kind.ENTERED)
hours = st.one_of(st.just(0.0), st.floats(0.1, 30))
waits = st.one_of(st.just(0.0), st.floats(0.1, 60))
plans = st.lists(st.tuples(hours, waits), max_size=6)

schedule_days, schedule_elapsed = drying.days_in_rooms(()), drying.elapsed_in_rooms(())  # all in one room


def named(steps):
    return {f"{kind}{place}": value for place, step in enumerate(steps) for kind, value in zip("hw", step, strict=True)}


def test_labor_and_the_clock_are_two_things():
    """Four visits of 20 minutes with 2 hours of drying between: 80 minutes of labor, 7 h 20 min elapsed."""
    steps = [(1 / 3, 2.0), (1 / 3, 2.0), (1 / 3, 2.0), (1 / 3, 0.0)]
    assert schedule_days(day_length=8.0, crew=1.0, **named(steps)) == 1
    assert schedule_elapsed(day_length=8.0, crew=1.0, **named(steps)) == pytest.approx(7 + 1 / 3)


def test_labor_stops_for_the_night():
    """Ten hours of labor for one person are a day of 8 and 2 next morning: 26 hours by the clock."""
    steps = [(10.0, 0.0)]
    assert schedule_days(day_length=8.0, crew=1.0, **named(steps)) == 2
    assert schedule_elapsed(day_length=8.0, crew=1.0, **named(steps)) == 26
    [time] = drying.step_times(steps, crew=1.0, day_length=8.0)
    assert (time.start_day, time.start_hour, time.end_day, time.end_hour) == (1, 0, 2, 2)


def test_a_wait_runs_on_through_the_night():
    """Six hours of work, 16 of drying: dry at hour 22, so the next step starts on day 2 at opening."""
    first, second = drying.step_times([(6.0, 16.0), (2.0, 0.0)], crew=1.0, day_length=8.0)
    assert (first.ready_day, first.ready_hour) == (1, 22)
    assert (second.start_day, second.start_hour, second.end_hour) == (2, 0, 2)


def test_a_wait_into_the_next_day():
    """Six hours of work, 20 of drying: dry two hours into day 2."""
    second = drying.step_times([(6.0, 20.0), (2.0, 0.0)], crew=1.0, day_length=8.0)[1]
    assert (second.start_day, second.start_hour, second.end_hour) == (2, 2, 4)


def test_a_day_that_only_dries_is_no_day_on_site():
    """Work on day 1, cure for three days, work on day 4: two days on site."""
    steps = [(4.0, 72.0), (2.0, 0.0)]
    assert schedule_days(day_length=8.0, crew=1.0, **named(steps)) == 2
    assert drying.step_times(steps, crew=1.0, day_length=8.0)[1].start_day == 4


def test_a_full_day_ends_that_day():
    """Exactly 8 hours end on day 1, and the next step starts on day 2."""
    steps = [(8.0, 0.0), (8.0, 0.0)]
    first, second = drying.step_times(steps, crew=1.0, day_length=8.0)
    assert (first.end_day, first.end_hour) == (1, 8)
    assert (second.start_day, second.end_day) == (2, 2)
    assert schedule_days(day_length=8.0, crew=1.0, **named(steps)) == 2


def test_a_crew_is_sooner_done():
    """Two people halve the labor and none of the drying."""
    steps = [(6.0, 4.0), (6.0, 0.0)]
    assert schedule_elapsed(day_length=10.0, crew=2.0, **named(steps)) == 3 + 4 + 3


def test_no_steps_take_no_time():
    """Nothing to do is no day."""
    assert schedule_days(day_length=8.0, crew=1.0) == 0
    assert schedule_elapsed(day_length=8.0, crew=1.0) == 0


def _by_the_minute(steps, crew, day_length):
    """Walk the clock minute by minute, as a foreman with a watch would; all in whole minutes."""
    clock, days = 0, set()
    for labor, wait in steps:
        left = labor // crew
        while left:
            if clock % 1440 < day_length:
                days.add(clock // 1440)
                left -= 1
            clock += 1
        clock += wait
    return len(days), clock


@given(
    st.lists(st.tuples(st.integers(0, 700), st.integers(0, 2000)), max_size=5),
    st.integers(1, 3),
    st.integers(200, 1440),
)
def test_the_clock_agrees_with_walking_it_minute_by_minute(steps, crew, day_length):
    """Days and elapsed time come to what a watch would show."""
    steps = [(labor * crew, wait) for labor, wait in steps]
    in_hours = [(labor / 60, wait / 60) for labor, wait in steps]
    days, clock = _by_the_minute(steps, crew, day_length)
    at = {"day_length": day_length / 60, "crew": float(crew)}
    assert schedule_days(**at, **named(in_hours)) == days
    assert schedule_elapsed(**at, **named(in_hours)) == pytest.approx(clock / 60, abs=1e-6)


@given(plans, hours, st.floats(2, 12))
def test_more_work_never_ends_sooner(plan, more, day_length):
    """A further step makes neither fewer days nor an earlier end."""
    longer = [*plan, (more, 0.0)]
    for rule in (schedule_days, schedule_elapsed):
        at = {"day_length": day_length, "crew": 1.0}
        assert rule(**at, **named(longer)) >= rule(**at, **named(plan))


@given(plans, st.floats(2, 12))
def test_no_step_starts_before_it_is_ready(plan, day_length):
    """Steps keep their order, and labor lies inside working hours."""
    ready = 0.0
    for (labor, _wait), time in zip(plan, drying.step_times(plan, crew=1.0, day_length=day_length), strict=True):
        start = (time.start_day - 1) * 24 + time.start_hour
        assert start >= ready - 1e-9
        if labor:
            assert time.start_hour <= day_length
            assert time.end_hour <= day_length + 1e-6
        ready = (time.ready_day - 1) * 24 + time.ready_hour


@given(st.lists(st.tuples(hours, waits), min_size=1, max_size=4), st.floats(2, 12))
def test_arrays_answer_as_scalars_do(plan, day_length):
    """Draws of hours at once give what each would give alone."""
    shares = np.array([0.5, 1.0, 2.0])
    for rule in (schedule_days, schedule_elapsed):
        at = {"day_length": day_length, "crew": 1.0}
        many = rule(**at, **named([(labor * shares, wait) for labor, wait in plan]))
        alone = [rule(**at, **named([(labor * share, wait) for labor, wait in plan])) for share in shares]
        assert list(np.broadcast_to(many, 3)) == alone


def test_it_works_on_figures():
    """Minutes are converted, steps go in by turns, and a wait in gallons is refused."""
    at = {"day_length": leaf("day", 480, "minute", ENTERED), "crew": leaf("crew", 1, "dimensionless", ENTERED)}
    steps = {"h1": leaf("roll", 6, "hour", ENTERED), "w1": leaf("dry", 0.5, "day", ENTERED)}
    again = {"h2": leaf("roll again", 120, "minute", ENTERED), "w2": leaf("none", 0, "hour", ENTERED)}
    days = work(schedule_days, "days on site", **at, **steps, **again)
    assert (days.value, days.unit) == (2, "dimensionless")
    assert work(schedule_elapsed, "elapsed", **at, **steps, **again).value == 26
    with pytest.raises(InputError, match="unit"):
        work(schedule_days, "days", **at, h1=leaf("x", 1, "hour", ENTERED), w1=leaf("y", 1, "gallon", ENTERED))


@pytest.mark.parametrize(
    ("at", "steps", "field"),
    [
        ({"day_length": 0.0, "crew": 1.0}, {"h": 1.0, "w": 0.0}, "day_length"),
        ({"day_length": 25.0, "crew": 1.0}, {"h": 1.0, "w": 0.0}, "day_length"),
        ({"day_length": 8.0, "crew": 0.0}, {"h": 1.0, "w": 0.0}, "crew"),
        ({"day_length": 8.0, "crew": 1.0}, {"h": -1.0, "w": 0.0}, "hours"),
        ({"day_length": 8.0, "crew": 1.0}, {"h": 1.0, "w": -1.0}, "wait"),
        ({"day_length": 8.0, "crew": 1.0}, {"h": 1.0}, "steps"),
    ],
)
def test_what_is_no_plan_is_refused(at, steps, field):
    """No day, nobody, a negative wait or a step without its wait is named."""
    with pytest.raises(InputError) as refused:
        schedule_days(**at, **steps)
    assert refused.value.field == field


@given(st.lists(st.tuples(hours, waits, st.sampled_from(("hall", "den", ""))), max_size=8), st.floats(1, 24))
def test_plain_numbers_walk_as_arrays_do(plan, day_length):
    """One number is worked out apart, because it is asked for so often: it comes to what an array of it comes to."""
    steps, rooms = [step[:2] for step in plan], tuple(step[2] for step in plan)
    walked = drying.days_in_rooms(rooms)(day_length=np.array([day_length]), crew=2.0, **named(steps))
    assert drying.days_in_rooms(rooms)(day_length=day_length, crew=2.0, **named(steps)) == np.max(walked)
    assert drying.days_on_site(steps, crew=2.0, day_length=day_length, rooms=rooms) == np.max(walked)


@pytest.mark.parametrize(
    "wrong", [{"h0": -1.0}, {"w0": -1.0}, {"crew": 0.0}, {"day_length": 25.0}, {"h0": float("nan")}]
)
def test_what_is_no_step_is_refused_one_by_one_too(wrong):
    """The quick way is for numbers in order only."""
    with pytest.raises(InputError):
        schedule_days(**{"h0": 1.0, "w0": 1.0, "crew": 1.0, "day_length": 8.0, **wrong})
