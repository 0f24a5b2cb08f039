"""An afternoon without a mouse: Tab, Enter, arrows and typing, the focus in sight at every stop."""

from __future__ import annotations

from labharness import Lab
from playwright.sync_api import Page, expect

LINES = ("bed 1: 12' x 11'6\" x 8'; 2 doors, 1 window; walls, ceiling, baseboard", "hall: 14' x 4' x 8'; 1 door; walls")
MOST = 250  # stops on the way round the page
STOP = """() => {
  const e = document.activeElement, style = getComputedStyle(e), box = e.getBoundingClientRect();
  const name = (e.ariaLabel || e.labels?.[0]?.textContent || e.textContent || '').trim();
  const seen = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) > 0 || style.boxShadow !== 'none';
  const left = Math.max(box.left, 0), right = Math.min(box.right, innerWidth);
  const top = Math.max(box.top, 0), bottom = Math.min(box.bottom, innerHeight);
  const over = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
  return [name, e === document.body || (seen && (e.contains(over) || over?.contains(e)))]; }"""


def tab_to(page: Page, name: str) -> None:
    """Press Tab until the control of that name has the focus, which must be in sight at every stop."""
    for _ in range(MOST):
        page.keyboard.press("Tab")
        here, in_sight = page.evaluate(STOP)
        assert in_sight, here
        if here.startswith(name):
            return
    raise AssertionError(f"{name}: not reached")


def type_line(page: Page, text: str) -> None:
    """Type a line and enter it."""
    page.keyboard.type(text)
    page.keyboard.press("Enter")


def test_a_job_from_nothing_to_its_proposal_by_keys_alone(lab: Lab) -> None:
    """The business, a new job, two rooms, their order, a client, an assumption moved, a proposal."""
    page, _ = lab.as_page("start_here.ipynb")
    price, rows = page.locator(".bar-price strong"), page.locator(".rg tbody tr")
    tab_to(page, "My business")
    page.keyboard.press("Enter")
    page.locator(".desk-business").wait_for()
    tab_to(page, "company")
    page.keyboard.type("Maple Painting")
    tab_to(page, "Done")
    page.keyboard.press("Enter")
    page.locator(".desk-jobs").wait_for()
    tab_to(page, "New job")
    page.keyboard.press("Enter")
    page.locator(".rg-entry").wait_for()
    tab_to(page, "Add rooms")
    for count, line in enumerate(LINES, 1):
        type_line(page, line)
        expect(rows).to_have_count(count)
    tab_to(page, "Room, bed 1")
    page.keyboard.press("Alt+ArrowDown")
    expect(rows.first.locator("textarea").first).to_have_value("hall")
    page.keyboard.press("ArrowUp")
    expect(page.get_by_label("Room, hall", exact=True)).to_be_focused()
    tab_to(page, "Client")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Client", exact=True)).to_have_attribute("aria-expanded", "true")
    tab_to(page, "name")
    page.keyboard.type("A. Example")
    tab_to(page, "Proposal (page")
    with page.expect_download() as proposal:
        page.keyboard.press("Enter")
    said = proposal.value.path().read_text("utf-8")
    assert "Maple Painting" in said
    assert "A. Example" in said
    before = price.inner_text()
    page.get_by_role("slider").first.wait_for()
    while page.evaluate("document.activeElement.type") != "range":
        page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    expect(price).not_to_have_text(before)
