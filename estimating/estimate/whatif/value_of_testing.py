"""What further tests are worth before a method is chosen: what they are expected to save, less what they cost to make.

A kind of work says which tests there are and how often each shows what, on a weak surface and on a sound one;
everything else is here. Tests of one kind in one room repeat each other as balls from Pólya's urn do, those made
already included; kinds are taken as independent. After every result that may come the method is chosen anew, of all
there are, by the very rule that recommends. A rule with limits may take a dearer method after a bad result than it
would have without a test; a test that is expected to lose is worth nothing, since nobody has to make it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from estimating.errors import InputError
from estimating.estimate.pricing.plan import Caution
from estimating.estimate.pricing.preference import Array, pick
from estimating.estimate.pricing.totals import loaded_wage
from estimating.estimate.uncertainty.ranges import Spread, simulate, spread
from estimating.estimate.whatif.compare import Comparison, Option
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, total, work
from estimating.origins import definition
from estimating.trade import labor

MOST = 6
POINTS = 64
CRUMB = 1e-6  # dollars: less is rounding
BARE = "dimensionless"
WALKED = definition(
    "cost of the recommended method now − Σ over results: P(result) · cost of the method recommended after it"
)


@dataclass(frozen=True)
class Shows:
    """What a test can show, and how often it does on a weak surface and on a sound one."""

    key: str
    title: str
    weak: Figure
    sound: Figure
    made: int = 0  # tests that showed it so far
    bad: bool = False


@dataclass(frozen=True)
class Trial:
    """A kind of test: what it can show, and what it takes to make one."""

    key: str
    title: str
    shows: tuple[Shows, ...]
    minutes: Figure  # hands-on, one place
    note: str = ""

    @property
    def made(self) -> int:
        """How many were made so far."""
        return sum(each.made for each in self.shows)

    @property
    def bad(self) -> int:
        """How many of those made came out bad."""
        return sum(each.made for each in self.shows if each.bad)


@dataclass(frozen=True)
class FurtherTests:
    """What may still be tested in one work item."""

    trials: tuple[Trial, ...]
    alike: Figure  # how far tests of one kind repeat each other, 0 to 1
    barred: tuple[Caution, ...] = ()  # why none may be made now


@dataclass(frozen=True)
class ValueOfTest:
    """So many more tests of one kind: what they are expected to save, and what they cost to make (dollars)."""

    trial: Trial
    tests: int
    saves: Figure
    costs: Figure

    @property
    def net(self) -> float:
        """What they are worth once they are paid for."""
        return self.saves.value - self.costs.value


@dataclass(frozen=True)
class Result:
    """One result that so many tests may have, in whatever order, and how often on a weak and on a sound surface."""

    counts: tuple[int, ...]  # in the order of what the test can show
    weak: float
    sound: float

    def chance(self, weak: Array) -> Array:
        """Return how often it comes, at these chances of a weak surface."""
        return weak * self.weak + (1 - weak) * self.sound

    def after(self, weak: Array) -> Array:
        """Return the chance of a weak surface once it has come."""
        return weak * self.weak / self.chance(weak)


def results(trial: Trial, tests: int, alike: float) -> list[Result]:
    """Return every result that so many more tests of a kind may have, after those made."""
    return [
        Result(
            counts,
            _how_often(trial, counts, alike, [each.weak.value for each in trial.shows]),
            _how_often(trial, counts, alike, [each.sound.value for each in trial.shows]),
        )
        for counts in _shared_out(tests, len(trial.shows))
    ]


def _shared_out(tests: int, among: int) -> Iterator[tuple[int, ...]]:
    """Yield every way to share tests out among the things they can show."""
    if among == 1:
        yield (tests,)
        return
    for first in range(tests + 1):
        yield from ((first, *rest) for rest in _shared_out(tests - first, among - 1))


def _how_often(trial: Trial, counts: Sequence[int], alike: float, chances: Sequence[float]) -> float:
    """Return how often Pólya's urn gives these counts: Dirichlet-multinomial, after what was drawn before."""
    often = float(math.factorial(sum(counts)))
    for shows, count, chance in zip(trial.shows, counts, chances, strict=True):
        for n in range(count):
            often *= (chance * (1 - alike) + alike * (shows.made + n)) / (n + 1)
    for n in range(sum(counts)):
        often /= 1 - alike + alike * (trial.made + n)
    return often


