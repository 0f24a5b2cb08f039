"""The clock of a site: labor in days, waits through nights, who waits on pay, and what is finished the same evening."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import definition
from estimating.trade.drying import (
    ClockRules,
    PlainHours,
    PlainStep,
    SiteOrder,
    clock_rules,
    days_worked,
    longest_stay,
    step_time,
    take_one,
    take_step,
)

AT = {"day_length": 8.0, "overtime": 0.5, "stay": 2.0, "crew": 1.0}
Steps = Sequence[tuple[float, float, float]]  # person-hours, pause, wait


def named(steps: Steps) -> dict[str, float]:
    return {
        f"{what}_{place}": hours for place, step in enumerate(steps) for what, hours in zip("lpw", step, strict=True)
    }


def rules(steps: Steps, rooms: Sequence[str] = (), whole: Sequence[bool] = ()) -> ClockRules:
    return clock_rules(SiteOrder(tuple(rooms or ["hall"] * len(steps)), tuple(whole or [False] * len(steps))))


def comes_to(steps: Steps, rooms: Sequence[str] = (), whole: Sequence[bool] = (), **at: float) -> tuple[float, ...]:
    """Return days, hours by the clock, and person-hours waited."""
    found, at = rules(steps, rooms, whole), {**AT, **at}
    return tuple(float(each(**at, **named(steps))) for each in (found.days, found.elapsed, found.idle))


def test_short_waits_are_waited_on_pay() -> None:
    """Two visits of an hour with 1½ h of drying between: 2 h of labor, 1½ waited, one day of 3½ h by the clock."""
    assert comes_to([(1, 0, 1.5), (1, 0, 0)]) == (1, 3.5, 1.5)


def test_long_waits_send_the_crew_home() -> None:
    """With 3 h to dry and no more than 2 waited, the crew comes back next morning: nobody is paid for waiting."""
    assert comes_to([(1, 0, 3), (1, 0, 0)]) == (2, 25, 0)
    assert comes_to([(1, 0, 3), (1, 0, 0)], stay=4) == (1, 5, 3)


def test_two_people_wait_twice() -> None:
    """Two people halve the labor and none of the drying, and both are paid for it."""
    assert comes_to([(2, 0, 1.5), (2, 0, 0)], crew=2) == (1, 3.5, 3)


def test_labor_stops_at_night_and_waits_do_not() -> None:
    """6 h, then 16 h to dry: dry at 22 h, so the next step begins as the second day opens."""
    assert comes_to([(6, 0, 16), (2, 0, 0)]) == (2, 26, 0)
    assert comes_to([(12, 0, 0)]) == (2, 28, 0)


def test_a_room_that_is_ready_later_in_the_day_is_come_to_later() -> None:
    """6 h, then 20 h to dry: the second day begins two hours after its opening, and nobody is paid before."""
    assert comes_to([(6, 0, 20), (2, 0, 0)]) == (2, 28, 0)


def test_a_day_that_only_dries_is_no_day_on_site() -> None:
    """60 h to dry after 2 h: the next labor is on the third day, the second on site."""
    assert comes_to([(2, 0, 60), (1, 0, 0)])[0] == 2


def test_one_room_dries_while_another_is_worked_in() -> None:
    """Hall and den in turn: the 2 h of each coat to dry are filled with the other's work, and nothing is waited."""
    rooms = ["hall", "den", "hall", "den"]
    assert comes_to([(2, 0, 2), (2, 0, 2), (2, 0, 0), (2, 0, 0)], rooms) == (1, 8, 0)
    assert comes_to([(2, 0, 2), (2, 0, 0), (2, 0, 2), (2, 0, 0)], ["hall", "hall", "den", "den"])[2] == 2


def test_a_step_of_no_room_waits_for_all_of_them_and_they_for_it() -> None:
    """The final walk comes when the last room is dry; a sample taken for the whole house holds up every room."""
    assert comes_to([(1, 0, 2), (1, 0, 0)], ["hall", ""]) == (1, 4, 2)
    assert comes_to([(1, 0, 2), (1, 0, 0)], ["", "hall"]) == (1, 4, 2)


def test_a_short_end_is_finished_the_same_evening() -> None:
    """8 h 20 min in a day of 8 are done with 20 minutes of overtime; 8 h 40 min need a second day."""
    assert comes_to([(8 + 1 / 3, 0, 0)]) == (1, pytest.approx(8 + 1 / 3), 0)
    assert comes_to([(8, 0, 0), (1 / 3, 0, 0)])[0] == 1
    assert comes_to([(8 + 2 / 3, 0, 0)])[0] == 2


def test_overtime_is_for_the_end_of_the_job_alone() -> None:
    """8 h 20 min and 4 h more: the first day ends on time."""
    assert comes_to([(8 + 1 / 3, 0, 0), (4, 0, 0)]) == (2, pytest.approx(24 + 4 + 1 / 3), 0)


def test_what_has_to_be_whole_is_not_broken_by_a_night() -> None:
    """Alarms covered: 3 h of sanding at 6 h would end next morning, so it begins then."""
    steps = [(6, 0, 0), (3, 0, 0), (4, 0, 0)]
    assert comes_to(steps)[1] == 24 + 5
    assert comes_to(steps, whole=[False, True, False])[1] == 24 + 7


def test_a_pause_within_a_step_is_waited() -> None:
    """A quarter of an hour for mist to settle before the alarms are uncovered: on the clock, and paid."""
    assert comes_to([(1, 0.25, 2), (1, 0, 0)], whole=[True, False]) == (1, 4.25, 2.25)


