"""The kinds of work there are, by the word a job file uses for them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from estimating.estimate.pricing.plan import Plan, Question
from estimating.estimate.whatif.value_of_testing import FurtherTests
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.model import Job
from estimating.scopes.kinds.interior_repaint import kind as interior_repaint
from estimating.scopes.kinds.textured_ceiling import kind as textured_ceiling
from estimating.scopes.kinds.wallcovering import kind as papering


@dataclass(frozen=True)
class Scope:
    """A kind of work: its plans, its open questions, the figure its choice of way turns on, and tests that move it."""

    plans: Callable[[Any, Job, Basis], tuple[Plan, ...]]
    questions: Callable[[Any, Job, Basis], tuple[Question, ...]]
    decision_figure: Callable[[Plan], Figure | None]
    tests: Callable[[Any, Job, Basis], FurtherTests] | None = None  # None where no test says more of the pivot


SCOPES: Mapping[str, Scope] = MappingProxyType(
    {
        textured_ceiling.KIND: Scope(
            textured_ceiling.plans, textured_ceiling.questions, textured_ceiling.decision_figure, textured_ceiling.tests
        ),
        papering.KIND: Scope(papering.plans, papering.questions, papering.decision_figure),
        interior_repaint.KIND: Scope(
            interior_repaint.plans, interior_repaint.questions, interior_repaint.decision_figure
        ),
    }
)
