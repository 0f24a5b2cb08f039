"""What hazards make of a plan, in one place for every kind of work.

A kind builds its plan and states the plan's facts; here it gets the findings, cautions and requests that follow from
them, so that no kind can forget one or word it in its own way.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from estimating.estimate.pricing.plan import Finding, Plan, Suitability
from estimating.job.room import Furniture
from estimating.job.site import TestResult
from estimating.job.values import Answer
from estimating.scopes.shared import asbestos, drying, lead, solvent
from estimating.scopes.shared.cautions import cautions
from estimating.scopes.shared.exposure import Exposure, Facts, facts_of
from estimating.scopes.shared.requirements import client_requirements
from estimating.scopes.shared.work_area import WorkArea


def with_hazards(plan: Plan, work_area: WorkArea, exposure: Exposure) -> Plan:
    """Return a plan with the findings, cautions and requests that its facts lead to, after its own."""
    facts = facts_of(plan, work_area, exposure)
    return replace(
        plan,
        findings=(*plan.findings, *(findings(facts) if exposure.worked else ())),
        supplies=(*plan.supplies, *solvent.cartridges(facts)),
        cautions=(*plan.cautions, *cautions(facts)),
        client_requirements=(*client_requirements(facts), *plan.client_requirements),
    )


def findings(facts: Facts) -> tuple[Finding, ...]:
    """Return what speaks against a plan, or sets conditions on it, whatever the kind of work."""
    rules = (_for_asbestos, _for_lead, _for_stains, _for_mist, _for_solvent)
    return (*(each for rule in rules for each in rule(facts)), *drying.findings(facts.work_area))


def _closed(text: str) -> Finding:
    return Finding(Suitability.CLOSED, text)


def _provided(text: str) -> Finding:
    return Finding(Suitability.CONDITIONS, text)


def _for_asbestos(facts: Facts) -> Iterator[Finding]:
    if not asbestos.suspect(facts):
        return
    if asbestos.found(facts.work_area.job.site):
        yield _closed("the laboratory found asbestos: a licensed firm decides what may be touched")
    else:
        what = asbestos.named(facts)
        yield _provided(f"no negative laboratory test, and the building may be old enough for asbestos in the {what}")


def _for_lead(facts: Facts) -> Iterator[Finding]:
    site = facts.work_area.job.site
    if not (lead.lead_open(site, facts.work_area.basis) and lead.disturbed(facts) > 0):
        return
    if site.lead_test is TestResult.POSITIVE and facts.exposure.failing:
        yield _closed("lead was found and the paint is failing: a certified firm decides what may be touched")
    elif site.lead_test is TestResult.POSITIVE:
        yield _provided("lead was found: no dry sanding, and a certified firm where the rules ask for one")
    else:
        yield _provided("old enough for lead, or of unknown age, and not tested: no dry sanding before a test")


def _for_stains(facts: Facts) -> Iterator[Finding]:
    if any(stain.cause_cured is not Answer.YES for stain in facts.exposure.stains):
        yield _provided("a stain whose cause is not known to be cured comes back through any coat")


def _for_mist(facts: Facts) -> Iterator[Finding]:
    if not facts.exposure.sprayed:
        return
    yield _provided("the room is emptied of people, masked without a gap, and its air handling off")
    if facts.work_area.room.room.furniture is Furniture.HEAVY:
        yield _provided("heavy furniture leaves the room, or is wrapped and in reach of the mist")


def _for_solvent(facts: Facts) -> Iterator[Finding]:
    if facts.solvents and facts.work_area.job.site.occupied is not Answer.NO:
        yield _provided("people and animals stay out until the vapor is gone")
    replaced = solvent.replaced(facts)
    if replaced:
        yield _provided(replaced)
