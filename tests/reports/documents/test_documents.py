"""The documents from the command line: written in place, with a change order where there is a job before."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from paper_jobs import CEILING, JOBS, made, read
from test_proposal import leaks

from estimating.__main__ import main
from estimating.estimate.pricing.room_prices import room_prices
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.reports.documents.change_order import REST, changes
from estimating.reports.documents.documents import html_documents
from estimating.reports.format import UnitSystem, dollars
from estimating.workbook import Outcome, estimate_job, read_job

NAMES = ("proposal", "before_you_send", "crew_sheet", "shopping_list", "invoice_1")
ALWAYS = {f"{name}.html" for name in NAMES}
WRITTEN = ALWAYS | {f"{name}.pdf" for name in NAMES}


def sold_at(before: Outcome, after: Outcome) -> set[str]:
    """Return what the rows of a change order are sold at: of hundreds, some are by chance what another row costs."""
    return {f"{abs(row.amount):,.2f}" for row in changes(before.estimate, after.estimate)}


def prices_in(outcome: Outcome) -> set[str]:
    """Return the prices of rooms and surfaces: of a hundred, one is by chance what something costs."""
    rooms = room_prices(outcome.estimate)
    return {f"{amount:,.2f}" for room in rooms for amount in (room.price, *room.surfaces.values())}


def cheaper(job: dict[str, Any]) -> None:
    job["own"] = {"business/wage": {"likely": 24.0, "unit": "dollar/hour"}}


@pytest.mark.parametrize("path", sorted(JOBS.glob("*.toml")), ids=lambda path: path.stem)
@pytest.mark.parametrize("shown", UnitSystem)
def test_every_demo_job_has_its_documents(path: Path, shown: UnitSystem) -> None:
    """Whatever the kind of work: every document, no cost on what the client gets, none on the crew sheet."""
    outcome = made(path=path)
    before = made(cheaper, path)
    written = html_documents(outcome, estimate_ranges(outcome.estimate), date(2026, 5, 4), shown, before)
    assert set(written) == {*ALWAYS, "change_order.html"}
    assert leaks(read(written["proposal.html"]), outcome) <= prices_in(outcome)
    assert leaks(read(written["change_order.html"]).replace(REST, ""), outcome) <= sold_at(before, outcome)
    assert "$" not in read(written["crew_sheet.html"])


@pytest.fixture
def older(tmp_path: Path) -> Path:
    path = tmp_path / "older.toml"
    path.write_text(CEILING.read_text(encoding="utf-8").replace("trims_to_coat = 4", "trims_to_coat = 0"), "utf-8")
    return path


def test_the_documents_are_written_into_a_new_folder(tmp_path: Path) -> None:
    """Each as HTML and PDF, and nothing left beside them; the price on the proposal is the price of the job."""
    folder = tmp_path / "documents" / "of this job"
    assert main([str(CEILING), "--documents", str(folder)]) == 0
    assert {path.name for path in folder.iterdir()} == WRITTEN
    price = dollars(estimate_job(read_job(CEILING)).estimate.price)
    assert price in read((folder / "proposal.html").read_text(encoding="utf-8"))


def test_documents_written_again_take_the_place_of_the_old_ones(tmp_path: Path) -> None:
    """The old text is gone, whole."""
    (tmp_path / "proposal.html").write_text("old" * 100_000, encoding="utf-8")
    assert main([str(CEILING), "--documents", str(tmp_path)]) == 0
    assert "oldold" not in (tmp_path / "proposal.html").read_text(encoding="utf-8")


def test_a_job_before_makes_a_change_order(tmp_path: Path, older: Path) -> None:
    """The change order stands with the documents and holds both prices."""
    folder = tmp_path / "documents"
    assert main([str(CEILING), "--documents", str(folder), "--before", str(older)]) == 0
    assert {path.name for path in folder.iterdir()} == {*WRITTEN, "change_order.html", "change_order.pdf"}
    said = read((folder / "change_order.html").read_text(encoding="utf-8"))
    for path in (older, CEILING):
        assert dollars(estimate_job(read_job(path)).estimate.price) in said


def test_a_job_before_without_documents_is_refused(older: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A change order has nowhere to go: the command says what is missing."""
    with pytest.raises(SystemExit) as stopped:
        main([str(CEILING), "--before", str(older)])
    assert stopped.value.code == 2
    assert "--before needs --documents" in capsys.readouterr().err


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file in the way is an error in words, and nothing else is touched."""
    (tmp_path / "taken").write_text("mine", encoding="utf-8")
    assert main([str(CEILING), "--documents", str(tmp_path / "taken")]) == 2
    assert "a folder that can be made" in capsys.readouterr().err
    assert (tmp_path / "taken").read_text(encoding="utf-8") == "mine"


def test_metric_is_a_switch(capsys: pytest.CaptureFixture[str]) -> None:
    """The same price, liters for gallons."""
    assert main([str(CEILING)]) == 0
    us = capsys.readouterr().out
    assert main([str(CEILING), "--metric"]) == 0
    metric = capsys.readouterr().out
    assert us.splitlines()[1] == metric.splitlines()[1]
    assert " gal " in us
    assert " gal " not in metric
    assert " L " in metric
