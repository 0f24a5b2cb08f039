"""Old paint outdoors that may hold lead: plastic on the ground along the work, and a clean ground in the end.

No number of the rule says in which wind this may be done: the work stops when dust cannot be held on the plastic.
"""

from __future__ import annotations

from dataclasses import replace

from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes.shared import lead
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.work_area import with_crew_note
from estimating.trade import measuring

ONE_SIDE = Origin(Kind.JUDGMENT, note="no line of ground was noted: taken as one side of a small deck")


def ground(facts: Facts) -> Figure:
    """Return the ground that is covered along the work (ft²)."""
    run = facts.exposure.ground or leaf("ground along the work", 20.0, "ft", ONE_SIDE)
    width = facts.work_area.basis.figure("cautions", "lead_ground_sheeting")
    return work(measuring.rectangle_area, "ground under plastic", length=run, width=width)


def set_up(facts: Facts) -> tuple[Task, ...]:
    """Return the lead-safe work at one place outdoors: pamphlet, plastic on the ground, cleaning, a last look."""
    area, covered = facts.work_area, ground(facts)
    sheet = area.basis.library.row("cautions", "lead_ground_sheeting").likely
    plastic = ("lead_ground_set_up", "Lead-safe set-up outdoors: signs, doors and windows shut, plastic on the ground")
    cleaned = ("lead_ground_clean", "Fold the plastic inward, vacuum up chips and dust with HEPA")
    looked = ("lead_ground_check", "Look over ground, sills and steps: no chips, no dust left", Phase.PREPARE)
    tasks = (
        with_crew_note(
            area.by_area(*plastic, Phase.PROTECT, covered, "lead_ground_set_up", "film", "any"),
            f"plastic {sheet:.0f} ft out from the wall, weighted and turned up at its edges, a screen where the "
            "boundary is nearer; doors and windows within 20 ft shut; stop when wind lifts dust off the plastic",
        ),
        with_crew_note(
            area.by_area(*cleaned, Phase.PREPARE, covered, "lead_ground_clean", "hepa", "any"),
            "mist what is sanded or scraped; no open flame, no machine without a HEPA shroud; wash water is kept in",
        ),
        with_crew_note(
            area.by_hours(*looked, "lead_ground_check", "hand", "any"), "by the certified renovator, in daylight"
        ),
    )
    return lead.pamphlet(area), *lead.once_here(area, tasks)


def supplies(facts: Facts) -> tuple[Supply, ...]:
    """Return plastic for the ground and bags for the chips."""
    area = facts.work_area
    sheet = area.basis.figure("masking_stock", "plastic_sheeting", "area")
    bought = area.supply("plastic_sheeting", "Plastic sheeting, 6 mil", ground(facts), sheet, "roll")
    bags = area.bought("waste_bag", "pack", "Waste bags, a pack", 1.0, "one pack a job", once="lead")
    return replace(bought, share_key=f"plastic sheeting, {area.room.room.name}"), bags
