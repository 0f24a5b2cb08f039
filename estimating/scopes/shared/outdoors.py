"""What work outdoors has and work indoors has not: plants covered, washing that has to dry, wood by the meter."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Finding, Phase, Suitability, Supply, Task
from estimating.figures import Figure, leaf
from estimating.origins import Kind, Origin
from estimating.scopes.shared import drying, protection
from estimating.scopes.shared.work_area import WorkArea, with_crew_note, with_dry_time

MIXED = "one cleaner at a time, rinsed off before the next; plants wetted before and after; never from a ladder"


def plants(work_area: WorkArea, square_feet: int | None, where: str) -> tuple[Task, ...]:
    """Return covering plants beside the work, and uncovering them; none noted is none planned for."""
    area = leaf("plants to cover", float(square_feet or 0), "ft**2", Origin(Kind.MEASURED, place=where), key=where)
    if not area.value:
        return ()
    cover = ("cover_plants", "Wet and cover the plants beside the work", Phase.PROTECT, area, "cover_plants")
    off = ("uncover_plants", "Uncover and rinse the plants", Phase.CLEAN, area, "unmask")
    return work_area.by_area(*cover, "hand", "any"), work_area.by_area(*off, "hand", "any")


def wash(work_area: WorkArea, name: str, area: Figure, *, by_hand: bool = False) -> Task:
    """Return washing a surface outdoors: cleaner brushed on, rinsed at low pressure, or all of it by hand."""
    row = ("wash_exterior", "hand" if by_hand else "pressure", "any")
    title = f"Wash the {name}: cleaner, brush and rinse"
    return with_crew_note(work_area.by_area("wash_outside", title, Phase.PREPARE, area, *row), MIXED)


def dried(work_area: WorkArea, task: Task) -> Task:
    """Return a wet task with the wait until the wood is dry, in the air of this job."""
    dry = drying.dry_by_row(work_area, "washed_wood", "washed wood")
    return with_dry_time(task, dry, f"the wood to dry: {_most_moist(work_area):.0f} % or less by the meter")


def _most_moist(work_area: WorkArea) -> float:
    return float(work_area.basis.figure("climate", "wood_moisture_most", "outside").value)


def for_moisture(work_area: WorkArea, moisture: float | None) -> Iterator[Finding]:
    """Yield what a moisture reading has against coating wood; without one it is measured on the day."""
    most = _most_moist(work_area)
    if moisture is None:
        yield Finding(Suitability.CONDITIONS, f"a meter reads {most:.0f} % or less in the wood on the day it is coated")
    elif moisture > most:
        text = f"the wood reads {moisture:.0f} %, more than {most:.0f} %: it is left to dry, and read again"
        yield Finding(Suitability.CONDITIONS, text)


def chemical(work_area: WorkArea, item: str, container: str, title: str, area: Figure) -> Supply:
    """Return a cleaner, stripper or brightener for an area, by what a container does."""
    does = work_area.basis.figure("members", f"{item.removeprefix('wood_')}_{container}", "area")
    return work_area.supply(item, title, area, does, container)


def against_splash(work_area: WorkArea) -> tuple[Supply, ...]:
    """Return goggles and gloves for the crew, once a job."""
    people = float(work_area.job.crew.people)
    goggles = work_area.bought("goggles", "each", "Goggles", people, "one each", once=protection.THE_JOB)
    gloves = work_area.bought("gloves", "pack", "Gloves, a pack", 1.0, "one pack a job", once=protection.THE_JOB)
    return goggles, gloves
