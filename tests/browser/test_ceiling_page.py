"""A demo on the desk in the workbook, driven as a contractor drives it."""

from __future__ import annotations

import csv
import re
from decimal import Decimal

import pytest
from axe_playwright_python.sync_playwright import Axe
from labharness import Lab
from playwright.sync_api import Locator, Page, expect

NOTEBOOK = "textured_ceiling.ipynb"
SAYS = {
    "Methods": "What would overturn it",
    "Shopping list": "left over",
    "Schedule": "days on site",
    "Cautions": "Local codes",
    "What if": "price asked",
    "Show the math": "the price",
    "Price": "Overhead",
}


@pytest.fixture
def desk(lab: Lab) -> tuple[Page, Locator]:
    page, form = lab.desk(NOTEBOOK)
    price(form).wait_for()
    return page, form


def price(form: Locator) -> Locator:
    """Return the price on the bar."""
    return form.locator(".bar-price strong")


def test_a_lever_moves_the_price_and_says_by_how_much(desk: tuple[Page, Locator]) -> None:
    """Arrow keys on a slider change the price, and what they did stands beside it."""
    page, form = desk
    slider = form.get_by_role("slider").first
    before = price(form).inner_text()
    slider.focus()
    for _ in range(12):
        page.keyboard.press("ArrowRight")
    expect(price(form)).not_to_have_text(before)
    expect(form.locator(".bar-step")).to_contain_text(" h")


def test_nonsense_is_marked_in_place_and_the_last_good_price_stays(desk: tuple[Page, Locator]) -> None:
    """A height that is no height is marked in its cell, and goes away when it is put right."""
    page, form = desk
    before = price(form).inner_text()
    height = form.get_by_label(re.compile("^Height, "))
    height.fill("quite tall")
    page.keyboard.press("Tab")
    expect(height).to_have_attribute("aria-invalid", "true")
    expect(form.locator(".rg-said")).to_contain_text("quite tall")
    expect(price(form)).to_have_text(before)
    height.fill("11 ft")  # above 9 ft planks are set up, and work overhead is slower
    page.keyboard.press("Tab")
    expect(height).not_to_have_attribute("aria-invalid", "true")
    expect(price(form)).not_to_have_text(before)


def test_the_job_summary_is_made_when_asked_for_and_adds_up(desk: tuple[Page, Locator]) -> None:
    """The button delivers a file whose rows sum to its total and to the price on the page."""
    page, form = desk
    with page.expect_download() as asked:
        form.get_by_role("button", name="Job summary (CSV)").click()
    with asked.value.path().open(newline="", encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines))
    total = Decimal(rows[-1]["cost"])
    assert rows[-1]["section"] == "total"
    assert sum(Decimal(row["cost"]) for row in rows[:-1]) == total
    assert Decimal(re.sub(r"[$,]", "", price(form).inner_text())) == total


def test_each_pane_opens_and_axe_finds_nothing(desk: tuple[Page, Locator]) -> None:
    """No pane is empty, and no part of the desk is out of reach of a keyboard or a screen reader."""
    page, form = desk
    for name, words in SAYS.items():
        form.get_by_role("tab", name=name, exact=True).click()
        expect(form.locator(".widget-tab-contents").first).to_contain_text(words)
    found = Axe().run(page, context=".estimating-desk").response["violations"]
    assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == []


def test_sections_open_by_keyboard(desk: tuple[Page, Locator]) -> None:
    """The heading says whether its part is open; Enter opens it and the next Tab lands in its first field."""
    page, form = desk
    heading = form.get_by_role("button", name="Site and building")
    expect(heading).to_have_attribute("aria-expanded", "false")
    heading.focus()
    page.keyboard.press("Enter")
    expect(heading).to_have_attribute("aria-expanded", "true")
    form.get_by_label("address", exact=True).wait_for()
    page.keyboard.press("Tab")
    expect(form.get_by_label("address", exact=True)).to_be_focused()
