"""What of a page is cut off or lies on something else, told from the boxes the browser has laid out."""

from __future__ import annotations

from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

AXE = Axe()
FAULTS, STILL = (Path(__file__).with_name(f"{each}.js").read_text("utf-8") for each in ("faults", "still"))


def faults(page: Page) -> list[str]:
    """Return what is cut off, runs off the page or lies on something else, in words."""
    found: list[str] = page.evaluate(FAULTS)
    return found


def unreadable(page: Page, within: str | None = None) -> list[str]:
    """Return what axe-core finds on the page, or within a part of it, whatever its grade."""
    found = AXE.run(page, within).response["violations"]
    return [f"{each['id']} ({each['impact']}): {node['target']}" for each in found for node in each["nodes"]]


def still(page: Page) -> None:
    """Wait until the form has not changed for a moment: what follows the last change at rest has been painted."""
    page.evaluate(STILL)
