"""From plans to the order of work on site: what each room takes, what the whole job takes, and which machine comes.

Nothing hangs on the order in which the work stands in the file: plans are taken in the order of what they hold.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from estimating.estimate.pricing.dispatch import Machine, Rates, Site, SiteRun, dispatch
from estimating.estimate.pricing.plan import Around, Phase, Plan, Task
from estimating.estimate.pricing.rooms import RoomStep, in_hours, steps_of
from estimating.estimate.pricing.sharing import charged_once, kept_once
from estimating.estimate.pricing.totals import loaded_wage
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.model import Job
from estimating.origins import Kind, Origin, definition
from estimating.trade import drying
from estimating.trade import labor as labor
from estimating.trade.drying import PlainHours

NO_DRIVE = leaf("no drive", 0.0, "hour", definition("nobody said how far it is"))


@dataclass(frozen=True)
class SiteHours:
    """The crew of a job and the hours of its days, as figures."""

    crew: Figure
    day_length: Figure  # in which work goes forward
    overtime: Figure
    stay: Figure

    def arguments(self) -> dict[str, Figure]:
        """Return them as the clock rules ask for them."""
        return {
            "day_length": self.day_length,
            "overtime": self.overtime,
            "stay": self.stay,
            "crew": self.crew,
        }


def in_order_of_content(plans: Iterable[Plan]) -> list[Plan]:
    """Return plans in an order that hangs on what they hold, and on nothing else."""
    return sorted(plans, key=lambda plan: plan.content)


def crew_size(job: Job) -> Figure:
    """Return how many people work on the job."""
    return leaf(
        "crew", job.crew.people, "dimensionless", Origin(Kind.ENTERED, place="crew · people"), key="crew · people"
    )


def daily_start(basis: Basis) -> Figure:
    """Return what opening and closing a day takes."""
    return basis.figure("production", "daily_start", "any", "any")


def one_way(job: Job) -> Figure | None:
    """Return the drive to the site; None where nobody said how far it is."""
    minutes, place = job.site.travel_minutes, "site · travel_minutes"
    if minutes is None:
        return None
    return leaf("drive, one way", minutes, "minute", Origin(Kind.ENTERED, place=place), key=place)


def site_hours(job: Job, basis: Basis) -> SiteHours:
    """Return the crew and its hours: the working day, the overtime it takes to finish, the wait it waits for."""
    crew, start = crew_size(job), daily_start(basis)
    day = work(
        labor.working_day,
        "working day",
        day_length=basis.figure("business", "day_length"),
        daily_start=start,
        crew=crew,
    )
    stay = work(
        drying.longest_stay,
        "longest wait on site",
        longest=basis.figure("business", "longest_wait"),
        daily_start=start,
        one_way=one_way(job) or NO_DRIVE,
        crew=crew,
    )
    return SiteHours(crew, day, basis.figure("business", "overtime"), stay)


def brought(basis: Basis) -> list[Task]:
    """Return what is done once on any job, whatever it is."""
    load = basis.figure("production", "mobilize", "any", "any")
    walk = basis.figure("production", "final_walk", "any", "any")
    return [
        Task("mobilize", "Load, unload and set up", Phase.ARRIVE, load, rate_key=load.key),
        Task("final_walk", "Final walk with the client", Phase.CLOSE, walk, rate_key=walk.key),
    ]


@dataclass(frozen=True)
class _Brings:
    """What one plan brings: its tasks by room, and those the whole job needs once, by room and word."""

    by_room: Mapping[str, tuple[Task, ...]]
    shared: tuple[tuple[str, str, float], ...]  # word, room, hours
    of_job: tuple[Task, ...]

    @cached_property
    def home(self) -> tuple[str, ...]:
        """The rooms it is done in."""
        return tuple(sorted(self.by_room))


@dataclass(frozen=True)
class Cell:
    """The plans of one room and what they take there; or of several rooms, where plans lead from one to another."""

    plans: tuple[Plan, ...]
    rooms: Mapping[str, tuple[RoomStep, ...]]
    of_job: tuple[Task, ...]  # what the whole job needs once


@dataclass(frozen=True)
class Work:
    """What plans take on site before it is put in order."""

    rooms: Mapping[str, tuple[RoomStep, ...]]
    before: tuple[RoomStep, ...]
    after: tuple[RoomStep, ...]
    machines: Mapping[str, Machine]


class Arranger:
    """Puts the work of one job in order; what a room takes is kept by the plans it was worked out of."""

    def __init__(self, job: Job, basis: Basis) -> None:
        self.hours = site_hours(job, basis)
        self._hourly = loaded_wage(basis), basis.figure("business", "overhead")
        self._visit = brought(basis)
        self._open = round(basis.figure("business", "rooms_open").value)
        self._brings: dict[int, _Brings] = {}
        self._rooms: dict[tuple[object, ...], tuple[RoomStep, ...]] = {}
        self._cells: dict[tuple[int, ...], Cell] = {}
        self._steps: dict[tuple[int, ...], tuple[RoomStep, ...]] = {}
        self._alone: dict[int, float] = {}
        self._wanted: dict[str, str] = {}  # by word, the room in which something shared is done
        self._apart = True  # does no plan lead from one room to another
        self._kept: list[object] = []  # what the keys above are the ids of

    @cached_property
    def _on_site(self) -> Rates:
        """What time on site costs. A day sooner is worth the longest wait of the crew: so long it waits for it."""
        hour = sum(each.value_in("dollar/hour") for each in self._hourly)
        return Rates(hour, hour * self.site.crew * self.site.hours.stay)

    @cached_property
    def site(self) -> Site:
        """The crew and its hours as numbers."""
        each = self.hours
        hours = PlainHours(*map(in_hours, (each.day_length, each.overtime, each.stay)))
        return Site(each.crew.value, hours, max(self._open, 1))

    def run(self, plans: Sequence[Plan]) -> SiteRun | None:
        """Return the steps of the plans in the order chosen; None where there is nothing to do."""
        found = self.work(plans)
        if found is None:
            return None
        return dispatch(found.rooms, found.before, found.after, found.machines, self.site, self._rates(plans))

    def _rates(self, plans: Sequence[Plan]) -> Rates:
        charges = charged_once(each for plan in plans for each in plan.charges)
        daily = {(each.machine, each.room): each.price.value_in("dollar") for each in charges if each.machine}
        return replace(self._on_site, by_day=daily)

    def days_alone(self, room: str, steps: tuple[RoomStep, ...]) -> float:
        """Return the days on which a room is worked in by a crew that does nothing else."""
        if id(steps) not in self._alone:
            self._alone[id(steps)] = dispatch({room: steps}, (), (), {}, self.site, self._on_site).days
            self._kept.append(steps)
        return self._alone[id(steps)]

    def work(self, plans: Sequence[Plan]) -> Work | None:
        """Return what the plans take on site; None where there is nothing to do."""
        cells = self.cells(plans)
        rooms = dict(sorted((room, steps) for cell in cells for room, steps in cell.rooms.items()))
        of_job = kept_once((task for cell in cells for task in cell.of_job), hours_of)
        if not rooms and not of_job:
            return None
        before, after = self.around(of_job)
        return Work(rooms, before, after, machines_of(of_job))

    def around(self, of_job: Sequence[Task]) -> tuple[tuple[RoomStep, ...], tuple[RoomStep, ...]]:
        """Return what is done once before and what once after all rooms; of_job: what the whole job needs once."""
        early = [task for task in of_job if task.around is None and task.phase < Phase.UNMASK]
        late = [task for task in of_job if task.around is None and task.phase >= Phase.UNMASK]
        load, walk = self._visit
        return self._of_job([load, *early]), self._of_job([*late, walk])

    def cells(self, plans: Iterable[Plan]) -> list[Cell]:
        """Return the plans room by room, in an order that hangs on nothing but what they hold."""
        # All of them first: only then is it known whether any leads from one room to another.
        homes = [(self._of(plan).home, plan) for plan in plans]
        groups: dict[tuple[str, ...], list[Plan]] = {}
        for home, plan in homes:
            groups.setdefault(home if self._apart else (), []).append(plan)
        return [self._cell(groups[home]) for home in sorted(groups)]

    def home(self, plan: Plan) -> tuple[str, ...]:
        """Return the rooms a plan is done in."""
        return self._of(plan).home

    def _cell(self, plans: Sequence[Plan]) -> Cell:
        given = tuple(map(id, plans))
        if given not in self._cells:
            plans = in_order_of_content(plans)
            key = tuple(map(id, plans))
            found = self._cells.get(key) or self._new_cell(plans)
            self._cells[key] = self._cells[given] = found
        return self._cells[given]

    def _new_cell(self, plans: Sequence[Plan]) -> Cell:
        brings = [self._of(plan) for plan in plans]
        here: dict[str, list[_Brings]] = {}
        for each in brings:
            for room in each.by_room:
                here.setdefault(room, []).append(each)
        elsewhere = kept_elsewhere(shared for each in brings for shared in each.shared)
        rooms = {room: self._room(room, here[room], elsewhere.get(room, frozenset())) for room in sorted(here)}
        of_job = kept_once((task for each in brings for task in each.of_job), hours_of)
        return Cell(tuple(plans), {room: steps for room, steps in rooms.items() if steps}, tuple(of_job))

    def _of_job(self, tasks: Sequence[Task]) -> tuple[RoomStep, ...]:
        key = tuple(map(id, tasks))
        if key not in self._steps:
            self._steps[key] = self._cut("", tasks)
        return self._steps[key]

    def _room(self, room: str, here: Sequence[_Brings], elsewhere: frozenset[str]) -> tuple[RoomStep, ...]:
        key = (room, elsewhere, *map(id, here))
        if key not in self._rooms:
            tasks = [task for each in here for task in each.by_room[room] if task.share_key not in elsewhere]
            self._rooms[key] = self._cut(room, tasks)
        return self._rooms[key]

    def _cut(self, room: str, tasks: Sequence[Task]) -> tuple[RoomStep, ...]:
        return steps_of(room, tasks, crew=self.hours.crew.value, day_length=in_hours(self.hours.day_length))

    def _of(self, plan: Plan) -> _Brings:
        if id(plan) not in self._brings:
            by_room: dict[str, list[Task]] = {}
            for task in plan.tasks:
                if task.room:
                    by_room.setdefault(task.room, []).append(task)
            shared = tuple(
                (task.share_key, task.room, in_hours(task.hours)) for task in plan.tasks if task.share_key and task.room
            )
            of_job = tuple(task for task in plan.tasks if not task.room)
            rooms = {room: tuple(tasks) for room, tasks in by_room.items()}
            self._brings[id(plan)] = _Brings(rooms, shared, of_job)
            self._kept.append(plan)
            leads_on = [room for word, room, _ in shared if self._wanted.setdefault(word, room) != room]
            self._apart = self._apart and len(rooms) < 2 and not leads_on
        return self._brings[id(plan)]


def hours_of(task: Task) -> float:
    """Return the hours by which the longest of tasks that are done once is kept."""
    return task.hours.value


def kept_elsewhere(wanted: Iterable[tuple[str, str, float]]) -> dict[str, frozenset[str]]:
    """Return by room the words of what another does for it: the one of longest hours, of equals the first by name.

    wanted: words of what is shared, each with its room and hours.
    """
    best: dict[str, tuple[float, str]] = {}
    rooms: dict[str, set[str]] = {}
    for word, room, hours in wanted:
        best[word] = min(best.get(word, (-hours, room)), (-hours, room))
        rooms.setdefault(word, set()).add(room)
    found: dict[str, set[str]] = {}
    for word, several in rooms.items():
        for room in several - {best[word][1]}:
            found.setdefault(room, set()).add(word)
    return {room: frozenset(words) for room, words in found.items()}


def machines_of(tasks: Iterable[Task]) -> dict[str, Machine]:
    """Return the machines that tasks of the whole job set up and clean; tasks: each once."""
    care = [task for task in tasks if task.machine_care]

    def of(name: str, when: Around) -> tuple[Task, ...]:
        return tuple(task for task in care if task.machine == name and task.around is when)

    return {
        name: Machine(of(name, Around.BEFORE), of(name, Around.AFTER)) for name in sorted({t.machine for t in care})
    }
