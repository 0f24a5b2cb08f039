"""Whatever becomes of what a command prints, it ends in a line and a status, never a traceback."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from places import JOBS, ROOT

from estimating.errors import InputError, InputErrors
from estimating.terminal import INTERRUPTED, PIPE_CLOSED, WRONG, run

JOB = JOBS / "alder_row_sitting_room.toml"


def command(*arguments: str | Path, **more: object) -> subprocess.Popen[bytes]:
    """Start the command for a terminal."""
    words = [sys.executable, "-m", "estimating", *map(str, arguments)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **more.pop("env", {})}  # type: ignore[dict-item]
    return subprocess.Popen(words, cwd=ROOT, env=environment, stderr=subprocess.PIPE, **more)  # type: ignore[call-overload]


@pytest.mark.parametrize(
    ("raised", "status"),
    [
        (InputError("height", "9 lb", "a length"), WRONG),
        (InputErrors([InputError("height", "9 lb", "a length"), InputError("coats", 0, "1 or more")]), WRONG),
        (KeyboardInterrupt(), INTERRUPTED),
        (BrokenPipeError(), PIPE_CLOSED),
        (OSError(28, "No space left on device"), WRONG),
    ],
)
def test_each_end_has_its_status_and_its_line(
    raised: BaseException, status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is wrong is said once, on lines of its own."""

    def refuses(_arguments: object) -> int:
        raise raised

    assert run(refuses) == status
    assert "Traceback" not in capsys.readouterr().err


def test_a_reader_that_goes_away_is_no_error_of_the_job() -> None:
    """Piped into a command that reads one line, the command ends without a word."""
    started = command(JOB, "--explain", "price", stdout=subprocess.PIPE)
    assert started.stdout is not None
    assert started.stdout.readline()
    started.stdout.close()
    _, said = started.communicate()
    assert (started.returncode, said) == (PIPE_CLOSED, b"")


def test_a_full_device_is_said_in_a_line() -> None:
    """Nothing can be printed, and that is said."""
    with open("/dev/full", "wb") as full:
        started = command(JOB, stdout=full)
        _, said = started.communicate()
    assert started.returncode == WRONG
    assert said.decode().splitlines() == ["output: cannot be written (No space left on device)"]


def test_a_terminal_without_the_letters_shows_the_rest() -> None:
    """Plain ASCII gets a question mark for a prime or a half, and the price all the same."""
    started = command(JOB, stdout=subprocess.PIPE, env={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    printed, said = started.communicate()
    assert (started.returncode, said) == (0, b"")
    assert b"price" in printed


def test_an_interrupt_ends_in_one_line() -> None:
    """Pressed while it works, there is no traceback."""
    started = command(JOBS / "hazel_bank_whole_house.toml", stdout=subprocess.PIPE)
    time.sleep(3.0)
    started.send_signal(signal.SIGINT)
    _, said = started.communicate()
    assert b"Traceback" not in said
    assert started.returncode in (0, INTERRUPTED)  # it may have been done already


def test_options_that_do_not_go_together_say_so(capsys: pytest.CaptureFixture[str]) -> None:
    """The math of a line is printed alone; what else was asked for is not passed over in silence."""
    from estimating.__main__ import main

    with pytest.raises(SystemExit):
        main([str(JOB), "--explain", "price", "--csv", "x.csv"])
    assert "--explain prints the math and nothing else: leave out --csv" in capsys.readouterr().err


def test_a_job_is_not_written_over_by_its_summary(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Neither the job nor the records, and one output is not another."""
    from estimating.__main__ import main

    job = tmp_path / "job.toml"
    job.write_bytes(JOB.read_bytes())
    for options in (["--csv", str(job)], ["--csv", str(tmp_path / "x"), "--json", str(tmp_path / "x")]):
        assert main([str(job), *options]) == WRONG
    assert job.read_bytes() == JOB.read_bytes()
    assert "is read by this run" in capsys.readouterr().err
