"""The clock of a site: labor inside working days, waits that run on through the night, and who waits for what.

Steps follow one another as they were put in order: each is some person-hours of labor in one room, shared by the crew,
perhaps a pause within it (mist settling before alarms are uncovered), and then a wait (drying, airing) before the next
may start in the same room. A step of no room waits for all of them.

The crew's day, in our judgment of common practice:
- Labor stops at the end of the working day and goes on next morning. A step that has to be whole, because alarms are
  covered during it, starts on a day on which it can be finished.
- Where everything open still dries, the crew waits on pay if that is not for long, and otherwise goes home: the rest
  of that day isn't paid, and the job goes on next morning, or when the room is ready.
- A short end is absorbed: what is left of the whole job is finished the same evening if it needs no more than a little
  overtime.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from estimating.origins import definition, judgment
from estimating.rules import rule
from estimating.trade._numbers import TOLERANCE, pick, require
from estimating.units import Number

DAY = 24.0  # hours
Truth: TypeAlias = bool | np.bool_ | npt.NDArray[np.bool_]
CLOCK = definition("labor within working days, waits by the clock, steps in the order given")
STAY = judgment("a crew is kept waiting for less than what another visit costs it; otherwise it goes home")


@dataclass(frozen=True)
class StepTime:
    """When a step starts, when its labor ends and when its wait is over.

    Days count from 1; hours count from the opening of the working day and run on into the night, up to 24.
    """

    start_day: int
    start_hour: float
    end_day: int
    end_hour: float
    ready_day: int
    ready_hour: float


@dataclass(frozen=True)
class SiteOrder:
    """The steps of a job in the order in which they are done: the room of each, and whether it has to be whole."""

    rooms: tuple[str, ...]
    whole: tuple[bool, ...]


class Hours(NamedTuple):
    """The hours of a day on site: how long it is, what may be added to finish the job, how long a wait is waited."""

    day_length: Number
    overtime: Number
    stay: Number


class PlainHours(NamedTuple):
    """The same as plain numbers."""

    day_length: float
    overtime: float
    stay: float


class PlainStep(NamedTuple):
    """A step in plain numbers."""

    labor: float
    pause: float
    wait: float


class Step(NamedTuple):
    """A step by the clock, hours for the whole crew: its labor, the pause within it and the wait after it."""

    labor: Number
    pause: Number
    wait: Number


class Taken(NamedTuple):
    """When a step was taken, in hours since the first opening, nights among them; and how long the crew waited."""

    worked: Truth
    start: Number
    end: Number
    ready: Number
    idle: Number


def take_step(free: Number, ready: Number, step: Step, rest: Number, whole: bool, hours: Hours) -> Taken:
    """Return when a step is taken by a crew that is free at one moment, in a room that is ready at another.

    rest: the hours of labor and pauses left in the whole job, those of this step among them.
    """
    day_length, overtime, stay = hours
    length = step.labor + step.pause
    worked = length > 0
    now = pick(ready > free, ready, free)
    hour = now % DAY
    gap = pick(now // DAY == free // DAY, now - free, 0.0)
    limit = day_length + overtime
    too_late = (hour >= day_length * (1 - TOLERANCE)) & (hour + rest > limit)
    splits = (hour + length > limit) & (hour > 0) & (length <= limit) if whole else False
    leaves = too_late | (gap > stay) | splits
    start = pick(leaves, (now // DAY + 1) * DAY, now)
    hour = pick(leaves, 0.0, hour)
    at_end = hour + length
    nights = _nights(at_end, day_length)
    least = _nights(pick(hour + rest > overtime, hour + rest - overtime, 0.0), day_length)
    nights = pick(nights > least, least, nights)
    if whole:
        nights = pick(at_end <= limit, 0.0, nights)
    end = pick(worked, start - hour + nights * DAY + at_end - nights * day_length, now)
    return Taken(worked, pick(worked, start, now), end, end + step.wait, pick(worked, pick(leaves, 0.0, gap), 0.0))


def take_one(
    free: float, ready: float, step: PlainStep, rest: float, whole: bool, hours: PlainHours
) -> tuple[bool, float, float, float, float]:
    """Return what `take_step` does, in plain numbers: an order is chosen by taking steps by the thousand."""
    day_length, overtime, stay = hours
    labor, pause, wait = step
    length = labor + pause
    now = ready if ready > free else free
    if not length > 0:
        return False, now, now, now + wait, 0.0
    opening = now // DAY * DAY
    hour, limit = now - opening, day_length + overtime
    gap = now - free if free >= opening else 0.0
    too_late = hour >= day_length * (1 - TOLERANCE) and hour + rest > limit
    if too_late or gap > stay or (whole and hour > 0 and length <= limit < hour + length):
        opening, hour, gap = opening + DAY, 0.0, 0.0
    at_end = hour + length
    nights = 0.0
    if at_end > day_length and not (whole and at_end <= limit):
        least = float(_nights(max(hour + rest - overtime, 0.0), day_length))
        nights = min(float(_nights(at_end, day_length)), least)
    end = opening + nights * DAY + at_end - nights * day_length
    return True, opening + hour, end, end + wait, gap


def _nights(worked: Number, day_length: Number) -> Number:
    """Return the nights between the opening of a day and the end of so many hours of work."""
    nights = -(-worked * (1 - TOLERANCE) // day_length) - 1.0
    return pick(nights > 0, nights, 0.0)


def walk(steps: Sequence[Step], order: SiteOrder, hours: Hours) -> Iterator[Taken]:
    """Yield the steps in order; one without labor takes place as soon as it may, at any hour."""
    limit = hours.day_length + hours.overtime
    require((hours.day_length > 0) & (limit <= DAY), "day_length", limit, "more than 0, with overtime at most 24 hours")
    free: Number = 0.0
    rest: Number = sum((step.labor + step.pause for step in steps), 0.0)
    ready: dict[str, Number] = {}
    waits = [step.wait for step in steps]  # not in the rest, and the only array where a drying time alone is moved
    plain = all(isinstance(each, float) for each in (limit, rest, hours.stay, *waits))
    take: Callable[..., Any] = take_one if plain else take_step
    for step, room, whole in zip(steps, order.rooms, order.whole, strict=True):
        taken = Taken(*take(free, _ready(ready, room, free), step, rest, whole, hours))
        free = pick(taken.worked, taken.end, free)
        rest = pick(rest > step.labor + step.pause, rest - step.labor - step.pause, 0.0)
        ready[room] = taken.ready
        yield taken


def _ready(ready: dict[str, Number], room: str, free: Number) -> Number:
    """Return when a room is ready, and the whole site for it; all rooms, where it is no room."""
    latest = free
    for each in [ready[name] for name in (room, "") if name in ready] if room else ready.values():
        latest = pick(each > latest, each, latest)
    return latest


def days_worked(steps: Sequence[Taken], among: Sequence[bool] | None = None) -> Number:
    """Return the days on which some labor is done, in all steps or in those named."""
    days: Number = 0.0
    last: Number = -1.0
    for step, counts in zip(steps, among or [True] * len(steps), strict=True):
        if counts:
            first, end = step.start // DAY, -(-step.end // DAY) - 1
            end = pick(end > first, end, first)
            fresh = end - pick(first > last, first, last + 1) + 1
            days = days + pick(step.worked, fresh, 0.0)
            last = pick(step.worked, end, last)
    return days


def _steps(numbers: Sequence[Number], crew: Number) -> list[Step]:
    require(len(numbers) % 3 == 0, "steps", len(numbers), "labor, pause and wait in turn")
    turns = zip(numbers[::3], numbers[1::3], numbers[2::3], strict=True)
    return [Step(labor / crew, pause, wait) for labor, pause, wait in turns]


@dataclass(frozen=True)
class ClockRules:
    """The rules of one order of steps, each a registered rule.

    Their arguments: day_length, overtime and stay in hours, crew, and then for each step in order, under any names, its
    person-hours, the pause within it and the wait after it, in hours.
    """

    days: Callable[..., Number]
    elapsed: Callable[..., Number]
    idle: Callable[..., Number]
    days_of: Callable[..., Callable[..., Number]]


@lru_cache(maxsize=64)  # the same order gives the same rules, so that two estimates of one job can be told to be alike
def clock_rules(order: SiteOrder) -> ClockRules:
    """Return the rules that say what an order of steps comes to: days, hours by the clock and hours waited."""

    def taken(
        day_length: Number, overtime: Number, stay: Number, crew: Number, steps: dict[str, Number]
    ) -> list[Taken]:
        found = _steps(list(steps.values()), crew)
        return list(walk(found, order, Hours(day_length, overtime, stay)))

    hours = {
        "day_length": "hour, more than 0",
        "overtime": "hour, 0 or more",
        "stay": "hour, 0 or more",
        "crew": "dimensionless, more than 0",
    }

    @rule("days on which some labor is done, one room drying while another is worked in", "dimensionless", CLOCK,
          rest="hour, 0 or more", **hours)  # fmt: skip
    def days_on_site(*, day_length: Number, overtime: Number, stay: Number, crew: Number, **steps: Number) -> Number:
        return days_worked(taken(day_length, overtime, stay, crew, steps))

    @rule("hours from the first start until the last wait is over", "hour", CLOCK, rest="hour, 0 or more", **hours)
    def elapsed(*, day_length: Number, overtime: Number, stay: Number, crew: Number, **steps: Number) -> Number:
        latest: Number = 0.0
        for each in taken(day_length, overtime, stay, crew, steps):
            latest = pick(each.ready > latest, each.ready, latest)
        return latest

    @rule("person-hours in which the whole crew waits inside a working day, pauses among them", "hour", STAY,
          rest="hour, 0 or more", **hours)  # fmt: skip
    def idle(*, day_length: Number, overtime: Number, stay: Number, crew: Number, **steps: Number) -> Number:
        pauses = sum(list(steps.values())[1::3], 0.0)
        return crew * (sum((each.idle for each in taken(day_length, overtime, stay, crew, steps)), 0.0) + pauses)

    @lru_cache(maxsize=8)
    def days_of(among: tuple[bool, ...]) -> Callable[..., Number]:
        @rule("days on which a machine works", "dimensionless", CLOCK, rest="hour, 0 or more", **hours)
        def days_of_use(*, day_length: Number, overtime: Number, stay: Number, crew: Number, **steps: Number) -> Number:
            return days_worked(taken(day_length, overtime, stay, crew, steps), among)

        return days_of_use

    return ClockRules(days_on_site, elapsed, idle, days_of)


@rule(
    "longest wait on site = the larger of longest wait and visit / crew",
    "hour",
    STAY,
    longest="hour, 0 or more",
    daily_start="hour, 0 or more",
    one_way="hour, 0 or more",
    crew="dimensionless, more than 0",
)
def longest_stay(*, longest: Number, daily_start: Number, one_way: Number, crew: Number) -> Number:
    """Return for how long a crew waits on site: a while, or as long as coming back once more would cost each of them.

    longest: what is waited in any case (hours). daily_start: person-hours of opening and closing a day. one_way: the
    drive (hours).
    """
    visit = daily_start / crew + 2 * one_way
    return pick(visit > longest, visit, longest)


def step_time(start: float, end: float, ready: float) -> StepTime:
    """Return three moments, in hours since the first opening, as days from 1 and hours of the day."""
    return StepTime(*_day_hour(start), *_day_hour(end), *_day_hour(ready))


def _day_hour(moment: float) -> tuple[int, float]:
    return int(moment // DAY) + 1, moment % DAY
