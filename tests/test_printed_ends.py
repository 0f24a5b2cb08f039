"""A printed least and most are read as percentiles by one rule, of as many values as are known to stand behind them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from statistics import fmean

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import EvidenceError, InputError
from estimating.evidence import Library, Row, load_library
from estimating.leave_one_out import figures_of, spread_between_publishers
from estimating.origins import Kind
from estimating.printed import by_row, read_printed
from estimating.printed_ends import PERCENTILES_APART, UNKNOWN, Reading, read_reading, widening_of_ends
from estimating.rules import card_of

LIBRARY = load_library()
READ = [row for table in LIBRARY.tables.values() for row in table.values() if row.reading]
counts = st.integers(2, 200)
positive = st.floats(0.01, 1e4)
shares = st.floats(1.05, 10)


def test_the_rule_has_a_card() -> None:
    """Its formula, its unit and how many values it takes."""
    card = card_of(widening_of_ends)
    assert (card.unit, card.arguments["values"]) == ("dimensionless", "dimensionless")
    with pytest.raises(InputError):
        widening_of_ends(values=1.0)


@pytest.mark.parametrize(("values", "apart"), [(2, 2 / math.sqrt(math.pi)), (3, 3 / math.sqrt(math.pi))])
def test_of_two_and_three_values_the_range_is_known_in_closed_form(values: int, apart: float) -> None:
    """The expected range of two normal values is 2/√π standard deviations, of three 3/√π (integrals done by hand)."""
    assert widening_of_ends(values=float(values)) == pytest.approx(PERCENTILES_APART / apart, rel=1e-6)


@pytest.mark.parametrize("values", [4, UNKNOWN, 12, 40])
def test_drawn_values_lie_as_far_apart_as_the_rule_says(values: int) -> None:
    """A hundred thousand draws of so many values, by numpy."""
    drawn = np.random.default_rng(7).standard_normal((100_000, values))
    apart = float((drawn.max(axis=1) - drawn.min(axis=1)).mean())
    assert widening_of_ends(values=float(values)) == pytest.approx(PERCENTILES_APART / apart, rel=0.005)


@given(counts)
def test_more_values_reach_further_into_the_tails(values: int) -> None:
    """So their ends are moved out less, and in beyond some."""
    assert widening_of_ends(values=values + 1.0) < widening_of_ends(values=float(values))


@given(counts, st.floats(0.01, 1e4), shares, shares)
def test_the_order_stays(values: int, likely: float, below: float, above: float) -> None:
    """Low, likely and high keep their order, and the likely value its place."""
    low, high = Reading(values).ends(likely / below, likely, likely * above)
    assert 0 < low < likely < high


@given(counts, positive, shares)
def test_an_even_range_stays_even(values: int, likely: float, share: float) -> None:
    """As far below as above on the logarithmic scale, to the digits kept."""
    low, high = Reading(values).ends(likely / share, likely, likely * share)
    assert likely / low == pytest.approx(high / likely, rel=2e-3)


@given(positive, shares, shares)
def test_a_ceiling_moves_the_upper_end_alone(likely: float, below: float, above: float) -> None:
    """Nothing is printed of the lower one."""
    low, high = Reading(UNKNOWN, ceiling=True).ends(likely / below, likely, likely * above)
    assert low == likely / below
    assert high > likely


def test_nothing_is_moved_across_nought_or_past_the_likely_value() -> None:
    """A loss that may be nothing may still be nothing; an end that is the likely value stays it."""
    assert Reading(2).ends(0.0, 30.0, 55.0)[0] == 0.0
    assert Reading(2).ends(1.0, 2.0, 2.0)[1] == 2.0


def test_a_reading_is_one_of_three() -> None:
    """Blank, a range, so many values, a ceiling; anything else is refused by name."""
    assert read_reading("", "x") is None
    assert read_reading("ends", "x") == Reading(UNKNOWN)
    assert read_reading("3 values", "x") == Reading(3)
    assert read_reading("ceiling", "x") == Reading(UNKNOWN, ceiling=True)
    for wrong in ("1 values", "three values", "range"):
        with pytest.raises(EvidenceError, match="coverage/wall"):
            read_reading(wrong, "coverage/wall")


def test_six_values_is_what_printed_ranges_of_coverage_look_like() -> None:
    """Their mean width over the spread between publishers is nearest the range of so many values, give or take one."""
    found = figures_of(LIBRARY, read_printed())
    spread = spread_between_publishers(each for each in found if each.row.table == "coverage")
    widths = {(each.title, each.place, low, high): math.log(high / low) for each, low, high in _ranges(LIBRARY)}
    apart = fmean(widths.values()) / spread
    nearest = min(range(2, 30), key=lambda values: abs(PERCENTILES_APART / widening_of_ends(values=values) - apart))
    assert abs(nearest - UNKNOWN) <= 1


def _ranges(library: Library) -> Iterator[tuple[object, float, float]]:
    for key, several in by_row(read_printed(), library).items():
        row = library.named(key)
        for each in several:
            if row.table == "coverage" and row.low < row.high and each.plain(row):
                low, high = each.ends(row.unit)
                if 0 < low < high:
                    yield each, low, high


@pytest.mark.parametrize("row", READ, ids=lambda row: row.key)
def test_a_row_that_is_read_keeps_what_is_printed(row: Row) -> None:
    """Its table says the printed ends; low and high are what the rule makes of them, and never beyond the whole."""
    assert row.reading
    assert row.printed
    low, high = row.reading.ends(row.printed[0], row.likely, row.printed[1])
    assert row.low == low
    assert row.high == high or row.unit == "percent"


def test_every_row_made_from_one_printed_range_is_read() -> None:
    """Published, with the ends that a source of its own prints: it may not pass as percentiles by itself."""
    titles = {str(entry["title"]): key for key, entry in LIBRARY.sources.items()}
    missing = [
        key
        for key, several in by_row(read_printed(), LIBRARY).items()
        for row in [LIBRARY.named(key)]
        if row.table not in NO_SAMPLES and row.origin.kind is Kind.PUBLISHED and row.low < row.likely < row.high
        for each in several
        if each.plain(row) and titles.get(each.title) in row.origin.source.split("; ")
        if each.low < each.high and each.ends(row.unit) == pytest.approx(row.written) and not row.reading
    ]
    assert not missing


NO_SAMPLES = {
    "adhesion",
    "production",
    "factors",
}  # classes of a test; tables of judgment, whose few such rows are checks


def test_a_ceiling_against_a_wall_is_read_of_its_three_norms() -> None:
    """Three printed values, to the two digits of their table."""
    row = LIBRARY.row("factors", "element", "ceiling")
    low, high = Reading(3).ends(1.16, row.likely, 1.39)
    assert (row.low, row.high) == (round(low, 2), round(high, 2))
