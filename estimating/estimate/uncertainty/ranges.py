"""Ranges: a low, likely and high become a distribution, and figures worked out from many become a spread.

The low, likely and high of a leaf are its 10th, 50th and 90th percentile. The curve through them is the three-term
metalog of Keelin, "The Metalog Distributions", Decision Analysis 13(4), 2016, pp. 243-277: equation 6 (unbounded),
11 (semi-bounded) and 14 (bounded), with the coefficients from three symmetric percentiles of its Proposition 3.
(Equation and page numbers were taken from other people's programs that cite the paper; the paper was not opened.)

How a leaf is read, all of it our judgment where the paper leaves the choice to its reader:
- low = likely = high is fixed and is not drawn;
- strictly inside its bounds: the metalog on the log scale (one bound) or the log-odds scale (two bounds), so that no
  draw can reach a bound;
- low or high on a bound: the unbounded metalog cut at the bound; the share cut off lies on the bound itself, so that
  "low 0" means nothing at all one time in ten;
- low = likely < high (or likely = high): every draw below (above) the median is the likely value itself, and the
  other half follows the two-term metalog. All three percentiles hold; three terms could not do it;
- luck is an even draw;
- a draw that a rule would refuse lies on the bound of that rule: the row is read as it stands, the trade's bound holds.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType
from typing import TypeAlias, cast

import numpy as np
import numpy.typing as npt

from estimating.errors import InputError
from estimating.estimate.uncertainty.rule_limits import rule_limits
from estimating.figures import Figure, at_once, evaluating, is_luck, leaves
from estimating.row_key import RowKey
from estimating.units import OFFSET_UNITS, Number

Array: TypeAlias = npt.NDArray[np.float64]
Groups: TypeAlias = Mapping[str, tuple[RowKey, float]]

POINTS = 4096
SEED = 2016
Limits: TypeAlias = Mapping[Figure, tuple[float, float]]

NO_GROUPS: Groups = MappingProxyType({})
NO_LIMITS: Limits = MappingProxyType({})
LOG_ODDS_90 = math.log(9)  # ln(0.9 / 0.1)
STEEPEST = 1.66711  # largest |a3| / a2 at which three terms are a distribution
NARROWEST = (1 - STEEPEST * (0.5 - 0.1)) / 2  # the same as a share of low to high, for the 10th and 90th percentile
WHOLE = MappingProxyType({"percent": 100.0, "dimensionless": 1.0})
COLUMNS = 64  # columns of points are made in lots, so that one more leaf seldom needs new ones

TAIL = 0.01  # nobody who gives a 10th, 50th and 90th percentile claims anything beyond the 1st and the 99th


@dataclass(frozen=True)
class Bounds:
    """What a number cannot go below or above; None where there is no end."""

    lower: float | None = 0.0
    upper: float | None = None


def usual_bounds(leaf: Figure) -> Bounds:
    """Return what a leaf cannot go beyond, judged from its unit and range.

    A temperature or a leaf that may be negative has no bounds; a percentage up to 100 and a bare share up to 1 have
    two; everything else is a measure and cannot be negative.
    """
    low = leaf.value if leaf.low is None else leaf.low
    high = leaf.value if leaf.high is None else leaf.high
    if leaf.unit in OFFSET_UNITS or low < 0:
        return Bounds(None, None)
    whole = WHOLE.get(leaf.unit)
    return Bounds(0.0, whole if whole is not None and high <= whole else None)


@dataclass(frozen=True)
class Distribution:
    """A distribution as its quantile function: three metalog coefficients on the scale its bounds call for."""

    a1: float
    a2: float
    a3: float = 0.0
    bounds: Bounds = Bounds(None, None)
    side: int = 0  # 1: varies only above the median, -1: only below
    cut: bool = False  # touches a bound: unbounded, then cut there

    def at(self, chance: Number) -> Number:
        """Return the value that is not exceeded with this chance, between 0 and 1 without the ends."""
        log_odds = np.log(chance / (1 - chance))
        if self.side:
            log_odds = self.side * np.maximum(self.side * log_odds, 0.0)
        on_scale = self.a1 + (self.a2 + self.a3 * (chance - 0.5)) * log_odds
        if self.cut:
            return cast(Number, np.clip(on_scale, self.bounds.lower, self.bounds.upper))
        return _from_scale(on_scale, self.bounds)


def _from_scale(value: Number, bounds: Bounds) -> Number:
    if bounds.lower is None:
        return value
    if bounds.upper is None:
        return cast(Number, bounds.lower + np.exp(value))
    return cast(Number, bounds.lower + (bounds.upper - bounds.lower) / (1 + np.exp(-value)))


def _to_scale(value: float, bounds: Bounds) -> float:
    if bounds.lower is None:
        return value
    if bounds.upper is None:
        return math.log(value - bounds.lower)
    return math.log((value - bounds.lower) / (bounds.upper - value))


def _check_bounds(low: float, high: float, bounds: Bounds, name: str) -> bool:
    """Return whether the range touches a bound; raise when it goes beyond."""
    if bounds.lower is None and bounds.upper is not None:
        raise InputError(name, bounds, "a lower bound beside the upper one, or none at all")
    lower = -math.inf if bounds.lower is None else bounds.lower
    upper = math.inf if bounds.upper is None else bounds.upper
    if not lower <= low <= high <= upper:
        raise InputError(name, (low, high), f"a low and high between {lower:g} and {upper:g}")
    return low == lower or high == upper


def _three_terms(on_scale: tuple[float, float, float]) -> tuple[float, float, float]:
    low, likely, high = on_scale
    return likely, (high - low) / (2 * LOG_ODDS_90), (high + low - 2 * likely) / (0.8 * LOG_ODDS_90)


def fit(low: float, likely: float, high: float, bounds: Bounds, *, name: str = "range") -> Distribution:
    """Return the distribution with these 10th, 50th and 90th percentiles.

    Raises InputError when low < likely < high are too lopsided for three terms, naming what would do.
    """
    cut = _check_bounds(low, high, bounds, name)
    scale = Bounds(None, None) if cut else bounds
    on_scale = (_to_scale(low, scale), _to_scale(likely, scale), _to_scale(high, scale))
    if low == likely or likely == high:
        side = 1 if low == likely else -1
        return Distribution(on_scale[1], (on_scale[2] - on_scale[0]) / LOG_ODDS_90, 0.0, bounds, side, cut)
    reach = on_scale[2] - on_scale[0]
    if not NARROWEST < (on_scale[1] - on_scale[0]) / reach < 1 - NARROWEST:
        least, most = (_from_scale(on_scale[0] + share * reach, scale) for share in (NARROWEST, 1 - NARROWEST))
        raise InputError(
            name,
            (low, likely, high),
            f"a likely value between {least:.4g} and {most:.4g} when low is {low:g} and high is {high:g}"
            " (or equal to one of them, where it cannot be less or more)",
        )
    return Distribution(*_three_terms(on_scale), bounds, 0, cut)


@lru_cache(maxsize=8)
def even_points(columns: int, points: int, seed: int) -> Array:
    """Return even draws between 0 and 1, one row a column of the sample: a Latin hypercube without correlations.

    Every column holds the middles of `points` equal cells, once each, in an order of its own; the chance correlations
    between the orders are then taken out (Iman and Conover, Communications in Statistics B 11(3), 1982; from memory,
    not checked). The first columns are the same however many follow.
    """
    if points < 2:
        raise InputError("points", points, "two or more")
    middles = (np.arange(points) + 0.5) / points
    scores = np.log(middles / (1 - middles))
    order = np.tile(np.arange(points), (columns, 1))
    shuffled = scores[np.random.default_rng(seed).permuted(order, axis=1)]
    several = shuffled[
        : max(1, points // 4)
    ]  # more columns than that have no correlations that could be told from chance
    several[:] = np.linalg.solve(np.linalg.cholesky(np.atleast_2d(np.cov(several))), several)
    drawn: Array = np.empty_like(shuffled)
    np.put_along_axis(drawn, shuffled.argsort(axis=1), middles[np.newaxis], axis=1)
    drawn.flags.writeable = False
    return drawn


@dataclass(frozen=True)
class Factor:
    """What the leaves of a group share: a column of points, and how strongly they follow it."""

    group: str
    column: int
    correlation: float
    turned: bool = False  # a rate an hour is high where minutes each are low: both are quick


@dataclass(frozen=True)
class DrawColumns:
    """Which column of points drives which leaf. Leaves with one key share a column, and so vary as one."""

    shapes: Mapping[Figure, Distribution | None]  # None: an even draw
    columns: Mapping[Figure, int]
    factors: Mapping[Figure, Factor]  # only leaves of a group have one
    width: int  # how many columns there are
    limits: Limits = field(default_factory=lambda: NO_LIMITS)  # what rules allow a leaf to be

    def draws(self, points: Array, only: Iterable[Figure] | None = None) -> dict[Figure, Array]:
        """Return the draws of every varying leaf, or of those named."""
        return {leaf: self._draw(leaf, points) for leaf in (self.columns if only is None else only)}

    def _draw(self, leaf: Figure, points: Array) -> Array:
        chance: Array = points[self.columns[leaf]]
        if leaf in self.factors:
            factor = self.factors[leaf]
            shared = 1 - points[factor.column] if factor.turned else points[factor.column]
            chance = together(shared, chance, factor.correlation)
        shape = self.shapes[leaf]
        if shape is None:
            return chance
        drawn = cast(Array, shape.at(np.clip(chance, TAIL, 1 - TAIL)))
        return cast(Array, np.clip(drawn, *self.limits[leaf])) if leaf in self.limits else drawn


def together(shared: Array, own: Array, correlation: float) -> Array:
    """Return even draws that follow a shared factor: a one-factor Gaussian copula.

    Any two leaves of a group then have this correlation between their normal scores.
    """
    from scipy.special import ndtr, ndtri

    score = math.sqrt(correlation) * ndtri(shared) + math.sqrt(1 - correlation) * ndtri(own)
    return ndtr(score)


def _check_groups(groups: Groups) -> None:
    for name, (_, correlation) in groups.items():
        if not 0 <= correlation < 1:
            raise InputError(f"group {name}", correlation, "a correlation from 0 to below 1")


def _group_of(leaf: Figure, groups: Groups) -> str | None:
    row = RowKey.parse(leaf.key)
    fitting = [name for name, (part, _) in groups.items() if row.below(part)]
    return max(fitting, key=lambda name: len(groups[name][0].keys), default=None)


def lay_out(
    leaves: Sequence[Figure],
    *,
    groups: Groups = NO_GROUPS,
    bounds: Callable[[Figure], Bounds] = usual_bounds,
    limits: Limits = NO_LIMITS,
) -> DrawColumns:
    """Return the layout of every leaf that varies; InputError names a leaf whose range no distribution fits.

    groups: by name, the part of the tables whose rows move together, and how strongly (0 to below 1).
    Where several parts hold a leaf, the narrowest counts. limits: what rules allow, see `rule_limits`; a draw beyond
    lies on the limit.
    """
    _check_groups(groups)
    slots: dict[object, int] = {}
    shapes: dict[Figure, Distribution | None] = {}
    columns: dict[Figure, int] = {}
    factors: dict[Figure, Factor] = {}
    for leaf in leaves:
        if leaf.low is None or leaf.high is None or leaf.low == leaf.high:
            continue
        random_draw = is_luck(leaf)
        name = leaf.key or leaf.name
        shapes[leaf] = None if random_draw else fit(leaf.low, leaf.value, leaf.high, bounds(leaf), name=name)
        columns[leaf] = slots.setdefault(leaf.key or leaf, len(slots))
        group = _group_of(leaf, groups)
        if group is not None:
            column = slots.setdefault(("group", group), len(slots))
            factors[leaf] = Factor(group, column, groups[group][1], turned=leaf.unit.endswith("/hour"))
    return DrawColumns(shapes, columns, factors, len(slots), limits)


def lots(width: int) -> int:
    """Return the number of columns to make for a layout so wide."""
    return COLUMNS * max(1, math.ceil(width / COLUMNS))


def draws_for(
    leaves: Sequence[Figure],
    *,
    points: int = POINTS,
    seed: int = SEED,
    groups: Groups = NO_GROUPS,
    bounds: Callable[[Figure], Bounds] = usual_bounds,
) -> dict[Figure, Array]:
    """Return an array of draws for every leaf that varies; a fixed leaf has no entry and keeps its value.

    Same leaves, points and seed: same draws. Leaves of one key share their draws, so that two methods of doing one job
    can be compared draw by draw.
    """
    layout = lay_out(leaves, groups=groups, bounds=bounds)
    return layout.draws(even_points(lots(layout.width), points, seed))


def simulate(
    targets: Sequence[Figure],
    *,
    points: int = POINTS,
    seed: int = SEED,
    groups: Groups = NO_GROUPS,
    bounds: Callable[[Figure], Bounds] = usual_bounds,
) -> list[Array]:
    """Return draws of the targets, in their order, all from the same draws of the leaves under them."""
    return at_once(simulating(targets, points=points, seed=seed, groups=groups, bounds=bounds))


def simulating(
    targets: Sequence[Figure],
    *,
    points: int = POINTS,
    seed: int = SEED,
    groups: Groups = NO_GROUPS,
    bounds: Callable[[Figure], Bounds] = usual_bounds,
) -> Generator[None, None, list[Array]]:
    """Draw as `simulate` does, one leaf and one figure at a time, for somebody who must not be kept waiting."""
    layout = lay_out(leaves(targets), groups=groups, bounds=bounds, limits=rule_limits(targets))
    yield
    even = even_points(lots(layout.width), points, seed)
    yield
    draws: dict[Figure, Array] = {}
    for leaf in layout.columns:
        draws |= layout.draws(even, [leaf])
        yield
    worked = yield from evaluating(targets, draws)
    return [np.broadcast_to(np.asarray(each, dtype=float), points) for each in worked]


@dataclass(frozen=True)
class Spread:
    """The 10th, 50th and 90th percentile of a worked figure.

    The median is not the figure worked out from likely values: where ranges lean to the high side, it is more.
    """

    low: float
    median: float
    high: float


def spread(draws: Array) -> Spread:
    """Return the 10th, 50th and 90th percentile of draws."""
    low, median, high = np.quantile(draws, (0.1, 0.5, 0.9))
    return Spread(float(low), float(median), float(high))


def chance_of_loss(cost_draws: Array, price: float) -> float:
    """Return the share of draws, 0 to 1, in which the work costs more than the price."""
    return float(np.mean(cost_draws > price))


def price_for_chance(cost_draws: Array, wanted: float) -> float:
    """Return the lowest drawn cost that, as a price, is exceeded with no more than the wanted chance (0 to 1)."""
    if not 0 <= wanted < 1:
        raise InputError("chance of loss", wanted, "a share from 0 to below 1")
    return float(np.quantile(cost_draws, 1 - wanted, method="inverted_cdf"))
