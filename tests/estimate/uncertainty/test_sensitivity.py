"""Sensitivity: shares of variance against the library SALib and against closed forms."""

import time

import numpy as np
import pytest
from SALib.analyze import sobol
from SALib.test_functions import Ishigami

from estimating.errors import InputError
from estimating.estimate.uncertainty.ranges import draws_for
from estimating.estimate.uncertainty.sensitivity import binned_share, binned_shares, first_order, ranked, total_order
from estimating.figures import evaluate, leaf, random_draw, total, work
from estimating.origins import definition, judgment
from estimating.row_key import RowKey
from estimating.rules import rule

MADE_UP = judgment("made up for the test")
BARE = "dimensionless"
HERE = definition("test")

# Ishigami and Homma 1990 with a = 7, b = 0.1, the variances in closed form:
# V1 = (1 + b π⁴ / 5)² / 2, V2 = a² / 8, V3 = 0, V13 = 8 b² π⁸ / 225.
A, B = 7, 0.1
V1, V2, V13 = (1 + B * np.pi**4 / 5) ** 2 / 2, A**2 / 8, 8 * B**2 * np.pi**8 / 225
WHOLE = V1 + V2 + V13
FIRST = np.array([V1, V2, 0]) / WHOLE
TOTAL = np.array([V1 + V13, V2, V13]) / WHOLE


@rule("sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1", BARE, HERE, first=BARE, second=BARE, third=BARE)
def _ishigami(*, first, second, third):
    x1, x2, x3 = (np.pi * (2 * each - 1) for each in (first, second, third))
    return np.sin(x1) + A * np.sin(x2) ** 2 + B * x3**4 * np.sin(x1)


def _ishigami_figure():
    return work(_ishigami, "ishigami", first=random_draw("x1"), second=random_draw("x2"), third=random_draw("x3"))


def test_ishigami_comes_out_as_in_closed_form():
    """First-order and total shares of the usual test function, through figures, to 0.02."""
    shares = {share.name: share for share in ranked(_ishigami_figure(), points=8192)}
    names = ["x1", "x2", "x3"]
    assert [shares[name].first for name in names] == pytest.approx(FIRST, abs=0.02)
    assert [shares[name].total for name in names] == pytest.approx(TOTAL, abs=0.02)


def test_estimators_agree_with_salib_on_the_same_runs():
    """Fed the same 2,048 runs of the same function, SALib gives the same shares to 0.005 (it centers otherwise)."""
    points = np.random.default_rng(3).uniform(-np.pi, np.pi, (2, 2048, 3))
    swapped = [points[0].copy() for _ in range(3)]
    for column, each in enumerate(swapped):
        each[:, column] = points[1][:, column]
    runs = [Ishigami.evaluate(x) for x in (points[0], *swapped, points[1])]
    problem = {"num_vars": 3, "names": ["x1", "x2", "x3"], "bounds": [[-np.pi, np.pi]] * 3}
    theirs = sobol.analyze(problem, np.stack(runs, axis=1).ravel(), calc_second_order=False, seed=1)
    ours = [(first_order(runs[0], runs[-1], each), total_order(runs[0], runs[-1], each)) for each in runs[1:-1]]
    assert [first for first, _ in ours] == pytest.approx(theirs["S1"], abs=0.005)
    assert [whole for _, whole in ours] == pytest.approx(theirs["ST"], abs=0.005)


def test_binned_shares_find_the_first_order_of_ishigami():
    """From draws already made, with no further run, the first-order shares come out to 0.03."""
    figure = _ishigami_figure()
    inputs = [each for _, each in figure.inputs]
    draws = draws_for(inputs)
    shares = binned_shares(draws, evaluate([figure], draws)[0])
    assert [shares[each] for each in inputs] == pytest.approx(FIRST, abs=0.03)


def test_binned_share_of_an_unrelated_input_is_nothing():
    """Chance differences between bins are taken off."""
    random = np.random.default_rng(1)
    shares = [binned_share(random.random(1024), random.random(1024)) for _ in range(50)]
    assert np.mean(shares) == pytest.approx(0, abs=0.005)


