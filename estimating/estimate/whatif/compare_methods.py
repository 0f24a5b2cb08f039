"""Two methods of doing one work item while one figure moves: where each is the cheaper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import Array, simulate, spread, usual_bounds
from estimating.estimate.whatif.break_even import break_even, curve
from estimating.estimate.whatif.compare import Comparison, Option, usable
from estimating.figures import Figure, leaves

ACROSS = 321  # values from end to end: close enough for a jump to be seen as one
WIDER = (1.0, 0.5, 0.25, 0.0)  # how far beyond low and high, as a share of the range; the first that a rule allows


@dataclass(frozen=True)
class Stretch:
    """From where to where one of two is the cheaper; None where both cost the same."""

    low: float
    high: float
    cheaper: int | None  # 0 or 1


@dataclass(frozen=True)
class Along:
    """What two targets come to along the values of one figure, all else as it is."""

    figure: Figure
    values: Array
    one: Array
    other: Array
    stretches: tuple[Stretch, ...]
    now: Stretch  # the one the figure stands in

    @property
    def at(self) -> tuple[float, ...]:
        """The values at which the cheaper of the two changes."""
        return tuple(each.high for each in self.stretches[:-1])

    @property
    def still(self) -> tuple[bool, bool]:
        """Whether each of the two stays the same throughout: it does not rest on the figure, or not in this range."""
        return bool(np.ptp(self.one) == 0), bool(np.ptp(self.other) == 0)


def rests_on(target: Figure, figure: Figure) -> bool:
    """Say whether a target is worked out from a figure, or from a leaf with the figure's key."""
    return any(
        each is figure or (each.rule is None and bool(figure.key) and each.key == figure.key) for each in target.walk()
    )


def movers(targets: Sequence[Figure], figures: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the figures, by key, that one of the targets rests on and that could be otherwise."""
    keys = {each.key for each in leaves(targets)}
    return {key: each for key, each in figures.items() if key in keys and (each.low != each.high or each.value != 0)}


def span(targets: Sequence[Figure], figure: Figure) -> tuple[float, float]:
    """Return from where to where to vary a figure, in its unit.

    A worked-out chance goes from 0 to 1. Anything else goes from its low to its high and as far again on either side,
    or less where a rule of the targets would refuse it; a decision, which has no range, from half of it to twice.
    """
    bounds = usual_bounds(figure)
    if figure.rule is not None and bounds.upper is not None:
        return 0.0, bounds.upper
    low, high, down, up = _range(figure)
    lowest = -np.inf if bounds.lower is None else bounds.lower
    highest = np.inf if bounds.upper is None else bounds.upper
    low = _first_allowed(targets, figure, [max(lowest, low - share * down) for share in WIDER])
    high = _first_allowed(targets, figure, [min(highest, high + share * up) for share in WIDER])
    if not low < high:
        raise InputError(figure.name, figure.value, "a figure that can be otherwise")
    return low, high


def _range(figure: Figure) -> tuple[float, float, float, float]:
    """Return low and high, and how far to go below the one and above the other."""
    low, high = figure.low, figure.high
    if low is None or high is None:
        found = spread(simulate([figure])[0])
        low, high = found.low, found.high
    if low == high:
        return low, high, low / 2, high
    return low, high, high - low, high - low


def _first_allowed(targets: Sequence[Figure], figure: Figure, ends: Sequence[float]) -> float:
    for end in ends[:-1]:
        try:
            curve(targets, figure, [end])
        except InputError:
            continue
        return end
    return ends[-1]


def along(one: Figure, other: Figure, figure: Figure, *, points: int = ACROSS) -> Along:
    """Return two targets along the values of one figure, and where the cheaper of them changes.

    Raises InputError when neither rests on the figure.
    """
    if not (rests_on(one, figure) or rests_on(other, figure)):
        raise InputError("assumption", figure.name, "one that either way rests on: neither price moves with this one")
    low, high = span([one, other], figure)
    values = np.linspace(low, high, points)
    cost, other_cost = curve([one, other], figure, values)
    at = break_even(one, other, figure, low=low, high=high, points=points)
    stretches = _stretches([low, *at, high], np.sign(cost - other_cost))
    now = next((each for each in stretches if figure.value <= each.high), stretches[-1])
    return Along(figure, values, cost, other_cost, stretches, now)


def _stretches(ends: Sequence[float], signs: Array) -> tuple[Stretch, ...]:
    """Return the stretches between the ends; at each inner end the cheaper changes, so the first decides them all."""
    decided = signs[signs != 0]
    first = None if not decided.size else int(decided[0] > 0)
    return tuple(
        Stretch(low, high, None if first is None else (first + place) % 2)
        for place, (low, high) in enumerate(pairwise(ends))
    )


def rival(comparison: Comparison) -> Option:
    """Return the method to hold against the recommended one: the nearest to taking its place, or the next best."""
    figure, found = comparison.decision_figure, comparison.stretches
    others = [each for each in found if comparison.options[each.place] is not comparison.recommended]
    if others and figure is not None:
        near = min(others, key=lambda each: min(abs(end - figure.value) for end in (each.low, each.high)))
        return comparison.options[near.place]
    left = [each for each in comparison.options if each is not comparison.recommended]
    allowed = [each for each in usable(comparison.options) if each is not comparison.recommended]
    return (allowed or left or [comparison.recommended])[0]
