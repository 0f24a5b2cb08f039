import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from estimating.errors import InputError
from estimating.figures import evaluate, leaf, random_draw, work
from estimating.origins import Kind, Origin
from estimating.trade import adhesion

ENTERED = Origin(Kind.ENTERED)
chances = st.floats(0, 1)
ratios = st.floats(0.01, 100)


def test_odds_and_back():
    """A published example: a chance of 0.6 is odds of 1.5, twelve times that 18, which is a chance of 0.95.

    "Likelihood ratios (2×k table)", statistics software manual, worked example.
    """
    assert adhesion.updated_chance(chance=0.6, ratio=12.0, weight=1.0) == pytest.approx(0.95, abs=0.005)


def test_four_findings_one_after_another():
    """BMC Medical Education 11:94 (2011), table 2: 0.12, then ratios 1.5, 1.8, 3.1 and 4, give 81 percent.

    The table rounds the first odds to 0.13 (exactly 0.136) and its answer to the percent: 0.13 gives 81.3 and exact
    odds 82.0 percent, so a whole percent is allowed.
    """
    chance = 0.12
    for ratio in (1.5, 1.8, 3.1, 4.0):
        chance = adhesion.updated_chance(chance=chance, ratio=ratio, weight=1.0)
    assert chance == pytest.approx(0.81, abs=0.011)


@given(chances, ratios, st.floats(0, 20))
def test_a_chance_stays_a_chance(chance, ratio, weight):
    """Evidence moves it its own way and never out of 0 to 1; none leaves it."""
    after = adhesion.updated_chance(chance=chance, ratio=ratio, weight=weight)
    assert 0 <= after <= 1
    assert (after >= chance - 1e-12) if ratio >= 1 else (after <= chance + 1e-12)
    assert adhesion.updated_chance(chance=chance, ratio=ratio, weight=0.0) == pytest.approx(chance)
    assert 0 <= adhesion.with_damage(chance=chance, added=0.3) <= 1
    assert adhesion.with_damage(chance=chance, added=0.3) >= chance


@given(chances, chances, chances)
def test_a_method_brings_down_a_share_of_weak_surfaces(weak, share, sound):
    """Between what it does to a sound surface and to a weak one, and along a straight line: so it averages."""
    chance = adhesion.release_probability(weak=weak, share=share, sound=sound)
    assert min(share, sound) - 1e-12 <= chance <= max(share, sound) + 1e-12
    ends = [adhesion.release_probability(weak=each, share=share, sound=sound) for each in (0.0, 1.0)]
    assert chance == pytest.approx((1 - weak) * ends[0] + weak * ends[1])


@given(st.floats(1.01, 50), st.floats(0.01, 0.99), st.floats(0.02, 0.98))
def test_the_results_of_a_test_average_out(bad, clean, weak):
    """Weighed by how often each comes, the chance after a test of two results is the chance before it."""
    sound = adhesion.bad_though_sound(ratio_bad=bad, ratio_clean=clean)
    shown = [(bad, sound), (clean, adhesion.otherwise(chance=sound))]
    often = [weak * adhesion.shown_when_weak(ratio=ratio, sound=each) + (1 - weak) * each for ratio, each in shown]
    after = [adhesion.after_result(chance=weak, ratio=ratio) for ratio, _ in shown]
    assert sum(often) == pytest.approx(1)
    assert np.dot(often, after) == pytest.approx(weak)


@given(st.floats(0.02, 0.98), st.floats(0.02, 0.98), st.floats(0, 0.9), st.integers(0, 6), st.integers(0, 6))
def test_results_repeat_each_other_as_in_a_library(weak, sound, alike, bad, clean):
    """What bad and clean tests do together is the ratio of scipy's beta-binomial on both surfaces."""
    both = {"bad": (weak, sound, bad), "clean": (1 - weak, 1 - sound, clean)}
    done = np.prod([adhesion.result_ratio(weak=w, sound=s, tests=float(n), alike=alike) for w, s, n in both.values()])
    if alike < 0.001:
        wanted = (weak / sound) ** bad * ((1 - weak) / (1 - sound)) ** clean
        assert done == pytest.approx(wanted, rel=0.2)
        return
    worth = 1 / alike - 1
    often = [stats.betabinom.pmf(bad, bad + clean, p * worth, (1 - p) * worth) for p in (weak, sound)]
    assert done == pytest.approx(often[0] / often[1], rel=1e-6)


def test_two_bad_results_taken_as_one():
    """A fifth of them six times the odds and the rest twice, on a sound surface: 2.8 times together."""
    assert adhesion.either_ratio(mild=2.0, strong=6.0, share=0.2) == pytest.approx(2.8)
    assert adhesion.part_of(chance=0.2, share=0.2) == pytest.approx(0.04)