def worths(further: FurtherTests, comparison: Comparison, basis: Basis, most: int = MOST) -> list[list[ValueOfTest]]:
    """Return what 0 to `most` more tests of each kind are worth before a method is chosen, kind by kind.

    Making them on a visit that is made anyway: no drive and no wait is counted. What is saved is cost, and what a
    failure costs beyond its mending. Raises InputError where the choice turns on no figure.
    """
    weak = np.array([_weak(comparison).value])
    asked = [(trial, tests) for trial in further.trials for tests in range(most + 1)]
    saves = _saves(comparison, [results(trial, tests, further.alike.value) for trial, tests in asked], weak)
    found = [_worth(*each, basis, float(saved[0])) for each, saved in zip(asked, saves, strict=True)]
    return [found[place : place + most + 1] for place in range(0, len(found), most + 1)]


def _worth(trial: Trial, tests: int, basis: Basis, saves: float) -> ValueOfTest:
    saved = leaf(f"{tests} more: {trial.title}", saves, "dollar", WALKED)
    return ValueOfTest(trial, tests, saved, _costs(trial, tests, basis))


@dataclass(frozen=True)
class LeadsTo:
    """What one more test may show, how often, and the method that would be recommended then."""

    shows: Shows
    chance: float
    option: Option


def leads_to(further: FurtherTests, trial: Trial, comparison: Comparison) -> list[LeadsTo]:
    """Return where each result of one more test would lead."""
    weak = np.array([_weak(comparison).value])
    found = results(trial, 1, further.alike.value)
    places = comparison.recommended_at(np.array([float(each.after(weak)[0]) for each in found]))
    return [
        LeadsTo(trial.shows[each.counts.index(1)], float(each.chance(weak)[0]), comparison.options[int(place)])
        for each, place in zip(found, places, strict=True)
    ][::-1]


def best(found: Iterable[Sequence[ValueOfTest]]) -> ValueOfTest | None:
    """Return the tests that are worth most once paid for; None where none is worth what it costs."""
    worth = max((each for kind in found for each in kind), key=lambda each: each.net, default=None)
    return worth if worth is not None and worth.net > 0 else None


def range_of(worth: ValueOfTest, further: FurtherTests, comparison: Comparison) -> Spread:
    """Return what tests are worth, paid for, over the range of the chance they speak of; all else as it is."""
    drawn = simulate([_weak(comparison)], points=POINTS)[0]
    (saves,) = _saves(comparison, [results(worth.trial, worth.tests, further.alike.value)], drawn)
    return spread(saves - worth.costs.value)


def _weak(comparison: Comparison) -> Figure:
    if comparison.decision_figure is None:
        raise InputError(comparison.scope, None, "a figure that the choice turns on")
    return comparison.decision_figure


def _saves(comparison: Comparison, cases: Sequence[Sequence[Result]], weak: Array) -> list[Array]:
    """Return what each case of tests is expected to save at these chances of a weak surface, never below nothing."""
    after = [result.after(weak) for case in cases for result in case]
    now, *costs = _cost(comparison, np.array([weak, *after]))
    left, saves = iter(costs), []
    for case in cases:
        saved = now - sum((result.chance(weak) * next(left) for result in case), np.zeros(weak.shape))
        saves.append(np.where(saved > CRUMB, saved, 0.0))
    return saves


def _cost(comparison: Comparison, weak: Array) -> Array:
    """Return what the recommended method costs at these chances, and what its failures cost beyond mending."""
    methods = comparison.weighed_at(weak)
    chosen = pick(methods, comparison.appetite).recommended
    return np.asarray(np.take_along_axis(methods.cost, chosen[np.newaxis], axis=0)[0])


def _costs(trial: Trial, tests: int, basis: Basis) -> Figure:
    name = f"{tests} more: {trial.title}"
    count = leaf("tests", tests, BARE, definition("a number of tests"))
    hours = work(labor.hours_by_count, f"{name}, hours", count=count, minutes=trial.minutes)
    overhead = basis.figure("business", "overhead")
    wages = work(labor.labor_cost, f"{name}, labor", hours=hours, loaded_wage=loaded_wage(basis))
    return total(
        f"{name}, cost",
        [wages, work(labor.overhead_cost, f"{name}, overhead", hours=hours, overhead=overhead)],
        unit="dollar",
    )
