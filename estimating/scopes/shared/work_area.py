"""One work area: a kind of work in one room, with the means to turn quantities into tasks, paint and supplies.

Every kind of work builds its plans with these, so that a rate, a factor and a way of ordering stand in one place.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from estimating.estimate.pricing.plan import Audience, Caution, Charge, Material, Phase, Supply, Task
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.model import Job, WorkNotes
from estimating.origins import Kind, Origin
from estimating.scopes.shared import coverage
from estimating.scopes.shared.conditions import conditions_of
from estimating.scopes.shared.coverage import Spread
from estimating.scopes.shared.products import title_of
from estimating.takeoff import TakeOff, take_off
from estimating.trade import film, labor


@dataclass(frozen=True)
class WorkArea:
    """Work in one room: the job, the room's take-off, the assumptions, and factors on all its hours."""

    job: Job
    room: TakeOff
    basis: Basis
    factors: tuple[Figure, ...] = ()

    @classmethod
    def of(cls, item: WorkNotes, job: Job, basis: Basis, *, flat: bool = False) -> WorkArea:
        """Return the work area of a work item: its room, measured; flat: a place without walls, such as a deck."""
        return cls(job, take_off(job.room(item.room), basis, flat=flat), basis)

    def slowed(self, *factors: Figure | None) -> WorkArea:
        """Return the work area with further factors on its hours; those that are None do not apply."""
        further = [each for each in factors if each is not None]
        return WorkArea(self.job, self.room, self.basis, (*self.factors, *further)) if further else self

    def by_area(self, key: str, title: str, phase: Phase, area: Figure, *row: str) -> Task:
        """Return a task that goes by area, at the production rate of a row."""
        rate = self.basis.nearest("production", *row)
        return self.task(key, title, phase, work(labor.hours_by_area, title, area=area, rate=rate), rate)

    def by_length(self, key: str, title: str, phase: Phase, length: Figure, *row: str) -> Task:
        """Return a task that goes by length."""
        rate = self.basis.nearest("production", *row)
        return self.task(key, title, phase, work(labor.hours_by_length, title, length=length, rate=rate), rate)

    def by_count(self, key: str, title: str, phase: Phase, count: Figure, *row: str, table: str = "production") -> Task:
        """Return a task that goes by count, at so many minutes each."""
        minutes = self.basis.nearest(table, *row)
        return self.task(key, title, phase, work(labor.hours_by_count, title, count=count, minutes=minutes), minutes)

    def by_batch(self, key: str, title: str, phase: Phase, count: Figure, *row: str) -> Task:
        """Return a task of like small repairs: the first at so many minutes, each further at a share of them."""
        minutes, further = self.basis.nearest("production", *row), self.basis.figure("factors", "patch", "further")
        hours = work(labor.hours_by_batch, title, count=count, minutes=minutes, further=further)
        return self.task(key, title, phase, hours, minutes)

    def by_hours(self, key: str, title: str, phase: Phase, *row: str) -> Task:
        """Return a task that takes so many hours whatever the size of the job."""
        hours = self.basis.nearest("production", *row)
        return self.task(key, title, phase, hours, hours)

    def task(self, key: str, title: str, phase: Phase, hours: Figure, rate: Figure) -> Task:
        """Return a task with the factors of this work area on its hours."""
        for factor in self.factors:
            hours = work(labor.adjusted_hours, title, hours=hours, factor=factor)
        found = conditions_of(rate.key)
        return Task(
            key,
            title,
            phase,
            hours,
            room=self.room.room.name,
            rate_key=rate.key,
            in_air=found.in_air,
            machine=found.machine,
            wet=found.wet,
            needs_dry=found.needs_dry,
        )

    def spread(self, product: str, surface: str, porosity: str, coat: str, method: str, situation: str) -> Spread:
        """Return how far a gallon of a product goes over the flat area of a surface, in one coat by one method."""
        return coverage.spread(self.basis, coverage.Coat(product, surface, porosity, coat, method, situation))

    def paint(self, product: str, area: Figure, spread: Spread, purpose: str, color: str = "") -> Material:
        """Return the paint of one coat over an area."""
        gallons = work(film.paint_for_coat, purpose, area=area, spread=spread.rate)
        remark = spread.remark(self.basis.figure(*coverage.APART))
        room = self.room.room.name
        return Material(product, title_of(product), gallons, purpose, color, room, spread.key, remark=remark)

    def supply(self, item: str, title: str, need: Figure, holds: Figure | None, container: str) -> Supply:
        """Return something to buy; `container` is the column of the price list it is bought by."""
        return Supply(item, title, need, holds, self.basis.figure("prices", item, container))

    def bought(self, item: str, container: str, title: str, count: float, why: str, *, once: str = "") -> Supply:
        """Return things bought singly, as the price list sells them; `once` says for what they are needed only once."""
        need = leaf(title, count, "dimensionless", Origin(Kind.JUDGMENT, note=why))
        bought = self.supply(item, title, need, None, container)
        return replace(bought, share_key=f"{item}, {once}") if once else bought

    def by_day(self, item: str, title: str, machine: str) -> Charge:
        """Return something charged for each day on which a machine is used, once for the whole job."""
        rate = self.basis.figure("business", item)
        one = leaf("a day", 1.0, "dimensionless", Origin(Kind.DEFINITION, place="by the day"))
        return Charge(item, title, one, rate, share_key=machine, machine=machine)

    def by_day_here(self, item: str, title: str, what: str) -> Charge:
        """Return something charged for each day on which this room is worked in, once for the room."""
        room = self.room.room.name
        return replace(self.by_day(item, title, what), share_key=f"{what}, {room}", room=room)

    def once(self, item: str, title: str) -> Charge:
        """Return something charged once for the whole job."""
        one = leaf("once", 1.0, "dimensionless", Origin(Kind.DEFINITION, place="once a job"))
        return Charge(item, title, one, self.basis.figure("business", item), share_key=item)

    def caution(self, key: str, because: str) -> Caution:
        """Return a caution of the reference table, with the fact of this job that raises it."""
        row = self.basis.library.row("cautions", key)
        advice, audience = row.words["advice"], Audience(row.words["audience"])
        return Caution(key, row.title, because, advice, str(row.origin), audience)


def with_dry_time(task: Task, wait: Figure, why: str) -> Task:
    """Return the task with a wait after it."""
    return replace(task, wait=wait, wait_for=why)


def with_share_key(task: Task, word: str) -> Task:
    """Return the task as one that the whole job needs only once."""
    return replace(task, share_key=word)


def with_crew_note(task: Task, detail: str) -> Task:
    """Return the task with what the crew needs to know."""
    return replace(task, detail=detail)


def for_tools(task: Task) -> Task:
    """Return the task as care of the tools or the color, of which a client is told nothing."""
    return replace(task, for_tools=True)


def drop_zero_hours(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Return the tasks that take any time at all: a count of none leaves no line."""
    return tuple(task for task in tasks if task.hours.value > 0)
