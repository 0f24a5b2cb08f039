"""The methods to deal with a textured ceiling, each as a full plan of work."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from estimating.estimate.pricing.plan import Finding, Phase, Plan, Suitability, Supply, Task
from estimating.estimate.whatif.value_of_testing import FurtherTests
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.job.model import Job
from estimating.scopes.kinds.textured_ceiling import suitability
from estimating.scopes.kinds.textured_ceiling.facts import Ceiling
from estimating.scopes.kinds.textured_ceiling.notes import TexturedCeiling
from estimating.scopes.shared import coat, drying, mud, prep, prime, protection, solvent, trim
from estimating.scopes.shared.client_surfaces import on_one_surface
from estimating.scopes.shared.coat import Coating
from estimating.scopes.shared.exposure import solvent_borne
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.prime import Layer
from estimating.scopes.shared.products import DRYWALL_PRIMER
from estimating.scopes.shared.standing import declined
from estimating.scopes.shared.surface import Surface
from estimating.scopes.shared.work_area import WorkArea, drop_zero_hours, with_crew_note, with_dry_time

STOP_RULE = (
    "First strip of 10 square feet: crumbs on the nap or the masking, any piece over an inch down, or softening under "
    "a light fingertip after a minute: stop. Let it dry, photograph, tell the client, and go over to the sprayer or to "
    "the next method already priced here. Bind the edges with the {primer} primer before a small repair; matching an "
    "old texture over a large area shows and is to be avoided. Never chase falling texture with more wet paint."
)
SEALED_ROOM = "not before the room is sealed and the floor under plastic; mist a strip, let it soak, scrape, bag it wet"
SMOOTH_INSTEAD = "ends in a smooth ceiling, not the textured one asked for: offered, never chosen for the client"
AIRED = "no spraying of solvent-borne products indoors; ignition sources off and locked, air moving out"


def plans(item: TexturedCeiling, job: Job, basis: Basis) -> tuple[Plan, ...]:
    """Return one plan for every method of dealing with the ceiling."""
    ceiling = Ceiling(item, WorkArea.of(item, job, basis))
    return tuple(on_one_surface(method(ceiling), "ceiling") for method in METHODS.values())


def tests(item: TexturedCeiling, job: Job, basis: Basis) -> FurtherTests:
    """Return what may still be tested before the method is chosen."""
    return Ceiling(item, WorkArea.of(item, job, basis)).release.further_tests()


def decision_figure(plan: Plan) -> Figure | None:
    """Return the figure on which the choice between methods turns: the chance that the texture is weak."""
    chances = [risk.chance for risk in plan.risks if risk.key == "texture_release"]
    return dict(chances[0].inputs)["weak"] if chances else None


def scope_name(ceiling: Ceiling) -> str:
    """Return what the work is called in reports."""
    return f"ceiling, {ceiling.item.room}"


def roll(ceiling: Ceiling) -> Plan:
    """Roll a water-borne flat straight on."""
    return _coated(ceiling, "roll", "Roll, water-borne", sprayed=False, sealed=False)


def spray(ceiling: Ceiling) -> Plan:
    """Spray a water-borne flat in light crossed passes."""
    return _coated(ceiling, "spray", "Spray, water-borne", sprayed=True, sealed=False)


def seal_roll(ceiling: Ceiling) -> Plan:
    """Seal with a primer, solvent-borne where that is safe, then roll."""
    primer = solvent.primer_word(ceiling.work_area.job.site)
    return _coated(ceiling, "seal_roll", f"Seal with {primer} primer, then roll", sprayed=False, sealed=True)


def seal_spray(ceiling: Ceiling) -> Plan:
    """Seal with a primer by roller, solvent-borne where that is safe, then spray the finish."""
    primer = solvent.primer_word(ceiling.work_area.job.site)
    return _coated(ceiling, "seal_spray", f"Seal with {primer} primer, then spray", sprayed=True, sealed=True)


def scrape(ceiling: Ceiling) -> Plan:
    """Take the texture off wet in a sealed room, skim, prime and roll a smooth ceiling."""
    area = ceiling.at_work
    scraped = ("scrape", "Wet and scrape the texture off", Phase.REMOVE, ceiling.area, "scrape_ceiling", "hand", "wet")
    wetted = with_crew_note(area.by_area(*scraped), SEALED_ROOM)
    off = with_dry_time(wetted, drying.scraped_dry(area), "scraped board to dry")
    first = (off, *mud.skim(area, ceiling.area))
    return _made_smooth(ceiling, "scrape", "Scrape, skim and paint smooth", first, *mud.for_skim(area, ceiling.area))


def overlay(ceiling: Ceiling) -> Plan:
    """Cover the texture with thin board, finish the joints, prime and roll."""
    area = ceiling.at_work
    first = tuple(mud.board(area, ceiling.area))
    bought = mud.for_board(area, ceiling.area)
    return _made_smooth(ceiling, "overlay", "Cover with board and paint smooth", first, *bought)


def decline(ceiling: Ceiling) -> Plan:
    """Leave it alone and say so."""
    return declined(
        ceiling.work_area,
        suitability.exposure(ceiling, "decline"),
        scope=scope_name(ceiling),
        verb="coat it",
        asked_of_client="keep the ceiling as it is, or have it taken down by a firm licensed for what it holds",
        last_resort="no method of coating it is OK here",
    )


METHODS: Mapping[str, Callable[[Ceiling], Plan]] = MappingProxyType(
    {
        "roll": roll,
        "spray": spray,
        "seal_roll": seal_roll,
        "seal_spray": seal_spray,
        "scrape": scrape,
        "overlay": overlay,
        "decline": decline,
    }
)


def _coated(ceiling: Ceiling, method: str, title: str, *, sprayed: bool, sealed: bool) -> Plan:
    area = ceiling.work_area
    coating = ceiling.coatings[coat.PASS_BY_PASS if sprayed else coat.ROLLER, sealed]
    under = _seal(ceiling) if sealed else _stains(ceiling, ceiling.surface)
    finish = coat.finish([coating], ceiling.dries)
    trims, enamel = _light_trims(ceiling)
    tasks = [
        *_protect(ceiling, messy=sprayed),
        prep.dust_ceiling(ceiling.at_work, ceiling.area, popcorn=True),
        *protection.tools(area, sprayed=sprayed),
        *under.tasks,
        *finish.tasks,
        *trims,
        *_unprotect(ceiling, messy=sprayed),
    ]
    plan = Plan(
        scope=scope_name(ceiling),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=(*under.paint, *finish.paint, *enamel),
        supplies=(
            *ceiling.masked[sprayed].supplies,
            *_sundries(area, tips=coating.tips if sprayed else 0, sealed=sealed),
        ),
        charges=(protection.sprayer_by_the_day(area),) if sprayed else (),
        risks=(ceiling.release.risk(method),),
        findings=(*suitability.findings(ceiling, method), *(_out_of_reach(coating) if sprayed else ())),
        client_requirements=suitability.client_requirements(ceiling, method),
        notes=(*suitability.notes(ceiling, sprayed=sprayed, sealed=sealed), *(_sprayed_so(coating) if sprayed else ())),
        stop_rule=STOP_RULE.format(primer=solvent.primer_word(area.job.site)),
        figures=(*coating.spraying(1).figures, coating.marks_settle, coating.mist_settles) if sprayed else (),
        finishes=not ceiling.smooth_wanted,
    )
    return with_hazards(plan, area, suitability.exposure(ceiling, method))


def _sprayed_so(coating: Coating) -> Iterator[str]:
    """Yield why it is sprayed with this set-up, and what each of the two times to settle governs."""
    yield f"set-ups compared for the first coat: {coating.spraying(1).compared}"
    yield coating.settling


def _out_of_reach(coating: Coating) -> Iterator[Finding]:
    """Yield what stands against spraying the first coat on what is there."""
    for problem in coating.passes["first"].problems:
        yield Finding(Suitability.CLOSED, problem)


def _made_smooth(ceiling: Ceiling, method: str, title: str, first: Sequence[Task], *bought: Supply) -> Plan:
    """Return a plan that gets rid of the texture. Mud and dust want the room draped as mist does."""
    area, at_work = ceiling.work_area, ceiling.at_work
    primer = prime.all_over(at_work, ceiling.smooth, DRYWALL_PRIMER, "Prime", "priming the bare ceiling")
    primed = prime.dried(primer, ceiling.dries)
    finish = coat.finish([Coating(at_work, ceiling.smooth, coat.ROLLER, primed=True)], ceiling.dries)
    trims, enamel = _light_trims(ceiling)
    stained = _stains(ceiling, ceiling.smooth)
    covered = method == "overlay"  # what bled is sealed before board hides it; on a skimmed ceiling, once it is sanded
    tasks = [
        *_protect(ceiling, messy=True),
        *(replace(task, phase=Phase.PREPARE) for task in stained.tasks if covered),
        *first,
        *(task for task in stained.tasks if not covered),
        *primed.tasks,
        *finish.tasks,
        *trims,
        *_unprotect(ceiling, messy=True),
        *protection.tools(area, sprayed=False),
    ]
    plan = Plan(
        scope=scope_name(ceiling),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=(*stained.paint, *primed.paint, *finish.paint, *enamel),
        supplies=(*ceiling.masked[True].supplies, *_sundries(area, tips=0, sealed=False), *bought),
        charges=(area.once("disposal", "Bags and dump fee"),),
        findings=suitability.findings(ceiling, method),
        notes=(
            "the texture is gone: there is nothing left to release",
            *(() if ceiling.smooth_wanted else (SMOOTH_INSTEAD,)),
        ),
        finishes=ceiling.smooth_wanted,
    )
    return with_hazards(plan, area, suitability.exposure(ceiling, method))


def _protect(ceiling: Ceiling, *, messy: bool) -> Iterator[Task]:
    area = ceiling.work_area
    yield from protection.move_furniture(area)
    yield protection.cover_floor(area)
    yield from ceiling.masked[messy].tasks
    yield from protection.cover_fixtures(area)


def _unprotect(ceiling: Ceiling, *, messy: bool) -> Iterator[Task]:
    yield ceiling.masked[messy].stripped
    yield protection.uncover_floor(ceiling.work_area, Phase.UNMASK)
    yield from protection.uncover_fixtures(ceiling.work_area, Phase.UNMASK)


def _light_trims(ceiling: Ceiling) -> Layer:
    where = f"{ceiling.where} · trims_to_coat"
    return Layer(*trim.coat_light_trims(ceiling.work_area, ceiling.item.trims_to_coat or 0, where))


def _seal(ceiling: Ceiling) -> Layer:
    area = ceiling.at_work
    sealer = solvent.stain_primer(area.job.site)
    titled = ("Seal, one light coat by roller", "sealing the ceiling")
    (task,), paint = prime.all_over(area, ceiling.surface, sealer, *titled)
    if not solvent_borne(sealer, area.basis):
        return Layer([with_dry_time(task, ceiling.dries(sealer), "sealer to dry")], paint)
    aired = area.basis.figure("coatings", sealer, "airing")
    return Layer([with_dry_time(with_crew_note(task, AIRED), aired, "sealer to dry and the room to air")], paint)


def _stains(ceiling: Ceiling, surface: Surface) -> Layer:
    where = f"{ceiling.where} · stains"
    sealer = solvent.stain_primer(ceiling.work_area.job.site)
    like = {"texture": surface.texture, "porosity": surface.porosity}
    noted = ceiling.item.stains or ()
    sealed = prime.stains(ceiling.work_area, noted, sealer, where, whole=ceiling.area, **like)
    return prime.dried(sealed, ceiling.dries, "stain sealer to dry")


def _sundries(area: WorkArea, *, tips: int, sealed: bool) -> Iterator[Supply]:
    """Yield the small things a ceiling uses up; rags, tips and respirators serve the whole job."""
    yield area.bought("rags", "box", "Rags, a box", 1.0, "one box a job", once=protection.THE_JOB)
    if tips:
        yield from protection.against_mist(area, tips=tips, once=protection.THE_JOB)
    if sealed or not tips:
        why = "one a coat; the one for the sealer is thrown away"
        yield area.bought("roller_cover", "each", "Roller covers", 1.0 if tips else 2.0, why)
