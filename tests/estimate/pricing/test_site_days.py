import pytest
from made_up import plan, round_basis, small_job, task

from estimating.estimate.pricing.arrange import crew_size
from estimating.estimate.pricing.plan import Phase, Task
from estimating.estimate.pricing.site_days import Schedule, schedule


def scheduled(*tasks: Task, people: int = 1, travel: int | None = None) -> Schedule:
    site = {} if travel is None else {"travel_minutes": travel}
    return schedule([plan(*tasks)], small_job(people, **site), round_basis())


def hours(of: Schedule) -> dict[str, float]:
    return {each.key: each.hours.value for each in of.tasks}


def test_every_job_brings_its_own_hours() -> None:
    """Loading and the final walk once; opening, closing and the road every day, there and back, for each person.

    8 h on site and ½ h for opening and closing make 8 h for one, or 8¼ for each of two. Loading 1, rolling 12 and the
    walk ½ are 13½ h: two days for one, and for two, 6¾ h each, one.
    """
    alone = scheduled(task("roll", 12.0), travel=30)
    assert alone.working_day.value == pytest.approx(8.0)
    assert alone.days.value == 2
    assert hours(alone) == {"mobilize": 1.0, "roll": 12.0, "final_walk": 0.5, "daily_start": 1.0, "travel": 2.0}
    two = scheduled(task("roll", 12.0), people=2, travel=30)
    assert two.working_day.value == pytest.approx(8.25)
    assert two.days.value == 1
    assert hours(two) == {"mobilize": 1.0, "roll": 12.0, "final_walk": 0.5, "daily_start": 0.5, "travel": 2.0}


def test_a_drive_nobody_timed_is_not_in_the_hours() -> None:
    """Unknown is not a drive of no time: the question is asked elsewhere, and no line stands for it."""
    assert "travel" not in hours(scheduled(task("roll", 4.0)))
    assert hours(scheduled(task("roll", 4.0), travel=0))["travel"] == 0.0


def test_nothing_to_do_is_no_visit() -> None:
    """No days, no loading, no walk."""
    none = scheduled(travel=30)
    assert none.tasks == ()
    assert (none.days.value, none.elapsed.value) == (0, 0)


def test_tasks_are_done_in_the_order_of_the_trade() -> None:
    """Whatever the order they were planned in: masking before spraying, unmasking before the walls."""
    mixed = scheduled(
        task("walls", 1.0, Phase.WALLS),
        task("unmask", 1.0, Phase.UNMASK),
        task("spray", 1.0, Phase.CEILING),
        task("mask", 1.0, Phase.MASK),
        task("floor", 1.0, Phase.PROTECT),
    )
    order = [each.key for each in mixed.tasks]
    assert order == ["mobilize", "floor", "mask", "spray", "unmask", "walls", "final_walk", "daily_start"]


def test_short_waits_are_on_the_payroll() -> None:
    """Rolling ends at 4 h; 2 h to dry; the next coat from 6 h. Nobody goes home for two hours, and they are paid.

    Elapsed: 1 + 3 + 2 + 1 + ½ = 7½ h by the clock for 5½ h of labor, ½ h of opening and 2 h of waiting.
    """
    done = scheduled(task("roll 1", 3.0, wait=2.0), task("roll 2", 1.0))
    assert done.days.value == 1
    assert done.elapsed.value == pytest.approx(7.5)
    assert sum(hours(done).values()) == pytest.approx(8.0)
    assert (done.worked.value, done.idle.value) == (pytest.approx(6.0), pytest.approx(2.0))
    assert done.presence.value == done.paid.value == pytest.approx(8.0)
    second = done.times[2]
    assert (second.start_day, second.start_hour) == (1, pytest.approx(6.0))


def test_a_night_dries_without_a_day_on_site() -> None:
    """24 h to dry are gone by the next day at the same hour: two days on site, not three."""
    done = scheduled(task("seal", 3.0, wait=24.0), task("roll", 2.0))
    assert done.days.value == 2
    assert (done.times[2].start_day, done.times[2].start_hour) == (2, pytest.approx(4.0))


def test_a_wait_in_minutes_is_a_wait_in_minutes() -> None:
    """Mist takes 15 minutes to settle: a quarter of an hour and not fifteen of them."""
    spray = task("spray", 1.0, wait=1.0)
    assert spray.wait is not None
    short = type(spray.wait)("mist settling", 15.0, "minute", spray.wait.origin, 15.0, 15.0)
    done = scheduled(
        Task("spray", "spray", Phase.CEILING, spray.hours, "hall", short), task("unmask", 1.0, Phase.UNMASK)
    )
    assert done.times[2].start_hour == pytest.approx(1 + 1 + 0.25)
    assert done.elapsed.value == pytest.approx(1 + 1 + 0.25 + 1 + 0.5)


def test_the_crew_is_a_figure_that_can_be_changed() -> None:
    """It leads back to its field of the job."""
    crew = crew_size(small_job(3))
    assert (crew.value, crew.key, crew.origin.place) == (3.0, "crew · people", "crew · people")
