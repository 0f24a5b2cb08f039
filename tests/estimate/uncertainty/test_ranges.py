"""Ranges: percentiles kept, shapes sound, draws repeatable."""

import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtri

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import (
    NARROWEST,
    POINTS,
    STEEPEST,
    Bounds,
    chance_of_loss,
    draws_for,
    even_points,
    fit,
    lay_out,
    price_for_chance,
    simulate,
    spread,
    usual_bounds,
)
from estimating.figures import evaluate, leaf, leaves, random_draw, total, work
from estimating.origins import definition, judgment
from estimating.row_key import RowKey
from estimating.rules import rule

FREE = Bounds(None, None)
POSITIVE = Bounds(0.0, None)
SHARE = Bounds(0.0, 100.0)
MADE_UP = judgment("made up for the test")

# Coefficients and the quantiles at 1, 5, 25, 75, 95 and 99 % from pymetalog 0.2.2 (Smith, Jefferies, Faber; PyPI),
# which fits by least squares: metalog(x, probs=[.1, .5, .9], term_limit=3), run on numpy 2.4. Printed to 8 digits.
OTHERS = [
    (
        (35, 50, 75),
        POSITIVE,
        (3.9120230054281455, 0.17343244288912618, 0.027756700812862824),
        (23.98856778, 31.12898319, 41.64209087, 60.95777928, 86.44097498, 118.09189543),
    ),
    (
        (0.03, 0.05, 0.10),
        POSITIVE,
        (-2.9957322735539904, 0.27397581857234626, 0.1037226455334562),
        (0.01793249, 0.02560404, 0.03807346, 0.06951232, 0.12852974, 0.22240889),
    ),
    (
        (1.5, 3.0, 4.0),
        Bounds(1.0, None),
        (0.6931471805599454, 0.4077324383928644, -0.5579932879464827),
        (1.08743892, 1.28744152, 2.09631301, 3.68540748, 4.17196329, 4.70744902),
    ),
    (
        (60, 68, 80),
        FREE,
        (68.0, 4.551196133134186, 2.275598066567099),
        (52.21046477, 57.61444255, 63.625, 73.625, 84.41588114, 94.03704816),
    ),
    (
        (-4.0, 1.0, 5.0),
        FREE,
        (1.0, 2.0480382599103844, -0.5688995166417734),
        (-9.69192038, -5.78411414, -1.40625, 3.09375, 6.27653322, 9.13004215),
    ),
    (
        (5, 10, 20),
        SHARE,
        (-2.197224577336219, 0.35457108802586523, 0.0362478960066938),
        (2.30920248, 3.94220763, 7.06462032, 14.21272706, 24.87699657, 38.07627848),
    ),
]


@pytest.mark.parametrize(("triple", "bounds", "coefficients", "quantiles"), OTHERS)
def test_agrees_with_an_independent_program(triple, bounds, coefficients, quantiles):
    """Coefficients and quantiles are those of another program of the same paper, unbounded, one and two bounds."""
    shape = fit(*triple, bounds)
    assert (shape.a1, shape.a2, shape.a3) == pytest.approx(coefficients, rel=1e-9)
    assert shape.at(np.array([0.01, 0.05, 0.25, 0.75, 0.95, 0.99])) == pytest.approx(quantiles, abs=5e-9, rel=1e-8)


def test_quartile_worked_by_hand():
    """60 / 68 / 80: ln 3 is half of ln 9, so the lower quartile is 68 - 20 / 4 + (60 + 80 - 2 · 68) / 6.4 = 63.625."""
    assert fit(60, 68, 80, FREE).at(0.25) == pytest.approx(63.625, rel=1e-12)


def test_steepest_skew_is_where_the_density_reaches_nothing():
    """dM/dy = (a2 + a3 (y - ½)) / (y (1 - y)) + a3 ln(y / (1 - y)) stays positive up to |a3| / a2 = 1.66711."""
    y = np.linspace(0.5, 1, 1_000_001)[:-1]
    worst = np.max((y - 0.5) + y * (1 - y) * np.log(y / (1 - y)))
    assert pytest.approx(1 / worst, abs=5e-6) == STEEPEST


@st.composite
def _triples(draw, least, most):
    low = draw(st.floats(least, most * 0.4))
    high = low + draw(st.floats(0.01, 0.5)) * (most - low)
    return low, draw(st.floats(NARROWEST + 0.001, 1 - NARROWEST - 0.001)), high


CHANCES = np.linspace(0.0005, 0.9995, 1999)


