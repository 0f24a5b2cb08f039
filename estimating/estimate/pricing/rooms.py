"""What is done in one room, in order: cover, prepare, coat, uncover and give back, cut into steps by what has to dry.

Alarms are covered while mist or dust is in the air and no longer: right before each spell of it, and uncovered right
after, the same evening. A spell that no day holds is cut into parts, each with alarms uncovered at its end.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from operator import itemgetter

from estimating.estimate.pricing.plan import Around, Phase, Task
from estimating.estimate.pricing.sharing import kept_once
from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin, definition
from estimating.rules import SAME, rule
from estimating.trade._numbers import TOLERANCE, pick
from estimating.trade.drying import PlainStep
from estimating.units import Number

LEAST_SHARE = 0.125  # of a day that is left to work in at least, however long covering and settling take
NO_TIME = leaf("no wait", 0.0, "hour", Origin(Kind.DEFINITION, place="the next task can start at once"))


@rule(
    "wait − pause, never below 0",
    "hour",
    definition("what the pause has dried already"),
    wait="hour, 0 or more",
    pause="hour, 0 or more",
)
def wait_left(*, wait: Number, pause: Number) -> Number:
    """Return what is left to wait once a pause within the wait is over."""
    return pick(wait > pause, wait - pause, 0.0)


@rule("hours / parts", SAME, definition("equal parts"), hours=SAME, parts="dimensionless, 1 or more")
def part_of(*, hours: Number, parts: Number) -> Number:
    """Return one of several equal parts of hours."""
    return hours / parts


@dataclass(frozen=True)
class RoomStep:
    """Tasks of one room that follow one another without a wait; what is in `after` is done once the pause is over."""

    room: str
    tasks: tuple[Task, ...]
    after: tuple[Task, ...] = ()
    pause: Figure = NO_TIME
    wait: Figure = NO_TIME
    whole: bool = False  # alarms are covered: it is finished on the day it is begun

    @property
    def all(self) -> tuple[Task, ...]:
        """Every task of the step, in order."""
        return (*self.tasks, *self.after)

    @cached_property
    def machine(self) -> str:
        """The machine it uses; none where it uses none."""
        return next((task.machine for task in self.tasks if task.machine), "")

    @cached_property
    def hours(self) -> float:
        """Its person-hours."""
        return sum(in_hours(task.hours) for task in self.all)

    @cached_property
    def waits(self) -> tuple[float, float]:
        """The pause within it and the wait after it, in hours."""
        return in_hours(self.pause), in_hours(self.wait)

    @cached_property
    def _clocks(self) -> dict[float, PlainStep]:
        return {}

    def by_clock(self, crew: float) -> PlainStep:
        """Return the step as a crew takes it."""
        if crew not in self._clocks:
            self._clocks[crew] = PlainStep(self.hours / crew, *self.waits)
        return self._clocks[crew]


def in_hours(figure: Figure) -> float:
    """Return a time in hours."""
    return figure.value_in("hour")


def one_of_each_shared(tasks: Iterable[Task]) -> list[Task]:
    """Return the tasks with those that are done once for the whole job kept once, at the longest of their hours.

    What is put up once goes up before the first that needs it, and what is taken down once comes down after the last.
    """
    tasks = list(tasks)
    phases: dict[str, list[Phase]] = {}
    for task in tasks:
        if task.share_key:
            phases.setdefault(task.share_key, []).append(task.phase)
    return [
        _moved(task, (max if task.phase >= Phase.UNMASK else min)(phases[task.share_key])) if task.share_key else task
        for task in kept_once(tasks, lambda each: each.hours.value)
    ]


def _moved(task: Task, phase: Phase) -> Task:
    return task if task.phase is phase else replace(task, phase=phase)


def in_order(tasks: Iterable[Task]) -> list[Task]:
    """Return the tasks of one room in order of phase; within a phase all surfaces get a coat before any the next."""
    rounds: dict[Phase, int] = {}
    placed = []
    for task in tasks:
        coat = rounds.get(task.phase, 0)
        placed.append(((task.phase, coat), task))
        if task.wait is not None and task.wait.value > 0:
            rounds[task.phase] = coat + 1
    return [task for _, task in sorted(placed, key=itemgetter(0))]


def steps_of(room: str, tasks: Iterable[Task], *, crew: float, day_length: float) -> tuple[RoomStep, ...]:
    """Return what is done in a room as steps: one ends where something has to dry, and round each spell in the air.

    tasks: of all the work in the room, those shared within it once for each piece of work. day_length: in hours.
    """
    kept = in_order(one_of_each_shared(tasks))
    cover, uncover = (tuple(task for task in kept if task.around is each) for each in Around)
    spell = _Spell(room, cover, uncover, crew, day_length)
    found: list[RoomStep] = []
    now: list[Task] = []
    for task in (task for task in kept if task.around is None):
        if now and spell.kind(task) != spell.kind(now[-1]):
            found += spell.closed(now)
            now = []
        now.append(task)
        if task.wait is not None and task.wait.value > 0:
            found += spell.closed(now)
            now = []
    return (*found, *(spell.closed(now) if now else ()))


@dataclass(frozen=True)
class _Spell:
    """What is done round each spell of mist or dust in a room, and the day it has to fit into."""

    room: str
    cover: tuple[Task, ...]
    uncover: tuple[Task, ...]
    crew: float
    day_length: float

    def kind(self, task: Task) -> tuple[bool, str]:
        """Return what tells a task from one of another step: alarms covered for it, a machine used."""
        return bool(self.cover and task.in_air), task.machine

    def closed(self, tasks: Sequence[Task]) -> list[RoomStep]:
        """Return tasks as a step, or as several where alarms are covered for longer than a day."""
        wait = tasks[-1].wait or NO_TIME
        machine = any(task.machine for task in tasks)
        if not (self.cover and tasks[-1].in_air):
            return [RoomStep(self.room, tuple(tasks), wait=wait, whole=machine)]
        pause = max((task.settles for task in tasks if task.settles is not None), key=in_hours, default=NO_TIME)
        parts = self._parts(tasks, pause)
        rest = wait if NO_TIME in (pause, wait) else work(wait_left, "wait left", wait=wait, pause=pause)
        return [
            RoomStep(
                self.room,
                (*self.cover, *(_part(task, number, parts) for task in tasks)),
                self.uncover,
                pause,
                rest if number == parts else NO_TIME,
                whole=True,
            )
            for number in range(1, parts + 1)
        ]

    def _parts(self, tasks: Sequence[Task], pause: Figure) -> int:
        around = sum(in_hours(task.hours) for task in (*self.cover, *self.uncover)) / self.crew + in_hours(pause)
        length = sum(in_hours(task.hours) for task in tasks) / self.crew
        left = max(self.day_length - around, self.day_length * LEAST_SHARE)
        return max(1, math.ceil(length / left * (1 - TOLERANCE)))


def _part(task: Task, number: int, parts: int) -> Task:
    if parts == 1:
        return task
    several = leaf("parts", float(parts), "dimensionless", Origin(Kind.DEFINITION, place="as many as days hold it"))
    hours = work(part_of, task.title, hours=task.hours, parts=several)
    return replace(
        task, title=f"{task.title}, part {number} of {parts}", hours=hours, wait=task.wait if number == parts else None
    )
