"""What several pieces of one job need only once."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol, TypeVar

from estimating.estimate.pricing.plan import Charge


class Shareable(Protocol):
    """Anything with a word under which like things of one job count once; no word where it counts for itself."""

    @property
    def share_key(self) -> str:
        """The word."""


T = TypeVar("T", bound=Shareable)


def kept_once(things: Iterable[T], amount: Callable[[T], float]) -> list[T]:
    """Return the things in order, those of one word once: the one of the largest amount, where the first stood."""
    kept: dict[str | int, T] = {}
    for place, thing in enumerate(things):
        word = thing.share_key
        if not word:
            kept[place] = thing
        elif word not in kept or amount(thing) > amount(kept[word]):
            kept[word] = thing
    return list(kept.values())


def charged_once(charges: Iterable[Charge]) -> list[Charge]:
    """Return the charges, those of one word once."""
    return kept_once(charges, lambda _: 0.0)
