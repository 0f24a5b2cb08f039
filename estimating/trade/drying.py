"""The elapsed clock: labour inside working days, and waits that run on through the night.

Steps follow one another: each is some person-hours of labour, shared by the crew, and then a wait (drying, settling,
airing) before the next may start in the same room. Labour stops at the end of the working day and goes on next
morning; a wait does not stop. Every day is taken as a working day. The crew is in one room at a time, in the order of
the steps; a step of no room waits for all of them. Where no rooms are named, all is done in one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.origins import definition
from estimating.rules import rule
from estimating.trade.counting import CRUMB, whole
from estimating.trade.guards import need
from estimating.trade.labour import crew_elapsed
from estimating.units import Number

DAY = 24.0  # hours
ONE_ROOM = "the room"
CLOCK = definition("labour within working days, waits by the clock, steps in the order given")


@dataclass(frozen=True)
class StepTime:
    """When a step starts, when its labour ends and when its wait is over.

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


def _pick(holds: bool | np.bool_ | npt.NDArray[np.bool_], one: Number, other: Number) -> Number:
    """Return one number where a condition holds and the other where not; quickly where there is only one case."""
    if isinstance(holds, bool | np.bool_):
        return one if holds else other
    return np.where(holds, one, other)


def _at_work(moment: _Moment, day_length: Number) -> _Moment:
    """Return the first moment from this one on at which the crew is at work."""
    over = moment.hour >= day_length * (1 - CRUMB)
    return _Moment(_pick(over, moment.day + 1, moment.day), _pick(over, 0.0, moment.hour))


def _labour(start: _Moment, labour: Number, day_length: Number) -> _Moment:
    """Return when labour begun at `start` is done, stopping at each day's end."""
    worked = start.hour + labour
    nights = np.maximum(whole(worked, day_length) - 1, 0.0)
    return _Moment(start.day + nights, worked - nights * day_length)


def _later(one: _Moment, other: _Moment) -> _Moment:
    """Return whichever of two moments comes later."""
    after = one.day * DAY + one.hour >= other.day * DAY + other.hour
    return _Moment(_pick(after, one.day, other.day), _pick(after, one.hour, other.hour))


def _walk(
    steps: Sequence[tuple[Number, Number]], crew: Number, day_length: Number, rooms: Sequence[str] = ()
) -> Iterator[_Step]:
    """Yield the steps in order; one without labour takes place as soon as it may, at any hour."""
    need((day_length > 0) & (day_length <= DAY), "day_length", day_length, "more than 0, at most 24 hours")
    free = _Moment(0.0, 0.0)
    dry: dict[str, _Moment] = {}
    for (hours, wait), room in zip(steps, rooms or [ONE_ROOM] * len(steps), strict=True):
        need(wait >= 0, "wait", wait, "0 hours or more")
        now = reduce(_later, [dry[each] for each in dry if each == room or not room], free)
        labour = crew_elapsed(hours=hours, crew=crew)
        worked = labour > 0
        opening = _at_work(now, day_length)
        start = _Moment(_pick(worked, opening.day, now.day), _pick(worked, opening.hour, now.hour))
        done = _labour(opening, labour, day_length)
        end = _Moment(_pick(worked, done.day, now.day), _pick(worked, done.hour, now.hour))
        nights = np.floor((end.hour + wait) / DAY)
        ready = _Moment(end.day + nights, end.hour + wait - nights * DAY)
        free = _Moment(_pick(worked, end.day, free.day), _pick(worked, end.hour, free.hour))
        dry[room] = ready
        yield _Step(worked, start, end, ready)


def _pairs(steps: Sequence[Number]) -> list[tuple[Number, Number]]:
    if len(steps) % 2:
        raise InputError("steps", len(steps), "labour and wait in turn, so an even number of them")
    return list(zip(steps[::2], steps[1::2], strict=True))


def _days(steps: Sequence[Number], crew: Number, day_length: Number, rooms: Sequence[str] = ()) -> Number:
    days: Number = 0.0
    last: Number = -1.0
    for step in _walk(_pairs(steps), crew, day_length, rooms):
        fresh = step.end.day - np.maximum(step.start.day, last + 1) + 1
        days = days + _pick(step.worked, fresh, 0.0)
        last = _pick(step.worked, step.end.day, last)
    return np.asarray(days)[()]


def _elapsed(steps: Sequence[Number], crew: Number, day_length: Number, rooms: Sequence[str] = ()) -> Number:
    ready = reduce(_later, [step.ready for step in _walk(_pairs(steps), crew, day_length, rooms)], _Moment(0.0, 0.0))
    return np.asarray(ready.day * DAY + ready.hour)[()]


@rule("days on which some labour is done", "dimensionless", CLOCK, rest="hour", day_length="hour", crew="dimensionless")
def schedule_days(*, day_length: Number, crew: Number, **steps: Number) -> Number:
    """Return the days the crew comes to site; a day that only dries is none of them.

    steps: person-hours, then the wait after them, by turns and in order (hours), under any names.
    """
    return _days(list(steps.values()), crew, day_length)


@rule(
    "hours from the first start until the last wait is over",
    "hour",
    CLOCK,
    rest="hour",
    day_length="hour",
    crew="dimensionless",
)
def schedule_elapsed(*, day_length: Number, crew: Number, **steps: Number) -> Number:
    """Return the hours by the clock, nights included, from the first start until the last wait is over.

    steps: as for `schedule_days`.
    """
    return _elapsed(list(steps.values()), crew, day_length)


@lru_cache(maxsize=64)  # the same rooms give the same rule, so that two estimates of one job can be told to be alike
def days_in_rooms(rooms: tuple[str, ...]) -> Callable[..., Number]:
    """Return the rule `schedule_days` for steps each done in the room named in the same place."""

    @rule(
        "days on which some labour is done, one room drying while another is worked in",
        "dimensionless",
        CLOCK,
        rest="hour",
        day_length="hour",
        crew="dimensionless",
    )
    def schedule_days_in_rooms(*, day_length: Number, crew: Number, **steps: Number) -> Number:
        return _days(list(steps.values()), crew, day_length, rooms)

    return schedule_days_in_rooms


@lru_cache(maxsize=64)
def elapsed_in_rooms(rooms: tuple[str, ...]) -> Callable[..., Number]:
    """Return the rule `schedule_elapsed` for steps each done in the room named in the same place."""

    @rule(
        "hours from the first start until the last wait is over, one room drying while another is worked in",
        "hour",
        CLOCK,
        rest="hour",
        day_length="hour",
        crew="dimensionless",
    )
    def schedule_elapsed_in_rooms(*, day_length: Number, crew: Number, **steps: Number) -> Number:
        return _elapsed(list(steps.values()), crew, day_length, rooms)

    return schedule_elapsed_in_rooms


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
