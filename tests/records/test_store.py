import os
import sqlite3
import threading
from pathlib import Path

import pytest

from estimating.errors import RecordsError
from estimating.records.sent import list_jobs, load_job, save_job
from estimating.records.steps import FIRST, STEPS, Step
from estimating.records.store import APPLICATION_ID, back_up, backups, open_records, read, restore

SECOND = Step("a place for photographs", ("CREATE TABLE photographs (id INTEGER PRIMARY KEY, name TEXT) STRICT",))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "records.sqlite"


def _names(path: Path) -> list[str]:
    with open_records(path) as records:
        return sorted(job.name for job in list_jobs(records))


def test_a_new_file_is_made_ours_and_stays_one_file(path: Path) -> None:
    """Opening what does not exist yet makes a file marked as ours, with nothing beside it once closed."""
    with open_records(path) as records:
        assert read(records, "PRAGMA application_id")[0][0] == APPLICATION_ID
        assert read(records, "PRAGMA user_version")[0][0] == len(STEPS)
        assert read(records, "PRAGMA foreign_keys")[0][0] == 1
    assert [each.name for each in path.parent.iterdir()] == ["records.sqlite"]


def test_what_is_written_is_there_when_opened_again(path: Path) -> None:
    """A job kept in one session is read in the next."""
    with open_records(path) as records:
        save_job(records, "parlour", "[job]\n")
    assert _names(path) == ["parlour"]


@pytest.mark.parametrize("content", [b"item,price\npaint,40\n", b"short", b"SQLite format 3\x00 but cut off"])
def test_a_file_that_is_no_database_is_refused_and_left_alone(path: Path, content: bytes) -> None:
    """A file of another kind raises and keeps every byte."""
    path.write_bytes(content)
    with pytest.raises(RecordsError, match="no records file"), open_records(path):
        pass
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_refused_and_left_alone(path: Path) -> None:
    """A foreign database raises and keeps every byte, by opening, backing up and restoring alike."""
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE songs (title TEXT)")
    other.commit()
    other.close()
    before = path.read_bytes()
    ours = path.with_name("ours.sqlite")
    with open_records(ours) as records:
        save_job(records, "parlour", "")
    for attempt in (lambda: open_records(path).__enter__(), lambda: back_up(path), lambda: restore(path, ours)):
        with pytest.raises(RecordsError, match="another program"):
            attempt()
    assert path.read_bytes() == before


def test_a_file_of_a_newer_version_is_refused_with_what_to_do(path: Path) -> None:
    """A file moved forward by a newer program raises, says to update, and is left as it is."""
    with open_records(path, (FIRST, SECOND)):
        pass
    before = path.read_bytes()
    with pytest.raises(RecordsError, match="version 2 and this program knows up to 1; update the program"):
        open_records(path, (FIRST,)).__enter__()
    assert path.read_bytes() == before


def test_a_damaged_file_is_refused_and_names_the_backups(path: Path) -> None:
    """A file whose pages were overwritten raises and points at the backup, which restores into an empty place."""
    with open_records(path) as records:
        for number in range(200):
            save_job(records, f"job {number}", "x" * 500)
    copy = back_up(path)
    damaged = bytearray(path.read_bytes())
    damaged[4096:-4096] = os.urandom(len(damaged) - 8192)
    path.write_bytes(damaged)
    with pytest.raises(RecordsError, match=f"damaged.*{copy.name}"):
        open_records(path).__enter__()
    path.rename(path.with_name("damaged.sqlite"))
    restore(path, copy)
    assert len(_names(path)) == 200


def test_a_missing_folder_and_a_folder_as_file_are_said_in_words(tmp_path: Path) -> None:
    """A path that cannot be a file raises with what to do."""
    with pytest.raises(RecordsError, match="does not exist"):
        open_records(tmp_path / "nowhere" / "records.sqlite").__enter__()
    with pytest.raises(RecordsError, match="cannot be read"):
        open_records(tmp_path).__enter__()


