"""Open the workbook, or run every check, on a machine that has nothing but Python.

    python3 -m estimating.start                       opens the workbook in JupyterLab
    python3 -m estimating.start page                  opens it as pages without cells, for small windows too
    python3 -m estimating.start tests                 runs every check

The first run makes the folder .venv and installs into it; later runs use it until pyproject.toml changes.
Further words are handed on: to JupyterLab (--no-browser, --port 9000) or to pytest (-k coverage).
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LAB_SETTINGS = Path(__file__).resolve().parent / "lab"
FIRST_PAGE = "notebooks/start_here.ipynb"
OLDEST_PYTHON = (3, 11)
BROWSER_TESTS = str(Path("tests", "browser"))
CHECKS = {
    "format": ("ruff", "format", "--check", "."),
    "lint": ("ruff", "check", "."),
    "types": ("mypy", "--strict"),
    "tests": ("pytest", "-n", "auto", "tests", f"--ignore={BROWSER_TESTS}"),
    "notebooks": ("pytest", "notebooks"),
    "desk": ("pytest", BROWSER_TESTS),  # apart: a driven browser leaves an event loop running behind it
}


def refuse_old_python(version: tuple[int, int]) -> None:
    """Stop with one sentence when this Python is too old for the package."""
    if version < OLDEST_PYTHON:
        raise SystemExit(f"This is Python {version[0]}.{version[1]}; the workbook needs Python 3.11 or newer.")


def python_of(venv: Path, *, windows: bool = os.name == "nt") -> Path:
    """Return where a virtual environment keeps its Python."""
    return venv / "Scripts" / "python.exe" if windows else venv / "bin" / "python"


def fingerprint(root: Path) -> str:
    """Return a mark that changes with pyproject.toml, with the folder it lies in and with the Python in use."""
    parts = (str(root), sys.version, (root / "pyproject.toml").read_text(encoding="utf-8"))
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()


def stamp_of(venv: Path, extra: str) -> Path:
    """Return the file inside the environment that says what was installed from which pyproject.toml."""
    return venv / f"installed-{extra or 'workbook'}.txt"


def is_ready(root: Path, venv: Path, extra: str) -> bool:
    """Say whether the environment already holds what this pyproject.toml asks for."""
    stamp = stamp_of(venv, extra)
    return python_of(venv).exists() and stamp.exists() and stamp.read_text(encoding="utf-8") == fingerprint(root)


def make_environment(venv: Path) -> None:
    """Make an empty virtual environment; nothing half made is left behind when that fails."""
    print(f"Making {venv} …", flush=True)
    if subprocess.call([sys.executable, "-m", "venv", str(venv)]):
        shutil.rmtree(venv, ignore_errors=True)
        raise SystemExit(f"{venv} could not be made; the lines above say why. Python's own venv and pip are needed.")


def install(root: Path, venv: Path, extra: str) -> None:
    """Install the package as it lies here, with an extra or without, and stamp the environment."""
    print("Installing what pyproject.toml names; this takes about a minute the first time …", flush=True)
    what = f"{root}[{extra}]" if extra else str(root)
    pip = [str(python_of(venv)), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--editable", what]
    if subprocess.call(pip):
        raise SystemExit(
            f"The packages could not be installed; the lines above say why. Check the connection and start again. "
            f"If that does not help, delete {venv} and start again."
        )
    for each in {"", extra}:
        stamp_of(venv, each).write_text(fingerprint(root), encoding="utf-8")


def set_up(root: Path, extra: str = "") -> Path:
    """Return the Python that has the package, after making and filling the environment if need be."""
    venv = root / ".venv"
    if not is_ready(root, venv, extra):
        if not python_of(venv).exists():
            make_environment(venv)
        install(root, venv, extra)
    return python_of(venv)


def lab_command(python: Path, extra: Sequence[str] = (), *, as_page: bool = False) -> list[str]:
    """Return the command that opens the workbook, in JupyterLab or as a page; run it in the folder to be shown."""
    first = f"/voila/render/{FIRST_PAGE}" if as_page else f"/doc/tree/{FIRST_PAGE}"
    return [str(python), "-m", "jupyterlab", f"--LabApp.default_url={first}", *extra]


def trust_command(python: Path, root: Path) -> list[str]:
    """Return the command that signs the workbook's own notebooks, so that they open by themselves."""
    return [str(python), "-m", "nbformat.sign", *map(str, sorted((root / "notebooks").glob("*.ipynb")))]


def trust(python: Path, root: Path, environment: Mapping[str, str]) -> None:
    """Sign the workbook's own notebooks; one that is not signed is opened by hand, with Calculate."""
    subprocess.call(trust_command(python, root), env=environment, stdout=subprocess.DEVNULL)


def lab_environment(private: Path, given: Mapping[str, str]) -> dict[str, str]:
    """Return the environment JupyterLab runs in: the workbook's settings, and `private` for all it writes.

    The user's own Jupyter and IPython settings are neither read nor changed.
    """
    return {
        **given,
        "JUPYTER_CONFIG_PATH": str(LAB_SETTINGS),
        "JUPYTER_PATH": str(LAB_SETTINGS),
        "JUPYTER_CONFIG_DIR": str(private / "config"),
        "JUPYTER_DATA_DIR": str(private / "data"),
        "IPYTHONDIR": str(private / "ipython"),
    }


def open_workbook(root: Path, extra: Sequence[str], *, as_page: bool = False) -> int:
    """Open the workbook and stay until it is closed."""
    python = set_up(root)
    command = lab_command(python, extra, as_page=as_page)
    environment = lab_environment(root / ".venv" / "jupyter", os.environ)
    trust(python, root, environment)
    os.chdir(root)
    if os.name == "posix":
        os.execve(command[0], command, environment)  # so that Ctrl-C and an end from outside reach JupyterLab alone
    return subprocess.call(command, env=environment)


def checks_with(extra: Sequence[str]) -> dict[str, tuple[str, ...]]:
    """Return the checks to run; with words for pytest, all it runs is what those words choose."""
    if not extra:
        return CHECKS
    others = {name: words for name, words in CHECKS.items() if words[0] != "pytest"}
    return {**others, "tests": ("pytest", *extra)}


def run_checks(root: Path, extra: Sequence[str]) -> int:
    """Run every check, whatever the earlier ones said; return 0 when all passed and 1 when not."""
    python = set_up(root, "test")
    began = time.monotonic()
    checks = checks_with(extra)
    failed = []
    for name, words in checks.items():
        print(f"\n— {name}: {' '.join(words)}", flush=True)
        if subprocess.call([str(python), "-m", *words], cwd=root):
            failed.append(name)
    print(closing_line(list(checks), failed, time.monotonic() - began), flush=True)
    return 1 if failed else 0


def closing_line(ran: Sequence[str], failed: Sequence[str], seconds: float) -> str:
    """Return the last line of a run of the checks."""
    if failed:
        return f"\nNOT passed: {', '.join(failed)}. What is wrong stands above, under the line of that name."
    return f"\nAll checks passed: {', '.join(ran)}, in {seconds:.0f} seconds."


def main(words: Sequence[str]) -> int:
    """Do what the words on the command line ask for."""
    refuse_old_python(sys.version_info[:2])
    if words and words[0] in {"-h", "--help", "help"}:
        print(__doc__)
        return 0
    if words and words[0] == "tests":
        return run_checks(ROOT, words[1:])
    if words and words[0] == "page":
        return open_workbook(ROOT, words[1:], as_page=True)
    return open_workbook(ROOT, words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
