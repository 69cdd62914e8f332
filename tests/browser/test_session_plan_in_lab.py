"""An instructor changes a ready-made plan by keyboard, is told what is wrong, keeps it, prints cards."""

from collections.abc import Callable
from pathlib import Path

from cards import cut_off
from playwright.sync_api import Page, expect
from rig import Lab

from navlib.classroom.plan import reading


def test_from_a_ready_made_plan_to_work_cards(
    open_lesson: Callable[[str], Page],
    lab: Lab,
    screenshot: Callable[[Page, str], Path],
    tmp_path: Path,
):
    lab.write("plan", ["# Plan", "from navlib.widgets import session_plan\nsession_plan.form()"])
    page = open_lesson("plan")
    form = page.get_by_role("region", name="Plan a session")
    state, total = form.locator(".nav-state"), form.locator(".nav-sum-total")
    expect(total).to_have_text("120 of 120 min")
    screenshot(page, "session-plan-1")
    assert cut_off(form, "input, select") == []

    second = form.get_by_role("group", name="part 2", exact=True)
    minutes = second.get_by_label("Minutes")
    minutes.fill("many")
    expect(state).to_contain_text("Not ready")
    expect(second.locator(".nav-wrong-line")).to_contain_text("not “many”")
    minutes.fill("13")
    expect(total).to_have_text("123 of 120 min")
    expect(form.locator(".nav-balance")).to_have_text("3 min too long.")

    third = form.get_by_role("button", name="Move up: part 3")
    title = form.get_by_role("group", name="part 3", exact=True).get_by_label("Title")
    moved = title.input_value()
    third.press("Enter")
    expect(second.get_by_label("Title")).to_have_value(moved)
    expect(second.locator(".nav-wrong-line")).to_contain_text("comes after a question")
    form.get_by_role("button", name="Take away: part 2").press("Enter")
    expect(total).to_have_text("118 of 120 min")
    form.get_by_role("button", name="Add one after part 1", exact=True).press("Enter")
    expect(second.get_by_label("What the class does")).to_be_focused()
    second.get_by_label("What the class does").select_option("break")
    second.get_by_label("Title").fill("Tea")
    second.get_by_label("Minutes").fill("2")
    expect(total).to_have_text("120 of 120 min")
    expect(state).to_contain_text("Ready")

    form.get_by_label("Name of the file").fill("Our evening")
    form.get_by_role("button", name="Save among your plans").press("Enter")
    expect(form.locator(".nav-done")).to_contain_text("Saved as our-evening.yaml")
    kept = reading.read(lab.folder.parent / "classes" / "plans" / "our-evening.yaml")
    assert [one.title for one in kept.segments[:2]] == ["A direction as a number", "Tea"]

    form.get_by_label("Learners").fill("1")
    with page.expect_download() as wanted:
        form.get_by_role("button", name="Print work cards").press("Enter")
    wanted.value.save_as(tmp_path / "cards.pdf")
    assert (tmp_path / "cards.pdf").read_bytes().startswith(b"%PDF")
    number = form.get_by_label("Session number").input_value()
    expect(form.locator(".nav-done")).to_contain_text(number)
    assert number
    screenshot(page, "session-plan-2")
