"""Whether a way may be used on a room, what it asks of the household, and the cautions the room raises."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Caution, Finding, Suitability
from estimating.job.room import Furniture
from estimating.job.site import TestResult
from estimating.job.surfaces import Condition, StainKind, SurfaceNotes
from estimating.job.values import Answer
from estimating.scopes.kinds.interior_repaint.coats import Method
from estimating.scopes.kinds.interior_repaint.color import SOLVENT_SEALER
from estimating.scopes.kinds.interior_repaint.facts import Repaint
from estimating.scopes.kinds.interior_repaint.prime import stain_primer

BIG_PATCHES = ("medium_patches", "large_patches", "taped_crack_feet")


def findings(repaint: Repaint, method: Method) -> tuple[Finding, ...]:
    """Return why a way may or may not be used here."""
    found = [*_for_any(repaint), *_for_lead(repaint)]
    if method.sprayed:
        found += _for_mist(repaint)
        if not method.back_rolled:
            found += _for_no_back_roll(repaint)
    if repaint.needs_barrier and not method.barrier:
        text = "a strong change of color without a tinted primer: agree the number of coats with the client"
        found.append(Finding(Suitability.CONDITIONS, text))
    return tuple(found)


def _surfaces(repaint: Repaint) -> list[tuple[str, SurfaceNotes]]:
    item = repaint.item
    named = ((repaint.ceiling, "ceiling", item.ceiling), (repaint.walls, "walls", item.walls))
    return [(name, surface) for coated, name, surface in (*named, (repaint.trim, "trim", item.trim)) if coated]


def _failing(repaint: Repaint) -> list[str]:
    return [name for name, surface in _surfaces(repaint) if surface.condition is Condition.FAILING]


def _for_any(repaint: Repaint) -> Iterator[Finding]:
    if any(stain.cause_cured is not Answer.YES for stain in repaint.item.stains or ()):
        yield Finding(
            Suitability.CONDITIONS, "a stain whose cause is not known to be cured comes back through any coat"
        )
    failing = _failing(repaint)
    if failing:
        text = f"loose paint on the {' and '.join(failing)} comes off first; what is under it may be more than was seen"
        yield Finding(Suitability.CONDITIONS, text)


def _for_lead(repaint: Repaint) -> Iterator[Finding]:
    site = repaint.work_area.job.site
    if not repaint.lead_open:
        return
    found = site.lead_test is TestResult.POSITIVE
    if found and _failing(repaint):
        yield Finding(
            Suitability.CLOSED, "lead was found and the paint is failing: a certified firm decides what may be touched"
        )
    elif found:
        yield Finding(
            Suitability.CONDITIONS, "lead was found: no dry sanding, and a certified firm where the rules ask for one"
        )
    else:
        yield Finding(
            Suitability.CONDITIONS,
            "old enough for lead, or of unknown age, and not tested: no dry sanding before a test",
        )


def _for_mist(repaint: Repaint) -> Iterator[Finding]:
    yield Finding(
        Suitability.CONDITIONS, "the room is emptied of people, masked without a gap, and its air handling off"
    )
    if repaint.work_area.room.room.furniture is Furniture.HEAVY:
        yield Finding(Suitability.CONDITIONS, "heavy furniture leaves the room, or is wrapped and in reach of the mist")


def _for_no_back_roll(repaint: Repaint) -> Iterator[Finding]:
    worn = [name for name, surface in _surfaces(repaint) if surface.condition in (Condition.WORN, Condition.FAILING)]
    patched = [field for field in BIG_PATCHES if getattr(repaint.item.repairs, field)]
    if worn or patched:
        what = "worn paint drinks" if worn else "patches drink"
        yield Finding(Suitability.CLOSED, f"{what} unevenly: a sprayed coat there is rolled out, or it flashes")
    else:
        yield Finding(
            Suitability.CONDITIONS, "over old roller marks a film that is only sprayed shows every later touch-up"
        )


def client_requirements(repaint: Repaint, method: Method) -> tuple[str, ...]:
    """Return what a way asks of the household."""
    household = repaint.work_area.job.site.household or ()
    wanted = [
        (repaint.occupied, "empty shelves and walls, and keep the room free until the last coat is dry"),
        (repaint.occupied and bool(household), f"keep away from wet paint: {', '.join(map(str, household))}"),
        (bool(repaint.item.closets), "empty the closets that are painted"),
        (method.sprayed, "air handling off while spraying and until the mist has settled"),
        (bool(repaint.trim), "leave painted doors and windows open, and do not lean on them, until the paint is hard"),
        (_solvent(repaint), "flames and igniters off, and the room aired outdoors, while stains are sealed"),
    ]
    return tuple(text for holds, text in wanted if holds)


def notes(repaint: Repaint, method: Method) -> tuple[str, ...]:
    """Return what else follows from colors, gloss and openings."""
    found = [
        f"{each.name}: {_coats_in_words(each.coats.planned(barrier=method.barrier))}"
        + (f" over {each.coats.barrier} of tinted primer" if each.coats.barrier and method.barrier else "")
        + (f", {each.color}" if each.color else "")
        for each in repaint.coated
    ]
    found.append("openings are taken off the walls by size; trim and doors go by length and count, never off the walls")
    if not method.sprayed:
        found.append("drop cloths are the crew's own")
    return tuple(found)


def _coats_in_words(count: int) -> str:
    return "1 coat" if count == 1 else f"{count} coats"


def _solvent(repaint: Repaint) -> bool:
    return bool(repaint.item.stains) and stain_primer(repaint) == SOLVENT_SEALER


def cautions(repaint: Repaint, method: Method | None) -> tuple[Caution, ...]:
    """Return the cautions that this room's facts raise for a way; None is leaving it alone."""
    raised = [*_of_the_paint(repaint), *(_of_the_work(repaint, method) if method else ())]
    return tuple(repaint.work_area.caution(key, because) for holds, key, because in raised if holds)


