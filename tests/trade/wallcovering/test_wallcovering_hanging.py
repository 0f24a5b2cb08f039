from __future__ import annotations

import itertools

import numpy as np
import pytest

from estimating.errors import InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.trade.wallcovering.hanging import (
    chance_slower_than_tested,
    hang_hours,
    paste_needed,
    removal_hours,
    removal_tests_wanted,
    wall_repair_hours,
    worst_removal_rate,
)

ON_SITE = Origin(Kind.MEASURED, place="test")


def test_paste_goes_by_area():
    """450 ft² at 150 ft² a gallon with a tenth lost is 3.3 gallons."""
    assert paste_needed(area=450.0, spread=150.0, waste=10.0) == pytest.approx(3.3)


def test_hours_go_by_strips_and_pattern():
    """Twenty strips at a quarter of an hour, half as long again for the match, are 7½ hours."""
    assert hang_hours(strips=20, minutes_each=15.0, pattern_factor=1.5) == 7.5


def test_each_layer_comes_off_by_itself():
    """A published job took 30 h for 560 ft² (wallpaper-removal-thread); two layers take twice that."""
    rate = 560 / 30
    assert removal_hours(area=560.0, layers=1, rate=rate) == pytest.approx(30)
    assert removal_hours(area=560.0, layers=2, rate=rate) == pytest.approx(60)


def test_the_outcomes_of_a_removal_are_wide_apart():
    """The same 12 by 12 room is published as one hour or two days (wallpaper-removal-thread): 1 to 16 hours.

    384 ft² at the printed 60 and 10 ft² an hour is already 6.4 to 38 hours; a third of the wall torn and mended at
    40 ft² an hour adds 3 more to the worst.
    """
    best = removal_hours(area=384.0, layers=1, rate=60.0) + wall_repair_hours(area=384.0, damaged=0.0, rate=40.0)
    worst = removal_hours(area=384.0, layers=1, rate=10.0) + wall_repair_hours(area=384.0, damaged=33.0, rate=40.0)
    assert best == pytest.approx(6.4)
    assert worst == pytest.approx(41.568)
    assert worst / best > 6


def test_tests_go_by_area_and_have_a_least():
    """A closet still gets three; 650 ft² at one a 100 ft² gets seven."""
    assert removal_tests_wanted(area=40.0, area_per_test=100.0, least=3) == 3
    assert removal_tests_wanted(area=650.0, area_per_test=100.0, least=3) == 7


@pytest.mark.parametrize("tests", [0, 1, 2, 3, 5])
def test_the_chance_of_a_slower_place_is_counted_out(tests):
    """Of all orders of tests + 1 different places, the share in which the last is the slowest."""
    orders = list(itertools.permutations(range(tests + 1)))
    slowest_last = sum(order[-1] == tests for order in orders) / len(orders)
    assert chance_slower_than_tested(tests=tests) == pytest.approx(slowest_last)


def test_a_few_good_tests_do_not_carry_the_worst_price():
    """Three tests at 60 ft² an hour leave the worst at the slowest known; nine carry it; a slow test always does."""
    known = {"slowest_known": 10.0, "enough_tests": 9}
    assert worst_removal_rate(slowest_tested=60.0, tests=3, **known) == 10
    assert worst_removal_rate(slowest_tested=60.0, tests=9, **known) == 60
    assert worst_removal_rate(slowest_tested=8.0, tests=1, **known) == 8
    assert list(worst_removal_rate(slowest_tested=np.array([60.0, 8.0]), tests=3, **known)) == [10, 8]


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: paste_needed(area=-1.0, spread=150.0, waste=0.0), "area"),
        (lambda: paste_needed(area=1.0, spread=0.0, waste=0.0), "spread"),
        (lambda: hang_hours(strips=1, minutes_each=10.0, pattern_factor=0.9), "pattern_factor"),
        (lambda: removal_hours(area=1.0, layers=0, rate=20.0), "layers"),
        (lambda: removal_hours(area=1.0, layers=1, rate=0.0), "rate"),
        (lambda: wall_repair_hours(area=1.0, damaged=101.0, rate=20.0), "damaged"),
        (lambda: removal_tests_wanted(area=0.0, area_per_test=100.0, least=3), "area"),
        (lambda: chance_slower_than_tested(tests=-1), "tests"),
        (
            lambda: worst_removal_rate(slowest_tested=0.0, slowest_known=10.0, tests=3, enough_tests=9),
            "slowest_tested",
        ),
    ],
)
def test_what_makes_no_sense_is_refused_by_name(call, field):
    """Each refusal names the field that is wrong."""
    with pytest.raises(InputError) as caught:
        call()
    assert caught.value.field == field


def test_figures_chain_and_units_cannot_mix():
    """Square meters and minutes are converted; a length is no area."""
    area = leaf("wall", 52.0, "meter**2", ON_SITE)
    rate = leaf("rate", 0.25, "ft**2/minute", ON_SITE)
    layers = leaf("layers", 1, "dimensionless", ON_SITE)
    hours = work(removal_hours, "removal", area=area, layers=layers, rate=rate)
    assert hours.unit == "hour"
    assert hours.value == pytest.approx(52 / 0.3048**2 / 15)
    with pytest.raises(InputError, match="unit"):
        work(removal_hours, "removal", area=leaf("run", 10.0, "ft", ON_SITE), layers=layers, rate=rate)
