"""Options in one proposal: each priced as the job it is, the differences in words, and rooms by themselves."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from paper_jobs import REPAINT, made, read

from estimating.errors import InputError
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_images
from estimating.reports.documents.options import differences, rooms_by_themselves, versions
from estimating.reports.documents.proposal import proposal
from estimating.reports.format import dollars
from estimating.workbook import Outcome

ON = date(2026, 5, 4)
SAME = {"name": "The same"}
SMALLER = {"name": "Without the study", "leave_out": ["study"]}
ONE_COAT = {"name": "One coat on the bedroom walls", "changes": {"work.0.walls.coats": 1}}


def with_options(*several: dict[str, Any]) -> Outcome:
    def rolled(job: dict[str, Any]) -> None:
        """Offer the options; every room is rolled in all of them, so that no method changes beside what is changed."""
        job["option"] = list(several)
        for item in job["work"]:
            item["method"] = "roll"

    return made(rolled, REPAINT)


def test_an_option_without_differences_has_the_same_price() -> None:
    """To the cent, and nothing is said to differ."""
    first, same = versions(with_options(SAME))
    assert same.outcome.estimate.price == first.outcome.estimate.price
    assert differences([first, same]) == []


def test_options_stand_side_by_side_with_their_prices_and_what_differs() -> None:
    """Fewer coats and fewer rooms take less work and paint, and only what they change is told, on three pages at most.

    Fewer rooms cost less too. A coat left out may not: what filled the wait for a coat elsewhere is then missing.
    """
    outcome = with_options(ONE_COAT, SMALLER)
    first, one_coat, smaller = versions(outcome)
    prices = [each.outcome.estimate.price for each in (first, one_coat, smaller)]
    assert prices[0] == outcome.estimate.price
    assert prices[0] > prices[2]
    estimates = [each.outcome.estimate for each in (first, one_coat, smaller)]
    work = [each.hours.value - each.schedule.idle.value for each in estimates]
    assert work[0] > max(work[1:])
    assert estimates[0].gallons > max(each.gallons for each in estimates[1:])
    whole = proposal(outcome, ON)
    said = read(as_html(whole))
    for part in ("Your options", "Without the study", "not included", *map(dollars, prices)):
        assert part in said
    told = [name for name, _ in differences([first, one_coat])]
    assert told == ["front bedroom, walls"]
    assert len(as_images(whole, 20)) <= 3


def test_a_room_costs_more_by_itself_than_as_an_addition() -> None:
    """It shares the visit with the others; in the job it stands between the two."""
    outcome = made(path=REPAINT)
    rooms = rooms_by_themselves(outcome)
    assert [each.room for each in rooms] == ["front bedroom", "study", "stair and landing"]
    assert all(each.alone > each.added > 0 for each in rooms)
    assert sum(each.here for each in rooms) == outcome.estimate.price


def test_a_room_that_is_none_is_refused() -> None:
    """With the rooms there are."""
    with pytest.raises(InputError, match="one of the rooms: front bedroom"):
        versions(with_options({"name": "No attic", "leave_out": ["attic"]}))
