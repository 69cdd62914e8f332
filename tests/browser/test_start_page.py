"""The start page as a learner meets it: the first time, later, with others, and by keyboard alone."""

from collections.abc import Callable, Iterator
from typing import Literal

import pytest
from cards import answer, card, cut_off
from playwright.sync_api import Locator, Page, expect
from rig import Lab

from navlib import questions
from navlib.desk import Exercise
from navlib.record import Record, choose, forget, learners

Open = Callable[[str], Page]
KIND, SLIP = "bearings.true-to-magnetic", "variation-sign"


@pytest.fixture
def begun(lab: Lab, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str], Record]]:
    """Make a learner of a name the chosen one; all learners with names are forgotten afterwards."""
    monkeypatch.setenv("NAVLIB_RECORD", str(lab.folder.parent / "record.sqlite"))
    yield choose
    for name in learners():
        forget(name)
    choose("").close()


@pytest.fixture
def ina(begun: Callable[[str], Record]) -> None:
    """Ina put the variation on the wrong way twice."""
    record = begun("Ina")
    desk = Exercise("bearings", 2, record)
    for seed in (1, 2):
        question = questions.make(KIND, seed)
        step = question.steps[0]
        slip = next(slip for slip in step.slips if slip.name == SLIP)
        wrong = question.chain.run(question.givens, {step.name: slip})[step.name]
        desk.lay(question)
        desk.do("check", {"answers": {step.name: step.kind.write(wrong)}})
    assert [attempt.slips for attempt in record.attempts()] == [(SLIP,), (SLIP,)]
    record.close()


def start(page: Page) -> Locator:
    return page.locator(".nav-start:visible")


def told(page: Page) -> Locator:
    return start(page).locator(".nav-done")


def test_the_first_time_and_back_after_an_exercise(
    begun: Callable[[str], Record], open_lesson: Open
):
    begun("Nils").close()
    page = open_lesson("start")
    expect(page.get_by_role("heading", name="Welcome, Nils")).to_be_visible()
    expect(start(page).get_by_role("listitem")).to_have_count(11)
    page.get_by_role("link", name="Begin the lesson: Bearings").click()

    exercise = card(page, "Exercise 2:")
    answer(exercise, questions.exercise("bearings", 2).answers["magnetic"])
    expect(exercise.locator(".nav-part")).to_have_attribute("data-outcome", "right")
    page.get_by_role("link", name="Back to the start page").filter(visible=True).click()

    expect(page.get_by_role("heading", name="Next for Nils")).to_be_visible()
    row = page.get_by_role("row", name="Bearings")
    expect(row.get_by_role("cell").nth(1)).to_have_text("1")
    expect(row).to_contain_text("today")
    page.get_by_role("link", name="Bearings: exercise 2").click()
    expect(exercise).to_be_focused()
    expect(exercise.get_by_role("textbox")).to_be_in_viewport()


def test_slips_are_told_and_practice_is_one_step_away(ina: None, open_lesson: Open):
    page = open_lesson("start")
    slips = start(page).locator(".nav-slips")
    expect(slips).to_contain_text("You put the variation on the wrong way twice")
    expect(page.get_by_role("table", name="Where you stand")).to_be_visible()
    slips.get_by_role("link", name="Practise: Bearings").click()
    expect(page.get_by_role("heading", name="Practice", exact=True)).to_be_in_viewport()
    expect(card(page, "Practice:")).to_be_in_viewport()
    page.go_back()
    expect(slips).to_be_visible()


def test_no_learner_sees_another_without_choosing_the_name(ina: None, open_lesson: Open):
    page = open_lesson("start")
    page.get_by_role("link", name="Begin the lesson: Variation").click()
    page.locator(".nav-card").first.wait_for()
    page.go_back()
    start(page).get_by_label("Someone new").fill("Bo")
    page.get_by_role("button", name="Add").click()
    expect(told(page)).to_have_text("This name is new here. Lessons that you open now are for Bo.")
    expect(page.get_by_role("heading", name="Welcome, Bo")).to_be_visible()
    expect(start(page)).not_to_contain_text("the wrong way")
    expect(page.locator(".jp-NotebookPanel")).to_have_count(1)  # Ina's lesson is closed

    start(page).get_by_label("Someone who was here before").select_option("Ina")
    page.get_by_role("button", name="Choose").click()
    expect(start(page)).to_contain_text("You put the variation on the wrong way twice")


