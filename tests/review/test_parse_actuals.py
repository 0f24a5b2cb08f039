"""What is typed about a finished job, and how it is kept."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from estimating.errors import InputErrors
from estimating.records.actuals import list_actuals
from estimating.records.sent import SentEstimate, SentLine, save_job, send_estimate
from estimating.records.store import Records, open_records
from estimating.review.parse_actuals import (
    FORGOTTEN,
    Forgotten,
    TypedRelease,
    field_tests,
    read_actuals,
    read_amount,
    read_release,
    read_test,
)
from estimating.review.release_terms import ReleaseTerms
from estimating.review.save_actuals import Kept, keep_actuals, open_estimates, recorded

TODAY = date(2026, 6, 1)
DAY = "2026-05-28"
NOON = datetime(2026, 5, 1, 12, tzinfo=UTC)
LINES = (
    SentLine("Roll, parlour", "roll_ceiling", "hours", 1.5, 2.0, 2.8, "popcorn", row="production/roll_ceiling"),
    SentLine("Flat", "ceiling_flat", "gallons", 1.5, 2.0, 2.8, product="ceiling_flat"),
    SentLine("Overhead", "overhead", "dollars", 100.0, 120.0, 140.0),
)
TERMS = ReleaseTerms("ceiling, parlour", "spray", "looks_unpainted", 0.25, 180.0)


@pytest.fixture
def records(tmp_path: Path) -> Iterator[Records]:
    with open_records(tmp_path / "records.sqlite") as opened:
        yield opened


@pytest.fixture
def sent(records: Records) -> SentEstimate:
    return _sent(records, "parlour")


def _sent(records: Records, job: str) -> SentEstimate:
    save_job(records, job, "", NOON)
    return send_estimate(records, job, price=Decimal(640), lines=LINES, assumptions=[], at=NOON)


def _places(problems: InputErrors) -> list[str]:
    return [str(each.location[0]) for each in problems.problems]


@pytest.mark.parametrize(
    ("text", "amount"),
    [("", None), ("  ", None), ("0", 0.0), ("2.5", 2.5), (".5", 0.5), ("3 hours", 3.0), ("90 min", 1.5)],
)
def test_a_blank_is_not_known_and_nothing_is_typed_as_0(text: str, amount: float | None) -> None:
    """A bare number is in the unit of the box; another unit is converted."""
    assert read_amount(text, "hour", "hours") == (None if amount is None else pytest.approx(amount))


def test_a_promise_in_gallons_takes_liters() -> None:
    """Cans are read in the unit that stands on them; a gallon is 231 cubic inches, 3.785 liters."""
    assert read_amount("3.785 L", "gallon", "gallons") == pytest.approx(1.0, abs=0.0005 / 3.785)


@pytest.mark.parametrize("text", ["-1", "two", "2,5", "1e3", "3 gallons", "nan", "2.5.1"])
def test_what_is_no_amount_is_refused(text: str) -> None:
    """No guess is made."""
    with pytest.raises(ValueError, match="needs a number such as"):
        read_amount(text, "hour", "hours")


def test_lines_left_blank_leave_no_entry(sent: SentEstimate) -> None:
    """0 is kept as none; what is measured in dollars is not asked for."""
    (roll,) = read_actuals(sent, {"Roll, parlour": "0"}, DAY, (), TODAY)
    assert (roll.amount, roll.task, roll.surface, roll.done_on) == (0.0, "roll_ceiling", "popcorn", date(2026, 5, 28))


def test_work_in_no_estimate_has_a_line_of_its_own(sent: SentEstimate) -> None:
    """What was forgotten is named, with its hours; an empty row is no entry."""
    (piano,) = read_actuals(sent, {}, DAY, [Forgotten("moved a piano", "0.5"), Forgotten()], TODAY)
    assert (piano.line, piano.task, piano.measure, piano.amount) == ("moved a piano", FORGOTTEN, "hours", 0.5)


def test_everything_wrong_is_found_at_once_in_its_place(sent: SentEstimate) -> None:
    """Each wrong box is named, so that the form can mark it."""
    wrong = {"Roll, parlour": "long", "Flat": "-1"}
    with pytest.raises(InputErrors) as problems:
        read_actuals(sent, wrong, "2026-06-02", [Forgotten("piano", ""), Forgotten("", "2")], TODAY)
    assert _places(problems.value) == ["day", "Roll, parlour", "Flat", "hours 0", "what 1"]


def test_every_test_that_can_be_made_has_its_results() -> None:
    """Tape pulls are read in three classes, as the odds are."""
    assert ("tape pull", "under 5 %") in field_tests()
    assert ("water mist", "darkens") in field_tests()
    outcome = read_test("parlour", "water mist", "darkens", " by the window ", DAY, TODAY)
    assert (outcome.kind, outcome.result, outcome.place) == ("water mist", "darkens", "by the window")
    with pytest.raises(InputErrors, match="not one to come"):
        read_test("parlour", "water mist", "darkens", "", "2027-01-01", TODAY)


def test_a_release_rests_on_the_odds_it_was_priced_with() -> None:
    """Class of history as found out; way and odds as sent; the place is the work where none was typed."""
    release = read_release("parlour", TERMS, TypedRelease("painted_twice", "180", "0", "0", DAY), TODAY)
    assert (release.history, release.method, release.odds) == ("painted_twice", "spray", 0.25)
    assert (release.worked_area, release.released_area, release.place) == (180.0, 0.0, "ceiling, parlour")


def test_a_release_that_nobody_looked_for_is_not_taken_for_none() -> None:
    """Blanks are refused box by box."""
    with pytest.raises(InputErrors) as problems:
        read_release("parlour", TERMS, TypedRelease("painted_twice", "", "", "", DAY), TODAY)
    assert _places(problems.value) == ["worked", "released", "hours"]


def test_what_is_typed_anew_replaces_without_erasing(records: Records, sent: SentEstimate) -> None:
    """The same again changes nothing; another figure withdraws the old one, and so does a blank."""

    def keep(**typed: str) -> Kept:
        texts = {"Roll, parlour": typed.get("roll", ""), "Flat": typed.get("flat", "")}
        return keep_actuals(records, sent, read_actuals(sent, texts, DAY, (), TODAY))

    assert keep(roll="2.5", flat="2") == Kept(2, 0)
    assert keep(roll="2.5", flat="2") == Kept(0, 0)
    assert keep(roll="2.75", flat="2") == Kept(1, 1)
    assert keep(roll="2.75") == Kept(0, 1)
    assert [(each.line, each.amount) for each in list_actuals(records)] == [("Roll, parlour", 2.75)]
    assert list(recorded(records, sent)) == [("Roll, parlour", "hours")]


def test_an_estimate_is_open_until_something_of_its_job_is_known(records: Records, sent: SentEstimate) -> None:
    """The last one sent of a job stands for it; actuals of any of them close the job."""
    hall = _sent(records, "hall")
    later = _sent(records, "parlour")
    assert open_estimates(records) == (later, hall)
    keep_actuals(records, sent, read_actuals(sent, {"Flat": "2"}, DAY, (), TODAY))
    assert open_estimates(records) == (hall,)
