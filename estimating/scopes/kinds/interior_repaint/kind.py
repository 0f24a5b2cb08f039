"""An interior repaint of one room, as it is handed over to the workbook."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan, Question
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.scopes.drawings import Drawing, coated_ceilings
from estimating.scopes.kinds.interior_repaint.methods import plans
from estimating.scopes.kinds.interior_repaint.notes import InteriorRepaint
from estimating.scopes.kinds.interior_repaint.questions import open_questions
from estimating.scopes.kinds.interior_repaint.words import WORDS
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared.work_area import WorkArea


def questions(item: InteriorRepaint, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return open_questions(item, WorkArea.of(item, job, basis))


def drawings(item: InteriorRepaint, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return the ceiling where it is coated."""
    del item, job, basis
    return coated_ceilings(plan)


KIND = KindOfWork(InteriorRepaint, plans, questions, drawings=drawings, words=WORDS)