@given(_triples(-50, 100))
def test_unbounded_keeps_its_percentiles_and_only_rises(triple):
    """Any feasible triple comes back as the 10th, 50th and 90th percentile of a rising curve."""
    low, part, high = triple
    likely = low + part * (high - low)
    shape = fit(low, likely, high, FREE)
    assert [shape.at(p) for p in (0.1, 0.5, 0.9)] == pytest.approx([low, likely, high], rel=1e-9, abs=1e-9)
    assert np.all(np.diff(shape.at(CHANCES)) > 0)


@given(_triples(0.1, 99), st.sampled_from([POSITIVE, SHARE]))
def test_bounded_keeps_its_percentiles_and_stays_inside(triple, bounds):
    """With one or two bounds the same holds, and no draw reaches a bound."""
    low, part, high = triple
    scale = np.log if bounds is POSITIVE else (lambda x: np.log(x / (100 - x)))
    on_scale = scale(low) + part * (scale(high) - scale(low))
    likely = float(np.exp(on_scale) if bounds is POSITIVE else 100 / (1 + np.exp(-on_scale)))
    shape = fit(low, likely, high, bounds)
    assert [shape.at(p) for p in (0.1, 0.5, 0.9)] == pytest.approx([low, likely, high], rel=1e-9)
    drawn = shape.at(CHANCES)
    assert np.all(np.diff(drawn) > 0)
    assert drawn.min() > 0
    assert bounds is POSITIVE or drawn.max() < 100


@given(st.floats(0.1, 10), st.floats(1.05, 8))
def test_a_range_even_in_ratio_has_no_skew_on_the_log_scale(likely, ratio):
    """low = likely / r and high = likely · r give two terms: the log-logistic."""
    assert fit(likely / ratio, likely, likely * ratio, POSITIVE).a3 == pytest.approx(0, abs=1e-12)


def test_too_lopsided_is_refused_with_what_would_do():
    """The error names the leaf, the three numbers and the likely values that fit; those then do fit."""
    with pytest.raises(InputError, match=r"loss: got \(9.5, 10, 20\), needs a likely value between 10.75 and 17.67"):
        fit(9.5, 10, 20, POSITIVE, name="loss")
    assert fit(9.5, 10.76, 20, POSITIVE).at(0.5) == pytest.approx(10.76)
    assert fit(9.5, 17.66, 20, POSITIVE).at(0.5) == pytest.approx(17.66)


@pytest.mark.parametrize(("low", "high", "bounds"), [(-1, 5, POSITIVE), (10, 101, SHARE)])
def test_beyond_its_bounds_is_refused(low, high, bounds):
    """A range that leaves its bounds is an error, not a clipped range."""
    with pytest.raises(InputError, match="a low and high between"):
        fit(low, 5, high, bounds)


def test_an_upper_bound_alone_is_refused():
    """Only the lower, both or no bounds are offered."""
    with pytest.raises(InputError, match="lower bound"):
        fit(1, 2, 3, Bounds(None, 5))


@pytest.mark.parametrize(
    ("triple", "bounds"),
    [
        ((10, 10, 20), POSITIVE),
        ((5, 10, 10), POSITIVE),
        ((0, 0, 5), SHARE),
        ((60, 60, 75), FREE),
        ((90, 100, 100), SHARE),
    ],
)
def test_one_sided_ranges_keep_all_three_percentiles(triple, bounds):
    """Where likely equals low or high, that half of the draws is the likely value itself."""
    drawn = fit(*triple, bounds).at((np.arange(100_000) + 0.5) / 100_000)
    assert np.quantile(drawn, [0.1, 0.5, 0.9], method="inverted_cdf") == pytest.approx(triple, rel=1e-4, abs=1e-3)
    assert np.mean(np.isclose(drawn, triple[1], rtol=1e-12, atol=0)) == pytest.approx(0.5, abs=1e-4)
    assert bounds.upper is None or drawn.max() <= bounds.upper
    assert bounds.lower is None or drawn.min() >= bounds.lower


def test_low_on_the_bound_means_nothing_at_all_one_time_in_ten():
    """0 / 2 / 5: a tenth of the draws is exactly 0, none is below."""
    drawn = fit(0, 2, 5, POSITIVE).at((np.arange(10_000) + 0.5) / 10_000)
    assert drawn.min() == 0
    assert np.mean(drawn == 0) == pytest.approx(0.1, abs=1e-4)


def _leaf(value, low, high, unit="ft", key=""):
    return leaf("reading", value, unit, MADE_UP, low=low, high=high, key=key)


