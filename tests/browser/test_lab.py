"""A lesson as a learner meets it: awake without a click, readable, and its file left alone."""

import json
from collections.abc import Callable
from pathlib import Path
from urllib.error import HTTPError

import pytest
from playwright.sync_api import Page, expect
from rig import Lab, wait_until

COUNTER = """\
import ipywidgets
def count(button, presses=[0]):
    presses[0] += 1
    button.description = f"Pressed {presses[0]}"
button = ipywidgets.Button(description="Pressed 0")
button.on_click(count)
button"""

Open = Callable[[str], Page]


@pytest.fixture
def counter(lab: Lab) -> Path:
    return lab.write("counter", ["# Counting\n\nBefore.", COUNTER, "# After\n\n" + "Words. " * 300])


def press(page: Page) -> None:
    """Press the lesson's button once and see the kernel's answer."""
    page.get_by_role("button", name="Pressed 0").click()
    expect(page.get_by_role("button", name="Pressed 1")).to_be_visible()


def test_a_lesson_wakes_without_a_click(open_lesson: Open, counter: Path):
    page = open_lesson("counter")
    press(page)
    expect(page.get_by_role("status").filter(has_text="waking up")).to_be_hidden()
    expect(page.get_by_role("heading", name="Counting")).to_be_visible()


def test_a_notebook_that_is_no_lesson_is_not_run(page: Page, lab: Lab):
    lab.write("other", ["print('ran')"], lesson=False)
    page.goto(lab.address("other"))
    expect(page.get_by_role("button", name="Python 3")).to_be_visible()
    while not any(s["kernel"]["execution_state"] == "idle" for s in lab.sessions()):
        page.wait_for_timeout(200)
    expect(page.locator(".jp-OutputArea-output")).to_have_count(0)
    page.locator(".jp-CodeCell").click()
    page.keyboard.press("Shift+Enter")
    expect(page.locator(".jp-OutputArea-output")).to_have_text("ran")
    expect(page.locator(".jp-InputPrompt").first).to_have_text("[1]:")
    expect(page.locator(".nav-lesson, .nav-note")).to_have_count(0)


@pytest.mark.parametrize("command", ["kernelmenu:restart", "runmenu:restart-and-run-all"])
def test_it_wakes_again_when_the_kernel_is_restarted(
    open_lesson: Open, counter: Path, command: str
):
    page = open_lesson("counter")
    press(page)
    page.get_by_role("menuitem", name="Kernel").click()
    page.locator(f"[data-command='{command}']").click()
    press(page)
    wait_until(page, "alive")


def test_it_wakes_again_when_the_page_is_loaded_anew(open_lesson: Open, counter: Path):
    page = open_lesson("counter")
    press(page)
    page.reload()
    press(page)
    wait_until(page, "alive")


def test_its_file_stays_as_it_is_and_no_one_is_asked_to_save(
    open_lesson: Open, counter: Path, lab: Lab
):
    def files() -> dict[Path, bytes]:
        return {path: path.read_bytes() for path in lab.folder.rglob("counter*")}

    before = files()
    page = open_lesson("counter")
    asked: list[str] = []
    page.on("dialog", lambda dialog: (asked.append(dialog.message), dialog.accept()))
    press(page)
    page.get_by_role("heading", name="Counting").dblclick()
    page.keyboard.type("bdddxm")
    expect(page.locator(".jp-Cell")).to_have_count(3)
    expect(page.get_by_role("heading", name="Counting")).to_be_visible()
    with page.expect_event("close"):
        page.close(run_before_unload=True)
    assert asked == []
    with pytest.raises(HTTPError, match="403"):
        lab.ask("PUT", "contents/counter.ipynb", {"type": "file", "format": "text", "content": ""})
    with pytest.raises(HTTPError, match="403"):
        lab.ask("PATCH", "contents/counter.ipynb", {"path": "mine.ipynb"})
    with pytest.raises(HTTPError, match="403"):
        lab.ask("DELETE", "contents/counter.ipynb")
    assert files() == before


def test_a_copy_under_another_name_is_the_learners_own(counter: Path, lab: Lab):
    content = json.loads(counter.read_text())
    saved = lab.ask("PUT", "contents/mine.ipynb", {"type": "notebook", "content": content})
    assert json.loads(saved)["writable"]
    assert "navlib" not in json.loads((lab.folder / "mine.ipynb").read_text())["metadata"]
    lab.ask("DELETE", "contents/mine.ipynb")


