"""What a textured ceiling has for and against each method of dealing with it, and the facts that hazards hang on."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Finding, Suitability
from estimating.job.values import Answer
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.kinds.textured_ceiling.notes import History
from estimating.scopes.kinds.textured_ceiling.release import SEALED
from estimating.scopes.shared import drying, solvent
from estimating.scopes.shared.exposure import Exposure

COATED = ("roll", "spray", "seal_roll", "seal_spray")
SPRAYED = ("spray", "seal_spray")
DUST = {"scrape": "scraping texture and sanding joint compound", "overlay": "sanding joint compound"}


def exposure(ceiling: Ceiling, method: str) -> Exposure:
    """Return the facts of one way of dealing with the ceiling that a hazard can hang on."""
    scraped = method == "scrape"
    worked = method != "decline"
    grade, history = ceiling.surface.grade.replace("_", " "), ceiling.item.history or "history not known"
    return Exposure(
        worked=worked,
        sprayed=method in SPRAYED,
        old_paint=ceiling.area if scraped and ceiling.item.history is not History.NEVER_PAINTED else None,
        suspects=("ceiling texture",),
        suspect_area=ceiling.area,
        compound=DUST.get(method, ""),
        scraped=scraped,
        overhead=worked,
        top=ceiling.work_area.room.height,
        release=f"{grade}, {history}" if method in COATED else "",
        stains=ceiling.item.stains or (),
        seals="texture" if method in SEALED else "stains" if ceiling.item.stains and worked else "",
        covers_fixtures=worked,
    )


def findings(ceiling: Ceiling, method: str) -> tuple[Finding, ...]:
    """Return what the texture itself has against one way of dealing with it."""
    found = (_for_any, _for_release, _for_overlay)
    return tuple(reason for each in found for reason in each(ceiling, method))


def _for_any(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    if method in COATED and ceiling.item.sound is Answer.NO:
        yield Finding(
            Suitability.CLOSED, "the texture is not sound: loose material has to come off before anything is put on"
        )


def _for_release(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    if method not in COATED:
        return
    if method == "roll" and ceiling.release.bare_board:
        never = "texture fell to bare board here or from the same ceiling next door: it was never primed, so not rolled"
        yield Finding(Suitability.CLOSED, never)
    chance = ceiling.release.chance(method).value
    basis = ceiling.work_area.basis
    if chance > basis.figure("release", "limit", "closed", "probability").value:
        yield Finding(Suitability.CLOSED, f"the chance that texture comes down is {chance:.0%}", of_chance=True)
    elif chance > basis.figure("release", "limit", "conditions", "probability").value:
        yield Finding(
            Suitability.CONDITIONS,
            f"the chance that texture comes down is {chance:.0%}: put in writing first",
            of_chance=True,
        )


def _for_overlay(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    del ceiling
    if method == "overlay":
        yield Finding(
            Suitability.CONDITIONS,
            "the framing has to carry the board, and fixtures have to be brought forward by somebody licensed",
        )


def client_requirements(ceiling: Ceiling, method: str) -> tuple[str, ...]:
    """Return what a method asks of the household beyond what its hazards ask."""
    occupied = ceiling.work_area.job.site.occupied is not Answer.NO
    odor = "sleep elsewhere the night after sealing if the odor reaches the bedrooms"
    vapor = method in SEALED and not solvent.barred(ceiling.work_area.job.site)
    return (odor,) if vapor and occupied else ()


def notes(ceiling: Ceiling, *, sprayed: bool, sealed: bool) -> tuple[str, ...]:
    """Return what else follows from heat, vapor, mist and tests."""
    found = [ceiling.release.tested, _heat_note(ceiling, sprayed), _dew_note(ceiling)]
    if ceiling.item.walls_next is None and ceiling.walls_next:
        found.append("the walls of this room are painted after it in the same job: they are not draped")
    if ceiling.release.twins:
        rooms = ", ".join(each.room for each in ceiling.release.twins)
        found.append(f"judged together with the same ceiling in {rooms}: what showed in one counts for the other")
    if sealed:
        found.append(_sealer_note(ceiling))
    if sprayed:
        found.append(
            "spraying takes away the pull of the roller, not the wetting: a heavy pass can still bring texture down"
        )
    return tuple(note for note in found if note)


def _sealer_note(ceiling: Ceiling) -> str:
    if not solvent.barred(ceiling.work_area.job.site):
        return "the solvent-borne primer wets the texture without water, and binds loose edges before a repair"
    water, other = (f"{chance.value:.0%}" for chance in ceiling.release.sealed_chances)
    return f"chance that texture comes down, sealed water-borne and rolled: {water}; solvent-borne it would be {other}"


def _heat_note(ceiling: Ceiling, sprayed: bool) -> str:
    site = ceiling.work_area.job.site
    if not sprayed or site.air is None or site.humidity is None:
        return ""
    index = drying.heat_index(site)
    if index is None:
        return f"air at {site.air.value:.0f} °F: outside the table of the heat index"
    return f"heat index {index:.0f} °F in moving shade, worse in a sealed room: breaks, water, a second person"


def _dew_note(ceiling: Ceiling) -> str:
    margin = drying.dew_margin(ceiling.work_area.job.site)
    return "" if margin is None else f"the ceiling is {margin:.0f} °F above the dew point"
