"""Texture, joint compound and plaster that may hold asbestos: when, and what may then be touched."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Charge, Phase, Task
from estimating.evidence import Basis
from estimating.figures import Figure, leaf, work
from estimating.job.site import Site, TestResult
from estimating.origins import Kind, Origin
from estimating.scopes.shared.exposure import Facts
from estimating.scopes.shared.work_area import with_crew_note, with_dry_time, with_share_key
from estimating.trade import sampling, walls

TOUCHED = Origin(Kind.DEFINITION, place="the kinds of suspect material that the plan touches")


def asbestos_open(site: Site, basis: Basis) -> bool:
    """Say whether such material may hold asbestos for all anybody has shown: of age or unknown age, and not cleared."""
    if site.asbestos_test is TestResult.POSITIVE:
        return True
    last_year = basis.library.row("cautions", "asbestos_texture").likely
    old = site.year_built is None or site.year_built <= last_year
    return old and site.asbestos_test is not TestResult.NEGATIVE


def suspect(facts: Facts) -> bool:
    """Say whether material that may hold asbestos is where a plan works."""
    return bool(facts.exposure.suspects) and asbestos_open(facts.work_area.job.site, facts.work_area.basis)


def found(site: Site) -> bool:
    """Say whether a laboratory found asbestos."""
    return site.asbestos_test is TestResult.POSITIVE


def named(facts: Facts) -> str:
    """Return the suspect materials in words."""
    return " and ".join(facts.exposure.suspects)


def sampled_first(facts: Facts) -> bool:
    """Say whether a plan begins with samples: it touches suspect material that nobody has tested."""
    return facts.exposure.worked and suspect(facts) and not found(facts.work_area.job.site)


def samples(facts: Facts) -> Figure:
    """Return how many samples are taken of each material, as its area asks."""
    area = facts.exposure.suspect_area or facts.work_area.room.ceiling
    return work(sampling.bulk_samples, "samples of one material", area=area)


def sampling_task(facts: Facts) -> Task:
    """Return taking the samples, and the wait for the laboratory before anything else is done in the room."""
    area, what = facts.work_area, named(facts)
    title = f"Have samples of {what} taken"
    materials = leaf("suspect materials", float(len(facts.exposure.suspects)), "dimensionless", TOUCHED)
    count = work(walls.several, "bulk samples", each=samples(facts), count=materials)
    task = area.by_count("bulk_sample", title, Phase.TEST, count, "bulk_sample", "hand", "any")
    care = "wetted, bagged and sealed by somebody trained or accredited for it; nothing else in the room is touched"
    wait = area.basis.figure("production", "wait", "laboratory", "any")
    once = with_share_key(with_crew_note(task, care), f"samples of {what}, {task.room}")
    return with_dry_time(once, wait, "the laboratory to answer: a negative result, or the work stops here")


def laboratory_charges(facts: Facts) -> tuple[Charge, ...]:
    """Return what the laboratory is paid for each material: once in a job, as one house is one batch of it."""
    price = facts.work_area.basis.figure("prices", "asbestos_sample", "each")
    title = "Laboratory, samples of {}, for asbestos"
    return tuple(
        Charge("asbestos_sample", title.format(each), samples(facts), price, share_key=f"samples of {each}")
        for each in facts.exposure.suspects
    )
