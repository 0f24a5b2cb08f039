"""Two clocks: hours of labor, and days on site with the drying, settling and airing between.

The tasks that come with any job whatever it is (loading, driving, opening and closing the day) are added here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property
from operator import itemgetter

from estimating.estimate.pricing.plan import Phase, Task
from estimating.estimate.pricing.sharing import kept_once
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.model import Job
from estimating.origins import Kind, Origin
from estimating.trade import drying, labor
from estimating.trade.drying import StepTime
from estimating.units import convert


@dataclass(frozen=True)
class Schedule:
    """Every task in order with its place on the elapsed clock, and the days on site."""

    tasks: tuple[Task, ...]
    on_site: tuple[Task, ...]  # without what comes back every day
    days: Figure
    crew: Figure
    working_day: Figure

    @cached_property
    def elapsed(self) -> Figure:
        """The hours by the clock until the last wait is over."""
        rule = drying.elapsed_in_rooms(_rooms(self.on_site))
        return work(rule, "elapsed", day_length=self.working_day, crew=self.crew, **_steps(self.on_site))

    @cached_property
    def times(self) -> tuple[StepTime, ...]:
        """When each task on site starts and ends, and when its wait is over."""
        steps = [(task.hours.value, wait_hours(task)) for task in self.on_site]
        crew, day = self.crew.value, self.working_day.value
        return tuple(drying.step_times(steps, crew=crew, day_length=day, rooms=_rooms(self.on_site)))


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
    """Return the tasks in order of phase; within a phase every room gets its first coat before any gets its second."""
    rounds: dict[tuple[str, Phase], int] = {}
    placed = []
    for task in tasks:
        place = (task.room, task.phase)
        coat = rounds.get(place, 0)
        placed.append(((task.phase, coat), task))
        if task.wait is not None and task.wait.value > 0:
            rounds[place] = coat + 1
    return [task for _, task in sorted(placed, key=itemgetter(0))]


def schedule(tasks: Iterable[Task], job: Job, basis: Basis) -> Schedule:
    """Return the tasks in order of phase on the elapsed clock, with what every job brings with it."""
    crew = crew_size(job)
    day = working_day(basis, crew)
    ordered = on_site(tasks, basis)
    rule = drying.days_in_rooms(_rooms(ordered))
    days = work(rule, "days on site", day_length=day, crew=crew, **_steps(ordered))
    daily = every_day(job, basis, days, crew) if ordered else []
    return Schedule((*ordered, *daily), tuple(ordered), days, crew, day)


def on_site(tasks: Iterable[Task], basis: Basis) -> list[Task]:
    """Return the tasks in order of phase, each shared one once, with what any visit brings; none where there is none.

    Without what comes back every day.
    """
    kept = one_of_each_shared(tasks)
    return in_order([*kept, *brought(basis)] if kept else kept)


def working_day(basis: Basis, crew: Figure) -> Figure:
    """Return the hours of a day on site in which work goes forward."""
    return work(
        labor.working_day,
        "working day",
        day_length=basis.figure("business", "day_length"),
        daily_start=daily_start(basis),
        crew=crew,
    )


def daily_start(basis: Basis) -> Figure:
    """Return what opening and closing a day takes."""
    return basis.figure("production", "daily_start", "any", "any")


def crew_size(job: Job) -> Figure:
    """Return how many people work on the job."""
    return leaf(
        "crew", job.crew.people, "dimensionless", Origin(Kind.ENTERED, place="crew · people"), key="crew · people"
    )


def _rooms(tasks: Iterable[Task]) -> tuple[str, ...]:
    return tuple(task.room for task in tasks)


def _steps(tasks: Iterable[Task]) -> dict[str, Figure]:
    none = leaf("no wait", 0.0, "hour", Origin(Kind.DEFINITION, place="the next task can start at once"))
    steps: dict[str, Figure] = {}
    for number, task in enumerate(tasks, 1):
        steps[f"hours_{number}"] = task.hours
        steps[f"wait_{number}"] = task.wait or none
    return steps


def wait_hours(task: Task) -> float:
    """Return the hours of the wait after a task; none where it has none."""
    return float(convert(task.wait.value, task.wait.unit, "hour")) if task.wait else 0.0


def brought(basis: Basis) -> list[Task]:
    """Return what is done once on any job, whatever it is."""
    load = basis.figure("production", "mobilize", "any", "any")
    walk = basis.figure("production", "final_walk", "any", "any")
    return [
        Task("mobilize", "Load, unload and set up", Phase.ARRIVE, load, rate_key=load.key),
        Task("final_walk", "Final walk with the client", Phase.CLOSE, walk, rate_key=walk.key),
    ]


def every_day(job: Job, basis: Basis, days: Figure, crew: Figure) -> list[Task]:
    """Return what comes back every day on site: opening and closing it, and the road."""
    start = daily_start(basis)
    daily = work(labor.daily_hours, "opening and closing the days", days=days, hours=start)
    tasks = [Task("daily_start", "Open up, daily clean, close down", Phase.ARRIVE, daily, rate_key=start.key)]
    drive = one_way(job)
    if drive is not None:
        travel = work(labor.travel_hours, "driving", days=days, one_way=drive, crew=crew)
        tasks.append(Task("travel", "Drive there and back", Phase.ARRIVE, travel))
    return tasks


def one_way(job: Job) -> Figure | None:
    """Return the drive to the site; None where nobody said how far it is."""
    minutes, place = job.site.travel_minutes, "site · travel_minutes"
    if minutes is None:
        return None
    return leaf("drive, one way", minutes, "minute", Origin(Kind.ENTERED, place=place), key=place)
