"""Recording an estimate as sent from the desk, in-process; two desks on one records file."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from places import JOBS

from estimating.desk import Desk, open_desk
from estimating.evidence import OwnValue, load_library
from estimating.records.own import keep_own
from estimating.records.sent import SentEstimate, list_estimates
from estimating.records.store import open_records
from estimating.workbook import parse_job

DEMO = JOBS / "alder_row_sitting_room.toml"
TITLE = "Sitting room ceiling, 14 Alder Row"


def _desk(folder: Path, name: str = "job.toml") -> Desk:
    path = folder / name
    shutil.copy(DEMO, path)
    return open_desk(path, folder / "records" / "records.sqlite")


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return _desk(tmp_path)


def _sent(desk: Desk) -> tuple[SentEstimate, ...]:
    with open_records(desk.records) as records:
        return list_estimates(records)


def test_the_estimate_on_the_desk_is_kept_under_the_jobs_title(desk: Desk) -> None:
    """The first sending makes the file; price and job are those on the desk, and the line says so."""
    assert not desk.records.exists()
    desk.sending.button.click()
    (sent,) = _sent(desk)
    assert desk.outcome is not None
    assert (sent.job.name, sent.price) == (TITLE, desk.outcome.estimate.price)
    assert parse_job(sent.job.toml) == desk.outcome.job
    assert "recorded as sent" in desk.status.value
    assert TITLE in desk.status.value


def test_a_name_of_ones_own_is_used(desk: Desk) -> None:
    """What is typed in the box is the name in the records."""
    desk.sending.name.value = "Alder Row, second bid"
    desk.sending.button.click()
    assert [each.job.name for each in _sent(desk)] == ["Alder Row, second bid"]


def test_pressing_twice_adds_nothing_and_a_change_is_a_further_estimate(desk: Desk) -> None:
    """What was sent is never written over."""
    desk.sending.button.click()
    desk.sending.button.click()
    assert "nothing to add" in desk.status.value
    (first,) = _sent(desk)
    desk.put(("work", 0, "coats"), "3")
    desk.sending.button.click()
    assert _sent(desk)[0] == first
    assert len(_sent(desk)) == 2


def test_what_is_not_shown_cannot_be_sent(desk: Desk) -> None:
    """While a field is wrong the price is from before, and sending is refused in words."""
    desk.put(("rooms", 0, "height"), "tall")
    assert desk.stale
    desk.sending.button.click()
    assert "put right" in desk.status.value
    assert not desk.records.exists()
    assert desk.sitting.kept.state == "draft"


def test_old_prices_are_minded_when_sending(desk: Desk) -> None:
    """A year after its prices were asked, an estimate is sent with a warning, and the order pane flags them."""
    desk.sending.send(desk.records, date(2031, 1, 1))
    assert "Mind:" in desk.status.value
    assert "more than 60 days ago" in desk.status.value
    desk.results.open("Shopping list")
    assert "Prices by the day they were asked" in desk.results.answers["Shopping list"].value


def test_a_folder_that_cannot_be_made_is_said(desk: Desk, tmp_path: Path) -> None:
    """A records file where none can be is a sentence in the status line."""
    desk.records = tmp_path / "job.toml" / "records.sqlite"
    desk.sending.button.click()
    assert "cannot be made" in desk.status.value


def test_two_desks_send_into_one_file(tmp_path: Path) -> None:
    """Each sees what the other kept; neither undoes it."""
    one, other = _desk(tmp_path, "one.toml"), _desk(tmp_path, "other.toml")
    one.sending.name.value, other.sending.name.value = "one", "other"
    one.sending.button.click()
    other.sending.button.click()
    one.sending.name.value = "one again"
    one.sending.button.click()
    assert [each.job.name for each in _sent(other)] == ["one", "other", "one again"]


def test_a_value_accepted_at_one_desk_holds_at_the_other_when_it_reads_again(tmp_path: Path) -> None:
    """An own value kept meanwhile changes nothing until the desk is told to read again; then the price follows."""
    one, other = _desk(tmp_path, "one.toml"), _desk(tmp_path, "other.toml")
    one.sending.button.click()
    assert other.outcome is not None
    before = other.outcome.estimate.price
    row = load_library().row("business", "wage")
    keep_own(one.records, row, OwnValue(41.0, row.unit, 41.0, 41.0))
    other.sending.button.click()
    assert other.outcome.estimate.price == before
    other.read_again()
    assert other.outcome.estimate.price > before
    other.sending.button.click()
    assert [each.price for each in _sent(one)] == [before, other.outcome.estimate.price]
