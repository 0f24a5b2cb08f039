"""Days fit for a coat outdoors: what textbooks and stations print of rain, and what holds of every season."""

from __future__ import annotations

from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.errors import InputError
from estimating.evidence import load_library
from estimating.trade import weather

shares = st.floats(0.05, 0.95)


def test_decembers_of_a_textbook() -> None:
    """A finite mathematics text on Decembers in Tel Aviv: wet after wet 213 of 326 days, wet after dry 117 of 511.

    The chain's own share of wet days and its persistence give the dry days' rain back, and 326 of 837 days were wet.
    """
    after_wet, after_dry = 213 / 326, 117 / 511
    persistence = after_wet - after_dry
    wet = after_dry / (1 - persistence)
    found = weather.rain_after_a_dry_day(wet=326 / 837, persistence=persistence)
    assert found == pytest.approx(after_dry, abs=0.006)
    assert wet == pytest.approx(326 / 837, abs=0.01)
    row = load_library().row("climate", "rain_persistence", "any")
    assert row.low <= persistence <= row.high


def test_an_island_of_a_statistics_quiz() -> None:
    """California State University, quiz 15, model D: rain after rain 0.4, after a dry day 0.1; in the long run 1/7."""
    assert weather.rain_after_a_dry_day(wet=1 / 7, persistence=0.4 - 0.1) == pytest.approx(0.1)
    # model A: days by themselves, 1 in 7; dry for a day and the next
    assert weather.dry_spell_share(wet=1 / 7, persistence=0.0, hours=24.0) == pytest.approx((6 / 7) ** 2)


def test_a_station_by_a_cool_sea_is_at_the_low_end_of_the_spread() -> None:
    """Macaulay Elementary School, Victoria, May 2007, 2008 and 2012: 2.2, 2.0 and 2.1 °C, so about 3.8 °F."""
    row = load_library().row("climate", "daily_spread", "any")
    for celsius in (2.2, 2.0, 2.1):
        assert celsius * 1.8 == pytest.approx(row.low, abs=0.45)


@pytest.mark.parametrize(
    ("limit", "hours"), [(40.0, 24.0), (50.0, 12.0), (55.0, 8.0), (60.0, 0.0), (70.0, 0.0), (30.0, 24.0)]
)
def test_hours_of_a_sine_by_hand(limit: float, hours: float) -> None:
    """Between 40 and 60 °F half the day is over 50 and a third over 55, as a sine is over a half."""
    assert weather.hours_above(night_low=40.0, day_high=60.0, limit=limit) == pytest.approx(hours, abs=1e-6)


def test_a_day_without_a_swing_is_refused() -> None:
    """The method has nothing to say of it."""
    with pytest.raises(InputError):
        weather.hours_above(night_low=50.0, day_high=50.0, limit=45.0)


def test_mild_days_by_the_normal_table() -> None:
    """A night 8 °F over its limit with a spread of 8: 0.8413; a day 16 °F under the heat limit takes 0.0228 off."""
    found = weather.mild_share(
        night_low=48.0, day_high=74.0, spread=8.0, night_least=40.0, day_least=50.0, day_most=90.0
    )
    assert found == pytest.approx(0.8413 - 0.0228, abs=1e-4)


def test_days_lost_and_the_chance_of_more_by_hand() -> None:
    """Three coats on half the days: three days lost on average; fewer than three heads in six tosses is 22 in 64."""
    assert weather.days_lost(coats=3.0, share=0.5) == 3
    heads = sum(comb(6, n) for n in range(3)) / 64
    assert weather.chance_of_slip(coats=3.0, share=0.5, allowed=3.0) == pytest.approx(heads)
    assert weather.days_lost(coats=4.0, share=1.0) == 0
    assert weather.chance_of_slip(coats=4.0, share=1.0, allowed=0.0) == pytest.approx(0)


def test_a_surface_is_five_degrees_over_its_dew_point() -> None:
    """MIL-HDBK-1110, 9.6.6: and never under the least for the paint."""
    assert weather.surface_limit(least=50.0, dew_point=52.0, margin=5.0) == 57
    assert weather.surface_limit(least=50.0, dew_point=30.0, margin=5.0) == 50


@given(shares, shares, st.floats(0, 72), st.floats(0, 72))
def test_more_rain_and_longer_waits_never_make_more_days_fit(
    wet: float, persistence: float, one: float, other: float
) -> None:
    """And days that hang together make dry spells longer, never rarer."""
    shorter, longer = sorted((one, other))
    dry = {"wet": wet, "persistence": persistence}
    assert weather.dry_spell_share(**dry, hours=longer) <= weather.dry_spell_share(**dry, hours=shorter)
    assert (
        weather.dry_spell_share(wet=wet, persistence=0.0, hours=longer)
        <= weather.dry_spell_share(**dry, hours=longer) + 1e-12
    )


@given(st.integers(1, 8), shares, st.integers(0, 20))
def test_allowing_more_days_never_slips_oftener(coats: int, share: float, allowed: int) -> None:
    """Nor does a better month."""
    slips = weather.chance_of_slip(coats=float(coats), share=share, allowed=float(allowed))
    assert weather.chance_of_slip(coats=float(coats), share=share, allowed=allowed + 1.0) <= slips + 1e-12
    assert weather.chance_of_slip(coats=float(coats), share=share * 1.05, allowed=float(allowed)) <= slips + 1e-12
