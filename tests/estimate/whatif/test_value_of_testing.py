"""What further tests are worth: the urn against a library's distribution, costs by hand, and when it is enough."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS
from scipy.stats import betabinom

from estimating.estimate.whatif.break_even import value_of_tests
from estimating.estimate.whatif.compare import Comparison, Option
from estimating.estimate.whatif.value_of_testing import (
    FurtherTests,
    Trial,
    ValueOfTest,
    alike_next,
    bad_next,
    best,
    cost_either_way,
    range_of,
    worths,
)
from estimating.figures import Figure, leaf
from estimating.origins import judgment
from estimating.workbook import Outcome, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
MADE_UP = judgment("made up for the test")


@pytest.fixture(scope="module")
def priced() -> Outcome:
    return estimate_job(read_job(DEMO))


def _figure(name: str, value: float, unit: str = "dimensionless") -> Figure:
    return leaf(name, value, unit, MADE_UP)


def _trial(made: int = 0, bad: int = 0, minutes: float = 12) -> Trial:
    return Trial(
        "patch", "patch", _figure("bad", 10), _figure("clean", 0.15), _figure("m", minutes, "minute"), made, bad
    )


def _further(*trials: Trial, alike: float = 0.25) -> FurtherTests:
    return FurtherTests(trials, _figure("alike", alike))


def _two(comparison: Comparison) -> tuple[Figure, Option, Option]:
    roll, spray = (
        next(each for each in comparison.options if each.plan.method == method) for method in ("roll", "spray")
    )
    assert comparison.decision_figure is not None
    return comparison.decision_figure, roll, spray


@given(st.floats(0.01, 0.99), st.floats(0.01, 0.9), st.integers(0, 8), st.data())
def test_the_next_test_follows_those_made_as_in_a_library(
    chance: float, alike: float, made: int, data: st.DataObject
) -> None:
    """After x bad of k the next is bad as often as scipy's beta-binomial has one more bad among k + 1.

    The order of like tests says nothing, so P(x bad of k, then bad) is (x + 1) / (k + 1) of P(x + 1 bad of k + 1).
    """
    bad = data.draw(st.integers(0, made))
    a, b = chance * (1 / alike - 1), (1 - chance) * (1 / alike - 1)
    one_more = betabinom.pmf(bad + 1, made + 1, a, b) * (bad + 1) / (made + 1)
    assert bad_next(chance=chance, alike=alike, made=made, bad=bad) == pytest.approx(
        one_more / betabinom.pmf(bad, made, a, b), rel=1e-6
    )


@given(st.floats(0.01, 0.99), st.floats(0.01, 0.9), st.integers(0, 8), st.data())
def test_two_to_come_repeat_each_other_as_in_a_library(
    chance: float, alike: float, made: int, data: st.DataObject
) -> None:
    """Two more, both bad: by the chance and the likeness left after those made, and by scipy on all of them at once."""
    bad = data.draw(st.integers(0, made))
    a, b = chance * (1 / alike - 1) + bad, (1 - chance) * (1 / alike - 1) + made - bad
    following = bad_next(chance=chance, alike=alike, made=made, bad=bad)
    left = alike_next(alike=alike, made=made)
    assert following * (following + left * (1 - following)) == pytest.approx(betabinom.pmf(2, 2, a, b), rel=1e-6)


def test_both_outcomes_together_cost_what_the_estimate_says(priced: Outcome) -> None:
    """Weighted by the chance of each, a way costs its expected cost: nothing is counted twice or left out."""
    comparison = priced.comparisons[0]
    base = comparison.decision_figure
    assert base is not None
    for option in comparison.options:
        holds, releases = cost_either_way(option, base)
        together = base.value * releases.value + (1 - base.value) * holds.value
        assert together == pytest.approx(option.estimate.cost.value)


def test_a_way_that_cannot_release_costs_the_same_either_way(priced: Outcome) -> None:
    """Once the texture is scraped off, it does not matter whether it would have held."""
    comparison = priced.comparisons[0]
    assert comparison.decision_figure is not None
    scrape = next(each for each in comparison.options if each.plan.method == "scrape")
    holds, releases = cost_either_way(scrape, comparison.decision_figure)
    assert holds.value == releases.value


def test_the_worth_rests_on_the_figures_of_the_estimate(priced: Outcome) -> None:
    """With ratios 10 and 0.15 a bad result comes 0.85 / 9.85 of the time where it holds, ten times that where not."""
    base, roll, spray = _two(priced.comparisons[0])
    ((none, one),) = worths(_further(_trial()), base, roll, spray, priced.basis, most=1)
    states = [each.value for option in (roll, spray) for each in cost_either_way(option, base)]
    expected = value_of_tests(
        chance=base.value,
        bad_if_fails=8.5 / 9.85,
        bad_if_holds=0.85 / 9.85,
        tests=1,
        alike=0.0,
        holds_a=states[0],
        fails_a=states[1],
        holds_b=states[2],
        fails_b=states[3],
    )
    assert none.saves.value == 0
    assert one.saves.value == pytest.approx(expected)


def test_what_tests_cost(priced: Outcome) -> None:
    """Two of 12 minutes at 28 dollars an hour, 29 % burden and 14 dollars of overhead: 0.4 · (36.12 + 14) = 20.05."""
    base, roll, spray = _two(priced.comparisons[0])
    ((none, _, two),) = worths(_further(_trial()), base, roll, spray, priced.basis, most=2)
    assert none.costs.value == 0
    assert two.costs.value == pytest.approx(20.048)


def test_a_test_like_those_made_tells_less(priced: Outcome) -> None:
    """A patch after four that agree is worth less than a first one at the same chance."""
    base, roll, spray = _two(priced.comparisons[0])
    first, fifth = (kind[1] for kind in worths(_further(_trial(), _trial(4, 2)), base, roll, spray, priced.basis, 1))
    assert 0 < fifth.saves.value < first.saves.value


def test_the_best_is_the_most_once_paid_for(priced: Outcome) -> None:
    """Kinds and numbers are held against each other; where every one costs more than it saves there is none."""
    base, roll, spray = _two(priced.comparisons[0])
    found = worths(_further(_trial(), _trial(minutes=1)), base, roll, spray, priced.basis)
    chosen = best(found)
    assert chosen is not None
    assert chosen.net == max(each.net for kind in found for each in kind)
    dear = worths(_further(_trial(minutes=600)), base, roll, spray, priced.basis)
    assert best(dear) is None
    assert best([]) is None


def test_the_range_is_over_the_chance_alone(priced: Outcome) -> None:
    """Over the range of the chance the worth spreads; its best is no more than certainty could save."""
    base, roll, spray = _two(priced.comparisons[0])
    ((_, one),) = worths(_further(_trial()), base, roll, spray, priced.basis, most=1)
    found = range_of(one, base)
    assert found.low < found.median < found.high
    assert found.low >= -one.costs.value
    nothing = ValueOfTest(one.trial, 0, _figure("saves", 0, "dollar"), _figure("costs", 0, "dollar"))
    assert range_of(replace(nothing, costs=one.costs), base).high == pytest.approx(-one.costs.value)
