"""The layers hold, and the check that says so notices each way of breaking them."""

from __future__ import annotations

from pathlib import Path

import pytest
from layers import PACKAGE, kinds_of_work, problems, read_package

from estimating.scopes.registry import KINDS

SOUND = {
    "errors.py": "",
    "trade/film.py": "from estimating.errors import InputError",
    "estimate/lines.py": "from estimating.trade.film import wet",
    "scopes/kinds/walls/kind.py": "from estimating.estimate import lines\nfrom estimating.scopes.shared import coat",
    "scopes/kinds/paper_hanging/kind.py": "",
    "scopes/protocol.py": "",
    "scopes/shared/coat.py": "from estimating.scopes import protocol",
    "desk/form.py": "import ipywidgets\nfrom estimating.scopes import protocol",
    "start.py": "import os",
}


def package(folder: Path, **changes: str) -> Path:
    """Write a small package, sound but for the changes; a name's double underscore stands for a slash."""
    files = SOUND | {f"{name.replace('__', '/')}.py": text for name, text in changes.items()}
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def test_the_layers_hold() -> None:
    """No module of the package imports, opens or names what its layer may not."""
    assert problems(PACKAGE) == []


def test_the_package_has_kinds_of_work_to_look_for() -> None:
    """The check of the engine covers every kind that can be priced, by the word in a job file and by its module."""
    assert set(kinds_of_work(read_package(PACKAGE))) == set(KINDS)
    assert len(KINDS) >= 3


def test_a_sound_package_has_no_problems(tmp_path: Path) -> None:
    """Imports downward, within a layer and from outside are allowed."""
    assert problems(package(tmp_path)) == []


@pytest.mark.parametrize(
    ("module", "text", "problem"),
    [
        ("trade__film", "from estimating.estimate.pricing.lines import Line", "which lies above it"),
        ("trade__film", "import estimating.scopes.kinds.walls", "which lies above it"),
        ("trade__film", "def late():\n    from estimating import desk", "which lies above it"),
        ("trade__film", "from ..errors import InputError", "imports by dots"),
        ("trade__film", "import csv", "touches no file"),
        ("trade__film", "from pathlib import Path", "touches no file"),
        ("trade__film", "text = open('rates.csv').read()", "touches none"),
        ("errors", "from estimating.trade import film", "which lies above it"),
        ("errors", "from estimating import start", "stands apart"),
        ("start", "from estimating import errors", "stands apart"),
        ("start", "import numpy", "before anything is installed"),
        ("reports__panes", "import ipywidgets", "only the desk may"),
        ("estimate__lines", "NAMES = ['Walls']", "only its own folder knows a kind"),
        ("estimate__lines", "def priced(cover): ...  # paper-hanging is dearer", "only its own folder knows a kind"),
        ("scopes__shared__cover", "def cover(): ...  # of walls", "only its own folder knows a kind"),
        (
            "reports__panes",
            "from estimating.scopes.kinds.paper_hanging import kind",
            "only its own folder",
        ),
        ("scopes__kinds__paper_hanging__facts", "COATS = 2  # as for walls", "only its own folder"),
        ("scopes__kinds__walls__deep__down__more", "", "lies deeper than 3 folders"),
        ("helpers", "", "has no layer"),
    ],
)
def test_each_way_of_breaking_the_layers_is_noticed(tmp_path: Path, module: str, text: str, problem: str) -> None:
    """One wrong line gives exactly one problem, and the problem names the module."""
    (only,) = [each for each in problems(package(tmp_path, **{module: text})) if "ring" not in each]
    assert problem in only
    assert module.replace("__", ".") in only


def test_a_ring_of_imports_is_noticed(tmp_path: Path) -> None:
    """Two modules of one layer that import each other are a ring, and both are named."""
    ring = package(
        tmp_path, trade__film="import estimating.trade.loss", trade__loss="from estimating.trade import film"
    )
    (only,) = problems(ring)
    assert "a ring of imports" in only
    assert "trade.film" in only
    assert "trade.loss" in only


def test_a_ring_of_folders_is_noticed(tmp_path: Path) -> None:
    """What all kinds share may not lean on a module that leans on what they share."""
    ring = package(tmp_path, scopes__registry="from estimating.scopes.shared import coat")
    assert any("a ring of folders: scopes" in each for each in problems(ring))
