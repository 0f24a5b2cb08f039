"""The textured ceiling of doubtful history: site notes in, every way of dealing with it out."""

from __future__ import annotations

from estimating.estimate.more_tests import FurtherTests
from estimating.estimate.plan import Plan, Question
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.ceiling import TexturedCeiling
from estimating.job.model import Job
from estimating.scopes import ceiling_facts, ceiling_tests
from estimating.scopes.ceiling_ways import WAYS
from estimating.scopes.piece import Piece
from estimating.takeoff import take_off

KIND = "textured_ceiling"


def plans(item: TexturedCeiling, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every way of dealing with the ceiling."""
    ceiling = ceiling_facts.facts(item, _piece(item, job, basis))
    return tuple(way(ceiling) for way in WAYS.values())


def questions(item: TexturedCeiling, job: Job, basis: Basis) -> tuple[Question, ...]:
    """Return what the site notes leave open."""
    return ceiling_facts.questions(item, _piece(item, job, basis))


def tests(item: TexturedCeiling, job: Job, basis: Basis) -> FurtherTests:
    """Return what may still be tested before the way is chosen."""
    return ceiling_tests.further_tests(ceiling_facts.facts(item, _piece(item, job, basis)))


def pivot(plan: Plan) -> Figure | None:
    """Return the figure on which the choice between ways turns: the chance of release when rolled."""
    chances = [risk.chance for risk in plan.risks if risk.key == "texture_release"]
    return dict(chances[0].inputs)["base"] if chances else None


def _piece(item: TexturedCeiling, job: Job, basis: Basis) -> Piece:
    return Piece(job, take_off(job.room(item.room), basis), basis)
