"""What-if in the workbook, driven as a contractor drives it."""

from __future__ import annotations

import re

import pytest
from labharness import Lab
from playwright.sync_api import Locator, Page, expect

NOTEBOOK = "textured_ceiling.ipynb"


@pytest.fixture
def desk(lab: Lab) -> tuple[Page, Locator]:
    page, form = lab.desk(NOTEBOOK)
    form.locator(".bar-price strong").wait_for()
    form.get_by_role("tab", name="What if", exact=True).click()
    form.get_by_label("price asked").wait_for()
    return page, form


def turn(form: Locator, tab: str) -> Locator:
    """Open a what-if tab and return what it shows."""
    form.get_by_role("tab", name=tab, exact=True).click()
    return form.locator(".widget-tab-contents .widget-tab-contents")


def type_in(page: Page, form: Locator, label: str, text: str) -> None:
    """Type into a box and leave it."""
    form.get_by_label(label, exact=True).fill(text)
    page.keyboard.press("Tab")


def test_a_typed_price_shows_its_chance(desk: tuple[Page, Locator]) -> None:
    """A lower price loses more often, as the words and the drawing say; nonsense is marked and changes nothing."""
    page, form = desk
    shown = form.locator(".widget-tab-contents .widget-tab-contents")
    chances = []
    for price in ("2500", "1500"):
        type_in(page, form, "price asked", price)
        expect(shown).to_contain_text(f"At ${int(price):,}.00 the chance of losing money is")
        chances.append(int(re.findall(r"is (?:under |over )?(\d+)%", shown.inner_text())[0]))
    assert chances[0] < chances[1]
    expect(shown.get_by_role("img", name="How often the job costs how much")).to_be_visible()
    type_in(page, form, "price asked", "plenty")
    expect(shown.locator(".pe-error")).to_contain_text("plenty")
    expect(shown).to_contain_text("At $1,500.00")


def test_three_buttons_set_the_price(desk: tuple[Page, Locator], lab: Lab) -> None:
    """From the mean it rises, as planned it is what it was; the table beside them says what each would be."""
    page, form = desk
    price = form.locator(".bar-price strong")
    planned = price.inner_text()
    form.get_by_role("button", name="Price from the mean", exact=True).click()
    expect(price).not_to_have_text(planned)
    row = form.get_by_role("row", name=re.compile("^price from the mean"))
    expect(row).to_contain_text(price.inner_text())
    lab.picture(page, "offers")
    form.get_by_role("button", name="Price as planned", exact=True).click()
    expect(price).to_have_text(planned)


def test_two_scenarios_show_only_their_differences(desk: tuple[Page, Locator]) -> None:
    """Kept before and after a third coat; below both, the coat and what follows from it, and nothing else."""
    page, form = desk
    shown = turn(form, "scenarios")
    type_in(page, form, "scenario name", "as noted")
    form.get_by_role("button", name="Keep this").click()
    expect(shown.get_by_role("button", name="Forget")).to_have_count(1)
    form.get_by_role("button", name="Textured ceiling", exact=True).click()
    type_in(page, form, "coats", "3")
    expect(shown).to_contain_text('work[0] "sitting room" · coats')
    type_in(page, form, "scenario name", "three coats")
    form.get_by_role("button", name="Keep this").click()
    expect(shown.get_by_role("button", name="Forget")).to_have_count(2)
    for name in ("as noted", "three coats", "as typed now"):
        expect(shown.locator("th", has_text=name).first).to_be_visible()
    lines = shown.locator("table").last
    expect(lines).to_contain_text("Roll the ceiling, coat 3")
    expect(lines).not_to_contain_text("Cover the floor")
    price = form.locator(".bar-price strong")
    now = price.inner_text()
    shown.get_by_role("button", name="Back to this").first.click()
    expect(price).not_to_have_text(now)
    expect(form.get_by_label("coats", exact=True)).to_have_value("")


def test_two_ways_and_one_more_test(desk: tuple[Page, Locator]) -> None:
    """Where two ways change places, along another figure too; and whether to test once more."""
    _, form = desk
    shown = turn(form, "break-even")
    expect(shown).to_contain_text("They change places at")
    form.get_by_label("what moves").select_option("business/wage")
    expect(shown).to_contain_text("$28.00/h now")
    expect(shown.get_by_role("img", name="price of each along wage")).to_be_visible()
    shown = turn(form, "is one more test worth it?")
    expect(shown).to_contain_text("Test once more, roller patch")


def test_every_control_of_what_if_has_a_name(desk: tuple[Page, Locator]) -> None:
    """Boxes, lists and buttons can be found by what they are called, in each tab."""
    _, form = desk
    for tab in ("how sure", "scenarios", "break-even", "is one more test worth it?"):
        shown = turn(form, tab)
        for control in shown.locator("input, select").all():
            if control.is_visible():
                assert control.evaluate("each => [...each.labels].some(label => label.innerText.trim())"), tab
