"""A JupyterLab as the workbook ships it, on a copy of the notebooks, and one page of it for one test."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import nbformat
from playwright.sync_api import BrowserContext, Locator, Page

from estimating import start

PATIENCE = 45  # seconds; a busy machine of two cores is slow, a broken desk is slower
TOKEN = "only-for-this-test-run"
BUTTON = "Calculate (F9)"
NOTEBOOK = "window.jupyterapp?.shell?.currentWidget"
KERNEL_IDLE = f"() => {NOTEBOOK}?.sessionContext?.session?.kernel?.status === 'idle'"
CODE_CELLS = (
    f"{NOTEBOOK}.content.widgets.map(w => w.model).filter(m => m.type === 'code' && m.sharedModel.source.trim())"
)
OPENS_ITSELF = f"() => {NOTEBOOK}.context.model.sharedModel.getMetadata('estimating')?.opens_itself"
FORGET_SAVED_RESULTS = f"() => {CODE_CELLS}.forEach(m => m.clearExecution())"
ERRORS = f"{CODE_CELLS}.flatMap(m => m.outputs.toJSON()).filter(o => o.output_type === 'error')"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"]  # a container has none of the three, or little
HAS_RUN = f"() => {CODE_CELLS}.every(m => m.executionCount !== null && m.executionState === 'idle') || {ERRORS}.length"


@dataclass(frozen=True)
class LabServer:
    """A running JupyterLab: where it answers, which folder it shows, and what it has written."""

    url: str
    folder: Path
    log: Path

    def call(self, path: str, method: str = "GET") -> bytes:
        """Ask the server's own interface; raises OSError when it does not answer."""
        headers = {"Authorization": f"token {TOKEN}"}
        request = urllib.request.Request(f"{self.url}/{path}", method=method, headers=headers)
        with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
            body: bytes = answer.read()
            return body

    def end_kernels(self) -> None:
        """End every kernel, so that one test leaves nothing running for the next."""
        for session in json.loads(self.call("api/sessions")):
            self.call(f"api/sessions/{session['id']}", "DELETE")


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def _wait_until_up(server: LabServer, process: subprocess.Popen[bytes]) -> None:
    deadline = time.monotonic() + PATIENCE
    while process.poll() is None and time.monotonic() < deadline:
        try:
            server.call("api/status")
        except OSError:
            time.sleep(0.1)
        else:
            return
    raise RuntimeError(f"JupyterLab did not start:\n{server.log.read_text(encoding='utf-8')}")


@contextmanager
def running_lab(folder: Path, more: Callable[[Path], object] = lambda _made: None) -> Iterator[LabServer]:
    """Run JupyterLab as `estimating.start` would, on a copy of the notebooks; it and its kernels end with the block.

    more: puts further notebooks into that copy, before all of them are signed.
    """
    shutil.copytree(start.ROOT / "notebooks", folder / "notebooks", ignore=shutil.ignore_patterns(".*", "records"))
    more(folder / "notebooks")
    port = _free_port()
    server = LabServer(f"http://127.0.0.1:{port}", folder, folder / "lab.log")
    options = ["--no-browser", "--allow-root", "--expose-app-in-browser", "--ServerApp.ip=127.0.0.1"]
    options += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0", f"--IdentityProvider.token={TOKEN}"]
    environment = start.lab_environment(folder / "private", os.environ)
    environment.pop("PYTHONWARNINGS", None)
    environment.pop("ESTIMATING_RECORDS", None)  # the copy has its own folder for them
    trust = start.trust_command(Path(sys.executable), folder)
    subprocess.run(trust, env=environment, check=True, stdout=subprocess.DEVNULL)
    with server.log.open("wb") as log:
        command = start.lab_command(Path(sys.executable), options)
        process = subprocess.Popen(command, cwd=folder, env=environment, stdout=log, stderr=log)
        try:
            _wait_until_up(server, process)
            yield server
        finally:
            process.terminate()
            process.wait(PATIENCE)