@given(st.integers(1, 60), chances)
def test_alike_tests_are_worth_what_their_mean_says(tests, correlation):
    """The mean of n alike draws, correlated pairwise, varies like the mean of n_eff independent ones.

    Worked out from the covariance matrix itself, which knows nothing of the formula.
    """
    alike = np.full((tests, tests), correlation)
    np.fill_diagonal(alike, 1.0)
    variance_of_mean = alike.sum() / tests**2
    worth = adhesion.effective_tests(tests=float(tests), correlation=correlation)
    assert 1 / worth == pytest.approx(variance_of_mean)
    assert 1 <= worth <= tests + 1e-9


def test_ten_alike_tests_say_less_than_ten():
    """With correlation 0.3 ten clean tests are worth 10 / 3.7 = 2.7 of them."""
    worth = adhesion.effective_tests(tests=10.0, correlation=0.3)
    assert worth == pytest.approx(2.70, abs=0.005)
    alike = adhesion.updated_chance(chance=0.1, ratio=0.5, weight=worth)
    independent = adhesion.updated_chance(chance=0.1, ratio=0.5, weight=10.0)
    assert independent < alike < 0.1


@pytest.mark.parametrize(
    ("tests", "at_95", "at_80"),
    [(3, 63, 42), (5, 45, 28), (8, 31, 18), (10, 26, 15), (20, 14, 8), (30, 10, 5), (59, 5, 3)],
)
def test_what_clean_tests_still_allow(tests, at_95, at_80):
    """Bad share in percent that n clean tests leave open, tabled beforehand by hand from 1 − (1 − c)^(1/n)."""
    for confidence, percent in ((0.95, at_95), (0.80, at_80)):
        share = adhesion.worst_fraction(clean=float(tests), tested=float(tests), confidence=confidence)
        assert share * 100 == pytest.approx(percent, abs=0.51)


def test_no_severe_flaw_in_93_parts():
    """Case Studies in Reliability and Maintenance (2003), eq. 14.6: 0 of 93 bad, 99 percent upper bound 0.0483."""
    assert adhesion.worst_fraction(clean=93.0, tested=93.0, confidence=0.99) == pytest.approx(0.0483, abs=0.00005)


def test_how_many_clean_tests_show_a_thousandth():
    """Documentation of the `reliability` library: 2,995 without failure show 99.9 percent at 95 percent confidence."""
    assert adhesion.worst_fraction(clean=2995.0, tested=2995.0, confidence=0.95) <= 0.001
    assert adhesion.worst_fraction(clean=2994.0, tested=2994.0, confidence=0.95) > 0.001


@given(st.integers(1, 80), st.data(), st.sampled_from([0.5, 0.8, 0.9, 0.95, 0.99]))
def test_the_bound_agrees_with_an_outside_exact_test(tests, data, confidence):
    """SciPy's exact binomial interval, one-sided from above, gives the same bound on the bad share."""
    bad = data.draw(st.integers(0, tests))
    outside = stats.binomtest(bad, tests, alternative="less").proportion_ci(confidence, method="exact").high
    ours = adhesion.worst_fraction(clean=float(tests - bad), tested=float(tests), confidence=confidence)
    assert ours == pytest.approx(outside, abs=1e-9)


def test_luck_not_drawn_is_the_chance():
    """The likely figure carries the expected value; draws carry yes or no, as often as the chance says."""
    chance = leaf("chance", 0.2, "dimensionless", ENTERED)
    draw = random_draw("release")
    figure = work(adhesion.occurs, "release", chance=chance, random_draw=draw)
    assert figure.value == 0.2
    even = (np.arange(1000) + 0.5) / 1000
    [events] = evaluate([figure], {draw: even})
    assert set(events) == {0.0, 1.0}
    assert events.mean() == pytest.approx(0.2)


EXTENT = {"chance_spots": 0.75, "chance_patches": 0.2, "chance_sheets": 0.05}
COST = {"cost_spots": 200.0, "cost_patches": 800.0, "cost_sheets": 5000.0}


def test_extent_has_a_heavy_tail():
    """The mean is 560, but three times in four it costs 200 and one time in twenty 5,000."""
    mean = adhesion.cost_by_extent(random_draw=math.nan, **EXTENT, **COST)
    assert mean == pytest.approx(0.75 * 200 + 0.2 * 800 + 0.05 * 5000)
    even = (np.arange(10_000) + 0.5) / 10_000
    drawn = adhesion.cost_by_extent(random_draw=even, **EXTENT, **COST)
    assert drawn.mean() == pytest.approx(mean)
    assert [np.mean(drawn == cost) for cost in (200.0, 800.0, 5000.0)] == pytest.approx([0.75, 0.2, 0.05])


