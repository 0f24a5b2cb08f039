"""Whether a solvent-borne product may be used: one rule for every kind of work."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Supply
from estimating.job.site import Household, Ignition, Site
from estimating.job.values import Answer
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.products import SOLVENT_PRIMER, WATER_PRIMER, title_of

LESS_SURE = {
    "stains": "It holds back a stain less surely: look again the next morning, and seal once more what shows.",
    "texture": "It wets the texture as paint does, and binds it less surely than one that holds no water.",
}


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


def primer_word(site: Site) -> str:
    """Return what the stain primer of a site is borne by, in a word."""
    return "water-borne" if barred(site) else "solvent-borne"


def replaced(facts: Facts) -> str:
    """Return which product takes the place of the solvent-borne one, why, and what that costs in certainty.

    Empty where nothing is sealed, or where the solvent-borne primer may be used.
    """
    reasons = barred(facts.work_area.job.site)
    if not (facts.exposure.seals and reasons):
        return ""
    title = title_of(WATER_PRIMER)
    return f"{title}, takes the place of the solvent-borne one: {'; '.join(reasons)}. {LESS_SURE[facts.exposure.seals]}"


def cartridges(facts: Facts) -> tuple[Supply, ...]:
    """Return a pair of vapor cartridges for each of the crew, once a job, where solvent vapor is in the air."""
    if not facts.solvents:
        return ()
    people = float(facts.work_area.job.crew.people)
    wanted = ("respirator_cartridges", "each", "Vapor cartridges, a pair", people, "one pair each")
    return (facts.work_area.bought(*wanted, once="the job"),)
