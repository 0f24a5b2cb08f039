"""Own lines, discount and rounding: they change what they should, to the cent, and nothing else."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS

from estimating.errors import InputErrors
from estimating.estimate.pricing.lines import Section, sum_of
from estimating.estimate.pricing.room_prices import room_prices
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.job.file import dump_job
from estimating.workbook import Outcome, build_job, estimate_job, parse_job

CEILING = JOBS / "alder_row_sitting_room.toml"
Plain = dict[str, Any]
FEW = settings(max_examples=4, deadline=None)
charged = st.sampled_from(["materials", "equipment", "subcontract", "fee", "allowance"])
lines = st.lists(
    st.one_of(
        st.fixed_dictionaries(
            {
                "text": st.sampled_from(["Mantel", "Lift, a day", "Parking"]),
                "kind": charged,
                "quantity": st.floats(0.5, 12.0),
                "each": st.floats(1.0, 400.0),
                "room": st.sampled_from(["sitting room", "unknown"]),
                "taxed": st.sampled_from(["yes", "no"]),
            }
        ),
        st.fixed_dictionaries(
            {"text": st.just("Strip the mantel"), "kind": st.just("labor"), "quantity": st.floats(0.5, 20.0)}
        ),
    ),
    min_size=1,
    max_size=4,
)
TAXED = {"business/sales_tax": {"likely": 6.25, "unit": "percent"}}


def plain(path: Any = CEILING, **more: Any) -> Plain:
    return {**tomllib.loads(path.read_text(encoding="utf-8")), "own": TAXED, **more}


def priced(job: Plain) -> Outcome:
    return estimate_job(build_job(job))


@FEW
@given(extra=lines, discount=st.sampled_from(["unknown", "5 %", "$120"]), step=st.sampled_from(["unknown", 1, 5, 25]))
def test_rooms_add_up_and_the_engine_agrees_whatever_is_added(extra: list[Plain], discount: str, step: Any) -> None:
    """Lines, rooms and the standing engine come to one price, to the cent."""
    outcome = priced(plain(extra=extra, terms={"discount": discount, "round_up_to": step}))
    estimate = outcome.estimate
    assert sum_of(estimate.lines) == estimate.price
    rooms = room_prices(estimate)
    assert sum(each.price for each in rooms) == estimate.price
    assert all(sum(each.surfaces.values()) == each.price for each in rooms)
    assert outcome.engine.likely(estimate.plans).price == estimate.price
    if step != "unknown":
        assert estimate.price % step == 0


@FEW
@given(extra=lines)
def test_taking_own_lines_out_again_restores_the_old_job(extra: list[Plain]) -> None:
    """To the cent, line by line; with them every one of them is a line of the price, in its own section."""
    before = priced(plain()).estimate
    during = priced(plain(extra=extra)).estimate
    after = priced(plain(extra=[])).estimate
    assert [(line.item, line.cost) for line in after.lines] == [(line.item, line.cost) for line in before.lines]
    added = [line for line in during.lines if line.key.startswith("own_line_")]
    assert len(added) == len(extra)
    assert during.price > before.price


@FEW
@given(percent=st.integers(0, 100))
def test_a_discount_never_changes_cost(percent: float) -> None:
    """Method, cost, hours and every line of work stay, even at no price at all; the price falls by just that share."""
    before, after = priced(plain(CEILING)).estimate, priced(plain(CEILING, terms={"discount": f"{percent} %"})).estimate
    assert after.cost.value == before.cost.value
    assert after.hours.value == before.hours.value
    untouched = [line for line in before.lines if line.section is not Section.SALES_TAX]
    kept = [line for line in after.lines if line.section not in (Section.SALES_TAX, Section.DISCOUNT)]
    assert [line.cost for line in kept] == [line.cost for line in untouched]
    assert float(after.price) == pytest.approx(float(before.price) * (1 - percent / 100), abs=0.005 * len(kept))


def test_hours_of_an_own_line_are_worked_paid_and_scheduled() -> None:
    """They stand on the crew sheet's schedule, carry overhead, and may take a day."""
    before, after = (priced(plain(extra=extra)).estimate for extra in ([], [LABOR]))
    assert after.hours.value >= before.hours.value + 20
    assert after.schedule.days.value > before.schedule.days.value
    assert sum_of(after.section(Section.OVERHEAD)) > sum_of(before.section(Section.OVERHEAD))


LABOR: Plain = {"text": "Strip the mantel", "kind": "labor", "quantity": 20.0, "low": 12.0, "high": 40.0}


def test_the_range_of_an_own_line_is_in_the_range_of_the_cost() -> None:
    """A line nobody is sure of widens what the job may come to."""
    sure = {**LABOR, "low": 20.0, "high": 20.0}
    wide, narrow = (estimate_ranges(priced(plain(extra=[line])).estimate).cost for line in (LABOR, sure))
    assert wide.high - wide.low > narrow.high - narrow.low


def test_sales_tax_is_charged_on_what_is_taxed() -> None:
    """An untaxed line raises the price and not the tax."""

    def tax(taxed: str) -> Decimal:
        line = {"text": "Permit", "kind": "fee", "each": 300.0, "taxed": taxed}
        return sum_of(priced(plain(extra=[line])).estimate.section(Section.SALES_TAX))

    without = sum_of(priced(plain()).estimate.section(Section.SALES_TAX))
    assert tax("no") == without
    assert tax("yes") > without


def test_paint_the_client_supplies_costs_nothing_and_is_still_counted() -> None:
    """The gallons stay on the list, at no cost; other paint keeps its price."""
    before, after = (priced(plain(terms=terms)).estimate for terms in ({}, {"client_supplies": ["ceiling_flat"]}))
    walls = [order for order in after.paint if order.product == "ceiling_flat"]
    assert walls
    assert all(round(order.cost.value, 2) == 0 and order.need.value > 0 for order in walls)
    others = {order.title: order.cost.value for order in after.paint if order.product != "ceiling_flat"}
    assert others == {order.title: order.cost.value for order in before.paint if order.product != "ceiling_flat"}


@pytest.mark.parametrize(
    ("line", "needed"),
    [
        ({"text": "Mantel", "kind": "fee"}, "dollars each"),
        ({"text": "Mantel", "kind": "labor", "quantity": 2, "each": 5}, "no dollars"),
        ({"text": "Mantel", "kind": "fee", "each": 5, "low": 6}, "low ≤ likely ≤ high"),
        ({"text": "Mantel", "kind": "fee", "each": 5, "room": "attic"}, "one of the rooms"),
        ({"text": "Mantel", "kind": "fee", "each": -5}, "greater than or equal to 0"),
    ],
)
def test_a_line_that_cannot_be_is_refused(line: Plain, needed: str) -> None:
    """With what would be right."""
    with pytest.raises(InputErrors, match=needed):
        build_job(plain(extra=[line]))


def test_own_lines_and_terms_survive_writing_and_reading() -> None:
    """What was typed comes back as it was typed."""
    job = build_job(plain(extra=[LABOR], terms={"discount": "5 %", "round_up_to": 5}))
    assert parse_job(dump_job(job)) == job
