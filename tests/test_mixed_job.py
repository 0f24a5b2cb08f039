"""A whole house of all kinds of work is one job: one visit, one order, one schedule."""

from __future__ import annotations

import math
from collections import Counter
from decimal import Decimal
from itertools import combinations
from typing import Any

import pytest
from places import JOBS

from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.plan import Phase
from estimating.job.file import plain_job
from estimating.scopes.registry import KINDS
from estimating.scopes.shared.products import WALL_PAINT
from estimating.scopes.shared.protection import FIXTURES
from estimating.trade.drying import StepTime
from estimating.workbook import Outcome, build_job, estimate_job, read_job

HOUSE = JOBS / "hazel_bank_whole_house.toml"
ONCE_A_JOB = ("mobilize", "final_walk", "daily_start", "travel", "set_up_sprayer", "wash_sprayer", "wash_rollers")


@pytest.fixture(scope="module")
def house() -> Outcome:
    return estimate_job(read_job(HOUSE))


@pytest.fixture(scope="module")
def alone(house: Outcome) -> dict[str, Outcome]:
    """Return every room as a job of its own, each piece done the way it is done in the house."""
    plain = plain_job(house.job)
    found = {}
    for room in plain["rooms"]:
        work = [
            {**item, "method": plan.method}
            for item, plan in zip(plain["work"], house.estimate.plans, strict=True)
            if item["room"] == room["name"]
        ]
        found[room["name"]] = estimate_job(build_job({**plain, "rooms": [room], "work": work}))
    return found


def hour(step: StepTime, end: str = "start") -> float:
    """Return hours by the clock from the opening of the first day."""
    day, since = getattr(step, f"{end}_day"), getattr(step, f"{end}_hour")
    return float((day - 1) * 24 + since)


def test_it_is_a_whole_house_of_every_kind_of_work(house: Outcome) -> None:
    """Twelve rooms, all kinds, some rooms with two; invented."""
    kinds = {item.kind for item in house.job.work}
    assert kinds == set(KINDS)
    assert len(house.job.rooms) >= 12
    assert {item.room for item in house.job.work} == {room.name for room in house.job.rooms}
    assert max(Counter(item.room for item in house.job.work).values()) >= 2
    assert house.job.invented


def test_the_crew_comes_once_and_brings_its_tools_once(house: Outcome) -> None:
    """One mobilization; one set-up and one wash of the sprayer, though several rooms are sprayed."""
    keys = Counter(task.key for task in house.estimate.schedule.tasks)
    assert {key: keys[key] for key in ONCE_A_JOB} == dict.fromkeys(ONCE_A_JOB, 1)
    wanted = Counter(task.key for plan in house.estimate.plans for task in plan.tasks)
    assert wanted["set_up_sprayer"] >= 2
    assert wanted["wash_rollers"] >= 10


def test_what_is_put_up_once_is_up_before_its_first_use_and_down_after_its_last(house: Outcome) -> None:
    """The sprayer is washed when nothing is left to spray."""
    on_site = house.estimate.schedule.on_site
    keys = [task.key for task in on_site]
    sprayed = [place for place, task in enumerate(on_site) if task.title.startswith("Spray ")]
    assert keys.index("set_up_sprayer") < min(sprayed) <= max(sprayed) < keys.index("wash_sprayer")


def test_floor_furniture_and_fixtures_are_covered_once_a_room(house: Outcome) -> None:
    """A room with a ceiling and walls, or with paper and trim, is got ready and given back once."""
    covers = {"move_furniture", "protect_floor", "unmask_floor"}
    covers |= {f"{verb}_{kind}" for verb in ("mask", "uncover") for kind in FIXTURES}
    done = Counter((task.key, task.room) for task in house.estimate.schedule.tasks if task.key in covers)
    assert set(done.values()) == {1}
    assert {room for key, room in done if key == "protect_floor"} == {room.name for room in house.job.rooms}
    twice = Counter(
        (task.key, task.room) for plan in house.estimate.plans for task in plan.tasks if task.key == "protect_floor"
    )
    assert max(twice.values()) >= 2


def test_paint_of_one_product_and_color_is_one_order(house: Outcome, alone: dict[str, Outcome]) -> None:
    """All rooms together: the need is that of the rooms, less what stays in each room's roller but one; fewer cans."""
    orders = {(order.product, order.color): order for order in house.estimate.paint}
    assert len(orders) == len(house.estimate.paint)
    rooms: dict[tuple[str, str], list[Any]] = {}
    for outcome in alone.values():
        for order in outcome.estimate.paint:
            rooms.setdefault((order.product, order.color), []).append(order)
    assert set(rooms) == set(orders)
    assert len(rooms[WALL_PAINT, "soft white"]) >= 8
    for batch, order in orders.items():
        assert order.need.value <= sum(each.need.value for each in rooms[batch]) + 1e-9
        assert order.containers.gallons_bought >= order.need.value - 1e-9
        assert order.cost.value <= sum(each.cost.value for each in rooms[batch]) + 1e-9