def test_days_with_a_machine_are_counted_apart() -> None:
    """Sprayed on the first and the third day of three."""
    steps = [(8, 0, 0), (8, 0, 0), (8, 0, 0)]
    assert rules(steps).days_of((True, False, True))(**AT, **named(steps)) == 2


def test_nothing_to_do_takes_no_time() -> None:
    """No steps: no days, no hours, no waiting."""
    assert comes_to([]) == (0, 0, 0)


def test_a_crew_stays_while_that_costs_less_than_coming_back() -> None:
    """2 h in any case; with an hour's drive each way and ½ h of opening up, 2½ h for one person."""
    assert longest_stay(longest=2.0, daily_start=0.5, one_way=0.25, crew=2.0) == 2.0
    assert longest_stay(longest=2.0, daily_start=0.5, one_way=1.0, crew=1.0) == 2.5


def test_moments_are_days_and_hours() -> None:
    """Days count from 1."""
    assert step_time(0.0, 25.5, 50.0).end_day == 2
    assert step_time(0.0, 25.5, 50.0).ready_hour == 2.0


steps_in_rooms = st.lists(
    st.tuples(st.floats(0, 20), st.floats(0, 1), st.floats(0, 40), st.sampled_from(["hall", "den", ""]), st.booleans()),
    max_size=8,
)


@given(steps_in_rooms, st.floats(1, 12), st.integers(1, 4), st.floats(0, 4))
def test_many_cases_come_to_what_each_comes_to(
    steps: list[tuple[float, float, float, str, bool]], day_length: float, crew: int, stay: float
) -> None:
    """Arrays of draws and plain numbers agree, in days, hours by the clock and waiting."""
    plain = [each[:3] for each in steps]
    found = rules(plain, [each[3] for each in steps], [each[4] for each in steps])
    at = {"overtime": 0.5, "stay": stay, "crew": float(crew)}
    for rule in (found.days, found.elapsed, found.idle):
        one = rule(day_length=day_length, **at, **named(plain))
        many = rule(day_length=np.array([day_length, day_length]), **at, **named(plain))
        assert np.broadcast_to(many, 2) == pytest.approx([one, one], abs=1e-6)


@given(steps_in_rooms, st.floats(1, 12), st.floats(0, 4))
def test_nobody_works_at_night_nor_in_a_wet_room(
    steps: list[tuple[float, float, float, str, bool]], day_length: float, stay: float
) -> None:
    """Each step begins within a day and when its room is ready; as much is worked as was planned; no wait is longer."""
    hours, free, ready = PlainHours(day_length, 0.5, stay), 0.0, dict[str, float]()
    rest = sum(labor + pause for labor, pause, *_ in steps)
    for labor, pause, wait, room, whole in steps:
        step = PlainStep(labor, pause, wait)
        since = ready.get(room, 0.0)
        worked, start, end, dry, idle = take_one(free, since, step, rest, whole, hours)
        assert start >= max(free, since)
        assert dry == pytest.approx(end + wait)
        assert 0 <= idle <= stay
        if worked:
            assert start % 24 <= day_length + 0.5
            nights = end // 24 - start // 24
            assert end - start - nights * (24 - day_length) == pytest.approx(labor + pause, abs=1e-6)
            if whole and labor + pause <= day_length:
                assert nights == 0
            free = end
        ready[room], rest = dry, max(rest - labor - pause, 0.0)


def test_it_is_worked_out_of_figures() -> None:
    """A day and a crew are figures, and so is every step; a gallon is no wait."""
    source = definition("made up")
    at = {name: leaf(name, value, "dimensionless" if name == "crew" else "hour", source) for name, value in AT.items()}
    steps = {name: leaf(name, value, "hour", source) for name, value in named([(1, 0, 1.5), (1, 0, 0)]).items()}
    assert work(rules([(1, 0, 1.5), (1, 0, 0)]).idle, "idle", **at, **steps).value == 1.5
    with pytest.raises(InputError):
        work(rules([(1, 0, 0)]).days, "days", **at, l=steps["l_0"], p=steps["p_0"], w=leaf("w", 1, "gallon", source))


@pytest.mark.parametrize(
    "wrong", [{"day_length": 0.0}, {"day_length": 25.0}, {"crew": 0.0}, {"l_0": -1.0}, {"w_0": math.nan}]
)
def test_what_no_clock_shows_is_refused(wrong: dict[str, float]) -> None:
    """No day of nothing or of 25 hours, no crew of nobody, no labor below none."""
    with pytest.raises(InputError):
        rules([(1, 0, 1)]).days(**{**AT, **named([(1, 0, 1)]), **wrong})


def test_the_two_ways_of_taking_a_step_are_one() -> None:
    """In plain numbers and in arrays, at the edges of a day."""
    hours = PlainHours(8.0, 0.5, 2.0)
    for free in (0.0, 7.9, 8.0, 8.2, 31.0):
        for wait in (0.0, 1.0, 3.0, 30.0):
            for labor in (0.0, 0.3, 1.0, 9.0):
                for rest in (labor, labor + 5):
                    one = take_one(free, free + wait, PlainStep(labor, 0.0, 1.0), rest, True, hours)
                    many = take_step(free, free + wait, PlainStep(labor, 0.0, 1.0), rest, True, hours)
                    assert one == pytest.approx(tuple(many))


def test_a_day_is_counted_once_however_often_the_crew_starts() -> None:
    """Three steps in one day are one day."""
    steps = [(1, 0, 0), (1, 0, 0), (1, 0, 0)]
    assert comes_to(steps)[0] == 1
    assert days_worked([]) == 0