def test_an_older_file_is_backed_up_and_moved_forward(path: Path) -> None:
    """A step forward keeps the data and leaves a copy of the file as it was, which can be put back."""
    with open_records(path, (FIRST,)) as records:
        save_job(records, "parlour", "as it was")
    with open_records(path, (FIRST, SECOND)) as records:
        assert read(records, "SELECT * FROM photographs") == []
        assert load_job(records, "parlour").toml == "as it was"
    (copy,) = backups(path)
    assert "-v1" in copy.name
    kept = restore(path, copy)
    assert kept is not None
    assert "-v2" in kept.name
    with open_records(path, (FIRST,)) as records:
        assert load_job(records, "parlour").toml == "as it was"


def test_a_step_that_fails_leaves_the_file_at_the_version_before(path: Path) -> None:
    """Half a step is no step: the file stays at its version and the backup is there."""
    broken = Step("fails half way", ("CREATE TABLE halfway (id INTEGER)", "CREATE TABLE jobs (id INTEGER)"))
    with open_records(path, (FIRST,)):
        pass
    with pytest.raises(RecordsError, match="already exists"):
        open_records(path, (FIRST, broken)).__enter__()
    with open_records(path, (FIRST,)) as records:
        assert read(records, "PRAGMA user_version")[0][0] == 1
        assert read(records, "SELECT name FROM sqlite_schema WHERE name = 'halfway'") == []
    assert len(backups(path)) == 1


def test_a_backup_is_made_while_another_notebook_has_the_file_open(path: Path) -> None:
    """A copy holds what was written when it was made, and what came later is kept by restoring."""
    with open_records(path) as records:
        save_job(records, "before", "")
        copy = back_up(path)
        save_job(records, "after", "")
    kept = restore(path, copy)
    assert _names(path) == ["before"]
    assert kept is not None
    restore(path, kept)
    assert _names(path) == ["after", "before"]


def test_restoring_from_nothing_or_from_itself_is_refused(path: Path) -> None:
    """A backup must exist and be another file."""
    with open_records(path):
        pass
    with pytest.raises(RecordsError, match="no such backup"):
        restore(path, path.with_name("gone.sqlite"))
    with pytest.raises(RecordsError, match="the records file itself"):
        restore(path, path)
    with pytest.raises(RecordsError, match="nothing to back up"):
        back_up(path.with_name("gone.sqlite"))


def test_two_notebooks_write_at_once_and_nothing_is_lost(path: Path) -> None:
    """Two open files written in turn by two threads keep every job of both."""
    problems: list[Exception] = []

    def fill(name: str) -> None:
        try:
            with open_records(path) as records:
                for number in range(60):
                    save_job(records, f"{name} {number}", "text")
        except RecordsError as problem:
            problems.append(problem)

    notebooks = [threading.Thread(target=fill, args=(name,)) for name in ("left", "right")]
    for notebook in notebooks:
        notebook.start()
    for notebook in notebooks:
        notebook.join()
    assert problems == []
    assert len(_names(path)) == 120


def test_two_notebooks_moving_the_file_forward_at_once_take_the_step_once(path: Path) -> None:
    """Whoever comes second finds the step taken."""
    with open_records(path, (FIRST,)):
        pass
    barrier = threading.Barrier(4)
    versions: list[int] = []

    def move() -> None:
        barrier.wait()
        with open_records(path, (FIRST, SECOND)) as records:
            versions.append(read(records, "PRAGMA user_version")[0][0])

    notebooks = [threading.Thread(target=move) for _ in range(4)]
    for notebook in notebooks:
        notebook.start()
    for notebook in notebooks:
        notebook.join()
    assert versions == [2, 2, 2, 2]
    assert len(backups(path)) == 1


def test_a_file_held_by_another_notebook_is_said_in_words(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the wait for another's write runs out, nothing is changed and the error says what to do."""
    monkeypatch.setattr("estimating.records.store.WAIT", 0.05)
    with open_records(path) as records:
        other = sqlite3.connect(path, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(RecordsError, match="close other notebooks"):
            save_job(records, "parlour", "")
        copy = back_up(path)
        with pytest.raises(RecordsError, match="close other notebooks"):
            restore(path, copy)
        other.execute("ROLLBACK")
        other.close()
        save_job(records, "parlour", "")
        assert load_job(records, "parlour").toml == ""
