"""One afternoon at the desk: from a new job to the proposal, and nothing of it lost on the way."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from labharness import KERNEL_IDLE, NOTEBOOK, Lab
from playwright.sync_api import Locator, Page, expect

from estimating.evidence import load_library
from estimating.records.own import own_table

FIRST = "start_here.ipynb"
NOTES = """\
bed 1: 12' x 11'6" x 8'; 2 doors, 1 window; walls, ceiling, baseboard, doors
bed 2: 14' x 12' less 4' x 3' x 8'; 2 doors, 1 window; walls, ceiling, baseboard, doors
hall: 14' x 4' x 8'; 1 door; walls, baseboard, doors, popcorn ceiling painted twice
study: 11' x 10' x 8'; 1 window; wallpaper 64 cm half drop on 11' wall, baseboard"""
AGAIN = 150_000  # milliseconds a page may take to be there again on a busy machine
FEWEST = 35  # the actions allowed: a click, a key chord, a typed field or a pasted block is one each


class Hand:
    """Somebody at the desk, whose actions are counted."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.actions = 0

    @property
    def form(self) -> Locator:
        """The form that is shown."""
        return self.page.locator(".estimating-desk").first

    def press(self, name: str) -> None:
        """Press a button."""
        self.actions += 1
        self.form.get_by_role("button", name=name, exact=True).first.click()

    def type(self, label: str | re.Pattern[str], text: str) -> None:
        """Type into a field and leave it."""
        self.actions += 1
        field = self.form.get_by_label(label, exact=isinstance(label, str)).first
        field.fill(text)
        field.press("Tab")

    def price(self) -> Locator:
        """The price on the bar."""
        return self.form.locator(".bar-price strong")


@pytest.fixture
def records(lab: Lab) -> Iterator[Path]:
    place = lab.server.folder / "notebooks" / "records" / "records.sqlite"
    yield place
    for path in sorted(place.parent.rglob("*"), reverse=True):
        path.rmdir() if path.is_dir() else path.unlink()


def drafts(records: Path) -> dict[str, dict[str, object]]:
    """Return what is on disk of the contractor's jobs."""
    return {path.stem: json.loads(path.read_text("utf-8"))["job"] for path in (records.parent / "jobs").glob("*.json")}


def price_at_the_terminal(job: Path, records: Path) -> str:
    """Return the price that the command prints for a job file, with the own values of the records."""
    command = [sys.executable, "-m", "estimating", str(job), "--records", str(records)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=AGAIN / 1000)
    (price,) = re.findall(r"^price offered (\$[\d,.]+)", done.stdout, re.MULTILINE)
    return str(price)


def test_from_a_new_job_to_its_papers(lab: Lab, records: Path) -> None:
    """The business once, four rooms pasted, a name, and the papers; the price is that of the terminal."""
    page, _ = lab.desk(FIRST)
    hand = Hand(page)
    hand.press("My business")
    hand.type("company", "Maple Painting")
    hand.type("Yours, Wage, $/h", "31")
    hand.press("Price list")
    hand.type("Gallon, wall paint", "45")
    hand.press("Done")
    hand.press("New job")
    hand.type(re.compile("^Add rooms"), NOTES)
    hand.press("Add")
    expect(hand.form.locator(".rg tbody tr")).to_have_count(4)
    hand.type("Job", "Maple Street 12")
    hand.press("Client")
    hand.type("name", "A. Example")
    hand.price().wait_for()
    with page.expect_download() as proposal:
        hand.press("Proposal (page to print)")
    assert "Maple Painting" in proposal.value.path().read_text("utf-8")
    with page.expect_download() as job:
        hand.press("Job file (TOML)")
    with page.expect_download() as summary:
        hand.press("Job summary (CSV)")
    assert "total" in summary.value.path().read_text("utf-8")
    own = own_table(records, load_library()).values
    assert own["business/wage"].likely == 31
    expect(hand.price()).to_have_text(price_at_the_terminal(job.value.path(), records))
    assert hand.actions <= FEWEST
    print(f"{hand.actions} actions")


def test_nothing_typed_is_lost(lab: Lab, records: Path) -> None:
    """A reload, Calculate again, a kernel started anew unseen or from the page, and one killed; then undo and redo."""
    page, _ = lab.desk(FIRST)
    hand = Hand(page)
    hand.press("New job")
    hand.type(re.compile("^Add rooms"), NOTES)
    hand.press("Add")
    hand.type("Job", "Maple Street 12")
    expect(hand.price()).to_be_visible()
    price = hand.price().inner_text()
    (held,) = drafts(records).values()
    assert held["title"] == "Maple Street 12"

    page.reload()
    hand.price().wait_for(timeout=AGAIN)
    expect(hand.price()).to_have_text(price)
    page.wait_for_function(KERNEL_IDLE)
    lab.calculate(page)
    expect(hand.price()).to_have_text(price)

    for end in ("restart unseen", "restart", "kill"):
        page.evaluate("document.querySelector('.estimating-desk').dataset.before = 'yes'")
        (session,) = json.loads(lab.server.call("api/sessions"))
        if end == "restart":
            page.evaluate(f"() => {NOTEBOOK}.sessionContext.restartKernel()")
        elif end == "restart unseen":
            lab.server.call(f"api/kernels/{session['kernel']['id']}/restart", "POST")
        else:
            lab.kill_kernel(page)
        page.wait_for_selector(".estimating-desk:not([data-before])", timeout=AGAIN)
        expect(hand.price()).to_have_text(price)

    for _ in range(2):
        hand.press("Undo")
    expect(hand.form.locator(".rg tbody tr")).to_have_count(0)
    for _ in range(2):
        hand.press("Redo")
    expect(hand.price()).to_have_text(price)
    expect(hand.form.get_by_label("Job").first).to_have_value("Maple Street 12")


def test_the_page_says_when_it_is_not_heard(lab: Lab) -> None:
    """With its kernel gone the page says so within seconds, and nothing can be typed into it in vain."""
    _, form = lab.as_page(FIRST)
    form.get_by_role("button", name="New job").click()
    expect(form.locator(".desk-pulse")).to_contain_text("Saved")
    lab.server.end_kernels()
    for kernel in json.loads(lab.server.call("api/kernels")):
        lab.server.call(f"api/kernels/{kernel['id']}", "DELETE")
    expect(form.locator(".desk-pulse")).to_contain_text("NOT CONNECTED")
    assert form.locator(".desk-typing[inert]").count() == 1


@pytest.mark.parametrize(("width", "height"), [(390, 844), (720, 450), (1280, 720)])
def test_the_page_fits(lab: Lab, records: Path, width: int, height: int) -> None:
    """Nothing runs off to the right, and the bar stays in sight while the rest scrolls."""
    page, form = lab.as_page("interior_repaint.ipynb")
    page.set_viewport_size({"width": width, "height": height})
    form.locator(".bar-price strong").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.mouse.move(width / 2, height / 2)
    page.mouse.wheel(0, 1500)
    expect(form.locator(".bar-price strong")).to_be_in_viewport()
    page.set_viewport_size({"width": 1280, "height": 900})
