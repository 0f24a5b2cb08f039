"""The textured ceiling of doubtful history: site notes in, every way of dealing with it out."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan, Question
from estimating.estimate.whatif.value_of_testing import FurtherTests
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.model import Job
from estimating.scopes.drawings import Drawing, coated_ceilings
from estimating.scopes.kinds.textured_ceiling import facts as ceiling_facts
from estimating.scopes.kinds.textured_ceiling import field_tests as ceiling_tests
from estimating.scopes.kinds.textured_ceiling.methods import WAYS
from estimating.scopes.kinds.textured_ceiling.notes import TexturedCeiling
from estimating.scopes.kinds.textured_ceiling.release import PRIOR
from estimating.scopes.protocol import KindOfWork
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import take_off


def plans(item: TexturedCeiling, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every way of dealing with the ceiling."""
    ceiling = ceiling_facts.facts(item, _work_area(item, job, basis))
    return tuple(method(ceiling) for method in WAYS.values())


def questions(item: TexturedCeiling, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return ceiling_facts.questions(item, _work_area(item, job, basis))


def tests(item: TexturedCeiling, job: Job, basis: Basis) -> FurtherTests:
    """Return what may still be tested before the way is chosen."""
    return ceiling_tests.further_tests(ceiling_facts.facts(item, _work_area(item, job, basis)))


def decision_figure(plan: Plan) -> Figure | None:
    """Return the figure on which the choice between ways turns: the chance of release when rolled."""
    chances = [risk.chance for risk in plan.risks if risk.key == "texture_release"]
    return dict(chances[0].inputs)["base"] if chances else None


def drawings(item: TexturedCeiling, plan: Plan, job: Job, basis: Basis) -> tuple[Drawing, ...]:
    """Return the ceiling where it is coated."""
    del item, job, basis
    return coated_ceilings(plan)


def _work_area(item: TexturedCeiling, job: Job, basis: Basis) -> WorkArea:
    return WorkArea(job, take_off(job.room(item.room), basis), basis)


KIND = KindOfWork(
    TexturedCeiling, plans, questions, decision_figure, tests, drawings, prior=PRIOR, field_tests=ceiling_tests.RESULTS
)
