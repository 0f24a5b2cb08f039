"""A records file that rotted, was made by another hand or cannot be written to is refused in words and the way back."""

from __future__ import annotations

import os
import random
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from estimating.errors import RecordsError
from estimating.evidence import OwnValue
from estimating.records.actuals import Actual, Price, add_actual, add_price, list_actuals, list_prices
from estimating.records.decisions import accept, own_values
from estimating.records.sent import SentLine, list_estimates, list_jobs, save_job, send_estimate
from estimating.records.store import back_up, open_records, restore, together, write

ROUNDS = 150
LINES = [SentLine(f"line {number}", "roll", "hours", 1.0, 2.0, 3.0) for number in range(60)]


def filled(path: Path) -> Path:
    """Return a records file with something in every table that jobs fill."""
    with open_records(path) as records:
        for number in range(6):
            save_job(records, f"parlor {number}", f"title = 'parlor {number} – ½ done'\n" * 40)
            sent = send_estimate(records, f"parlor {number}", price=Decimal("12.50"), lines=LINES, assumptions=[])
            add_actual(records, Actual(sent.id, "line 1", "roll", "hours", 2.5, date(2026, 3, 2)))
            add_price(records, Price("wall_paint", "gallon", Decimal("44.50"), date(2026, 3, 2), "von Händler Müller"))
            accept(records, "business/wage", OwnValue(31.0 + number, "dollar/hour", note="½ more"))
    return path


def read_all(path: Path) -> None:
    """Read all there is in a records file."""
    with open_records(path) as records:
        list_jobs(records), list_estimates(records), list_actuals(records), list_prices(records), own_values(records)


@pytest.mark.parametrize("rotten", [1, 40, 400])
def test_rotten_bytes_are_refused_in_words_or_read_past(tmp_path: Path, rotten: int) -> None:
    """Wherever they lie, from the header to a letter of a note; nothing but a RecordsError comes out."""
    whole = filled(tmp_path / "records.sqlite").read_bytes()
    place = tmp_path / "rotten.sqlite"
    dice = random.Random(rotten)
    refused = 0
    for _ in range(ROUNDS // 3):
        changed = bytearray(whole)
        for _ in range(rotten):
            changed[dice.randrange(len(changed))] = dice.randrange(256)
        place.write_bytes(changed)
        for leftover in tmp_path.glob("rotten.*-journal"):
            leftover.unlink()
        try:
            read_all(place)
        except RecordsError:
            refused += 1
    assert refused or rotten == 1


@pytest.mark.parametrize("version", [-3, -(2**31)])
def test_a_version_below_nothing_is_damage(tmp_path: Path, version: int) -> None:
    """No program ever wrote it."""
    path = filled(tmp_path / "records.sqlite")
    with closing(sqlite3.connect(path)) as file:
        file.execute(f"PRAGMA user_version = {version}")
    with pytest.raises(RecordsError, match=r"is damaged, its version is -.*restore a backup"):
        read_all(path)


def rewritten(path: Path, table: str, column: str, value: object) -> None:
    """Change a cell by another program's hand, past what guards the table."""
    with closing(sqlite3.connect(path, isolation_level=None)) as file:
        for (name,) in file.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            file.execute(f"DROP TRIGGER {name}")
        file.execute("PRAGMA ignore_check_constraints = ON")
        file.execute(f"UPDATE {table} SET {column} = {value}")


@pytest.mark.parametrize(
    ("table", "column", "value"),
    [
        ("prices", "priced_on", "'the 3rd'"),
        ("prices", "dollars", "'forty'"),
        ("actuals", "done_on", "'soon'"),
        ("own_values", "value", "'{'"),
        ("own_values", "value", "'[1]'"),
        ("own_values", "value", '\'{"kind": "guessed"}\''),
        ("jobs", "name", "CAST(x'fffe41' AS TEXT)"),
        ("estimates", "lines", "'[]'"),
    ],
)
def test_a_cell_that_makes_no_sense_is_refused_in_words(tmp_path: Path, table: str, column: str, value: str) -> None:
    """Whatever another program wrote there."""
    path = filled(tmp_path / "records.sqlite")
    rewritten(path, table, column, value)
    with pytest.raises(RecordsError):
        read_all(path)


def full(path: Path) -> None:
    """Write to a file that may not grow, as on a full disk."""
    with open_records(path) as records:
        pages = records.connection.execute("PRAGMA page_count").fetchone()[0]
        records.connection.execute(f"PRAGMA max_page_count = {pages}")
        save_job(records, "attic", "x" * 100_000)


def locked(path: Path) -> None:
    """Write to a file that another notebook is writing to and does not let go of."""
    with closing(sqlite3.connect(path, isolation_level=None)) as other, open_records(path) as records:
        other.execute("BEGIN IMMEDIATE")
        records.connection.execute("PRAGMA busy_timeout = 10")
        save_job(records, "attic", "")


@pytest.mark.parametrize("attempt", [full, locked])
def test_a_full_disk_and_a_locked_file_change_nothing(tmp_path: Path, attempt: Callable[[Path], None]) -> None:
    """Said in words with what to do; the file reads as before."""
    path = filled(tmp_path / "records.sqlite")
    with pytest.raises(RecordsError, match=r"nothing was changed.*try again"):
        attempt(path)
    with open_records(path) as records:
        assert len(list_jobs(records)) == 6


def test_a_file_that_may_only_be_read_says_so(tmp_path: Path) -> None:
    """By SQLite's own switch, since who runs the tests may be allowed everything."""
    path = filled(tmp_path / "records.sqlite")
    with open_records(path) as records:
        records.connection.execute("PRAGMA query_only = ON")
        with pytest.raises(RecordsError, match=r"nothing was changed.*readonly"):
            save_job(records, "attic", "")


def test_a_damaged_file_comes_back_from_its_backup(tmp_path: Path) -> None:
    """The way back that every refusal names."""
    path = filled(tmp_path / "records.sqlite")
    copy = back_up(path)
    path.write_bytes(path.read_bytes()[:5000])
    with pytest.raises(RecordsError, match=copy.name):
        read_all(path)
    os.replace(path, tmp_path / "moved away")
    restore(path, copy)
    read_all(path)


def test_writes_together_stand_or_fall_together(tmp_path: Path) -> None:
    """What breaks off in the middle leaves nothing of the block."""
    path = filled(tmp_path / "records.sqlite")
    with open_records(path) as records:
        with suppress(KeyboardInterrupt), together(records):
            save_job(records, "attic", "")
            raise KeyboardInterrupt
        assert "attic" not in {job.name for job in list_jobs(records)}
        with together(records):
            save_job(records, "attic", "")
            with pytest.raises(RecordsError, match="was not written"):
                write(records, "INSERT INTO jobs (name) VALUES (?)", ("cellar",))
        assert "attic" in {job.name for job in list_jobs(records)}
