"""The ways to deal with a textured ceiling, each as a full plan of work."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from estimating.estimate.plan import Charge, Material, Phase, Plan, Reason, Standing, Supply, Task
from estimating.figures import Figure, leaf, work
from estimating.origins import Kind, Origin
from estimating.scopes import ceiling_judgement as judged
from estimating.scopes import ceiling_protection as protection
from estimating.scopes import ceiling_spray as spray
from estimating.scopes.ceiling_facts import FINISH, Ceiling
from estimating.scopes.ceiling_release import release_risk
from estimating.scopes.piece import some, told, waiting
from estimating.trade import fixtures

SEALER = "stain_primer_solvent"
TITLES = {
    FINISH: "Ceiling flat, water-borne",
    SEALER: "Stain-sealing primer, solvent-borne",
    "trim_enamel": "Enamel for trims",
    "drywall_sealer": "Drywall primer",
}
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
    """Seal with a solvent-borne primer, then roll."""
    return _coated(ceiling, "seal_roll", "Seal with solvent-borne primer, then roll", sprayed=False, sealed=True)


def seal_spray(ceiling: Ceiling) -> Plan:
    """Seal with a solvent-borne primer by roller, then spray the finish."""
    return _coated(ceiling, "seal_spray", "Seal with solvent-borne primer, then spray", sprayed=True, sealed=True)


def scrape(ceiling: Ceiling) -> Plan:
    """Take the texture off wet, skim, prime and roll a smooth ceiling; the walls are draped against mud and dust."""
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    taken = piece.by_area(
        "scrape", "Wet and scrape the texture off", Phase.STRIP, ceiling.area, "scrape_ceiling", "hand", "wet"
    )
    skim = piece.by_area("skim", "Skim and sand smooth", Phase.PREPARE, ceiling.area, "skim_ceiling", "hand", "any")
    return _made_smooth(ceiling, "scrape", "Scrape, skim and paint smooth", [taken, skim], ())


def overlay(ceiling: Ceiling) -> Plan:
    """Cover the texture with thin board, finish the joints, prime and roll."""
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    board = piece.by_area(
        "overlay", "Fix and finish board over the texture", Phase.PREPARE, ceiling.area, "overlay_board", "hand", "any"
    )
    sheet = piece.basis.figure("masking_stock", "ceiling_board", "area", name="one sheet of board")
    boards = piece.supply("ceiling_board", "Ceiling board", ceiling.area, sheet, "each")
    return _made_smooth(ceiling, "overlay", "Cover with board and paint smooth", [board], (boards,))


def decline(ceiling: Ceiling) -> Plan:
    """Leave it alone and say so."""
    return Plan(
        scope=scope_name(ceiling),
        way="decline",
        title="Decline to coat it",
        reasons=judged.reasons(ceiling, "decline"),
        cautions=judged.cautions(ceiling, "decline"),
        asks=("keep the ceiling as it is, or have it taken down by a firm licensed for what it holds",),
        notes=("the honest last resort where no way of coating may be used here",),
        finishes=False,
    )


WAYS: Mapping[str, Callable[[Ceiling], Plan]] = MappingProxyType(
    {
        "roll": roll,
        "spray": airless,
        "seal_roll": seal_roll,
        "seal_spray": seal_spray,
        "scrape": scrape,
        "overlay": overlay,
        "decline": decline,
    }
)


def scope_name(ceiling: Ceiling) -> str:
    """Return what the piece of work is called in reports."""
    return f"ceiling, {ceiling.item.room}"


def _coated(ceiling: Ceiling, way: str, title: str, *, sprayed: bool, sealed: bool) -> Plan:
    coats, materials, figures = _finish(ceiling, sprayed, sealed)
    seal = _seal(ceiling) if sealed else []
    stains = [] if sealed else _stain_spots(ceiling)
    trims, enamel = _trims(ceiling)
    problems = spray.problems(ceiling, FINISH) if sprayed else ()
    tasks = [
        *protection.protect(ceiling, sprayed),
        *_dust(ceiling),
        *(protection.wash_up(ceiling, sprayed)),
        *(task for task, _ in seal),
        *(task for task, _ in stains),
        *coats,
        *trims,
        *protection.unprotect(ceiling, sprayed),
    ]
    return Plan(
        scope=scope_name(ceiling),
        way=way,
        title=title,
        tasks=some(tasks),
        materials=(*(each for _, each in seal), *(each for _, each in stains), *materials, *enamel),
        supplies=(*protection.masking_supplies(ceiling, sprayed), *_sundries(ceiling, sprayed, sealed)),
        charges=_charges(ceiling, sprayed),
        risks=(release_risk(ceiling, way),),
        reasons=(*judged.reasons(ceiling, way), *(Reason(Standing.CLOSED, each) for each in problems)),
        cautions=judged.cautions(ceiling, way),
        asks=judged.asks(ceiling, sprayed=sprayed, sealed=sealed),
        notes=judged.notes(ceiling, sprayed=sprayed, sealed=sealed),
        stop_rule=STOP_RULE,
        figures=figures,
    )


def _dust(ceiling: Ceiling) -> list[Task]:
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    return [
        piece.by_area(
            "dust",
            "Vacuum the ceiling with a soft brush",
            Phase.PREPARE,
            ceiling.area,
            "dust_ceiling",
            "vacuum",
            "popcorn",
        )
    ]


def _recoat(ceiling: Ceiling, product: str) -> Figure:
    return ceiling.piece.basis.figure("coatings", product, "recoat")


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
            done[-1] = waiting(done[-1], _recoat(ceiling, FINISH), f"coat {number} to dry before the next")
        elif sprayed:
            done[-1] = waiting(done[-1], figures[-1], "mist to settle before unmasking")
        tasks += done
        spread = ceiling.piece.spread(FINISH, ceiling.surface, porosity, coat, method, situation)
        materials.append(_paint(ceiling, FINISH, ceiling.area, spread, f"coat {number} of the ceiling"))
    materials.append(_left_in(ceiling, sprayed))
    return tasks, materials, figures


def _paint(ceiling: Ceiling, product: str, area: Figure, spread: Figure, purpose: str) -> Material:
    colour = ceiling.item.colour_wanted or "" if product == FINISH else ""
    return ceiling.piece.paint(product, TITLES[product], area, spread, purpose, colour)


def _left_in(ceiling: Ceiling, sprayed: bool) -> Material:
    tool = "sprayer" if sprayed else "roller"
    left = ceiling.piece.basis.figure("losses", "equipment", tool, name=f"paint left in the {tool}")
    return Material(FINISH, TITLES[FINISH], left, f"left in the {tool}", ceiling.item.colour_wanted or "")


def _rolled_coat(ceiling: Ceiling, number: int, sealed: bool) -> list[Task]:
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    nap = piece.basis.figure("naps", ceiling.nap_class, "nap", name="nap of the cover")
    edge = "popcorn" if ceiling.grade == "popcorn" else "sealed" if sealed or number > 1 else "suction"
    cut = piece.by_length(
        f"cut_in_{number}", f"Cut in, coat {number}", Phase.CEILING, ceiling.edge, "cut_in", "brush", edge
    )
    rolled = piece.by_area(
        f"roll_{number}", f"Roll, coat {number}", Phase.CEILING, ceiling.area, "roll_ceiling", "roll", ceiling.grade
    )
    return [
        told(
            cut, "keep it narrow; let a wet band dry before the roller reaches it" if number == 1 and not sealed else ""
        ),
        told(rolled, f"nap about {nap.value:g} in; one direction, no going back over a wet patch"),
    ]


def _sprayed_coat(ceiling: Ceiling, number: int, coat: str) -> tuple[list[Task], spray.SetUp, tuple[Figure, ...]]:
    set_up = spray.chosen(ceiling, FINISH, coat)
    hours, figures = spray.gun_hours(ceiling, set_up, FINISH, coat)
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    share = piece.basis.figure(
        "production", "spray_lap", "airless", "any", name="share of the time the trigger is held"
    )
    plan = set_up.plan
    detail = (
        f"tip {set_up.tip}, {set_up.setting} pressure, {plan.fan:.0f} in fan, strokes {plan.spacing:.0f} in apart, "
        f"{plan.passes} crossed passes at {plan.arm_speed:.1f} ft/s"
    )
    task = told(piece.task(f"spray_{number}", f"Spray, coat {number}", Phase.CEILING, hours, share), detail)
    return [task], set_up, (*figures, spray.settling(ceiling, set_up, FINISH))


def _seal(ceiling: Ceiling) -> list[tuple[Task, Material]]:
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    spread = piece.spread(SEALER, ceiling.surface, ceiling.porosity, "first", "roll", "interior")
    task = piece.by_area(
        "seal", "Seal, one light coat by roller", Phase.PRIME, ceiling.area, "roll_ceiling", "roll", ceiling.grade
    )
    task = told(task, "no spraying of solvent-borne products indoors; ignition sources off and locked, air moving out")
    dry = piece.basis.figure("coatings", SEALER, "airing", name="solvent vapour aired out")
    return [
        (
            waiting(task, dry, "sealer to dry and the room to air"),
            _paint(ceiling, SEALER, ceiling.area, spread, "sealing the ceiling"),
        )
    ]


def _stain_spots(ceiling: Ceiling) -> list[tuple[Task, Material]]:
    square_feet = sum(stain.square_feet for stain in ceiling.item.stains or ())
    if not square_feet:
        return []
    origin = Origin(Kind.MEASURED, place=f'work "{ceiling.item.room}" · stains')
    area = leaf("stained", float(square_feet), "ft**2", origin, key=f'work "{ceiling.item.room}" · stains')
    spread = ceiling.piece.spread(SEALER, ceiling.surface, ceiling.porosity, "first", "brush", "interior")
    task = ceiling.piece.by_area("stain_spots", "Seal the stains", Phase.PRIME, area, "stain_spot", "brush", "any")
    return [
        (
            waiting(task, _recoat(ceiling, SEALER), "stain sealer to dry"),
            _paint(ceiling, SEALER, area, spread, "sealing stains"),
        )
    ]


def _trims(ceiling: Ceiling) -> tuple[list[Task], list[Material]]:
    count = ceiling.item.trims_to_coat or 0
    if not count:
        return [], []
    basis = ceiling.piece.basis
    trims = leaf(
        "trims to coat",
        float(count),
        "dimensionless",
        Origin(Kind.ENTERED, place=f'work "{ceiling.item.room}" · trims_to_coat'),
    )
    passes = basis.figure("fixtures", "recessed_trim", "passes", name="light passes on a trim")
    each = basis.figure("production", "spot_coat", "airless", "any", name="one light pass on one trim")
    hours = work(fixtures.spot_coat_hours, "coating trims", fixtures=trims, passes=passes, minutes=each)
    flash = work(
        fixtures.flash_wait,
        "flash time between passes",
        passes=passes,
        flash=basis.figure("fixtures", "recessed_trim", "flash", name="flash time after a pass"),
    )
    paint = work(
        fixtures.trim_paint,
        "paint for trims",
        fixtures=trims,
        outer=basis.figure("fixtures", "recessed_trim", "outer_diameter", name="trim, outside"),
        inner=basis.figure("fixtures", "recessed_trim", "inner_diameter", name="trim, inside"),
        passes=passes,
        wet_film=basis.figure("fixtures", "recessed_trim", "wet_film", name="wet film of a light pass"),
        loss=basis.figure("losses", "airless", "open_parts"),
    )
    scuff = ceiling.piece.by_count(
        "scuff_trims", "Clean and scuff trims", Phase.FIXTURES, trims, "clean_scuff", "hand", "any"
    )
    coat = ceiling.piece.task("coat_trims", "Coat trims in place, light passes", Phase.FIXTURES, hours, each)
    return (
        [
            scuff,
            waiting(
                told(coat, "lamps out, power off and locked by somebody licensed; light, dry passes"),
                flash,
                "trims to flash off",
            ),
        ],
        [Material("trim_enamel", TITLES["trim_enamel"], paint, "recessed trims")],
    )


def _sundries(ceiling: Ceiling, sprayed: bool, sealed: bool) -> tuple[Supply, ...]:
    piece = ceiling.piece
    people = float(piece.job.crew.people)
    wanted = [("rags", "box", "Rags, a box", 1.0, "one box a ceiling")]
    if sprayed:
        wanted += [
            ("spray_tip", "each", "Spray tip", 1.0, "a fresh tip for an even fan"),
            ("dust_mask", "each", "Particle respirators", people, "one each, a day"),
        ]
    if sealed or not sprayed:
        covers = 1.0 if sprayed else 2.0
        wanted.append(
            ("roller_cover", "each", "Roller covers", covers, "one a coat; the one for solvent is thrown away")
        )
    if sealed:
        wanted.append(("respirator_cartridges", "each", "Vapour cartridges, a pair", people, "one pair each"))
    return tuple(piece.pieces(item, container, title, count, why) for item, container, title, count, why in wanted)


def _charges(ceiling: Ceiling, sprayed: bool) -> tuple[Charge, ...]:
    return (ceiling.piece.by_day("equipment_sprayer", "Sprayer, hose and gun, a day"),) if sprayed else ()


def _made_smooth(ceiling: Ceiling, way: str, title: str, first: list[Task], supplies: tuple[Supply, ...]) -> Plan:
    piece = ceiling.piece.slowed(ceiling.piece.crew_factor(), ceiling.piece.height_factor())
    rows = ("roll_ceiling", "roll", "smooth")
    prime = piece.by_area("prime", "Prime", Phase.PRIME, ceiling.area, *rows)
    coats = [
        piece.by_area(f"roll_{number}", f"Roll, coat {number}", Phase.CEILING, ceiling.area, *rows) for number in (1, 2)
    ]
    cuts = [
        piece.by_length(
            f"cut_in_{number}", f"Cut in, coat {number}", Phase.CEILING, ceiling.edge, "cut_in", "brush", "sealed"
        )
        for number in (1, 2)
    ]
    sealer = piece.spread("drywall_sealer", "smooth_drywall", "porous", "first", "roll", "interior")
    spread = piece.spread(FINISH, "smooth_drywall", "sealed", "later", "roll", "interior")
    dry = _recoat(ceiling, FINISH)
    tasks = [
        *protection.protect(ceiling, sprayed=True),
        *first[:-1],
        waiting(
            first[-1],
            piece.basis.figure("production", "dry", "joint_compound", "any", name="joint compound to dry"),
            "joint compound to dry",
        ),
        waiting(prime, _recoat(ceiling, "drywall_sealer"), "primer to dry"),
        cuts[0],
        waiting(coats[0], dry, "coat 1 to dry before the next"),
        cuts[1],
        coats[1],
        *protection.unprotect(ceiling, sprayed=True),
        *protection.wash_up(ceiling, sprayed=False),
    ]
    return Plan(
        scope=scope_name(ceiling),
        way=way,
        title=title,
        tasks=some(tasks),
        materials=(
            _paint(ceiling, "drywall_sealer", ceiling.area, sealer, "priming the bare ceiling"),
            *(_paint(ceiling, FINISH, ceiling.area, spread, f"coat {number} of the ceiling") for number in (1, 2)),
            _left_in(ceiling, sprayed=False),
        ),
        supplies=(*protection.masking_supplies(ceiling, sprayed=True), *_sundries(ceiling, False, False), *supplies),
        charges=(ceiling.piece.once("disposal", "Bags and dump fee"),),
        reasons=judged.reasons(ceiling, way),
        cautions=judged.cautions(ceiling, way),
        asks=judged.asks(ceiling, sprayed=False, sealed=False),
        notes=("the texture is gone: there is nothing left to release",),
    )
