"""How far a leaf may be drawn before a rule that takes it would refuse it: the bounds on the cards of those rules."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from estimating.figures import Figure
from estimating.rules import SAME, card_of
from estimating.units import OFFSET_UNITS, convert

NEAR_NOTHING = 1e-9  # of what has to be more than nothing: less would vanish in the next product


def rule_limits(targets: Sequence[Figure]) -> Mapping[Figure, tuple[float, float]]:
    """Return, for each leaf under the targets that a rule bounds, the least and the most it may be, in its own unit."""
    found: dict[Figure, tuple[float, float]] = {}
    for figure in {each: None for target in targets for each in target.walk()}:
        for leaf, least, most in _bounded(figure):
            low, high = found.get(leaf, (-np.inf, np.inf))
            found[leaf] = max(low, least), min(high, most)
    return found


def _bounded(figure: Figure) -> Iterator[tuple[Figure, float, float]]:
    """Yield each leaf that a figure is worked out from and its rule bounds to more than what is not negative."""
    if figure.rule is None:
        return
    card = card_of(figure.rule)
    for name, given in figure.inputs:
        known = name in card.arguments
        bound = card.bounds.get(name) if known else card.rest_bound
        unit = card.arguments[name] if known else card.rest
        if given.rule is not None or bound is None or given.unit in OFFSET_UNITS:
            continue
        unit = figure.inputs[0][1].unit if unit in (SAME, None) else unit
        if bound.least > 0 or bound.most < np.inf:
            yield given, _within(bound.least, unit or "", given), _within(bound.most, unit or "", given)


def _within(end: float, unit: str, leaf: Figure) -> float:
    """Return an end of a bound in the unit of the leaf."""
    if not np.isfinite(end):
        return end
    within = float(convert(end, unit, leaf.unit))
    return max(within, NEAR_NOTHING) if 0 < end < NEAR_NOTHING else within
