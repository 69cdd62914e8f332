"""A lesson as a learner waits for it, each time beside a bare widget's in the same browser.

From the command to the first answered question, from the page to the first widget, and from Enter to
the feedback. Each is taken from the second start on, with what the first one keeps. Run it alone:
`python -m pytest tests/bench/test_bench_lesson.py -s`.
"""

import statistics
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import nbformat
import pytest
from playwright.sync_api import Page, sync_playwright

sys.path.append(str(Path(__file__).parent.parent / "browser"))

from rig import LESSONS, PATIENCE_MS, QUIET, installed_browser, notebook, served

BARE = """\
import anywidget, traitlets
class Bare(anywidget.AnyWidget):
    _esm = '''export default { render({ model, el }) {
        el.className = "nav-card";
        const box = document.createElement("input");
        const said = document.createElement("p");
        const tell = () => { el.removeAttribute("aria-busy"); said.textContent = model.get("said"); };
        box.addEventListener("keydown", (event) => {
            if (event.key !== "Enter") return;
            el.setAttribute("aria-busy", "true");
            model.send({ text: box.value });
        });
        model.on("change:said", tell);
        el.append(box, said);
    } }'''
    said = traitlets.Unicode().tag(sync=True)
    def __init__(self):
        super().__init__()
        self.on_msg(lambda _, message, __: self.set_trait("said", message["text"]))
Bare()"""
ENTER = """
async (card, text) => {
    const box = card.querySelector("input");
    box.value = text;
    box.dispatchEvent(new Event("input", { bubbles: true }));
    const begun = performance.now();
    const done = new Promise((resolve) => new MutationObserver(() => {
        if (!card.hasAttribute("aria-busy")) resolve(performance.now() - begun);
    }).observe(card, { attributes: true, attributeFilter: ["aria-busy"] }));
    box.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
    return await done;
}
"""
ROUNDS, ANSWERS = 3, 15


class Wait(NamedTuple):
    """Seconds from the command and from the page to the first widget, then to its answer; one turn."""

    widget: float
    answered: float
    turn: float


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=installed_browser(), args=QUIET)
        page = browser.new_page(viewport={"width": 1366, "height": 768})
        page.set_default_timeout(PATIENCE_MS)
        yield page
        browser.close()


def waited(page: Page, folder: Path, name: str, own: Path) -> Wait:
    """Start the command on a lesson, open it, answer its first question, and answer it again."""
    begun = time.perf_counter()
    with served(folder, name, own) as lab:
        opened = time.perf_counter()
        page.goto(lab.address(name))
        card = page.locator(".nav-card").first
        card.locator("input").first.wait_for()
        widget = time.perf_counter()
        card.evaluate(ENTER, "10 min")
        answered = time.perf_counter()
        turns = [card.evaluate(ENTER, f"{11 + n} min") for n in range(ANSWERS)]
        page.goto("about:blank")
        lab.end_kernels()
    return Wait(widget - opened, answered - begun, statistics.median(turns) / 1000)


def test_waiting_for_a_lesson(page: Page, tmp_path: Path):
    folder = tmp_path / "lessons"
    for made in (folder, tmp_path / "bare", tmp_path / "speed"):
        made.mkdir()
    nbformat.write(notebook("bare", ["# Bare", BARE], lesson=True), folder / "bare.ipynb")
    places = {"bare": folder, "speed": LESSONS}
    for name, place in places.items():
        waited(page, place, name, tmp_path / name)  # the first start
    found = {
        name: [waited(page, place, name, tmp_path / name) for _ in range(ROUNDS)]
        for name, place in places.items()
    }
    told = {
        name: Wait(*(statistics.median(one) for one in zip(*waits, strict=True)))
        for name, waits in found.items()
    }
    print()
    for field, what in (
        ("answered", "command to first answer"),
        ("widget", "page to first card"),
        ("turn", "Enter to feedback"),
    ):
        bare, lesson = (getattr(told[name], field) for name in ("bare", "speed"))
        print(f"{what:24} bare {bare:7.3f} s  lesson {lesson:7.3f} s  ratio {lesson / bare:5.2f}")
    assert told["speed"].turn < 1
