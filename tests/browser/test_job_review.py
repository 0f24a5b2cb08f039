"""Looking back on a job in the workbook, as a contractor does it."""

from __future__ import annotations

import pytest
from labharness import Lab
from nbformat.v4 import new_code_cell
from playwright.sync_api import Locator, Page, expect

NOTEBOOK = "job_review.ipynb"
ROLLED = "roll ceiling, roll, popcorn"
OPEN_JOB = "Sitting room ceiling, 6 Osier Walk"
SEND = 'from estimating.desk import open_desk\n\nopen_desk("jobs/{job}", "records/of_a_test/{file}").widget'
LOOK = 'from estimating.desk import open_review\n\nopen_review("records/of_a_test/{file}").widget'


def turn_to(form: Locator, name: str) -> None:
    """Turn to a tab of the page."""
    form.get_by_role("tab", name=name, exact=True).click()


def of_its_own(lab: Lab, name: str, source: str) -> tuple[Page, Locator]:
    """Open a page on records of its own, so that no other test meets them."""
    lab.write(name, [new_code_cell(source, metadata={"jupyter": {"source_hidden": True}})])
    return lab.desk(name)


def says(form: Locator, words: str) -> None:
    """Wait until the line that says what happened says so."""
    expect(form.get_by_role("status").filter(has_text=words).first).to_be_visible()


@pytest.fixture
def example(lab: Lab) -> tuple[Page, Locator]:
    page, form = lab.desk(NOTEBOOK)
    form.get_by_role("button", name="Show an invented history").click()
    says(form, "Nothing in it happened")
    return page, form


def test_actuals_teach_a_rate_that_moves_an_open_estimate_and_is_taken_back(
    lab: Lab, example: tuple[Page, Locator]
) -> None:
    """Type what a job took, accept a rate after seeing what it does, see the open estimate follow, take it back."""
    page, form = example
    sent = form.get_by_label("estimate", exact=True)
    sent.select_option(label=sent.locator("option", has_text="Landing ceiling").inner_text())
    box = form.get_by_label("Roll the ceiling, coat 1, landing", exact=True)
    box.fill(str(float(box.input_value()) + 1))
    form.get_by_role("button", name="Save what it took").click()
    says(form, "entries added 1, older ones set aside 1")
    lab.picture(page, "took")

    turn_to(form, "what it teaches")
    rows = form.locator(".pe-table tbody tr")
    expect(rows.filter(has_text=ROLLED)).to_contain_text("(n = 12)")
    form.get_by_label("look at").select_option(ROLLED)
    effect = rows.filter(has_text=OPEN_JOB)
    expect(effect).to_contain_text("+$")
    promised = effect.locator("td").nth(3).inner_text().split()[0]
    lab.picture(page, "proposed")
    form.get_by_role("button", name="Accept").click()
    says(form, "accepted, and used from now on: production/roll_ceiling/roll/popcorn")
    expect(form.get_by_label("own value")).to_contain_text(ROLLED)
    expect(rows.filter(has_text=OPEN_JOB).locator("td").nth(2)).to_contain_text(promised)

    form.get_by_role("button", name="Take back").click()
    says(form, "What stood before holds again")
    expect(form.get_by_label("look at").get_by_text(ROLLED)).to_have_count(1)
    expect(form.get_by_label("own value")).to_be_hidden()


def test_nonsense_is_marked_at_its_box(lab: Lab) -> None:
    """The box keeps what was typed and says what it needs; put right and saved, the mark goes."""
    _, form = of_its_own(lab, "look.ipynb", LOOK.format(file="nonsense.sqlite"))
    form.get_by_role("button", name="Show an invented history").click()
    box = form.get_by_label("All hours of the job")
    box.fill("all week")
    form.get_by_role("button", name="Save what it took").click()
    expect(form.locator(".pe-field .pe-error")).to_contain_text("all week")
    assert box.input_value() == "all week"
    box.fill("15.5")
    form.get_by_role("button", name="Save what it took").click()
    says(form, "lines known 1")
    expect(form.locator(".pe-field .pe-error")).to_have_count(0)


def test_each_pane_says_something_and_every_control_has_a_name(example: tuple[Page, Locator]) -> None:
    """Panes are not empty; boxes, lists and buttons can be found by what they are called."""
    _, form = example
    for name, words in {
        "tests and release": "did the old coating come down",
        "what it teaches": "What the records propose",
        "is it honest?": "Does learning help?",
        "what it took": "hours of labor",
    }.items():
        turn_to(form, name)
        expect(form.locator(".widget-tab-contents")).to_contain_text(words)
        unnamed = form.evaluate(
            """form => [...form.querySelectorAll('input, select, button')]
                .filter(each => each.offsetParent !== null)
                .filter(each => !(each.labels && [...each.labels].some(l => l.innerText.trim())))
                .filter(each => !each.getAttribute('aria-label') && !each.innerText.trim() && !each.title)
                .map(each => each.outerHTML.slice(0, 120))"""
        )
        assert unnamed == []


def test_what_a_desk_sends_is_there_to_be_looked_back_on(lab: Lab) -> None:
    """Two notebooks on one file: an estimate sent from one is found by the other, word for word once."""
    job = "alder_row_sitting_room.toml"
    _, desk = of_its_own(lab, "send.ipynb", SEND.format(job=job, file="sent.sqlite"))
    price = desk.locator(".bar-price strong").first.inner_text()
    desk.get_by_label("save as").fill("Alder Row, first bid")
    for words in ("recorded as sent", "nothing to add"):
        desk.get_by_role("button", name="Save as sent").click()
        says(desk, words)
    _, form = of_its_own(lab, "look.ipynb", LOOK.format(file="sent.sqlite"))
    listed = form.get_by_label("estimate", exact=True).locator("option")
    expect(listed).to_have_count(1)
    expect(listed).to_contain_text(f"Alder Row, first bid  {price}")
