"""What a kind of work hands over to the rest of the workbook: all that is special to it, and nothing else.

The registry finds the kinds by their folders. No module above asks which kind it has before it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from estimating.estimate.pricing.plan import Plan, Question
from estimating.estimate.whatif.value_of_testing import FurtherTests
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.model import Job, WorkNotes
from estimating.scopes.drawings import Drawing
from estimating.scopes.words import WorkInWords


def _nothing_turns(plan: Plan) -> Figure | None:
    del plan
    return None


def _nothing_drawn(item: Any, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    del item, plan, job, basis
    return ()


@dataclass(frozen=True)
class KindOfWork:
    """One kind of work. Each function takes the item's notes, the job they stand in and the assumptions."""

    notes: type[WorkNotes]
    plans: Callable[[Any, Job, Basis], tuple[Plan, ...]]
    questions: Callable[[Any, Job, Basis], tuple[Question, ...]]
    decision_figure: Callable[[Plan], Figure | None] = _nothing_turns  # what the choice of method turns on, if one does
    tests: Callable[[Any, Job, Basis], FurtherTests] | None = None  # None where no test says more of that figure
    drawings: Callable[[Any, Plan, Job, Basis], tuple[Drawing, ...]] = _nothing_drawn  # of the plan that is taken
    prior: str = ""  # address of the chance of a class of {history}, where finished jobs can correct it
    field_tests: tuple[tuple[str, str], ...] = ()  # each test made on site with each thing it can show
    words: WorkInWords | None = None  # None where it cannot be begun from a line of notes

    @property
    def key(self) -> str:
        """The word a job file uses for it."""
        return str(self.notes.model_fields["kind"].default)
