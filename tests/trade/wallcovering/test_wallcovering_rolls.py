from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import EvidenceError, InputError
from estimating.figures import leaf, work
from estimating.origins import Kind, Origin
from estimating.rules import card_of
from estimating.trade.wallcovering import rolls as wallcovering
from estimating.trade.wallcovering.rolls import (
    cut_length,
    length_to_order,
    paper_waste,
    part_cut_length,
    rolls_by_area,
    rolls_to_order,
    running_length,
    running_length_by_area,
    strip_length,
    usable_area,
)

ON_SITE = Origin(Kind.MEASURED, place="test")

# Whole millimeters, so that a hair of binary rounding is never the subject of a test.
heights = st.integers(1800, 3600).map(lambda mm: mm / 1000)
repeats = st.integers(20, 1200).map(lambda mm: mm / 1000)
runs = st.integers(500, 40000).map(lambda mm: mm / 1000)
drops = st.sampled_from([1, 2, 3])


def test_a_strip_is_cut_long_at_both_ends():
    """A printed allowance of 6 in top and bottom together on a 9 ft wall (daves-tips-paper) makes 9½ ft."""
    assert strip_length(height=9.0, top_trim=0.25, bottom_trim=0.25) == 9.5


def test_the_cut_is_the_next_whole_repeat():
    """102 in at a 19 in repeat is 5.36 repeats, so 6, so 114 in (repeat-example-paraphrased)."""
    cut = cut_length(strip_length=102.0, repeat=19.0, drops=1)
    assert cut == 114


def test_no_pattern_wastes_nothing():
    """A random match uses no more of the roll than the strip is long."""
    assert cut_length(strip_length=2.61, repeat=0.0, drops=1) == 2.61


def test_half_a_drop_loses_at_most_half_a_repeat():
    """At a 24 in repeat a half drop loses up to 12 in a strip, a straight match up to 24 (walls-design-shop)."""
    strips = np.arange(73.0, 121.0)
    straight = cut_length(strip_length=strips, repeat=24.0, drops=1) - strips
    half = cut_length(strip_length=strips, repeat=24.0, drops=2) - strips
    assert straight.max() == 23
    assert half.max() == 11
    assert np.all(half <= straight)


@given(heights, repeats, drops)
def test_a_cut_holds_its_strip_and_wastes_less_than_a_step(strip, repeat, parts):
    """Never shorter than the strip, never longer by a whole step of the pattern."""
    cut = cut_length(strip_length=strip, repeat=repeat, drops=parts)
    assert strip <= cut + 1e-9
    assert cut < strip + repeat / parts + 1e-9


@given(heights, repeats, st.integers(2, 5))
def test_a_repeat_that_is_a_multiple_of_another_never_uses_less(strip, repeat, times):
    """Every whole multiple of the long repeat is one of the short repeat too."""
    short = cut_length(strip_length=strip, repeat=repeat, drops=1)
    assert cut_length(strip_length=strip, repeat=repeat * times, drops=1) >= short - 1e-9


def test_a_longer_repeat_may_use_less():
    """8 ft strips use 10 ft at a 5 ft repeat and 8 ft at an 8 ft repeat: it is the fit that counts, not the length."""
    assert cut_length(strip_length=8.0, repeat=5.0, drops=1) == 10
    assert cut_length(strip_length=8.0, repeat=8.0, drops=1) == 8


def test_a_part_begins_where_its_pattern_does():
    """Over a door it starts at the ceiling; under a window the offcut is skipped to the pattern at the sill.

    At a 2 ft repeat a part 2½ ft long uses 4 ft. One that begins 5 ft down skips 1 ft first: 3½, so 4 ft; one that
    begins 5½ ft down skips 1½ ft: 4 ft; 5¾ ft down: 4¼, so 6 ft.
    """
    part = {"part_length": 2.5, "repeat": 2.0, "drops": 1, "full_cut": 10.0}
    cuts = [part_cut_length(below_top=below, **part) for below in (0.0, 5.0, 5.5, 5.75)]
    assert cuts == [4, 4, 4, 6]


def test_a_part_is_never_cut_longer_than_a_full_strip():
    """A full strip holds every part of itself."""
    assert part_cut_length(part_length=7.0, below_top=1.9, repeat=2.0, drops=2, full_cut=8.0) == 8


def test_a_part_without_pattern_uses_its_own_length():
    """Nothing is skipped for a random match, however low the part begins."""
    assert part_cut_length(part_length=2.5, below_top=5.0, repeat=0.0, drops=1, full_cut=10.0) == 2.5


def test_the_order_is_whole_packs_with_the_spare():
    """37 strips' rolls and a spare: 12 + 1, sold by twos 14."""
    assert rolls_to_order(rolls=12, spare=1, pack=1) == 13
    assert rolls_to_order(rolls=12, spare=1, pack=2) == 14


