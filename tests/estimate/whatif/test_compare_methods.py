"""Two ways along one figure: the span it is varied over, and who is cheaper where."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.whatif.break_even import curve
from estimating.estimate.whatif.compare import Comparison, Option
from estimating.estimate.whatif.compare_methods import along, movers, rests_on, rival, span
from estimating.figures import Figure, leaf, work
from estimating.origins import definition, judgment
from estimating.rules import rule
from estimating.units import Number
from estimating.workbook import Outcome, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
MADE_UP = judgment("made up for the test")
HERE = definition("test")


@rule("c = s + a / r · w", "dollar", HERE, start="dollar", area="ft**2", rate="ft**2/hour", wage="dollar/hour")
def _cost(*, start: Number, area: Number, rate: Number, wage: Number) -> Number:
    if np.any(np.asarray(rate) <= 20):
        raise InputError("rate", 0, "more than 20")
    return start + area / rate * wage


@rule("c = 10 ⌈a / 100⌉", "dollar", HERE, area="ft**2")
def _by_the_hundred(*, area: Number) -> Number:
    return np.asarray(10 * np.ceil(np.asarray(area) / 100))


def _area() -> Figure:
    return leaf("area", 150, "ft**2", MADE_UP, low=100, high=300, key="rooms/area")


def _method(area: Figure, start: float, rate: Figure) -> Figure:
    return work(
        _cost,
        "method",
        start=leaf("start", start, "dollar", MADE_UP),
        area=area,
        rate=rate,
        wage=leaf("wage", 40, "dollar/hour", MADE_UP, key="business/wage"),
    )


def _rate(value: float) -> Figure:
    return leaf("rate", value, "ft**2/hour", MADE_UP, low=value - 20, high=value + 40, key=f"rate/{value}")


@pytest.fixture(scope="module")
def priced() -> Outcome:
    return estimate_job(read_job(DEMO))


def _option(comparison: Comparison, method: str) -> Option:
    return next(each for each in comparison.options if each.plan.method == method)


def test_who_is_cheaper_on_either_side() -> None:
    """80 + a / 400 · 40 = 20 + a / 100 · 40 at a = 200 ft²: below it the second, above it the first; it is 150 now."""
    area = _area()
    found = along(_method(area, 80, _rate(400)), _method(area, 20, _rate(100)), area)
    assert found.at == pytest.approx((200,))
    assert [each.cheaper for each in found.stretches] == [1, 0]
    assert found.now.cheaper == 1
    assert found.still == (False, False)


def test_each_stretch_says_the_truth_at_its_middle() -> None:
    """Within a stretch, the one called cheaper is so when both are worked out there: here across jumps, too."""
    area = _area()
    stepped, smooth = work(_by_the_hundred, "by the hundred", area=area), _method(area, 0, _rate(250))
    found = along(stepped, smooth, area)
    assert len(found.stretches) > 3
    middles = [(each.low + each.high) / 2 for each in found.stretches]
    one, other = curve([stepped, smooth], area, middles)
    assert [int(a > b) for a, b in zip(one, other, strict=True)] == [each.cheaper for each in found.stretches]


def test_a_way_that_does_not_rest_on_the_figure_is_level() -> None:
    """Its price is the same throughout, and the result says which of the two it is."""
    area, rate = _area(), _rate(100)
    moving, level = _method(area, 0, rate), _method(area, 20, _rate(400))
    assert along(moving, level, rate).still == (False, True)
    assert along(level, moving, rate).still == (True, False)


def test_a_figure_that_neither_rests_on_is_refused() -> None:
    """There is nothing to draw, and the message says so."""
    area = _area()
    with pytest.raises(InputError, match="either way rests on"):
        along(_method(area, 0, _rate(100)), _method(area, 0, _rate(400)), _rate(250))


def test_equal_ways_have_no_cheaper_one() -> None:
    """Where both cost the same throughout, neither is called cheaper."""
    area = _area()
    same = _method(area, 0, _rate(100))
    assert [each.cheaper for each in along(same, same, area).stretches] == [None]


def test_the_span_is_the_range_and_as_far_again() -> None:
    """100 to 300 becomes 0 to 500; never below nothing."""
    area = _area()
    assert span([_method(area, 0, _rate(100))], area) == (0, 500)


def test_the_span_stops_where_a_rule_would_refuse() -> None:
    """80 to 140 would reach down to 20, which the rule refuses: half as far below, all the way above."""
    rate = _rate(100)
    assert span([_method(_area(), 0, rate)], rate) == (50, 200)


def test_a_decision_goes_from_half_to_twice() -> None:
    """A wage without a range is varied all the same; nothing at all cannot be."""
    wage = leaf("wage", 40, "dollar/hour", MADE_UP)
    assert span([wage], wage) == (20, 80)
    with pytest.raises(InputError, match="can be otherwise"):
        span([wage], leaf("no tax", 0, "percent", MADE_UP))


@given(st.floats(5, 90), st.floats(0.1, 5))
def test_a_percentage_stays_one(likely: float, reach: float) -> None:
    """However wide the range, a share stays between 0 and 100 percent."""
    share = leaf("share", likely, "percent", MADE_UP, low=likely - reach, high=likely + reach)
    low, high = span([share], share)
    assert 0 <= low < high <= 100


def test_a_chance_worked_out_goes_from_nothing_to_certain(priced: Outcome) -> None:
    """The figure the choice turns on is looked at over all it could be."""
    comparison = priced.comparisons[0]
    assert comparison.decision_figure is not None
    roll, seal = (_option(comparison, method).estimate.amount for method in ("roll", "seal_roll"))
    found = along(roll, seal, comparison.decision_figure)
    assert (found.values[0], found.values[-1]) == (0, 1)
    assert found.one[0] < found.other[0]
    assert found.one[-1] > found.other[-1]
    assert 0 < found.at[0] < 1


def test_only_what_moves_a_price_is_offered(priced: Outcome) -> None:
    """Every assumption offered is one that a price rests on; masking by the sprayer is none of rolling's."""
    comparison = priced.comparisons[0]
    roll, spray = (_option(comparison, method).estimate.amount for method in ("roll", "spray"))
    used = priced.basis.used()
    offered = movers([roll, spray], used)
    assert offered
    assert all(rests_on(roll, each) or rests_on(spray, each) for each in offered.values())
    assert "business/equipment_sprayer" not in movers([roll], used)
    assert "business/equipment_sprayer" in offered
    assert "business/sales_tax" not in offered


def test_every_assumption_offered_can_be_drawn(priced: Outcome) -> None:
    """Whatever is chosen for the two nearest ways, both prices are worked out over a span that holds its range.

    A drying time alone, too: only waits are then arrays, and all hours of labor plain numbers.
    """
    comparison = priced.comparisons[0]
    methods = [comparison.recommended.estimate.amount, rival(comparison).estimate.amount]
    for figure in movers(methods, priced.basis.used()).values():
        found = along(*methods, figure, points=33)
        assert np.isfinite([found.one, found.other]).all()
        assert found.values[0] <= (figure.low or 0) <= (figure.high or 0) <= found.values[-1] * (1 + 1e-12)


def test_the_rival_is_the_way_nearest_to_changing_places(priced: Outcome) -> None:
    """The one end of the stretch that sealing first is recommended in is that with rolling."""
    comparison = priced.comparisons[0]
    assert comparison.recommended.plan.method == "seal_roll"
    assert rival(comparison).plan.method == "roll"
