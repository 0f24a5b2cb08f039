"""What a room has for and against each method of painting it, and the facts of each that hazards hang on."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Finding, Suitability
from estimating.figures import Figure
from estimating.job.surfaces import Condition, StainKind, SurfaceNotes, WallTexture
from estimating.job.trim import TrimKind
from estimating.scopes.kinds.interior_repaint.facts import Method, Repaint
from estimating.scopes.shared.exposure import Exposure
from estimating.scopes.shared.preparation import Step

BIG_PATCHES = ("medium_patches", "large_patches", "taped_crack_feet")


def exposure(repaint: Repaint, method: Method | None) -> Exposure:
    """Return the facts of one way of painting the room that a hazard can hang on; None is leaving it alone."""
    if method is None:
        return Exposure(worked=False, suspects=_suspects(repaint), stains=repaint.item.stains or ())
    crown = any(run.kind is TrimKind.CROWN for run in repaint.item.trim.runs or ()) and repaint.trim is not None
    large = repaint.walls is not None or repaint.ceiling is not None
    return Exposure(
        sprayed=method.sprayed,
        old_paint=repaint.sanded,
        failing=tuple(_failing(repaint)),
        suspects=_suspects(repaint),
        suspect_area=_suspect_area(repaint),
        compound="sanding joint compound" if _fills(repaint) else "",
        scraped=any(part.loose is not None for part in repaint.parts),
        overhead=repaint.ceiling is not None,
        top=repaint.work_area.room.height if large or crown else None,
        over_stairs=bool(repaint.item.over_stairs_feet),
        stains=repaint.item.stains or (),
        seals="stains" if repaint.item.stains else "",
        closets=bool(repaint.item.closets),
        covers_fixtures=repaint.covers_fixtures(method),
        plates=bool(repaint.item.removals.plates),
        paint_dries_on_doors=repaint.trim is not None,
        cleaners="bleach against mildew" if _has_mildew(repaint) else "",
    )


def _has_mildew(repaint: Repaint) -> bool:
    return any(stain.kind is StainKind.MILDEW and stain.square_feet for stain in repaint.item.stains or ())


def _fills(repaint: Repaint) -> bool:
    filled = any(part.skimmed is not None or Step.FILL in part.steps for part in repaint.parts)
    return filled or bool(repaint.disturbed.value)


def _suspects(repaint: Repaint) -> tuple[str, ...]:
    item = repaint.item
    plain = ((repaint.ceiling, "ceiling texture", item.ceiling), (repaint.walls, "wall texture", item.walls))
    textured = [name for painted, name, each in plain if painted and each.texture not in (None, WallTexture.SMOOTH)]
    mended = ["old joint compound or plaster"] if repaint.disturbed.value else []
    return (*textured, *mended)


def _suspect_area(repaint: Repaint) -> Figure:
    """Return the largest area of one suspect material (ft²): a textured surface whole, compound where it is opened."""
    surfaces = {"ceiling texture": repaint.ceiling, "wall texture": repaint.walls}
    found = [each.area for name, each in surfaces.items() if each is not None and name in _suspects(repaint)]
    return max([repaint.disturbed, *found], key=lambda area: area.value)


def findings(repaint: Repaint, method: Method) -> tuple[Finding, ...]:
    """Return what the old paint and the colors have against a method of painting the room."""
    found = list(_for_any(repaint))
    if method.sprayed and not method.back_rolled:
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
    failing = _failing(repaint)
    if failing:
        text = f"loose paint on the {' and '.join(failing)} comes off first; what is under it may be more than was seen"
        yield Finding(Suitability.CONDITIONS, text)


def _for_no_back_roll(repaint: Repaint) -> Iterator[Finding]:
    worn = [name for name, surface in _surfaces(repaint) if surface.condition in (Condition.WORN, Condition.FAILING)]
    patched = [field for field in BIG_PATCHES if getattr(repaint.item.repairs, field)]
    if worn or patched:
        what = "worn paint absorbs" if worn else "patches absorb"
        yield Finding(Suitability.CLOSED, f"{what} unevenly: a sprayed coat there is rolled out, or it flashes")
    else:
        yield Finding(
            Suitability.CONDITIONS, "over old roller marks a film that is only sprayed shows every later touch-up"
        )


def client_requirements(repaint: Repaint) -> tuple[str, ...]:
    """Return what painting asks of the household beyond what its hazards ask."""
    return ("take pictures and breakable things off walls and shelves",) if repaint.occupied else ()


def notes(repaint: Repaint, method: Method) -> tuple[str, ...]:
    """Return what else follows from colors, gloss and openings."""
    found = [
        f"{each.name}: {_coats_in_words(each.coats.planned(barrier=method.barrier))}"
        + (f" over {each.coats.barrier} of tinted primer" if each.coats.barrier and method.barrier else "")
        + (f", {each.color}" if each.color else "")
        for each in repaint.surfaces
    ]
    found.append("openings are taken off the walls by size; trim and doors go by length and count, never off the walls")
    if not method.sprayed:
        found.append("drop cloths are the crew's own")
    return tuple(found)


def _coats_in_words(count: int) -> str:
    return "1 coat" if count == 1 else f"{count} coats"
