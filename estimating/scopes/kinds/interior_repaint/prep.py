"""Getting surfaces ready: things taken down, washing, mending, sanding and caulk."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, leaf, total
from estimating.job.surfaces import Condition, SurfaceNotes, Washing
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.interior_repaint import repairs
from estimating.scopes.kinds.interior_repaint.facts import GLOSSY, Repaint
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, with_crew_note, with_dry_time
from estimating.takeoff import counted

TAKEN_DOWN = {"plates": "plates", "blinds": "blinds", "pictures": "wall_art"}
WET = "damp sanding or a sander with a vacuum; no dry sweeping"


@lru_cache(maxsize=8)  # the same whatever the room is painted with
def prepare(repaint: Repaint) -> tuple[Task, ...]:
    """Return everything before the first primer, in order."""
    return (
        *_taken_down(repaint),
        *_wash(repaint),
        *_mend(repaint),
        *_scuff(repaint),
        *_scuff_trim(repaint),
        *_caulk(repaint),
    )


def _taken_down(repaint: Repaint) -> list[Task]:
    work_area, removals = repaint.worked(), repaint.item.removals
    where = f'work "{repaint.item.room}" · removals'
    return [
        work_area.by_count(
            field,
            f"Take down and put back {field}",
            Phase.PREPARE,
            counted(getattr(removals, field) or 0, field, f"{where} · {field}"),
            row,
            "hand",
            "any",
        )
        for field, row in TAKEN_DOWN.items()
    ]


def _at_the_state_of(surface: SurfaceNotes, repaint: Repaint) -> WorkArea:
    """Return the work area slowed by what the old paint is like; it counts on preparation only."""
    if surface.condition in (None, Condition.SOUND):
        return repaint.worked()
    state = str(surface.condition)
    return repaint.worked(repaint.work_area.basis.figure("factors", "prep", state))


def wall_area(repaint: Repaint) -> Figure | None:
    """Return all wall that is painted, accent walls too (ft²); None where none is."""
    if repaint.walls is None:
        return None
    accents = [each.area for each in repaint.accents]
    return total("all walls to paint", [repaint.walls.area, *accents], unit="ft**2") if accents else repaint.walls.area


def _plain(repaint: Repaint) -> list[tuple[str, SurfaceNotes, Figure]]:
    """Return the ceiling and the walls, as far as they are painted, with their areas."""
    item = repaint.item
    areas = {"ceiling": repaint.ceiling.area if repaint.ceiling else None, "walls": wall_area(repaint)}
    surfaces: dict[str, SurfaceNotes] = {"ceiling": item.ceiling, "walls": item.walls}
    return [(name, surfaces[name], area) for name, area in areas.items() if area is not None]


def _wash(repaint: Repaint) -> list[Task]:
    rows = {("ceiling", Washing.ORDINARY_DIRT): "wash_ceiling", ("walls", Washing.ORDINARY_DIRT): "wash_wall"}
    tasks = [
        repaint.worked().by_area(
            f"wash_{name}",
            f"Wash the {name}",
            Phase.PREPARE,
            area,
            rows.get((name, surface.washing), "degrease_wall"),
            "hand",
            "any",
        )
        for name, surface, area in _plain(repaint)
        if surface.washing not in (None, Washing.CLEAN)
    ]
    if repaint.trim is not None and repaint.item.trim.washing not in (None, Washing.CLEAN):
        row = ("wash_trim", "hand", "any")
        tasks.append(repaint.worked().by_length("wash_trim", "Wash the trim", Phase.PREPARE, repaint.trim.line, *row))
    return tasks


def _mend(repaint: Repaint) -> list[Task]:
    where = f'work "{repaint.item.room}" · repairs'
    tasks = list(drop_zero_hours(repairs.mend(repaint.item.repairs, repaint.worked(), where)))
    if tasks and repairs.dries_overnight(repaint.item.repairs):
        dry = repaint.work_area.basis.figure("production", "dry", "joint_compound", "any")
        tasks[-1] = with_dry_time(tasks[-1], dry, "joint compound to dry")
    return tasks


def _scuff(repaint: Repaint) -> list[Task]:
    tasks = []
    for name, surface, area in _plain(repaint):
        work_area = _at_the_state_of(surface, repaint)
        row = "degloss" if surface.sheen_now in GLOSSY else "sand_wall"
        if _is_sanded(name, surface):
            sand = work_area.by_area(f"sand_{name}", f"Scuff the {name}", Phase.PREPARE, area, row, "hand", "any")
            tasks.append(with_crew_note(sand, WET))
        dust = ("dust_down", "hand", "any") if name == "walls" else ("dust_ceiling", "vacuum", "any")
        tasks.append(repaint.worked().by_area(f"dust_{name}", f"Dust the {name}", Phase.PREPARE, area, *dust))
    return tasks


def scuffed(repaint: Repaint) -> Figure:
    """Return how much old paint is sanded, scuffed or cut open (ft²); mended spots lie in what is sanded anyway."""
    sanded = [area for name, surface, area in _plain(repaint) if _is_sanded(name, surface)]
    sanded += [repaint.trim.area] if repaint.trim is not None else []
    return total("old paint disturbed", sanded or [repaint.disturbed], unit="ft**2")


def _is_sanded(name: str, surface: SurfaceNotes) -> bool:
    return name == "walls" or surface.condition not in (None, Condition.SOUND)


def _scuff_trim(repaint: Repaint) -> list[Task]:
    if repaint.trim is None:
        return []
    work_area = _at_the_state_of(repaint.item.trim, repaint)
    faces = total(
        "doors, frames and windows", [each.area for each in repaint.trim.members if not each.by_length], unit="ft**2"
    )
    run = ("sand_trim", "Scuff the trim", Phase.PREPARE, repaint.trim.line, "sand_trim", "hand", "any")
    face = ("scuff_doors", "Scuff doors, frames and windows", Phase.PREPARE, faces, "degloss", "hand", "any")
    return [with_crew_note(work_area.by_length(*run), WET), with_crew_note(work_area.by_area(*face), WET)]


def caulk_run(repaint: Repaint) -> Figure:
    """Return the joints to caulk (ft); none noted is none planned for."""
    where = f'work "{repaint.item.room}" · caulk_feet'
    feet = float(repaint.item.caulk_feet or 0)
    return leaf("joints to caulk", feet, "ft", Origin(Kind.MEASURED, place=where), key=where)


def _caulk(repaint: Repaint) -> list[Task]:
    row = ("caulk", "hand", "any")
    return [repaint.worked().by_length("caulk", "Caulk open joints", Phase.PREPARE, caulk_run(repaint), *row)]


def supplies(repaint: Repaint) -> Sequence[Supply]:
    """Return caulk by the tube, and compound and paper that one job needs once."""
    work_area, run = repaint.work_area, caulk_run(repaint)
    found = []
    if run.value:
        tube = work_area.basis.figure("members", "caulk_tube", "run")
        found.append(work_area.supply("caulk", "Caulk", run, tube, "tube"))
    if repaint.disturbed.value:
        found.append(
            work_area.bought("joint_compound", "bucket", "Joint compound", 1.0, "one bucket a job", once="the job")
        )
    found.append(work_area.bought("sandpaper", "pack", "Sandpaper", 1.0, "one pack a job", once="the job"))
    found.append(work_area.bought("rags", "box", "Rags, a box", 1.0, "one box a job", once="the job"))
    return found
