"""What if: where two ways cost the same, how a price moves, what differs, what one more test is worth."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import Array
from estimating.figures import Figure, evaluate
from estimating.origins import definition, judgment
from estimating.rules import rule
from estimating.units import Number, convert

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


BARE = "dimensionless"
LIKELIHOODS = definition("a ratio of likelihoods is P(result | fails) / P(result | holds), and results add up to 1")


@rule(
    "P(bad | holds) = (1 − ratio clean) / (ratio bad − ratio clean)",
    BARE,
    LIKELIHOODS,
    ratio_bad="dimensionless, more than 1",
    ratio_clean="dimensionless, more than 0 and less than 1",
)
def bad_though_sound(*, ratio_bad: Number, ratio_clean: Number) -> Number:
    """Return the chance that a test with two results comes out bad on a surface that would hold.

    ratio_bad, ratio_clean: what each result multiplies the odds of failure by.
    """
    return (1 - ratio_clean) / (ratio_bad - ratio_clean)


@rule("P(bad | fails) = ratio bad · P(bad | holds)", BARE, LIKELIHOODS, ratio_bad=BARE, ratio_clean=BARE)
def bad_when_weak(*, ratio_bad: Number, ratio_clean: Number) -> Number:
    """Return the chance that a test with two results comes out bad on a surface that would fail."""
    return ratio_bad * bad_though_sound(ratio_bad=ratio_bad, ratio_clean=ratio_clean)


SAME_SURFACE = judgment("a gentler way lets go only where the first would; a harsher one wherever the first would")


@rule(
    "min(1, chance / base)",
    BARE,
    SAME_SURFACE,
    base="dimensionless, more than 0 and less than 1",
    chance="dimensionless, a chance from 0 to 1",
)
def fails_when_weak(*, base: Number, chance: Number) -> Number:
    """Return the chance that a method fails on a surface which the base method fails on.

    base, chance: the chance of failure by the base method and by this one, before it is known which surface it is.
    """
    return np.minimum(1.0, chance / base)


@rule(
    "max(0, (chance − base) / (1 − base))",
    BARE,
    SAME_SURFACE,
    base="dimensionless, more than 0 and less than 1",
    chance="dimensionless, a chance from 0 to 1",
)
def fails_though_sound(*, base: Number, chance: Number) -> Number:
    """Return the chance that a method fails on a surface which the base method leaves as it is."""
    return np.maximum(0.0, (chance - base) / (1 - base))


def _chance_of_bad(bad: int, tests: int, chance: Number, alike: Number) -> Number:
    """Return the chance of so many bad tests: binomial; beta-binomial (Pólya's urn) where tests are alike."""
    drawn: Number = float(math.comb(tests, bad))
    for n in range(bad):
        drawn = drawn * (chance * (1 - alike) + n * alike)
    for n in range(tests - bad):
        drawn = drawn * ((1 - chance) * (1 - alike) + n * alike)
    for n in range(tests):
        drawn = drawn / (1 - alike + n * alike)
    return drawn


@rule(
    "cost of the better way now − Σ over k bad of n: P(k) · cost of the better way after k",
    "dollar",
    definition("expected value of sample information: Bayes' rule over every count of bad tests"),
    chance="dimensionless, a chance from 0 to 1",
    bad_if_fails="dimensionless, a chance from 0 to 1",
    bad_if_holds="dimensionless, a chance from 0 to 1",
    tests="dimensionless",
    alike="dimensionless, 0 or more and less than 1",
    holds_a="dollar",
    fails_a="dollar",
    holds_b="dollar",
    fails_b="dollar",
)
def value_of_tests(
    *,
    chance: Number,
    bad_if_fails: Number,
    bad_if_holds: Number,
    tests: float,
    alike: Number,
    holds_a: Number,
    fails_a: Number,
    holds_b: Number,
    fails_b: Number,
) -> Number:
    """Return what so many more tests are expected to save, before choosing between two ways, tests not paid for.

    chance: that the surface would fail. bad_if_fails, bad_if_holds: the chance that one test comes out bad.
    tests: how many, a whole number. alike: how far tests repeat each other (their correlation in one surface), 0 for
    independent. holds_…, fails_…: what each method costs in all, repair included, if the surface holds or fails.
    Never negative: a test may always be ignored; and never less for one test more.
    """
    if not (np.ndim(tests) == 0 and tests >= 0 and tests == round(float(tests))):
        raise InputError("tests", tests, "one whole number, 0 or more")
    count = round(float(tests))

    def better(weak: Number, sound: Number) -> Number:
        return np.minimum(weak * fails_a + sound * holds_a, weak * fails_b + sound * holds_b)

    after: Number = 0.0
    for bad in range(count + 1):
        weak = chance * _chance_of_bad(bad, count, bad_if_fails, alike)
        sound = (1 - chance) * _chance_of_bad(bad, count, bad_if_holds, alike)
        after = after + better(weak, sound)
    return np.maximum(better(chance, 1 - chance) - after, 0.0)  # below 0 only by rounding
