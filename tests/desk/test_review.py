"""The review page in-process: what was typed is kept, what is learned is proposed, and nothing changes unasked."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from places import JOBS

from estimating.desk import Review, example_summary, open_desk, open_review
from estimating.evidence import load_library
from estimating.records.actuals import Actual, list_actuals, list_releases, list_test_outcomes
from estimating.records.own import own_table
from estimating.records.sent import list_estimates
from estimating.records.store import open_records
from estimating.review.example import NAME, TODAY, invented_history
from estimating.review.sending import WHOLE

ALDER_ROW = JOBS / "alder_row_sitting_room.toml"
ROLL = "production/roll_ceiling/roll/popcorn"
ROLL_1, ROLL_2 = "Roll the ceiling, coat 1, sitting room", "Roll the ceiling, coat 2, sitting room"
OPEN_JOB = "Sitting room ceiling, 6 Osier Walk"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return invented_history(tmp_path_factory.mktemp("history") / NAME)


@pytest.fixture
def page(made: Path, tmp_path: Path) -> Review:
    review = open_review(shutil.copy(made, tmp_path / NAME))
    choose(review, OPEN_JOB)
    return review


def choose(review: Review, job: str) -> None:
    """Choose the estimate of a job."""
    review.sent.value = next(id_ for words, id_ in review.sent.options if job in words)


def look_at(review: Review, key: str) -> None:
    """Open a proposal."""
    review.lessons.chosen.value = key


def kept(review: Review, job: str = OPEN_JOB) -> list[Actual]:
    """Return what the records hold about a job."""
    with open_records(review.path) as records:
        ids = {each.id for each in list_estimates(records, job)}
        return [each for each in list_actuals(records) if each.estimate_id in ids]


def test_an_empty_file_explains_itself_and_makes_nothing(tmp_path: Path) -> None:
    """Without records the page says how they come to be; looking leaves no file and no folder."""
    review = open_review(tmp_path / "records" / "records.sqlite")
    assert "No estimate has been recorded as sent yet" in review.welcome.value
    assert "no estimate has been recorded" in review.summary()
    assert list(tmp_path.iterdir()) == []


def test_the_invented_history_goes_into_a_file_of_its_own(tmp_path: Path) -> None:
    """The button opens it beside the contractor's own file, which it does not make, and says that it is invented."""
    review = open_review(tmp_path / "records" / "records.sqlite")
    review.example.click()
    assert review.path == tmp_path / "records" / NAME
    assert "invented" in review.status.value
    assert [each.name for each in review.path.parent.iterdir()] == [NAME]
    assert len(review.sent.options) == 10
    assert review.today == TODAY


def test_ones_own_records_are_looked_back_on_from_today(tmp_path: Path) -> None:
    """Only the invented history has a day of its own."""
    assert open_review(tmp_path / "records.sqlite").today == date.today()


def test_a_place_that_is_no_records_file_is_said(tmp_path: Path) -> None:
    """Another file is left as it is, and named."""
    other = tmp_path / "notes.txt"
    other.write_text("x" * 200)
    review = open_review(other)
    assert "is no records file" in review.status.value
    assert other.read_text() == "x" * 200


def test_every_promise_has_a_box_and_its_range_beside_it(page: Review) -> None:
    """Hours and gallons are asked for, dollars are not; small lines are folded away."""
    names = list(page.actuals.boxes)
    assert names[0] == WHOLE
    assert ROLL_1 in names
    assert "Overhead" not in names
    assert {entry.control.placeholder for entry in page.actuals.boxes.values()} == {"not known"}


