"""Whether a solvent-borne product may be used: one rule for every kind of work."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.job.site import Household, Ignition, Site
from estimating.job.values import Answer

SOLVENT_PRIMER, WATER_PRIMER = "stain_primer_solvent", "stain_primer_waterborne"


def barred(site: Site) -> tuple[str, ...]:
    """Return why no solvent-borne product may be used on a site: each fact against it, and each question left open."""
    return (*against(site), *asked(site))


def _sources(site: Site, *states: Ignition | None) -> str:
    fields = type(site.ignition).model_fields
    return ", ".join(name.replace("_", " ") for name in fields if getattr(site.ignition, name) in states)


def against(site: Site) -> tuple[str, ...]:
    """Return the facts that speak against solvent vapor on a site."""
    return tuple(_against(site))


def asked(site: Site) -> tuple[str, ...]:
    """Return the questions that have to be answered before a solvent-borne product is used."""
    return tuple(_asked(site))


def _against(site: Site) -> Iterator[str]:
    lit = _sources(site, Ignition.CANNOT_BE_SHUT_OFF)
    if lit:
        yield f"solvent vapor and an ignition source that cannot be shut off: {lit}"
    if site.airflow is Answer.NO:
        yield "the room cannot be aired to the outside while the primer dries"
    if Household.PREGNANCY in (site.household or ()):
        yield "a pregnancy in the house: no solvent-borne products while it is lived in"


def _asked(site: Site) -> Iterator[str]:
    unknown = _sources(site, None)
    if unknown:
        yield f"not known whether it can be shut off: {unknown}"
    if site.airflow is None:
        yield "not known whether the room can be aired to the outside"
    if site.household is None and site.occupied is not Answer.NO:
        yield "not known who lives in the house, or whether anybody is pregnant"


def stain_primer(site: Site) -> str:
    """Return the primer that seals stains: solvent-borne only where nothing speaks against it."""
    return WATER_PRIMER if barred(site) else SOLVENT_PRIMER
