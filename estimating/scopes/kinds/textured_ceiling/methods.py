"""The ways to deal with a textured ceiling, each as a full plan of work."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from estimating.estimate.pricing.plan import Charge, Finding, Material, Phase, Plan, Suitability, Task
from estimating.figures import Figure, leaf
from estimating.origins import Kind, Origin
from estimating.scopes.kinds.textured_ceiling import protection, smooth, spray, suitability
from estimating.scopes.kinds.textured_ceiling.facts import FINISH, Ceiling
from estimating.scopes.kinds.textured_ceiling.paint import coat_paint, left_in, scope_name, sundries
from estimating.scopes.kinds.textured_ceiling.release import release_risk
from estimating.scopes.kinds.textured_ceiling.trims import coat_trims
from estimating.scopes.shared import protection as room_cover
from estimating.scopes.shared import solvent
from estimating.scopes.shared.drying import drying
from estimating.scopes.shared.hazards import with_hazards
from estimating.scopes.shared.work_area import drop_zero_hours, with_crew_note, with_dry_time

STOP_RULE = (
    "First strip of 10 square feet: crumbs on the nap or the masking, any piece over an inch down, or softening under "
    "a light fingertip after a minute: stop. Let it dry, photograph, tell the client, and change to the next way "
    "already priced here. Never chase falling texture with more wet paint."
)


def roll(ceiling: Ceiling) -> Plan:
    """Roll a water-borne flat straight on."""
    return _coated(ceiling, "roll", "Roll, water-borne", sprayed=False, sealed=False)


def airless(ceiling: Ceiling) -> Plan:
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


def decline(ceiling: Ceiling) -> Plan:
    """Leave it alone and say so."""
    plan = Plan(
        scope=scope_name(ceiling),
        method="decline",
        title="Decline to coat it",
        client_requirements=("keep the ceiling as it is, or have it taken down by a firm licensed for what it holds",),
        notes=("the honest last resort where no way of coating may be used here",),
        finishes=False,
    )
    return with_hazards(plan, ceiling.work_area, suitability.exposure(ceiling, "decline"))


WAYS: Mapping[str, Callable[[Ceiling], Plan]] = MappingProxyType(
    {
        "roll": roll,
        "spray": airless,
        "seal_roll": seal_roll,
        "seal_spray": seal_spray,
        "scrape": smooth.scrape,
        "overlay": smooth.overlay,
        "decline": decline,
    }
)


def _coated(ceiling: Ceiling, method: str, title: str, *, sprayed: bool, sealed: bool) -> Plan:
    coats, materials, figures = _finish(ceiling, sprayed, sealed)
    seal = _seal(ceiling) if sealed else []
    stains = [] if sealed else _stain_spots(ceiling)
    trims, enamel = coat_trims(ceiling)
    problems = spray.problems(ceiling, FINISH) if sprayed else ()
    tasks = [
        *protection.protect(ceiling, sprayed),
        *_dust(ceiling),
        *room_cover.tools(ceiling.work_area, sprayed=sprayed),
        *(task for task, _ in seal),
        *(task for task, _ in stains),
        *coats,
        *trims,
        *protection.unprotect(ceiling, sprayed),
    ]
    plan = Plan(
        scope=scope_name(ceiling),
        method=method,
        title=title,
        tasks=drop_zero_hours(tasks),
        materials=(*(each for _, each in seal), *(each for _, each in stains), *materials, *enamel),
        supplies=(*protection.masking_supplies(ceiling, sprayed), *sundries(ceiling, sprayed=sprayed, sealed=sealed)),
        charges=_charges(ceiling, sprayed),
        risks=(release_risk(ceiling, method),),
        findings=(*suitability.findings(ceiling, method), *(Finding(Suitability.CLOSED, each) for each in problems)),
        client_requirements=suitability.client_requirements(ceiling, method),
        notes=suitability.notes(ceiling, sprayed=sprayed, sealed=sealed),
        stop_rule=STOP_RULE,
        figures=figures,
    )
    return with_hazards(plan, ceiling.work_area, suitability.exposure(ceiling, method))


def _dust(ceiling: Ceiling) -> list[Task]:
    work_area = ceiling.work_area.slowed(ceiling.work_area.crew_factor(), ceiling.work_area.height_factor())
    return [
        work_area.by_area(
            "dust",
            "Vacuum the ceiling with a soft brush",
            Phase.PREPARE,
            ceiling.area,
            "dust_ceiling",
            "vacuum",
            "popcorn",
        )
    ]


def _finish(ceiling: Ceiling, sprayed: bool, sealed: bool) -> tuple[list[Task], list[Material], tuple[Figure, ...]]:
    tasks: list[Task] = []
    materials: list[Material] = []
    figures: tuple[Figure, ...] = ()
    for number in range(1, ceiling.coats() + 1):
        coat = "first" if number == 1 and not sealed else "later"
        porosity = "sealed" if sealed else ceiling.porosity
        if sprayed:
            done, set_up, found = _sprayed_coat(ceiling, number, coat)
            method, situation = set_up.method, "masked_interior"
            figures = figures or found
        else:
            done, (method, situation) = _rolled_coat(ceiling, number, sealed), ("roll", "interior")
        if number < ceiling.coats():
            done[-1] = with_dry_time(
                done[-1], drying(ceiling.work_area, FINISH), f"coat {number} to dry before the next"
            )
        elif sprayed:
            done[-1] = with_dry_time(done[-1], figures[-1], "mist to settle before unmasking")
        tasks += done
        spread = ceiling.work_area.spread(FINISH, ceiling.surface, porosity, coat, method, situation)
        materials.append(coat_paint(ceiling, FINISH, ceiling.area, spread, f"coat {number} of the ceiling"))
    materials.append(left_in(ceiling, sprayed))
    return tasks, materials, figures


def _rolled_coat(ceiling: Ceiling, number: int, sealed: bool) -> list[Task]:
    work_area = ceiling.work_area.slowed(ceiling.work_area.crew_factor(), ceiling.work_area.height_factor())
    nap = work_area.basis.figure("naps", ceiling.nap_class, "nap")
    edge = "popcorn" if ceiling.grade == "popcorn" else "sealed" if sealed or number > 1 else "suction"
    cut = work_area.by_length(
        f"cut_in_{number}", f"Cut in, coat {number}", Phase.CEILING, ceiling.edge, "cut_in", "brush", edge
    )
    rolled = work_area.by_area(
        f"roll_{number}", f"Roll, coat {number}", Phase.CEILING, ceiling.area, "roll_ceiling", "roll", ceiling.grade
    )
    return [
        with_crew_note(
            cut, "keep it narrow; let a wet band dry before the roller reaches it" if number == 1 and not sealed else ""
        ),
        with_crew_note(rolled, f"nap about {nap.value:g} in; one direction, no going back over a wet patch"),
    ]


def _sprayed_coat(ceiling: Ceiling, number: int, coat: str) -> tuple[list[Task], spray.SetUp, tuple[Figure, ...]]:
    set_up = spray.chosen(ceiling, FINISH, coat)
    hours, figures = spray.gun_hours(ceiling, set_up, FINISH, coat)
    work_area = ceiling.work_area.slowed(ceiling.work_area.crew_factor(), ceiling.work_area.height_factor())
    share = work_area.basis.figure("production", "spray_lap", "airless", "any")
    plan = set_up.plan
    detail = (
        f"tip {set_up.tip}, {set_up.setting} pressure, {plan.fan:.0f} in fan, strokes {plan.spacing:.0f} in apart, "
        f"{plan.passes} crossed passes at {plan.arm_speed:.1f} ft/s"
    )
    task = with_crew_note(
        work_area.task(f"spray_{number}", f"Spray, coat {number}", Phase.CEILING, hours, share), detail
    )
    droplets = "fine" if set_up.setting == "usual" else "reduced_fine"
    return [task], set_up, (*figures, room_cover.mist_settles(ceiling.work_area, FINISH, droplets))


def _seal(ceiling: Ceiling) -> list[tuple[Task, Material]]:
    work_area = ceiling.work_area.slowed(ceiling.work_area.crew_factor(), ceiling.work_area.height_factor())
    sealer = solvent.stain_primer(work_area.job.site)
    spread = work_area.spread(sealer, ceiling.surface, ceiling.porosity, "first", "roll", "interior")
    row = ("roll_ceiling", "roll", ceiling.grade)
    task = work_area.by_area("seal", "Seal, one light coat by roller", Phase.PRIME, ceiling.area, *row)
    paint = coat_paint(ceiling, sealer, ceiling.area, spread, "sealing the ceiling")
    if sealer == solvent.WATER_PRIMER:
        return [(with_dry_time(task, drying(work_area, sealer), "sealer to dry"), paint)]
    care = "no spraying of solvent-borne products indoors; ignition sources off and locked, air moving out"
    aired = work_area.basis.figure("coatings", sealer, "airing")
    return [(with_dry_time(with_crew_note(task, care), aired, "sealer to dry and the room to air"), paint)]


def _stain_spots(ceiling: Ceiling) -> list[tuple[Task, Material]]:
    square_feet = sum(stain.square_feet for stain in ceiling.item.stains or ())
    if not square_feet:
        return []
    origin = Origin(Kind.MEASURED, place=f'work "{ceiling.item.room}" · stains')
    area = leaf("stained", float(square_feet), "ft**2", origin, key=f'work "{ceiling.item.room}" · stains')
    sealer = solvent.stain_primer(ceiling.work_area.job.site)
    spread = ceiling.work_area.spread(sealer, ceiling.surface, ceiling.porosity, "first", "brush", "interior")
    task = ceiling.work_area.by_area("stain_spots", "Seal the stains", Phase.PRIME, area, "stain_spot", "brush", "any")
    return [
        (
            with_dry_time(task, drying(ceiling.work_area, sealer), "stain sealer to dry"),
            coat_paint(ceiling, sealer, area, spread, "sealing stains"),
        )
    ]


def _charges(ceiling: Ceiling, sprayed: bool) -> tuple[Charge, ...]:
    return (
        (ceiling.work_area.by_day("equipment_sprayer", "Sprayer, hose and gun, a day", "sprayer"),) if sprayed else ()
    )
