"""Work billed by time and materials, up to a price that is not exceeded: what the client reads, what is risked."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.job.terms import Pricing
from estimating.reports.documents.content import BLANK, Run, Text
from estimating.reports.format import number, plain_dollars, whole_dollars
from estimating.reports.panes.selling import hourly_charge, loading
from estimating.workbook import Outcome

ROUND = 50  # dollars: a price not to exceed is a round one


def by_time(outcome: Outcome) -> bool:
    """Say whether the work is billed by time and materials."""
    return outcome.job.terms.pricing is Pricing.TIME_AND_MATERIALS


def rate_words(outcome: Outcome) -> str:
    """Return what an hour of labor is billed at, in whole dollars; empty where there is no labor in the job."""
    own = outcome.job.terms.change_rate
    if own is not None:
        return f"{plain_dollars(own.value)} an hour"
    charge = hourly_charge(outcome.estimate)
    return "" if charge is None else f"{whole_dollars(math.ceil(charge))} an hour"


def cap_words(outcome: Outcome) -> str | Run:
    """Return the price that is not exceeded; a blank where nobody set one."""
    cap = outcome.job.terms.not_to_exceed
    return BLANK if cap is None else whole_dollars(cap)


def billing_words(outcome: Outcome) -> list[Text]:
    """Return how the work is billed; nothing where the price is fixed."""
    if not by_time(outcome):
        return []
    load, hours = loading(outcome.estimate), outcome.estimate.hours.value
    return [
        f"We bill for the time and materials the job takes: labor at {rate_words(outcome)}, and paint, supplies and "
        f"equipment at our cost plus {number(100 * load.markup)} %.",
        (
            f"We estimate {number(round(hours))} hours; the prices above are estimates. You will not pay more than ",
            cap_words(outcome),
            " for this work. Anything beyond it takes a change order that both of us sign.",
        ),
    ]


def cap_at_risk(outcome: Outcome, sure: EstimateRanges) -> Iterator[tuple[str, str]]:
    """Yield what the bill may come to and what the cap risks, for the contractor; nothing where the price is fixed."""
    if not by_time(outcome):
        return
    bills = sure.cost_draws * loading(outcome.estimate).factor
    low, high = (float(each) for each in np.percentile(bills, (10, 90)))
    yield "Bill for time and materials, 8 in 10", f"{whole_dollars(low)} to {whole_dollars(high)}"
    cap = outcome.job.terms.not_to_exceed
    if cap is None:
        round_up = ROUND * math.ceil(high / ROUND)
        yield "A price not to exceed", f"9 in 10 bills stay under {whole_dollars(round_up)} (terms · not_to_exceed)"
        return
    kept = np.minimum(bills, cap) / (1 + loading(outcome.estimate).sales_tax)
    yield "Chance that the bill meets the cap", f"{np.mean(bills > cap):.0%}"
    yield "Average profit under the cap", whole_dollars(float(np.mean(kept - sure.cost_draws)))
