"""Which room is worked in when: a few rooms open at a time, the waits of one filled with the work of the others.

The order is chosen, never the file's. Rooms are put in several orders by what is to be done in them; in each, the crew
takes the first open room that is ready, opens another where none is and a crew can hold one more open, and waits or
goes home where that is no help. What costs least is kept: days, waiting, machines by the day and their setting up;
then the fewest days, then the earliest end. A room is open from its first task to its last.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from estimating.estimate.pricing.plan import Task
from estimating.estimate.pricing.rooms import RoomStep, in_hours
from estimating.trade._numbers import TOLERANCE
from estimating.trade.drying import DAY, PlainHours, PlainStep, SiteOrder, Taken, take_one

ROUNDS = 4  # of putting a machine's set-up where it is used, which may itself move a use to another day
Rooms = Mapping[str, tuple[RoomStep, ...]]


@dataclass(frozen=True)
class Site:
    """The crew and its hours, and how many rooms it holds open at once."""

    crew: float
    hours: PlainHours
    most_open: int


@dataclass(frozen=True)
class Rates:
    """What time on site costs beside the work that is done in it, in dollars."""

    hour: float = 1.0  # of one person
    day: float = 0.0  # what it is worth to be done a day sooner
    by_day: Mapping[tuple[str, str], float] = field(default_factory=dict)  # by machine and by the room it stands in


@dataclass(frozen=True)
class Machine:
    """What setting a machine up and cleaning it takes, on each day it is used."""

    set_up: tuple[Task, ...]
    clean: tuple[Task, ...]

    @cached_property
    def hours(self) -> float:
        """The person-hours of both."""
        return sum(in_hours(task.hours) for task in (*self.set_up, *self.clean))


@dataclass(frozen=True)
class SiteRun:
    """Steps in the order they are done, when each is taken, and what that comes to."""

    steps: tuple[RoomStep, ...]
    taken: tuple[Taken, ...]
    crew: float

    @property
    def order(self) -> SiteOrder:
        """The order as the clock rules ask for it."""
        return SiteOrder(tuple(each.room for each in self.steps), tuple(each.whole for each in self.steps))

    @cached_property
    def days(self) -> float:
        """Days on which some labor is done."""
        return float(len({day for each in self.taken for day in _days(each)}))

    @cached_property
    def idle(self) -> float:
        """Person-hours in which the whole crew waits, pauses among them."""
        pauses = sum(step.waits[0] for step in self.steps)
        return self.crew * (sum(float(each.idle) for each in self.taken) + pauses)

    def uses(self, machine: str, room: str = "") -> tuple[bool, ...]:
        """Say of each step whether it uses a machine, or stands on what is set up in a room."""
        return tuple(step.room == room if room else step.machine == machine for step in self.steps)

    def days_with(self, machine: str, room: str = "") -> float:
        """Days on which a machine is used, or a room is worked in for which something was hired."""
        both = zip(self.uses(machine, room), self.taken, strict=True)
        return float(len({day for used, each in both if used for day in _days(each)}))


def _days(taken: Taken) -> range:
    first = int(taken.start // DAY)
    return range(first, max(first + 1, math.ceil(taken.end / DAY)) if taken.worked else first)


def dispatch(
    rooms: Rooms,
    before: Sequence[RoomStep],
    after: Sequence[RoomStep],
    machines: Mapping[str, Machine],
    site: Site,
    rates: Rates,
) -> SiteRun:
    """Return the best order found of the steps of all rooms, between what is done before and after all of them."""
    least = _least_days([*before, *(step for steps in rooms.values() for step in steps), *after], site)
    runs: list[SiteRun] = []
    for key in _ORDERS[: len(rooms)] or _ORDERS[:1]:  # one room has one order
        names = sorted(rooms, key=lambda name: (key(rooms[name]), _content(rooms[name]), name))
        runs.append(_with_machines(_run(rooms, names, before, after, machines, site), machines, site))
        if runs[-1].days <= least and runs[-1].idle <= TOLERANCE:
            break
    return min(runs, key=lambda run: cost_of(run, rates))


def _least_days(steps: Sequence[RoomStep], site: Site) -> float:
    day_length, overtime, _ = site.hours
    labor = sum(step.hours for step in steps) / site.crew
    return math.ceil(max(labor - overtime, 0.0) / day_length * (1 - TOLERANCE)) or 1.0


def cost_of(run: SiteRun, rates: Rates) -> tuple[float, ...]:
    """Return what an order is judged by: what it costs beside the work itself (dollars), its days, its end (hours)."""
    care = sum(in_hours(task.hours) for step in run.steps if step.machine for task in step.all if task.machine_care)
    daily = sum(price * run.days_with(machine, room) for (machine, room), price in rates.by_day.items())
    dollars = rates.hour * (run.idle + care) + rates.day * run.days + daily
    return round(dollars, 6), run.days, round(max(float(each.ready) for each in run.taken), 6)


def _labor(steps: Sequence[RoomStep]) -> float:
    return sum(step.hours for step in steps)


def _waiting(steps: Sequence[RoomStep]) -> float:
    return sum(step.waits[1] for step in steps)


def _machined(steps: Sequence[RoomStep]) -> bool:
    return any(step.machine for step in steps)


_ORDERS: tuple[Callable[[tuple[RoomStep, ...]], Any], ...] = (
    lambda steps: (not _machined(steps), -round(_waiting(steps), 6)),
    lambda steps: -round(_labor(steps), 6),
    lambda steps: -round(_waiting(steps) / max(_labor(steps), TOLERANCE), 6),
)


def _content(steps: Sequence[RoomStep]) -> tuple[Any, ...]:
    return tuple((round(step.hours, 6), round(step.waits[1], 6)) for step in steps)


def _run(
    rooms: Rooms,
    names: Sequence[str],
    before: Sequence[RoomStep],
    after: Sequence[RoomStep],
    machines: Mapping[str, Machine],
    site: Site,
) -> SiteRun:
    """Return the steps as a crew takes them that prefers the rooms in this order."""
    line = _Line([*before, *(step for name in names for step in rooms[name]), *after], site, machines)
    for step in before:
        line.take(step)
    unopened = [list(reversed(rooms[name])) for name in reversed(names)]
    opened: list[list[RoomStep]] = []
    while opened or unopened:
        choices = [(line.earliest(left[-1]), place) for place, left in enumerate(opened)]
        soonest, place = min(choices, default=(math.inf, 0))
        if unopened and len(opened) < site.most_open and line.earliest(unopened[-1][-1]) < soonest:
            place = len(opened)
            opened.append(unopened.pop())
        line.take(opened[place].pop())
        if not opened[place]:
            opened.pop(place)
    for step in after:
        line.take(step)
    return line.run()


class _Line:
    """The clock of a crew as it takes one step after another."""

    def __init__(self, steps: Sequence[RoomStep], site: Site, machines: Mapping[str, Machine] | None = None) -> None:
        """Begin; with machines, time for setting one up and cleaning it is kept free on each day it is used."""
        self.site = site
        self.care = {name: each.hours / site.crew for name, each in (machines or {}).items()}
        self.used: dict[str, float] = {}  # by machine, the day of its last use
        self.closing = site.hours.day_length * (1 - TOLERANCE)
        self.free = 0.0
        self.ready: dict[str, float] = {}
        self.rest = sum((step.hours / site.crew + step.waits[0] for step in steps), 0.0)
        self.done: list[RoomStep] = []
        self.taken: list[Taken] = []

    def run(self) -> SiteRun:
        """Return what was taken so far."""
        return SiteRun(tuple(self.done), tuple(self.taken), self.site.crew)

    def take(self, step: RoomStep) -> None:
        """Take a step."""
        clock = step.by_clock(self.site.crew)
        taken = self._taken(step, clock)
        if step.machine in self.care and self.used.get(step.machine) != taken.start // DAY:
            taken = self._taken(step, clock._replace(labor=clock.labor + self.care[step.machine]))
            self.used[step.machine] = float(taken.start // DAY)
        self.free = float(taken.end) if taken.worked else self.free
        self.ready[step.room] = float(taken.ready)
        self.rest = max(self.rest - clock[0] - clock[1], 0.0)
        self.done.append(step)
        self.taken.append(taken)

    def _taken(self, step: RoomStep, clock: PlainStep) -> Taken:
        return Taken(*take_one(self.free, self._ready(step.room), clock, self.rest, step.whole, self.site.hours))

    def _ready(self, room: str) -> float:
        ready = self.ready
        if not room:
            return max([self.free, *ready.values()])
        return max(ready.get(room, 0.0), ready.get("", 0.0))

    def earliest(self, step: RoomStep) -> float:
        """Return when a step could be begun: at once where that is plain, and else as the clock says."""
        ready = self._ready(step.room)
        if ready <= self.free and not step.whole and self.free % DAY < self.closing:
            return self.free
        clock = step.by_clock(self.site.crew)
        return take_one(self.free, ready, clock, self.rest, step.whole, self.site.hours)[1]


def _with_machines(run: SiteRun, machines: Mapping[str, Machine], site: Site) -> SiteRun:
    """Return the steps with each machine set up for its first use of a day and cleaned after its last.

    A use that moves to another day with its cleaning, and back without, is cleaned up after by itself.
    """
    steps, now = run.steps, run
    if not any(step.machine in machines for step in steps):
        return run
    for _ in range(ROUNDS):
        days = [int(each.start // DAY) for each in now.taken]
        fresh = _set_up(steps, days, machines)
        now = _retaken(fresh, site)
        if [int(each.start // DAY) for each in now.taken] == days:
            break
    return now


def _retaken(steps: Sequence[RoomStep], site: Site) -> SiteRun:
    line = _Line(steps, site)
    for step in steps:
        line.take(step)
    return line.run()


def _set_up(steps: Sequence[RoomStep], days: Sequence[int], machines: Mapping[str, Machine]) -> tuple[RoomStep, ...]:
    """Return the steps with setting up and cleaning put to those that begin and end a day's use of a machine."""
    uses: dict[tuple[str, int], list[int]] = {}
    for place, (step, day) in enumerate(zip(steps, days, strict=True)):
        if step.machine in machines:
            uses.setdefault((step.machine, day), []).append(place)
    found = list(steps)
    for (name, _), places in uses.items():
        first, last = places[0], places[-1]
        found[first] = replace(found[first], tasks=(*machines[name].set_up, *found[first].tasks))
        found[last] = replace(found[last], after=(*found[last].after, *machines[name].clean))
    return tuple(found)
