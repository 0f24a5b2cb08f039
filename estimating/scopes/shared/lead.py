"""Old paint that may hold lead: when it counts as such, how much may be disturbed, and what the plan then carries."""

from __future__ import annotations

from estimating.evidence import Basis
from estimating.job.site import Site, TestResult
from estimating.scopes.shared.exposure import Facts


def lead_open(site: Site, basis: Basis) -> bool:
    """Say whether old paint may hold lead for all anybody has shown; a negative test clears every kind of work."""
    if site.lead_test is TestResult.POSITIVE:
        return True
    without = basis.library.row("cautions", "lead_paint").likely
    return (site.year_built is None or site.year_built < without) and site.lead_test is not TestResult.NEGATIVE


def disturbed(facts: Facts) -> float:
    """Return how much old paint a plan disturbs (ft²): sanded, scuffed, scraped or cut open."""
    found = facts.exposure.old_paint
    return float(found.value) if found is not None else 0.0


def least(facts: Facts) -> float:
    """Return the area above which the lead work practices apply (ft²): in a room, or outdoors."""
    where = "exterior" if facts.exposure.outside else "interior"
    return float(facts.work_area.basis.library.row("cautions", f"lead_minor_repair_{where}").likely)


def over_the_limit(facts: Facts) -> bool:
    """Say whether a plan disturbs so much paint that may hold lead that the lead work practices apply."""
    site, basis = facts.work_area.job.site, facts.work_area.basis
    return facts.exposure.worked and lead_open(site, basis) and disturbed(facts) > least(facts)
