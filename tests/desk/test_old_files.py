"""An old job file is opened at the desk and from the terminal, and both say what is called otherwise now."""

from __future__ import annotations

import pytest
from places import TESTS

from estimating.__main__ import main
from estimating.desk.desk import open_desk

OLD = TESTS / "old_jobs" / "alder_row_sitting_room.toml"
SAID = "“colour_now” is called “color_now” now"


def test_the_desk_says_what_is_called_otherwise() -> None:
    """Once the old file is open and priced."""
    desk = open_desk(OLD)
    assert SAID in desk.status.value
    assert not desk.stale


def test_the_terminal_says_what_is_called_otherwise(capsys: pytest.CaptureFixture[str]) -> None:
    """Beside the summary, where a program that reads the summary does not find it."""
    assert main([str(OLD)]) == 0
    printed = capsys.readouterr()
    assert SAID in printed.err
    assert SAID not in printed.out
