"""Killing the writer at any moment loses nothing that was said to be kept.

This is a killed process, not a cut cable: what a disk does with its own cache is beyond a test on one machine.
"""

import os
import random
import signal
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from decimal import Decimal
from pathlib import Path

from estimating.records.sent import SentLine, list_estimates, list_jobs, save_job, send_estimate
from estimating.records.steps import STEPS, Step
from estimating.records.store import backups, open_records, read

KILLS = 200
FRESH = 5  # every so many kills the file is begun anew, so that its making is cut short as well
LINES = [SentLine(f"line {number}", "roll", "hours", 1.0, 2.0, 3.0) for number in range(400)]  # some pages a write
SECOND = Step("a table that takes a while", tuple(f"CREATE TABLE more_{n} (x TEXT) STRICT" for n in range(40)))


def _write_on(path: Path, report: int, rounds: int = 10**9) -> None:
    """Keep jobs and estimates, telling over the pipe after each one that it is kept."""
    with open_records(path) as records:
        for _ in range(rounds):
            save_job(records, f"job {len(list_jobs(records))}", "x" * 2000)
            os.write(report, b"j")
            newest = list_jobs(records)[0].name
            send_estimate(records, newest, price=Decimal(1), lines=LINES, assumptions=[])
            os.write(report, b"e")


def _usual(work: Callable[..., None], *arguments: object) -> float:
    """Return how long to wait on average before a kill: what `work` takes, and half, on this machine as busy as now."""
    begun = time.perf_counter()
    work(*arguments)
    return 1.5 * (time.perf_counter() - begun)


def _killed_after(seconds: float, work: Callable[..., None], *arguments: object) -> bytes:
    """Run `work` in a process of its own, kill it after a while, and return what it reported."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            work(*arguments, writing)
        finally:
            os._exit(1)
    os.close(writing)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "the writer ended by itself, which it never should"
    with open(reading, "rb") as reports:
        return reports.read()


def _counts(path: Path) -> tuple[int, int]:
    """Open the file as the next session would, check it to the last page, and count what it holds."""
    with open_records(path) as records:
        assert read(records, "PRAGMA integrity_check")[0][0] == "ok"
        assert read(records, "PRAGMA foreign_key_check") == []
        return len(list_jobs(records)), len(list_estimates(records))  # each estimate's hash is checked on the way


def test_200_kills_lose_nothing_and_leave_nothing_half_done(tmp_path: Path) -> None:
    """After each kill the file opens, and holds what was reported as kept or just the one write more."""
    chance = random.Random(20260301)
    with (tmp_path / "reports").open("wb") as reports:
        usual = _usual(_write_on, tmp_path / "trial.sqlite", reports.fileno(), 3)
    mid_write = reported = 0
    jobs = estimates = 0
    path = tmp_path / "none.sqlite"
    for kill in range(KILLS):
        if kill % FRESH == 0:
            path, jobs, estimates = tmp_path / f"records {kill}.sqlite", 0, 0
        with_crew_note = _killed_after(chance.expovariate(1 / usual), _write_on, path)
        mid_write += path.with_name(f"{path.name}-journal").exists()
        reported += len(with_crew_note)
        now = _counts(path)
        least = (jobs + with_crew_note.count(b"j"), estimates + with_crew_note.count(b"e"))
        assert now in (least, (least[0] + 1, least[1]), (least[0], least[1] + 1)), f"kill {kill}: {least} became {now}"
        jobs, estimates = now
    assert mid_write > 10, "too few kills fell inside a write to prove anything"
    assert reported > KILLS // 2, "too few writes were finished to prove anything"


def _move_on(path: Path, _report: int = 0, stay: float = 60.0) -> None:
    with open_records(path, (*STEPS, SECOND)):
        time.sleep(stay)


def _version_and_tables(path: Path) -> tuple[int, int]:
    with closing(sqlite3.connect(path)) as plain:
        version = plain.execute("PRAGMA user_version").fetchone()[0]
        return version, plain.execute("SELECT count(*) FROM sqlite_schema WHERE name LIKE 'more_%'").fetchone()[0]


def test_kills_while_the_file_is_moved_forward_leave_a_whole_version(tmp_path: Path) -> None:
    """A step cut short is not taken, or wholly taken; the data is there either way, and so is every backup."""
    chance = random.Random(20260302)
    with open_records(tmp_path / "trial.sqlite"):
        pass
    usual = _usual(_move_on, tmp_path / "trial.sqlite", 0, 0.0)
    seen = set()
    for kill in range(60):
        path = tmp_path / f"records {kill}.sqlite"
        with open_records(path) as records:
            save_job(records, "parlour", "as it was")
        _killed_after(chance.expovariate(1 / usual), _move_on, path)
        seen.add(_version_and_tables(path))
        for each in (path, *backups(path)):
            with open_records(each, (*STEPS, SECOND)) as records:
                assert [job.toml for job in list_jobs(records)] == ["as it was"]
    assert seen == {(len(STEPS), 0), (len(STEPS) + 1, 40)}
