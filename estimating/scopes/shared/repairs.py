"""Repairs of a room: what they take, and how much of the old paint they open up."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.estimate.pricing.plan import Phase, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.repairs import Repairs
from estimating.origins import Kind, Origin
from estimating.scopes.shared.drying import compound_dry, spackle_dry
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, with_dry_time
from estimating.takeoff import counted
from estimating.trade import measuring, walls

PATCHES = {  # field of the notes: member, and class of patch in the production rates
    "nail_pops": ("nail_pop", "nail_pop"),
    "small_patches": ("small_patch", "small"),
    "medium_patches": ("medium_patch", "medium"),
    "large_patches": ("large_patch", "large"),
}
CRACKS = {"hairline_crack_feet": ("hairline_crack", "hairline"), "taped_crack_feet": ("taped_crack", "taped")}
SLOW_TO_DRY = ("medium_patches", "large_patches", "taped_crack_feet")  # filled in more than one layer of compound


def patch_counts(repairs: Repairs, where: str) -> Iterator[tuple[str, Figure]]:
    """Yield each kind of patch with how many there are; none counted is none planned for."""
    for field in PATCHES:
        yield field, counted(getattr(repairs, field) or 0, field.replace("_", " "), f"{where} · {field}")


def crack_lengths(repairs: Repairs, where: str) -> Iterator[tuple[str, Figure]]:
    """Yield each kind of crack with its length (ft)."""
    for field, (_, name) in CRACKS.items():
        place = f"{where} · {field}"
        feet = float(getattr(repairs, field) or 0)
        yield field, leaf(f"{name} cracks", feet, "ft", Origin(Kind.MEASURED, place=place), key=place)


def disturbed(repairs: Repairs, work_area: WorkArea, where: str) -> Figure:
    """Return how much of the old paint the repairs open up (ft²): it is primed again, and drinks until then."""
    opened = [
        work(
            walls.several,
            f"opened by {count.name}",
            each=work_area.basis.figure("members", PATCHES[field][0], "area"),
            count=count,
        )
        for field, count in patch_counts(repairs, where)
        if count.value
    ]
    return total("opened by repairs", [*opened, crack_area(repairs, work_area, where)], unit="ft**2")


def crack_area(repairs: Repairs, work_area: WorkArea, where: str) -> Figure:
    """Return how much of the old paint mended cracks open up (ft²)."""
    opened = [
        work(
            measuring.girthed_area,
            f"opened along {length.name}",
            length=length,
            girth=work_area.basis.figure("members", CRACKS[field][0], "girth"),
        )
        for field, length in crack_lengths(repairs, where)
        if length.value
    ]
    return total("opened by cracks", opened, unit="ft**2")


def mend(repairs: Repairs, work_area: WorkArea, where: str) -> list[Task]:
    """Return mending patches and cracks before anything is sanded: small ones dry soon, deep ones until next day."""
    tasks = [
        work_area.by_batch(
            f"patch_{PATCHES[field][1]}", f"Mend {count.name}", Phase.PREPARE, count, "patch", "hand", PATCHES[field][1]
        )
        for field, count in patch_counts(repairs, where)
    ]
    tasks += [
        work_area.by_length(
            f"crack_{CRACKS[field][1]}", f"Mend {length.name}", Phase.PREPARE, length, "crack", "hand", CRACKS[field][1]
        )
        for field, length in crack_lengths(repairs, where)
    ]
    mended = list(drop_zero_hours(tasks))
    if not mended:
        return []
    deep = any(getattr(repairs, field) for field in SLOW_TO_DRY)
    dried = compound_dries(work_area, mended[-1]) if deep else spackle_dries(work_area, mended[-1])
    return [*mended[:-1], dried]


def compound_dries(work_area: WorkArea, task: Task) -> Task:
    """Return the task with the wait until joint compound is dry."""
    return with_dry_time(task, compound_dry(work_area), "joint compound to dry")


def spackle_dries(work_area: WorkArea, task: Task) -> Task:
    """Return the task with the wait until small fillings are dry."""
    return with_dry_time(task, spackle_dry(work_area), "spackle to dry")


def spots(repairs: Repairs, where: str) -> Figure:
    """Return how many spots are primed by themselves."""
    return total("patches", [count for _, count in patch_counts(repairs, where)], unit="dimensionless")
