"""Every notebook is a thin, safe frame for the desk. That they run and print what they say is nbval's part."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jupyter_client.manager import start_new_kernel

from estimating.start import ROOT

NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
FORM = "application/vnd.jupyter.widget-view+json"
LONGEST_CELL = 12  # lines; a notebook that holds more holds work that belongs in the package


@pytest.fixture(params=NOTEBOOKS, ids=lambda path: path.name)
def notebook(request: pytest.FixtureRequest) -> dict[str, Any]:
    path: Path = request.param
    content: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return content


@pytest.fixture
def code(notebook: dict[str, Any]) -> list[dict[str, Any]]:
    return [cell for cell in notebook["cells"] if cell["cell_type"] == "code"]


def test_it_opens_with_the_kernel_that_is_there(notebook: dict[str, Any]) -> None:
    """Any other kernel name would make JupyterLab ask before the first estimate."""
    assert notebook["metadata"]["kernelspec"]["name"] == "python3"


def test_its_cells_are_thin(code: list[dict[str, Any]]) -> None:
    """A cell calls the package; it works nothing out."""
    sources = ["".join(cell["source"]) for cell in code]
    assert [source for source in sources if len(source.splitlines()) > LONGEST_CELL] == []


def test_its_form_cannot_be_lost(code: list[dict[str, Any]]) -> None:
    """A cell that shows hidden code cannot be deleted by a slip."""
    hidden = [cell for cell in code if cell["metadata"].get("jupyter", {}).get("source_hidden")]
    assert [cell["source"] for cell in hidden if cell["metadata"].get("deletable") is not False] == []


def test_no_form_is_saved_in_it(notebook: dict[str, Any], code: list[dict[str, Any]]) -> None:
    """A saved form is drawn but dead; and no saved output is an error."""
    outputs = [output for cell in code for output in cell["outputs"]]
    assert [output for output in outputs if FORM in output.get("data", {}) or output["output_type"] == "error"] == []
    assert "widgets" not in notebook["metadata"]


def test_it_ends_with_printed_results(code: list[dict[str, Any]]) -> None:
    """What the form shows is not compared, so the last cell prints it, and what it printed is saved."""
    assert [output.get("name") for output in code[-1]["outputs"]] == ["stdout"]


def test_a_warning_fails_a_notebook() -> None:
    """A kernel started by the tests takes a warning as an error."""
    manager, client = start_new_kernel(kernel_name="python3")
    try:
        answer = client.execute_interactive(
            "import warnings; warnings.warn('look')", timeout=30, output_hook=lambda _: None
        )
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
    assert answer["content"]["ename"] == "UserWarning"
