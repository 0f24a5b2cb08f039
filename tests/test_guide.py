"""The contributors' guide keeps up with the project."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
PLACES = re.compile(r"`(?:\.venv/bin/\S+ (?:-\S+ )*)?((?:estimating|tests|reference|notebooks|\.ci)/[\w./]*)")


def test_every_dependency_has_its_reason() -> None:
    """Each package in pyproject.toml has a line in the guide, and no line is left of one that is gone."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    tables = GUIDE.split("## What each dependency is for")[1]
    rows = re.findall(r"^\| ([A-Za-z][\w, -]*?) \| \S", tables, re.MULTILINE)
    listed = [name for row in rows if row != "package" for name in row.split(", ")]
    assert sorted(listed) == sorted(re.split(r"[>=<~]", each)[0] for each in wanted)


def test_every_place_it_names_exists() -> None:
    """A file or folder that the guide names is there."""
    assert [place for place in PLACES.findall(GUIDE) if not (ROOT / place).exists()] == []


def test_both_documents_give_the_commands_that_work() -> None:
    """README and guide name the two commands, and continuous integration runs the second one as it stands there."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
    assert "python3 -m estimating.start" in readme
    assert "python3 -m estimating.start tests" in readme
    assert (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()[-1] == "python3 -m estimating.start tests"
