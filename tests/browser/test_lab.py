"""The JupyterLab that is shipped: one button or key calculates, and no key pressed in a form harms the notebook."""

from __future__ import annotations

import pytest
from labharness import Lab
from nbformat.v4 import new_code_cell, new_markdown_cell
from playwright.sync_api import Page, expect

FORM = """\
import ipywidgets as widgets

coats = widgets.IntSlider(value=2, min=0, max=9, description="coats")
finish = widgets.Dropdown(options=["flat", "satin"], description="finish")
sealed = widgets.Checkbox(description="sealed")
answer = widgets.HTML()

def show(_change=None):
    answer.value = f"<p class='answer'>{coats.value} coats, {finish.value}</p>"

for each in (coats, finish):
    each.observe(show, "value")
show()
form = widgets.VBox([coats, finish, sealed, answer])
form.add_class("estimating-desk")
form"""
COMMANDS = ["dd", *"abxcvmyr1zjk", "00", "ii"]  # each is a command of the notebook, unless it is turned off
SHIFT_COMMANDS = [f"Shift+{letter}" for letter in "MABLRZJK"]


@pytest.fixture
def form_page(lab: Lab) -> Page:
    form = new_code_cell(FORM, metadata={"jupyter": {"source_hidden": True}})  # deletable: nothing but keys is tested
    lab.write("form.ipynb", [new_markdown_cell("# A form"), form, new_code_cell("print('summary')")])
    return lab.open("form.ipynb")


def test_one_button_calculates(lab: Lab, form_page: Page) -> None:
    """After opening, one press brings the form, which stands alone: its hidden code leaves no bar and no number."""
    expect(form_page.locator(".answer")).to_have_count(0)
    lab.calculate(form_page, by="button")
    expect(form_page.locator(".answer")).to_have_text("2 coats, flat")
    expect(form_page.locator(".jp-InputPlaceholder")).to_be_hidden()
    expect(form_page.locator(".jp-Cell:has(.estimating-desk) .jp-OutputPrompt")).to_be_hidden()
    assert lab.picture(form_page, "form").stat().st_size > 0


def test_one_key_calculates(lab: Lab, form_page: Page) -> None:
    """F9 does what the button does, over the workbook's own quick connection, and asks no other machine."""
    lab.calculate(form_page, by="key")
    expect(form_page.locator(".answer")).to_have_text("2 coats, flat")
    assert "small messages are sent at once" in lab.server.log.read_text(encoding="utf-8")
    assert [url for url in lab.asked if not url.startswith((lab.server.url, "data:", "blob:"))] == []


def test_keys_in_a_form_leave_the_notebook_alone(lab: Lab, form_page: Page) -> None:
    """With a slider, a list or a box focused, no letter or digit deletes, inserts or changes a cell."""
    lab.calculate(form_page)
    before = lab.cells(form_page)
    for place in (".noUi-handle", "select", "input[type=checkbox]"):
        field = form_page.locator(f".estimating-desk {place}")
        field.focus()
        for keys in [*COMMANDS, *([each] for each in SHIFT_COMMANDS)]:
            for key in keys:
                form_page.keyboard.press(key)
            assert lab.cells(form_page) == before, (place, keys)
        expect(field).to_be_focused()
    expect(form_page.locator(".jp-Dialog")).to_have_count(0)


def test_arrow_keys_belong_to_the_form(lab: Lab, form_page: Page) -> None:
    """Arrows move a slider and choose from a list; the focus stays in the form."""
    lab.calculate(form_page)
    form_page.locator(".noUi-handle").focus()
    form_page.keyboard.press("ArrowRight")
    expect(form_page.locator(".answer")).to_have_text("3 coats, flat")
    form_page.locator(".estimating-desk select").focus()
    form_page.keyboard.press("ArrowDown")
    expect(form_page.locator(".answer")).to_have_text("3 coats, satin")
    box = form_page.locator(".estimating-desk input[type=checkbox]")
    box.focus()
    form_page.keyboard.press("ArrowDown")
    expect(box).to_be_focused()
