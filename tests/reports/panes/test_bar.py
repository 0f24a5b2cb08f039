"""The bar: what is kept of a price, not what the client pays, is held against the cost."""

from __future__ import annotations

import re

import numpy as np
import pytest
from made_up import plan, round_basis, small_job, task

from estimating.estimate.pricing.build_up import Estimate, build_up
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.estimate.uncertainty.ranges import Spread
from estimating.reports.panes.bar import Cheap, facts, range_drawn

COSTS = np.linspace(400.0, 898.0, 250)  # the mean is 649
SURE = EstimateRanges({}, {}, Spread(450, 649, 848), Spread(10, 12, 14), Spread(2, 2, 2), COSTS)


def sold(tax: float) -> Estimate:
    """Return a job of 500 dollars of cost and 125 of profit."""
    return build_up([plan(task("roll", 10.0))], small_job(), round_basis(sales_tax=tax))


@pytest.mark.parametrize("tax", [0.0, 7.0, 20.0])
def test_sales_tax_moves_neither_margin_nor_chance_of_loss(tax: float) -> None:
    """137 of the 250 draws lie above 625: 55 %, and 20 % of what is kept is profit if all goes as planned."""
    said = facts(Cheap.of(sold(tax)), SURE, 1)
    assert re.sub("<[^>]*>", " ", said).split("Chance of loss")[1].split()[0] == "55%"
    assert "20%" in said.split("Margin as planned")[1]
    assert "-4% expected" in said


def test_the_mark_stands_at_what_is_kept() -> None:
    """And what is passed on is said."""
    bare, taxed = (range_drawn(Cheap.of(sold(tax)), SURE) for tax in (0.0, 7.0))
    marks = [re.search(r'<path d="M([\d.]+)', each) for each in (bare, taxed)]
    assert len({found[1] for found in marks if found}) == 1
    assert "the price $668.75, of which $625.00 is yours once its sales tax is passed on" in taxed
    assert "yours once" not in bare
