"""The change order: old job and change are the new job, to the cent, and the client sees no cost."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from paper_jobs import REPAINT, STUDY, made, read, with_own, with_work
from test_proposal import ODD, leaks

from estimating.errors import InputError
from estimating.estimate.pricing.lines import Section
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.change_order import REST, change_order, changes, is_same_job, signed_dollars
from estimating.reports.format import dollars
from estimating.reports.panes.selling import WORK, hourly_charge, loading, sold_lines
from estimating.units import cents
from estimating.workbook import Outcome

ON = date(2026, 5, 4)
SOME_JOBS = st.fixed_dictionaries(
    {
        "method": st.sampled_from(["spray", "roll", "seal_roll", "scrape", "overlay", "decline", "unknown"]),
        "trims_to_coat": st.integers(0, 9),
        "coats": st.integers(1, 3),
        "walls_next": st.sampled_from(["yes", "no"]),
        "color_wanted": st.sampled_from(["flat white", "pale gray"]),
    }
)
SOME_RATES = st.fixed_dictionaries(
    {
        "business/markup": st.tuples(st.sampled_from([0.0, 20.0, 35.0, 62.5]), st.just("percent")),
        "business/sales_tax": st.tuples(st.sampled_from([0.0, 6.25]), st.just("percent")),
        "business/minimum_charge": st.tuples(st.sampled_from([0.0, 450.0, 4000.0]), st.just("dollar")),
    }
)


def job_of(work: dict[str, Any], rates: dict[str, tuple[float, str]]) -> Outcome:
    def change(job: dict[str, Any]) -> None:
        with_work(**work)(job)
        with_own(rates)(job)

    return made(change)


@settings(max_examples=25, deadline=None)
@given(old=SOME_JOBS, new=SOME_JOBS, rates=SOME_RATES)
def test_the_price_before_and_the_changes_are_the_price_after(
    old: dict[str, Any], new: dict[str, Any], rates: dict[str, tuple[float, str]]
) -> None:
    """Whatever is changed, the rows add up to the difference of the two prices, to the cent."""
    before, after = job_of(old, rates).estimate, job_of(new, rates).estimate
    total = sum((row.amount for row in changes(before, after)), Decimal("0.00"))
    assert before.price + total == after.price


@settings(max_examples=25, deadline=None)
@given(work=SOME_JOBS, rates=SOME_RATES)
def test_lines_at_the_price_make_up_the_price(work: dict[str, Any], rates: dict[str, tuple[float, str]]) -> None:
    """Every line with its share of overhead, profit and taxes, and what lifts it to the minimum, is the price."""
    estimate = job_of(work, rates).estimate
    lifted = sum(line.amount.value for line in estimate.section(Section.MINIMUM))
    sold = sum(sold_lines(estimate).values()) + cents(lifted * (1 + loading(estimate).sales_tax))
    rounded = len(estimate.lines)  # each line is rounded once here and once there
    assert abs(sold - estimate.price) <= Decimal("0.01") * rounded


def test_an_hour_costs_the_client_the_same_in_every_row() -> None:
    """Rows of labor follow the rate that the proposal states for changes."""
    before, after = (made(with_work(method="spray", trims_to_coat=count)).estimate for count in (0, 4))
    rate = hourly_charge(after)
    assert rate is not None
    hours = {line.item: line.quantity.value for line in after.section(Section.LABOR)}
    rows = {row.item: row for row in changes(before, after)}
    assert float(rows["Clean and scuff trims"].amount) == pytest.approx(
        float(rate) * hours["Clean and scuff trims"], abs=0.01
    )


def test_only_what_differs_is_listed() -> None:
    """Taking the trims on adds their tasks and their enamel, and leaves masking and coats of the ceiling out of it."""
    before, after = (made(with_work(method="spray", trims_to_coat=count)) for count in (0, 4))
    rows = changes(before.estimate, after.estimate)
    names = [row.item for row in rows]
    assert "Coat trims in place, light passes" in names
    assert "Enamel for trim, water-borne" in names
    assert "Hang the wall drape from the paper" not in names
    assert [row.before for row in rows if row.item == "Enamel for trim, water-borne"] == ["–"]
    assert [row.after for row in rows if row.item == "Enamel for trim, water-borne"] == ["1 quart"]


def test_what_is_bought_and_allowed_for_is_in_one_row() -> None:
    """Rolls, hire, risk and rounding are not told apart: the client pays them, and does not see through them."""
    rows = changes(made(with_work(method="spray")).estimate, made(with_work(method="seal_spray")).estimate)
    assert [row.item for row in rows].count(REST) == 1
    assert not {"Texture comes down", "Spray tip"} & {row.item for row in rows}


def test_no_change_changes_nothing() -> None:
    """The same job twice makes an empty change order."""
    same = made()
    assert changes(same.estimate, made().estimate) == ()
    said = read(as_html(change_order(same, made(), ON)))
    assert "Nothing is changed." in said
    assert "no change" in said


def test_price_and_days_stand_before_and_after() -> None:
    """Both prices, the change between them, both numbers of days, and the other way of doing it in words."""
    before, after = made(with_work(method="spray")), made(with_work(method="seal_roll"))
    said = read(as_html(change_order(before, after, ON)))
    gap = after.estimate.price - before.estimate.price
    for part in (dollars(before.estimate.price), dollars(after.estimate.price), signed_dollars(gap)):
        assert part in said
    days = [each.estimate.schedule.days.value for each in (before, after)]
    assert f"{days[0]:.0f} before, {days[1]:.0f} after: {days[1] - days[0]:.0f} more" in said
    assert "Seal with solvent-borne primer, then roll instead of Spray, water-borne" in said


def test_work_added_and_left_out_is_named() -> None:
    """A room that is taken out of the job is left out of it in words."""

    def without_study(job: dict[str, Any]) -> None:
        job["work"] = [item for item in job["work"] if item["room"] != "study"]

    whole, less = made(path=REPAINT), made(without_study, REPAINT)
    assert "Left out: repaint, study: Brush and roll" in read(as_html(change_order(whole, less, ON)))
    assert "Added: repaint, study: Brush and roll" in read(as_html(change_order(less, whole, ON)))


def test_another_job_is_refused() -> None:
    """A change order from one house to another is an error that names the job that was sent."""
    assert not is_same_job(made(), made(path=STUDY))
    with pytest.raises(InputError, match="the job that was sent, at 14 Alder Row"):
        change_order(made(), made(path=STUDY), ON)


@pytest.mark.parametrize("method", ["seal_roll", "scrape"])
def test_the_client_sees_no_cost(method: str) -> None:
    """Rows are at the price; no wage, cost, markup or overhead is among them."""
    before = job_of({}, ODD)
    after = job_of({"method": method}, ODD)
    said = read(as_html(change_order(before, after, ON)))
    hidden = said.replace(REST, "")
    assert leaks(hidden, before) | leaks(hidden, after) == set()


def test_every_section_of_work_is_sold() -> None:
    """A new section of the price has to be given its place: in the work, or on top of it."""
    on_top = {Section.PURCHASE_TAX, Section.OVERHEAD, Section.PROFIT, Section.MINIMUM, Section.DISCOUNT}
    on_top |= {Section.SALES_TAX, Section.ROUNDING}
    assert set(Section) == {*WORK, *on_top}
