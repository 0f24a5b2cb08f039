"""The elapsed clock: labor inside working days, and waits that run on through the night.

Steps follow one another: each is some person-hours of labor, shared by the crew, and then a wait (drying, settling,
airing) before the next may start in the same room. Labor stops at the end of the working day and goes on next
morning; a wait does not stop. Every day is taken as a working day. The crew is in one room at a time, in the order of
the steps; a step of no room waits for all of them. Where no rooms are named, all is done in one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from typing import NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.trade._numbers import TOLERANCE, pick, require, round_up
from estimating.trade.labor import crew_elapsed
from estimating.units import Number

T = TypeVar("T")
DAY = 24.0  # hours
ONE_ROOM = "the room"
CLOCK = definition("labor within working days, waits by the clock, steps in the order given")


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


class _Moment(NamedTuple):
    day: Number  # the first is 0
    hour: Number  # since the working day opened


class _Step(NamedTuple):
    worked: bool | npt.NDArray[np.bool_]
    start: _Moment
    end: _Moment
    ready: _Moment


def _settled(holds: bool | np.bool_ | npt.NDArray[np.bool_]) -> bool | npt.NDArray[np.bool_]:
    """Return a condition as one answer where there is only one case, or where it holds in all of them."""
    if isinstance(holds, np.ndarray):
        return True if holds.all() else holds
    return bool(holds)


def _either(holds: bool | np.bool_ | npt.NDArray[np.bool_], one: _Moment, other: _Moment) -> _Moment:
    """Return one moment where a condition holds and the other where not."""
    if isinstance(holds, bool | np.bool_):
        return one if holds else other
    return _Moment(np.where(holds, one.day, other.day), np.where(holds, one.hour, other.hour))


def _at_work(moment: _Moment, day_length: Number) -> _Moment:
    """Return the first moment from this one on at which the crew is at work."""
    over = moment.hour >= day_length * (1 - TOLERANCE)
    return _either(over, _Moment(moment.day + 1, 0.0), moment)


def _labor(start: _Moment, labor: Number, day_length: Number) -> _Moment:
    """Return when labor begun at `start` is done, stopping at each day's end."""
    worked = start.hour + labor
    if isinstance(worked, float) and worked <= day_length:
        return _Moment(start.day, worked)  # one case, and no night in it: what the lines below come to, and quicker
    nights = np.maximum(round_up(worked, day_length) - 1, 0.0)
    return _Moment(start.day + nights, worked - nights * day_length)


def _waited(end: _Moment, wait: Number) -> _Moment:
    """Return when a wait begun at `end` is over; it does not stop at night."""
    hour = end.hour + wait
    if isinstance(hour, float) and hour < DAY:
        return _Moment(end.day, hour)
    nights = np.floor(hour / DAY)
    return _Moment(end.day + nights, hour - nights * DAY)


def _later(one: _Moment, other: _Moment) -> _Moment:
    """Return whichever of two moments comes later."""
    return _either(one.day * DAY + one.hour >= other.day * DAY + other.hour, one, other)


def _walk(
    steps: Sequence[tuple[Number, Number]], crew: Number, day_length: Number, rooms: Sequence[str] = ()
) -> Iterator[_Step]:
    """Yield the steps in order; one without labor takes place as soon as it may, at any hour."""
    require((day_length > 0) & (day_length <= DAY), "day_length", day_length, "more than 0, at most 24 hours")
    free = _Moment(0.0, 0.0)
    dry: dict[str, _Moment] = {}
    for (hours, wait), room in zip(steps, rooms or [ONE_ROOM] * len(steps), strict=True):
        require(wait >= 0, "wait", wait, "0 hours or more")
        now = reduce(_later, [dry[each] for each in ([room] if room else dry) if each in dry], free)
        labor = crew_elapsed(hours=hours, crew=crew)
        worked = _settled(labor > 0)
        opening = _at_work(now, day_length)
        start = _either(worked, opening, now)
        end = _either(worked, _labor(opening, labor, day_length), now)
        free = _either(worked, end, free)
        dry[room] = _waited(end, wait)
        yield _Step(worked, start, end, dry[room])


def _pairs(steps: Sequence[T]) -> list[tuple[T, T]]:
    if len(steps) % 2:
        raise InputError("steps", len(steps), "labor and wait in turn, so an even number of them")
    return list(zip(steps[::2], steps[1::2], strict=True))


