"""Run the notebooks again and keep only their plain output: python .ci/rerun_notebooks.py [NAME.ipynb …].

Saved widget views are dead pictures, so they are left out; printed text stays and the tests compare it.
"""

from __future__ import annotations

import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

NOTEBOOKS = Path(__file__).resolve().parent.parent / "notebooks"
VIEW = "application/vnd.jupyter.widget-view+json"


def rerun(path: Path) -> None:
    """Run one notebook in its folder and write it back without widget views, states and times."""
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, resources={"metadata": {"path": str(path.parent)}}).execute()
    notebook.metadata.pop("widgets", None)
    notebook.metadata["language_info"] = {"name": "python"}
    for cell in notebook.cells:
        cell.metadata.pop("execution", None)
        if cell.cell_type == "code":
            cell.outputs = [each for each in cell.outputs if VIEW not in each.get("data", {})]
    nbformat.write(notebook, path)


if __name__ == "__main__":
    for name in sys.argv[1:] or [path.name for path in sorted(NOTEBOOKS.glob("*.ipynb"))]:
        rerun(NOTEBOOKS / name)
