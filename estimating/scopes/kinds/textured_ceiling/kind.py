"""The textured ceiling of doubtful history, as it is handed over to the workbook."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan, Question
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.scopes.drawings import Drawing, coated_ceilings
from estimating.scopes.kinds.textured_ceiling import facts
from estimating.scopes.kinds.textured_ceiling.methods import decision_figure, plans, tests
from estimating.scopes.kinds.textured_ceiling.notes import TexturedCeiling
from estimating.scopes.kinds.textured_ceiling.release import PRIOR
from estimating.scopes.kinds.textured_ceiling.signs import RESULTS
from estimating.scopes.kinds.textured_ceiling.words import WORDS
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared.work_area import WorkArea


def questions(item: TexturedCeiling, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return facts.questions(item, WorkArea.of(item, job, basis))


def drawings(item: TexturedCeiling, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return the ceiling where it is coated."""
    del item, job, basis
    return coated_ceilings(plan)


KIND = KindOfWork(
    TexturedCeiling, plans, questions, decision_figure, tests, drawings, prior=PRIOR, field_tests=RESULTS, words=WORDS
)
