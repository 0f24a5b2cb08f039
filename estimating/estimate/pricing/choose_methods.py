"""Choosing a method for every piece of a job: each the preferred one, beside the methods taken for the others.

Pieces share a visit, cans, covers and waits, so the cost of a method is that of the whole job done with it. A method
taken for one piece may change what is preferred for another: they are gone over in turn until none changes. Then every
method is tried on all pieces that have it, since a machine that does not pay for one room may pay for several.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.estimate.pricing.engine import Engine, Likely
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.estimate.pricing.preference import Appetite, Weighed, beyond_mending, chance_of_surface, pick
from estimating.figures import Figure


@dataclass(frozen=True)
class Choice:
    """The methods of one work item as they were planned, the method the job asks for, and what the choice turns on."""

    plans: tuple[Plan, ...]
    asked: str | None = None
    decision_figure: Figure | None = None

    def asked_for(self, place: int) -> Plan | None:
        """Return the method the job asks for; InputError where the piece in this place has no such method."""
        if self.asked is None:
            return None
        found = [plan for plan in self.plans if plan.method == self.asked]
        if not found:
            methods = ", ".join(plan.method for plan in self.plans)
            raise InputError(f"work[{place}] · method", self.asked, f"one of {methods}, or unknown")
        return found[0]


def may_be_taken(plan: Plan) -> bool:
    """Say whether a method ends in the finish asked for and may be used here."""
    return plan.finishes and plan.suitability is not Suitability.CLOSED


def choose_methods(choices: Sequence[Choice], engine: Engine) -> list[Plan]:
    """Return the plan to take for each piece: the one asked for, or the preferred one beside those of the others.

    Where none may be used it is the last one, which leaves things as they are. No piece gains by another
    method alone; other changes of several at once are not looked at.
    """
    engine.meet(plan for choice in choices for plan in choice.plans)
    asked = [choice.asked_for(place) for place, choice in enumerate(choices)]
    first = [wanted or choice.plans[0] for wanted, choice in zip(asked, choices, strict=True)]
    free = [place for place, wanted in enumerate(asked) if wanted is None]
    free.sort(key=lambda place: choices[place].plans[0].content)  # the order in the file moves nothing
    taken = _improve_until_stable(choices, first, free, engine)
    for method in sorted({plan.method for place in free for plan in choices[place].plans}):
        together = list(taken)
        for place in free:
            same = [plan for plan in choices[place].plans if plan.method == method and may_be_taken(plan)]
            together[place] = same[0] if same else taken[place]
        if _cost(together, engine) < _cost(taken, engine):
            taken = _improve_until_stable(choices, together, free, engine)
    return taken


def _improve_until_stable(
    choices: Sequence[Choice], taken: Sequence[Plan], free: Sequence[int], engine: Engine
) -> list[Plan]:
    """Return the plans when the pieces in free places were gone over until none changes.

    Should they never agree, they are left after as many rounds as there are pieces, and one more.
    """
    now = list(taken)
    chosen_beside: dict[int, list[Plan]] = {}
    for _ in range(len(choices) + 1):
        before = list(now)
        for place in free:
            if place not in chosen_beside or not _alike(chosen_beside[place], now):
                now[place] = preferred(choices[place].plans, now, place, engine)
                chosen_beside[place] = list(now)
        if _alike(before, now):
            break
    return now


def _cost(plans: Sequence[Plan], engine: Engine) -> float:
    return engine.judged(plans).cost + sum(beyond_mending(plan, engine.appetite) for plan in plans)


def _alike(before: Sequence[Plan], now: Sequence[Plan]) -> bool:
    return all(one is other for one, other in zip(before, now, strict=True))


def preferred(plans: Sequence[Plan], taken: Sequence[Plan], place: int, engine: Engine) -> Plan:
    """Return the plan to take in a place, beside those taken elsewhere; see `preference`."""
    if sum(map(may_be_taken, plans)) < 2:
        return next(filter(may_be_taken, plans), plans[-1])
    trials = [engine.judged(beside(taken, place, plan)) for plan in plans]
    without = engine.judged([*taken[:place], *taken[place + 1 :]])
    return plans[int(pick(weigh(plans, trials, without, engine.appetite), engine.appetite).recommended)]


def weigh(plans: Sequence[Plan], likely: Sequence[Likely], without: Likely, appetite: Appetite) -> Weighed:
    """Return the methods of one piece as the choice sees them: each by what it adds to the job without the piece."""
    return Weighed.of(
        [
            (
                job.cost - without.cost + beyond_mending(plan, appetite),
                float(job.price - without.price),
                chance_of_surface(plan),
                may_be_taken(plan),
            )
            for plan, job in zip(plans, likely, strict=True)
        ]
    )


def beside(taken: Sequence[Plan], place: int, plan: Plan) -> list[Plan]:
    """Return the plans of the job with this one in its place."""
    return [*taken[:place], plan, *taken[place + 1 :]]
