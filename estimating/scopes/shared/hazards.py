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
from estimating.scopes.shared import asbestos, drying, heights, lead, lead_outside, solvent
from estimating.scopes.shared.cautions import cautions
from estimating.scopes.shared.exposure import Exposure, Facts, facts_of
from estimating.scopes.shared.requirements import client_requirements
from estimating.scopes.shared.work_area import WorkArea


def with_hazards(plan: Plan, work_area: WorkArea, exposure: Exposure) -> Plan:
    """Return a plan with the findings, cautions and requests that its facts lead to, after its own."""
    facts = facts_of(plan, work_area, exposure)
    added = (_asbestos_first, _lead_safe, _stood_on)
    for each in added:
        plan = each(plan, facts)
    return replace(
        plan,
        supplies=(*plan.supplies, *solvent.cartridges(facts)),
        findings=(*plan.findings, *(findings(facts) if exposure.worked else ())),
        cautions=(*plan.cautions, *cautions(facts)),
        client_requirements=(*client_requirements(facts), *plan.client_requirements),
    )


def _asbestos_first(plan: Plan, facts: Facts) -> Plan:
    if not asbestos.sampled_first(facts):
        return plan
    charges = (*asbestos.laboratory_charges(facts), *plan.charges)
    return replace(plan, tasks=(asbestos.sampling_task(facts), *plan.tasks), charges=charges)


def _lead_safe(plan: Plan, facts: Facts) -> Plan:
    if not lead.over_the_limit(facts):
        return plan
    untested = facts.work_area.job.site.lead_test is not TestResult.POSITIVE
    practice = lead_outside if facts.exposure.outside else lead
    set_up = practice.set_up(facts)
    return replace(
        plan,
        tasks=(*plan.tasks, *set_up),
        supplies=(*plan.supplies, *practice.supplies(facts)),
        charges=(*plan.charges, lead.vacuum(facts)),
        notes=(*plan.notes, *((lead.price_of_testing(facts, set_up),) if untested else ())),
    )


def _stood_on(plan: Plan, facts: Facts) -> Plan:
    tasks, hired = heights.set_up(facts), heights.hire(facts)
    return replace(plan, tasks=(*plan.tasks, *tasks), charges=(*plan.charges, *hired)) if tasks else plan


def findings(facts: Facts) -> tuple[Finding, ...]:
    """Return what speaks against a plan, or sets conditions on it, whatever the kind of work."""
    rules = (_for_asbestos, _for_lead, _for_stains, _for_mist, _for_solvent, _for_height)
    weather = drying.findings(facts.work_area, outside=facts.exposure.outside)
    return (*(each for rule in rules for each in rule(facts)), *weather)


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
        yield _provided(
            f"the {what} may hold asbestos and there is no negative laboratory test: this stands only after a negative "
            "result of the samples priced as its first step, taken as the state's rules ask"
        )


def _for_lead(facts: Facts) -> Iterator[Finding]:
    site = facts.work_area.job.site
    if not (lead.lead_open(site, facts.work_area.basis) and lead.disturbed(facts) > 0):
        return
    positive = site.lead_test is TestResult.POSITIVE
    if positive and facts.exposure.failing:
        yield _closed("lead was found and the paint is failing: a certified firm decides what may be touched")
    found = "lead was found" if positive else "old enough for lead, or of unknown age, and not tested"
    yield _provided(f"{found}: no dry sanding or scraping")
    if lead.over_the_limit(facts):
        yield _provided(
            f"more than {lead.least(facts):.0f} ft² of old paint is disturbed: a certified firm with a certified "
            "renovator does it, lead-safe as priced; local rules may ask more"
        )


def _for_stains(facts: Facts) -> Iterator[Finding]:
    if any(stain.cause_cured is not Answer.YES for stain in facts.exposure.stains):
        yield _provided("a stain whose cause is not known to be cured comes back through any coat")


def _for_mist(facts: Facts) -> Iterator[Finding]:
    if not facts.exposure.sprayed:
        return
    if facts.exposure.outside:
        yield _in_wind(facts)
        return
    yield _provided("nobody is in the room while we spray; it is masked without a gap, with heating and cooling off")
    if facts.work_area.room.room.furniture is Furniture.HEAVY:
        yield _provided("heavy furniture leaves the room, or is wrapped and in reach of the mist")


def _in_wind(facts: Facts) -> Finding:
    """Return up to which wind spraying outdoors goes on; ruled out where the ordinary wind is stronger."""
    limit = facts.work_area.basis.library.row("cautions", "overspray_outdoors").likely
    wind = facts.work_area.job.site.season.wind_mph
    if wind is not None and wind > limit:
        return _closed(
            f"the ordinary wind is {wind} mph, and spraying outdoors stops at {limit:.0f} mph: by hand instead"
        )
    return _provided(
        f"wind measured at the wall is no more than {limit:.0f} mph, cars and neighbors' things are covered"
    )


def _for_height(facts: Facts) -> Iterator[Finding]:
    if facts.exposure.outside and heights.footing(facts) is heights.Footing.SCAFFOLD:
        most = heights.JACKS + heights.REACH
        yield _provided(f"work above {most:.0f} ft stands on a scaffold put up by a firm for it, at a price of its own")


def _for_solvent(facts: Facts) -> Iterator[Finding]:
    if facts.solvents and facts.work_area.job.site.occupied is not Answer.NO:
        yield _provided("people and pets stay out until the smell is gone")
    replaced = solvent.replaced(facts)
    if replaced:
        yield _provided(replaced)