def _of_the_paint(repaint: Repaint) -> list[tuple[bool, str, str]]:
    site = repaint.work_area.job.site
    built = f"built {site.year_built}" if site.year_built else "year built not known"
    least = repaint.work_area.basis.library.row("cautions", "lead_minor_repair_interior").likely
    opened = repaint.disturbed.value
    wet = [stain for stain in repaint.item.stains or () if stain.kind is StainKind.WATER]
    return [
        (repaint.lead_open, "lead_paint", built),
        (
            repaint.lead_open and opened > least,
            "lead_minor_repair_interior",
            f"about {opened:.0f} ft² of old paint opened by repairs, sanding not counted",
        ),
        (bool(wet), "mold", "a water stain"),
    ]


def _of_the_work(repaint: Repaint, method: Method) -> list[tuple[bool, str, str]]:
    room, fixtures = repaint.work_area.room.room, repaint.work_area.room.room.fixtures
    covered = method.sprayed or repaint.ceiling is not None
    lights = (fixtures.recessed_trim, fixtures.flush_light, fixtures.pendant, fixtures.fan)
    height = repaint.work_area.room.height.value
    powered = ["lights and fans in reach of paint and film"] if covered and any(each != 0 for each in lights) else []
    powered += ["switch and outlet plates taken off"] if repaint.item.removals.plates else []
    return [
        (bool(repaint.disturbed.value), "silica_dust", "sanding joint compound"),
        (_solvent(repaint), "solvent_fire", "a solvent-borne primer on stains"),
        (_solvent(repaint), "solvent_vapor", "a solvent-borne primer on stains"),
        (_solvent(repaint), "spontaneous_rags", "rags wet with solvent-borne primer"),
        (method.sprayed, "spray_injection", "airless spraying"),
        (method.sprayed, "respirators", "spray mist in a closed room"),
        (method.sprayed, "heat", "a sealed room without moving air"),
        (method.sprayed, "mist_on_finishes", "spray mist in a furnished house"),
        (True, "ladders", f"ceiling at {height:.1f} ft"),
        (bool(repaint.item.over_stairs_feet), "work_height", "walls over a stair"),
        (bool(powered), "live_fixtures", " and ".join(powered)),
        (covered and fixtures.detector != 0, "detectors", _count_words(fixtures.detector)),
        (covered and bool(fixtures.sprinkler_head), "sprinkler_heads", _count_words(fixtures.sprinkler_head)),
        (room.furniture is Furniture.HEAVY, "two_person_lift", "heavy furniture"),
    ]


def _count_words(count: int | None) -> str:
    return "not counted yet" if count is None else f"{count} counted out, {count} to be counted back in"
