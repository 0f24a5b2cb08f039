"""How a method stands: on a condition agreed with the client, or as the one that leaves things as they are."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Finding, Plan, Suitability
from estimating.scopes.shared.exposure import Exposure
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.work_area import WorkArea


def agreed_first(text: str) -> Finding:
    """Return a condition that a client agrees to in writing before the work begins."""
    return Finding(Suitability.CONDITIONS, f"{text}; agreed in writing first")


def declined(
    work_area: WorkArea, exposure: Exposure, *, scope: str, verb: str, asked_of_client: str, last_resort: str
) -> Plan:
    """Return the plan that leaves the work alone, with the hazards that are there all the same.

    verb: what is not done, such as "paint it". last_resort: where it is the honest answer.
    """
    plan = Plan(
        scope=scope,
        method="decline",
        title=f"Decline to {verb}",
        client_requirements=(asked_of_client,),
        notes=(f"the honest last resort where {last_resort}",),
        finishes=False,
    )
    return with_hazards(plan, work_area, exposure)
