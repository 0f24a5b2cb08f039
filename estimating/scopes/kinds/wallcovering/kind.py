"""Walls to be papered, as they are handed over to the workbook."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan, Question
from estimating.evidence import Basis
from estimating.job.model import Job
from estimating.scopes.drawings import Drawing
from estimating.scopes.kinds.wallcovering import facts
from estimating.scopes.kinds.wallcovering.elevations import elevations
from estimating.scopes.kinds.wallcovering.layout import laid_out, new_paper
from estimating.scopes.kinds.wallcovering.methods import decision_figure, plans
from estimating.scopes.kinds.wallcovering.notes import Wallcovering
from estimating.scopes.kinds.wallcovering.words import WORDS
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared.work_area import WorkArea


def questions(item: Wallcovering, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return facts.questions(item, WorkArea.of(item, job, basis))


def drawings(item: Wallcovering, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return every papered wall with its strips."""
    if not plan.tasks:
        return ()
    paper = new_paper(item.goods, f'work "{item.room}"', basis)
    return tuple(elevations(laid_out(item, WorkArea.of(item, job, basis), paper)))


KIND = KindOfWork(Wallcovering, plans, questions, decision_figure, drawings=drawings, words=WORDS)