def test_supplies_of_one_item_are_one_order(house: Outcome, alone: dict[str, Outcome]) -> None:
    """Rolls are shared by the rooms: never more of them than the rooms would buy one by one, and of some fewer."""
    bought = {order.item: order.count.value for order in house.estimate.supplies}
    assert len(bought) == len(house.estimate.supplies)
    rooms = Counter[str]()
    for outcome in alone.values():
        rooms.update({order.item: order.count.value for order in outcome.estimate.supplies})
    assert set(rooms) == set(bought)
    assert all(count <= rooms[item] for item, count in bought.items())
    assert bought["floor_paper"] < rooms["floor_paper"]
    assert bought["sandpaper"] == 1


def test_the_house_costs_less_than_its_rooms_one_by_one(house: Outcome, alone: dict[str, Outcome]) -> None:
    """Less time, less paint, less money; and no room is forgotten."""
    rooms = [outcome.estimate for outcome in alone.values()]
    assert house.estimate.price < sum((each.price for each in rooms), Decimal(0))
    assert house.estimate.hours.value < sum(each.hours.value for each in rooms)
    assert house.estimate.gallons < sum(each.gallons for each in rooms)
    own = {(task.key, task.room) for each in rooms for task in each.schedule.tasks if task.key not in ONCE_A_JOB}
    assert {(task.key, task.room) for task in house.estimate.schedule.tasks} >= own


def test_the_days_are_those_of_its_labor_not_of_its_rooms(house: Outcome, alone: dict[str, Outcome]) -> None:
    """No day is lost to drying: there is always another room to work in. One by one the rooms take many more."""
    plan = house.estimate.schedule
    labor = sum(task.hours.value for task in plan.on_site) / plan.crew.value
    assert plan.days.value <= math.ceil(labor / plan.working_day.value) + 1
    assert plan.days.value < 0.7 * sum(each.estimate.schedule.days.value for each in alone.values())


def test_rooms_dry_while_others_are_worked_in(house: Outcome) -> None:
    """Work starts in one room while another dries, and in no room before it is dry."""
    plan = house.estimate.schedule
    steps = list(zip(plan.on_site, plan.times, strict=True))
    meanwhile = [
        (one.room, other.room)
        for (one, first), (other, second) in combinations(steps, 2)
        if one.wait is not None and other.room != one.room and hour(first, "end") <= hour(second) < hour(first, "ready")
    ]
    assert len({room for room, _ in meanwhile}) >= 8
    dry: dict[str, float] = {}
    for task, time in steps:
        assert hour(time) >= dry.get(task.room, 0.0) - 1e-9
        dry[task.room] = hour(time, "ready")


def test_the_whole_house_goes_from_phase_to_phase(house: Outcome) -> None:
    """Everything is covered before anything is sanded, ceilings come before walls, and paper hangs last."""
    phases = [task.phase for task in house.estimate.schedule.on_site]
    assert phases == sorted(phases)
    assert phases.count(Phase.CEILING) > 5
    hung = [place for place, phase in enumerate(phases) if phase is Phase.FINISH]
    walls = [place for place, phase in enumerate(phases) if phase in (Phase.WALLS, Phase.TRIM)]
    assert hung
    assert max(walls) < min(hung)


def test_every_piece_is_the_cheapest_beside_the_others(house: Outcome) -> None:
    """The comparison of each piece shows the price of the whole house, and none would be cheaper another way."""
    assert len(house.comparisons) == len(house.job.work)
    for comparison in house.comparisons:
        assert comparison.taken is comparison.recommended
        assert comparison.taken.price == house.estimate.price
        closed = "not recommended here"
        may = [each.price for each in comparison.options if each.plan.finishes and each.plan.suitability != closed]
        assert comparison.taken.price == min(may)


def test_its_lines_add_up(house: Outcome) -> None:
    """Section by section, and room by room with what belongs to none."""
    lines = house.estimate.lines
    assert sum((sum_of(house.estimate.section(section)) for section in Section), Decimal(0)) == house.estimate.price
    rooms = {line.room for line in lines}
    assert sum((sum_of(line for line in lines if line.room == room) for room in rooms), Decimal(0)) == sum_of(lines)
