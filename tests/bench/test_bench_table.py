"""The chart table in a real browser: frames while dragging, what a drag sends, and opening it.

Opening is a ratio against an empty widget and an empty matplotlib figure in the same JupyterLab, one
after the other. Run it alone: `python -m pytest tests/bench/test_bench_table.py -s`.
"""

import os
import re
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import nbformat
import pytest
from playwright.sync_api import Page, sync_playwright

sys.path.append(str(Path(__file__).parent.parent / "browser"))

from hands import Hands
from rig import PATIENCE_MS, QUIET, Lab, installed_browser, notebook

EMPTY = """\
import anywidget
class Empty(anywidget.AnyWidget):
    _esm = "export default {render({el}) { el.className = 'empty-widget'; el.textContent = 'here'; }}"
Empty()"""
FIGURE = """\
import matplotlib.pyplot as plt
plt.plot([0, 1]);"""
TABLE = """\
from navlib.widgets import chart_table
from navlib.widgets.table import EVERY_TOOL
chart_table("kessoray", "sea chart", tools=EVERY_TOOL)"""
OPENED = {
    "empty widget": (EMPTY, ".empty-widget"),
    "empty figure": (FIGURE, ".jp-OutputArea-output img"),
    "table": (TABLE, ".nav-stage img"),
}
FRAMES = """(count) => new Promise((done) => {
    const gaps = []; let last = performance.now();
    const next = (now) => { gaps.push(now - last); last = now;
        if (gaps.length < count) requestAnimationFrame(next); else done(gaps.slice(1)); };
    requestAnimationFrame(next); })"""
SENT = """() => { window.sent = []; const send = WebSocket.prototype.send;
    WebSocket.prototype.send = function (data) {
        window.sent.push(data.byteLength ?? data.size ?? data.length); send.call(this, data); }; }"""


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    own = tmp_path_factory.mktemp("lab")
    for name, (code, _) in OPENED.items():
        nbformat.write(notebook(name, ["# Opening", code], True), own / f"{plain(name)}.ipynb")
    kept = {"NAVLIB_LAB": "settings", "NAVLIB_RECORD": "r.sqlite", "JUPYTER_RUNTIME_DIR": "run"}
    first = plain(next(iter(OPENED)))
    command = [sys.executable, "-m", "navlib", "lessons", first, "--no-browser", "--port", "0"]
    with subprocess.Popen(
        [*command, "--folder", str(own)],
        env=os.environ | {name: str(own / place) for name, place in kept.items()},
        stdout=subprocess.PIPE,
        text=True,
    ) as server:
        assert server.stdout is not None
        said = ""
        while not (found := re.search(r"(http://\S+)/doc/tree/\S+token=(\w+)\s", said)):
            said += server.stdout.readline()
        yield Lab(found[1], found[2], own)
        server.terminate()


@pytest.fixture(scope="module")
def page(lab: Lab) -> Iterator[Page]:
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=installed_browser(), args=QUIET)
        page = chromium.new_page(viewport={"width": 1366, "height": 768})
        page.set_default_timeout(PATIENCE_MS)
        yield page
        chromium.close()
        lab.end_kernels()


def plain(name: str) -> str:
    return name.replace(" ", "-")


def opening(page: Page, lab: Lab, name: str) -> float:
    """Return the seconds from opening a lesson with one cell to seeing what it shows."""
    start = time.perf_counter()
    page.goto(lab.address(plain(name)))
    page.wait_for_selector(OPENED[name][1])
    page.wait_for_function(
        "(one) => (document.querySelector(one)?.complete ?? true)", arg=OPENED[name][1]
    )
    took = time.perf_counter() - start
    lab.end_kernels()
    return took


def test_opening_against_an_empty_widget(page: Page, lab: Lab):
    rounds: dict[str, list[float]] = {name: [] for name in OPENED}
    for _ in range(4):  # the first one warms the server and is left out
        for name in OPENED:
            rounds[name].append(opening(page, lab, name))
    medians = {name: statistics.median(times[1:]) for name, times in rounds.items()}
    for name, median in medians.items():
        ratio = median / medians["empty widget"]
        print(f"\n{name}: {median:.2f} s, {ratio:.2f} of the empty widget", end="")
    print()


def test_frames_and_messages_while_dragging(page: Page, lab: Lab):
    page.goto(lab.address("table"))
    page.wait_for_selector(".nav-stage")
    hands = Hands(page, page.locator(".nav-chart-table"))
    page.evaluate(SENT)
    still = summary(page.evaluate(FRAMES, 60))
    print(f"\nno drag: {still}")
    for tool, grip in (
        ("protractor", ".nav-protractor .nav-hub"),
        ("parallel rule", ".nav-rule .nav-hub"),
        ("dividers", ".nav-head"),
        ("ruler", ".nav-zero"),
    ):
        hands.press(f"Take the {tool}")
        hands.see()
        page.evaluate("window.sent = []")
        x, y = hands.middle(page.locator(grip))
        page.mouse.move(x, y)
        page.mouse.down()
        page.evaluate(
            "(count) => { window.frames_ = null; "
            + f"({FRAMES})(count)"
            + ".then((g) => { window.frames_ = g; }); }",
            90,
        )
        for n in range(120):
            page.mouse.move(x - 60 + 60 * (n % 20 < 10), y - n / 2)
        gaps = page.wait_for_function("window.frames_").json_value()
        during = page.evaluate("window.sent.length")
        page.mouse.up()
        page.wait_for_timeout(300)
        bytes_ = page.evaluate("window.sent.reduce((a, b) => a + b, 0)")
        hands.press(f"Put the {tool} away")
        print(f"{tool}: {summary(gaps)}; messages in the drag {during}, bytes at its end {bytes_}")
        assert during == 0


def summary(gaps: list[Any]) -> str:
    ordered = sorted(gaps)
    p95 = ordered[int(0.95 * (len(ordered) - 1))]
    return f"frame median {statistics.median(ordered):.1f} ms, p95 {p95:.1f} ms"
