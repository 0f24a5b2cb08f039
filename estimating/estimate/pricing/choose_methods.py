"""Choosing a way for every piece of a job: each the cheapest that may be used, beside the ways taken for the others.

Pieces share a visit, cans, covers and waits, so the price of a way is that of the whole job done with it. A way taken
for one piece may change what is cheapest for another: they are gone over in turn until none changes. Then every way
is tried on all pieces that have it, since a machine that does not pay for one room may pay for several.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.estimate.pricing.engine import Engine
from estimating.estimate.pricing.plan import Plan, Suitability
from estimating.figures import Figure


@dataclass(frozen=True)
class Choice:
    """The ways of one piece of work as they were planned, the way the job asks for, and what the choice turns on."""

    plans: tuple[Plan, ...]
    asked: str | None = None
    decision_figure: Figure | None = None

    def asked_for(self, place: int) -> Plan | None:
        """Return the way the job asks for; InputError where the piece in this place has no such way."""
        if self.asked is None:
            return None
        found = [plan for plan in self.plans if plan.method == self.asked]
        if not found:
            methods = ", ".join(plan.method for plan in self.plans)
            raise InputError(f"work[{place}] · method", self.asked, f"one of {methods}, or unknown")
        return found[0]


def may_be_taken(plan: Plan) -> bool:
    """Say whether a way ends in the finish asked for and may be used here."""
    return plan.finishes and plan.suitability is not Suitability.CLOSED


def choose_methods(choices: Sequence[Choice], engine: Engine) -> list[Plan]:
    """Return the plan to take for each piece: the one asked for, or the cheapest beside those of the others.

    Where none may be used it is the last one, which leaves things as they are. No piece gains by another way alone, nor
    all of them by one way together; other changes of several at once are not looked at.
    """
    asked = [choice.asked_for(place) for place, choice in enumerate(choices)]
    first = [wanted or choice.plans[0] for wanted, choice in zip(asked, choices, strict=True)]
    free = [place for place, wanted in enumerate(asked) if wanted is None]
    taken = _improve_until_stable(choices, first, free, engine)
    for method in dict.fromkeys(plan.method for place in free for plan in choices[place].plans):
        together = list(taken)
        for place in free:
            same = [plan for plan in choices[place].plans if plan.method == method and may_be_taken(plan)]
            together[place] = same[0] if same else taken[place]
        price = engine.likely(taken).price
        if engine.at_least(together) < price and engine.likely(together).price < price:
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
                now[place] = cheapest(choices[place].plans, now, place, engine)
                chosen_beside[place] = list(now)
        if _alike(before, now):
            break
    return now


def _alike(before: Sequence[Plan], now: Sequence[Plan]) -> bool:
    return all(one is other for one, other in zip(before, now, strict=True))


def cheapest(plans: Sequence[Plan], taken: Sequence[Plan], place: int, engine: Engine) -> Plan:
    """Return the cheapest plan that may be taken in a place, beside those taken elsewhere; of equals the first.

    A plan that cannot come below the best so far is not scheduled: what it costs at least says so.
    """
    allowed = [plan for plan in plans if may_be_taken(plan)]
    if len(allowed) < 2:
        return allowed[0] if allowed else plans[-1]
    trials = [beside(taken, place, plan) for plan in allowed]
    now = next((number for number, plan in enumerate(allowed) if plan is taken[place]), 0)
    best = engine.likely(trials[now]).price, now
    for number, trial in enumerate(trials):
        if number != now and engine.at_least(trial) <= best[0]:
            best = min(best, (engine.likely(trial).price, number))
    return allowed[best[1]]


def beside(taken: Sequence[Plan], place: int, plan: Plan) -> list[Plan]:
    """Return the plans of the job with this one in its place."""
    return [*taken[:place], plan, *taken[place + 1 :]]
