"""How old the prices are that an estimate rests on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from estimating.errors import EstimatingError
from estimating.evidence import Basis, Library, OwnValue
from estimating.figures import Figure, leaves
from estimating.learning.calibration import old_prices
from estimating.records.price_list import asked_on, read_day, trusted_days
from estimating.records.sent import SentEstimate
from estimating.row_key import RowKey
from estimating.workbook import estimate_job, parse_job

PRICES = RowKey("prices")


@dataclass(frozen=True)
class AgedPrice:
    """A price with the day it was asked: how many days ago, and whether that is longer than prices are trusted."""

    key: str
    name: str
    dollars: float
    priced_on: date | None  # None where nobody wrote the day down
    days: int | None
    old: bool


def aged_prices(amount: Figure, basis: Basis, today: date) -> tuple[AgedPrice, ...]:
    """Return the prices an amount rests on with their ages, those without a day first, then the oldest first."""
    figures = {figure.key: figure for figure in leaves([amount]) if RowKey.parse(figure.key).below(PRICES)}
    asked = {key: _asked_on(key, basis) for key in figures}
    dated = [(key, day) for key, day in asked.items() if day is not None]
    old = {each.item for each in old_prices(dated, today=today, trusted_days=int(trusted_days(basis)))}
    found = [
        AgedPrice(key, each.name, each.value, day, (today - day).days if day else None, day is None or key in old)
        for key, each in figures.items()
        for day in [asked[key]]
    ]
    return tuple(sorted(found, key=_oldest_first))


def prices_of_open(
    open_: Iterable[SentEstimate], library: Library, own: Mapping[str, OwnValue], today: date
) -> tuple[AgedPrice, ...]:
    """Return the prices that the open estimates would rest on now, each once; a job that has no price adds none."""
    found: dict[str, AgedPrice] = {}
    for sent in open_:
        try:
            outcome = estimate_job(parse_job(sent.job.toml), library, own)
        except EstimatingError:
            continue  # said where its price is shown
        found.update({each.key: each for each in aged_prices(outcome.estimate.amount, outcome.basis, today)})
    return tuple(sorted(found.values(), key=_oldest_first))


def old_ones(prices: Iterable[AgedPrice]) -> tuple[AgedPrice, ...]:
    """Return the prices that are not to be trusted any more."""
    return tuple(each for each in prices if each.old)


def _oldest_first(price: AgedPrice) -> tuple[int, str]:
    return (-(10**9) if price.days is None else -price.days, price.key)


def _asked_on(key: str, basis: Basis) -> date | None:
    """Return the day of an own value where one stands, else the day the table gives the price."""
    return read_day(asked_on(basis.library.named(key), basis.own.get(key)))
