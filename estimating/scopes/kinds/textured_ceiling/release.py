"""What it costs if texture comes down: chance by way, extent, and repair from the contractor's own rates."""

from __future__ import annotations

from functools import lru_cache

from estimating.estimate.pricing.build_up import loaded_wage
from estimating.estimate.pricing.order import can_prices
from estimating.estimate.pricing.plan import Phase, Risk
from estimating.figures import Figure, luck, total, work
from estimating.scopes.kinds.textured_ceiling.facts import FINISH, Ceiling
from estimating.trade import adhesion, ordering
from estimating.trade import labor as labour

PROTECT_ROW = ("protect_floor", "hand", "any")
EXTENTS = ("spots", "patches", "sheets")


def way_chance(ceiling: Ceiling, way: str) -> Figure:
    """Return the chance that texture comes down when the ceiling is done this way."""
    return work(
        adhesion.release_probability,
        f"release, done this way: {way.replace('_', ' ')}",
        base=ceiling.base,
        way_odds=ceiling.piece.basis.figure("release", "way", way, "odds", name=f"{way.replace('_', ' ')}, odds ratio"),
    )


@lru_cache(maxsize=8)  # the same whatever brought the texture down
def repair_cost(ceiling: Ceiling, extent: str) -> Figure:
    """Return what mending costs the contractor when this much comes down (dollars): labour, overhead and paint.

    A touched-up ceiling shows, so the floor and the edges are covered again and the whole ceiling gets another coat.
    """
    basis = ceiling.piece.basis
    area = work(
        adhesion.released_area,
        f"texture down, {extent}",
        ceiling=ceiling.area,
        share=basis.figure("release", "extent", extent, "area", name=f"share of the ceiling, {extent}"),
    )
    mending = work(
        adhesion.repair_hours,
        f"mending, {extent}",
        area=area,
        rate=basis.nearest("production", "repair_release", extent, "any"),
        visit=basis.figure("business", "repair_visit", name="return visit to mend"),
    )
    name = f"mending, {extent}"
    hours = total(f"{name}, hours with the coat after", [mending, *_coat_after(ceiling)], unit="hour")
    labour_part = work(labour.labour_cost, f"{name}, labour", hours=hours, loaded_wage=loaded_wage(basis))
    overhead = basis.figure("business", "overhead", name="overhead per labour hour")
    overhead_part = work(labour.overhead_cost, f"{name}, overhead", hours=hours, overhead=overhead)
    return total(f"{name}, cost", [labour_part, overhead_part, _paint_after(ceiling)], unit="dollar")


def _coat_after(ceiling: Ceiling) -> list[Figure]:
    piece = ceiling.piece
    return [
        piece.by_area("cover_again", "Cover the floor again", Phase.PROTECT, piece.room.floor, *PROTECT_ROW).hours,
        piece.by_length(
            "edge_again", "Mask the edges again", Phase.MASK, ceiling.edge, "mask_edge", "paper", "any"
        ).hours,
        piece.by_area(
            "coat_again", "Coat again", Phase.CEILING, ceiling.area, "roll_ceiling", "roll", ceiling.grade
        ).hours,
    ]


def _paint_after(ceiling: Ceiling) -> Figure:
    piece = ceiling.piece
    spread = piece.spread(FINISH, ceiling.surface, "sealed", "later", "roll", "interior")
    need = piece.paint(FINISH, "", ceiling.area, spread, "another coat after mending").gallons
    return work(ordering.least_cost, "paint for another coat", need=need, **can_prices(piece.basis, FINISH))


def release_risk(ceiling: Ceiling, way: str) -> Risk:
    """Return the allowance for release: its chance times what mending costs, over the three extents."""
    basis = ceiling.piece.basis
    chance = way_chance(ceiling, way)
    cost_if = work(
        adhesion.cost_by_extent,
        "mending, whatever comes down",
        luck=luck("extent of the release"),
        **{
            f"chance_{each}": basis.figure("release", "extent", each, "probability", name=f"it comes as {each}")
            for each in EXTENTS
        },
        **{f"cost_{each}": repair_cost(ceiling, each) for each in EXTENTS},
    )
    happens = work(adhesion.occurs, "release happens", chance=chance, luck=luck("release"))
    expected = work(adhesion.expected_cost, "release allowance", chance=happens, cost=cost_if)
    return Risk(
        "texture_release",
        "Texture comes down",
        chance,
        cost_if,
        expected,
        "stop, let it dry, bind the edges with the solvent-borne primer, re-texture, prime, coat",
    )
