"""How sure a price is, as HTML: what it risks, the prices that may be offered, and how often the job costs how much."""

from __future__ import annotations

from collections.abc import Mapping

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.offers import MARKUP, By, Offer
from estimating.estimate.uncertainty.offers import offers as find_offers
from estimating.estimate.uncertainty.price_risk import PriceRisk
from estimating.evidence import Basis, OwnValue
from estimating.reports.charts import whatif as charts
from estimating.reports.format import dollars
from estimating.reports.panes.desk_panes import table
from estimating.units import convert
from estimating.workbook import Outcome

LEANS = 0.005  # as a share of the likely cost: nearer than this the median is called the same


def how_sure(outcome: Outcome, sure: EstimateRanges, bid: PriceRisk, wanted: PriceRisk | None = None) -> str:
    """Return what a price risks, what price a wanted chance asks for, and how often the job costs how much."""
    likely = outcome.estimate.cost.value
    chart = charts.cost_chart(sure.cost_draws, likely, bid)
    asked = f"<p>{_asked(wanted)}</p>" if wanted else ""
    return (
        f'<p>{_risk(bid)}</p>{asked}<div class="pe-drawing">{chart}</div>'
        f"<p>{_leaning(likely, sure.cost.median)} {_mean(sure)}</p>"
        '<p class="pe-small">Cost is everything but profit: labor with its burden, goods, equipment, allowances and '
        "overhead. The chart ends where 1 draw in 100 costs more.</p>"
    )


def offers_of(outcome: Outcome, sure: EstimateRanges, own: Mapping[str, OwnValue], chance: float) -> tuple[Offer, ...]:
    """Return the prices that may be offered; own: the contractor's values for every job. None without a price."""
    of_job = outcome.basis.used().get(MARKUP)
    if of_job is None or not outcome.estimate.lines:
        return ()
    figure = Basis(outcome.basis.library, own).figure("business", "markup")
    usual = figure.value_in("percent")

    def priced(markup: float) -> float:
        return float(outcome.moved({MARKUP: float(convert(markup, "percent", of_job.unit))}).price)

    return find_offers(outcome.estimate, sure.cost_draws, priced, usual=usual, chance=chance)


def offers(outcome: Outcome, sure: EstimateRanges, own: Mapping[str, OwnValue], chance: float) -> str:
    """Return the prices that may be offered as a table: by the plan, by the mean and by a wanted chance of loss."""
    found = offers_of(outcome, sure, own, chance)
    rows = [
        [
            f"price {each.by}" + (f" of {chance:.0%}" if each.by is By.CHANCE else ""),
            f"<strong>{dollars(each.risk.price)}</strong>",
            f"{each.markup:.2f} %",
            f"{dollars(each.risk.profit)}, {each.risk.margin:.0%}",
            share(each.risk.chance),
        ]
        for each in found
    ]
    return table(("", "price offered", "markup on cost", "expected profit", "chance of loss"), rows) if rows else ""


def _risk(bid: PriceRisk) -> str:
    tax = f" (of it {dollars(bid.price - bid.kept)} is sales tax)" if bid.price - bid.kept >= 0.005 else ""
    left = "leaves" if bid.profit >= 0 else "is short by"
    loses = f" Where it loses, it loses {dollars(bid.loss)} on average." if bid.loss else ""
    return (
        f"At {dollars(bid.price)}{tax} the chance of losing money is <strong>{share(bid.chance)}</strong>. "
        f"On average such a price {left} {dollars(abs(bid.profit))}.{loses}"
    )


def _asked(wanted: PriceRisk) -> str:
    return f"To lose money with a chance of {share(wanted.chance)}, ask <strong>{dollars(wanted.price)}</strong>."


def _leaning(likely: float, median: float) -> str:
    apart = median - likely
    if abs(apart) <= LEANS * likely:
        return f"Half of the draws cost more than {dollars(median)}, about the likely cost: costs lean to neither side."
    side, why = (
        ("above", "lean to the high side: more can go wrong than can go better than planned")
        if apart > 0
        else ("below", "lean to the low side: more can go better than planned than can go wrong")
    )
    return (
        f"The likely cost, worked out from likely values alone, is {dollars(likely)}. Half of the draws cost more than "
        f"{dollars(median)}: the median lies {dollars(abs(apart))} {side} the likely cost, because costs {why}."
    )


def _mean(sure: EstimateRanges) -> str:
    return (
        f"On average over all draws it costs {dollars(float(sure.cost_draws.mean()))}: what one of many such jobs "
        "comes to, and what the expected profit is counted from."
    )


def share(chance: float) -> str:
    """Return a chance in percent, without claiming none or certain."""
    if chance < 0.005:
        return "under 1%"
    return "over 99%" if chance > 0.995 else f"{chance:.0%}"
