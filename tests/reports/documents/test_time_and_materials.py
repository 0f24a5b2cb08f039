"""Work by time and materials: its rate, the price that is not exceeded, and what the contractor risks with it."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from paper_jobs import CEILING, made, read, with_terms

from estimating.errors import InputErrors
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.before_sending import before_sending
from estimating.reports.documents.proposal import proposal
from estimating.reports.documents.time_and_materials import rate_words
from estimating.reports.exports.estimate_json import estimate_dict
from estimating.reports.exports.text_summary import plain_summary
from estimating.reports.panes.desk_panes import head
from estimating.workbook import Outcome

DAY = date(2026, 3, 2)


def job(**terms: Any) -> Outcome:
    return made(with_terms(pricing="time and materials", **terms), CEILING)


def sent(outcome: Outcome) -> str:
    return read(as_html(proposal(outcome, DAY)))


def settled(outcome: Outcome) -> str:
    return read(as_html(before_sending(outcome, estimate_ranges(outcome.estimate), DAY)))


def test_the_client_reads_rate_hours_and_cap() -> None:
    """Prices are called estimates, and what is not exceeded stands under their total."""
    outcome = job(not_to_exceed=2600)
    said = sent(outcome)
    assert "Estimate" in said
    assert "Not to exceed $2,600" in said
    assert f"labor at {rate_words(outcome)}" in said
    assert f"We estimate {round(outcome.estimate.hours.value)} hours" in said
    assert "You will not pay more than $2,600" in said


def test_a_fixed_price_says_nothing_of_it() -> None:
    """Without an answer the price is fixed."""
    said = sent(made(path=CEILING))
    assert "time and materials" not in said
    assert "Not to exceed" not in said


def test_the_rate_is_the_one_for_changes() -> None:
    """A rate the terms name is that of all hours."""
    assert "labor at $72 an hour" in sent(job(change_rate="72"))


def test_a_cap_that_is_missing_is_asked_for_with_what_it_may_be() -> None:
    """Nine in ten bills stay under the amount suggested."""
    said = settled(job())
    assert "The price that is not exceeded (terms · not_to_exceed)" in said
    assert "9 in 10 bills stay under $" in said


def test_a_lower_cap_is_met_more_often_and_leaves_less() -> None:
    """The contractor bears what the work takes beyond the cap."""
    chances, profits = [], []
    for cap in (1500, 2000, 4000):
        said = settled(job(not_to_exceed=cap))
        chances.append(float(said.split("Chance that the bill meets the cap")[1].split("%")[0]))
        profits.append(
            float(said.split("Average profit under the cap")[1].split()[0].replace("$", "").replace(",", ""))
        )
    assert chances == sorted(chances, reverse=True)
    assert profits == sorted(profits)
    assert chances[-1] < 5


def test_a_cap_is_whole_dollars() -> None:
    """Cents in a price that is not exceeded are refused in words."""
    with pytest.raises(InputErrors, match="whole number"):
        job(not_to_exceed="2600.50")


def test_the_price_is_not_called_fixed_to_the_contractor_either() -> None:
    """Neither in the terminal, nor on the desk, nor for another program."""
    for outcome, fixed in ((job(not_to_exceed=2600), False), (made(path=CEILING), True)):
        sure = estimate_ranges(outcome.estimate)
        assert ("(fixed)" in plain_summary(outcome, sure)) is fixed
        assert (">fixed<" in head(outcome, sure)) is fixed
        assert estimate_dict(outcome, sure)["price_offered"]["fixed"] is fixed
