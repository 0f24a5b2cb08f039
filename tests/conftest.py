"""Shared by all tests: where Chromium is, and what happens to the desk tests when there is none."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

BROWSER_TESTS = Path(__file__).parent / "browser"
NOT_RUN = pytest.StashKey[int]()


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
