"""How many pages a document has, and what an option costs beside the job."""

from __future__ import annotations

from datetime import date

import pytest
from afternoon import afternoon
from places import JOBS

from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_images
from estimating.reports.documents.content import Document
from estimating.reports.documents.crew_sheet import crew_sheet
from estimating.reports.documents.options import versions, without_rooms
from estimating.reports.documents.proposal import proposal
from estimating.workbook import Outcome, estimate_job, read_job

DAY = date(2026, 5, 4)


def pages(document: Document) -> int:
    return len(as_images(document, 12))


SPRAYED = ("sitting room", "main bedroom", "entrance hall", "third bedroom", "guest room")
PLAIN = ("second bedroom", "third bedroom", "guest room", "writing room", "bathroom")


def five_rooms(*kept: str) -> Outcome:
    """Return five rooms of the whole house, with old paint that may hold lead."""
    house = read_job(JOBS / "hazel_bank_whole_house.toml")
    return estimate_job(without_rooms([room.name for room in house.rooms if room.name not in kept], house))


@pytest.mark.parametrize(("options", "most"), [(0, 2), (3, 3)])
def test_the_proposal_of_an_afternoon(options: int, most: int) -> None:
    """Two pages with one price, three with three options."""
    assert pages(proposal(afternoon(options), DAY)) <= most


@pytest.mark.parametrize(("rooms", "for_the_job"), [(PLAIN, 1), (SPRAYED, 2)])
def test_the_papers_of_five_rooms(rooms: tuple[str, ...], for_the_job: int) -> None:
    """The proposal on two pages; the crew sheet a page for each room and one for the job.

    Where texture that may come down is sprayed and stains are sealed with solvent, some twenty cautions need a second.
    """
    outcome = five_rooms(*rooms)
    assert pages(proposal(outcome, DAY)) <= 2
    assert pages(crew_sheet(outcome)) <= 5 + for_the_job


def test_less_work_is_no_dearer() -> None:
    """One coat in place of two, and a room left out, cost less than the job; more preparation costs more."""
    whole, one_coat, thorough, without = [each.outcome.estimate.price for each in versions(afternoon(3))]
    assert max(one_coat, without) < whole < thorough


def test_where_the_price_is_whole_dollars_all_of_them_are() -> None:
    """Rooms, surfaces and stages of a rounded price have no cents."""
    assert ".00" not in as_html(proposal(afternoon(), DAY))
