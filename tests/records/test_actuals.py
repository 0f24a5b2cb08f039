from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from estimating.errors import RecordsError
from estimating.records.actuals import (
    Actual,
    Price,
    Release,
    SurfaceTest,
    add_actual,
    add_price,
    add_release,
    add_test_outcome,
    latest_prices,
    list_actuals,
    list_prices,
    list_releases,
    list_test_outcomes,
    withdraw,
)
from estimating.records.compared import compare, worked
from estimating.records.sent import SentAssumption, SentLine, save_job, send_estimate
from estimating.records.store import Records, open_records

DAY = date(2026, 4, 2)
ROW = "production/roll_ceiling/roll/popcorn"
HOURS = SentLine("roll", "roll_ceiling", "hours", 1.5, 2.0, 2.8, "popcorn", "ceiling_flat", ROW)
SUM = SentLine("mask", "mask", "hours", 1.0, 1.4, 2.0)
RATE = SentAssumption(ROW, 90.0, 125.0, 170.0, "ft**2/hour", "judgment")
RELEASE = Release("parlour", "painted_once", "roll", 0.5, 180.0, 0.0, 0.0, DAY)


@pytest.fixture
def records(tmp_path: Path):
    with open_records(tmp_path / "records.sqlite") as opened:
        save_job(opened, "parlour", "")
        send_estimate(opened, "parlour", price=Decimal(400), lines=[HOURS, SUM], assumptions=[RATE])
        yield opened


def _took(line: str, amount: float, **more: object) -> Actual:
    return Actual(1, line, "roll_ceiling", "hours", amount, DAY, **more)


def test_entries_come_back_as_they_went_in(records: Records) -> None:
    """Days, money, words and blanks survive the file."""
    price = add_price(records, Price("ceiling_flat", "gallon", Decimal("41.90"), DAY, "invented"))
    actual = add_actual(records, _took("roll", 2.5, surface="popcorn", note="heavy nap"))
    tested = add_test_outcome(records, SurfaceTest("parlour", "water_mist", "darkens", DAY, "by the window"))
    release = add_release(records, RELEASE)
    assert list_prices(records) == (price,)
    assert list_actuals(records) == (actual,)
    assert list_test_outcomes(records) == (tested,)
    assert list_releases(records) == (release,)
    assert release.passes is None


def test_the_newest_price_counts_and_the_older_ones_stay(records: Records) -> None:
    """Prices are kept by day, whatever the order they were typed in."""
    for dollars, day in (("42", date(2026, 3, 1)), ("38", date(2025, 3, 1))):
        add_price(records, Price("ceiling_flat", "gallon", Decimal(dollars), day))
    assert latest_prices(records)["ceiling_flat", "gallon"].dollars == Decimal(42)
    assert latest_prices(records, on=date(2025, 12, 31))["ceiling_flat", "gallon"].dollars == Decimal(38)
    assert len(list_prices(records)) == 2


@pytest.mark.parametrize(
    ("entry", "problem"),
    [
        (lambda records: add_actual(records, Actual(99, "roll", "roll", "hours", 1.0, DAY)), "FOREIGN KEY"),
        (lambda records: add_actual(records, Actual(1, "roll", "roll", "days", 1.0, DAY)), "CHECK"),
        (lambda records: add_actual(records, _took("roll", -1.0)), "CHECK"),
        (lambda records: add_actual(records, _took("roll", float("nan"))), "NOT NULL"),
        (lambda records: add_price(records, Price("tape", "roll", Decimal(-1), DAY)), "nothing or more"),
        (lambda records: add_release(records, Release("p", "h", "roll", 1, 10, 11, 0, DAY)), "at most the 10 ft²"),
    ],
)
def test_what_cannot_be_true_is_refused(records: Records, entry, problem: str) -> None:
    """A wrong entry raises and nothing is kept."""
    with pytest.raises(RecordsError, match=problem):
        entry(records)
    assert list_actuals(records) == list_prices(records) == list_releases(records) == ()


def test_a_reading_typed_wrong_is_withdrawn_and_not_forgotten(records: Records) -> None:
    """A withdrawn entry is left out; it cannot be withdrawn twice, nor before it was kept."""
    wrong = add_actual(records, _took("roll", 25.0))
    right = add_actual(records, _took("roll", 2.5))
    withdraw(records, wrong, "a decimal point was missed")
    assert list_actuals(records) == (right,)
    with pytest.raises(RecordsError, match="UNIQUE"):
        withdraw(records, wrong, "again")
    with pytest.raises(RecordsError, match="never kept"):
        withdraw(records, _took("roll", 1.0), "no such thing")


def test_actuals_are_laid_beside_their_promises(records: Records) -> None:
    """Days of one line add up; the rate assumed comes from the estimate as sent."""
    add_actual(records, _took("roll", 1.0))
    add_actual(records, _took("roll", 1.6))
    (seen,) = compare(records).observed
    assert (seen.actual, seen.estimated, seen.low, seen.high) == (2.6, 2.0, 1.5, 2.8)
    assert (seen.row, seen.assumed, seen.unit, seen.product) == (ROW, 125.0, "ft**2/hour", "ceiling_flat")


def test_a_line_on_several_rows_counts_for_honesty_only(records: Records) -> None:
    """A line without a row of its own is compared, with no rate to learn."""
    add_actual(records, _took("mask", 1.9))
    (seen,) = compare(records).observed
    assert (seen.row, seen.assumed) == ("", 0.0)


def test_forgotten_and_skipped_work_is_shown_apart(records: Records) -> None:
    """Work nobody had priced, and promised work that took nothing, have no ratio and are not dropped."""
    forgotten = add_actual(records, _took("moved a piano", 0.5))
    skipped = add_actual(records, _took("mask", 0.0))
    assert compare(records).unmatched == (forgotten, skipped)


def test_jobs_on_old_coatings_say_whether_anything_came_down(records: Records) -> None:
    """Nothing released is no release, a little is one."""
    add_release(records, RELEASE)
    add_release(records, Release("hall", "painted_once", "spray", 0.2, 90.0, 1.5, 3.0, DAY, passes=2))
    assert [each.failed for each in worked(records)] == [False, True]
    assert [each.odds for each in worked(records)] == [0.5, 0.2]
