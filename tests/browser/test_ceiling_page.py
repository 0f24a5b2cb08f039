"""The textured ceiling in the workbook, driven as a contractor drives it."""

from __future__ import annotations

import csv
import re
from decimal import Decimal

import pytest
from labharness import Lab
from playwright.sync_api import Locator, Page, expect

NOTEBOOK = "textured_ceiling.ipynb"
SAYS = {
    "price": "Overhead",
    "order": "left over",
    "days": "days on site",
    "set-up": "flow at the tip",
    "drawing": "fixtures are counted, not placed",
    "cautions": "Local codes",
    "questions": "open questions",
    "what moves it": "variance",
    "why": "measured on site",
}


def price(form: Locator) -> str:
    """Return the price as the page shows it."""
    return form.locator(".pe-fact strong").first.inner_text()


@pytest.fixture
def desk(lab: Lab) -> tuple[Page, Locator]:
    page, form = lab.desk(NOTEBOOK)
    form.locator(".pe-fact").first.wait_for()
    return page, form


def open_section(form: Locator, name: str) -> None:
    """Open one section of the form by its heading."""
    form.locator(".jupyter-widget-Collapse-header, .lm-AccordionPanel-title").get_by_text(name, exact=True).click()


def test_a_slider_moves_the_price_and_the_last_value_wins(desk: tuple[Page, Locator]) -> None:
    """Arrow keys on a slider change the price."""
    page, form = desk
    open_section(form, "assumptions")
    before = price(form)
    handle = form.get_by_role("slider").first
    handle.focus()
    for _ in range(12):
        page.keyboard.press("ArrowRight")
    expect(form.locator(".pe-fact strong").first).not_to_have_text(before)


def test_nonsense_is_marked_in_place_and_the_last_good_price_stays(desk: tuple[Page, Locator]) -> None:
    """A height that is no height is marked at the field; the price stays, marked stale, until it is put right."""
    page, form = desk
    open_section(form, "rooms")
    before = price(form)
    height = form.get_by_label("height", exact=True).first
    height.fill("quite tall")
    page.keyboard.press("Tab")
    expect(form.locator(".pe-field .pe-error")).to_contain_text("quite tall")
    expect(form.locator(".pe-stale")).to_be_visible()
    assert price(form) == before
    assert height.input_value() == "quite tall"
    height.fill("8' 2\"")
    page.keyboard.press("Tab")
    expect(form.locator(".pe-field .pe-error")).to_have_count(0)
    expect(form.locator(".pe-stale")).to_have_count(0)
    assert price(form) == before


def test_the_job_summary_downloads_and_adds_up(desk: tuple[Page, Locator]) -> None:
    """The CSV link delivers a file whose rows sum to its total and to the price on the page."""
    page, form = desk
    with page.expect_download() as with_dry_time:
        form.get_by_role("link", name="Job summary (CSV)").click()
    path = with_dry_time.value.path()
    with path.open(newline="", encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines))
    total = Decimal(rows[-1]["cost"])
    assert rows[-1]["section"] == "total"
    assert sum(Decimal(row["cost"]) for row in rows[:-1]) == total
    assert Decimal(re.sub(r"[$,]", "", price(form))) == total


def test_every_control_has_a_name(desk: tuple[Page, Locator]) -> None:
    """Boxes, lists and buttons of the form can be found by what they are called."""
    _, form = desk
    unnamed = form.evaluate(
        """form => [...form.querySelectorAll('input:not([type=range]), select, button')]
            .filter(each => each.offsetParent !== null)
            .filter(each => !(each.labels && [...each.labels].some(l => l.innerText.trim())))
            .filter(each => !each.getAttribute('aria-label') && !each.innerText.trim() && !each.title)
            .map(each => each.outerHTML.slice(0, 120))"""
    )
    assert unnamed == []


def test_history_flips_the_recommendation_on_the_page(desk: tuple[Page, Locator]) -> None:
    """Telling the form that the ceiling was primed and painted twice changes the way recommended."""
    _, form = desk
    starred = form.locator(".pe-table tbody th", has_text="★").first
    expect(starred).to_contain_text("Spray")
    form.get_by_label("history", exact=True).select_option("primed and painted twice")
    expect(starred).to_contain_text("Roll")


def test_each_pane_opens(desk: tuple[Page, Locator]) -> None:
    """No pane is empty."""
    _, form = desk
    for name, words in SAYS.items():
        form.get_by_role("tab", name=name, exact=True).click()
        expect(form.locator(".widget-tab-contents")).to_contain_text(words)
