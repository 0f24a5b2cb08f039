"""The files of a job, made when they are asked for."""

from __future__ import annotations

from datetime import date

from estimating.errors import InputError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.job.file import dump_job
from estimating.reports.documents.documents import papers
from estimating.reports.exports.estimate_json import estimate_json
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome

OFFERED = (
    ("proposal.html", "Proposal"),
    ("crew_sheet.html", "Crew sheet"),
    ("purchase_list.html", "Shopping list"),
    ("change_order.html", "Change order"),
    ("summary.csv", "Job summary (CSV)"),
    ("estimate.json", "Estimate (JSON)"),
    ("job.toml", "Job file (TOML)"),
)
File = tuple[str, str, bytes]  # name, media type, content


def made_file(
    which: str, outcome: Outcome, sure: EstimateRanges, shown: UnitSystem, sent: Outcome | None = None
) -> File:
    """Return one file of the job; InputError where there is no such file of it, as a change order before it is sent."""
    match which:
        case "summary.csv":
            return which, "text/csv", summary_csv(outcome, sure, shown).encode("utf-8")
        case "estimate.json":
            return which, "application/json", estimate_json(outcome, sure).encode("utf-8")
        case "job.toml":
            return which, "application/toml", dump_job(outcome.job).encode("utf-8")
    made = papers(outcome, sure, date.today(), shown, sent)
    if which not in made:
        raise InputError("change order", "nothing sent yet", "the estimate recorded as sent first; then it is compared")
    return which, "text/html", made[which].encode("utf-8")
