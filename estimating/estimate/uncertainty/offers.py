"""Three prices to offer one job at: by the plan, by what it costs on average, and by a wanted chance of loss.

Each is a markup of this job alone, so that tax, discount, minimum and rounding go on as ever.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.uncertainty.price_risk import PriceRisk, bid_for, risk_at_price
from estimating.estimate.uncertainty.ranges import Array
from estimating.row_key import RowKey

MARKUP = str(RowKey.of("business", "markup"))
USUAL_CHANCE = 0.10
MOST = 1000.0  # percent
STEPS = 100  # a markup is told to a hundredth of a percent
Priced = Callable[[float], float]  # a markup in percent → the price of the job in dollars


class By(StrEnum):
    """What a price is set by."""

    PLAN = "as planned"
    MEAN = "from the mean"
    CHANCE = "for a chance of loss"


@dataclass(frozen=True)
class Offer:
    """A price to offer, the markup on cost that comes to it (percent), and what it risks."""

    by: By
    markup: float
    risk: PriceRisk


def offers(
    estimate: Estimate, cost_draws: Array, priced: Priced, *, usual: float, chance: float = USUAL_CHANCE
) -> tuple[Offer, ...]:
    """Return the three prices; usual: the contractor's markup, percent; chance: of loss, 0 to 1.

    By the plan the usual markup goes on the likely cost; by the mean it goes on the mean of the draws. Raises
    InputError where no markup comes to the price that the chance asks for.
    """
    mean = (1 + usual / 100) * float(cost_draws.mean()) / estimate.cost.value - 1
    markups = {
        By.PLAN: usual,
        By.MEAN: math.ceil(100 * STEPS * mean - 1e-6) / STEPS,
        By.CHANCE: markup_for(bid_for(estimate, cost_draws, chance).price, priced),
    }
    return tuple(
        Offer(by, markup, risk_at_price(estimate, cost_draws, priced(markup))) for by, markup in markups.items()
    )


def markup_for(price: float, priced: Priced) -> float:
    """Return the least markup, percent to a hundredth, at which the job is sold for no less than a price in dollars.

    No markup where the job is sold for as much without one, as a minimum charge may do. Raises InputError for a price
    that the largest markup does not come to.
    """
    low, high = -1, round(MOST * STEPS)
    if priced(MOST) < price:
        raise InputError("price", price, f"a price that a markup of {MOST:g} % comes to")
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if priced(middle / STEPS) >= price else (middle, high)
    return high / STEPS
