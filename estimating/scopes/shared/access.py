"""Who works where: the crew, what stands in the way, and how high it is. Factors on hours; None where nothing slows."""

from __future__ import annotations

from estimating.errors import InputError
from estimating.figures import Figure, leaf, total, work
from estimating.job.room import CeilingForm
from estimating.job.site import Experience
from estimating.job.values import Answer
from estimating.origins import Kind, Origin, definition
from estimating.scopes.shared.work_area import WorkArea
from estimating.takeoff import taped
from estimating.trade import labor, outline, walls

BANDS = ((9.0, "9_to_12ft"), (12.0, "12_to_16ft"), (16.0, "over_16ft"))  # above so many ft the class of height begins


def crew(work_area: WorkArea) -> Figure | None:
    """Return the factor for a learning crew; an experienced one is the plain case."""
    if work_area.job.crew.experience is Experience.EXPERIENCED:
        return None
    return work_area.basis.figure("factors", "crew", "learning")


def furniture(work_area: WorkArea) -> Figure | None:
    """Return the factor for working round furniture; an unanswered question counts as light furniture."""
    standing = str(work_area.room.room.furniture or "light")
    return None if standing == "none" else work_area.basis.figure("factors", "furniture", standing)


def occupied(work_area: WorkArea) -> bool:
    """Say whether people live there during the work; without an answer they do."""
    return work_area.job.site.occupied is not Answer.NO


def people(work_area: WorkArea) -> Figure | None:
    """Return the factor for people in the way."""
    return work_area.basis.figure("factors", "occupied", "yes") if occupied(work_area) else None


def height(work_area: WorkArea) -> Figure | None:
    """Return the factor for work at the top of the room; ordinary rooms have none."""
    classes = [level for limit, level in BANDS if work_area.room.height.value > limit]
    return work_area.basis.figure("factors", "height", classes[-1]) if classes else None


def high_wall(work_area: WorkArea, height: Figure | None = None) -> Figure | None:
    """Return the factor on a whole wall for its high parts; none where a step reaches all of it.

    height: of the wall (ft), where it is not that of the room.
    """
    middle = height or _middle_height(work_area)
    if middle.value <= BANDS[0][0]:
        return None
    bands: dict[str, Figure] = {}
    for place, (limit, level) in zip(("first", "second", "third"), BANDS, strict=True):
        bands[place] = leaf(f"{limit:.0f} ft", limit, "ft", definition("limits of the classes of height"))
        bands[f"factor_{place}"] = work_area.basis.figure("factors", "height", level)
    return work(walls.banded_factor, "wall by bands of height", height=middle, **bands)


def _middle_height(work_area: WorkArea) -> Figure:
    """Return the height of the walls (ft), under a slope half way up it."""
    room, low = work_area.room.room, work_area.room.height
    if room.ceiling is CeilingForm.FLAT or room.rise is None:
        return low
    rise = taped(room.rise, "rise", f'rooms "{room.name}" · rise')
    return total("wall, middle height", [low, work(outline.half, "half the rise", length=rise)], unit="ft")


def over_stairs(work_area: WorkArea, feet: float | None, where: str) -> Figure | None:
    """Return the factor on a whole wall for the part of it, so many feet long, that stands over a stair.

    Raises InputError where that part is longer than the room is round.
    """
    if not feet:
        return None
    if feet > work_area.room.perimeter.value:
        raise InputError(where, feet, f"no more than the {work_area.room.perimeter.value:.1f} ft of wall there is")
    part = leaf("wall over a stair", float(feet), "ft", Origin(Kind.MEASURED, place=where), key=where)
    share = work(walls.share_of_whole, "part of the wall over a stair", part=part, whole=work_area.room.perimeter)
    factor = work_area.basis.figure("factors", "height", "stair_void")
    return work(labor.part_factor, "wall over a stair", share=share, factor=factor)


def top_line(work_area: WorkArea, line: Figure) -> Figure | None:
    """Return the factor on a line round the walls (ft) for the part of it that runs along the ceiling."""
    top = height(work_area)
    if top is None:
        return None
    share = work(walls.share_of_whole, "part of the line at the top", part=work_area.room.perimeter, whole=line)
    return work(labor.part_factor, "line at the top", share=share, factor=top)


def across_patches(work_area: WorkArea, opened: Figure) -> Figure | None:
    """Return the factor on the first cutting in for the part of the line that runs across mended places (ft²)."""
    if not opened.value:
        return None
    share = work(walls.share_of_whole, "part of the wall that is patched", part=opened, whole=work_area.room.walls)
    suction = work_area.basis.figure("factors", "suction", "patched")
    return work(labor.part_factor, "line across patches", share=share, factor=suction)


def together(name: str, *factors: Figure | None) -> Figure | None:
    """Return the product of factors as one figure; those that are None do not apply, and none of them is None."""
    found = [each for each in factors if each is not None]
    if len(found) < 2:
        return found[0] if found else None
    return work(walls.together, name, **{f"factor_{number}": each for number, each in enumerate(found, 1)})
