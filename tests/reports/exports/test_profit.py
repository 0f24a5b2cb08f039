import pytest
from places import JOBS

from estimating.errors import InputError
from estimating.evidence import OwnValue
from estimating.reports.exports.adding import added_by_each
from estimating.reports.exports.profit import kept_at_margin, kept_now, profit_words
from estimating.workbook import Outcome, estimate_job, read_job


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    taxed = {"business/sales_tax": OwnValue(5.0, "percent", date="2026-01-01")}
    return estimate_job(read_job(JOBS / "birch_lane_upstairs.toml"), own=taxed)


def test_markup_on_cost_and_margin_of_the_price(outcome: Outcome) -> None:
    """The demo's markup of 35 % is a margin of 35/135, whatever sales tax is charged on top."""
    now = kept_now(outcome.estimate)
    assert now.markup == pytest.approx(0.35, abs=1e-4)
    assert now.margin == pytest.approx(0.35 / 1.35, abs=1e-4)
    assert now.profit == pytest.approx(0.35 * outcome.estimate.cost.value, abs=0.5)


def test_the_price_for_a_margin_leaves_it(outcome: Outcome) -> None:
    """Less the sales tax of 5 %, three tenths of the price are kept and seven are the cost."""
    wanted = kept_at_margin(outcome.estimate, 0.3)
    assert wanted.price / 1.05 * 0.7 == pytest.approx(outcome.estimate.cost.value)
    assert wanted.profit == pytest.approx(wanted.price / 1.05 * 0.3)
    again = kept_at_margin(outcome.estimate, kept_now(outcome.estimate).margin)
    assert again.price == pytest.approx(float(outcome.estimate.price), abs=0.01)


def test_both_are_said(outcome: Outcome) -> None:
    """One line for the price as it is, one for the margin asked for."""
    one, other = profit_words(outcome.estimate, 0.3).split("\n")
    assert "a margin of 25.9% of the price before sales tax, a markup of 35.0% on cost" in one
    assert other.startswith("for a margin of 30.0%: $")
    assert "a markup of 42.9% on cost" in other


def test_a_margin_of_the_whole_price_is_refused(outcome: Outcome) -> None:
    """No price leaves all of itself."""
    with pytest.raises(InputError, match=r"margin: got 1\.0"):
        kept_at_margin(outcome.estimate, 1.0)


def test_what_each_piece_adds_is_less_than_the_job(outcome: Outcome) -> None:
    """Each piece shares trips and cans with the others, so the parts add up to less than the whole."""
    head, *rows = added_by_each(outcome).split("\n")
    assert head.startswith("Adding this")
    assert [row.strip().split(":")[0] for row in rows] == [plan.scope for plan in outcome.estimate.plans]
    added = [float(row.split("$")[1].split(" ")[0].rstrip(",").replace(",", "")) for row in rows]
    assert sum(added) < float(outcome.estimate.price)


def test_a_job_of_one_piece_says_so() -> None:
    """There is nothing it could be added to."""
    assert "one work item" in added_by_each(estimate_job(read_job(JOBS / "quarry_lane_study.toml")))
