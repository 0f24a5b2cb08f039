"""How every page looks: nothing cut off or on top of another thing, and nothing that axe-core finds, light and dark."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from labharness import Lab
from measure import faults, still, unreadable
from places import NOTEBOOKS
from playwright.sync_api import Locator, Page

SIZES = ((1440, 900), (1280, 720), (720, 450), (390, 844))  # 720: twice enlarged


def whole(page: Page) -> list[str]:
    """Open everything that is folded, and return what is found in it."""
    folded = page.locator(".desk-section[aria-expanded=false]:visible")
    while folded.count():
        folded.first.click()
    still(page)
    return unreadable(page)


def panes(page: Page, form: Locator, look: Callable[[], list[str]]) -> list[str]:
    """Turn to each pane, and return what is found in any."""
    found = []
    for tab in form.get_by_role("tab").all():
        tab.click()
        still(page)
        found += [f"{tab.inner_text()}: {each}" for each in look()]
    return found


def at_every_size(page: Page) -> list[str]:
    """Return what is cut off or overlaps in windows of several sizes."""
    found = []
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        still(page)
        found += [f"{width}: {each}" for each in faults(page)]
    page.set_viewport_size({"width": 1280, "height": 900})
    return found


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_a_page_is_clean_in_both_themes_and_fits_every_size(lab: Lab, name: str) -> None:
    """As a page without cells: axe-core finds nothing of any grade, and nothing is cut off or covers another thing."""
    page, _ = lab.as_page(f"{name}.ipynb", "dark")
    still(page)
    assert unreadable(page) == []
    page.close()
    page, _ = lab.as_page(f"{name}.ipynb")
    still(page)
    assert unreadable(page) == []
    assert at_every_size(page) == []


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_section_and_pane_of_a_desk_is_clean(lab: Lab, theme: str) -> None:
    """With every section open, each pane of the result in turn; in the light one also what fits."""
    page, form = lab.as_page("interior_repaint.ipynb", theme)
    still(page)
    assert whole(page) == []
    assert panes(page, form, lambda: unreadable(page, ".estimating-desk")) == []
    if theme == "light":
        assert at_every_size(page) == []


def test_my_business_and_an_invented_history_are_clean(lab: Lab) -> None:
    """The pages behind a button."""
    page, form = lab.as_page("start_here.ipynb")
    form.get_by_role("button", name="My business").click()
    page.locator(".desk-business").wait_for()
    assert whole(page) == []
    assert at_every_size(page) == []
    page, form = lab.as_page("job_review.ipynb", "dark")
    form.get_by_role("button", name="Show an invented history").click()
    form.get_by_role("tab").first.wait_for()
    assert panes(page, form, lambda: unreadable(page)) == []
    assert at_every_size(page) == []


@pytest.mark.parametrize("name", ["start_here", "wallcovering", "reference_tables", "job_review"])
def test_a_desk_in_jupyterlab_is_clean_in_both_themes(lab: Lab, name: str) -> None:
    """The part of JupyterLab's window that is the workbook's own; its frame is not."""
    page, _ = lab.desk(f"{name}.ipynb")
    still(page)
    assert unreadable(page, ".estimating-desk") == []
    assert faults(page) == []
    lab.darken(page)
    assert unreadable(page, ".estimating-desk") == []
