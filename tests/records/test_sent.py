import sqlite3
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from estimating.errors import RecordsError
from estimating.records.sent import (
    SentAssumption,
    SentEstimate,
    SentLine,
    job_history,
    list_estimates,
    list_jobs,
    load_estimate,
    load_job,
    save_job,
    send_estimate,
)
from estimating.records.store import Records, open_records

TYPED = '# "as typed", with a comment\n[job]\nceiling = "12\' 6\\""   # ünusual spacing\n'
LINE = SentLine("roll first coat", "roll_ceiling", "hours", 1.5, 2.0, 2.8, "popcorn", row="production/roll/popcorn")
RATE = SentAssumption("production/roll/popcorn", 90.0, 125.0, 170.0, "ft**2/hour", "judgment", note="invented")
NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "records.sqlite"


def _send(records: Records) -> SentEstimate:
    save_job(records, "parlour", TYPED, NOON)
    return send_estimate(records, "parlour", price=Decimal("640.10"), lines=[LINE], assumptions=[RATE], at=NOON)


def test_a_job_is_kept_as_it_was_typed(path: Path) -> None:
    """Comments, spacing and signs come back unchanged."""
    with open_records(path) as records:
        save_job(records, "parlour", TYPED)
        assert load_job(records, "parlour").toml == TYPED


def test_every_saving_is_kept_and_the_last_one_stands(path: Path) -> None:
    """Saving again adds to the history; saving the same text does not."""
    with open_records(path) as records:
        for text in ("one", "two", "two", "one"):
            save_job(records, "parlour", text, NOON)
        save_job(records, "hall", "three")
        assert [job.toml for job in job_history(records, "parlour")] == ["one", "two", "one"]
        assert [(job.name, job.toml) for job in list_jobs(records)] == [("hall", "three"), ("parlour", "one")]


def test_an_unknown_job_names_the_jobs_there_are(path: Path) -> None:
    """A wrong name raises with the right ones; an estimate cannot be sent for it."""
    with open_records(path) as records:
        save_job(records, "parlour", "")
        with pytest.raises(RecordsError, match="there are parlour"):
            load_job(records, "parlor")
        with pytest.raises(RecordsError, match="there are parlour"):
            send_estimate(records, "parlor", price=Decimal(1), lines=[], assumptions=[])
        with pytest.raises(RecordsError, match="no estimate 7"):
            load_estimate(records, 7)


def test_an_estimate_comes_back_as_it_was_sent(path: Path) -> None:
    """Lines, assumptions, price and the job's file of that moment are what they were, though the job has moved on."""
    with open_records(path) as records:
        sent = _send(records)
        save_job(records, "parlour", "changed since")
        again = load_estimate(records, sent.id)
        assert again == sent
        assert again.job.toml == TYPED
        assert again.price == Decimal("640.10")
        assert list_estimates(records, "parlour") == (sent,)
        assert list_estimates(records, "hall") == ()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE estimates SET price = '1'",
        "DELETE FROM estimates",
        "INSERT OR REPLACE INTO estimates SELECT id, job_id, sent_at, '1', lines, assumptions, hash FROM estimates",
        "UPDATE jobs SET toml = ''",
        "DELETE FROM jobs",
    ],
)
def test_what_was_sent_cannot_be_changed_in_the_file(path: Path, statement: str) -> None:
    """Changing, removing or replacing a row is refused by the file itself, whoever asks."""
    with open_records(path) as records:
        sent = _send(records)
        other = sqlite3.connect(path)
        with pytest.raises(sqlite3.IntegrityError, match="stays as it is"):
            other.execute(statement)
        other.close()
        assert load_estimate(records, sent.id) == sent


def test_an_estimate_altered_behind_our_back_is_noticed(path: Path) -> None:
    """Whoever takes the triggers off and lowers the price is found out by the hash."""
    with open_records(path) as records:
        sent = _send(records)
    other = sqlite3.connect(path)
    other.execute("DROP TRIGGER estimates_no_update")
    other.execute("UPDATE estimates SET price = '64.10'")
    other.commit()
    other.close()
    with open_records(path) as records, pytest.raises(RecordsError, match="not what was sent on 2026-03-04"):
        load_estimate(records, sent.id)
