"""Run every notebook and save what its cells print; forms are not saved, and their cells are marked so.

Run it after a change that alters a printed result, and read the difference before you commit it:
    .venv/bin/python tests/renew_notebooks.py
"""

from __future__ import annotations

import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

NOTEBOOKS = Path(__file__).resolve().parent.parent / "notebooks"
FORM = "application/vnd.jupyter.widget-view+json"
NOT_COMPARED = "nbval-ignore-output"


def renew(path: Path) -> None:
    """Run one notebook in its folder and save it; raises nbclient's CellExecutionError where a cell fails."""
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, kernel_name="python3", resources={"metadata": {"path": str(path.parent)}}).execute()
    kept = {name: notebook.metadata[name] for name in ("kernelspec", "estimating") if name in notebook.metadata}
    notebook.metadata = {**kept, "language_info": {"name": "python"}}
    for cell in notebook.cells:
        cell.metadata.pop("execution", None)
        if cell.cell_type == "code" and any(FORM in output.get("data", {}) for output in cell.outputs):
            cell.outputs = []
            cell.metadata["tags"] = sorted({*cell.metadata.get("tags", []), NOT_COMPARED})
    nbformat.write(notebook, path)


if __name__ == "__main__":
    for each in [Path(word) for word in sys.argv[1:]] or sorted(NOTEBOOKS.glob("*.ipynb")):
        renew(each)
        print(f"{each.name} renewed")
