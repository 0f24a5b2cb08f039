"""Two clocks: hours of labor, and days on site with the drying, settling and airing between.

Three numbers of hours are told apart: on site, paid and idle. What comes with every day whatever it is (opening and
closing it, the road) and what is waited on pay are added here as tasks, since the price rests on what is paid.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

from estimating.estimate.pricing.arrange import Arranger, SiteHours, daily_start, one_way
from estimating.estimate.pricing.dispatch import SiteRun
from estimating.estimate.pricing.plan import Phase, Plan, Task
from estimating.estimate.pricing.rooms import RoomStep, in_hours
from estimating.evidence import Basis
from estimating.figures import Figure, total, work
from estimating.job.model import Job
from estimating.trade import drying
from estimating.trade import labor as labor
from estimating.trade.drying import DAY, ClockRules, SiteOrder, StepTime, Taken, step_time
from estimating.units import Number

NOBODY = SiteOrder((), ())
WAITING = "waiting"
AWAY = ("travel", WAITING)  # what is paid and isn't work on site
HAIR = 1e-9
Rule: TypeAlias = Callable[..., Number]


@dataclass(frozen=True)
class Schedule:
    """Every task in order with its place on the elapsed clock, the days on site, and the hours waited there."""

    tasks: tuple[Task, ...]
    on_site: tuple[Task, ...]  # without what comes back every day, and without waiting
    days: Figure
    idle: Figure  # person-hours in which the whole crew waits on pay
    hours: SiteHours
    run: SiteRun | None

    @property
    def crew(self) -> Figure:
        """How many people work."""
        return self.hours.crew

    @property
    def working_day(self) -> Figure:
        """The hours of a day in which work goes forward."""
        return self.hours.day_length

    @cached_property
    def worked(self) -> Figure:
        """The person-hours of labor on site, without the road."""
        return total("worked on site", [task.hours for task in self.tasks if task.key not in AWAY], unit="hour")

    @cached_property
    def presence(self) -> Figure:
        """The person-hours on site, waiting among them: what is paid, but for the road."""
        return total("on site", [self.worked, self.idle], unit="hour")

    @cached_property
    def paid(self) -> Figure:
        """The person-hours paid: work, waiting and the road."""
        return total("paid", [task.hours for task in self.tasks], unit="hour")

    @cached_property
    def elapsed(self) -> Figure:
        """The hours by the clock until the last wait is over."""
        return _by_clock(self.run, self.hours, "elapsed", lambda rules: rules.elapsed)

    @cached_property
    def times(self) -> tuple[StepTime, ...]:
        """When each task on site starts and ends, and when its wait is over."""
        run = self.run
        if run is None:
            return ()
        day, crew = in_hours(self.hours.day_length), self.hours.crew.value
        return tuple(
            time for step, taken in zip(run.steps, run.taken, strict=True) for time in _times(step, taken, crew, day)
        )

    def days_with(self, machine: str, room: str = "") -> Figure:
        """Return the days on which a machine is used, or a room is worked in for which it was hired."""
        uses = self.run.uses(machine, room) if self.run else ()
        return _by_clock(self.run, self.hours, f"days with the {machine}", lambda rules: rules.days_of(uses))


def schedule(plans: Sequence[Plan], job: Job, basis: Basis, arranger: Arranger | None = None) -> Schedule:
    """Return the tasks of plans on the elapsed clock, in the order chosen for them, with what every job brings."""
    arranger = arranger or Arranger(job, basis)
    run, hours = arranger.run(plans), arranger.hours
    days = _by_clock(run, hours, "days on site", lambda rules: rules.days)
    idle = _by_clock(run, hours, "waiting on site", lambda rules: rules.idle)
    tasks = tuple(task for step in run.steps for task in step.all) if run else ()
    daily = [*every_day(job, basis, days, hours.crew), *(waiting(idle) if waits(run) else ())] if tasks else []
    return Schedule((*tasks, *daily), tasks, days, idle, hours, run)


def _by_clock(run: SiteRun | None, hours: SiteHours, name: str, of: Callable[[ClockRules], Rule]) -> Figure:
    rules = drying.clock_rules(run.order if run else NOBODY)
    return work(of(rules), name, **hours.arguments(), **(_steps(run) if run else {}))


def _steps(run: SiteRun) -> dict[str, Figure]:
    steps: dict[str, Figure] = {}
    for number, step in enumerate(run.steps, 1):
        parts = [task.hours for task in step.all]
        steps[f"hours_{number}"] = parts[0] if len(parts) == 1 else total(f"step {number}", parts, unit="hour")
        steps[f"pause_{number}"], steps[f"wait_{number}"] = step.pause, step.wait
    return steps


def _times(step: RoomStep, taken: Taken, crew: float, day_length: float) -> list[StepTime]:
    """Return when each task of a step is done: one after another, the nights where the step as a whole has them."""
    start, end, ready = map(float, (taken.start, taken.end, taken.ready))
    opening, nights = start // DAY * DAY, end // DAY - start // DAY
    done, found = start - opening, []
    for place, task in enumerate(step.all):
        done += in_hours(step.pause) if place == len(step.tasks) else 0.0
        first = _moment(opening, done, day_length, nights, starts=True)
        done += in_hours(task.hours) / crew
        last = _moment(opening, done, day_length, nights, starts=False)
        found.append((first, last))
    return [
        step_time(first, last, ready if place == len(found) else last) for place, (first, last) in enumerate(found, 1)
    ]


def _moment(opening: float, done: float, day_length: float, nights: float, *, starts: bool) -> float:
    """Return when so many hours since the opening of the first day are done; a task begins rather next morning."""
    passed = done * (1 + HAIR if starts else 1 - HAIR) // day_length
    over = min(max(passed, 0.0), nights)
    return opening + over * DAY + done - over * day_length


def waits(run: SiteRun | None) -> bool:
    """Say whether anything has to be waited for, so that the whole crew might."""
    return run is not None and any(any(step.waits) for step in run.steps)


def waiting(idle: Figure) -> list[Task]:
    """Return the waiting of the whole crew as labor that is paid."""
    return [Task(WAITING, "Wait on site for what dries or settles", Phase.ARRIVE, idle)]


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
