"""What to buy: containers at least cost by product and color, rolls and pieces by item."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimating.estimate.pricing.plan import Material, Supply
from estimating.estimate.pricing.sharing import kept_once
from estimating.evidence import Basis
from estimating.figures import Figure, total, work
from estimating.trade import ordering

SIZES = ("quart", "gallon", "five")


@dataclass(frozen=True)
class PaintOrder:
    """One product in one color: what is needed, what is bought, and what is left."""

    product: str
    title: str
    color: str
    need: Figure
    cost: Figure
    containers: ordering.Containers
    purposes: tuple[str, ...]
    coverage_key: str  # the row most of the gallons rest on; blank where none holds more than half
    remarks: tuple[str, ...] = ()

    @property
    def leftover(self) -> float:
        """Gallons over once the likely need is used."""
        return self.containers.gallons_bought - self.need.value


@dataclass(frozen=True)
class SupplyOrder:
    """One item of supplies: how many are bought for the need of the whole job."""

    item: str
    title: str
    need: Figure
    count: Figure
    price: Figure
    cost: Figure


def order_paint(materials: Iterable[Material], basis: Basis) -> tuple[PaintOrder, ...]:
    """Return one order for each product and color, all rooms together."""
    return tuple(_paint_order(batch, basis) for batch in batches(materials).values())


def batches(materials: Iterable[Material]) -> dict[tuple[str, str], list[Material]]:
    """Return what is mixed together: by product and color, what is needed only once counted once."""
    found: dict[tuple[str, str], list[Material]] = {}
    for material in kept_once(materials, lambda each: each.gallons.value):
        found.setdefault(mixed_together(material), []).append(material)
    return found


def mixed_together(material: Material) -> tuple[str, str]:
    """Return what tells a batch from others: its product and color."""
    return material.product, material.color


def can_prices(basis: Basis, product: str) -> dict[str, Figure]:
    """Return what a quart, a gallon and a five of a product cost."""
    return {size: basis.figure("prices", product, size) for size in SIZES}


def paint_cost(title: str, product: str, need: Figure, basis: Basis) -> Figure:
    """Return what it costs to buy so many gallons of a product, in whole containers."""
    return work(ordering.least_cost, f"{title} bought", need=need, **can_prices(basis, product))


def _paint_order(batch: list[Material], basis: Basis) -> PaintOrder:
    first = batch[0]
    need = total(f"{first.title} needed", [each.gallons for each in batch], unit="gallon")
    cost = paint_cost(first.title, first.product, need, basis)
    sizes = {size: price.value for size, price in can_prices(basis, first.product).items()}
    containers = ordering.containers(need.value, **sizes)
    purposes = tuple(dict.fromkeys(each.purpose for each in batch))
    coverage = _main_row(batch)
    remarks = tuple(dict.fromkeys(f"{each.purpose}: {each.remark}" for each in batch if each.remark))
    return PaintOrder(first.product, first.title, first.color, need, cost, containers, purposes, coverage, remarks)


def _main_row(batch: list[Material]) -> str:
    """Return the row that more than half of the gallons coated on rest on; blank where none does."""
    gallons: dict[str, float] = {}
    for each in batch:
        if each.coverage_key:
            gallons[each.coverage_key] = gallons.get(each.coverage_key, 0.0) + each.gallons.value
    row = max(gallons, key=lambda key: gallons[key], default="")
    return row if row and gallons[row] > sum(gallons.values()) / 2 else ""


def order_supplies(supplies: Iterable[Supply]) -> tuple[SupplyOrder, ...]:
    """Return one order for each item, all rooms together, in whole rolls and pieces."""
    return tuple(supply_order(wanted[0], _need(wanted)) for wanted in by_item(supplies).values())


def _need(wanted: list[Supply]) -> Figure:
    first = wanted[0]
    return total(f"{first.title} needed", [each.need for each in wanted], unit=first.need.unit)


def by_item(supplies: Iterable[Supply]) -> dict[str, list[Supply]]:
    """Return what is bought together: by item, what is needed only once counted once."""
    found: dict[str, list[Supply]] = {}
    for supply in kept_once(supplies, lambda each: each.need.value):
        found.setdefault(supply.item, []).append(supply)
    return found


def supply_order(first: Supply, need: Figure) -> SupplyOrder:
    """Return the order of so much of a supply: as many as are needed, or the whole rolls and boxes that hold it."""
    if first.holds is None:
        count = need
    else:
        count = work(ordering.whole_containers, f"{first.title} to buy", need=need, holds=first.holds)
    cost = work(ordering.count_cost, f"{first.title}, cost", count=count, price=first.price)
    return SupplyOrder(first.item, first.title, need, count, first.price, cost)
