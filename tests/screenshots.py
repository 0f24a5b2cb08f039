"""Pictures of every notebook in JupyterLab and of every page, at the sizes people work at, light and dark, to look at.

    python tests/screenshots.py FOLDER [word of a picture's name, ...]

200 % zoom is a window of half the size. Of a page there is a second picture, `…_whole`, from top to bottom.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from conftest import find_chromium
from playwright.sync_api import Locator, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parent / "browser"))
from labharness import FLAGS, Lab, running_lab
from measure import still
from places import NOTEBOOKS

SIZES = {"1920": (1920, 1080), "1440": (1440, 900), "1280": (1280, 720), "zoom": (720, 450), "390": (390, 844)}
IN_LAB = ("1920", "1440", "1280", "zoom")
THEMES = ("light", "dark")
LONGEST = 6000  # of a picture of a whole page
WHOLE = "() => Math.max(...[...document.querySelectorAll('body, body *')].map(each => each.scrollHeight))"
Act = Callable[[Page, Locator], object]


def as_opened(_page: Page, _form: Locator) -> None:
    """Leave a page as it opens."""


def pressed(*names: str) -> Act:
    """Return what presses buttons one after another."""

    def press(page: Page, form: Locator) -> None:
        for name in names:
            page.locator(".estimating-desk").get_by_role("button", name=name, exact=True).first.click()

    return press


def pane(name: str) -> Act:
    """Return what turns to a pane."""
    return lambda _page, form: form.get_by_role("tab", name=name, exact=True).click()


def every_section(_page: Page, form: Locator) -> None:
    """Open every section of the form."""
    while form.locator(".desk-section[aria-expanded=false]:visible").count():
        form.locator(".desk-section[aria-expanded=false]:visible").first.click()


@dataclass(frozen=True)
class View:
    """One thing to look at: a notebook and what is done there first."""

    name: str
    notebook: str
    act: Act = as_opened
    lab: bool = False


def views() -> list[View]:
    """Return everything there is to look at."""
    panes = ["Methods", "Shopping list", "Schedule", "Cautions", "Set-up", "What if", "Show the math"]
    return [
        View("start", "start_here", lab=True),
        View("business", "start_here", pressed("My business")),
        View("new_job", "start_here", pressed("New job")),
        *(View(each, each, lab=True) for each in NOTEBOOKS if each != "start_here"),
        *(View(f"pane_{each.lower().replace(' ', '_')}", "interior_repaint", pane(each)) for each in panes),
        View("sections", "interior_repaint", every_section),
        View("history", "job_review", pressed("Show an invented history")),
    ]


def take(lab: Lab, view: View, folder: Path, wanted: Sequence[str]) -> None:
    """Take all pictures of one view."""
    for where in ("page", "lab") if view.lab else ("page",):
        for theme in THEMES:
            sizes = {size: f"{view.name}_{where}_{size}_{theme}" for size in (SIZES if where == "page" else IN_LAB)}
            sizes = {size: name for size, name in sizes.items() if not wanted or any(word in name for word in wanted)}
            if sizes:
                page = opened(lab, view, where, theme)
                for size, name in sizes.items():
                    width, height = SIZES[size]
                    page.set_viewport_size({"width": width, "height": height})
                    still(page)
                    page.screenshot(path=folder / f"{name}.png")
                    if where == "page":
                        whole = page.evaluate(WHOLE)
                        page.set_viewport_size({"width": width, "height": max(height, min(whole, LONGEST))})
                        still(page)
                        page.screenshot(path=folder / f"{name}_whole.png")
                page.close()
                lab.server.end_kernels()


def opened(lab: Lab, view: View, where: str, theme: str) -> Page:
    """Open a view and do what it is to show."""
    page, form = lab.as_page(f"{view.notebook}.ipynb", theme) if where == "page" else lab.desk(f"{view.notebook}.ipynb")
    if where == "lab" and theme == "dark":
        lab.darken(page)
    still(page)
    view.act(page, form)
    still(page)
    return page


def main(folder: Path, wanted: Sequence[str]) -> None:
    """Take the pictures whose names hold one of the words, or all."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as own, sync_playwright() as playwright, running_lab(Path(own)) as server:
        browser = playwright.chromium.launch(executable_path=find_chromium(), args=FLAGS)
        window = browser.new_context(viewport={"width": 1440, "height": 900})
        window.set_default_timeout(120_000)
        lab = Lab(server, window, folder)
        for view in views():
            take(lab, view, folder, wanted)
        browser.close()
        print(*lab.script_errors, sep="\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2:])