@pytest.mark.parametrize(("area", "width", "yards"), [(1500, 54, 112), (2025, 36, 225)])
def test_wide_goods_by_area_as_a_trade_association_prints_them(area, width, yards):
    """Printed (wca-commercial): 1500 ft² of 54 in goods is 112 yd; 2025 ft² of 36 in goods is 225 yd, before waste."""
    length = running_length_by_area(area=area, width=width / 12, waste=0)
    assert length_to_order(length=length, spare=0, step=3) == yards * 3


def test_wide_goods_by_strips():
    """A 54 in bolt round a 60 ft corridor 9 ft high: 14 strips of 9½ ft, 133 ft, 45 yd; a tenth more by area is 49."""
    length = running_length(strips=14, cut_length=9.5)
    assert length == 133
    assert length_to_order(length=length, spare=0.0, step=3.0) == 135
    assert length_to_order(length=length, spare=9.5, step=3.0) == 144
    assert running_length_by_area(area=540.0, width=4.5, waste=10.0) == pytest.approx(132)


def test_waste_is_what_is_bought_and_not_hung():
    """Ten rolls of 56 ft² for 420 ft² of wall leave a quarter."""
    assert paper_waste(covered_area=420.0, rolls=10, roll_length=32.0, width=1.75) == pytest.approx(25)
    with pytest.raises(InputError, match="covered_area"):
        paper_waste(covered_area=561.0, rolls=10, roll_length=32.0, width=1.75)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: strip_length(height=-8.0, top_trim=0.1, bottom_trim=0.1), "height"),
        (lambda: strip_length(height=8.0, top_trim=-0.1, bottom_trim=0.1), "top_trim"),
        (lambda: cut_length(strip_length=8.0, repeat=-1.0, drops=1), "repeat"),
        (lambda: cut_length(strip_length=8.0, repeat=1.0, drops=0), "drops"),
        (lambda: cut_length(strip_length=8.0, repeat=1.0, drops=1.5), "drops"),
        (lambda: rolls_by_area(area=100.0, usable_area=0.0), "usable_area"),
        (lambda: rolls_to_order(rolls=10, spare=-1, pack=1), "spare"),
        (lambda: running_length_by_area(area=100.0, width=4.5, waste=-1.0), "waste"),
        (lambda: cut_length(strip_length=math.nan, repeat=1.0, drops=1), "strip_length"),
    ],
)
def test_what_cannot_be_hung_is_refused_by_name(call, field):
    """Each refusal names the field that is wrong."""
    with pytest.raises(InputError) as caught:
        call()
    assert caught.value.field == field


def test_arrays_give_what_their_numbers_give():
    """Draws of a height run through the rules at once, and agree with one at a time."""
    high = np.array([2.31, 2.5, 2.75, 3.4])
    cuts = cut_length(strip_length=high, repeat=0.64, drops=2)
    for place, height in enumerate(high):
        cut = cut_length(strip_length=float(height), repeat=0.64, drops=2)
        assert cuts[place] == cut


def _measured(name: str, value: float, unit: str):
    return leaf(name, value, unit, ON_SITE)


def test_figures_in_other_units_give_the_same_strip():
    """A height in meters and trims in inches and feet are converted at the door, not mixed."""
    length = work(
        strip_length,
        "strip",
        height=_measured("height", 2.4384, "meter"),
        top_trim=_measured("top", 2, "inch"),
        bottom_trim=_measured("bottom", 0.25, "ft"),
    )
    assert length.value == pytest.approx(8 + 5 / 12)
    assert [each.name for each in length.walk()] == ["height", "top", "bottom", "strip"]


def test_an_area_is_no_length():
    """A figure of the wrong dimension is refused, and so is a bare number."""
    roll = _measured("roll", 10.05, "meter")
    with pytest.raises(InputError, match="unit"):
        work(length_to_order, "order", length=roll, spare=roll, step=_measured("step", 30, "ft**2"))
    with pytest.raises(EvidenceError, match="bare number"):
        work(length_to_order, "order", length=roll, spare=roll, step=2.5)


def test_every_public_function_is_a_rule_with_a_formula():
    """Nothing in the module can be counted without its formula, units and origin."""
    functions = [
        each
        for name, each in vars(wallcovering).items()
        if callable(each) and not name.startswith("_") and each.__module__ == wallcovering.__name__
    ]
    assert len(functions) == 10
    assert all(card_of(each).formula for each in functions)


def test_another_size_of_roll_loses_the_same_share():
    """A printed 28 ft² roll uses 22; one of 57 ft² then uses 57 × 22 ÷ 28, 44.8."""
    assert usable_area(width=1.75, length=57 / 1.75, single=28.0, single_usable=22.0) == pytest.approx(44.786, abs=5e-4)
    with pytest.raises(InputError, match="single_usable"):
        usable_area(width=1.75, length=30.0, single=22.0, single_usable=28.0)
