from __future__ import annotations

import csv
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from estimating.evidence import REFERENCE, Library, load_library
from estimating.evidence_report import main, report
from estimating.origins import Kind, Origin
from estimating.printed import PUBLISHED

ROOT = REFERENCE.parent


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()


def section(text: str, title: str) -> list[str]:
    """Return the lines under a title of the report."""
    lines = text.split(f"{title}", 1)[1].splitlines()[2:]
    return lines[: lines.index("")] if "" in lines else lines


def test_every_row_is_counted_once_under_its_origin(library: Library) -> None:
    """The columns of each table add up to its rows, and the tables to all."""
    lines = section(report(library), "Rows by table and origin")
    counts = {line.split()[0]: [int(each) for each in line.split()[1:]] for line in lines[1:]}
    assert {name: numbers[0] for name, numbers in counts.items() if name != "all"} == {
        name: len(rows) for name, rows in library.tables.items()
    }
    assert all(numbers[0] == sum(numbers[1:]) for numbers in counts.values())


def test_no_row_lacks_an_origin(library: Library) -> None:
    """The last section reads nothing."""
    assert section(report(library), "Rows lacking an origin") == ["0"]


def test_a_row_without_its_source_is_named(library: Library) -> None:
    """A published row whose source is gone is listed as lacking an origin."""
    keys = ("smooth_drywall", "any", "any", "any")
    rows = library.table("coverage")
    bare = replace(rows[keys], origin=Origin(Kind.PUBLISHED, "nowhere-1900", "page 1"))
    poorer = Library({**library.tables, "coverage": MappingProxyType({**rows, keys: bare})}, library.sources)
    assert section(report(poorer), "Rows lacking an origin")[0] == "1: coverage 1"


def test_printed_figures_are_counted(library: Library, tmp_path: Path) -> None:
    """The count is that of the files; without them the report says so."""
    figures = 0
    for path in PUBLISHED.glob("*.csv"):
        with path.open(newline="", encoding="utf-8") as lines:
            figures += sum(1 for _ in csv.DictReader(lines))
    assert section(report(library), "Published values checked")[0].startswith(f"{figures} printed figures")
    assert section(report(library, checks=tmp_path), "Published values checked")[0].startswith("no printed figures")


def test_a_shorter_span_of_years_lists_more_old_rows(library: Library) -> None:
    """What is more than five years old includes what is more than fifty."""
    title = "Published rows whose newest source is more than"
    old = {
        years: int(re.split(r"\D", section(report(library, years=years, this_year=2026), title)[0])[0])
        for years in (5, 50)
    }
    assert old[5] > old[50] > 0


def test_a_row_of_one_source_is_listed(library: Library) -> None:
    """A spread rate that one book gives stands under the single sources; one of several does not."""
    listed = " ".join(section(report(library), "Published rows that rest on a single source"))
    assert "shingle/any/any/any" not in listed
    assert "stone/any/any/repellent" in listed


def test_the_command_takes_years(capsys: pytest.CaptureFixture[str]) -> None:
    """--years N says when a row is old."""
    main(["--years", "7"])
    assert "more than 7 years old" in capsys.readouterr().out


def test_the_module_runs_as_a_command() -> None:
    """`python -m estimating.evidence` prints the report, warnings being errors."""
    done = subprocess.run(
        [sys.executable, "-W", "error", "-m", "estimating.evidence"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.startswith("Rows by table and origin")
