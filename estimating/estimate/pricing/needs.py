"""What plans need of goods: by product and color or by item, what is needed only once counted once."""

from __future__ import annotations

from collections.abc import Container, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from estimating.estimate.pricing.order import mixed_together
from estimating.estimate.pricing.plan import Material, Supply
from estimating.estimate.pricing.sharing import kept_once

Goods = TypeVar("Goods", Material, Supply)


@dataclass(frozen=True)
class Wanted(Generic[Goods]):
    """Goods that a plan wants: what they are bought together with, and how much."""

    goods: Goods
    together: Hashable
    need: float  # gallons, or in the unit of what a pack holds

    @property
    def share_key(self) -> str:
        """The word under which they are needed once; none where they count for themselves."""
        return self.goods.share_key


@dataclass(frozen=True)
class Needs(Generic[Goods]):
    """What is bought together: of each kind the first that wants it, and how much; and what others may share."""

    by_itself: Mapping[Hashable, tuple[Goods, float]]
    shared: tuple[Wanted[Goods], ...]

    @classmethod
    def of(cls, wanted: Iterable[Wanted[Goods]], apart: Container[str] = ()) -> Needs[Goods]:
        """Return what is wanted as needs; `apart`: words under which nobody else shares."""
        alone: dict[Hashable, tuple[Goods, float]] = {}
        shared = []
        for each in kept_once(wanted, _amount):
            if each.share_key and each.share_key not in apart:
                shared.append(each)
            else:
                _add(alone, each.together, each.goods, each.need)
        return cls(alone, tuple(shared))

    @classmethod
    def joined(cls, several: Sequence[Needs[Goods]]) -> Needs[Goods]:
        """Return several needs as one; what they share is kept once."""
        alone: dict[Hashable, tuple[Goods, float]] = {}
        for needs in several:
            for key, (first, need) in needs.by_itself.items():
                _add(alone, key, first, need)
        return cls(alone, tuple(kept_once((each for needs in several for each in needs.shared), _amount)))

    def all(self) -> list[tuple[Goods, float]]:
        """Return what is bought: the first of each kind, and how much."""
        found = dict(self.by_itself)
        for each in self.shared:
            _add(found, each.together, each.goods, each.need)
        return list(found.values())


def _add(found: dict[Hashable, tuple[Goods, float]], key: Hashable, first: Goods, need: float) -> None:
    known = found.get(key)
    found[key] = (known[0], known[1] + need) if known else (first, need)


def _amount(wanted: Wanted[Any]) -> float:
    return wanted.need


def paint_needs(materials: Iterable[Material], apart: Container[str] = ()) -> Needs[Material]:
    """Return what paint plans need, in gallons."""
    return Needs.of((Wanted(each, mixed_together(each), each.gallons.value_in("gallon")) for each in materials), apart)


def supply_needs(supplies: Iterable[Supply], apart: Container[str] = ()) -> Needs[Supply]:
    """Return what supplies plans need, each in the unit of what a pack of it holds."""
    return Needs.of((Wanted(each, each.item, each.need.value) for each in supplies), apart)
