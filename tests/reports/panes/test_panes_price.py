"""How the age of prices is shown."""

from __future__ import annotations

from datetime import date

from estimating.reports.panes.price import old_prices_line, price_ages
from estimating.review.prices import AgedPrice

DAY = date(2026, 3, 2)
YOUNG = AgedPrice("prices/tape/roll", "Tape", 6.5, DAY, 20, False)
OLD = AgedPrice("prices/flat/gallon", "Flat <gallon>", 34.0, date(2025, 3, 2), 385, True)
UNDATED = AgedPrice("prices/tip/each", "Spray tip", 42.0, None, None, True)


def test_nothing_is_said_of_young_prices() -> None:
    """A line only where one is too old; an estimate without prices has none."""
    assert old_prices_line([YOUNG], 60) == ""
    assert old_prices_line([UNDATED, OLD, YOUNG], 60) == "2 of 3 prices asked more than 60 days ago, or on no known day"
    assert price_ages([], 60) == ""
    assert "No price is older than 60 days" in price_ages([YOUNG], 60)


def test_prices_are_listed_by_their_day_and_the_old_ones_marked() -> None:
    """Each day once, with its prices; what a table says is never markup."""
    shown = price_ages([UNDATED, OLD, YOUNG], 60)
    assert shown.count("too old") == 2
    assert "no day written down" in shown
    assert "2025-03-02, 385 days ago" in shown
    assert "Flat &lt;gallon&gt; $34.00" in shown
    assert shown.index("Spray tip") < shown.index("Flat") < shown.index("Tape")
