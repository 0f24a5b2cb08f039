"""Sensitivity: which assumptions the spread of a figure comes from.

Shares are of the variance of the target (Sobol indices). The first-order share is what would go, on average, if the
leaf were known; the total share is what would stay if everything else were known. The total is never less, and the
difference is what the leaf does together with others.

Variance listens to the far tail: where a range runs over more than nine to one the share of that leaf leans on a few
extreme draws, and the order is to be read as a hint.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import (
    NO_GROUPS,
    POINTS,
    SEED,
    Array,
    Bounds,
    DrawColumns,
    Groups,
    even_points,
    lay_out,
    lots,
    usual_bounds,
)
from estimating.estimate.uncertainty.rule_limits import rule_limits
from estimating.figures import Figure, evaluate, leaves

TOP = 16
BINS = 16


@dataclass(frozen=True)
class Share:
    """One source of spread: a leaf (or leaves that move together) and its share of the target's variance, 0 to 1."""

    name: str
    leaves: tuple[Figure, ...]
    first: float
    total: float


def first_order(worked_a: Array, worked_b: Array, swapped: Array) -> float:
    """Return the first-order share of the input that is taken from B in `swapped` and from A otherwise.

    V_i = mean of f(B) (f(A with i of B) - f(A)); Saltelli and others, "Variance based sensitivity analysis of model
    output", Computer Physics Communications 181, 2010 (from memory, not checked; held against SALib in the tests).
    """
    both = np.concatenate([worked_a, worked_b])
    return float(np.mean((worked_b - both.mean()) * (swapped - worked_a)) / both.var())


def total_order(worked_a: Array, worked_b: Array, swapped: Array) -> float:
    """Return the total share of the input that is taken from B in `swapped` and from A otherwise.

    V_Ti = half the mean of (f(A) - f(A with i of B))²; Jansen, Computer Physics Communications 117, 1999 (from
    memory, not checked; held against SALib in the tests).
    """
    both = np.concatenate([worked_a, worked_b])
    return float(np.mean((worked_a - swapped) ** 2) / (2 * both.var()))


def binned_share(drawn: Array, worked: Array, *, bins: int = BINS) -> float:
    """Return the first-order share of an input from draws already made: variance between bins of equal count.

    Corrected for the share that bins of pure chance would show (epsilon squared), so it may be slightly negative.
    Needs independent inputs: for one of a group that moves together it shows the whole group's.
    """
    per_bin = len(worked) // bins
    if per_bin < 2:
        raise InputError("draws", len(worked), f"at least {2 * bins}, two a bin")
    used = per_bin * bins
    sorted_in = worked[np.argsort(drawn)[:used]].reshape(bins, per_bin)
    within = sorted_in.var(axis=1).mean()
    whole = sorted_in.var()
    if whole == 0:
        return 0.0
    return float(1 - (used - 1) / (used - bins) * within / whole)


def binned_shares(draws: Mapping[Figure, Array], worked: Array, *, bins: int = BINS) -> dict[Figure, float]:
    """Return every leaf's first-order share from draws already made, the largest first: quick enough to be live."""
    shares = {leaf: binned_share(drawn, worked, bins=bins) for leaf, drawn in draws.items()}
    return dict(sorted(shares.items(), key=lambda each: -each[1]))


def _blocks(layout: DrawColumns) -> list[tuple[str, tuple[Figure, ...]]]:
    """Return what varies independently: single leaves, leaves of one key, groups that move together."""
    blocks: dict[tuple[str, int], list[Figure]] = {}
    for leaf, column in layout.columns.items():
        factor = layout.factors.get(leaf)
        place = (factor.group, factor.column) if factor else ("", column)
        blocks.setdefault(place, []).append(leaf)
    return [(group or members[0].name, tuple(members)) for (group, _), members in blocks.items()]


def ranked(
    target: Figure,
    *,
    points: int = POINTS,
    seed: int = SEED,
    groups: Groups = NO_GROUPS,
    bounds: Callable[[Figure], Bounds] = usual_bounds,
    top: int = TOP,
) -> list[Share]:
    """Return the largest sources of a target's spread by total share, the largest first; none if nothing varies.

    points, seed, groups, bounds: as for the draws themselves; a group counts as one source.
    top: how many sources are worked out in full. They are screened by their first-order share, so a source that
    works only together with others may be passed over where there are more than `top`.
    """
    layout = lay_out(leaves([target]), groups=groups, bounds=bounds, limits=rule_limits([target]))
    draws_a, draws_b = (layout.draws(even_points(lots(layout.width), points, each)) for each in (seed, seed + 1))
    worked_a, worked_b = (np.asarray(evaluate([target], draws)[0], dtype=float) for draws in (draws_a, draws_b))
    if not layout.columns or np.ptp([worked_a, worked_b]) == 0:
        return []
    shares = []
    for name, members in _screened(_blocks(layout), draws_a, worked_a, top):
        swapped = np.asarray(evaluate([target], draws_a | {leaf: draws_b[leaf] for leaf in members})[0], dtype=float)
        first, total = (share(worked_a, worked_b, swapped) for share in (first_order, total_order))
        shares.append(Share(name, members, first, total))
    return sorted(shares, key=lambda share: -share.total)


def _screened(
    blocks: list[tuple[str, tuple[Figure, ...]]], draws: Mapping[Figure, Array], worked: Array, top: int
) -> list[tuple[str, tuple[Figure, ...]]]:
    if len(blocks) <= top:
        return blocks
    shares = binned_shares(draws, worked)
    # the members of a group add up: each alone may be small
    return sorted(blocks, key=lambda block: -sum(shares[leaf] for leaf in block[1]))[:top]
