"""Texture, joint compound and plaster that may hold asbestos: when, and what may then be touched."""

from __future__ import annotations

from estimating.evidence import Basis
from estimating.job.site import Site, TestResult
from estimating.scopes.shared.exposure import Facts


def asbestos_open(site: Site, basis: Basis) -> bool:
    """Say whether such material may hold asbestos for all anybody has shown: of age or unknown age, and not cleared."""
    if site.asbestos_test is TestResult.POSITIVE:
        return True
    last_year = basis.library.row("cautions", "asbestos_texture").likely
    old = site.year_built is None or site.year_built <= last_year
    return old and site.asbestos_test is not TestResult.NEGATIVE


def suspect(facts: Facts) -> bool:
    """Say whether material that may hold asbestos is where a plan works."""
    return bool(facts.exposure.suspects) and asbestos_open(facts.work_area.job.site, facts.work_area.basis)


def found(site: Site) -> bool:
    """Say whether a laboratory found asbestos."""
    return site.asbestos_test is TestResult.POSITIVE


def named(facts: Facts) -> str:
    """Return the suspect materials in words."""
    return " and ".join(facts.exposure.suspects)
