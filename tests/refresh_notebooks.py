"""Runs the notebooks and stores outputs that read well without a kernel.

    python tests/refresh_notebooks.py [NOTEBOOK ...]

A widget's view means nothing without the kernel it came from, so only its words and its still
picture are stored.
"""

import os
import sys
import tempfile
from pathlib import Path

import nbformat
from nbclient import NotebookClient

ROOT = Path(__file__).parent.parent
VIEW = "application/vnd.jupyter.widget-view+json"


def refresh(path: Path) -> None:
    """Run the notebook at `path` with an empty record and store its outputs in it."""
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, timeout=300, resources={"metadata": {"path": path.parent}}).execute()
    notebook.metadata.pop("widgets", None)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            cell.metadata.pop("execution", None)
            for output in cell.outputs:
                output.get("data", {}).pop(VIEW, None)
    nbformat.write(notebook, path)


def main() -> None:
    """Refresh the notebooks named on the command line, or all."""
    named = [Path(word) for word in sys.argv[1:]]
    with tempfile.TemporaryDirectory() as own:
        os.environ |= {"NAVLIB_RECORD": f"{own}/record.sqlite", "NAVLIB_STILLS": "1"}
        for path in named or sorted([*ROOT.glob("lessons/*.ipynb"), *ROOT.glob("answers/*.ipynb")]):
            refresh(path)
            print(path.name)


if __name__ == "__main__":
    main()
