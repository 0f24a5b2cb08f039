"""The shopping list: what is bought holds what is needed, and old prices are marked."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Any

import pytest
from paper_jobs import STUDY, made, read, with_work
from places import ROOT

from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.shelves import OTHER, PAINT_COUNTER, shelf_of
from estimating.reports.documents.shopping_list import UNDATED, priced_on, shopping_list, stale_prices
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome

TAKEN = date(2026, 3, 2)  # the day of every demo price
REFERENCE = ROOT / "reference"
KEY = "prices/ceiling_flat/five"


def own_price(**figure: Any) -> Outcome:
    def change(job: dict[str, Any]) -> None:
        job["work"][0]["method"] = "spray"
        job["own"] = {KEY: {"likely": 151.0, "unit": "dollar", **figure}}

    return made(change)


def listed(outcome: Outcome, on: date = TAKEN, shown: UnitSystem = UnitSystem.US) -> str:
    return read(as_html(shopping_list(outcome, on, shown)))


def test_paint_is_listed_by_product_color_and_can() -> None:
    """Product, color, need, cans and what is left."""
    said = listed(made())
    for order in made().estimate.paint:
        name = f"{order.title}{f', {order.color}' if order.color else ''}"
        assert re.search(rf"{re.escape(name)} [\d.]+ gal {re.escape(str(order.containers))} [\d.]+ gal", said)


def test_things_stand_by_the_shelf_they_are_found_on() -> None:
    """Paint first, then tape and film, then the rest; every item of the price list has a shelf."""
    said = listed(made(with_work(method="spray")))
    places = [said.index(shelf) for shelf in (PAINT_COUNTER, "Tape, film and paper", "Floor covers", "Sprayer parts")]
    assert places == sorted(places)
    items = {line.split(",")[0] for line in (REFERENCE / "prices.csv").read_text("utf-8").splitlines()[1:]}
    cans = {
        line.split(",")[0] for line in (REFERENCE / "prices.csv").read_text("utf-8").splitlines() if ",quart," in line
    }
    assert {item for item in items - cans if shelf_of(item) == OTHER} == set()


def test_need_and_leftover_are_what_is_bought() -> None:
    """For paint and for rolls: what is needed and what is left over fill the containers."""
    for outcome in (made(), made(path=STUDY)):
        for order in outcome.estimate.paint:
            assert order.need.value + order.leftover == pytest.approx(order.containers.gallons_bought)
            assert order.leftover >= 0
    said = listed(made())
    need, bought, left = re.search(r"Masking tape ([\d.]+) ft (\d+) ([\d.]+) ft", said).groups()  # type: ignore[union-attr]
    assert float(need) + float(left) == pytest.approx(int(bought) * 180, abs=1)  # 60 yards a roll


@pytest.mark.parametrize(("age", "marked"), [(0, False), (60, False), (61, True), (268, True)])
def test_a_price_is_marked_once_it_is_older_than_the_business_allows(age: int, marked: bool) -> None:
    """The table allows sixty days: on the sixtieth a price is good, a day later it is old."""
    said = listed(made(), TAKEN + timedelta(days=age))
    assert (f"{age} days old" in said) == marked
    assert "older than 60 days" in said


def test_old_prices_are_counted_for_the_contractor() -> None:
    """In one sentence, and only where there are any."""
    assert stale_prices(made(), TAKEN) == []
    (said,) = stale_prices(made(), TAKEN + timedelta(days=61))
    assert re.match(r"(\d+) of \1 prices are older than 60 days", said)


def test_the_contractor_may_allow_more() -> None:
    """An own figure for the age of prices is the one that marks."""

    def patient(job: dict[str, Any]) -> None:
        job["own"] = {"business/price_age": {"likely": 365, "unit": "day"}}

    assert "days old" not in listed(made(patient), TAKEN + timedelta(days=300))


def test_an_own_price_has_its_own_day() -> None:
    """The day typed beside an own figure counts, and the oldest of the cans bought is shown."""
    outcome = own_price(date="2026-04-30")
    assert priced_on(KEY, outcome) == date(2026, 4, 30)
    assert priced_on("prices/ceiling_flat/gallon", outcome) == TAKEN


def test_a_price_without_a_day_is_marked() -> None:
    """An own price with no date, and goods priced in the job file, are said to be undated."""
    assert UNDATED in listed(own_price())
    assert f"$558.00 {UNDATED}" in listed(made(path=STUDY))
    assert UNDATED not in listed(made())


def test_making_the_list_leaves_the_assumptions_as_they_were() -> None:
    """What is looked up for the list does not join what the price rests on."""
    outcome = made()
    before = dict(outcome.basis.used())
    shopping_list(outcome, TAKEN)
    assert dict(outcome.basis.used()) == before


def test_the_sum_is_the_paint_and_supplies_of_the_price() -> None:
    """What the list comes to is what those lines of the estimate come to."""
    outcome = made()
    spent = sum(line.cost for line in outcome.estimate.lines if line.section in ("paint", "supplies"))
    assert f"Together, before tax ${spent:,.2f}" in listed(outcome)


def test_metric_changes_amounts_and_neither_cans_nor_prices() -> None:
    """Liters and meters; the cans are sold as they are, at what they cost."""
    us, metric = (listed(made(), TAKEN, shown) for shown in UnitSystem)
    assert re.findall(r"\$[\d,.]+", us) == re.findall(r"\$[\d,.]+", metric)
    cans = [str(order.containers) for order in made().estimate.paint]
    assert all(each in us and each in metric for each in cans)
    assert " ft " not in metric


def test_nothing_to_buy_says_so() -> None:
    """A job that is declined buys nothing."""
    declined = made(lambda job: job["work"][0].update(method="decline"))
    assert "Nothing is bought for this job." in listed(declined)
