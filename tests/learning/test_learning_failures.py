from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import expit, logit
from scipy.stats import norm

from estimating.errors import InputError
from estimating.evidence import Row
from estimating.learning.failures import Worked, learn_chance
from estimating.origins import Kind, Origin

TODAY = date(2026, 6, 1)
PRIOR = Row(
    "release", ("prior", "painted_once", "probability"), 5.0, 10.0, 15.0, "percent", Origin(Kind.JUDGMENT, note="ours")
)


def _jobs(n: int, failed: int, odds: float = 1.0) -> list[Worked]:
    return [Worked("painted_once", odds, number < failed, TODAY) for number in range(n)]


def _learn(jobs: list[Worked], row: Row = PRIOR, **more: float):
    return learn_chance(row, "painted_once", jobs, today=TODAY, **more)


def test_without_jobs_the_chance_stays_what_it_was_taken_for() -> None:
    """No record, no change: the low, likely and high of the prior come back."""
    same = _learn([])
    assert (same.low, same.likely, same.high) == pytest.approx((5, 10, 15), rel=2e-3)
    assert same.n == 0


@pytest.mark.parametrize(("n", "failed", "odds"), [(7, 1, 1.0), (20, 0, 0.3), (12, 6, 2.5)])
def test_quantiles_agree_with_adaptive_quadrature(n: int, failed: int, odds: float) -> None:
    """The posterior below each quantile, integrated by another method (scipy's quad), is 10, 50 and 90 %."""
    learned = _learn(_jobs(n, failed, odds))
    below, above = (abs(logit(end) - logit(0.10)) / norm.ppf(0.9) for end in (0.05, 0.15))

    def weight(z: float) -> float:
        p = expit(logit(0.10) + z * (above if z > 0 else below) + np.log(odds))
        return float(norm.pdf(z) * p**failed * (1 - p) ** (n - failed))

    whole = quad(weight, -8, 0)[0] + quad(weight, 0, 8)[0]
    for chance, share in ((learned.low, 0.1), (learned.likely, 0.5), (learned.high, 0.9)):
        step = logit(chance / 100) - logit(0.10)
        end = step / (above if step > 0 else below)
        reached = quad(weight, -8, min(end, 0))[0] + (quad(weight, 0, end)[0] if end > 0 else 0)
        assert reached / whole == pytest.approx(share, abs=1e-3)


def test_releases_raise_the_chance_and_clean_jobs_lower_it() -> None:
    """One way and the other, and other classes say nothing."""
    assert _learn(_jobs(10, 5)).likely > 10 > _learn(_jobs(10, 0)).likely
    other = [replace(job, history="looks_unpainted") for job in _jobs(10, 10)]
    assert _learn(other).n == 0
    assert _learn(other).likely == pytest.approx(10, rel=2e-3)


def test_a_clean_job_done_the_careful_way_says_less() -> None:
    """Ten clean ceilings that were sealed and sprayed are weaker evidence than ten that were rolled."""
    assert _learn(_jobs(10, 0, odds=1.0)).likely < _learn(_jobs(10, 0, odds=0.1)).likely < 10


def test_old_jobs_count_for_less_here_too() -> None:
    """A release of long ago is nearly forgotten."""
    old = [replace(job, done_on=TODAY - timedelta(days=7300)) for job in _jobs(10, 5)]
    assert _learn(old).likely == pytest.approx(10, rel=0.01)
    assert _learn(old, half_life=7300.0).likely > 11


def test_the_text_shows_prior_own_and_count() -> None:
    """The count stands beside the chance, so that one in seven is not taken for a law."""
    learned = _learn(_jobs(7, 1))
    assert learned.text.startswith("judgment 10 % → yours ")
    assert learned.text.endswith("(1 of 7 failed)")
    assert learned.own_value(TODAY).kind is Kind.OWN_RECORD


def test_a_certain_prior_and_odds_of_nothing_are_refused() -> None:
    """There is nothing to learn about what is held to be certain."""
    with pytest.raises(InputError, match="inside 0 to 100 %"):
        _learn([], replace(PRIOR, high=100.0))
    with pytest.raises(InputError, match="more than nothing"):
        _learn(_jobs(1, 0, odds=0.0))


@pytest.mark.parametrize("failed", [0, 2])
def test_a_gentle_job_says_less(failed: int) -> None:
    """Jobs by a method that brings down a third of weak surfaces move the chance less when they hold.

    The posterior below each quantile, integrated by another method (scipy's quad), is 10, 50 and 90 %.
    """
    gentle = [replace(job, share=0.35, sound=0.002) for job in _jobs(8, failed)]
    learned = _learn(gentle)
    below, above = (abs(logit(end) - logit(0.10)) / norm.ppf(0.9) for end in (0.05, 0.15))

    def weight(z: float) -> float:
        weak = expit(logit(0.10) + z * (above if z > 0 else below))
        p = weak * 0.35 + (1 - weak) * 0.002
        return float(norm.pdf(z) * p**failed * (1 - p) ** (8 - failed))

    whole = quad(weight, -8, 0)[0] + quad(weight, 0, 8)[0]
    for chance, share in ((learned.low, 0.1), (learned.likely, 0.5), (learned.high, 0.9)):
        step = logit(chance / 100) - logit(0.10)
        end = step / (above if step > 0 else below)
        reached = quad(weight, -8, min(end, 0))[0] + (quad(weight, 0, end)[0] if end > 0 else 0)
        assert reached / whole == pytest.approx(share, abs=1e-3)
    if not failed:
        assert _learn(_jobs(8, 0)).likely < learned.likely < 10


def test_a_share_of_nothing_is_refused() -> None:
    """A method that fails on no weak surface could not have failed."""
    with pytest.raises(InputError, match="share of a job of class painted_once"):
        _learn([replace(_jobs(1, 0)[0], share=0.0)])
