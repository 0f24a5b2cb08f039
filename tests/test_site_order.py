"""A schedule a foreman would run, asked of demo jobs: rooms in turn, alarms back, nothing moved by the file's order."""

import pytest
from places import JOBS

from estimating.estimate.pricing.plan import Around
from estimating.workbook import Outcome, estimate_job, read_job

HOUSE = JOBS / "hazel_bank_whole_house.toml"


@pytest.fixture(scope="module")
def house() -> Outcome:
    return estimate_job(read_job(HOUSE))


def test_alarms_are_uncovered_the_day_they_are_covered(house: Outcome) -> None:
    """And nothing but mist or dust goes on in between."""
    plan, covered = house.estimate.schedule, dict[tuple[str, str], int]()
    seen = 0
    for task, time in zip(plan.on_site, plan.times, strict=True):
        kind = task.key.rpartition("_")[2]
        if task.around is Around.BEFORE and not task.machine:
            covered[task.room, kind] = time.start_day
        elif task.around is Around.AFTER and not task.machine:
            assert covered.pop((task.room, kind)) == time.end_day
            seen += 1
        elif any(room == task.room for room, _ in covered):
            assert task.in_air
    assert seen
    assert not covered


def test_no_more_than_three_rooms_are_open_at_once(house: Outcome) -> None:
    """From the first task of a room to its last."""
    rooms = [task.room for task in house.estimate.schedule.on_site]
    spans = [(rooms.index(room), len(rooms) - 1 - rooms[::-1].index(room)) for room in {*rooms} - {""}]
    assert max(sum(first <= place <= last for first, last in spans) for place in range(len(rooms))) <= 3


def test_waiting_is_a_line_of_its_own(house: Outcome) -> None:
    """What the whole crew waits is paid, and the three numbers of hours add up."""
    plan = house.estimate.schedule
    (line,) = [line for line in house.estimate.lines if line.key == "waiting"]
    assert line.quantity.value == plan.idle.value > 0
    assert plan.presence.value == pytest.approx(plan.worked.value + plan.idle.value)
    assert plan.paid.value == pytest.approx(house.estimate.hours.value)


@pytest.mark.parametrize("job", ["birch_lane_upstairs", "hazel_bank_whole_house"])
def test_the_order_in_the_file_moves_nothing(job: str) -> None:
    """Rooms and work the other way round: the same price, to the cent, and the same days."""
    read = read_job(JOBS / f"{job}.toml")
    turned = read.model_copy(update={"rooms": read.rooms[::-1], "work": read.work[::-1]})
    one, other = (estimate_job(each).estimate for each in (read, turned))
    assert (one.price, one.schedule.days.value) == (other.price, other.schedule.days.value)
