"""Ways of doing one work item side by side, the one to recommend, and what would overturn it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property, partial

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.choose_methods import Choice, beside, may_be_taken, weigh
from estimating.estimate.pricing.engine import Engine, Likely
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.estimate.pricing.preference import (
    Appetite,
    Array,
    Picked,
    Weighed,
    beyond_mending,
    chance_of_surface,
    pick,
)
from estimating.estimate.whatif.recommended_along import Priced, Stretch, stretches
from estimating.figures import Figure

INDIFFERENT = Appetite()
NOTHING = Likely(Decimal("0.00"), 0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Option:
    """One method, priced as part of the whole job. Its estimate is built up when somebody asks for it."""

    plan: Plan
    likely: Likely
    build: Callable[[], Estimate]
    judged: Likely | None = None  # the totals the choice goes by, where they are not the likely ones

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
class Comparison:
    """Every method of one work item, in the order they were planned: the plainer and less intrusive first."""

    scope: str
    options: tuple[Option, ...]
    recommended: Option
    taken: Option  # the method the job asks for, or the recommended one
    decision_figure: Figure | None
    without: Likely = NOTHING  # the job without this piece
    appetite: Appetite = INDIFFERENT

    @property
    def picked(self) -> Picked:
        """The cheapest method, the plainest of those that cost the same, and the recommended one."""
        return pick(self._weighed, self.appetite)

    @cached_property
    def _weighed(self) -> Weighed:
        plans, likely = [each.plan for each in self.options], [each.judged or each.likely for each in self.options]
        return weigh(plans, likely, self.without, self.appetite)

    def recommended_at(self, values: Array) -> npt.NDArray[np.intp]:
        """Return the places of the methods that would be recommended at these values of the deciding figure."""
        return pick(self.weighed_at(values), self.appetite).recommended

    def weighed_at(self, values: Array) -> Weighed:
        """Return the methods as the choice would see them at these values of the deciding figure."""
        if self.decision_figure is None:
            raise InputError(self.scope, None, "a figure that the choice turns on")
        without, figure = self.without, self.decision_figure
        at = [each.at(figure, values) for each in self._priced]
        return Weighed.of(
            [
                (
                    each.cost + apart.cost - without.cost + self.appetite.beyond * each.mending,
                    each.price + float(apart.price) - float(without.price),
                    each.chance,
                    each.allowed,
                )
                for each, apart in zip(at, map(_apart_from_judged, self.options), strict=True)
            ]
        )

    @cached_property
    def _priced(self) -> list[Priced]:
        return [Priced(each.plan, each.estimate) for each in self.options]

    @cached_property
    def stretches(self) -> tuple[Stretch, ...]:
        """From where to where along the deciding figure each method is recommended; none where nothing turns on it."""
        figure = self.decision_figure
        if figure is None or math.isnan(figure.value) or not may_be_taken(self.recommended.plan):
            return ()
        return stretches(self.recommended_at) if any(_turns_on(each, figure) for each in self.options) else ()

    @property
    def turning(self) -> str:
        """The stretches of the recommendation in one sentence; empty where nothing turns on the figure."""
        if not self.stretches or self.decision_figure is None:
            return ""
        names = [_low(self.options[each.place].plan.title) for each in self.stretches]
        now = f"{self.decision_figure.name}: {self.decision_figure.value:.1%} now"
        if len(names) == 1:
            return f"{now}; at any value {names[0]}"
        ends = [f"{each.high:.1%}" for each in self.stretches[:-1]]
        inner = "".join(f", to {end} {name}" for end, name in zip(ends[1:], names[1:-1], strict=True))
        return f"{now}; below {ends[0]} {names[0]}{inner}, above {ends[-1]} {names[-1]}"

    @property
    def why(self) -> tuple[str, ...]:
        """Why the recommended method is recommended, and why others are out."""
        return (*_why(self), *_closed(self.options))


def _apart_from_judged(option: Option) -> Likely:
    """Return how far what the choice goes by is from the estimate: days by parts, the same at any chance."""
    judged, made = option.judged or option.likely, option.estimate
    return replace(judged, price=judged.price - made.price, cost=judged.cost - made.cost.value)


def _low(title: str) -> str:
    return title[:1].lower() + title[1:]


def usable(options: Sequence[Option]) -> list[Option]:
    """Return the methods that end in the finish asked for and may be used here, the cheapest first."""
    return sorted((each for each in options if may_be_taken(each.plan)), key=lambda option: option.price)


def compare(
    scope: str,
    options: Sequence[Option],
    decision_figure: Figure | None,
    asked: str | None = None,
    without: Likely = NOTHING,
    appetite: Appetite = INDIFFERENT,
) -> Comparison:
    """Return the methods side by side, and the one recommended; the last one where none may be used."""
    plans, likely = [each.plan for each in options], [each.judged or each.likely for each in options]
    recommended = options[int(pick(weigh(plans, likely, without, appetite), appetite).recommended)]
    taken = next((each for each in options if each.plan.method == asked), recommended)
    return Comparison(scope, tuple(options), recommended, taken, decision_figure, without, appetite)


def compare_each(choices: Sequence[Choice], made: Estimate, engine: Engine) -> tuple[Comparison, ...]:
    """Return the methods of every piece, each beside the plans that the estimate was made of.

    A method that is not taken is priced as the job is made, and what the choice says it adds or saves: in a job of
    many rooms that leaves out by how much another day or a fuller one happens to fall on it.
    """
    engine.meet(plan for choice in choices for plan in choice.plans)
    found = []
    for place, choice in enumerate(choices):
        options = [_option(plan, place, made, engine) for plan in choice.plans]
        without = engine.judged([*made.plans[:place], *made.plans[place + 1 :]])
        asked = made.plans[place].method
        beside_it = (choice.decision_figure, asked, without, engine.appetite)
        found.append(compare(choice.plans[0].scope, options, *beside_it))
    return tuple(found)


def _option(plan: Plan, place: int, made: Estimate, engine: Engine) -> Option:
    if plan is made.plans[place]:
        return Option(plan, engine.likely(made.plans), lambda: made, engine.judged(made.plans))
    plans = beside(made.plans, place, plan)
    judged = engine.judged(plans)
    likely = engine.likely(made.plans).moved(engine.judged(made.plans), judged)
    return Option(plan, likely, partial(build_up, plans, engine.job, engine.basis), judged)


def _turns_on(option: Option, decision_figure: Figure) -> bool:
    """Say whether what a method may cost or how long it takes rests on the figure."""
    plan = option.plan
    rest = [*(risk.expected for risk in plan.risks), *(task.hours for task in plan.tasks)]
    return any(decision_figure in figure.walk() for figure in rest)


def _why(found: Comparison) -> Iterator[str]:
    ranked, best = usable(found.options), found.recommended
    if not ranked:
        yield "no method is OK here"
        return
    plainest = found.options[int(found.picked.plainest)]
    yield _calmer(best, plainest) if best is not plainest else _cheapest(found, ranked[0])
    lower = [each for each in ranked if each.price < best.price and (best is plainest or each is not plainest)]
    yield from (f"{each.plan.title} is priced {_apart(each, best)}" for each in lower)
    dearer = [each for each in ranked if each.price >= best.price and each is not best]
    yield from (f"next is {each.plan.title}, {_apart(each, best)}" for each in dearer[:1])
    yield from (
        f"on condition: {each.text}" for each in best.plan.findings if each.suitability is Suitability.CONDITIONS
    )


def _cheapest(found: Comparison, lowest: Option) -> str:
    """Return why the plainest of the cheapest is recommended, with what was counted that its price does not show."""
    best, cheapest = found.recommended, found.options[int(found.picked.cheapest)]
    counted = _counted(found) if lowest.price < best.price else ""
    if best is not cheapest:
        return f"{best.plan.title}: costs nearly the same as {cheapest.plan.title}{counted}, and is plainer"
    if lowest.price < best.price:
        return f"{best.plan.title}: costs the least of the methods that are OK here{counted}"
    return f"{best.plan.title}: the cheapest of the methods that are OK here, risks priced in"


def _counted(found: Comparison) -> str:
    """Return what the choice counts and the likely prices do not."""
    days = any(each.judged is not None and each.judged.cost != each.likely.cost for each in found.options)
    beyond = any(beyond_mending(each.plan, found.appetite) for each in found.options)
    counted = [
        "days counted in fractions, since rooms share them" if days else "",
        "what a failure costs beyond its mending" if beyond else "",
    ]
    said = ", and with ".join(each for each in counted if each)
    return f", with {said}" if said else ""


def _calmer(best: Option, instead: Option) -> str:
    chances = [chance_of_surface(each.plan) for each in (best, instead)]
    return (
        f"{best.plan.title}: a chance of {chances[0]:.0%} that something comes down, where {instead.plan.title} "
        f"has {chances[1]:.0%} and is {_apart(instead, best)}"
    )


def _apart(one: Option, best: Option) -> str:
    apart = one.price - best.price
    return f"{abs(apart):,.2f} dollars {'more' if apart >= 0 else 'less'}"


def _closed(options: Sequence[Option]) -> list[str]:
    return [
        f"{option.plan.title} is out: {reason.text}"
        for option in options
        for reason in option.plan.findings
        if reason.suitability is Suitability.CLOSED
    ]
