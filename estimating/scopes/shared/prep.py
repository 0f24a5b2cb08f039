"""Getting surfaces ready: things taken down, dust, washing, scuffing, filling, sizing and caulk."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.estimate.pricing.plan import Phase, Supply, Task
from estimating.figures import Figure, leaf, total, work
from estimating.job.repairs import Removals
from estimating.job.surfaces import Condition, Stain, StainKind, SurfaceNotes, Washing
from estimating.origins import Kind, Origin
from estimating.scopes.shared.drying import washed_dry
from estimating.scopes.shared.protection import THE_JOB
from estimating.scopes.shared.repairs import compound_dries
from estimating.scopes.shared.surface import GLOSSY
from estimating.scopes.shared.trim import Member
from estimating.scopes.shared.work_area import WorkArea, with_crew_note, with_dry_time
from estimating.takeoff import counted
from estimating.trade import labor

TAKEN_DOWN = {"plates": "plates", "blinds": "blinds", "pictures": "wall_art"}
KILLS_MILDEW = (
    "one part of household bleach to three of water, never stronger and never with acid or ammonia; goggles, gloves, "
    "windows open; paint holds only where the damp behind it is cured"
)
WET = "damp sanding or a sander with a vacuum; no dry sweeping"


def by_hand(work_area: WorkArea, key: str, title: str, area: Figure, row: str, tool: str = "hand") -> Task:
    """Return a task of preparation that goes over an area."""
    return work_area.by_area(key, title, Phase.PREPARE, area, row, tool, "any")


def take_down(removals: Removals, work_area: WorkArea, where: str) -> list[Task]:
    """Return taking plates, blinds and pictures down and putting them back."""
    tasks = []
    for field, row in TAKEN_DOWN.items():
        count = counted(getattr(removals, field) or 0, field, f"{where} · {field}")
        title = f"Take down and put back {field}"
        tasks.append(work_area.by_count(field, title, Phase.PREPARE, count, row, "hand", "any"))
    return tasks


def wanted(washing: Washing | None) -> bool:
    """Say whether a surface is washed; without an answer it is not."""
    return washing not in (None, Washing.CLEAN)


def wash(work_area: WorkArea, name: str, area: Figure, washing: Washing | None, *, overhead: bool = False) -> Task:
    """Return washing a surface: off ordinary dirt, or off grease."""
    plain = "wash_ceiling" if overhead else "wash_wall"
    row = plain if washing is Washing.ORDINARY_DIRT else "degrease_wall"
    return by_hand(work_area, f"wash_{name}", f"Wash the {name}", area, row)


def kill_mildew(work_area: WorkArea, noted: Sequence[Stain], where: str) -> list[Task]:
    """Return killing mildew on stained patches and rinsing it off; sealing them comes after, as with other stains."""
    square_feet = sum(stain.square_feet for stain in noted if stain.kind is StainKind.MILDEW)
    area = leaf("mildew", float(square_feet), "ft**2", Origin(Kind.MEASURED, place=where), key=where)
    task = by_hand(work_area, "wash_mildew", "Kill the mildew, let it act, rinse it off", area, "wash_mildew")
    return [with_crew_note(task, KILLS_MILDEW)] if square_feet else []


def wash_trim(work_area: WorkArea, run: Figure) -> Task:
    """Return washing trim by its length (ft)."""
    return work_area.by_length("wash_trim", "Wash the trim", Phase.PREPARE, run, "wash_trim", "hand", "any")


def dried(work_area: WorkArea, washed: Sequence[Task]) -> list[Task]:
    """Return washing with the wait after all of it until what was washed is dry."""
    return [
        *washed[:-1],
        *(with_dry_time(each, washed_dry(work_area), "what was washed to dry") for each in washed[-1:]),
    ]


def at_the_state(work_area: WorkArea, condition: Condition | None) -> WorkArea:
    """Return the work area slowed by worn paint, on preparation only; what holds beside loose paint is worn too."""
    if condition in (None, Condition.SOUND):
        return work_area
    return work_area.slowed(work_area.basis.figure("factors", "prep", str(Condition.WORN)))


def scuff(work_area: WorkArea, name: str, area: Figure, notes: SurfaceNotes) -> Task:
    """Return scuffing a surface, or dulling it where it shines, at the pace its state allows."""
    slowed = at_the_state(work_area, notes.condition)
    plain = "sand_ceiling" if name == "ceiling" else "sand_wall"
    row = "degloss" if notes.sheen_now in GLOSSY else plain
    return with_crew_note(by_hand(slowed, f"sand_{name}", f"Scuff the {name}", area, row), WET)


def scuff_members(
    work_area: WorkArea, members: Sequence[Member], run: Figure, condition: Condition | None
) -> list[Task]:
    """Return scuffing trim by its length (ft), and doors, frames and windows by their faces."""
    slowed = at_the_state(work_area, condition)
    faces = total("doors, frames and windows", [each.area for each in members if not each.by_length], unit="ft**2")
    along = slowed.by_length("sand_trim", "Scuff the trim", Phase.PREPARE, run, "sand_trim", "hand", "any")
    across = by_hand(slowed, "scuff_doors", "Scuff doors, frames and windows", faces, "degloss")
    return [with_crew_note(along, WET), with_crew_note(across, WET)]


def dust_wall(work_area: WorkArea, name: str, area: Figure) -> Task:
    """Return dusting walls down."""
    return by_hand(work_area, f"dust_{name}", f"Dust the {name}", area, "dust_down")


def dust_ceiling(work_area: WorkArea, area: Figure, *, popcorn: bool = False) -> Task:
    """Return dusting a ceiling with a vacuum and a soft brush."""
    row = ("dust_ceiling", "vacuum", "popcorn" if popcorn else "any")
    title = "Vacuum the ceiling with a soft brush"
    return work_area.by_area("dust_ceiling", title, Phase.PREPARE, area, *row)


def skim_wall(work_area: WorkArea, area: Figure, rate: Figure) -> Task:
    """Return skimming a rough wall at a rate and sanding it smooth."""
    hours = work(labor.hours_by_area, "skimming", area=area, rate=rate)
    titled = ("skim", "Skim the wall smooth and sand it", Phase.PREPARE)
    return compound_dries(work_area, work_area.task(*titled, hours, rate))


def size(work_area: WorkArea, area: Figure, rate: Figure, dry: Figure) -> Task:
    """Return sizing walls at a rate; the size dries before paste comes on."""
    hours = work(labor.hours_by_area, "sizing", area=area, rate=rate)
    return with_dry_time(work_area.task("size", "Size the walls", Phase.PRIME, hours, rate), dry, "size to dry")


def joints(feet: float | None, where: str) -> Figure:
    """Return the joints to caulk (ft); none noted is none planned for."""
    return leaf("joints to caulk", float(feet or 0), "ft", Origin(Kind.MEASURED, place=where), key=where)


def caulk(work_area: WorkArea, run: Figure) -> Task:
    """Return caulking open joints."""
    return work_area.by_length("caulk", "Caulk open joints", Phase.PREPARE, run, "caulk", "hand", "any")


def supplies(work_area: WorkArea, *, run: Figure, mended: bool) -> list[Supply]:
    """Return caulk by the tube, and compound, paper and rags that one job needs once."""
    found = []
    if run.value:
        tube = work_area.basis.figure("members", "caulk_tube", "run")
        found.append(work_area.supply("caulk", "Caulk", run, tube, "tube"))
    bought = [("joint_compound", "bucket", "Joint compound", "one bucket a job")] if mended else []
    bought += [("sandpaper", "pack", "Sandpaper", "one pack a job"), ("rags", "box", "Rags, a box", "one box a job")]
    return found + [work_area.bought(item, by, title, 1.0, why, once=THE_JOB) for item, by, title, why in bought]