def test_what_is_typed_is_kept_and_a_blank_is_not(page: Review) -> None:
    """Two lines typed are two entries; 0 is one of them; on opening again they stand in their boxes."""
    page.actuals.boxes[ROLL_1].control.value = "3.5"
    page.actuals.boxes[ROLL_2].control.value = "0"
    page.save.click()
    assert [(each.line, each.amount) for each in kept(page)] == [(ROLL_1, 3.5), (ROLL_2, 0.0)]
    assert "lines known 2, entries added 2" in page.status.value
    assert page.actuals.boxes[ROLL_1].control.value == "3.5"
    assert page.actuals.boxes[ROLL_2].control.value == "0"
    assert "actuals recorded" in page.sent.label


def test_saving_again_changes_nothing_and_a_blanked_box_takes_its_entry_out(page: Review) -> None:
    """What is typed anew sets the old figure aside."""
    page.actuals.boxes[ROLL_1].control.value = "3.5"
    page.save.click()
    page.save.click()
    assert "entries added 0" in page.status.value
    page.actuals.boxes[ROLL_1].control.value = ""
    page.save.click()
    assert kept(page) == []
    assert "older ones set aside 1" in page.status.value


def test_nonsense_is_marked_in_its_place_and_nothing_is_kept(page: Review) -> None:
    """A wrong box and a wrong day are marked at once; put right, the marks go."""
    box, day = page.actuals.boxes[ROLL_1], page.actuals.day
    box.control.value, day.control.value = "long", "2027-01-01"
    page.actuals.boxes[ROLL_2].control.value = "3"
    page.save.click()
    assert "long" in box.widget.children[1].value
    assert "2027-01-01" in day.widget.children[1].value
    assert kept(page) == []
    box.control.value, day.control.value = "90 min", "2026-05-30"
    page.save.click()
    assert [each.amount for each in kept(page)] == [1.5, 3.0]
    assert len(page.actuals.boxes[ROLL_1].widget.children) == 1


def test_forgotten_work_is_kept_under_its_own_name(page: Review) -> None:
    """It stands in its row when the estimate is opened again, with an empty row after it."""
    what, hours = page.actuals.forgotten[-1]
    what.control.value, hours.control.value = "moved a piano", "0.5"
    page.save.click()
    assert [(each.line, each.task) for each in kept(page)] == [("moved a piano", "not in the estimate")]
    assert [what.control.value for what, _ in page.actuals.forgotten] == ["moved a piano", ""]
    assert "moved a piano" in page.honest.value


def test_actuals_change_what_is_proposed(page: Review) -> None:
    """A ceiling that took very long lowers the rate further."""

    def proposed() -> float:
        return next(each.likely for each in page.found.proposals if each.row.key == ROLL)

    before = proposed()
    for line in (ROLL_1, ROLL_2):
        page.actuals.boxes[line].control.value = "9"
    page.save.click()
    assert proposed() < before


def test_a_proposal_shows_its_effect_before_it_is_accepted(page: Review) -> None:
    """The open estimates are priced with and without it; nothing is written by looking."""
    look_at(page, ROLL)
    assert OPEN_JOB in page.lessons.detail.value
    assert "as sent" in page.lessons.detail.value
    assert own_table(page.path, load_library()).values == {}


def test_accepting_changes_the_rate_and_taking_back_brings_the_old_one(page: Review) -> None:
    """An accepted value stands, is not proposed again, prices the desk after Refresh, and goes when taken back."""
    desk = open_desk(ALDER_ROW, page.path)
    assert desk.outcome is not None
    before = [option.price for option in desk.outcome.comparisons[0].options if option.plan.method == "roll"]
    look_at(page, ROLL)
    page.lessons.accept.click()
    own = own_table(page.path, load_library()).values
    low, high = own[ROLL].low, own[ROLL].high
    assert low is not None
    assert high is not None
    assert low < 90 / 1.4 < high < 90
    assert own[ROLL].date == TODAY.isoformat()
    assert ROLL not in [key for _, key in page.lessons.chosen.options]
    desk.read_again()
    after = [option.price for option in desk.outcome.comparisons[0].options if option.plan.method == "roll"]
    assert after > before
    page.lessons.mine.value = ROLL
    page.lessons.take_back.click()
    assert own_table(page.path, load_library()).values == {}
    assert ROLL in [key for _, key in page.lessons.chosen.options]
    desk.read_again()
    assert [option.price for option in desk.outcome.comparisons[0].options if option.plan.method == "roll"] == before


