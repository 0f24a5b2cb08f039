"""What further tests are worth before a way is chosen: what they are expected to save, less what they cost to make.

A kind of work says which tests there are and what their results do to the odds; everything else is here. A test is
taken to have two results. What each does to the odds is then enough to know how often each comes, on a surface that
would fail and on one that would hold: both ratios are held to be right together. Tests of one kind in one room
repeat each other as balls from Pólya's urn do, those made already included; kinds are taken as independent.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from estimating.estimate.pricing.lines import Line, Section
from estimating.estimate.pricing.plan import Caution, Risk
from estimating.estimate.pricing.totals import loaded_wage
from estimating.estimate.uncertainty.ranges import Spread, simulate, spread
from estimating.estimate.whatif.break_even import (
    bad_though_sound,
    bad_when_weak,
    fails_though_sound,
    fails_when_weak,
    value_of_tests,
)
from estimating.estimate.whatif.compare import Option
from estimating.evidence import Basis
from estimating.figures import Figure, evaluate, leaf, total, work
from estimating.origins import definition
from estimating.rules import rule
from estimating.trade import adhesion, labor
from estimating.trade._numbers import require
from estimating.units import Number

MOST = 6
POINTS = 1024
BARE = "dimensionless"
URN = definition("Pólya's urn: a beta-distributed share of bad spots, brought up to date by the tests made")


@dataclass(frozen=True)
class Trial:
    """A kind of test: what its two results do to the odds of failure, and how often it was made so far."""

    key: str
    title: str
    ratio_bad: Figure
    ratio_clean: Figure
    minutes: Figure  # hands-on, one place
    made: int = 0
    bad: int = 0  # of those made
    note: str = ""


@dataclass(frozen=True)
class FurtherTests:
    """What may still be tested in one piece of work."""

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


@rule(
    "(p (1 − ρ) + ρ · bad) / (1 − ρ + ρ · made)",
    BARE,
    URN,
    chance="dimensionless, a chance from 0 to 1",
    alike="dimensionless, 0 or more and less than 1",
    made=BARE,
    bad=BARE,
)
def bad_next(*, chance: Number, alike: Number, made: Number, bad: Number) -> Number:
    """Return the chance that the next test comes out bad after those made.

    chance: of a first test. alike: ρ, the correlation of two tests, 0 to below 1. made, bad: so far.
    """
    require((bad >= 0) & (bad <= made), "bad", bad, "0 to the number made")
    return (chance * (1 - alike) + alike * bad) / (1 - alike + alike * made)


@rule(
    "ρ / (1 + ρ · made)", BARE, URN, alike="dimensionless, 0 or more and less than 1", made="dimensionless, 0 or more"
)
def alike_next(*, alike: Number, made: Number) -> Number:
    """Return how far the tests still to come repeat each other, once so many are made."""
    return alike / (1 + alike * made)


def worths(
    further: FurtherTests, base: Figure, one: Option, other: Option, basis: Basis, most: int = MOST
) -> list[list[ValueOfTest]]:
    """Return what 0 to `most` more tests of each kind are worth before one of two ways is chosen, kind by kind.

    base: the chance of failure that the tests speak of, as it stands now. Making them on a visit that is made anyway:
    no drive and no wait is counted. Raises InputError where the chance is none or certain.
    """
    states = {**_states("a", one, base), **_states("b", other, base)}
    return [
        [
            ValueOfTest(trial, tests, _saves(further, trial, tests, base, states), _costs(trial, tests, basis))
            for tests in range(most + 1)
        ]
        for trial in further.trials
    ]


def best(found: Iterable[Sequence[ValueOfTest]]) -> ValueOfTest | None:
    """Return the tests that are worth most once paid for; None where none is worth what it costs."""
    worth = max((each for kind in found for each in kind), key=lambda each: each.net, default=None)
    return worth if worth is not None and worth.net > 0 else None


def range_of(worth: ValueOfTest, base: Figure) -> Spread:
    """Return what tests are worth, paid for, over the range of the chance they speak of; all else as it is."""
    drawn = simulate([base], points=POINTS)[0]
    (saves,) = evaluate([worth.saves], {base: drawn})
    return spread(np.broadcast_to(np.asarray(saves) - worth.costs.value, drawn.shape))


def cost_either_way(option: Option, base: Figure) -> tuple[Figure, Figure]:
    """Return what a method costs in all where the base method would hold, and where it would fail."""
    risks = [risk for plan in option.estimate.plans for risk in plan.risks if base in risk.expected.walk()]
    allowances = {risk.expected for risk in risks}
    certain = [line.amount for line in option.estimate.lines if _is_cost(line) and line.amount not in allowances]
    mending = {
        outcome: [_mending(risk, base, outcome, by) for risk in risks]
        for outcome, by in (("holds", fails_though_sound), ("fails", fails_when_weak))
    }
    title = option.plan.title
    return (
        total(f"{title}, if it holds", [*certain, *mending["holds"]], unit="dollar"),
        total(f"{title}, if it fails", [*certain, *mending["fails"]], unit="dollar"),
    )


def _is_cost(line: Line) -> bool:
    return line.section not in (Section.PROFIT, Section.MINIMUM, Section.SALES_TAX)


def _mending(risk: Risk, base: Figure, outcome: str, by: Callable[..., Number]) -> Figure:
    chance = work(by, f"{risk.title}, if it {outcome}", base=base, chance=risk.chance)
    return work(adhesion.expected_cost, f"mending, if it {outcome}", chance=chance, cost=risk.cost_if)


def _states(method: str, option: Option, base: Figure) -> dict[str, Figure]:
    holds, fails = cost_either_way(option, base)
    return {f"holds_{method}": holds, f"fails_{method}": fails}


def _saves(further: FurtherTests, trial: Trial, tests: int, base: Figure, states: Mapping[str, Figure]) -> Figure:
    made, bad = _count("made so far", trial.made), _count("bad so far", trial.bad)
    ratios = {"ratio_bad": trial.ratio_bad, "ratio_clean": trial.ratio_clean}

    def next_bad(name: str, first: Callable[..., Number]) -> Figure:
        chance = work(first, f"{trial.title}, {name}", **ratios)
        return work(bad_next, f"{trial.title} next, {name}", chance=chance, alike=further.alike, made=made, bad=bad)

    return work(
        value_of_tests,
        f"{tests} more: {trial.title}",
        chance=base,
        bad_if_fails=next_bad("bad where it fails", bad_when_weak),
        bad_if_holds=next_bad("bad where it holds", bad_though_sound),
        tests=_count("tests", tests),
        alike=work(alike_next, "likeness of those to come", alike=further.alike, made=made),
        **states,
    )


def _costs(trial: Trial, tests: int, basis: Basis) -> Figure:
    name = f"{tests} more: {trial.title}"
    hours = work(labor.hours_by_count, f"{name}, hours", count=_count("tests", tests), minutes=trial.minutes)
    overhead = basis.figure("business", "overhead")
    wages = work(labor.labor_cost, f"{name}, labor", hours=hours, loaded_wage=loaded_wage(basis))
    return total(
        f"{name}, cost",
        [wages, work(labor.overhead_cost, f"{name}, overhead", hours=hours, overhead=overhead)],
        unit="dollar",
    )


def _count(name: str, number: int) -> Figure:
    return leaf(name, number, BARE, definition("a number of tests"))