def _days(steps: Sequence[Number], crew: Number, day_length: Number, rooms: Sequence[str] = ()) -> Number:
    plain = [each for each in (*steps, crew, day_length) if isinstance(each, float) and each >= 0]
    if len(plain) == len(steps) + 2 and plain[-2] > 0 and 0 < plain[-1] <= DAY:
        return days_on_site(_pairs(plain[:-2]), crew=plain[-2], day_length=plain[-1], rooms=rooms)
    days: Number = 0.0
    last: Number = -1.0
    for step in _walk(_pairs(steps), crew, day_length, rooms):
        fresh = step.end.day - pick(step.start.day > last, step.start.day, last + 1) + 1
        days = days + pick(step.worked, fresh, 0.0)
        last = pick(step.worked, step.end.day, last)
    return np.asarray(days)[()]


def days_on_site(
    steps: Sequence[tuple[float, float]], *, crew: float, day_length: float, rooms: Sequence[str] = ()
) -> float:
    """Return the days on which some labor is done, for plain numbers that were looked at before.

    What `days_in_rooms` comes to, many times as fast: a choice between ways asks for it again and again.
    steps: person-hours and the wait after them, in hours. rooms: the room of each; none where all are in one.
    """
    day, hour, days, last = 0.0, 0.0, 0.0, -1.0
    closing = day_length * (1 - TOLERANCE)
    dry: dict[str, tuple[float, float]] = {}  # of rooms in which something had to wait
    for (hours, wait), room in zip(steps, rooms or [ONE_ROOM] * len(steps), strict=True):
        on, at = day, hour
        for each in () if not dry else (room,) if room else tuple(dry):
            ready, since = dry.get(each, (0.0, 0.0))
            if ready * DAY + since > on * DAY + at:
                on, at = ready, since
        if hours > 0:
            if at >= closing:
                on, at = on + 1, 0.0
            first, at = on, at + hours / crew
            if at > day_length:
                nights = max(math.ceil(at / day_length * (1 - TOLERANCE)) - 1, 0)
                on, at = on + nights, at - nights * day_length
            day, hour = on, at
            days, last = days + on - max(first, last + 1) + 1, on
        if wait > 0:
            nights = math.floor((at + wait) / DAY)
            dry[room] = on + nights, at + wait - nights * DAY
    return days


def _elapsed(steps: Sequence[Number], crew: Number, day_length: Number, rooms: Sequence[str] = ()) -> Number:
    ready = reduce(_later, [step.ready for step in _walk(_pairs(steps), crew, day_length, rooms)], _Moment(0.0, 0.0))
    return np.asarray(ready.day * DAY + ready.hour)[()]


@lru_cache(maxsize=64)  # the same rooms give the same rule, so that two estimates of one job can be told to be alike
def days_in_rooms(rooms: tuple[str, ...]) -> Callable[..., Number]:
    """Return the rule for the days on which some labor is done, each step in the room named in the same place.

    A day that only dries is none of them. Its steps are person-hours, then the wait after them, by turns and in order
    (hours), under any names. Without rooms all is done in one.
    """
    return _in_rooms(_days, rooms, "days on which some labor is done", "dimensionless")


@lru_cache(maxsize=64)
def elapsed_in_rooms(rooms: tuple[str, ...]) -> Callable[..., Number]:
    """Return the rule for the hours by the clock, nights included, until the last wait is over; as `days_in_rooms`."""
    return _in_rooms(_elapsed, rooms, "hours from the first start until the last wait is over", "hour")


def _in_rooms(answer: Callable[..., Number], rooms: tuple[str, ...], formula: str, unit: str) -> Callable[..., Number]:
    said = f"{formula}, one room drying while another is worked in" if rooms else formula

    @rule(said, unit, CLOCK, rest="hour", day_length="hour, more than 0, at most 24", crew="dimensionless, more than 0")
    def schedule_in_rooms(*, day_length: Number, crew: Number, **steps: Number) -> Number:
        """Return what the steps come to on the clock: person-hours, then the wait after them, by turns and in order."""
        return answer(list(steps.values()), crew, day_length, rooms)

    return schedule_in_rooms


def step_times(
    steps: Sequence[tuple[float, float]], *, crew: float, day_length: float, rooms: Sequence[str] = ()
) -> list[StepTime]:
    """Return when each step starts, ends and is dry, for the crew sheet.

    steps: person-hours and the wait after them, in hours. rooms: the room of each; none where all are in one.
    """
    return [
        StepTime(
            int(start.day) + 1,
            float(start.hour),
            int(end.day) + 1,
            float(end.hour),
            int(ready.day) + 1,
            float(ready.hour),
        )
        for _worked, start, end, ready in _walk(steps, crew, day_length, rooms)
    ]
