"""The package works where it is installed: away from the checkout it has its tables, and all that it prints."""

import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from places import JOBS, ROOT

JOB = JOBS / "alder_row_sitting_room.toml"


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel, and lay out what is in it as an installer would."""
    folder = tmp_path_factory.mktemp("installed")
    build = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--no-index"]
    quiet = {name: value for name, value in os.environ.items() if name != "PYTHONWARNINGS"}  # the builder warns
    subprocess.run([*build, "--wheel-dir", str(folder), str(ROOT)], env=quiet, check=True, capture_output=True)
    (wheel,) = folder.glob("estimating-*.whl")
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(folder / "packages")
    return folder


def run(folder: Path, *arguments: str) -> str:
    """Run Python outside the checkout, knowing the installed package only."""
    given = {**os.environ, "PYTHONPATH": str(folder / "packages"), "ESTIMATING_RECORDS": str(folder / "none.sqlite")}
    done = subprocess.run(
        [sys.executable, "-W", "error", *arguments], cwd=folder, env=given, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_installed_package_is_the_one_that_runs(installed: Path) -> None:
    """And its tables lie inside it."""
    asked = "import estimating.evidence as e; print(e.__file__); print(e.REFERENCE)"
    assert all(line.startswith(str(installed / "packages")) for line in run(installed, "-c", asked).split())


def test_the_installed_package_prices_a_job(installed: Path) -> None:
    """To the cent what the checkout says."""
    job = installed / "job.toml"
    job.write_bytes(JOB.read_bytes())
    priced = run(installed, "-m", "estimating", str(job))
    here = subprocess.run(
        [sys.executable, "-m", "estimating", str(JOB)], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert priced.splitlines()[:5] == here.stdout.splitlines()[:5]
    assert "$" in priced


def test_the_installed_package_says_what_its_tables_rest_on(installed: Path) -> None:
    """With the figures that sources print: they travel too."""
    said = run(installed, "-m", "estimating.evidence")
    assert said.startswith("Rows by table and origin")
    assert "printed figures from" in said


def test_shipped_code_reads_nothing_of_the_tests() -> None:
    """No module names the folder of the tests as a place."""
    reads = re.compile(r'/ "tests"|"tests/')
    assert not [
        path.name for path in sorted((ROOT / "estimating").rglob("*.py")) if reads.search(path.read_text("utf-8"))
    ]
