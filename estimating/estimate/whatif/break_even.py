"""What if: how two targets move along one figure, and where the cheaper of them changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import Array
from estimating.figures import Figure, evaluate
from estimating.units import convert

GRID = 65
ZOOMS = 6  # each narrows a bracket 64 times: to 1e-11 of the span


def _alike(targets: Sequence[Figure], figure: Figure) -> list[Figure]:
    """Return the figure and the leaves of the same key, which are the same number in another estimate."""
    found = {
        each: None
        for target in targets
        for each in target.walk()
        if each is figure or (figure.key and each.rule is None and each.key == figure.key)
    }
    if not found:
        raise InputError(figure.name, " and ".join(each.name for each in targets), "a figure that one of them rests on")
    return list(found)


def curve(targets: Sequence[Figure], figure: Figure, grid: npt.ArrayLike) -> list[Array]:
    """Return each target worked out at every value of one figure, all others as they are, in the order of targets.

    grid: values in the figure's unit. The figure may be a leaf or worked out; leaves of its key move with it.
    Raises InputError when no target rests on the figure, or a value is outside a rule.
    """
    values = np.asarray(grid, dtype=float)
    moved = {each: convert(values, figure.unit, each.unit) for each in _alike(targets, figure)}
    return [np.broadcast_to(np.asarray(worked, dtype=float), values.shape) for worked in evaluate(targets, moved)]


def break_even(
    target_a: Figure, target_b: Figure, figure: Figure, *, low: float, high: float, points: int = GRID
) -> list[float]:
    """Return every value of one figure, from low to high, at which the cheaper of two targets changes.

    Looked for on an even grid, then narrowed: two changes between neighbors of the grid are missed, and a value at
    which the two only touch is none. Where a target jumps (whole gallons, whole days) it is the place of the jump.
    Raises InputError when neither target rests on the figure.
    """
    if not low < high:
        raise InputError(f"{figure.name} · low, high", (low, high), "low less than high")

    def gap(values: Array) -> Array:
        cost_a, cost_b = curve([target_a, target_b], figure, values)
        return np.asarray(cost_a - convert(cost_b, target_b.unit, target_a.unit))

    return [_narrowed(gap, *bracket, points) for bracket in _brackets(gap, np.linspace(low, high, points))]


def _brackets(gap: Callable[[Array], Array], grid: Array) -> list[tuple[float, float]]:
    gaps = gap(grid)
    apart = np.flatnonzero(gaps)  # places where the two are equal to the last digit take neither side
    signs = np.sign(gaps[apart])
    return [(float(grid[apart[n]]), float(grid[apart[n + 1]])) for n in np.flatnonzero(np.diff(signs))]


def _narrowed(gap: Callable[[Array], Array], low: float, high: float, points: int) -> float:
    for _ in range(ZOOMS):
        inside = _brackets(gap, np.linspace(low, high, points))
        if not inside:  # so narrow that rounding decides
            break
        low, high = inside[0]
    return (low + high) / 2
