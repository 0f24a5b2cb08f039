"""The records file itself: opened safely, moved forward by steps, backed up and restored.

The file is SQLite with its rollback journal. A write-ahead log would let a reader work beside a writer, which a desk
of one person does not need, and it spreads the file over three and needs shared memory, which copied and synchronised
folders do not keep. Here the file at rest is one file, and a copy of it is a backup.
Every write is one transaction that takes the write lock first and is synced to the disk before it returns.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from estimating.errors import EstimatingError, RecordsError
from estimating.records.steps import STEPS, Step

APPLICATION_ID = 0x50414E54  # four letters that mark the file as ours
MAGIC = b"SQLite format 3\x00"
WAIT = 10.0  # seconds to wait for another notebook to finish a write

Cell = str | int | float | None


@dataclass(frozen=True)
class Records:
    """An open records file; `connection` belongs to this package alone."""

    connection: sqlite3.Connection
    path: Path


def moment(at: datetime | None = None) -> str:
    """Return a time as the file writes it, in UTC; now when none is given."""
    return (at or datetime.now(UTC)).astimezone(UTC).isoformat(timespec="microseconds")


@contextmanager
def open_records(path: Path | str, steps: Sequence[Step] = STEPS) -> Iterator[Records]:
    """Open a records file, new or old, and close it at the end.

    A file of an older version is backed up and moved forward. Raises RecordsError, and leaves the file as it is,
    when it is no records file, when a newer version wrote it, or when it is damaged.
    """
    place = Path(path)
    _check_ours(place)
    connection = _connect(place)
    try:
        with _in_words(place):
            _check_whole(connection, place)
            _move_forward(connection, place, steps)
        yield Records(connection, place)
    finally:
        connection.close()


def read(records: Records, query: str, values: Sequence[Cell] = ()) -> list[sqlite3.Row]:
    """Return the rows of a query."""
    with _in_words(records.path):
        found: list[sqlite3.Row] = records.connection.execute(query, values).fetchall()
        return found


@contextmanager
def understood(records: Records) -> Iterator[None]:
    """Turn what a rotten cell does to who makes sense of it, such as a day that is none, into a RecordsError."""
    place = records.path
    try:
        yield
    except (ValueError, LookupError, TypeError, ArithmeticError, AttributeError) as problem:
        if isinstance(problem, EstimatingError):
            raise
        raise RecordsError(
            f"{place}: is damaged, an entry in it cannot be read; restore a backup ({_names(backups(place))})"
        ) from problem


def write(records: Records, statement: str, values: Sequence[Cell]) -> int:
    """Carry out one statement as a whole or not at all; return the id of the row it added."""
    with _in_words(records.path), _transaction(records.connection):
        return int(records.connection.execute(statement, values).lastrowid or 0)


def back_up(path: Path | str) -> Path:
    """Copy a records file to a dated sibling, also while another notebook has it open; return the copy's path."""
    place = Path(path)
    if not _check_ours(place):
        raise RecordsError(f"{place}: there is nothing to back up")
    with _in_words(place):
        return _copy_aside(place)


def backups(path: Path | str) -> tuple[Path, ...]:
    """Return the backups of a records file, newest first."""
    place = Path(path)
    return tuple(sorted(place.parent.glob(f"{place.stem}.backup-*{place.suffix}"), reverse=True))


def restore(path: Path | str, backup: Path | str) -> Path | None:
    """Put a backup in place of the records file, in one step that other open notebooks see as a whole.

    The file as it was is backed up first; the path of that copy is returned, None when there was no file.
    Raises RecordsError when the backup is no whole records file, or when the path holds something else.
    """
    place, source = Path(path), Path(backup)
    if not _check_ours(source):
        raise RecordsError(f"{source}: there is no such backup; there are {_names(backups(place))}")
    if source.resolve() == place.resolve():
        raise RecordsError(f"{place}: is the records file itself; the backups are {_names(backups(place))}")
    kept = back_up(place) if _check_ours(place) else None
    with closing(_connect(source)) as saved, closing(_connect(place)) as target, _in_words(place):
        _check_whole(saved, source)
        _copy(saved, target)
    return kept


def _names(paths: Sequence[Path]) -> str:
    return ", ".join(path.name for path in paths) or "none"


