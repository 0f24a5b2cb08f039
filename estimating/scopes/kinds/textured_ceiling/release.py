"""What it costs if texture comes down: chance by way, extent, and repair from the contractor's own rates."""

from __future__ import annotations

from functools import lru_cache

from estimating.estimate.pricing.order import can_prices
from estimating.estimate.pricing.plan import Extent, OfTheSurface, Phase, Risk
from estimating.estimate.pricing.totals import loaded_wage
from estimating.figures import Figure, random_draw, total, work
from estimating.row_key import RowKey
from estimating.scopes.kinds.textured_ceiling.facts import FINISH, Ceiling, clean_tests
from estimating.scopes.shared import solvent
from estimating.trade import adhesion, labor, ordering

PROTECT_ROW = ("protect_floor", "hand", "any")
PRIORS = RowKey.of("release", "prior")
PRIOR = str(RowKey.of("release", "prior", "{history}", "probability"))  # own jobs can correct it
SEALED = ("seal_roll", "seal_spray")
EXTENTS = ("spots", "patches", "sheets")


def method_chance(ceiling: Ceiling, method: str) -> Figure:
    """Return the chance that texture comes down when the ceiling is done this way, with the primer used here."""
    water = method in SEALED and solvent.barred(ceiling.work_area.job.site)
    return _chance(ceiling, f"{method}_waterborne" if water else method)


def sealed_chances(ceiling: Ceiling) -> tuple[Figure, Figure]:
    """Return the chance of release sealed and rolled: with the water-borne primer, and with the solvent-borne one."""
    return _chance(ceiling, "seal_roll_waterborne"), _chance(ceiling, "seal_roll")


def _chance(ceiling: Ceiling, row: str) -> Figure:
    odds = ceiling.work_area.basis.figure("release", "method", row, "odds")
    name = f"release, done this way: {row.replace('_', ' ')}"
    return work(adhesion.release_probability, name, base=ceiling.base, method_odds=odds)


def released_area(ceiling: Ceiling, extent: str) -> Figure:
    """Return how much comes down when it comes to this extent (ft²)."""
    share = ceiling.work_area.basis.figure("release", "extent", extent, "area")
    return work(adhesion.released_area, f"texture down, {extent}", ceiling=ceiling.area, share=share)


@lru_cache(maxsize=8)  # the same whatever brought the texture down
def repair_cost(ceiling: Ceiling, extent: str) -> Figure:
    """Return what mending costs the contractor when this much comes down (dollars): labor, overhead and paint.

    A touched-up ceiling shows, so the floor and the edges are covered again and the whole ceiling gets another coat.
    """
    basis = ceiling.work_area.basis
    mending = work(
        adhesion.repair_hours,
        f"mending, {extent}",
        area=released_area(ceiling, extent),
        rate=basis.nearest("production", "repair_release", extent, "any"),
        visit=basis.figure("business", "repair_visit"),
    )
    name = f"mending, {extent}"
    hours = total(f"{name}, hours with the coat after", [mending, *_coat_after(ceiling)], unit="hour")
    labor_part = work(labor.labor_cost, f"{name}, labor", hours=hours, loaded_wage=loaded_wage(basis))
    overhead = basis.figure("business", "overhead")
    overhead_part = work(labor.overhead_cost, f"{name}, overhead", hours=hours, overhead=overhead)
    return total(f"{name}, cost", [labor_part, overhead_part, _paint_after(ceiling)], unit="dollar")


def _coat_after(ceiling: Ceiling) -> list[Figure]:
    work_area = ceiling.work_area
    return [
        work_area.by_area(
            "cover_again", "Cover the floor again", Phase.PROTECT, work_area.room.floor, *PROTECT_ROW
        ).hours,
        work_area.by_length(
            "edge_again", "Mask the edges again", Phase.MASK, ceiling.edge, "mask_edge", "paper", "any"
        ).hours,
        work_area.by_area(
            "coat_again", "Coat again", Phase.CEILING, ceiling.area, "roll_ceiling", "roll", ceiling.grade
        ).hours,
    ]


def _paint_after(ceiling: Ceiling) -> Figure:
    work_area = ceiling.work_area
    spread = work_area.spread(FINISH, ceiling.surface, "sealed", "later", "roll", "interior")
    need = work_area.paint(FINISH, "", ceiling.area, spread, "another coat after mending").gallons
    return work(ordering.least_cost, "paint for another coat", need=need, **can_prices(work_area.basis, FINISH))


def release_risk(ceiling: Ceiling, method: str) -> Risk:
    """Return the allowance for release: its chance times what mending costs, over the three extents."""
    basis = ceiling.work_area.basis
    binder = solvent.primer_word(ceiling.work_area.job.site)
    chance = method_chance(ceiling, method)
    cost_if = work(
        adhesion.cost_by_extent,
        "mending, whatever comes down",
        random_draw=random_draw("extent of the release"),
        **{f"chance_{each}": basis.figure("release", "extent", each, "probability") for each in EXTENTS},
        **{f"cost_{each}": repair_cost(ceiling, each) for each in EXTENTS},
    )
    happens = work(adhesion.occurs, "release happens", chance=chance, random_draw=random_draw("release"))
    expected = work(adhesion.expected_cost, "release allowance", chance=happens, cost=cost_if)
    return Risk(
        "texture_release",
        "Texture comes down",
        chance,
        cost_if,
        expected,
        f"stop, let it dry, bind the edges with the {binder} primer, re-texture, prime, coat",
        _surface(ceiling, chance),
    )


def tests_note(ceiling: Ceiling) -> str:
    """Return how far the spot tests made so far reach, in words."""
    made, clean = clean_tests(ceiling.item)
    if not made:
        return "no spot test was made: the odds rest on history alone"
    share = adhesion.worst_fraction(clean=clean, tested=made, confidence=0.95)
    return (
        f"{clean} of {made} spot tests clean: up to {share:.0%} of the ceiling may still be bad (95 % one-sided, exact)"
    )


def _surface(ceiling: Ceiling, chance: Figure) -> OfTheSurface:
    basis = ceiling.work_area.basis
    prior = next((each for each in chance.walk() if RowKey.parse(each.key).below(PRIORS)), None)
    return OfTheSurface(
        told=chance.value > basis.figure("release", "limit", "conditions", "probability").value,
        tested=tests_note(ceiling),
        history=RowKey.parse(prior.key).keys[1] if prior else "",
        prior=prior,
        area=ceiling.area,
        extents=tuple(
            Extent(
                each,
                basis.figure("release", "extent", each, "probability"),
                basis.figure("release", "extent", each, "area"),
                released_area(ceiling, each),
                repair_cost(ceiling, each),
            )
            for each in EXTENTS
        ),
    )
