"""Ways of doing one piece of work side by side, the one to recommend, and what would overturn it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property, partial

from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.choose_methods import Choice, beside, may_be_taken
from estimating.estimate.pricing.engine import Engine, Likely
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.estimate.whatif.break_even import break_even
from estimating.figures import Figure


@dataclass(frozen=True)
class Option:
    """One way, priced as part of the whole job. Its estimate is built up when somebody asks for it."""

    plan: Plan
    likely: Likely
    build: Callable[[], Estimate]

    @cached_property
    def estimate(self) -> Estimate:
        """The job done this way, line by line."""
        return self.build()

    @property
    def price(self) -> Decimal:
        """The likely price of the job done this way."""
        return self.likely.price

    @property
    def chance(self) -> Figure | None:
        """The chance of the first risk of this way, where it has one."""
        return self.plan.risks[0].chance if self.plan.risks else None


@dataclass(frozen=True)
class Crossing:
    """Where two ways cost the same, on the figure the choice turns on."""

    one: Option
    other: Option
    at: tuple[float, ...]  # none where one way is dearer throughout
    now: float

    def __str__(self) -> str:
        names = f"{self.one.plan.title} and {self.other.plan.title}"
        if not self.at:
            return f"{names} do not cost the same at any value"
        places = ", ".join(f"{each:.1%}" for each in self.at)
        return f"{names} cost the same at {places}; it is {self.now:.1%} now"


@dataclass(frozen=True)
class Comparison:
    """Every way of one piece of work, in the order they were planned."""

    scope: str
    options: tuple[Option, ...]
    recommended: Option
    taken: Option  # the way the job asks for, or the recommended one
    decision_figure: Figure | None

    @cached_property
    def crossings(self) -> tuple[Crossing, ...]:
        """Where the recommended way and each other that turns on the pivot cost the same."""
        if self.decision_figure is None or not may_be_taken(self.recommended.plan):
            return ()
        others = [each for each in self.options if each.plan.finishes and each is not self.recommended]
        return tuple(
            _crossing(self.recommended, each, self.decision_figure)
            for each in others
            if _turns_on(each, self.decision_figure)
        )

    @property
    def why(self) -> tuple[str, ...]:
        """Why the recommended way is recommended, and why others are out."""
        return tuple(_why(self.recommended, usable(self.options), self.options))


def usable(options: Sequence[Option]) -> list[Option]:
    """Return the ways that end in the finish asked for and may be used here, the cheapest first."""
    return sorted((each for each in options if may_be_taken(each.plan)), key=lambda option: option.price)


def compare(
    scope: str, options: Sequence[Option], decision_figure: Figure | None, asked: str | None = None
) -> Comparison:
    """Return the ways side by side: the cheapest that may be used is recommended, its risks priced in.

    Where none may be used, the last resort is recommended: the last way, which leaves things as they are.
    """
    ranked = usable(options)
    recommended = ranked[0] if ranked else options[-1]
    taken = next((each for each in options if each.plan.method == asked), recommended)
    return Comparison(scope, tuple(options), recommended, taken, decision_figure)


def compare_each(choices: Sequence[Choice], made: Estimate, engine: Engine) -> tuple[Comparison, ...]:
    """Return the ways of every piece, each beside the plans that the estimate was made of."""
    found = []
    for place, choice in enumerate(choices):
        options = [_option(plan, place, made, engine) for plan in choice.plans]
        found.append(compare(choice.plans[0].scope, options, choice.decision_figure, made.plans[place].method))
    return tuple(found)


def _option(plan: Plan, place: int, made: Estimate, engine: Engine) -> Option:
    plans = beside(made.plans, place, plan)
    build = (lambda: made) if plan is made.plans[place] else partial(build_up, plans, engine.job, engine.basis)
    return Option(plan, engine.likely(plans), build)


def _turns_on(option: Option, decision_figure: Figure) -> bool:
    """Say whether what a way may cost or how long it takes rests on the figure."""
    plan = option.plan
    rest = [*(risk.expected for risk in plan.risks), *(task.hours for task in plan.tasks)]
    return any(decision_figure in figure.walk() for figure in rest)


def _crossing(one: Option, other: Option, decision_figure: Figure) -> Crossing:
    if math.isnan(decision_figure.value):
        return Crossing(one, other, (), math.nan)
    found = break_even(one.estimate.amount, other.estimate.amount, decision_figure, low=0.0, high=1.0)
    return Crossing(one, other, tuple(found), decision_figure.value)


def _why(best: Option, ranked: list[Option], options: Sequence[Option]) -> list[str]:
    if not ranked:
        return ["no way of doing it may be used here", *_closed(options)]
    words = [f"{best.plan.title}: the cheapest of the ways that may be used here, risks priced in"]
    if len(ranked) > 1:
        second = ranked[1]
        words.append(f"next is {second.plan.title}, {second.price - best.price:,.2f} dollars more")
    words += [
        f"on condition: {reason.text}" for reason in best.plan.findings if reason.suitability is Suitability.CONDITIONS
    ]
    return words + _closed(options)


def _closed(options: Sequence[Option]) -> list[str]:
    return [
        f"{option.plan.title} is out: {reason.text}"
        for option in options
        for reason in option.plan.findings
        if reason.suitability is Suitability.CLOSED
    ]