@pytest.mark.parametrize(
    ("figure", "bounds"),
    [
        (_leaf(70, 60, 80, "degF"), FREE),
        (_leaf(1, -1, 2, "ft"), FREE),
        (_leaf(10, 5, 20, "percent"), SHARE),
        (_leaf(90, 60, 120, "percent"), POSITIVE),
        (_leaf(0.7, 0.6, 0.8, "dimensionless"), Bounds(0.0, 1.0)),
        (_leaf(1.2, 1.0, 1.5, "dimensionless"), POSITIVE),
        (_leaf(12, 11, 13), POSITIVE),
    ],
)
def test_bounds_follow_unit_and_range(figure, bounds):
    """Temperatures are free, shares of a whole stay within it, measures stay above nothing."""
    assert usual_bounds(figure) == bounds


def test_a_fixed_leaf_is_not_drawn():
    """low = likely = high needs no draws: the figure keeps its value."""
    assert draws_for([_leaf(12, 12, 12)]) == {}


def test_luck_is_an_even_draw():
    """Luck fills 0 to 1 evenly: as many draws in each eighth."""
    chance = random_draw("rain")
    drawn = draws_for([chance])[chance]
    counts, _ = np.histogram(drawn, bins=8, range=(0, 1))
    assert np.all(counts == POINTS // 8)


def test_leaves_of_one_key_vary_as_one():
    """The same reference row in two estimates has the same draws; another row has its own."""
    one, again, other = (_leaf(10, 8, 12, key=key) for key in ("rates/wall", "rates/wall", "rates/trim"))
    drawn = draws_for([one, again, other])
    assert np.array_equal(drawn[one], drawn[again])
    assert not np.array_equal(drawn[one], drawn[other])


def _normal_scores(drawn):
    return ndtri((drawn.argsort().argsort() + 0.5) / len(drawn))


def test_a_group_moves_together_as_strongly_as_said():
    """Crew rates at 0.6 have normal scores correlated 0.6; a leaf outside the group has none."""
    first, second = (_leaf(100, 80, 130, "ft**2/hour", f"rates/{n}") for n in "ab")
    outside = _leaf(40, 30, 55, "dollar", "prices/a")
    drawn = draws_for([first, second, outside], groups={"crew speed": (RowKey("rates"), 0.6)})
    scores = np.corrcoef([_normal_scores(drawn[each]) for each in (first, second, outside)])
    assert scores[0, 1] == pytest.approx(0.6, abs=0.02)
    assert scores[0, 2] == pytest.approx(0, abs=0.02)
    assert np.quantile(drawn[first], [0.1, 0.9]) == pytest.approx([80, 130], rel=0.01)


def test_the_narrowest_part_of_the_tables_decides_the_group():
    """A group for one table is overruled by a group for one row of it."""
    first, second = (_leaf(100, 80, 130, "ft**2/hour", f"rates/{n}") for n in "ab")
    drawn = draws_for([first, second], groups={"all": (RowKey("rates"), 0.9), "b": (RowKey.of("rates", "b"), 0.0)})
    assert np.corrcoef(drawn[first], drawn[second])[0, 1] == pytest.approx(0, abs=0.02)


def test_an_impossible_correlation_is_refused():
    """A correlation of 1 or more, or below 0, names its group."""
    with pytest.raises(InputError, match="group crew"):
        draws_for([_leaf(10, 8, 12)], groups={"crew": (RowKey("rates"), 1.0)})


def test_one_point_is_refused():
    """A range needs two draws at the least."""
    with pytest.raises(InputError, match="two or more"):
        draws_for([_leaf(10, 8, 12)], points=1)


def test_every_column_is_even_and_none_leans_on_another():
    """Each column holds the middle of every cell once; no two of 192 columns are correlated on the log-odds scale."""
    columns = even_points(192, POINTS, 5)
    assert np.array_equal(np.sort(columns, axis=1), np.tile((np.arange(POINTS) + 0.5) / POINTS, (192, 1)))
    correlations = np.corrcoef(np.log(columns / (1 - columns))) - np.eye(192)
    assert np.abs(correlations).max() < 0.005


@pytest.mark.parametrize("points", [2, 3, 8, 64])
def test_a_few_points_are_even_too(points):
    """With fewer points than columns there are still no doubles."""
    columns = even_points(64, points, 1)
    assert np.array_equal(np.sort(columns, axis=1), np.tile((np.arange(points) + 0.5) / points, (64, 1)))


def test_even_points_beat_random_ones():
    """Over 20 seeds the ends of a 60-line price scatter less than with random points."""
    price = _price()
    layout = lay_out(leaves([price]))

    def scatter(points_of):
        ends = [spread(evaluate([price], layout.draws(points_of(seed)))[0]) for seed in range(20)]
        return np.std([[each.low, each.high] for each in ends], axis=0)

    even = scatter(lambda seed: even_points(layout.width, 512, seed))
    assert np.all(even < scatter(lambda seed: np.random.default_rng(seed).random((layout.width, 512))))


@rule("c = a / r w", "dollar", definition("test"), area="ft**2", rate="ft**2/hour", wage="dollar/hour")
def _cost(*, area, rate, wage):
    return area / rate * wage


def _price():
    wage = leaf("wage", 30, "dollar/hour", MADE_UP, low=27, high=36, key="wage")
    rates = [leaf("rate", 150, "ft**2/hour", MADE_UP, low=100, high=200, key=f"rates/{n}") for n in range(6)]
    areas = [leaf("area", 100 + n, "ft**2", MADE_UP, low=97 + n, high=104 + n, key=f"area/{n}") for n in range(60)]
    lines = [work(_cost, f"line {n}", area=each, rate=rates[n % 6], wage=wage) for n, each in enumerate(areas)]
    return total("price", lines, unit="dollar")


def test_same_seed_same_figures():
    """Two trees built alike give the same draws; another seed gives others."""
    first, again, other = simulate([_price()])[0], simulate([_price()])[0], simulate([_price()], seed=1)[0]
    assert np.array_equal(first, again)
    assert not np.array_equal(first, other)


@pytest.mark.parametrize("seed", [2016, 1, 2, 3])
def test_doubling_the_draws_hardly_moves_the_range(seed):
    """From 4,096 to 8,192 draws the ends of a 60-line price move by less than 1 %."""
    once, twice = (spread(simulate([_price()], points=points, seed=seed)[0]) for points in (POINTS, 2 * POINTS))
    assert twice.low == pytest.approx(once.low, rel=0.01)
    assert twice.high == pytest.approx(once.high, rel=0.01)


def test_one_more_leaf_leaves_the_other_draws_alone():
    """Adding a line at the end of a job does not shake the rest."""
    first, second = _leaf(10, 8, 12, key="a"), _leaf(20, 15, 30, key="b")
    assert np.array_equal(draws_for([first])[first], draws_for([first, second])[first])


def test_a_target_without_ranges_is_an_array_of_one_value():
    """A figure worked out from fixed leaves is the same in every draw."""
    (drawn,) = simulate([total("length", [_leaf(2, 2, 2), _leaf(3, 3, 3)], unit="ft")], points=8)
    assert drawn.tolist() == [5.0] * 8


def test_spread_is_the_tenth_half_and_ninetieth():
    """0 to 100 in steps of one: 10, 50 and 90."""
    ends = spread(np.arange(101.0))
    assert (ends.low, ends.median, ends.high) == (10, 50, 90)


def test_chance_of_loss_counts_draws_above_the_price():
    """Costs 1 to 10 at a price of 8: two in ten lose; at exactly the cost nothing is lost."""
    assert chance_of_loss(np.arange(1.0, 11.0), 8) == 0.2


@given(st.lists(st.floats(1, 1e6), min_size=1, max_size=200), st.floats(0, 0.99))
def test_price_for_a_chance_keeps_the_chance(costs, wanted):
    """At the price found, no more than the wanted share of draws loses, and no lower drawn cost would do."""
    drawn = np.array(costs)
    price = price_for_chance(drawn, wanted)
    assert chance_of_loss(drawn, price) <= wanted + 1e-9
    lower = drawn[drawn < price]
    assert not lower.size or chance_of_loss(drawn, float(lower.max())) > wanted - 1e-9


@pytest.mark.parametrize("wanted", [-0.1, 1.0])
def test_an_impossible_chance_is_refused(wanted):
    """No price loses always or less than never."""
    with pytest.raises(InputError, match="chance of loss"):
        price_for_chance(np.arange(3.0), wanted)


def test_starting_up_does_not_import_scipy_modules():
    """The tenth of a second of importing normal scores is spent when leaves are first grouped."""
    code = "import sys, estimating.estimate.uncertainty.ranges; sys.exit('scipy.special' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_slow_crew_is_slow_in_minutes_and_in_rates_alike() -> None:
    """Of one group, minutes each go up where square feet an hour go down."""
    origin = definition("made up for the test")
    rate = leaf("rate", 100.0, "ft**2/hour", origin, low=70.0, high=140.0, key="production/rate")
    minutes = leaf("minutes", 10.0, "minute/count", origin, low=7.0, high=14.0, key="production/minutes")
    draws = draws_for([rate, minutes], groups={"crew": (RowKey("production"), 0.6)})
    assert np.corrcoef(draws[rate], draws[minutes])[0, 1] < -0.4
