"""The purchase list: what is bought holds what is needed, and old prices are marked."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Any

import pytest
from paper_jobs import STUDY, made, read

from estimating.reports.documents.purchase_list import UNDATED, priced_on, purchase_list
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome

TAKEN = date(2026, 3, 2)  # the day of every demo price
KEY = "prices/ceiling_flat/five"


def own_price(**figure: Any) -> Outcome:
    def change(job: dict[str, Any]) -> None:
        job["own"] = {KEY: {"likely": 151.0, "unit": "dollar", **figure}}

    return made(change)


def rows(outcome: Outcome, on: date = TAKEN, shown: UnitSystem = UnitSystem.US) -> dict[str, str]:
    """Return the rows of the list by what they begin with."""
    paper = purchase_list(outcome, on, shown)
    return {read(row).split("  ")[0]: read(row) for row in re.findall(r"<tr><th scope=\"row\">.*?</tr>", paper)}


def test_paint_is_listed_by_product_color_and_can() -> None:
    """Product, color, need, cans, what they hold and what is left."""
    said = read(purchase_list(made(), TAKEN))
    for order in made().estimate.paint:
        cans = re.escape(f"{order.containers} ({order.containers.gallons_bought:g}")
        assert re.search(rf"{order.title} {order.color or '–'} [\d.]+ gal {cans} gal\) [\d.]+ gal", said)


def test_need_and_leftover_are_what_is_bought() -> None:
    """For paint and for rolls: what is needed and what is left over fill the containers."""
    for outcome in (made(), made(path=STUDY)):
        for order in outcome.estimate.paint:
            assert order.need.value + order.leftover == pytest.approx(order.containers.gallons_bought)
            assert order.leftover >= 0
    said = read(purchase_list(made(), TAKEN))
    need, bought, left = re.search(r"Masking tape ([\d.]+) ft (\d+) ([\d.]+) ft", said).groups()  # type: ignore[union-attr]
    assert float(need) + float(left) == pytest.approx(int(bought) * 180, abs=1)  # 60 yards a roll


@pytest.mark.parametrize(("age", "marked"), [(0, False), (60, False), (61, True), (268, True)])
def test_a_price_is_marked_once_it_is_older_than_the_business_allows(age: int, marked: bool) -> None:
    """The table allows sixty days: on the sixtieth a price is good, a day later it is old."""
    said = read(purchase_list(made(), TAKEN + timedelta(days=age)))
    assert (f"{age} days old" in said) == marked
    assert "older than 60 days" in said


def test_the_contractor_may_allow_more() -> None:
    """An own figure for the age of prices is the one that marks."""

    def patient(job: dict[str, Any]) -> None:
        job["own"] = {"business/price_age": {"likely": 365, "unit": "day"}}

    assert "days old" not in read(purchase_list(made(patient), TAKEN + timedelta(days=300)))


def test_an_own_price_has_its_own_day() -> None:
    """The day typed beside an own figure counts, and the oldest of the cans bought is shown."""
    outcome = own_price(date="2026-04-30")
    assert priced_on(KEY, outcome) == date(2026, 4, 30)
    assert priced_on("prices/ceiling_flat/gallon", outcome) == TAKEN


def test_a_price_without_a_day_is_marked() -> None:
    """An own price with no date, and goods priced in the job file, are said to be undated."""
    assert UNDATED in read(purchase_list(own_price(), TAKEN))
    assert f"$558.00 {UNDATED}" in read(purchase_list(made(path=STUDY), TAKEN))
    assert UNDATED not in read(purchase_list(made(), TAKEN))


def test_making_the_list_leaves_the_assumptions_as_they_were() -> None:
    """What is looked up for the list does not join what the price rests on."""
    outcome = made()
    before = dict(outcome.basis.used())
    purchase_list(outcome, TAKEN)
    assert dict(outcome.basis.used()) == before


def test_the_sum_is_the_paint_and_supplies_of_the_price() -> None:
    """What the list comes to is what those lines of the estimate come to."""
    outcome = made()
    spent = sum(line.cost for line in outcome.estimate.lines if line.section in ("paint", "supplies"))
    assert f"Together ${spent:,.2f} before tax." in read(purchase_list(outcome, TAKEN))


def test_metric_changes_amounts_and_neither_cans_nor_prices() -> None:
    """Liters and meters; the cans are sold as they are, at what they cost."""
    us, metric = (read(purchase_list(made(), TAKEN, shown)) for shown in UnitSystem)
    assert re.findall(r"\$[\d,.]+", us) == re.findall(r"\$[\d,.]+", metric)
    cans = [str(order.containers) for order in made().estimate.paint]
    assert all(each in us and each in metric for each in cans)
    assert f"({made().estimate.paint[0].containers.gallons_bought * 3.785412:.3g} L)" in metric
    assert " ft " not in metric


def test_nothing_to_buy_says_so() -> None:
    """A job that is declined buys nothing."""
    declined = made(lambda job: job["work"][0].update(method="decline"))
    assert "Nothing is bought." in read(purchase_list(declined, TAKEN))
