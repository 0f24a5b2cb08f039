"""Recording an estimate as sent from a terminal."""

from __future__ import annotations

from pathlib import Path

import pytest
from places import JOBS

from estimating.__main__ import main
from estimating.records.sent import list_estimates
from estimating.records.store import open_records

ALDER_ROW = JOBS / "alder_row_sitting_room.toml"


def test_an_estimate_is_sent_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The summary is printed and the estimate kept; sent again unchanged, nothing is added and that is said."""
    path = tmp_path / "records.sqlite"
    assert main([str(ALDER_ROW), "--send", str(path)]) == 0
    assert "Sitting room ceiling, 14 Alder Row: recorded as sent" in capsys.readouterr().out
    assert main([str(ALDER_ROW), "--send", str(path)]) == 0
    assert "was recorded just so on" in capsys.readouterr().out
    with open_records(path) as records:
        assert len(list_estimates(records)) == 1


def test_a_place_where_no_records_can_be_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A missing folder and a file of another program end in one sentence, and 2."""
    assert main([str(ALDER_ROW), "--send", str(tmp_path / "no" / "records.sqlite")]) == 2
    assert "does not exist" in capsys.readouterr().err
    assert main([str(ALDER_ROW), "--send", str(ALDER_ROW)]) == 2
    assert "is no records file" in capsys.readouterr().err
