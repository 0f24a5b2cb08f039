"""The surfaces of a repainted room as its client knows them: walls, each accent wall, ceiling, trim, closets."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Plan
from estimating.scopes.kinds.interior_repaint.facts import Repaint
from estimating.scopes.shared.client_surfaces import with_surfaces
from estimating.scopes.shared.surface import Surface

TRIM = "trim, doors and windows"
OF_TRIM = ("_trim", "scuff_doors")


def name_surfaces(repaint: Repaint, plan: Plan) -> Plan:
    """Return the plan with the surface of each task and coat; preparation that nobody noted by surface has none."""

    def of_task(key: str) -> str:
        return next((_name(each) for each in repaint.surfaces if _is_on(each, key)), "")

    def of_paint(purpose: str) -> str:
        return next((_name(each) for each in repaint.surfaces if purpose.endswith(f"the {each.name}")), "")

    return with_surfaces(plan, of_task, of_paint)


def _name(coated: Surface) -> str:
    return TRIM if coated.key == "trim" else coated.name


def _is_on(coated: Surface, key: str) -> bool:
    if coated.key == "trim" and key.endswith(OF_TRIM):
        return True
    words = f"_{key}_"
    return any(f"_{each}_" in words for each in (coated.key, *(member.key for member in coated.members)))
