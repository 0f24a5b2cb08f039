"""What it costs the contractor to do something again: labor, overhead, and what it takes."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.estimate.pricing.order import can_prices
from estimating.estimate.pricing.plan import Material, OfTheSurface, Risk
from estimating.estimate.pricing.totals import loaded_wage
from estimating.figures import Figure, random_draw, total, work
from estimating.scopes.shared.work_area import WorkArea
from estimating.trade import adhesion, labor, ordering


def cost_again(work_area: WorkArea, name: str, hours: Sequence[Figure], *bought: Figure) -> Figure:
    """Return what so many hours and what is bought for them cost (dollars): wage, burden and overhead, no markup."""
    basis = work_area.basis
    worked = hours[0] if len(hours) == 1 else total(f"{name}, hours", hours, unit="hour")
    wages = work(labor.labor_cost, f"{name}, labor", hours=worked, loaded_wage=loaded_wage(basis))
    overhead = basis.figure("business", "overhead")
    carried = work(labor.overhead_cost, f"{name}, overhead", hours=worked, overhead=overhead)
    return total(f"{name}, cost", [wages, carried, *bought], unit="dollar")


def paint_again(work_area: WorkArea, name: str, paint: Material) -> Figure:
    """Return what the paint of another coat costs in the cans that cost least (dollars)."""
    prices = can_prices(work_area.basis, paint.product)
    return work(ordering.least_cost, f"{name}, paint", need=paint.gallons, **prices)


def allowance(
    key: str,
    title: str,
    chance: Figure,
    cost: Figure,
    happens: str,
    what_then: str,
    surface: OfTheSurface | None = None,
    luck: Figure | None = None,
) -> Risk:
    """Return a risk with its share of the price: its chance times what it costs.

    happens: names the draw. luck: the draw itself, where several methods meet with the same luck.
    """
    drawn = work(adhesion.occurs, happens, chance=chance, random_draw=luck or random_draw(happens))
    expected = work(adhesion.expected_cost, f"{title}, allowance", chance=drawn, cost=cost)
    return Risk(key, title, chance, cost, expected, what_then, surface)
