"""What further tests are worth: the urn against a library's distribution, costs by hand, and when it is enough."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS
from scipy.stats import dirichlet_multinomial

from estimating.estimate.pricing.preference import Appetite
from estimating.estimate.whatif.compare import Comparison
from estimating.estimate.whatif.value_of_testing import (
    FurtherTests,
    Shows,
    Trial,
    ValueOfTest,
    best,
    range_of,
    results,
    worths,
)
from estimating.figures import Figure, leaf
from estimating.origins import judgment
from estimating.workbook import Outcome, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
MADE_UP = judgment("made up for the test")
WEAK, SOUND = (0.137, 0.863), (0.914, 0.086)


@pytest.fixture(scope="module")
def priced() -> Outcome:
    return estimate_job(read_job(DEMO))


@pytest.fixture(scope="module")
def by_cost(priced: Outcome) -> Comparison:
    """Return the ways of the demo ceiling for somebody who goes by cost alone: no limit, no band, no tie."""
    found = priced.comparisons[0]
    open_plans = [
        replace(
            each,
            plan=replace(
                each.plan,
                risks=tuple(
                    replace(risk, surface=replace(risk.surface, closed_above=None) if risk.surface else None)
                    for risk in each.plan.risks
                ),
            ),
        )
        for each in found.options
    ]
    return replace(found, options=tuple(open_plans), appetite=Appetite())


def _figure(name: str, value: float, unit: str = "dimensionless") -> Figure:
    return leaf(name, value, unit, MADE_UP)


def _trial(
    made: tuple[int, ...] = (0, 0),
    minutes: float = 12,
    weak: tuple[float, ...] = WEAK,
    sound: tuple[float, ...] = SOUND,
) -> Trial:
    shows = tuple(
        Shows(f"r{place}", f"result {place}", _figure("weak", w), _figure("sound", s), n, bad=place > 0)
        for place, (w, s, n) in enumerate(zip(weak, sound, made, strict=True))
    )
    return Trial("patch", "patch", shows, _figure("m", minutes, "minute"))


def _further(*trials: Trial, alike: float = 0.25) -> FurtherTests:
    return FurtherTests(trials, _figure("alike", alike))


@given(
    st.floats(0.05, 0.9),
    st.tuples(st.integers(0, 3), st.integers(0, 3), st.integers(0, 3)),
    st.integers(1, 4),
    st.tuples(st.floats(0.1, 1), st.floats(0.1, 1), st.floats(0.1, 1)),
)
def test_tests_to_come_follow_those_made_as_in_a_library(
    alike: float, made: tuple[int, int, int], tests: int, parts: tuple[float, float, float]
) -> None:
    """Counts of three results after those made are as often as scipy's Dirichlet-multinomial says."""
    chances = np.array(parts) / sum(parts)
    alpha = chances * (1 / alike - 1) + np.array(made)
    found = results(_trial(made, weak=tuple(chances), sound=tuple(chances[::-1])), tests, alike)
    for each in found:
        assert each.weak == pytest.approx(dirichlet_multinomial.pmf(each.counts, alpha, tests), rel=1e-6)
    assert sum(each.weak for each in found) == pytest.approx(1)


@given(st.floats(0.01, 0.99), st.integers(0, 5))
def test_results_average_to_what_is_known_now(weak: float, tests: int) -> None:
    """Weighed by how often each comes, the chance after tests is the chance before them."""
    found = results(_trial((2, 1)), tests, 0.25)
    often = [float(each.chance(np.array(weak))) for each in found]
    after = [float(each.after(np.array(weak))) for each in found]
    assert sum(often) == pytest.approx(1)
    assert np.dot(often, after) == pytest.approx(weak, abs=1e-12)


def test_a_test_that_is_never_wrong_is_worth_what_certainty_is(priced: Outcome, by_cost: Comparison) -> None:
    """By cost alone, knowing for sure saves the cheapest way now less that of the cheapest for each surface."""
    sure = _trial(weak=(0.0, 1.0), sound=(1.0, 0.0))
    ((_, one),) = worths(_further(sure), by_cost, priced.basis, most=1)
    assert by_cost.decision_figure is not None
    now = by_cost.decision_figure.value
    costs = [min(by_cost.weighed_at(np.array([at])).cost[:-1, 0]) for at in (now, 1.0, 0.0)]
    assert one.saves.value == pytest.approx(costs[0] - now * costs[1] - (1 - now) * costs[2])
    assert one.saves.value > 0


def test_by_cost_alone_more_tests_never_tell_less(priced: Outcome, by_cost: Comparison) -> None:
    """A further result may be ignored: without limits the worth of n tests never falls with n."""
    (kind,) = worths(_further(_trial()), by_cost, priced.basis, most=5)
    saves = [each.saves.value for each in kind]
    assert saves[0] == 0
    assert saves[-1] > 0
    assert all(one <= other + 1e-6 for one, other in pairwise(saves))


def test_what_tests_cost(priced: Outcome) -> None:
    """Two of 12 minutes at 28 dollars an hour, 29 % burden and 14 dollars of overhead: 0.4 · (36.12 + 14) = 20.05."""
    ((none, _, two),) = worths(_further(_trial()), priced.comparisons[0], priced.basis, most=2)
    assert none.costs.value == 0
    assert two.costs.value == pytest.approx(20.048)


def test_a_test_like_those_made_tells_less(priced: Outcome, by_cost: Comparison) -> None:
    """A patch after four that agree is worth less than a first one at the same chance."""
    first, fifth = (kind[1] for kind in worths(_further(_trial(), _trial((2, 2))), by_cost, priced.basis, 1))
    assert 0 <= fifth.saves.value < first.saves.value


def test_the_best_is_the_most_once_paid_for(priced: Outcome, by_cost: Comparison) -> None:
    """Kinds and numbers are held against each other; where every one costs more than it saves there is none."""
    found = worths(_further(_trial(), _trial(minutes=1)), by_cost, priced.basis)
    chosen = best(found)
    assert chosen is not None
    assert chosen.net == max(each.net for kind in found for each in kind)
    dear = worths(_further(_trial(minutes=600)), by_cost, priced.basis)
    assert best(dear) is None
    assert best([]) is None


def test_the_range_is_over_the_chance_alone(priced: Outcome, by_cost: Comparison) -> None:
    """Over the range of the chance the worth spreads, and never costs more than making them."""
    further = _further(_trial())
    ((_, one),) = worths(further, by_cost, priced.basis, most=1)
    found = range_of(one, further, by_cost)
    assert found.low < found.high
    assert found.low >= -one.costs.value - 1e-9
    nothing = ValueOfTest(one.trial, 0, _figure("saves", 0, "dollar"), one.costs)
    assert range_of(nothing, further, by_cost).high == pytest.approx(-one.costs.value)
