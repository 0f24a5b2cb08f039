"""A whole house of all kinds of work is one job: one visit, one order, one schedule."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from itertools import combinations
from typing import Any

import pytest
from places import JOBS

from estimating.estimate.pricing.engine import Likely
from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.plan import Phase
from estimating.estimate.whatif.compare import Option
from estimating.job.file import plain_job
from estimating.scopes.registry import KINDS
from estimating.scopes.shared.products import WALL_PAINT
from estimating.scopes.shared.protection import FIXTURES
from estimating.trade.drying import StepTime
from estimating.workbook import Outcome, build_job, estimate_job, read_job

HOUSE = JOBS / "hazel_bank_whole_house.toml"
ONCE_A_JOB = ("mobilize", "final_walk", "daily_start", "travel", "waiting", "lead_pamphlet", "wash_rollers")
A_DAY_OF_SPRAYING = ("set_up_sprayer", "wash_sprayer")


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
    """Twelve rooms, the kinds of work that an old house takes indoors, some rooms with two; invented."""
    kinds = {item.kind for item in house.job.work}
    assert kinds == {"interior_repaint", "textured_ceiling", "wallcovering"}
    assert {item.kind for path in JOBS.glob("*.toml") for item in read_job(path).work} == set(KINDS)
    assert len(house.job.rooms) >= 12
    assert {item.room for item in house.job.work} == {room.name for room in house.job.rooms}
    assert max(Counter(item.room for item in house.job.work).values()) >= 2
    assert house.job.invented


def test_the_crew_comes_once_and_brings_its_tools_once(house: Outcome) -> None:
    """One mobilization, one pamphlet, one wash of the rollers, though nearly every room asks for the pamphlet."""
    keys = Counter(task.key for task in house.estimate.schedule.tasks)
    assert {key: keys[key] for key in ONCE_A_JOB} == dict.fromkeys(ONCE_A_JOB, 1)
    wanted = Counter(task.key for plan in house.estimate.plans for task in plan.tasks)
    assert wanted["lead_pamphlet"] >= 10
    assert wanted["set_up_sprayer"] >= 2


def test_a_sprayer_is_up_before_its_first_use_of_a_day_and_clean_after_its_last(house: Outcome) -> None:
    """It is set up and flushed on each day on which something is sprayed, and on no other; in between it sprays.

    Once a day for all rooms, but where a room's spraying would slip into another day without its own cleaning.
    """
    plan = house.estimate.schedule
    by_day: dict[int, list[str]] = {}
    for task, time in zip(plan.on_site, plan.times, strict=True):
        if task.title.startswith("Spray ") or task.key in A_DAY_OF_SPRAYING:
            assert time.start_day == time.end_day
            by_day.setdefault(time.start_day, []).append(task.key)
    assert len(by_day) >= 2
    assert any(len(keys) > 3 for keys in by_day.values())
    twice = 0
    for keys in by_day.values():
        assert (keys[0], keys[-1]) == A_DAY_OF_SPRAYING
        care = [key for key in keys if key in A_DAY_OF_SPRAYING]
        assert care == list(A_DAY_OF_SPRAYING) * (len(care) // 2)
        assert len(keys) > len(care)
        twice += len(care) > 2
    assert twice <= 1


def test_floor_furniture_and_fixtures_are_covered_once_a_room(house: Outcome) -> None:
    """A room with a ceiling and walls, or with paper and trim, is got ready and given back once.

    Alarms are not among them: they come back between spells of dust or mist.
    """
    covers = {"move_furniture", "protect_floor", "unmask_floor"}
    covers |= {f"{verb}_{kind}" for verb in ("mask", "uncover") for kind in FIXTURES}
    done = Counter(
        (task.key, task.room) for task in house.estimate.schedule.tasks if task.key in covers and task.around is None
    )
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
    own = {
        (task.key, task.room)
        for each in rooms
        for task in each.schedule.tasks
        if task.key not in (*ONCE_A_JOB, *A_DAY_OF_SPRAYING)
    }
    assert {(task.key, task.room) for task in house.estimate.schedule.tasks} >= own


def test_the_days_are_far_fewer_than_those_of_its_rooms_one_by_one(house: Outcome, alone: dict[str, Outcome]) -> None:
    """Never fewer than its labor takes, and a third less at least than those of the rooms."""
    plan = house.estimate.schedule
    labor = sum(task.hours.value for task in plan.on_site) / plan.crew.value
    assert plan.days.value >= labor / plan.working_day.value
    assert plan.days.value < 0.7 * sum(each.estimate.schedule.days.value for each in alone.values())


def test_a_crew_goes_home_early_only_where_no_further_room_may_be_opened(house: Outcome) -> None:
    """With less than the longest wait paid for (two hours) left of a day it may; else three rooms are open, or all."""
    plan = house.estimate.schedule
    steps = list(zip(plan.on_site, plan.times, strict=True))
    spans: dict[str, tuple[int, int]] = {}
    for task, time in steps:
        first, last = spans.get(task.room, (time.start_day, time.end_day))
        spans[task.room] = (min(first, time.start_day), max(last, time.end_day))
    spans.pop("")
    ends = {
        day: max(time.end_hour for _, time in steps if time.end_day == day)
        for _, time in steps
        for day in [time.end_day]
    }
    early = [day for day, end in ends.items() if end < plan.working_day.value - 2 and day < max(ends)]
    for day in early:
        still_open = sum(first <= day < last for first, last in spans.values())
        assert still_open == 3 or all(first <= day for first, _ in spans.values())


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


def test_each_room_goes_from_phase_to_phase(house: Outcome) -> None:
    """In a room everything is covered before anything is sanded, ceilings come before walls, and paper hangs last."""
    rooms: dict[str, list[Phase]] = {}
    for task in house.estimate.schedule.on_site:
        if task.around is None:
            rooms.setdefault(task.room, []).append(task.phase)
    assert all(phases == sorted(phases) for phases in rooms.values())
    assert sum(Phase.CEILING in phases for phases in rooms.values()) > 5
    hung = [phases for phases in rooms.values() if Phase.FINISH in phases]
    assert hung
    assert all({Phase.TRIM, Phase.CEILING} <= set(phases) for phases in hung)


def test_every_piece_is_the_one_the_rule_prefers_beside_the_others(house: Outcome) -> None:
    """Least of what it adds to the cost, with half of the mending once more; the plainer within 2 %; calm above 20 %.

    Worked out here from the options alone: what is taken is the first listed of those within the tie, or where that
    one fails oftener than one time in five, one that fails half as often and adds no more than 15 % to the price.
    """
    assert len(house.comparisons) == len(house.job.work)
    for found in house.comparisons:
        assert found.taken is found.recommended
        assert found.taken.price == house.estimate.price
        may = [each for each in found.options if each.plan.finishes and each.plan.suitability != "not recommended here"]
        adds = [_adds(each, found.without) for each in may]
        chances = [max((risk.chance.value for risk in each.plan.risks if risk.surface), default=0.0) for each in may]
        least = adds.index(min(adds))
        plain = next(
            place
            for place, cost in enumerate(adds)
            if cost <= 1.02 * min(adds) and chances[place] <= max(chances[least], 0.2)
        )
        taken = may.index(found.taken)
        extra = [float(_judged(each).price - found.without.price) for each in may]
        calmer = [
            place
            for place, chance in enumerate(chances)
            if chances[plain] > 0.2 and chance < chances[plain] / 2 and extra[place] <= 1.15 * extra[plain]
        ]
        assert taken in (calmer or [plain])


def _judged(option: Option) -> Likely:
    return option.judged or option.likely


def _adds(option: Option, without: Likely) -> float:
    beyond = sum(risk.expected.value for risk in option.plan.risks if risk.surface) / 2
    return _judged(option).cost - without.cost + beyond


def test_its_lines_add_up(house: Outcome) -> None:
    """Section by section, and room by room with what belongs to none."""
    lines = house.estimate.lines
    assert sum((sum_of(house.estimate.section(section)) for section in Section), Decimal(0)) == house.estimate.price
    rooms = {line.room for line in lines}
    assert sum((sum_of(line for line in lines if line.room == room) for room in rooms), Decimal(0)) == sum_of(lines)


def test_the_lead_pamphlet_is_signed_before_work_begins_in_any_room(house: Outcome) -> None:
    """Handed over on the first morning, once, and before the first task of every room."""
    keys = [task.key for task in house.estimate.schedule.on_site]
    rooms = [task.room for task in house.estimate.schedule.on_site]
    assert keys.count("lead_pamphlet") == 1
    assert not any(rooms[: keys.index("lead_pamphlet")])


def test_outdoors_too_the_pamphlet_is_signed_before_work_begins_anywhere(house: Outcome) -> None:
    """A house worked at inside and out has one pamphlet, before the first task of every place."""
    outside = read_job(JOBS / "willow_bend_house.toml")
    plain, out = plain_job(house.job), plain_job(outside)
    both = {**plain, "rooms": [*plain["rooms"], *out["rooms"]], "work": [*plain["work"][:4], *out["work"]]}
    on_site = estimate_job(build_job(both)).estimate.schedule.on_site
    keys = [task.key for task in on_site]
    assert keys.count("lead_pamphlet") == 1
    assert "lead_ground_set_up" in keys
    assert "lead_set_up" in keys
    assert not any(task.room for task in on_site[: keys.index("lead_pamphlet")])
