from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from scipy.stats import binomtest, ttest_1samp

from estimating.errors import InputError
from estimating.learning.calibration import bias_by, coverage_of, old_prices
from estimating.learning.rates import Observed

TODAY = date(2026, 6, 1)
LINE = Observed("parlor", "roll", "hours", 3.0, 4.0, 5.5, 4.4, TODAY, "popcorn", "flat")


def _lines(inside: int, outside: int) -> list[Observed]:
    """Return lines of a job each."""
    held = [4.4] * inside + [9.0] * outside
    return [replace(LINE, job=f"job {number}", actual=actual) for number, actual in enumerate(held)]


@pytest.mark.parametrize(("inside", "outside"), [(8, 2), (0, 5), (5, 0), (50, 30)])
def test_the_bound_is_the_exact_binomial_one(inside: int, outside: int) -> None:
    """Low and high agree with scipy's own exact interval where every line is of a job of its own."""
    seen = coverage_of(_lines(inside, outside))
    theirs = binomtest(inside, inside + outside).proportion_ci(0.95, "exact")
    assert (seen.low, seen.high) == pytest.approx((theirs.low, theirs.high), abs=1e-9)
    assert seen.share == inside / (inside + outside)


@pytest.mark.parametrize(
    ("inside", "outside", "words"),
    [(8, 2, "nothing against the ranges so far"), (20, 40, "too narrow"), (80, 0, "wider than they need to be")],
)
def test_the_count_says_no_more_than_it_can(inside: int, outside: int, words: str) -> None:
    """Ten jobs prove little; sixty may."""
    assert words in coverage_of(_lines(inside, outside)).text


def test_no_finished_line_is_not_perfect_coverage() -> None:
    """Nothing counted is said so."""
    with pytest.raises(InputError, match="at least one line"):
        coverage_of([])


def test_bias_is_shown_by_task_with_what_it_may_be() -> None:
    """The middle ratio is the geometric mean; its bound agrees with scipy's t interval on the logs."""
    import math

    overs = [1.1, 1.3, 1.6, 1.2]
    slow = [replace(LINE, job=f"job {over}", actual=4.0 * over) for over in overs]
    even = [replace(LINE, job=job, task="mask", actual=4.0) for job in ("hall", "parlor")]
    first, second = bias_by([*even, *slow])
    theirs = ttest_1samp([math.log(over) for over in overs], 0).confidence_interval(0.95)
    assert (first.low, first.high) == pytest.approx((math.exp(theirs.low), math.exp(theirs.high)))
    assert (first.group, first.n, second.group, second.ratio) == ("roll (hours)", 4, "mask (hours)", 1.0)
    assert first.text.startswith("roll (hours): took 29% more than estimated, between")


def test_bias_by_product_leaves_blanks_out_and_keeps_gallons_apart() -> None:
    """A blank product is unknown; one line gives a ratio and no bound."""
    lines = [LINE, replace(LINE, measure="gallons", actual=3.0), replace(LINE, product="")]
    assert [(bias.group, bias.n, bias.low) for bias in bias_by(lines, "product")] == [
        ("flat (gallons)", 1, None),
        ("flat (hours)", 1, None),
    ]
    assert "took 25% less" in bias_by(lines, "product")[0].text
    assert [bias.group for bias in bias_by(lines, "measure")] == ["gallons", "hours"]


def test_the_newest_price_counts_for_its_age() -> None:
    """Only what is older than trusted is shown, the oldest first."""
    days = [
        ("flat", date(2025, 1, 1)),
        ("flat", date(2026, 5, 1)),
        ("tape", date(2026, 1, 1)),
        ("rags", date(2025, 6, 1)),
    ]
    assert [(old.item, old.days) for old in old_prices(days, today=TODAY)] == [("rags", 365), ("tape", 151)]
    assert len(old_prices(days, today=TODAY, trusted_days=10)) == 3


def _reviews(jobs: int, count: int) -> tuple[float, float]:
    """Return how often honest ranges are called dishonest, and how often the bias interval holds no bias.

    Twelve lines a job, alike by 0.4 within it: the crew's correlation that the ranges are drawn with.
    """
    chance = np.random.default_rng(jobs)
    scores = 0.4**0.5 * chance.normal(size=(count, jobs, 1)) + 0.6**0.5 * chance.normal(size=(count, jobs, 12))
    hours = 4.0 * np.exp(np.log(1.5) / 1.2815515655446004 * scores)
    verdicts = holds = 0
    for review in hours:
        lines = [
            replace(LINE, job=str(job), low=4 / 1.5, high=4 * 1.5, actual=float(took))
            for job, several in enumerate(review)
            for took in several
        ]
        seen, bias = coverage_of(lines), bias_by(lines)[0]
        verdicts += not seen.low <= seen.stated <= seen.high
        holds += bias.low <= 1.0 <= bias.high
    return verdicts / count, holds / count


@pytest.mark.parametrize("jobs", [5, 20])
def test_honest_ranges_are_seldom_called_dishonest(jobs: int) -> None:
    """Of 2,000 reviews at most 7 % end in a false verdict, and the bias interval holds the truth in 93 to 97 %."""
    verdicts, holds = _reviews(jobs, 2000)
    assert verdicts <= 0.07
    assert 0.93 <= holds <= 0.97


def test_no_verdict_on_fewer_than_five_jobs() -> None:
    """Four jobs of a hundred lines outside their ranges are too few to say a word."""
    lines = [replace(LINE, job=str(number % 4), actual=40.0) for number in range(100)]
    assert coverage_of(lines).text.endswith("on 4 jobs: a verdict takes 5 jobs or more")
