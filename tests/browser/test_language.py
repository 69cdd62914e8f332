"""Another language: whatever the page shows and says aloud has gone through the translator's file.

The language is made up: every letter of the catalogue is written wide. What is left in plain
letters was not asked for in the catalogue, or is put in: names, units, figures.
"""

import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import nbformat
import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po
from playwright.sync_api import Browser, Page
from rig import LESSONS, notebook, served, wait_until

from navlib.texts import texts

MAKE = """
import inspect, json, sys
from navlib import questions
from navlib.classroom.class_files import AskedHere, SessionFile, session_text
from navlib.classroom.leading import InstructorsDesk, Screen
from navlib.desk import Exercise, worked_steps
from navlib.record import Record
from navlib.widgets import Card, Steps, demos
from navlib.widgets.session import Desk, Projector
from navlib.widgets.take_part import TakePart

def worked_on():
    desk = Exercise("speed", 1, Record(sys.argv[1]))
    step = desk.question.steps[-1]
    made = desk.question.chain.run(desk.question.givens, {step.name: step.slips[0]})
    desk.do("check", {"answers": {step.name: step.kind.write(made[step.name])}})
    desk.do("hint", {})
    desk.do("hint", {})
    yield desk
    desk.do("working", {})
    yield desk
    desk.do("again", {})
    desk.do("check", {"answers": {step.name: "far"}})
    yield desk

shown = {f"card {n}": Card(desk) for n, desk in enumerate(worked_on())}
shown["steps"] = Steps(worked_steps(questions.exercise("speed", 2)), shown=1)
for name, kind in vars(demos).items():
    if inspect.isclass(kind) and name[0].islower():
        shown[name] = kind()
first = questions.exercise("speed", 1)
asked = AskedHere(1, first.kind, True, True, None, "revealed")
text = session_text(SessionFile(4711, "2026-11-25T18:00:00+00:00", "1", False, (asked,)))
shown["take part"], shown["taking part"] = TakePart(), TakePart()
shown["taking part"]._do("begin", {"file": text, "name": "Jo", "seat": "7"})
answers = dict.fromkeys(first.asks, "far")
shown["taking part"]._do("hand in", {"question": 1, "answers": answers, "lies": {}})
pages = {}
for name, widget in shown.items():
    state = {key: value for key, value in widget.get_state().items() if key[0] != "_"}
    pages[name] = {"module": widget._esm, "state": state}
desk, screen = InstructorsDesk(), Screen()
desk.do("begin", {"title": "1"})
for name in ("joining", "ask", "reveal", "end"):
    given = {"kind": first.kind, "own": False} if name == "ask" else {}
    if name != "joining":
        desk.do("deed", {"deed": name, "given": given})
    whole = {"picture": None, "trouble": ""}
    faces = {Desk: {**desk.face(), "plans": [], "sessions": [], "folder": "1"}, Projector: screen.face()}
    for kind, face in faces.items():
        state = {**whole, "face": face, "kinds": desk.kinds(), "demonstration": ""}
        pages[f"{kind.__name__} {name}"] = {"module": kind._esm, "state": state}
print(json.dumps(pages, default=str))
"""

SHOW = """
async ({ module, state }) => {
    const file = new Blob([module], { type: "text/javascript" });
    const { default: widget } = await import(URL.createObjectURL(file));
    const model = {
        get: (name) => state[name],
        set: (name, value) => (state[name] = value),
        save_changes() {}, send() {}, on() {}, off() {},
    };
    const el = document.createElement("div");
    document.body.replaceChildren(el);
    widget.render({ model, el });
    const seen = [];
    for (const node of el.querySelectorAll("*")) {
        for (const name of ["aria-label", "aria-valuetext", "title", "placeholder"]) {
            if (node.hasAttribute(name)) seen.push(node.getAttribute(name));
        }
        for (const part of node.childNodes) if (part.nodeType === 3) seen.push(part.data);
    }
    return seen;
}
"""
PUT_IN = re.compile(
    r"Kessoray|Orrimer|National Grid|UTM zone|BST|UTC|GMT|HAT|M[HL]W[SN]|min\b|sin\b|“far”|68 min"
    r"|Cleaver Point|Yoke Head|Starboard Hand Buoy|Pintle Point|Kessoray Jetty|Quorsay Jetty"
    r"|Voehead Pier|Harbour|Jetty|The Narrows"
)
"""Names, units and the learner's own words: the same in every language."""


def wide(text: str) -> str:
    """Return a text with its letters written wide, but for what is put in."""
    parts = re.split(r"(\{\w+\})", text)
    return "".join(
        part
        if part.startswith("{")
        else re.sub("[A-Za-z]", lambda m: chr(ord(m[0]) + 0xFEE0), part)
        for part in parts
    )


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a translator's file of the made-up language."""
    catalog = Catalog(locale=None)
    for text in texts(LESSONS):
        catalog.add(text.text, wide(text.text))
    path = tmp_path_factory.mktemp("language") / "wide.po"
    with path.open("wb") as file:
        write_po(file, catalog)
    return path


@pytest.fixture(scope="module")
def pages(catalogue: Path) -> dict[str, dict[str, object]]:
    """Return every widget's module and state in the made-up language."""
    made = subprocess.run(
        [sys.executable, "-c", MAKE, str(catalogue.with_name("record.sqlite"))],
        env=os.environ
        | {"NAVLIB_LANGUAGE": str(catalogue), "NAVLIB_CLASSES": str(catalogue.parent / "1")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stderr
    found: dict[str, dict[str, object]] = json.loads(made.stdout)
    return found


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    page = browser.new_page()
    page.route("http://lesson/", lambda route: route.fulfill(body="<!doctype html><body>"))
    page.goto("http://lesson/")
    yield page
    page.close()


def test_no_plain_word_is_left(page: Page, pages: dict[str, dict[str, object]]):
    left = {}
    for name, widget in pages.items():
        said = page.evaluate(SHOW, widget)
        assert len(said) > 5
        if plain := [text for text in said if re.search("[A-Za-z]{3}", PUT_IN.sub("", text))]:
            left[name] = plain
    assert not left, json.dumps(left, indent=1, ensure_ascii=False)


def test_what_a_lesson_says_of_itself_is_translated(
    browser: Browser, catalogue: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("NAVLIB_LANGUAGE", str(catalogue))
    nbformat.write(notebook("first", ["# First"], lesson=True), tmp_path / "first.ipynb")
    with served(tmp_path, "first", tmp_path / "own") as lab:
        page = browser.new_page()
        page.goto(lab.address("first"))
        wait_until(page, "alive")
        words = page.locator(".nav-note button").all_text_contents()
        assert wide("Start the lesson again") in words
        assert not [text for text in words if re.search("[A-Za-z]", text)]
        page.close()
