"""What the browser tests share: finding a browser, and a running server of lessons."""

import json
import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

import nbformat
import pytest
from playwright.sync_api import Page

import navlib

LESSONS = Path(navlib.__file__).parent.parent / "lessons"

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge")
PLACES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    *(
        str(Path(root, *inside))
        for root in (
            os.environ.get(v) for v in ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")
        )
        if root
        for inside in (
            ("Chromium", "Application", "chrome.exe"),
            ("Google", "Chrome", "Application", "chrome.exe"),
            ("Microsoft", "Edge", "Application", "msedge.exe"),
        )
    ),
)
QUIET = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PATIENCE_MS = 120_000
"""How long a slow computer may take; nothing is measured."""


def installed_browser() -> str | None:
    """Return the program of a browser of the Chromium family on this computer."""
    found = (shutil.which(name) for name in NAMES)
    return next(filter(None, [*found, *(place for place in PLACES if Path(place).is_file())]), None)


def fetched_browser() -> None:
    """Let Playwright fetch its own Chromium, or fail with what to install."""
    command = [sys.executable, "-m", "playwright", "install", "chromium"]
    fetch = subprocess.run(command, capture_output=True, text=True, check=False)
    if fetch.returncode:
        pytest.fail(
            "These tests need a browser: install Chromium, Chrome or Edge (on Debian or Ubuntu: "
            f"apt-get install chromium). Fetching one did not work:\n{fetch.stderr}",
            pytrace=False,
        )


@dataclass(frozen=True)
class Lab:
    """A running server: its `root` address and `token`, the `folder` of lessons that it serves and
    the learner's `record`.
    """

    root: str
    token: str
    folder: Path
    record: Path

    def address(self, name: str) -> str:
        return f"{self.root}/doc/tree/{name}.ipynb?token={self.token}"

    def write(self, name: str, cells: Sequence[str], lesson: bool = True) -> Path:
        """Write a notebook: a cell that begins with `#` and a space is text, others hidden code."""
        path = self.folder / f"{name}.ipynb"
        nbformat.write(notebook(name, cells, lesson), path)
        return path

    def ask(self, method: str, path: str, content: object = None) -> bytes:
        headers = {"Authorization": f"token {self.token}", "Content-Type": "application/json"}
        data = None if content is None else json.dumps(content).encode()
        request = Request(f"{self.root}/api/{path}", data, headers, method=method)
        with urlopen(request, timeout=60) as reply:
            return bytes(reply.read())

    def answers(self) -> bool:
        """Whether the server listens already: it tells its address a moment before."""
        try:
            self.ask("GET", "status")
        except URLError:
            return False
        return True

    def sessions(self) -> list[dict[str, Any]]:
        running: list[dict[str, Any]] = json.loads(self.ask("GET", "sessions"))
        return running

    def end_kernels(self) -> None:
        for session in self.sessions():
            with suppress(HTTPError):  # a lesson that was closed ends its own
                self.ask("DELETE", f"sessions/{session['id']}")


@contextmanager
def served(folder: Path, first: str, own: Path) -> Iterator[Lab]:
    """Serve the lessons in `folder` as the command line does, its record and settings in `own`."""
    kept = {
        "NAVLIB_LAB": "settings",
        "NAVLIB_RECORD": "record.sqlite",
        "NAVLIB_PAPERS": "papers",
        "NAVLIB_CLASSES": "classes",
        "JUPYTER_RUNTIME_DIR": "run",
    }
    command = [sys.executable, "-m", "navlib", "lessons", first, "--no-browser", "--port", "0"]
    with subprocess.Popen(
        [*command, "--folder", str(folder)],
        env=os.environ | {name: str(own / place) for name, place in kept.items()},
        stdout=subprocess.PIPE,
        text=True,
    ) as server:
        try:
            assert server.stdout is not None
            said = ""
            while not (found := re.search(r"(http://\S+)/doc/tree/\S+token=(\w+)\s", said)):
                line = server.stdout.readline()
                assert line, f"the server did not start: {said}"
                said += line
            lab = Lab(found[1], found[2], folder, own / kept["NAVLIB_RECORD"])
            while not lab.answers():
                time.sleep(0.1)
            yield lab
        finally:
            server.terminate()
            try:
                server.wait(60)
            except subprocess.TimeoutExpired:
                server.kill()
                raise


def notebook(name: str, cells: Sequence[str], lesson: bool) -> nbformat.NotebookNode:
    new = nbformat.v4
    hidden = {"jupyter": {"source_hidden": True}} if lesson else {}
    written = [
        new.new_markdown_cell(text)
        if text.startswith("# ")
        else new.new_code_cell(text, metadata=hidden)
        for text in cells
    ]
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    metadata = {"kernelspec": kernel} | ({"navlib": {"lesson": name}} if lesson else {})
    return new.new_notebook(cells=written, metadata=metadata)


def wait_until(page: Page, state: str) -> None:
    """Wait until the lesson on `page` is `waking`, `slow`, `alive`, `broken`, `stopped` or `gone`."""
    page.wait_for_selector(f".nav-lesson[data-nav-state={state}]")