class Lab:
    """The workbook as one test sees it."""

    def __init__(self, server: LabServer, window: BrowserContext, pictures: Path) -> None:
        self.server = server
        self.window = window
        self.pictures = pictures
        self.script_errors: list[str] = []
        self.asked: list[str] = []  # every address the page asked for

    def write(self, name: str, cells: Sequence[nbformat.NotebookNode]) -> None:
        """Put a throw-away notebook beside the copies of the real ones."""
        kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
        notebook = nbformat.v4.new_notebook(cells=list(cells), metadata={"kernelspec": kernel})
        nbformat.write(notebook, self.server.folder / "notebooks" / name)

    def open(self, name: str) -> Page:
        """Open a notebook and wait until its kernel is ready; nothing has been run."""
        page = self.window.new_page()
        page.on("pageerror", lambda error: self.script_errors.append(str(error)))
        page.on("request", lambda request: self.asked.append(request.url))
        workspace = f"test-{time.monotonic_ns()}"  # a fresh one each time, else Lab opens what was open before
        page.goto(f"{self.server.url}/doc/workspaces/{workspace}/tree/notebooks/{name}?token={TOKEN}")
        page.get_by_role("button", name=BUTTON).wait_for()
        page.wait_for_function(KERNEL_IDLE)
        return page

    def calculate(self, page: Page, by: Literal["button", "key"] = "button") -> None:
        """Run the notebook as a person does; results saved in the file are forgotten first. A cell's error fails."""
        page.evaluate(FORGET_SAVED_RESULTS)
        if by == "button":
            page.get_by_role("button", name=BUTTON).click()
        else:
            page.keyboard.press("F9")
        page.wait_for_function(HAS_RUN)
        errors = [f"{each['ename']}: {each['evalue']}" for each in page.evaluate(f"() => {ERRORS}")]
        assert not errors, errors

    def desk(self, name: str) -> tuple[Page, Locator]:
        """Open a notebook, have it calculated if it does not by itself, and return the page and its visible form."""
        page = self.open(name)
        if not page.evaluate(OPENS_ITSELF):
            self.calculate(page)
        form = page.locator(".estimating-desk").first
        form.wait_for()
        return page, form

    def darken(self, page: Page) -> None:
        """Have JupyterLab show itself in its dark theme."""
        page.evaluate("() => jupyterapp.commands.execute('apputils:change-theme', {theme: 'JupyterLab Dark'})")
        page.wait_for_selector("body[data-jp-theme-light=false]", state="attached")

    def as_page(self, name: str, theme: str = "light") -> tuple[Page, Locator]:
        """Open a notebook as a page without cells, and return the page and its form, which is visible."""
        page = self.window.new_page()
        page.on("pageerror", lambda error: self.script_errors.append(str(error)))
        page.goto(f"{self.server.url}/voila/render/notebooks/{name}?token={TOKEN}&theme={theme}")
        form = page.locator(".estimating-desk").first
        form.wait_for()
        return page, form

    def kill_kernel(self, page: Page) -> None:
        """Let the page's kernel end as if it had been killed from outside."""
        end = "import os, signal; os.kill(os.getpid(), signal.SIGKILL)"
        page.evaluate(f"code => void {NOTEBOOK}.sessionContext.session.kernel.requestExecute({{code}})", end)

    def cells(self, page: Page) -> list[dict[str, str]]:
        """Return the kind and the source of every cell, as the page holds them now."""
        kind_and_source = "w => ({kind: w.model.type, source: w.model.sharedModel.source})"
        cells: list[dict[str, str]] = page.evaluate(f"() => {NOTEBOOK}.content.widgets.map({kind_and_source})")
        return cells

    def picture(self, page: Page, name: str) -> Path:
        """Save what the window shows as tmp_path/name.png and return where it is."""
        path = self.pictures / f"{name}.png"
        page.screenshot(path=path)
        return path
