"""The estimate as plain text, for a terminal and for the end of a notebook."""

from __future__ import annotations

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.price_risk import bid_for, risk_at_price
from estimating.estimate.whatif.compare import Comparison
from estimating.reports.documents.time_and_materials import by_time
from estimating.reports.format import UnitSystem, dollars, number, shown_value, unit_words
from estimating.workbook import Outcome


def plain_summary(outcome: Outcome, sure: EstimateRanges, shown: UnitSystem = UnitSystem.US) -> str:
    """Return the price offered, what it costs to do, hours, days and the methods compared, in a few lines."""
    estimate = outcome.estimate
    head = f"{outcome.job.title}{' (invented)' if outcome.job.invented else ''}"
    risked = risk_at_price(estimate, sure.cost_draws, float(estimate.price))
    lines = [
        head,
        f"price offered {dollars(estimate.price)}  ({'by time and materials' if by_time(outcome) else 'fixed'})",
        f"cost to do it {dollars(estimate.cost.value)} as planned, {dollars(risked.kept - risked.profit)} on average; "
        f"{dollars(sure.cost.low)} to {dollars(sure.cost.high)} eight times in ten",
        f"expected profit {dollars(risked.profit)}, {risked.margin:.0%} of the price; "
        f"chance of loss {risked.chance:.0%}",
        f"hours {number(estimate.hours.value)}  ({number(sure.hours.low)} to {number(sure.hours.high)})",
        f"days on site {number(estimate.schedule.days.value)} for {number(estimate.schedule.crew.value)} people",
    ]
    for comparison in outcome.comparisons:
        lines += ["", *_methods(comparison, shown)]
    if outcome.questions:
        lines += ["", "Open questions:", *(f"  {each.field}: {each.text}" for each in outcome.questions)]
    return "\n".join(lines)


def _methods(comparison: Comparison, shown: UnitSystem) -> list[str]:
    rows = [f"{comparison.scope}: {comparison.recommended.plan.title}"]
    volume = unit_words("gallon", shown)
    for option in comparison.options:
        paint = shown_value(option.likely.gallons, "gallon", shown)
        risk = next(iter(option.plan.risks), None)
        chance = f"{risk.title.lower()}: {risk.chance.value:.1%}" if risk else ""
        rows.append(
            f"  {option.plan.method:<11} {option.plan.suitability:<15} {number(option.likely.hours):>6} h "
            f"{number(paint):>6} {volume} {dollars(option.price):>11}  {chance}".rstrip()
        )
    return rows + ([f"  {comparison.turning}"] if comparison.turning else [])


def risk_words(outcome: Outcome, sure: EstimateRanges, chance: float) -> str:
    """Return the price for a wanted chance of loss (0 to 1), and what it is expected to leave."""
    bid = bid_for(outcome.estimate, sure.cost_draws, chance)
    return (
        f"for a chance of loss of {chance:.0%}: price {dollars(bid.price)}, "
        f"expected profit {dollars(bid.profit)}, {bid.margin:.0%} of it"
    )
