"""Runs the notebooks and stores outputs that read well without a kernel.

    python tests/refresh_notebooks.py [NOTEBOOK ...]

A widget's view means nothing without the kernel it came from: its words are stored, and where they
are not enough a picture of it, taken in a real browser.
"""

import io
import os
import sys
import tempfile
from base64 import b64decode, b64encode
from pathlib import Path
from typing import Any

import nbformat
from nbclient import NotebookClient
from PIL import Image
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(Path(__file__).parent / "browser"))

from rig import PATIENCE_MS, QUIET, installed_browser, served, wait_until  # noqa: E402

VIEW = "application/vnd.jupyter.widget-view+json"
PNG = "image/png"
WINDOW = {"width": 1024, "height": 2400}
COLOURS = 64
"""So many are enough for a drawing, and keep a notebook small."""


def refresh(path: Path) -> None:
    """Run the notebook at `path` with an empty record and store its outputs in it."""
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, timeout=300, resources={"metadata": {"path": path.parent}}).execute()
    notebook.metadata.pop("widgets", None)
    wanting: dict[int, Any] = {}
    for number, cell in enumerate(notebook.cells):
        if cell.cell_type != "code":
            continue
        cell.metadata.pop("execution", None)
        for output in cell.outputs:
            data = output.get("data", {})
            if data.pop(VIEW, None) and "text/markdown" not in data:
                wanting[number] = output
            if PNG in data:
                data[PNG] = small(b64decode(data[PNG]))
    for number, picture in pictures(path, list(wanting)).items():
        output = wanting[number]
        output.data[PNG] = small(picture)
        output.metadata[PNG] = {"alt": " ".join(output.data["text/plain"].split())}
    nbformat.write(notebook, path)


def small(picture: bytes) -> str:
    """Return a PNG in few colours, as a notebook holds it."""
    few = Image.open(io.BytesIO(picture)).convert("RGB")
    few = few.quantize(COLOURS, method=Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
    file = io.BytesIO()
    few.save(file, "PNG", optimize=True)
    return b64encode(file.getvalue()).decode("ascii")


def pictures(path: Path, cells: list[int]) -> dict[int, bytes]:
    """Return what the widgets of these cells look like when the lesson has been opened."""
    if not cells:
        return {}
    with (
        tempfile.TemporaryDirectory() as own,
        sync_playwright() as playwright,
        served(path.parent, path.stem, Path(own)) as lab,
    ):
        browser = playwright.chromium.launch(executable_path=installed_browser(), args=QUIET)
        page = browser.new_page(viewport=WINDOW)
        page.set_default_timeout(PATIENCE_MS)
        page.goto(lab.address(path.stem))
        wait_until(page, "alive")
        taken = {}
        for cell in cells:
            shown = page.locator(".jp-Cell").nth(cell).locator(".nav").first
            shown.scroll_into_view_if_needed()
            taken[cell] = shown.screenshot(animations="disabled")
        browser.close()
        return taken


def main() -> None:
    """Refresh the notebooks named on the command line, or all."""
    named = [Path(word).resolve() for word in sys.argv[1:]]
    with tempfile.TemporaryDirectory() as own:
        os.environ["NAVLIB_RECORD"] = f"{own}/record.sqlite"
        for path in named or sorted([*ROOT.glob("lessons/*.ipynb"), *ROOT.glob("answers/*.ipynb")]):
            refresh(path)
            print(path.name)


if __name__ == "__main__":
    main()
