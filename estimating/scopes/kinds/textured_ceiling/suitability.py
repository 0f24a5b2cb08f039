"""Whether a way may be used on a textured ceiling, what it asks of the household, and the cautions the job raises."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Caution, Finding, Suitability
from estimating.job.site import Household, Ignition, TestResult
from estimating.job.values import Answer
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling, clean_tests
from estimating.scopes.kinds.textured_ceiling.release import method_chance
from estimating.scopes.shared import drying as weather
from estimating.trade import adhesion, climate

COATED = ("roll", "spray", "seal_roll", "seal_spray")
SEALED = ("seal_roll", "seal_spray")
SPRAYED = ("spray", "seal_spray")
DISTURBING = ("scrape",)
INDEXED = (32.0, 120.0)  # °F that the heat index speaks of


def asbestos_open(ceiling: Ceiling) -> bool:
    """Say whether the texture may hold asbestos for all anybody has shown."""
    site = ceiling.work_area.job.site
    last_year = ceiling.work_area.basis.library.row("cautions", "asbestos_texture").likely
    old = site.year_built is None or site.year_built <= last_year
    return old and site.asbestos_test is not TestResult.NEGATIVE


def ignition_left(ceiling: Ceiling) -> list[str]:
    """Return the ignition sources that cannot be shut off."""
    sources = ceiling.work_area.job.site.ignition
    return [
        name.replace("_", " ")
        for name in type(sources).model_fields
        if getattr(sources, name) is Ignition.CANNOT_BE_SHUT_OFF
    ]


def ignition_unknown(ceiling: Ceiling) -> list[str]:
    """Return the ignition sources nobody asked about."""
    sources = ceiling.work_area.job.site.ignition
    return [name.replace("_", " ") for name in type(sources).model_fields if getattr(sources, name) is None]


def findings(ceiling: Ceiling, method: str) -> tuple[Finding, ...]:
    """Return why a way may or may not be used here."""
    found = (_for_any, _for_release, _for_solvent, _for_finish)
    weathered = () if method == "decline" else tuple(weather.findings(ceiling.work_area))
    return (*(reason for each in found for reason in each(ceiling, method)), *weathered)


def _for_any(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    if method == "decline":
        return
    site = ceiling.work_area.job.site
    if site.asbestos_test is TestResult.POSITIVE:
        yield Finding(Suitability.CLOSED, "the laboratory found asbestos: a licensed firm decides what may be touched")
    elif asbestos_open(ceiling):
        standing = Suitability.CLOSED if method in DISTURBING else Suitability.CONDITIONS
        yield Finding(
            standing, "no negative laboratory test, and the building may be old enough for asbestos in the texture"
        )
    if method in COATED and ceiling.item.sound is Answer.NO:
        yield Finding(
            Suitability.CLOSED, "the texture is not sound: loose material has to come off before anything is put on"
        )
    if any(stain.cause_cured is not Answer.YES for stain in ceiling.item.stains or ()):
        yield Finding(
            Suitability.CONDITIONS, "a stain whose cause is not known to be cured comes back through any coat"
        )


def _for_release(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    if method not in COATED:
        return
    chance = method_chance(ceiling, method).value
    basis = ceiling.work_area.basis
    if chance > basis.figure("release", "limit", "closed", "probability").value:
        yield Finding(Suitability.CLOSED, f"the chance that texture comes down is {chance:.0%}")
    elif chance > basis.figure("release", "limit", "conditions", "probability").value:
        yield Finding(
            Suitability.CONDITIONS,
            f"the chance that texture comes down is {chance:.0%}: the client is told in writing first",
        )


def _for_solvent(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    if method not in SEALED:
        return
    site = ceiling.work_area.job.site
    left = ignition_left(ceiling)
    if left:
        yield Finding(
            Suitability.CLOSED, f"solvent vapor and an ignition source that cannot be shut off: {', '.join(left)}"
        )
    unknown = ignition_unknown(ceiling)
    if unknown:
        yield Finding(Suitability.CONDITIONS, f"not known whether it can be shut off: {', '.join(unknown)}")
    if site.airflow is Answer.NO:
        yield Finding(Suitability.CLOSED, "the room cannot be aired to the outside while the primer dries")
    elif site.airflow is None:
        yield Finding(Suitability.CONDITIONS, "not known whether the room can be aired to the outside")
    if site.occupied is not Answer.NO:
        yield Finding(Suitability.CONDITIONS, "people and animals stay out until the vapor is gone")
    if Household.PREGNANCY in (site.household or ()):
        yield Finding(Suitability.CLOSED, "a pregnancy in the house: no solvent-borne products while it is lived in")


def _for_finish(ceiling: Ceiling, method: str) -> Iterator[Finding]:
    if method in SPRAYED:
        yield Finding(
            Suitability.CONDITIONS, "the room is emptied of people, masked without a gap, and its air handling off"
        )
    if method == "overlay":
        yield Finding(
            Suitability.CONDITIONS,
            "the framing has to carry the board, and fixtures have to be brought forward by somebody licensed",
        )


def client_requirements(ceiling: Ceiling, *, sprayed: bool, sealed: bool) -> tuple[str, ...]:
    """Return what a way asks of the household."""
    site = ceiling.work_area.job.site
    occupied = site.occupied is not Answer.NO
    wanted = [
        (occupied, "keep the room free from the first morning until the final walk"),
        (
            occupied and bool(site.household),
            f"keep away from the room: {', '.join(str(each) for each in site.household or ())}",
        ),
        (sprayed, "air handling off while spraying and until the mist has settled"),
        (sealed, "every flame and igniter off, and the room shut to the house, until the vapor has gone"),
        (sealed and occupied, "sleep elsewhere the night after sealing if the odor reaches the bedrooms"),
    ]
    return tuple(text for holds, text in wanted if holds)


def notes(ceiling: Ceiling, *, sprayed: bool, sealed: bool) -> tuple[str, ...]:
    """Return what else follows from heat, vapor, mist and tests."""
    found = [_tests_note(ceiling), _heat_note(ceiling, sprayed), _dew_note(ceiling)]
    if ceiling.item.walls_next is None and ceiling.walls_next:
        found.append("the walls of this room are painted after it in the same job: they are not draped")
    if sealed:
        found.append("the solvent-borne primer wets the texture without water, and binds loose edges before a repair")
    if sprayed:
        found.append(
            "spraying takes away the pull of the roller, not the wetting: a heavy pass can still bring texture down"
        )
    return tuple(note for note in found if note)


def _tests_note(ceiling: Ceiling) -> str:
    made, clean = clean_tests(ceiling.item)
    if not made:
        return "no spot test was made: the odds rest on history alone"
    share = adhesion.worst_fraction(clean=clean, tested=made, confidence=0.95)
    return (
        f"{clean} of {made} spot tests clean: up to {share:.0%} of the ceiling may still be bad (95 % one-sided, exact)"
    )


def _heat_note(ceiling: Ceiling, sprayed: bool) -> str:
    site = ceiling.work_area.job.site
    if not sprayed or site.air is None or site.humidity is None:
        return ""
    if not INDEXED[0] <= site.air.value <= INDEXED[1]:
        return f"air at {site.air.value:.0f} °F: outside the table of the heat index"
    index = float(climate.heat_index(air=site.air.value, humidity=site.humidity))
    return f"heat index {index:.0f} °F in moving shade, worse in a sealed room: breaks, water, a second person"


def _dew_note(ceiling: Ceiling) -> str:
    margin = weather.dew_margin(ceiling.work_area.job.site)
    return "" if margin is None else f"the ceiling is {margin:.0f} °F above the dew point"


def cautions(ceiling: Ceiling, method: str) -> tuple[Caution, ...]:
    """Return the cautions that this job's facts raise for this way."""
    return tuple(ceiling.work_area.caution(key, because) for holds, key, because in _raised(ceiling, method) if holds)


