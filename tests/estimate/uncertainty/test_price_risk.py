"""Bids: what a price risks and what a risk asks for are one question read from both ends."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputError
from estimating.estimate.pricing.build_up import Estimate
from estimating.estimate.uncertainty.price_risk import bid_for, read_chance, read_price, risk_at_price
from estimating.job.file import plain_job
from estimating.workbook import build_job, estimate_job, read_job

DEMO = JOBS / "alder_row_sitting_room.toml"
COSTS = np.arange(1000.0, 2000.0, 10.0)  # a hundred costs, each as likely as the next


def estimate(**own: Any) -> Estimate:
    return estimate_job(build_job({**plain_job(read_job(DEMO)), "own": own})).estimate


@pytest.fixture(scope="module")
def untaxed() -> Estimate:
    return estimate()


@pytest.fixture(scope="module")
def taxed() -> Estimate:
    return estimate(**{"business/sales_tax": {"likely": 8, "low": 8, "high": 8, "unit": "percent"}})


def test_the_chance_of_loss_is_counted(untaxed: Estimate) -> None:
    """At 1,795 dollars twenty of the hundred costs are higher, by 100 dollars on average: 5, 15, … 195."""
    bid = risk_at_price(untaxed, COSTS, 1795)
    assert bid.chance == pytest.approx(0.2)
    assert bid.loss == pytest.approx(100)
    assert bid.profit == pytest.approx(1795 - 1495)
    assert bid.kept == 1795


def test_a_price_above_every_cost_loses_nothing(untaxed: Estimate) -> None:
    """Where no cost is higher there is no loss to speak of."""
    bid = risk_at_price(untaxed, COSTS, 5000)
    assert (bid.chance, bid.loss) == (0, 0)


def test_sales_tax_is_not_kept(taxed: Estimate) -> None:
    """Of 1,938.60 dollars at 8 % tax the contractor keeps 1,795, and so risks what 1,795 risks untaxed."""
    bid = risk_at_price(taxed, COSTS, 1938.60)
    assert bid.kept == pytest.approx(1795)
    assert bid.chance == pytest.approx(0.2)
    assert bid_for(taxed, COSTS, 0.2).price == pytest.approx(bid_for(taxed, COSTS, 0.2).kept * 1.08)


@given(st.floats(0.01, 0.99))
def test_a_price_for_a_chance_risks_no_more(untaxed: Estimate, chance: float) -> None:
    """The price found keeps to the chance wanted, and ten dollars less does not."""
    bid = bid_for(untaxed, COSTS, chance)
    assert bid.chance <= chance + 1e-9
    assert risk_at_price(untaxed, COSTS, bid.price - 10.001).chance > chance - 1e-9


@pytest.mark.parametrize(
    ("typed", "read"), [("1950", 1950), ("$1,950", 1950), (" 1,950.50 ", 1950.5), ("$ 12,345,678.9", 12345678.9)]
)
def test_a_price_is_read_as_people_type_it(typed: str, read: float) -> None:
    """Dollar sign and commas between thousands are taken."""
    assert read_price(typed) == read


@pytest.mark.parametrize("typed", ["", "much", "-5", "0", "19,50", "1.950,00", "$", "1950 dollars and more", "nan"])
def test_what_is_no_price_is_refused(typed: str) -> None:
    """The text typed is shown with what would do."""
    with pytest.raises(InputError, match="an amount in dollars") as found:
        read_price(typed)
    assert found.value.value == typed


@pytest.mark.parametrize(("typed", "read"), [("10", 0.1), ("10%", 0.1), ("2.5 %", 0.025), ("5 percent", 0.05)])
def test_a_chance_is_read_in_percent(typed: str, read: float) -> None:
    """A bare number is percent."""
    assert read_chance(typed) == pytest.approx(read)


@pytest.mark.parametrize("typed", ["", "0", "100", "0.1", "-5", "often"])
def test_what_is_no_chance_is_refused(typed: str) -> None:
    """Beyond the 1st and the 99th percentile nothing is claimed, so nothing is answered."""
    with pytest.raises(InputError, match="from 1 to 99 percent"):
        read_chance(typed)
