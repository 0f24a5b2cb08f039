"""Walls to be papered: site notes in, every way of getting the new wallcovering onto them out."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan, Question
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.model import Job
from estimating.scopes.drawings import Drawing
from estimating.scopes.kinds.wallcovering import facts as papering_facts
from estimating.scopes.kinds.wallcovering.elevations import elevations
from estimating.scopes.kinds.wallcovering.layout import laid_out
from estimating.scopes.kinds.wallcovering.methods import WAYS
from estimating.scopes.kinds.wallcovering.notes import Wallcovering
from estimating.scopes.kinds.wallcovering.removal import BAD
from estimating.scopes.kinds.wallcovering.rolls import new_paper
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import take_off


def plans(item: Wallcovering, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every way of papering the walls."""
    walls = papering_facts.facts(item, _work_area(item, job, basis))
    return tuple(method(walls) for method in WAYS.values())


def questions(item: Wallcovering, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return papering_facts.questions(item, _work_area(item, job, basis))


def decision_figure(plan: Plan) -> Figure | None:
    """Return the figure on which the choice between ways turns: the chance that the wall comes off badly."""
    return next((figure for figure in plan.figures if figure.name == BAD), None)


def drawings(item: Wallcovering, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return every papered wall with its strips."""
    if not plan.tasks:
        return ()
    paper = new_paper(item.goods, f'work "{item.room}"', basis)
    return tuple(elevations(laid_out(item, _work_area(item, job, basis), paper)))


def _work_area(item: Wallcovering, job: Job, basis: Basis) -> WorkArea:
    return WorkArea(job, take_off(job.room(item.room), basis), basis)


KIND = KindOfWork(Wallcovering, plans, questions, decision_figure, drawings=drawings)
