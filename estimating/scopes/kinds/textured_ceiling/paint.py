"""Paint and sundries of a ceiling, whatever the way."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Material, Supply
from estimating.figures import Figure
from estimating.scopes.kinds.textured_ceiling.facts import FINISH, Ceiling
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared.solvent import PRIMER_TITLES

TITLES = {
    FINISH: "Ceiling flat, water-borne",
    **PRIMER_TITLES,
    "trim_enamel": "Enamel for trims",
    "drywall_sealer": "Drywall primer",
}


def scope_name(ceiling: Ceiling) -> str:
    """Return what the work is called in reports."""
    return f"ceiling, {ceiling.item.room}"


def coat_paint(ceiling: Ceiling, product: str, area: Figure, spread: Figure, purpose: str) -> Material:
    """Return the paint of one coat, in the color wanted where it is the finish."""
    color = ceiling.item.color_wanted or "" if product == FINISH else ""
    return ceiling.work_area.paint(product, TITLES[product], area, spread, purpose, color)


def left_in(ceiling: Ceiling, sprayed: bool) -> Material:
    """Return the paint that stays in the sprayer or in the roller."""
    tool = "sprayer" if sprayed else "roller"
    return room_cover.left_in(ceiling.work_area, tool, FINISH, TITLES[FINISH], ceiling.item.color_wanted or "")


def sundries(ceiling: Ceiling, *, sprayed: bool, sealed: bool) -> tuple[Supply, ...]:
    """Return the small things a ceiling uses up."""
    work_area = ceiling.work_area
    people = float(work_area.job.crew.people)
    wanted = [("rags", "box", "Rags, a box", 1.0, "one box a ceiling")]
    if sprayed:
        wanted += [
            ("spray_tip", "each", "Spray tip", 1.0, "a fresh tip for an even fan"),
            ("dust_mask", "each", "Particle respirators", people, "one each, a day"),
        ]
    if sealed or not sprayed:
        covers = 1.0 if sprayed else 2.0
        wanted.append(
            ("roller_cover", "each", "Roller covers", covers, "one a coat; the one for the sealer is thrown away")
        )
    return tuple(work_area.bought(item, container, title, count, why) for item, container, title, count, why in wanted)
