"""One way through: a job and its assumptions in; every way compared, the chosen one priced, ordered and scheduled."""

from __future__ import annotations

from collections.abc import Mapping
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
    comparisons = []
    for place, (plans, (item, scope)) in enumerate(zip(choices, pieces, strict=True)):
        comparison = _compared(job, basis, taken, place, plans, scope, item.way)
        taken[place] = comparison.taken.plan
        comparisons.append(comparison)
    estimate = build_up(taken, job, basis, questions)
    return Outcome(job, basis, estimate, tuple(comparisons), questions)


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


def _compared(
    job: Job, basis: Basis, taken: list[Plan], place: int, plans: tuple[Plan, ...], scope: Scope, asked: str | None
) -> Comparison:
    options = [Option(plan, build_up([*taken[:place], plan, *taken[place + 1 :]], job, basis)) for plan in plans]
    pivots = [figure for figure in map(scope.pivot, plans) if figure is not None]
    return compare(plans[0].scope, options, pivots[0] if pivots else None, asked)
