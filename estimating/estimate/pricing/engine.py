"""The likely price of one job by any plans, many times over: the rules of the price standing, with room for numbers.

A choice between methods asks for the price of the whole job beside every other method of every piece. Each rule of the
price is built once as a standing tree of figures, by the very functions that build_up builds lines with, and worked
out in plain numbers from then on. What a plan takes whatever it is done beside is added up once; what is shared
between plans, the days and the totals are worked out for each question.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property

import numpy as np

from estimating.estimate.pricing.arrange import Arranger, Cell, crew_size, hours_of, machines_of
from estimating.estimate.pricing.lines import Section
from estimating.estimate.pricing.needs import Needs, paint_needs, supply_needs
from estimating.estimate.pricing.order import paint_cost, supply_order
from estimating.estimate.pricing.own_lines import own_lines, untaxed_keys
from estimating.estimate.pricing.plan import Charge, Material, Phase, Plan, Supply, Task
from estimating.estimate.pricing.preference import Appetite
from estimating.estimate.pricing.rooms import RoomStep, in_hours
from estimating.estimate.pricing.sharing import charged_once, kept_once
from estimating.estimate.pricing.site_days import every_day, waiting, waits
from estimating.estimate.pricing.totals import add_up_price, charge_line, discount_of, labor_line, loaded_wage
from estimating.evidence import Basis
from estimating.figures import Figure, StandingTree, leaf
from estimating.job.model import Job
from estimating.origins import definition
from estimating.trade import pricing
from estimating.units import Number, cents

GIVEN = definition("given anew each time")


@dataclass(frozen=True)
class Likely:
    """What a job comes to: the price it is sold at, its cost (dollars), hours, days on site, and gallons coated on."""

    price: Decimal
    cost: float
    hours: float
    days: float
    gallons: float

    def moved(self, before: Likely, after: Likely) -> Likely:
        """Return this by as much more or less as one job is than another; this itself is one of them, or like them."""
        return Likely(
            self.price + after.price - before.price,
            self.cost + after.cost - before.cost,
            self.hours + after.hours - before.hours,
            self.days + after.days - before.days,
            self.gallons + after.gallons - before.gallons,
        )


@dataclass(frozen=True)
class _Labor:
    """Hours of labor, and what they are paid: as they are, and as each line is to the cent."""

    hours: float
    amount: float
    rounded: Decimal

    def __add__(self, other: _Labor) -> _Labor:
        return _Labor(self.hours + other.hours, self.amount + other.amount, self.rounded + other.rounded)


NO_LABOR = _Labor(0.0, 0.0, Decimal("0.00"))


@dataclass(frozen=True)
class _Sum:
    """What the plans of some rooms take, whatever else is done in the job."""

    labor: _Labor  # in the rooms themselves
    paint: Needs[Material]
    supplies: Needs[Supply]
    charges: tuple[Charge, ...]
    risks: tuple[float, Decimal]  # their amounts together: as they are, and as each line is to the cent
    of_job: tuple[Task, ...]
    rooms: int
    alone: float  # most days on which one of the rooms is worked in by a crew that does nothing else
    rooms_with: Counter[str]  # how many of the rooms a machine is used in
    standing: tuple[float, ...]  # what is charged for things that stand in a room as long as it takes alone, in dollars

    def __add__(self, other: _Sum) -> _Sum:
        return _Sum(
            self.labor + other.labor,
            Needs.joined((self.paint, other.paint)),
            Needs.joined((self.supplies, other.supplies)),
            tuple(charged_once((*self.charges, *other.charges))),
            (self.risks[0] + other.risks[0], self.risks[1] + other.risks[1]),
            tuple(kept_once((*self.of_job, *other.of_job), hours_of)),
            self.rooms + other.rooms,
            max(self.alone, other.alone),
            self.rooms_with + other.rooms_with,
            (*self.standing, *other.standing),
        )


NOTHING = _Sum(NO_LABOR, Needs.of(()), Needs.of(()), (), (0.0, Decimal("0.00")), (), 0, 0.0, Counter(), ())


@dataclass(frozen=True)
class _Parts:
    """What plans take together, but for what every day on site brings."""

    hours: float
    amount: float
    rounded: Decimal
    bought: float
    gallons: float
    machines: tuple[tuple[str, str, float], ...]  # by machine and room, what a day is charged, in dollars


class _Standing:
    """An amount as it hangs on one number, such as the cost of paint on its gallons."""

    def __init__(self, unit: str, amount_of: Callable[[Figure], Figure]) -> None:
        self.unit = unit
        self._given = leaf("given", 0.0, unit, GIVEN)
        self._tree = StandingTree([amount_of(self._given)])
        self._known: dict[float, float] = {}

    def of(self, number: float) -> float:
        if number not in self._known:
            self._known[number] = float(self._tree.at({self._given: number})[0])
        return self._known[number]

    def of_each(self, numbers: Sequence[float]) -> list[float]:
        (amounts,) = self._tree.at({self._given: np.array(numbers)})
        return [float(each) for each in np.broadcast_to(amounts, len(numbers))]


class _Whole:
    """The totals of a job as they hang on hours, amounts, what is bought, the days on site and the waiting there."""

    def __init__(self, job: Job, basis: Basis) -> None:
        self._hours, self._idle = (leaf(name, 0.0, "hour", GIVEN) for name in ("hours", "idle"))
        self._amount, self._bought = (leaf(name, 0.0, "dollar", GIVEN) for name in ("amount", "bought"))
        self._days, wage = leaf("days", 0.0, "dimensionless", GIVEN), loaded_wage(basis)
        every = [*every_day(job, basis, self._days, crew_size(job)), *waiting(self._idle)]
        daily = [labor_line(task, wage) for task in every]
        totals = add_up_price(
            [self._hours, *(line.quantity for line in daily)],
            [self._amount, *(line.amount for line in daily)],
            [self._bought],
            basis,
            discount=discount_of(job),
            untaxed=_untaxed(job, wage),
        )
        self._step = job.terms.round_up_to
        lines = [*daily, *totals.lines]
        self._minimum = next(at for at, line in enumerate(lines) if line.section is Section.MINIMUM)
        self._tree = StandingTree([totals.cost, totals.hours, *(line.amount for line in lines)])

    def of(self, parts: _Parts, days: float, idle: float, extra: Sequence[float]) -> Likely:
        """Return the totals; extra: amounts of lines that hang on the days, in dollars."""
        given: dict[Figure, Number] = {
            self._hours: parts.hours,
            self._days: days,
            self._idle: idle,
            self._amount: sum(extra, parts.amount),
            self._bought: parts.bought,
        }
        cost, hours, *lines = map(float, self._tree.at(given))
        before = [*lines[: self._minimum], *extra]
        rounded, top_up = parts.rounded + _rounded(before), lines[self._minimum]
        crumbs = float(rounded) - sum(before, parts.amount)
        minimum = float(pricing.top_up_to_the_cent(top_up=top_up, crumbs=crumbs))
        price = rounded + _rounded([minimum, *lines[self._minimum + 1 :]]) if days else Decimal("0.00")
        if self._step and days:
            price += cents(float(pricing.rounding_up(price=float(price), crumbs=0.0, step=float(self._step))))
        return Likely(price, cost, hours, days, parts.gallons)


def _untaxed(job: Job, wage: Figure) -> list[Figure]:
    own, free = own_lines(job), untaxed_keys(job)
    worked = [labor_line(each, wage).amount for each in own.tasks if each.key in free]
    charged = [charge_line(each, each.quantity).amount for each in own.charges if each.key in free]
    bought = [supply_order(each, each.need).cost for each in own.supplies if each.item in free]
    return [*worked, *charged, *bought, *(each.expected for each in own.risks if each.key in free)]


def _rounded(amounts: Iterable[float]) -> Decimal:
    return sum(map(cents, amounts), Decimal("0.00"))


class Engine:
    """The standing price of one job; it lives as long as the estimate it was made for.

    What was worked out is kept by the plans it was worked out of, since neighboring questions share most of it: they
    have to outlive the engine.
    """

    def __init__(self, job: Job, basis: Basis) -> None:
        self.job = job
        self.basis = basis
        self.arranger = Arranger(job, basis)
        self._own_lines = own_lines(job)
        self._paint: dict[str, _Standing] = {}
        self._bought: dict[tuple[str, Figure | None, Figure], _Standing] = {}
        self._charged: dict[Figure, _Standing] = {}
        self._paid: dict[tuple[int, ...], _Labor] = {}
        self._sums: dict[tuple[int, ...], _Sum] = {}
        self._met: dict[int, Plan] = {}
        self._shared_in: dict[str, tuple[str, ...]] = {}  # by word, the rooms in which goods are shared under it
        self._apart: set[str] = set()  # words under which rooms share nothing with each other
        self._known: dict[tuple[int, ...], Likely] = {}
        self._judged: dict[tuple[int, ...], Likely] = {}
        self._kept: list[object] = []  # what the keys above are the ids of

    @cached_property
    def appetite(self) -> Appetite:
        """What the contractor makes of chance."""
        return Appetite.of(self.basis)

    @cached_property
    def _whole(self) -> _Whole:
        return _Whole(self.job, self.basis)

    @cached_property
    def _labor(self) -> _Standing:
        wage = loaded_wage(self.basis)
        return _Standing("hour", lambda hours: labor_line(Task("", "labor", Phase.ARRIVE, hours), wage).amount)

    def likely(self, plans: Sequence[Plan]) -> Likely:
        """Return what the job comes to when it is done by these plans, in whatever order they are given."""
        plans = self._every(plans)
        key = tuple(sorted(map(id, plans)))
        if key not in self._known:
            self._known[key] = self._priced(plans)
        return self._known[key]

    def _every(self, plans: Sequence[Plan]) -> Sequence[Plan]:
        """Return the plans with the contractor's own lines, the same ones each time."""
        return (*plans, self._own_lines) if self.job.extra and any(plan.tasks for plan in plans) else plans

    def _priced(self, plans: Sequence[Plan]) -> Likely:
        parts, run = self._parts(self._together(self._cells(plans))), self.arranger.run(plans)
        if run is None:
            return self._whole.of(parts, 0.0, 0.0, ())
        set_up = [task for step in run.steps for task in step.all if task.machine_care]
        paid = self._pay(set_up)
        more = replace(
            parts,
            hours=parts.hours + paid.hours,
            amount=parts.amount + paid.amount,
            rounded=parts.rounded + paid.rounded,
        )
        machines = [price * run.days_with(name, room) for name, room, price in parts.machines]
        return self._whole.of(more, run.days, run.idle if waits(run) else 0.0, machines)

    def judged(self, plans: Sequence[Plan]) -> Likely:
        """Return the totals that a choice between methods goes by.

        Of a few rooms it is the likely price. In a job of more rooms than are open at once the waits of one are filled
        with the work of others, and whether the last day is full does not decide how a room is painted: there days
        count by parts, though never fewer than a room by itself takes.
        """
        plans = self._every(plans)
        key = tuple(sorted(map(id, plans)))
        if key not in self._judged:
            self._judged[key] = self._judge(plans)
        return self._judged[key]

    def _judge(self, plans: Sequence[Plan]) -> Likely:
        cells, site = self._cells(plans), self.arranger.site
        if sum(len(cell.rooms) for cell in cells) <= site.most_open:
            return self.likely(plans)
        found = self._together(cells)
        parts = self._parts(found)
        full = parts.hours / site.crew / float(site.hours.day_length)
        return self._whole.of(parts, max(full, found.alone), 0.0, [*found.standing, *self._machine_days(parts, found)])

    def _machine_days(self, parts: _Parts, found: _Sum) -> list[float]:
        """Return what machines come to if as many rooms are done in a day as are open at once."""
        amounts = []
        for name, machine in machines_of(found.of_job).items():
            set_up = self._pay([*machine.set_up, *machine.clean]).amount
            charged = sum(price for used, _, price in parts.machines if used == name)
            amounts.append(math.ceil(found.rooms_with[name] / self.arranger.site.most_open) * (charged + set_up))
        return amounts

    def _parts(self, found: _Sum) -> _Parts:
        around = self.arranger.around(found.of_job) if found.rooms or found.of_job else ()
        labor = sum(map(self._group, around), found.labor)
        gallons, packs = found.paint.all(), found.supplies.all()
        paint = [self._in_cans(first, need) for first, need in gallons]
        supplies = [self._in_packs(first, need) for first, need in packs]
        fixed = [
            self._charge(each, each.quantity.value_in("dimensionless")) for each in found.charges if not each.machine
        ]
        lines = [*paint, *supplies, *fixed]
        return _Parts(
            labor.hours,
            sum(lines, labor.amount + found.risks[0]),
            labor.rounded + found.risks[1] + _rounded(lines),
            sum(paint) + sum(supplies),
            sum((need for _, need in gallons), 0.0),
            tuple((each.machine, each.room, self._charge(each, 1.0)) for each in found.charges if each.machine),
        )

    def _cells(self, plans: Sequence[Plan]) -> list[Cell]:
        self.meet(plans)
        return self.arranger.cells(plans)

    def meet(self, plans: Iterable[Plan]) -> None:
        """Take note of plans that will be asked about: what one shares with others is known before any is added up."""
        for plan in plans:
            if id(plan) not in self._met:
                self._met[id(plan)] = plan
                self._note_shared(plan)

    def _note_shared(self, plan: Plan) -> None:
        """Note under which words a plan shares goods; what was added up with a word for one room's own goes stale."""
        home = self.arranger.home(plan)
        words = {each.share_key for each in plan.materials} | {each.share_key for each in plan.supplies}
        for word in words - {""}:
            if word not in self._shared_in:
                self._shared_in[word] = home
                self._apart.add(word)
            elif self._shared_in[word] != home and word in self._apart:
                self._apart.remove(word)
                self._sums.clear()

    def _together(self, cells: Sequence[Cell]) -> _Sum:
        """Return the sum of cells, added up by halves: a job in which one cell is another shares most of the rest."""
        if not cells:
            return NOTHING
        key = tuple(map(id, cells))
        if key not in self._sums:
            half = len(cells) // 2
            self._sums[key] = (
                self._together(cells[:half]) + self._together(cells[half:]) if half else self._sum_of(cells[0])
            )
        return self._sums[key]

    def _sum_of(self, cell: Cell) -> _Sum:
        machines = [{step.machine for step in steps if step.machine} for steps in cell.rooms.values()]
        charges = charged_once(each for plan in cell.plans for each in plan.charges)
        risks = [risk.expected.value_in("dollar") for plan in cell.plans for risk in plan.risks]
        alone = {room: self.arranger.days_alone(room, steps) for room, steps in cell.rooms.items()}
        self._kept.append(cell)
        return _Sum(
            sum((self._group(steps) for steps in cell.rooms.values()), NO_LABOR),
            paint_needs((each for plan in cell.plans for each in plan.materials), self._apart),
            supply_needs((each for plan in cell.plans for each in plan.supplies), self._apart),
            tuple(charges),
            (sum(risks), _rounded(risks)),
            cell.of_job,
            len(cell.rooms),
            max(alone.values(), default=0.0),
            Counter(name for names in machines for name in names),
            tuple(self._charge(each, alone[each.room]) for each in charges if each.machine and each.room in alone),
        )

    def _group(self, steps: tuple[RoomStep, ...]) -> _Labor:
        return self._pay([task for step in steps for task in step.all])

    def _pay(self, tasks: Sequence[Task]) -> _Labor:
        key = tuple(map(id, tasks))
        if key not in self._paid:
            hours = [in_hours(task.hours) for task in tasks]
            amounts = self._labor.of_each(hours) if hours else []
            self._paid[key] = _Labor(sum(hours), sum(amounts), _rounded(amounts))
            self._kept.append(tasks)
        return self._paid[key]

    def _in_cans(self, first: Material, need: float) -> float:
        if first.product not in self._paint:
            self._paint[first.product] = _Standing(
                "gallon", lambda gallons: paint_cost(first.title, first.product, gallons, self.basis)
            )
        return self._paint[first.product].of(need)

    def _in_packs(self, first: Supply, need: float) -> float:
        key = (first.need.unit, first.holds, first.price)
        if key not in self._bought:
            self._bought[key] = _Standing(first.need.unit, lambda wanted: supply_order(first, wanted).cost)
        return self._bought[key].of(need)

    def _charge(self, charge: Charge, count: float) -> float:
        if charge.price not in self._charged:
            self._charged[charge.price] = _Standing("dimensionless", lambda days: charge_line(charge, days).amount)
        return self._charged[charge.price].of(count)
