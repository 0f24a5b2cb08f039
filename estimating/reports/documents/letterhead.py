"""The head of every document: the contractor's name, address, license and logo, and what the document is."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path

from estimating.errors import InputError
from estimating.evidence import Basis
from estimating.figures import Figure
from estimating.reports.documents.content import Letterhead
from estimating.workbook import Outcome

LOGOS = {".png": "png", ".jpg": "jpg", ".jpeg": "jpg", ".svg": "svg"}
LARGEST = 2_000_000  # bytes: a logo goes into every document
INVENTED = "An invented job, to show the workbook: nothing here is an offer."


def letterhead(
    title: str, outcome: Outcome, facts: Sequence[tuple[str, str]] = (), logo: Path | None = None
) -> Letterhead:
    """Return the letterhead of a document of this job. logo: the picture file, read here."""
    terms, job = outcome.job.terms, outcome.job
    license_ = (
        f"License {terms.license}" if terms.license and not terms.license.lower().startswith("lic") else terms.license
    )
    lines = tuple(each for each in (terms.contractor_address, terms.contractor_contact, license_) if each)
    return Letterhead(
        company=terms.contractor or "",
        lines=lines,
        title=title,
        subject=job.title,
        facts=tuple(facts),
        mark=INVENTED if job.invented else "",
        logo=read_logo(logo) if logo else b"",
        logo_kind=LOGOS[logo.suffix.lower()] if logo else "",
    )


def read_logo(path: Path) -> bytes:
    """Return a picture file; InputError where it is none that a document can hold."""
    if path.suffix.lower() not in LOGOS:
        raise InputError("terms · logo", path.name, "a picture whose name ends in .png, .jpg or .svg")
    try:
        data = path.read_bytes()
    except OSError as problem:
        raise InputError("terms · logo", str(path), f"a file that can be read ({problem.strerror})") from problem
    if len(data) > LARGEST:
        raise InputError("terms · logo", f"{len(data):,} bytes", f"a picture of {LARGEST:,} bytes or less")
    return data


def logo_path(outcome: Outcome, folder: Path) -> Path | None:
    """Return where the logo of a job lies; None where it has none. folder: where the job file is."""
    named = outcome.job.terms.logo
    return folder / named if named else None


def assumed(outcome: Outcome, table: str, *keys: str) -> Figure:
    """Return an assumption that no line rests on, leaving those the estimate has used as they are."""
    return Basis(outcome.basis.library, outcome.basis.own).figure(table, *keys)


def made_on(outcome: Outcome, on: date) -> date:
    """Return the day of the proposal: the one the job file gives, or `on`."""
    dated = outcome.job.terms.dated
    return date.fromisoformat(dated) if dated else on


def number_of(outcome: Outcome, on: date) -> str:
    """Return the number of the proposal: the contractor's own, or its date."""
    return outcome.job.terms.number or f"{made_on(outcome, on):%Y%m%d}"


def valid_through(outcome: Outcome, on: date) -> date:
    """Return the last day on which the proposal can be accepted."""
    own, usual = outcome.job.terms.validity_days, assumed(outcome, "business", "validity")
    days = round(usual.value_in("day")) if own is None else own
    return made_on(outcome, on) + timedelta(days=days)


def us_date(day: date) -> str:
    """Return a day as a US client reads it: May 4, 2026."""
    return f"{day:%B} {day.day}, {day.year}"