def test_binned_share_needs_two_draws_a_bin():
    """Too few draws to bin are refused."""
    with pytest.raises(InputError, match="at least 32"):
        binned_share(np.arange(20.0), np.arange(20.0))


def test_binned_share_of_a_target_that_never_varies_is_nothing():
    """A constant has no variance to share."""
    assert binned_share(np.arange(64.0), np.ones(64)) == 0


def _normal_like(name, width, key=""):
    return leaf(name, 100, "dollar", MADE_UP, low=100 - width, high=100 + width, key=key or name)


def test_a_sum_splits_its_variance_by_the_squares_of_the_widths():
    """Symmetric leaves of width 3, 4 and 12 in a sum: 9, 16 and 144 of 169 (the log scale bends it by < 0.01)."""
    parts = [_normal_like(f"part {width}", width) for width in (3, 4, 12)]
    shares = {share.name: share for share in ranked(total("sum", parts, unit="dollar"))}
    assert list(shares) == ["part 12", "part 4", "part 3"]
    for width in (3, 4, 12):
        assert shares[f"part {width}"].total == pytest.approx(width**2 / 169, abs=0.01)
        assert shares[f"part {width}"].first == pytest.approx(width**2 / 169, abs=0.03)


def test_a_group_is_one_source_and_counts_in_full():
    """Ten lines of one crew at 0.8 outweigh a single wide line that alone is larger than any of them."""
    crew = [_normal_like(f"line {n}", 3, key=f"rates/{n}") for n in range(10)]
    single = _normal_like("material", 8)
    job = total("job", [*crew, single], unit="dollar")
    assert ranked(job)[0].name == "material"
    together = ranked(job, groups={"crew speed": (RowKey("rates"), 0.8)})
    assert [share.name for share in together] == ["crew speed", "material"]
    assert len(together[0].leaves) == 10
    # variance of the group: 10 · 9 · (1 + 9 · 0.8) = 738, of the material 64; 4,096 pairs scatter by 0.02 or so
    assert together[0].total == pytest.approx(738 / 802, abs=0.04)


def test_leaves_of_one_key_are_one_source():
    """The same reference row read twice is named once."""
    one, again = _normal_like("rate", 5, "rates/a"), _normal_like("rate", 5, "rates/a")
    (share,) = ranked(total("sum", [one, again], unit="dollar"))
    assert share.leaves == (one, again)
    assert share.total == pytest.approx(1, abs=0.02)


def test_nothing_that_varies_has_no_sources():
    """Fixed leaves have no shares; nor has a range that cancels out."""
    fixed = leaf("fixed", 5, "dollar", MADE_UP)
    assert ranked(total("sum", [fixed], unit="dollar")) == []

    @rule("a · 0", "dollar", HERE, a="dollar")
    def nothing(*, a):
        return a * 0

    assert ranked(work(nothing, "nothing", a=_normal_like("a", 5))) == []


@pytest.fixture(scope="module")
def hundred_leaves():
    """Return a sum of products of a hundred leaves, some wide and most narrow."""

    @rule("a b", "dollar", HERE, amount=BARE, price="dollar")
    def product(*, amount, price):
        return amount * price

    lines = []
    for n in range(50):
        amount = leaf(f"amount {n}", 10, BARE, MADE_UP, low=9.8, high=10.3, key=f"amount {n}")
        price = _normal_like(f"price {n}", 40 if n in (7, 31, 44) else 2)
        lines.append(work(product, f"line {n}", amount=amount, price=price))
    return total("job", lines, unit="dollar")


def test_screening_finds_the_large_sources_among_a_hundred(hundred_leaves):
    """The three wide prices lead, and the few worked out in full include them."""
    assert {share.name for share in ranked(hundred_leaves, top=5)[:3]} == {"price 7", "price 31", "price 44"}


def test_a_hundred_leaves_are_ranked_well_under_a_second(hundred_leaves):
    """The desk can rank sources at each pause of a slider: the best of three runs takes less than half a second."""
    taken = []
    for _ in range(3):
        start = time.perf_counter()
        ranked(hundred_leaves)
        taken.append(time.perf_counter() - start)
    assert min(taken) < 0.5