def test_answers_are_saved_deleted_and_taken_in_again(ina: None, open_lesson: Open, tmp_path):
    page = open_lesson("start")
    start(page).get_by_label("Hand in a file").fill("Ina Holm")
    with page.expect_download() as saving:
        page.get_by_role("button", name="Hand in").click()
    file = tmp_path / saving.value.suggested_filename
    saving.value.save_as(file)
    assert file.name.startswith("hand-in-Ina-Holm-")
    expect(told(page)).to_contain_text(f"Saved: {file.name}")

    page.wait_for_timeout(1000)
    with page.expect_download() as saving:  # a press that brings the window to the front counts
        page.evaluate(
            """() => {
                window.dispatchEvent(new Event("focus"));
                const buttons = [...document.querySelectorAll(".nav-start button")];
                buttons.find((one) => one.textContent === "Save a copy").click();
            }"""
        )
    assert saving.value.suggested_filename.startswith("answers-Ina-")

    page.get_by_role("button", name="Delete my answers").click()
    asked = page.get_by_role("group", name="Are you sure?")
    expect(asked).to_contain_text("This deletes all that is kept of Ina")
    page.keyboard.press("Escape")
    expect(asked).to_be_hidden()
    assert Record().attempts()
    page.get_by_role("button", name="Delete my answers").click()
    asked.get_by_role("button", name="Yes, delete").click()
    expect(page.get_by_role("heading", name="Welcome, Ina")).to_be_visible()
    assert Record().attempts() == []

    for given, says in (
        (file, "Taken in: "),
        (file, "here already"),
        (__file__, "holds no answers"),
    ):
        with page.expect_file_chooser() as choosing:
            page.get_by_role("button", name="Take in a copy").click()
        choosing.value.set_files(given)
        expect(told(page)).to_contain_text(says)
    assert Record().attempts()

    page.get_by_role("button", name="Forget Ina").click()
    asked.get_by_role("button", name="Yes, forget Ina").click()
    expect(told(page)).to_contain_text("Ina is forgotten")
    assert learners() == []


def tab_to(page: Page, role: Literal["button", "link", "textbox"], name: str) -> None:
    """Press Tab until the keyboard is on something."""
    wanted = page.get_by_role(role, name=name).filter(visible=True).first
    for _ in range(60):
        page.keyboard.press("Tab")
        if wanted.evaluate("node => node === document.activeElement"):
            return
    raise AssertionError(f"the keyboard did not come to the {role} “{name}”")


def test_by_keyboard_alone(begun: Callable[[str], Record], open_lesson: Open):
    page = open_lesson("start")
    page.locator(".nav-start").wait_for()
    tab_to(page, "textbox", "Someone new")
    page.keyboard.type("Kari")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Welcome, Kari")).to_be_visible()
    tab_to(page, "button", "Forget Kari")
    page.keyboard.press("Enter")
    expect(page.get_by_role("group", name="Are you sure?")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("button", name="Forget Kari")).to_be_focused()
    tab_to(page, "link", "Begin the lesson: Bearings")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="A direction as a number")).to_be_attached()
    expect(page.locator(".jp-Cell.jp-mod-editMode, .cm-focused")).to_have_count(0)


def test_nothing_is_cut_off(ina: None, open_lesson: Open):
    page = open_lesson("start")
    page.get_by_role("button", name="Delete my answers").click()
    for width, height in ((1366, 768), (800, 900), (683, 384)):
        page.set_viewport_size({"width": width, "height": height})
        assert cut_off(start(page), but="thead, thead *") == [], width
