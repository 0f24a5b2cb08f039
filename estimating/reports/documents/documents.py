"""Every paper of a job by the name of its file."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.job.values import Answer
from estimating.reports.documents.change_order import change_order
from estimating.reports.documents.crew_sheet import crew_sheet
from estimating.reports.documents.proposal import proposal
from estimating.reports.documents.purchase_list import purchase_list
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome


def papers(
    outcome: Outcome, sure: EstimateRanges, on: date, shown: UnitSystem = UnitSystem.US, before: Outcome | None = None
) -> Mapping[str, str]:
    """Return the papers of a job; a change order is among them where the job as it was before is given."""
    price_range = sure.price if outcome.job.terms.show_range is Answer.YES else None
    made: dict[str, str] = {
        "proposal.html": proposal(outcome, on, shown, price_range),
        "crew_sheet.html": crew_sheet(outcome, shown),
        "purchase_list.html": purchase_list(outcome, on, shown),
    }
    if before is not None:
        made["change_order.html"] = change_order(before, outcome, on)
    return made
