"""What is left of a price, as a margin and as a markup, and the price that leaves a wanted margin."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.pricing.lines import Section
from estimating.reports.format import dollars
from estimating.trade.pricing import margin_of, markup_from_margin, price_from_margin


@dataclass(frozen=True)
class Profit:
    """What a price leaves before the tax charged on it, in dollars and as a share."""

    price: float  # with sales tax, as it stands on the proposal
    profit: float
    margin: float  # of the price before sales tax
    markup: float | None  # on cost; None where the job loses money


def _tax_share(estimate: Estimate) -> float:
    rates = [line.unit_cost for line in estimate.section(Section.SALES_TAX) if line.unit_cost]
    return sum(rate.value / 100 if rate.unit == "percent" else rate.value for rate in rates)


def kept_now(estimate: Estimate) -> Profit:
    """Return what the likely price leaves over the likely cost."""
    before_tax = float(estimate.price) - sum(float(line.amount.value) for line in estimate.section(Section.SALES_TAX))
    return _kept(float(estimate.price), before_tax, float(estimate.cost.value))


def kept_at_margin(estimate: Estimate, margin: float) -> Profit:
    """Return the price that leaves a margin, a share of the price before sales tax.

    Raises InputError for a margin below 0, or of the whole price.
    """
    before_tax = float(price_from_margin(cost=estimate.cost.value, margin=margin))
    return _kept(before_tax * (1 + _tax_share(estimate)), before_tax, float(estimate.cost.value))


def _kept(price: float, before_tax: float, cost: float) -> Profit:
    margin = float(margin_of(price=before_tax, cost=cost))
    return Profit(price, before_tax - cost, margin, float(markup_from_margin(margin=margin)) if margin >= 0 else None)


def profit_words(estimate: Estimate, wanted: float | None = None) -> str:
    """Return margin and markup of the price in a line, and in a second one the price for a wanted margin."""
    now = kept_now(estimate)
    lines = [f"kept of it: {dollars(now.profit)}, {_shares(now)}"]
    if wanted is not None:
        other = kept_at_margin(estimate, wanted)
        lines.append(f"for a margin of {wanted:.1%}: {dollars(other.price)}, {_shares(other)}")
    return "\n".join(lines)


def _shares(kept: Profit) -> str:
    return f"a margin of {kept.margin:.1%} of the price before sales tax, {_markup(kept)}"


def _markup(kept: Profit) -> str:
    return f"a markup of {kept.markup:.1%} on cost" if kept.markup is not None else "below cost"


def markup_words(estimate: Estimate) -> str:
    """Return the markup that the price comes to, in words."""
    return _markup(kept_now(estimate))
