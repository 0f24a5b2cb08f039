"""The records file from a terminal: backups, restoring, and prices that then stand in every estimate."""

from __future__ import annotations

from pathlib import Path

import pytest
from places import JOBS

from estimating.evidence import load_library
from estimating.records.__main__ import main
from estimating.records.own import own_table
from estimating.records.store import backups
from estimating.workbook import estimate_job, read_job

Said = pytest.CaptureFixture[str]
DEMO = JOBS / "birch_lane_upstairs.toml"


@pytest.fixture
def records(tmp_path: Path) -> str:
    return str(tmp_path / "records.sqlite")


def test_a_price_is_kept_and_used(records: str, capsys: Said) -> None:
    """Dearer wall paint makes the job dearer; the day and the note stand beside the price."""
    asked = ["price", records, "wall_paint", "gallon", "$99.50", "--day", "2026-03-02", "--note", "by phone"]
    assert main(asked) == 0
    assert capsys.readouterr().out == "kept: 2026-03-02  wall_paint gallon  $99.50  by phone\n"
    job, own = read_job(DEMO), own_table(Path(records), load_library()).values
    assert own["prices/wall_paint/gallon"].date == "2026-03-02"
    assert estimate_job(job, own=own).estimate.price > estimate_job(job).estimate.price


def test_the_newest_price_is_listed_and_older_ones_when_asked(records: str, capsys: Said) -> None:
    """One line for each container; --all shows what it was before."""
    for day, dollars in (("2026-01-10", "40"), ("2026-03-02", "42")):
        main(["price", records, "wall_paint", "gallon", dollars, "--day", day])
    capsys.readouterr()
    assert main(["prices", records]) == 0
    assert capsys.readouterr().out == "2026-03-02  wall_paint gallon  $42\n"
    assert main(["prices", records, "--all"]) == 0
    assert capsys.readouterr().out.count("wall_paint gallon") == 2


def test_a_backup_is_made_listed_and_put_back(records: str, capsys: Said) -> None:
    """What was kept after the backup is gone once it is restored, and lies in a backup of its own."""
    main(["price", records, "wall_paint", "gallon", "40", "--day", "2026-01-10"])
    assert main(["backup", records]) == 0
    (copy,) = backups(records)
    main(["price", records, "wall_paint", "gallon", "42", "--day", "2026-03-02"])
    capsys.readouterr()
    assert main(["backups", records]) == 0
    assert capsys.readouterr().out == f"{copy}\n"
    assert main(["restore", records, str(copy)]) == 0
    assert "it was kept as records.backup-" in capsys.readouterr().out
    main(["prices", records, "--all"])
    assert "$42" not in capsys.readouterr().out
    assert len(backups(records)) == 2


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["backup"], "there is nothing to back up"),
        (["prices"], "there is no such records file"),
        (["restore", "gone.sqlite"], "there is no such backup"),
        (["price", "wall_paint", "gallon", "much"], "dollars: got 'much', needs a price such as 42.50"),
        (["price", "wall_paint", "bucket", "40"], "wall_paint"),
        (["price", "wall_paint", "gallon", "-40"], "0 or more"),
    ],
)
def test_what_cannot_be_done_is_said(records: str, arguments: list[str], said: str, capsys: Said) -> None:
    """Exit 2 and a sentence; nothing is made by the attempt."""
    name, *rest = arguments
    assert main([name, records, *rest]) == 2
    assert said in capsys.readouterr().err
    assert list(Path(records).parent.glob("*.sqlite")) == []


def test_without_backups_that_is_said(records: str, capsys: Said) -> None:
    """An empty list would look like a mistake."""
    assert main(["backups", records]) == 0
    assert capsys.readouterr().out == "no backups\n"