@given(st.floats(0.01, 1), st.floats(0, 1), st.floats(0, 1))
def test_chances_of_extent_count_in_proportion(spots, patches, sheets):
    """Chances that do not add up to 1 are taken in proportion, drawn or not."""
    given_chances = {"chance_spots": spots, "chance_patches": patches, "chance_sheets": sheets}
    even = (np.arange(20_000) + 0.5) / 20_000
    drawn = adhesion.cost_by_extent(random_draw=even, **given_chances, **COST)
    assert drawn.mean() == pytest.approx(
        adhesion.cost_by_extent(random_draw=math.nan, **given_chances, **COST), abs=1.0
    )


def test_repair_from_area_rate_and_visit():
    """2 percent of 180 ft² at 4 ft² an hour and a 2-hour visit are 2.9 hours."""
    area = adhesion.released_area(ceiling=180.0, share=0.02)
    assert adhesion.repair_hours(area=area, rate=4.0, visit=2.0) == pytest.approx(2.9)
    assert adhesion.expected_cost(chance=0.1, cost=800.0) == pytest.approx(80)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: adhesion.effective_tests(tests=0.0, correlation=0.1), "tests"),
        (lambda: adhesion.effective_tests(tests=3.0, correlation=1.1), "correlation"),
        (lambda: adhesion.updated_chance(chance=1.2, ratio=1.0, weight=1.0), "chance"),
        (lambda: adhesion.updated_chance(chance=0.2, ratio=0.0, weight=1.0), "ratio"),
        (lambda: adhesion.release_probability(weak=0.2, share=1.1, sound=0.0), "share"),
        (lambda: adhesion.result_ratio(weak=0.2, sound=0.1, tests=1.5, alike=0.2), "tests"),
        (lambda: adhesion.bad_though_sound(ratio_bad=0.9, ratio_clean=0.5), "ratio_bad"),
        (lambda: adhesion.with_damage(chance=0.2, added=1.2), "added"),
        (lambda: adhesion.worst_fraction(clean=3.0, tested=2.0, confidence=0.95), "clean"),
        (lambda: adhesion.worst_fraction(clean=0.0, tested=0.0, confidence=0.95), "tested"),
        (lambda: adhesion.worst_fraction(clean=2.0, tested=2.0, confidence=95.0), "confidence"),
        (lambda: adhesion.occurs(chance=0.5, random_draw=1.5), "random_draw"),
        (lambda: adhesion.occurs(chance=math.nan, random_draw=0.5), "chance"),
        (lambda: adhesion.cost_by_extent(random_draw=0.5, **dict.fromkeys(EXTENT, 0.0), **COST), "chance_spots"),
        (lambda: adhesion.repair_hours(area=1.0, rate=0.0, visit=1.0), "rate"),
        (lambda: adhesion.released_area(ceiling=1.0, share=1.1), "share"),
    ],
)
def test_what_is_no_chance_is_refused(call, field):
    """Chances outside 0 to 1 and ratios of nothing are named."""
    with pytest.raises(InputError) as refused:
        call()
    assert refused.value.field == field


def test_percent_comes_in_through_figures():
    """A chance in percent is converted, and one in hours refused."""
    base = leaf("base", 10, "percent", ENTERED)
    more = {"share": leaf("spray", 0.5, "dimensionless", ENTERED), "sound": leaf("none", 0, "dimensionless", ENTERED)}
    assert work(adhesion.release_probability, "release", weak=base, **more).value == pytest.approx(0.05)
    with pytest.raises(InputError, match="unit"):
        work(adhesion.release_probability, "release", weak=leaf("base", 1, "hour", ENTERED), **more)


@given(st.lists(st.tuples(chances, st.integers(0, 9)), min_size=1, max_size=6))
def test_arrays_answer_as_scalars_do(pairs):
    """Draws at once give what each gives alone."""
    chance, clean = (np.array(each, dtype=float) for each in zip(*pairs, strict=True))
    for many, alone in (
        (
            adhesion.updated_chance(chance=chance, ratio=0.5, weight=2.0),
            [adhesion.updated_chance(chance=each, ratio=0.5, weight=2.0) for each in chance],
        ),
        (
            adhesion.worst_fraction(clean=clean, tested=9.0, confidence=0.9),
            [adhesion.worst_fraction(clean=each, tested=9.0, confidence=0.9) for each in clean],
        ),
        (
            adhesion.occurs(chance=0.5, random_draw=chance),
            [adhesion.occurs(chance=0.5, random_draw=each) for each in chance],
        ),
    ):
        np.testing.assert_allclose(many, alone, rtol=1e-12)