def _check_ours(place: Path) -> bool:
    """Say whether a records file stands at `place`; refuse anything else there, reading only its first bytes."""
    if not place.parent.is_dir():
        raise RecordsError(f"{place}: the folder {place.parent} does not exist; make it, or choose another")
    try:
        with place.open("rb") as file:
            head = file.read(100)
    except FileNotFoundError:
        return False
    except OSError as problem:
        raise RecordsError(f"{place}: cannot be read ({problem.strerror}); choose another file") from problem
    if not head:
        return False
    if len(head) < 100 or not head.startswith(MAGIC):
        raise RecordsError(
            f"{place}: is no records file, and was left as it is; choose another name, or move it away and restore "
            f"a backup ({_names(backups(place))})"
        )
    if int.from_bytes(head[68:72], "big") != APPLICATION_ID:
        raise RecordsError(f"{place}: is a database of another program, and was left as it is; choose another name")
    return True


def _connect(place: Path) -> sqlite3.Connection:
    with _in_words(place):
        connection = sqlite3.connect(place, timeout=WAIT, isolation_level=None)
        connection.row_factory = sqlite3.Row
        try:
            connection.execute("PRAGMA foreign_keys = ON")
            connection.execute("PRAGMA synchronous = EXTRA")  # syncs the folder too: a commit outlives a power cut
        except sqlite3.Error:
            connection.close()
            raise
    return connection


@contextmanager
def _in_words(place: Path) -> Iterator[None]:
    """Turn what SQLite reports into a sentence that says what to do."""
    try:
        yield
    except sqlite3.IntegrityError as problem:
        raise RecordsError(f"{place}: was not written, {problem}") from problem
    except sqlite3.OperationalError as problem:
        raise RecordsError(
            f"{place}: nothing was changed, {problem}; close other notebooks or free the disk, and try again"
        ) from problem
    except sqlite3.DatabaseError as problem:
        raise RecordsError(f"{place}: is damaged, {problem}; restore a backup ({_names(backups(place))})") from problem
    except UnicodeError as problem:
        raise RecordsError(
            f"{place}: is damaged, a text in it is not UTF-8; restore a backup ({_names(backups(place))})"
        ) from problem


@contextmanager
def together(records: Records) -> Iterator[None]:
    """Carry out all writes of a block as a whole or not at all; a kill between two of them leaves neither."""
    with _in_words(records.path), _transaction(records.connection):
        yield


@contextmanager
def _transaction(connection: sqlite3.Connection) -> Iterator[None]:
    if connection.in_transaction:  # a write inside a larger one stands or falls with it
        yield
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _check_whole(connection: sqlite3.Connection, place: Path) -> None:
    found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise RecordsError(f"{place}: is damaged, {found}; restore a backup ({_names(backups(place))})")


def _move_forward(connection: sqlite3.Connection, place: Path, steps: Sequence[Step]) -> None:
    version = _version(connection)
    if version < 0:
        raise RecordsError(
            f"{place}: is damaged, its version is {version}; restore a backup ({_names(backups(place))})"
        )
    if version > len(steps):
        raise RecordsError(
            f"{place}: was written by version {version} and this program knows up to {len(steps)}; update the program, "
            f"or restore an older backup ({_names(backups(place))}). The file was left as it is"
        )
    while version < len(steps):
        with _transaction(connection):
            version = _version(connection)  # another notebook may have moved it while this one waited
            if 0 < version < len(steps):
                _copy_aside(place)
            wanted = steps[version : version + 1] if version else steps  # a new file holds nothing to keep aside
            for step in wanted:
                _take_step(connection, step)
            version += len(wanted)


def _take_step(connection: sqlite3.Connection, step: Step) -> None:
    version = _version(connection)
    for statement in step.statements:
        connection.execute(statement)
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.execute(f"PRAGMA user_version = {version + 1}")


def _copy_aside(place: Path) -> Path:
    """Copy the file through a reader of its own, because a connection that writes cannot be copied from."""
    with closing(_connect(place)) as reader:
        reader.execute("BEGIN")
        version = _version(reader)  # the first read holds the file as it is until the copy is made
        stamp = datetime.now(UTC).strftime("%Y-%m-%dT%H%M%S.%fZ")
        copy = place.with_name(f"{place.stem}.backup-{stamp}-v{version}{place.suffix}")
        part = copy.with_name(f".{copy.name}.part")
        try:
            with closing(sqlite3.connect(part)) as target:
                _copy(reader, target)
            os.replace(part, copy)
        finally:
            part.unlink(missing_ok=True)
    return copy


def _copy(source: sqlite3.Connection, target: sqlite3.Connection) -> None:
    def give_up(status: int, _remaining: int, _total: int) -> None:
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):  # by itself it would try for ever
            raise sqlite3.OperationalError("another notebook is writing")

    source.backup(target, progress=give_up)
