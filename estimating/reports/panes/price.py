"""How old the prices under an estimate are, as a line and as a list."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import groupby

from estimating.reports.format import dollars, number
from estimating.review.prices import AgedPrice, old_ones


def old_prices_line(prices: Sequence[AgedPrice], trusted: float) -> str:
    """Return in a few words how many prices are older than they are trusted; empty when none is."""
    old = old_ones(prices)
    if not old:
        return ""
    count = f"{len(old)} of {len(prices)} prices" if len(prices) > 1 else "the price"
    return f"{count} asked more than {number(trusted)} days ago, or on no known day"


def price_ages(prices: Sequence[AgedPrice], trusted: float) -> str:
    """Return the prices by the day they were asked, the oldest first, those too old marked."""
    if not prices:
        return ""
    warning = old_prices_line(prices, trusted)
    head = (
        f'<p class="pe-mind" role="status">{escape(warning)}: ask again before you send.</p>'
        if warning
        else f'<p class="pe-small">No price is older than {number(trusted)} days.</p>'
    )
    days = groupby(prices, key=lambda each: (each.priced_on, each.days, each.old))
    items = "".join(_day(*day, list(several)) for day, several in days)
    return f"{head}<details><summary>Prices by the day they were asked</summary><ul>{items}</ul></details>"


def _day(priced_on: object, days: int | None, old: bool, prices: list[AgedPrice]) -> str:
    when = f"{priced_on}, {days} days ago" if days is not None else "no day written down"
    named = "; ".join(f"{escape(each.name)} {dollars(each.dollars)}" for each in prices)
    mark = ' <span class="pe-mind">too old</span>' if old else ""
    return f"<li>{when}{mark}: {named}</li>"
