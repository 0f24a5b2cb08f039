"""The bar over a job: price, what the work costs drawn to scale, hours, days, margin, chance of loss, last change."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.ranges import chance_of_loss
from estimating.reports.format import dollars, number

NOTHING_YET = "Type or paste a room below, or press New; the price appears here."
STALE = "From before the last change: put the marked fields right to bring it up to date."
WIDE, HIGH = 300.0, 44.0


@dataclass(frozen=True)
class Step:
    """What the last change did to the price (dollars) and the hours."""

    price: float = 0.0
    hours: float = 0.0

    def __str__(self) -> str:
        if abs(self.price) < 0.5 and abs(self.hours) < 0.05:
            return "no change"
        more, longer = ("+" if each >= 0 else "−" for each in (self.price, self.hours))
        return f"{more}${abs(self.price):,.0f}, {longer}{abs(self.hours):.1f} h"


@dataclass(frozen=True)
class Cheap:
    """The figures that are shown at once."""

    price: float
    hours: float
    days: float
    margin: float  # as planned, a share of what is kept
    kept: float  # of the price, once the sales tax on it is passed on

    @classmethod
    def of(cls, estimate: Estimate) -> Cheap:
        """Return the figures of an estimate."""
        days = estimate.schedule.days.value
        return cls(float(estimate.price), estimate.hours.value, days, estimate.margin, float(estimate.kept))

    def since(self, before: Cheap) -> Step:
        """Return what has changed since other figures."""
        return Step(self.price - before.price, self.hours - before.hours)


def price_words(now: Cheap, step: Step | None, stale: bool) -> str:
    """Return the price and what the last change did to it."""
    change = f' <span class="bar-step">{escape(str(step))}</span>' if step else ""
    mark = f'<p class="pe-stale" role="status">{STALE}</p>' if stale else ""
    old = " pe-old" if stale else ""
    return (
        f'<div class="bar-price{old}"><span class="pe-name">Price</span>'
        f"<strong>{dollars(round(now.price, 2))}</strong>{change}</div>{mark}"
    )


def facts(now: Cheap, sure: EstimateRanges | None, people: int) -> str:
    """Return hours, days, margin and, once it is worked out, the chance of loss."""
    chance = f"{chance_of_loss(sure.cost_draws, now.kept):.0%}" if sure else "…"
    expected = f"{1 - sure.cost_draws.mean() / now.kept:.0%} expected" if sure and now.kept else ""
    hours = f"{number(sure.hours.low)}–{number(sure.hours.high)}" if sure else ""
    days = f"{number(sure.days.low)}–{number(sure.days.high)}" if sure and sure.days.low < sure.days.high else ""
    crew = "1 person" if people == 1 else f"{people} people"
    shown = (
        ("Hours", f"{now.hours:,.1f}", hours),
        (f"Days, {crew}", number(now.days), days),
        ("Margin as planned", f"{now.margin:.0%}", expected),
        ("Chance of loss", chance, ""),
    )
    return "".join(
        f'<div class="bar-fact"><span class="pe-name">{escape(name)}</span>'
        f'<span><strong>{value}</strong> <span class="pe-small">{more}</span></span></div>'
        for name, value, more in shown
    )


def range_drawn(now: Cheap, sure: EstimateRanges) -> str:
    """Return what the job may cost, and what is kept of the price on the same scale: 1 in 10 below, half, above."""
    cost, kept = sure.cost, now.kept
    low, high = min(cost.low, kept), max(cost.high, kept)
    room = (high - low) * 0.12 or 1.0

    def at(amount: float) -> float:
        return (amount - low + room) / (high - low + 2 * room) * WIDE

    ends = f"{dollars(cost.low).split('.')[0]} to {dollars(cost.high).split('.')[0]}"
    said = f"the work costs {ends} in 8 of 10 cases, half the time over {dollars(cost.median)}"
    said += f"; the price {dollars(now.price)}"
    if now.price - kept >= 0.005:
        said += f", of which {dollars(kept)} is yours once its sales tax is passed on"
    bar, mark = at(cost.high) - at(cost.low), at(kept)
    anchor = "end" if mark > WIDE * 0.75 else "start" if mark < WIDE * 0.25 else "middle"
    return (
        f'<svg class="bar-range" viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" aria-label="{escape(said)}">'
        f'<rect x="0" y="17" width="{WIDE:g}" height="6" rx="3" class="bar-all"/>'
        f'<rect x="{at(cost.low):.1f}" y="17" width="{bar:.1f}" height="6" rx="3" class="bar-cost"/>'
        f'<line x1="{at(cost.median):.1f}" x2="{at(cost.median):.1f}" y1="14" y2="26" class="bar-half"/>'
        f'<path d="M{mark:.1f} 17 l-5 -7 h10 z" class="bar-mark"/>'
        f'<text x="{mark:.1f}" y="8" text-anchor="{anchor}">your price</text>'
        f'<text x="{WIDE / 2:g}" y="40" text-anchor="middle">cost {ends}, 8 in 10</text></svg>'
    )