def _raised(ceiling: Ceiling, method: str) -> list[tuple[bool, str, str]]:
    site = ceiling.work_area.job.site
    fixtures = ceiling.work_area.room.room.fixtures
    built = f"built {site.year_built}" if site.year_built else "year built not known"
    lead_year = ceiling.work_area.basis.library.row("cautions", "lead_paint").likely
    worked = method != "decline"
    return [
        (
            asbestos_open(ceiling),
            "asbestos_texture",
            f"texture, {built}, no negative laboratory test; rub and tape tests disturb it too",
        ),
        (site.year_built is None or site.year_built < lead_year, "lead_paint", built),
        (method in ("scrape", "overlay"), "silica_dust", "sanding joint compound or scraping texture"),
        (method in SEALED or (bool(ceiling.item.stains) and worked), "solvent_fire", "a solvent-borne primer indoors"),
        (method in SEALED, "solvent_vapor", "a whole ceiling of solvent-borne primer"),
        (method in SPRAYED, "spray_injection", "airless spraying"),
        (method in SPRAYED, "respirators", "spray mist in a closed room"),
        (method in SPRAYED, "heat", "a sealed room without moving air"),
        (
            method in COATED,
            "texture_release",
            f"{ceiling.grade.replace('_', ' ')}, {ceiling.item.history or 'history not known'}",
        ),
        (worked, "ladders", f"ceiling at {ceiling.work_area.room.height.value:.1f} ft"),
        (worked and _fixed_lights(ceiling), "live_fixtures", "lights and fans in the ceiling"),
        (worked and fixtures.detector != 0, "detectors", _count_words(fixtures.detector)),
        (worked and bool(fixtures.sprinkler_head), "sprinkler_heads", _count_words(fixtures.sprinkler_head)),
        (method in SEALED, "spontaneous_rags", "rags wet with solvent-borne primer"),
    ]


def _fixed_lights(ceiling: Ceiling) -> bool:
    fixtures = ceiling.work_area.room.room.fixtures
    return any(each != 0 for each in (fixtures.recessed_trim, fixtures.flush_light, fixtures.pendant, fixtures.fan))


def _count_words(count: int | None) -> str:
    return "not counted yet" if count is None else f"{count} counted out, {count} to be counted back in"
