"""What if: where two ways cost the same, how a price moves, what differs, what one more test is worth."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import Array
from estimating.figures import Figure, evaluate
from estimating.origins import definition, judgment
from estimating.rules import rule
from estimating.trade.guards import require
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


@dataclass(frozen=True)
class Difference:
    """A line that is not the same in two estimates; None where one has no such line."""

    name: str
    before: Figure | None
    after: Figure | None

    @property
    def change(self) -> float:
        """After less before, in the unit of the line before (or of the only one); a missing line counts nothing."""
        if self.after is None:
            return -self.before.value if self.before else 0.0
        if self.before is None:
            return self.after.value
        return float(convert(self.after.value, self.after.unit, self.before.unit)) - self.before.value


def differences(before: Sequence[Figure], after: Sequence[Figure]) -> list[Difference]:
    """Return only the lines that differ between two estimates, by name, in the order of the first.

    Values that agree to nine digits are the same. Raises InputError when a name stands twice in one estimate.
    """
    olds, news = _by_name(before), _by_name(after)
    pairs = [Difference(name, olds.get(name), news.get(name)) for name in dict.fromkeys([*olds, *news])]
    return [each for each in pairs if not _same(each.before, each.after)]


def _by_name(lines: Sequence[Figure]) -> dict[str, Figure]:
    named: dict[str, Figure] = {}
    for line in lines:
        if line.name in named:
            raise InputError("line", line.name, "a name of its own for every line")
        named[line.name] = line
    return named


def _same(before: Figure | None, after: Figure | None) -> bool:
    if before is None or after is None:
        return False
    value = float(convert(after.value, after.unit, before.unit))
    return math.isclose(before.value, value, rel_tol=1e-9) or (math.isnan(before.value) and math.isnan(value))


BARE = "dimensionless"
LIKELIHOODS = definition("a ratio of likelihoods is P(result | releases) / P(result | holds), and results add up to 1")


@rule(
    "P(bad | holds) = (1 − ratio clean) / (ratio bad − ratio clean)",
    BARE,
    LIKELIHOODS,
    ratio_bad=BARE,
    ratio_clean=BARE,
)
def bad_though_sound(*, ratio_bad: Number, ratio_clean: Number) -> Number:
    """Return the chance that a test with two results comes out bad on a surface that would hold.

    ratio_bad, ratio_clean: what each result multiplies the odds of release by.
    """
    require((ratio_clean > 0) & (ratio_clean < 1), "ratio_clean", ratio_clean, "more than 0 and less than 1")
    require(ratio_bad > 1, "ratio_bad", ratio_bad, "more than 1")
    return (1 - ratio_clean) / (ratio_bad - ratio_clean)


@rule("P(bad | releases) = ratio bad · P(bad | holds)", BARE, LIKELIHOODS, ratio_bad=BARE, ratio_clean=BARE)
def bad_when_weak(*, ratio_bad: Number, ratio_clean: Number) -> Number:
    """Return the chance that a test with two results comes out bad on a surface that would release."""
    return ratio_bad * bad_though_sound(ratio_bad=ratio_bad, ratio_clean=ratio_clean)


SAME_SURFACE = judgment("a gentler way lets go only where the first would; a harsher one wherever the first would")


@rule("min(1, chance / base)", BARE, SAME_SURFACE, base=BARE, chance=BARE)
def release_when_weak(*, base: Number, chance: Number) -> Number:
    """Return the chance that a way releases a surface which the base way would release.

    base, chance: the chance of release by the base way and by this way, before it is known which surface it is.
    """
    require((base > 0) & (base < 1), "base", base, "more than 0 and less than 1")
    require((chance >= 0) & (chance <= 1), "chance", chance, "a chance from 0 to 1")
    return np.minimum(1.0, chance / base)


@rule("max(0, (chance − base) / (1 − base))", BARE, SAME_SURFACE, base=BARE, chance=BARE)
def release_though_sound(*, base: Number, chance: Number) -> Number:
    """Return the chance that a way releases a surface which the base way would leave on."""
    require((base > 0) & (base < 1), "base", base, "more than 0 and less than 1")
    require((chance >= 0) & (chance <= 1), "chance", chance, "a chance from 0 to 1")
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
    chance=BARE,
    bad_if_releases=BARE,
    bad_if_holds=BARE,
    tests=BARE,
    alike=BARE,
    holds_a="dollar",
    releases_a="dollar",
    holds_b="dollar",
    releases_b="dollar",
)
def value_of_tests(
    *,
    chance: Number,
    bad_if_releases: Number,
    bad_if_holds: Number,
    tests: float,
    alike: Number,
    holds_a: Number,
    releases_a: Number,
    holds_b: Number,
    releases_b: Number,
) -> Number:
    """Return what so many more tests are expected to save, before choosing between two ways, tests not paid for.

    chance: that the surface would release. bad_if_releases, bad_if_holds: the chance that one test comes out bad.
    tests: how many, a whole number. alike: how far tests repeat each other (their correlation in one surface), 0 for
    independent. holds_…, releases_…: what each way costs in all, repair included, if the surface holds or releases.
    Never negative: a test may always be ignored; and never less for one test more.
    """
    for name, part in (("chance", chance), ("bad_if_releases", bad_if_releases), ("bad_if_holds", bad_if_holds)):
        require((part >= 0) & (part <= 1), name, part, "a chance from 0 to 1")
    require((alike >= 0) & (alike < 1), "alike", alike, "0 or more and less than 1")
    if not (np.ndim(tests) == 0 and tests >= 0 and tests == round(float(tests))):
        raise InputError("tests", tests, "one whole number, 0 or more")
    count = round(float(tests))

    def better(weak: Number, sound: Number) -> Number:
        return np.minimum(weak * releases_a + sound * holds_a, weak * releases_b + sound * holds_b)

    after: Number = 0.0
    for bad in range(count + 1):
        weak = chance * _chance_of_bad(bad, count, bad_if_releases, alike)
        sound = (1 - chance) * _chance_of_bad(bad, count, bad_if_holds, alike)
        after = after + better(weak, sound)
    return np.maximum(better(chance, 1 - chance) - after, 0.0)  # below 0 only by rounding
