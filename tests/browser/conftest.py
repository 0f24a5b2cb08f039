"""Desk tests: the shipped JupyterLab in Chromium, on a copy of notebooks/ (the repository is never written).

    def test_the_price_follows_the_height(lab):
        page, form = lab.desk("ceiling.ipynb")       # opened, run by the button, the form is visible
        form.get_by_label("Height").fill("9 ft")
        page.keyboard.press("Tab")
        expect(form.get_by_text("Price")).to_be_visible()   # playwright.sync_api.expect waits; never sleep
        lab.picture(page, "after")                   # tmp_path/after.png

Further parts: `lab.open(name)` opens without running; `lab.calculate(page, by="key")` presses F9;
`lab.write(name, cells)` makes a throw-away notebook; `lab.cells(page)` gives the cells' sources as they are now;
`lab.server.folder` is the copy's folder. A form is found by the class `estimating-desk` on its outermost box
(`box.add_class("estimating-desk")`). One server serves the whole run; each test gets a fresh page and fresh kernels.
A script error on the page fails the test that met it. Without Chromium tests/conftest.py leaves these tests out and
says so at the end of the run.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from labharness import FLAGS, PATIENCE, Lab, LabServer, running_lab
from playwright.sync_api import BrowserContext, expect, sync_playwright


@pytest.fixture(scope="session")
def lab_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[LabServer]:
    with running_lab(tmp_path_factory.mktemp("lab")) as server:
        yield server


@pytest.fixture(scope="session")
def window(chromium_path: str) -> Iterator[BrowserContext]:
    """One browser for the whole run: it keeps JupyterLab's scripts, which halves the time a page takes to open."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path, headless=True, args=FLAGS)
        window = browser.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True)
        window.set_default_timeout(PATIENCE * 1000)
        expect.set_options(timeout=PATIENCE * 1000)
        yield window
        browser.close()


@pytest.fixture
def lab(lab_server: LabServer, window: BrowserContext, tmp_path: Path) -> Iterator[Lab]:
    desk = Lab(lab_server, window, tmp_path)
    yield desk
    for page in window.pages:
        page.close()
    lab_server.end_kernels()
    assert desk.script_errors == []
