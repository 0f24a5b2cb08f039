"""One way through: a job and its assumptions in; every way compared, the chosen one priced, ordered and scheduled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.pricing.choose_methods import Choice, choose_methods
from estimating.estimate.pricing.likely import Reckoner
from estimating.estimate.pricing.plan import Question
from estimating.estimate.whatif.compare import Comparison, compare_each
from estimating.evidence import Basis, Library, OwnValue, load_library
from estimating.job.model import Job, OwnFigure, Work
from estimating.scopes.registry import SCOPES, Scope


@dataclass(frozen=True)
class Outcome:
    """What the workbook makes of a job: the estimate at once, the comparison of ways when it is looked at."""

    job: Job
    basis: Basis
    estimate: Estimate
    choices: tuple[Choice, ...]
    questions: tuple[Question, ...]
    reckoner: Reckoner = field(repr=False, compare=False)

    @cached_property
    def comparisons(self) -> tuple[Comparison, ...]:
        """The ways of each piece of work, priced beside the ways taken for the others."""
        return compare_each(self.choices, self.estimate, self.reckoner)


def estimate_job(
    job: Job, library: Library | None = None, own: Mapping[str, OwnValue] = MappingProxyType({})
) -> Outcome:
    """Return the priced job, each piece of work done the recommended way or the way the job asks for.

    own: the contractor's own values in place of reference rows; the job's own figures go before them.
    Raises InputError where an answer the price cannot do without is missing or impossible.
    """
    basis = Basis(library or load_library(), MappingProxyType({**own, **own_values(job.own)}))
    pieces = [(item, SCOPES[item.kind]) for item in job.work]
    choices = tuple(_choice(scope, item, job, basis) for item, scope in pieces)
    questions = tuple(dict.fromkeys(each for item, scope in pieces for each in scope.questions(item, job, basis)))
    reckoner = Reckoner(job, basis)
    estimate = build_up(choose_methods(choices, reckoner), job, basis, questions)
    return Outcome(job, basis, estimate, choices, questions, reckoner)


def _choice(scope: Scope, item: Work, job: Job, basis: Basis) -> Choice:
    plans = scope.plans(item, job, basis)
    return Choice(
        plans, item.method, next((each for each in map(scope.decision_figure, plans) if each is not None), None)
    )


def own_values(own: Mapping[str, OwnFigure]) -> Mapping[str, OwnValue]:
    """Return the job's own figures as the assumptions they stand in for."""
    return MappingProxyType(
        {key: OwnValue(each.likely, each.unit, each.low, each.high, each.note, each.date) for key, each in own.items()}
    )
