"""One way through: a job and its assumptions in; every way compared, the chosen one priced, ordered and scheduled."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from estimating.errors import InputError
from estimating.estimate.build_up import Estimate, build_up
from estimating.estimate.compare import Comparison, Option, compare
from estimating.estimate.plan import Plan, Question
from estimating.evidence import Basis, Library, OwnValue, load_library
from estimating.job.model import Job, OwnFigure
from estimating.scopes.registry import SCOPES, Scope


@dataclass(frozen=True)
class Outcome:
    """What the workbook makes of a job."""

    job: Job
    basis: Basis
    estimate: Estimate
    comparisons: tuple[Comparison, ...]
    questions: tuple[Question, ...]


def estimate_job(
    job: Job, library: Library | None = None, own: Mapping[str, OwnValue] = MappingProxyType({})
) -> Outcome:
    """Return the priced job, each piece of work done the recommended way or the way the job asks for.

    own: the contractor's own values in place of reference rows; the job's own figures go before them.
    Raises InputError where an answer the price cannot do without is missing or impossible.
    """
    basis = Basis(library or load_library(), MappingProxyType({**own, **own_values(job.own)}))
    pieces = [(item, SCOPES[item.kind]) for item in job.work]
    choices = [scope.plans(item, job, basis) for item, scope in pieces]
    questions = tuple(dict.fromkeys(each for item, scope in pieces for each in scope.questions(item, job, basis)))
    taken: list[Plan] = [
        _first_choice(item.way, plans, place)
        for place, (plans, (item, _)) in enumerate(zip(choices, pieces, strict=True))
    ]
    comparisons = _settled(job, basis, taken, choices, [(scope, item.way) for item, scope in pieces])
    estimate = build_up([each.taken.plan for each in comparisons], job, basis, questions)
    return Outcome(job, basis, estimate, comparisons, questions)


def own_values(own: Mapping[str, OwnFigure]) -> Mapping[str, OwnValue]:
    """Return the job's own figures as the assumptions they stand in for."""
    return MappingProxyType(
        {key: OwnValue(each.likely, each.unit, each.low, each.high, each.note, each.date) for key, each in own.items()}
    )


def _first_choice(asked: str | None, plans: tuple[Plan, ...], place: int) -> Plan:
    if asked is None:
        return plans[0]
    found = [plan for plan in plans if plan.way == asked]
    if not found:
        raise InputError(f"work[{place}] · way", asked, f"one of {', '.join(plan.way for plan in plans)}, or unknown")
    return found[0]


def _settled(
    job: Job,
    basis: Basis,
    taken: Sequence[Plan],
    choices: Sequence[tuple[Plan, ...]],
    asked: Sequence[tuple[Scope, str | None]],
) -> tuple[Comparison, ...]:
    """Return the ways of each piece, priced beside the ways taken for the others.

    They share a visit, so a way taken here may change what is cheapest there: gone over until none changes.
    """
    now = list(taken)
    comparisons: list[Comparison] = []
    for _ in range(len(now) + 1):
        before, comparisons = list(now), []
        for place, (plans, (scope, way)) in enumerate(zip(choices, asked, strict=True)):
            comparisons.append(_compared(job, basis, now, place, plans, scope, way))
            now[place] = comparisons[-1].taken.plan
        if len(now) == 1 or now == before:
            break
    return tuple(comparisons)


def _compared(
    job: Job, basis: Basis, taken: list[Plan], place: int, plans: tuple[Plan, ...], scope: Scope, asked: str | None
) -> Comparison:
    options = [Option(plan, build_up([*taken[:place], plan, *taken[place + 1 :]], job, basis)) for plan in plans]
    pivots = [figure for figure in map(scope.pivot, plans) if figure is not None]
    return compare(plans[0].scope, options, pivots[0] if pivots else None, asked)
