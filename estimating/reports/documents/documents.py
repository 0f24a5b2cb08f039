"""Every document of a job by its name, as it is written into a folder: HTML to print, and PDF."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_pdf
from estimating.reports.documents.before_sending import before_sending
from estimating.reports.documents.change_order import change_order
from estimating.reports.documents.content import Document
from estimating.reports.documents.crew_sheet import crew_sheet
from estimating.reports.documents.invoice import invoice
from estimating.reports.documents.letterhead import logo_path
from estimating.reports.documents.proposal import proposal
from estimating.reports.documents.shopping_list import shopping_list
from estimating.reports.documents.terms_in_words import stages
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome


def documents(
    outcome: Outcome,
    sure: EstimateRanges,
    on: date,
    shown: UnitSystem = UnitSystem.US,
    before: Outcome | None = None,
    folder: Path = Path(),
) -> Mapping[str, Document]:
    """Return the documents of a job by name.

    before: the job as it was sent; a change order is then among them. folder: where the logo is looked for.
    """
    logo = logo_path(outcome, folder)
    made = {
        "proposal": proposal(outcome, on, shown, logo),
        "before_you_send": before_sending(outcome, sure, on),
        "crew_sheet": crew_sheet(outcome, shown, logo),
        "shopping_list": shopping_list(outcome, on, shown, logo),
    }
    if outcome.estimate.schedule.tasks:
        several = range(1, len(stages(outcome)) + 1)
        made |= {f"invoice_{stage}": invoice(outcome, stage, on, logo) for stage in several}
    if before is not None:
        made["change_order"] = change_order(before, outcome, on, logo)
    return made


def html_documents(
    outcome: Outcome,
    sure: EstimateRanges,
    on: date,
    shown: UnitSystem = UnitSystem.US,
    before: Outcome | None = None,
    folder: Path = Path(),
) -> Mapping[str, str]:
    """Return the documents of a job as HTML, by the name of their file."""
    made = documents(outcome, sure, on, shown, before, folder)
    return {f"{name}.html": as_html(each) for name, each in made.items()}


def files_of(made: Mapping[str, Document]) -> Mapping[str, bytes]:
    """Return documents as files, each as HTML and as PDF."""
    pages = {f"{name}.html": as_html(each).encode() for name, each in made.items()}
    return pages | {f"{name}.pdf": as_pdf(each) for name, each in made.items()}
