"""How long a change takes until it is painted: a bare slider beside every demo job, in JupyterLab and as a page.

    python tests/latency.py [presses] [word of a name, ...]

All in one run of one browser, so that a busy machine slows all alike: compare the columns, not the milliseconds.
`opens` is from the address to the first result, `moved` an arrow key on a slider, `note` a room's height typed anew,
`rest` from the last key until the range is drawn again, `drag` the gap between paintings while an arrow is pressed for
three seconds, `heap` the page's memory in MB after 20 and after 200 changes, rubbish collected.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from conftest import find_chromium
from playwright.sync_api import BrowserContext, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parent / "browser"))
import nbformat
from labharness import FLAGS, TOKEN, LabServer, running_lab

BARE = """\
import ipywidgets as widgets
from IPython.display import display
slider = widgets.IntSlider(description="coats", max=100000)
shown = widgets.HTML("<strong>0</strong>")
slider.observe(lambda change: setattr(shown, "value", f"<strong>{change['new']}</strong>"), "value")
box = widgets.VBox([slider, shown])
box.add_class("estimating-desk")
shown.add_class("bar-price")
box"""
DESK = "from estimating.desk import open_page\npage = open_page('jobs/{}.toml')\npage.widget"
DEMOS = ("alder_row_sitting_room", "quarry_lane_study", "birch_lane_upstairs", "hazel_bank_whole_house")
ANSWER = ".bar-price strong"
WATCH = """selector => new Promise(done => {
  const text = () => [...document.querySelectorAll(selector)].map(each => each.innerHTML).join();
  const began = performance.now(), before = text();
  const look = () => { if (text() !== before) requestAnimationFrame(() => done(performance.now() - began));
    else if (performance.now() - began > 30000) done(NaN); else requestAnimationFrame(look); };
  look(); })"""

PAINTED = """selector => { window.paintings = []; let last = '';
  const look = now => { const text = document.querySelector(selector).innerHTML;
    if (text !== last) { window.paintings.push(now); last = text; }
    window.looking = requestAnimationFrame(look); };
  window.looking = requestAnimationFrame(look); }"""
GAPS = "() => { cancelAnimationFrame(looking); return paintings.slice(1).map((each, i) => each - paintings[i]); }"


def notebook(path: Path, source: str) -> None:
    """Write a notebook of one cell that opens by itself."""
    cell = nbformat.v4.new_code_cell(source, metadata={"jupyter": {"source_hidden": True}})
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    held = nbformat.v4.new_notebook(cells=[cell], metadata={"kernelspec": kernel, "estimating": {"opens_itself": True}})
    nbformat.write(held, path)


def timed(page: Page, selector: str, act: Callable[[], None]) -> float:
    """Return the milliseconds from an action to the next painting of what is watched."""
    page.evaluate(f"window.seen = ({WATCH})({selector!r})")
    act()
    return float(page.evaluate("window.seen"))


def dragged(page: Page) -> list[float]:
    """Return the milliseconds between paintings while a slider is moved for three seconds."""
    page.evaluate(PAINTED, ANSWER)
    for each in range(60):
        page.keyboard.press("ArrowLeft" if each % 20 < 10 else "ArrowRight")
        page.wait_for_timeout(50)
    gaps: list[float] = page.evaluate(GAPS)
    return gaps


def heap(page: Page) -> float:
    """Return the page's memory in MB, without what is only waiting to be thrown away."""
    tools = page.context.new_cdp_session(page)
    tools.send("HeapProfiler.collectGarbage")
    size = tools.send("Runtime.getHeapUsage")["usedSize"]
    tools.detach()
    return float(size) / 1e6


def grown(page: Page) -> str:
    """Return the memory after 20 changes and after 200."""
    sizes = []
    for count in (20, 180):
        for each in range(count):
            page.keyboard.press("ArrowLeft" if each % 2 else "ArrowRight")
            page.wait_for_timeout(30)
        page.wait_for_timeout(2000)
        sizes.append(heap(page))
    return "/".join(f"{each:.1f}" for each in sizes)


def percentiles(several: list[float]) -> str:
    """Return the middle and the 95th percentile in words."""
    if not several:
        return "–"
    ordered = sorted(several)
    return f"{statistics.median(ordered):.0f}/{ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]:.0f}"


def measure(window: BrowserContext, address: str, presses: int) -> list[str]:
    """Return what one notebook takes: to open, to answer a slider, a note, and to come to rest."""
    page = window.new_page()
    began = time.perf_counter()
    page.goto(address)
    page.locator(ANSWER).first.wait_for(timeout=240_000)
    opens = time.perf_counter() - began
    page.get_by_role("slider").first.wait_for(timeout=240_000)
    page.wait_for_timeout(4000)
    page.get_by_role("slider").first.focus()
    moved = [timed(page, ANSWER, lambda: page.keyboard.press("ArrowRight")) for _ in range(presses)]
    gaps = dragged(page)
    page.wait_for_timeout(3000)
    memory = grown(page)
    rest, notes = [], []
    height = page.get_by_label("Height, ").first
    for each in range(presses // 6 if height.count() else 0):
        height.fill(f"{8 + each % 5}' {each % 11 + 1}\"")
        notes.append(timed(page, ANSWER, lambda: height.press("Enter")))
        rest.append(timed(page, ".bar-range text", lambda: None))
        page.wait_for_timeout(2500)
    page.close()
    return [f"{opens:.1f}", percentiles(moved), percentiles(notes), percentiles(rest), percentiles(gaps), memory]


def addresses(server: LabServer, name: str) -> dict[str, str]:
    """Return where a notebook opens in JupyterLab and as a page."""
    return {
        "lab": f"{server.url}/doc/tree/notebooks/{name}?token={TOKEN}",
        "page": f"{server.url}/voila/render/notebooks/{name}?token={TOKEN}",
    }


def main(presses: int, wanted: Sequence[str]) -> None:
    """Print a line for the bare slider and for each demo wanted, in each of the two."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        books = {"bare": BARE}
        books |= {
            f"demo_{each}": DESK.format(each) for each in DEMOS if not wanted or any(word in each for word in wanted)
        }

        def write(made: Path) -> None:
            for name, text in books.items():
                notebook(made / f"{name}.ipynb", text)

        with running_lab(Path(folder), write) as server:
            browser = playwright.chromium.launch(executable_path=find_chromium(), args=FLAGS)
            window = browser.new_context(viewport={"width": 1440, "height": 900})
            heads = ("opens, s", "moved p50/p95", "note p50/p95", "rest p50/p95", "drag p50/p95", "heap 20/200")
            print(f"{'':34}{heads[0]:>10}" + "".join(f"{each:>16}" for each in heads[1:]))
            for name in [*books, "bare"]:
                for where, address in addresses(server, f"{name}.ipynb").items():
                    cells = measure(window, address, presses)
                    row = "".join(f"{each:>16}" for each in cells[1:])
                    print(f"{name:28}{where:6}{cells[0]:>10}{row}", flush=True)
                    server.end_kernels()
            browser.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40, sys.argv[2:])
