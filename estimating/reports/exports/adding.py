"""What each work item adds to the job as the last one, in plain text."""

from __future__ import annotations

from estimating.estimate.whatif.marginal import Marginal, marginal
from estimating.reports.format import dollars, number
from estimating.workbook import Outcome


def added_by_each(outcome: Outcome) -> str:
    """Return the price, hours and days that each work item adds to the others, which stay as they are planned.

    The pieces share trips, cans, covers and waits, so that these prices come to less than the price of the job.
    """
    plans = outcome.estimate.plans
    if len(plans) < 2:
        return "The job is one work item: it adds all of its price."
    rows = [_row(marginal(plans, place, outcome.job, outcome.basis)) for place in range(len(plans))]
    return "\n".join(["Adding this to the rest of the job costs:", *rows])


def _row(piece: Marginal) -> str:
    days = f"{number(piece.days)} day{'' if piece.days == 1 else 's'}" if piece.days else "no further day"
    return f"  {piece.scope}: {dollars(piece.amount.value)}, {number(piece.hours.value)} hours, {days}"
