import subprocess
import sys
from pathlib import Path

import pytest
from places import ROOT

from estimating.business import main
from estimating.evidence import load_library
from estimating.records.own import own_table

Said = pytest.CaptureFixture[str]


def test_overhead_of_a_year_is_spread_over_its_billable_hours(tmp_path: Path, capsys: Said) -> None:
    """28,000 dollars over 1,750 hours are 16 dollars an hour, which then stands in the records as one's own value."""
    records = tmp_path / "records.sqlite"
    assert main(["overhead", "--year", "28000", "--hours", "1750", "--keep", str(records)]) == 0
    assert "is $16.00 an hour" in capsys.readouterr().out
    own = own_table(records, load_library()).values["business/overhead"]
    assert (own.likely, own.unit, own.note) == (16.0, "dollar/hour", "$28,000.00 over 1,750 hours")


def test_without_a_records_file_nothing_is_kept(tmp_path: Path, capsys: Said) -> None:
    """The figure is only said."""
    assert main(["overhead", "--year", "28000", "--hours", "1750"]) == 0
    assert capsys.readouterr().out == "$28,000.00 a year over 1,750 billable hours is $16.00 an hour\n"
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("asked", "percent", "said"),
    [("margin", "30", "a markup of 42.9% on cost"), ("markup", "50", "a margin of 33.3% of the price")],
)
def test_margin_and_markup_are_told_apart(asked: str, percent: str, said: str, capsys: Said) -> None:
    """3/7 on cost is 3/10 of the price; a half on cost is a third of the price."""
    assert main([asked, percent]) == 0
    assert said in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["margin", "100"], "margin: got 1.0, needs 0 or more and less than 1"),
        (["overhead", "--year", "28000", "--hours", "0"], "productive_hours: got 0.0, needs more than 0 hours"),
    ],
)
def test_what_cannot_be_is_refused(arguments: list[str], said: str, capsys: Said) -> None:
    """Exit 2, and the figure at fault."""
    assert main(arguments) == 2
    assert said in capsys.readouterr().err


def test_it_runs_as_a_command() -> None:
    """By the name the help gives it."""
    command = [sys.executable, "-m", "estimating.business", "markup", "35"]
    ran = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    assert "25.9%" in ran.stdout
