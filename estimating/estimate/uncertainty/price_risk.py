"""What a price risks, and what price a risk asks for."""

from __future__ import annotations

import re
from dataclasses import dataclass

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Section
from estimating.estimate.uncertainty.ranges import Array, chance_of_loss, price_for_chance

PRICE = re.compile(r"\$?\s*(?P<amount>(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?)")
CHANCE = re.compile(r"(?P<amount>\d+(?:\.\d+)?)\s*(?:%|percent)?")
LEAST, MOST = 1.0, 99.0  # percent: a range given by its 10th and 90th percentile claims nothing beyond these


@dataclass(frozen=True)
class PriceRisk:
    """A price as the client pays it, in dollars, and what it risks."""

    price: float
    kept: float  # of the price, once the sales tax on it is passed on
    chance: float  # that the job costs more than is kept, 0 to 1
    profit: float  # what is kept less what the job costs, on average
    loss: float  # the cost less what is kept, on average where it is more; 0 where it never is

    @property
    def margin(self) -> float:
        """The profit on average, as a share of what is kept."""
        return self.profit / self.kept if self.kept else 0.0


def read_price(text: str) -> float:
    """Return the dollars of a typed price, such as 1,950 or $1950.00."""
    found = PRICE.fullmatch(text.strip())
    amount = float(found["amount"].replace(",", "")) if found else 0.0
    if not amount > 0:
        raise InputError("price", text, "an amount in dollars, such as 1,950")
    return amount


def read_chance(text: str) -> float:
    """Return a typed chance as a share from 0 to 1; a bare number is percent, as everywhere in a job file."""
    found = CHANCE.fullmatch(text.strip())
    percent = float(found["amount"]) if found else 0.0
    if not LEAST <= percent <= MOST:
        raise InputError("chance of loss", text, f"a chance from {LEAST:g} to {MOST:g} percent, such as 10")
    return percent / 100


def risk_at_price(estimate: Estimate, cost_draws: Array, price: float) -> PriceRisk:
    """Return what a price risks; cost_draws are those of the estimate's cost, in dollars."""
    kept = price * _kept_share(estimate)
    short = cost_draws[cost_draws > kept] - kept
    return PriceRisk(
        price=price,
        kept=kept,
        chance=chance_of_loss(cost_draws, kept),
        profit=float(kept - cost_draws.mean()),
        loss=float(short.mean()) if short.size else 0.0,
    )


def bid_for(estimate: Estimate, cost_draws: Array, chance: float) -> PriceRisk:
    """Return the lowest price that loses money with no more than this chance (0 to 1), and what it risks."""
    return risk_at_price(estimate, cost_draws, price_for_chance(cost_draws, chance) / _kept_share(estimate))


def _kept_share(estimate: Estimate) -> float:
    """Return what is kept of each dollar that the client pays, as in this estimate: some lines may be untaxed."""
    tax = sum(line.amount.value for line in estimate.section(Section.SALES_TAX))
    return 1.0 - tax / estimate.amount.value if tax else 1.0
