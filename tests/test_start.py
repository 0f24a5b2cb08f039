"""Setting up with Python alone: what is installed when, what is said when it fails, what is run."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from estimating import start

Calls = list[list[str]]


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / "pyproject.toml").write_text("one", encoding="utf-8")
    return tmp_path


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch, root: Path) -> Calls:
    """Record every command instead of running it; making an environment makes its Python."""
    seen: Calls = []

    def call(command: list[str], cwd: Path = root) -> int:
        seen.append(command)
        if "venv" in command:
            python = start.python_of(root / ".venv")
            python.parent.mkdir(parents=True)
            python.touch()
        return 0

    monkeypatch.setattr(subprocess, "call", call)
    return seen


def failing(word: str) -> Callable[..., int]:
    """Return a stand-in for running commands, of which those with this word fail."""
    return lambda command, cwd=None: int(word in command)


def test_the_first_run_makes_and_fills_an_environment(root: Path, calls: Calls) -> None:
    """A fresh folder gets .venv and the package as it lies there."""
    assert start.set_up(root) == start.python_of(root / ".venv")
    making, installing = calls
    assert making == [sys.executable, "-m", "venv", str(root / ".venv")]
    assert installing[-2:] == ["--editable", str(root)]


def test_a_second_run_installs_nothing(root: Path, calls: Calls) -> None:
    """The environment is used again while pyproject.toml stays as it is; the tests' one serves the workbook too."""
    start.set_up(root, "test")
    calls.clear()
    start.set_up(root, "test")
    start.set_up(root)
    assert calls == []


def test_the_tests_need_more_than_the_workbook(root: Path, calls: Calls) -> None:
    """An environment made to open the workbook gets the test extra when the tests are run."""
    start.set_up(root)
    calls.clear()
    start.set_up(root, "test")
    (installing,) = calls
    assert installing[-1] == f"{root}[test]"


def test_a_changed_pyproject_is_installed_again(root: Path, calls: Calls) -> None:
    """The environment is kept and brought up to date."""
    start.set_up(root)
    calls.clear()
    (root / "pyproject.toml").write_text("two", encoding="utf-8")
    start.set_up(root)
    assert ["venv" in call for call in calls] == [False]


def test_a_failed_environment_leaves_nothing_behind(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without venv there is one sentence, and the next run begins afresh."""
    (root / ".venv" / "lib").mkdir(parents=True)
    monkeypatch.setattr(subprocess, "call", failing("venv"))
    with pytest.raises(SystemExit, match="could not be made"):
        start.set_up(root)
    assert not (root / ".venv").exists()


def test_a_failed_installation_is_tried_again(root: Path, calls: Calls, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a network there is one sentence, and no stamp that would hide the failure from the next run."""
    start.make_environment(root / ".venv")
    monkeypatch.setattr(subprocess, "call", failing("pip"))
    with pytest.raises(SystemExit, match="could not be installed"):
        start.set_up(root)
    assert not start.is_ready(root, root / ".venv", "")


def test_windows_keeps_its_python_elsewhere() -> None:
    """On Windows the environment's programs lie in Scripts."""
    assert start.python_of(Path("v"), windows=True) == Path("v/Scripts/python.exe")
    assert start.python_of(Path("v"), windows=False) == Path("v/bin/python")


def test_every_check_runs_though_one_fails(
    root: Path, calls: Calls, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """A failed check is named in the last line, the others run all the same, and the exit code says failed."""
    start.set_up(root, "test")
    monkeypatch.setattr(subprocess, "call", failing("mypy"))
    assert start.run_checks(root, ()) == 1
    said = capfd.readouterr().out
    assert [line.split(":")[0] for line in said.splitlines() if line.startswith("— ")] == [
        "— format",
        "— lint",
        "— types",
        "— tests",
        "— notebooks",
        "— desk",
    ]
    assert said.splitlines()[-1].startswith("NOT passed: types.")


def test_further_words_go_to_pytest_only(root: Path, calls: Calls, capfd: pytest.CaptureFixture[str]) -> None:
    """`tests -k coverage` reaches pytest, and no other check; all passing is said in the last line."""
    start.set_up(root, "test")
    calls.clear()
    assert start.run_checks(root, ("-k", "coverage")) == 0
    assert [call[2] for call in calls if "-k" in call] == ["pytest"]
    assert capfd.readouterr().out.splitlines()[-1].startswith("All checks passed: format, lint, types, tests, in ")


def test_the_workbook_opens_with_its_own_settings(root: Path, calls: Calls, monkeypatch: pytest.MonkeyPatch) -> None:
    """JupyterLab opens on the first notebook, reads the shipped settings, and writes nothing outside the folder."""
    started = []

    def become(*given: object) -> None:
        started.append(given)
        raise SystemExit  # this process is another one from here on

    monkeypatch.setattr(os, "execve", become)
    monkeypatch.setattr(start, "trust", lambda *_given: None)
    monkeypatch.chdir(root)
    start.set_up(root)
    with pytest.raises(SystemExit):
        start.open_workbook(root, ["--no-browser"])
    ((program, command, environment),) = started
    assert program == command[0] == str(start.python_of(root / ".venv"))
    assert command[1:] == ["-m", "jupyterlab", f"--LabApp.default_url=/doc/tree/{start.FIRST_PAGE}", "--no-browser"]
    assert environment["JUPYTER_CONFIG_PATH"] == environment["JUPYTER_PATH"] == str(start.LAB_SETTINGS)
    private = [environment[name] for name in ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "IPYTHONDIR")]
    assert all(Path(each).is_relative_to(root / ".venv") for each in private)


def test_the_first_page_exists() -> None:
    """The notebook that is opened first lies where the command looks for it."""
    assert (start.ROOT / start.FIRST_PAGE).is_file()


def test_an_old_python_is_refused_in_one_sentence() -> None:
    """Python 3.10 is named, and so is what is needed."""
    with pytest.raises(SystemExit, match=r"This is Python 3\.10; the workbook needs Python 3\.11 or newer"):
        start.refuse_old_python((3, 10))
    start.refuse_old_python((3, 11))


def test_it_runs_on_bare_python() -> None:
    """With no installed package in reach the command still answers."""
    bare = [sys.executable, "-I", "-S", start.__file__, "--help"]
    said = subprocess.run(bare, capture_output=True, encoding="utf-8", check=True).stdout
    assert "python3 -m estimating.start tests" in said
