"""The reference tables in the workbook: looked through, drawn, one row made one's own and given back."""

from __future__ import annotations

import pytest
from labharness import Lab
from playwright.sync_api import Locator, Page, expect

NOTEBOOK = "reference_tables.ipynb"
RECORDS = "notebooks/records/records.sqlite"


@pytest.fixture
def opened(lab: Lab) -> tuple[Page, Locator]:
    page, form = lab.desk(NOTEBOOK)
    form.locator(".pe-rows").wait_for()
    return page, form


def test_rows_are_found_by_any_word_and_by_origin(opened: tuple[Page, Locator]) -> None:
    """The list, the table and the row that is open follow what is looked for."""
    _, form = opened
    rows = form.locator(".pe-rows tbody tr")
    before = rows.count()
    form.get_by_label("find", exact=True).fill("rough stucco")
    expect(rows.first).to_contain_text("stucco_rough")
    expect(form.locator(".pe-detail h3")).to_contain_text("stucco_rough")
    assert rows.count() < before
    form.get_by_label("origin", exact=True).select_option("judgment")
    expect(rows.filter(has_text="published")).to_have_count(0)
    form.get_by_label("origin", exact=True).select_option("invented for the demo")
    expect(form.locator(".pe-evidence")).to_contain_text("No row is like that")
    form.get_by_label("origin", exact=True).select_option("any origin")
    form.get_by_label("find", exact=True).fill("")
    expect(rows).to_have_count(before)


def test_a_row_shows_its_sources_as_links_and_where_they_disagree(opened: tuple[Page, Locator]) -> None:
    """Choosing a row in the list opens it; each source has its address."""
    _, form = opened
    form.get_by_label("only where sources disagree").check()
    form.locator(".pe-list select").select_option(index=1)
    detail = form.locator(".pe-detail")
    expect(detail.locator(".pe-mind").first).to_contain_text("sources disagree")
    link = detail.get_by_role("link").first
    assert (link.get_attribute("href") or "").startswith("http")
    assert link.get_attribute("target") == "_blank"


def test_the_plot_shows_a_dot_for_each_source_beside_our_band(opened: tuple[Page, Locator]) -> None:
    """The drawing of a table has bands and dots, and follows what is looked for."""
    _, form = opened
    form.get_by_role("tab", name="what is printed", exact=True).click()
    drawing = form.locator("svg.pe-spread")
    expect(drawing.first).to_be_visible()
    assert drawing.locator(".pe-dot").count() > 100
    form.get_by_label("find", exact=True).fill("stucco_rough")
    expect(drawing.locator("rect")).to_have_count(1)
    form.get_by_label("table", exact=True).select_option("film")
    form.get_by_label("find", exact=True).fill("")
    expect(drawing.locator(".pe-beyond").first).to_be_visible()


def test_a_row_made_ones_own_is_marked_used_by_the_desk_and_given_back(lab: Lab, opened: tuple[Page, Locator]) -> None:
    """Kept with a note, shown beside the published figure, in the price of a job, and gone again with a click."""
    page, form = opened
    kept = lab.server.folder / RECORDS
    assert not kept.exists()
    form.get_by_label("table", exact=True).select_option("business")
    form.get_by_label("find", exact=True).fill("wage demo")
    expect(form.locator(".pe-detail h3")).to_have_text("business/wage")
    form.get_by_label("likely", exact=True).fill("41.5")
    form.get_by_label("note", exact=True).fill("what I pay since spring")
    form.get_by_role("button", name="Use mine for every job").click()
    expect(form.locator(".pe-yours")).to_contain_text("invented for the demo $28/h → yours $41.50/h")
    expect(form.locator("tr.pe-own")).to_contain_text("yours $41.50/h")
    assert kept.exists()
    lab.picture(page, "own")

    other, desk = lab.desk("textured_ceiling.ipynb")
    expect(desk).to_contain_text("business/wage invented for the demo $28/h → yours $41.50/h")
    price = desk.locator(".bar-price strong").first
    with_mine = price.inner_text()

    page.bring_to_front()
    form.get_by_role("button", name="Back to the table").click()
    expect(form.locator(".pe-yours")).to_have_count(0)
    expect(form.locator("tr.pe-own")).to_have_count(0)
    form.get_by_role("tab", name="my own table", exact=True).click()
    expect(form.locator(".pe-evidence")).to_contain_text("business/wage: taken back")

    other.bring_to_front()
    assert price.inner_text() == with_mine
    for word in ("All jobs", "My business", "Done"):
        other.get_by_role("button", name=word, exact=True).first.click()
    desk = other.locator(".estimating-desk").first
    expect(desk.locator(".bar-price strong")).not_to_have_text(with_mine)
    expect(desk).not_to_contain_text("Own values in use")


def test_every_control_of_the_page_has_a_name(opened: tuple[Page, Locator]) -> None:
    """Boxes, lists and buttons can be found by what they are called."""
    _, form = opened
    unnamed = form.evaluate(
        """form => [...form.querySelectorAll('input, select, button')]
            .filter(each => each.offsetParent !== null)
            .filter(each => !(each.labels && [...each.labels].some(l => l.innerText.trim())))
            .filter(each => !each.getAttribute('aria-label') && !each.innerText.trim() && !each.title)
            .map(each => each.outerHTML.slice(0, 120))"""
    )
    assert unnamed == []
