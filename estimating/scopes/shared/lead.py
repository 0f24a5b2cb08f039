"""Old paint that may hold lead: when it counts as such, how much may be disturbed, and what the plan then carries."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from estimating.estimate.pricing.plan import Charge, Phase, Supply, Task
from estimating.evidence import Basis
from estimating.figures import leaf
from estimating.job.site import Site, TestResult
from estimating.origins import Kind, Origin
from estimating.scopes.shared import protection
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.work_area import WorkArea, with_crew_note, with_share_key


def lead_open(site: Site, basis: Basis) -> bool:
    """Say whether old paint may hold lead for all anybody has shown; a negative test clears every kind of work."""
    if site.lead_test is TestResult.POSITIVE:
        return True
    without = basis.library.row("cautions", "lead_paint").likely
    return (site.year_built is None or site.year_built < without) and site.lead_test is not TestResult.NEGATIVE


def disturbed(facts: Facts) -> float:
    """Return how much old paint a plan disturbs (ft²): sanded, scuffed, scraped or cut open."""
    found = facts.exposure.old_paint
    return float(found.value) if found is not None else 0.0


def least(facts: Facts) -> float:
    """Return the area above which the lead work practices apply (ft²): in a room, or outdoors."""
    where = "exterior" if facts.exposure.outside else "interior"
    return float(facts.work_area.basis.library.row("cautions", f"lead_minor_repair_{where}").likely)


def over_the_limit(facts: Facts) -> bool:
    """Say whether a plan disturbs so much paint that may hold lead that the lead work practices apply."""
    site, basis = facts.work_area.job.site, facts.work_area.basis
    return facts.exposure.worked and lead_open(site, basis) and disturbed(facts) > least(facts)


def pamphlet(work_area: WorkArea) -> Task:
    """Return having the pamphlet signed for: of no place, since it is in the client's hands before work in any."""
    told = ("lead_pamphlet", "Have the lead pamphlet signed for", Phase.ARRIVE)
    task = work_area.by_hours(*told, "lead_pamphlet", "hand", "any")
    return replace(task, room="", share_key="lead pamphlet")


def once_here(work_area: WorkArea, tasks: Iterable[Task]) -> tuple[Task, ...]:
    """Return lead-safe tasks as done once for this place, whatever else is worked at here."""
    place = work_area.room.room.name
    return tuple(with_share_key(task, f"{task.key}, {place}") for task in tasks)


def set_up(facts: Facts) -> tuple[Task, ...]:
    """Return the lead-safe work of one room: pamphlet, plastic, cleaning before any new paint, verification."""
    area = facts.work_area
    floor = area.room.floor
    plastic = ("lead_set_up", "Lead-safe set-up: signs, vents and doors closed, plastic", Phase.PROTECT, floor)
    cleaned = ("lead_clean", "Clean up lead dust: HEPA vacuum and wet wiping", Phase.PREPARE, floor)
    verified = ("lead_verify", "Cleaning verification by the certified renovator", Phase.PREPARE)
    sheet = area.basis.library.row("cautions", "lead_floor_sheeting").likely
    tasks = (
        with_crew_note(
            area.by_area(*plastic, "lead_set_up", "film", "any"),
            f"plastic at least {sheet:.0f} ft beyond the work, taped; everybody else out until the room is verified",
        ),
        with_crew_note(
            area.by_area(*cleaned, "lead_clean", "hepa", "any"),
            "mist what is sanded or scraped; no open flame, no dry sweeping, no machine without a HEPA shroud",
        ),
        with_crew_note(area.by_hours(*verified, "lead_verify", "hand", "any"), "kept on file with the receipt"),
    )
    return pamphlet(area), *once_here(area, tasks)


def supplies(facts: Facts) -> tuple[Supply, ...]:
    """Return plastic, cleaning cloths and bags for the lead-safe set-up of one room."""
    area = facts.work_area
    room, stock = area.room.room.name, area.basis
    cloths = stock.figure("masking_stock", "verification_cloth", "area")
    wiped = area.supply("verification_cloth", "Cleaning verification cloths and card", area.room.floor, cloths, "pack")
    bags = area.bought("waste_bag", "pack", "Waste bags, a pack", 1.0, "one pack a job", once="lead")
    return protection.sheeting(area), replace(wiped, share_key=f"{wiped.item}, lead, {room}"), bags


def vacuum(facts: Facts) -> Charge:
    """Return a day of the HEPA vacuum for the room it is used in."""
    rate = facts.work_area.basis.figure("business", "equipment_hepa_vacuum")
    day = leaf("a day for the room", 1.0, "dimensionless", Origin(Kind.JUDGMENT, note="sanded and cleaned in a day"))
    word = f"HEPA vacuum, {facts.work_area.room.room.name}"
    return Charge("equipment_hepa_vacuum", "HEPA vacuum, a day", day, rate, share_key=word)


def price_of_testing(facts: Facts, safe: tuple[Task, ...]) -> str:
    """Return what a lead test would cost and what it would take off the price if it were negative."""
    sample = facts.work_area.basis.figure("prices", "lead_sample", "each").value
    hours = sum(task.hours.value for task in safe)
    where = "outdoors" if facts.exposure.outside else "in this room"
    return (
        f"a lead test first costs about {sample:,.0f} dollars a sample; a negative one takes {hours:.1f} hours of "
        f"lead-safe work {where}, its plastic and its vacuum off this price"
    )
