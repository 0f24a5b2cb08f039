"""The files of a job, made when they are asked for."""

from __future__ import annotations

from datetime import date

from estimating.errors import InputError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.job.file import dump_job
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_pdf
from estimating.reports.documents.documents import documents
from estimating.reports.exports.estimate_json import estimate_json
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome

OFFERED = (
    ("proposal.pdf", "Proposal (PDF)"),
    ("proposal.html", "Proposal (page to print)"),
    ("before_you_send.pdf", "Before you send"),
    ("crew_sheet.pdf", "Crew sheet"),
    ("shopping_list.pdf", "Shopping list"),
    ("invoice_1.pdf", "First invoice"),
    ("change_order.pdf", "Change order"),
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
    made = documents(outcome, sure, date.today(), shown, sent)
    name, _, form = which.rpartition(".")
    if name not in made:
        raise InputError("change order", "nothing sent yet", "the estimate recorded as sent first; then it is compared")
    if form == "pdf":
        return which, "application/pdf", as_pdf(made[name])
    return which, "text/html", as_html(made[name]).encode("utf-8")
