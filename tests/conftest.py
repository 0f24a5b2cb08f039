"""Shared by all tests: warnings as errors, steady examples, where Chromium is, and what happens when there is none."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

BROWSER_TESTS = Path(__file__).parent / "browser"
NOT_RUN = pytest.StashKey[int]()

# The kernel warns of itself when it is shut down; as an error that would leave it hanging.
os.environ["PYTHONWARNINGS"] = "error,ignore::PendingDeprecationWarning:ipykernel.kernelbase"
# A notebook prints what it prices; the own values of whoever runs the tests must not be in it.
os.environ["ESTIMATING_RECORDS"] = "no_records_in_tests/records.sqlite"

# How long a machine takes is no matter for a test: a busy one must not turn a property red. Where the checks decide
# whether a change is taken, the examples are the same every time.
settings.register_profile(
    "steady",
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    derandomize=os.environ.get("CI") == "true",
)
settings.load_profile("steady")


def find_chromium() -> str | None:
    """Return the Chromium named in the variable CHROMIUM, or the one on the path; None when there is none."""
    names = (os.environ.get("CHROMIUM", ""), "chromium", "chromium-browser")
    return next((found for name in names if name and (found := shutil.which(name))), None)


@pytest.fixture(scope="session")
def chromium_path() -> str:
    path = find_chromium()
    assert path, "the desk tests need Chromium"
    return path


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if find_chromium():
        # Last: a driven browser leaves an event loop running, and the desk would hand its work to that loop.
        items.sort(key=lambda item: BROWSER_TESTS in item.path.parents)
        return
    left_out = [item for item in items if BROWSER_TESTS in item.path.parents]
    if left_out and os.environ.get("CI") == "true":
        raise pytest.UsageError(f"no Chromium, so {len(left_out)} desk tests cannot run, and here they must")
    config.stash[NOT_RUN] = len(left_out)
    items[:] = [item for item in items if item not in left_out]
    config.hook.pytest_deselected(items=left_out)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    count = config.stash.get(NOT_RUN, 0)
    if count:
        terminalreporter.section("DESK TESTS NOT RUN", sep="!", red=True, bold=True)
        terminalreporter.line(
            f"{count} desk tests were NOT run, because no Chromium was found. Install it (Debian: apt-get install "
            "chromium) or name it in the variable CHROMIUM, and run the tests again.",
            red=True,
        )
