"""How far a leaf may be drawn before a rule that takes it would refuse it: the bounds on the cards of those rules."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from estimating.figures import Figure
from estimating.rules import card_of
from estimating.units import OFFSET_UNITS, convert


def rule_limits(targets: Sequence[Figure]) -> Mapping[Figure, tuple[float, float]]:
    """Return, for each leaf under the targets that a rule bounds, the least and the most it may be, in its own unit."""
    found: dict[Figure, tuple[float, float]] = {}
    for figure in {each: None for target in targets for each in target.walk()}:
        if figure.rule is None:
            continue
        card = card_of(figure.rule)
        for name, given in figure.inputs:
            bound = card.bounds.get(name, card.rest_bound if name not in card.arguments else None)
            if given.rule is None and bound is not None and given.unit not in OFFSET_UNITS:
                unit = card.arguments.get(name, card.rest) or given.unit
                least, most = _within(bound.least, unit, given), _within(bound.most, unit, given)
                low, high = found.get(given, (-np.inf, np.inf))
                found[given] = max(low, least), min(high, most)
    return {leaf: ends for leaf, ends in found.items() if ends[0] > 0 or ends[1] < np.inf}


def _within(end: float, unit: str, leaf: Figure) -> float:
    """Return an end of a bound in the unit of the leaf."""
    if not np.isfinite(end):
        return end
    return float(convert(end, unit, leaf.unit))