def test_not_now_puts_a_proposal_aside_and_writes_nothing(page: Review) -> None:
    """It comes back when the page is opened anew."""
    look_at(page, ROLL)
    page.lessons.not_now.click()
    assert ROLL not in [key for _, key in page.lessons.chosen.options]
    assert "roll ceiling, roll, popcorn" not in page.lessons.all.value
    assert own_table(page.path, load_library()).values == {}
    page.open.click()
    assert ROLL in [key for _, key in page.lessons.chosen.options]


def test_a_test_and_a_release_are_kept_and_can_be_taken_out(page: Review) -> None:
    """The odds are those of the way as priced; nothing may be left blank; what is taken out is left out."""
    surface = page.surface
    surface.test.value = ("water mist", "darkens")
    surface.place.control.value = "by the window"
    surface.add_test.click()
    surface.add_release.click()
    assert len(surface.released.widget.children) == 2
    surface.work.value = next(each for each in surface.terms if each.method == "roll")
    surface.released.control.value, surface.hours.control.value = "3", "2.5"
    surface.add_release.click()
    with open_records(page.path) as records:
        test = list_test_outcomes(records)[-1]
        release = next(each for each in list_releases(records) if each.job == OPEN_JOB)
    assert (test.job, test.kind, test.result, test.place) == (OPEN_JOB, "water mist", "darkens", "by the window")
    assert (release.method, release.released_area, release.hours_to_fix) == ("roll", 3.0, 2.5)
    assert release.odds == surface.work.value.odds
    assert "by the window" in surface.list.value
    surface.entries.index = 1
    surface.take_out.click()
    with open_records(page.path) as records:
        assert [each for each in list_releases(records) if each.job == OPEN_JOB] == []


def test_honesty_is_told_with_its_bound(page: Review) -> None:
    """The count, what it allows, bias by task, learning, and the age of prices."""
    with_crew_note = page.honest.value
    for words in (
        "inside the 80% range",
        "the true share is between",
        "roll ceiling (hours)",
        "as learned",
        "days ago",
    ):
        assert words in with_crew_note


def test_two_pages_on_one_file_do_not_undo_each_other(page: Review) -> None:
    """Each act reads the file anew: a value accepted on one page stands on the other, and actuals of both are kept."""
    other = open_review(page.path)
    look_at(page, ROLL)
    page.lessons.accept.click()
    choose(other, "31 Teasel Road")
    other.actuals.boxes[WHOLE].control.value = "17"
    other.save.click()
    page.actuals.boxes[WHOLE].control.value = "15"
    page.save.click()
    assert ROLL in own_table(other.path, load_library()).values
    assert ROLL in [key for _, key in other.lessons.mine.options]
    assert len(kept(page, "Bedroom ceiling, 31 Teasel Road")) == len(kept(page, OPEN_JOB)) == 1


def test_a_file_that_is_gone_is_said(page: Review) -> None:
    """Saving into nothing would make a new, empty file; it is refused."""
    page.path.unlink()
    page.save.click()
    assert "no such records file any more" in page.status.value
    assert not page.path.exists()


def test_what_was_typed_is_never_markup(page: Review) -> None:
    """A line called <b> is shown as typed."""
    what, hours = page.actuals.forgotten[-1]
    what.control.value, hours.control.value = "<b>bold</b>", "1"
    page.save.click()
    assert "<b>bold" not in page.honest.value
    assert "&lt;b&gt;bold" in page.honest.value


def test_the_example_is_the_same_each_time() -> None:
    """What the notebook prints depends on no clock and on nobody's records."""
    first = example_summary()
    assert first == example_summary()
    assert first.startswith("estimates sent 10, jobs finished 8")