def test_code_is_not_seen_and_takes_no_room(open_lesson: Open, lab: Lab):
    lab.write("quiet", ["# Above", "x = 1", "import ipywidgets", COUNTER])
    page = open_lesson("quiet")
    expect(page.get_by_text("ipywidgets").filter(visible=True)).to_have_count(0)
    expect(page.locator(".jp-InputPrompt:visible, .jp-Collapser:visible")).to_have_count(0)
    heights = page.locator(".jp-CodeCell").evaluate_all("cells => cells.map(c => c.offsetHeight)")
    assert heights[:2] == [0, 0]
    text = page.locator(".jp-MarkdownCell").bounding_box()
    button = page.get_by_role("button", name="Pressed 0").bounding_box()
    assert text
    assert button
    one_line = page.locator(".jp-MarkdownCell").evaluate(
        "c => parseFloat(getComputedStyle(c).fontSize)"
    )
    assert 0 <= button["y"] - (text["y"] + text["height"]) < 1.5 * one_line


def test_a_cell_that_fails_does_not_take_the_others_along(open_lesson: Open, page: Page, lab: Lab):
    lab.write("torn", ["1 / 0", COUNTER])
    page.goto(lab.address("torn"))
    wait_until(page, "broken")
    said = page.get_by_role("status").filter(has_text="Part of this lesson")
    expect(said).to_be_visible()
    page.get_by_role("button", name="Go on as it is").click()
    expect(said).to_be_hidden()
    press(page)


def test_what_is_deleted_from_a_lesson_is_back_when_the_page_is_loaded_again(
    open_lesson: Open, counter: Path
):
    page = open_lesson("counter")
    page.get_by_role("heading", name="Counting").click()
    for command in ("notebook:select-all", "notebook:delete-cell"):
        page.get_by_role("menuitem", name="Edit").click()
        page.locator(f"[data-command='{command}']").click()
    expect(page.get_by_role("heading", name="Counting")).to_have_count(0)
    wait_until(page, "cut")
    page.get_by_role("button", name="Load the page again").click()
    press(page)


def test_two_copies_of_a_lesson_do_not_disturb_each_other(
    open_lesson: Open, counter: Path, lab: Lab
):
    first = open_lesson("counter")
    press(first)
    second = first.context.new_page()
    second.goto(lab.address("counter"))
    wait_until(second, "alive")
    press(second)
    first.get_by_role("button", name="Pressed").click()
    expect(first.get_by_role("button", name="Pressed 2")).to_be_visible()


def test_a_kernel_that_dies_of_the_lesson_is_said_and_can_be_started_again(page: Page, lab: Lab):
    once = lab.folder.parent / "died"
    dies = (
        f"import os, pathlib\nonce = pathlib.Path({str(once)!r})\n"
        "if not once.exists():\n    once.touch()\n    os._exit(1)"
    )
    lab.write("dying", [dies, COUNTER])
    page.goto(lab.address("dying"))
    wait_until(page, "stopped")
    page.get_by_role("dialog").get_by_role("button", name="Ok").click()
    page.get_by_role("button", name="Start the lesson again").click()
    press(page)
    wait_until(page, "alive")


def test_it_fits_the_window(
    open_lesson: Open, counter: Path, screenshot: Callable[[Page, str], Path]
):
    """The last is a small laptop at 200 % zoom."""
    page = open_lesson("counter")
    scroller = page.locator(".nav-lesson .jp-WindowedPanel-outer")
    for width, height in [(1920, 1080), (1366, 768), (800, 700), (683, 384)]:
        page.set_viewport_size({"width": width, "height": height})
        screenshot(page, f"lesson-{width}")
        for part in (scroller, page.locator("html")):
            assert part.evaluate("e => e.scrollWidth - e.clientWidth") <= 0, width


def test_it_wakes_again_when_the_kernel_is_restarted_while_it_wakes(page: Page, lab: Lab):
    lab.write(
        "slow", ["# Slow", "import time; print('begun', flush=True); time.sleep(20)", COUNTER]
    )
    page.goto(lab.address("slow"))
    wait_until(page, "waking")
    expect(page.get_by_text("begun", exact=True)).to_be_visible()
    page.get_by_role("menuitem", name="Kernel").click()
    page.locator("[data-command='kernelmenu:restart']").click()
    press(page)
    wait_until(page, "alive")
