"""Plotting tasks by hand and by keys, and what is told of how the work was done on the sheet."""

import math
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from asked import asking, found, judged
from cards import answer, cut_off
from hands import Hands, Spot
from playwright.sync_api import Browser, Page, expect
from rig import Lab

from navlib.chain.question import Question
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import key_lies, lies_of

ASKED = {
    "position.plot-reference": 1,
    "bearings.plot-course": 3,
    "distance.plot-circle": 2,
    "distance.by-latitude": 2,
    "bearings.measure": 3,
}


@pytest.fixture(scope="module")
def plotting(browser: Browser, lab: Lab) -> Iterator[Page]:
    with asking(browser, lab, "plotting", ASKED) as page:
        yield page


@pytest.fixture
def card(plotting: Page) -> Callable[[str], tuple[Hands, Question]]:
    return lambda kind: found(plotting, kind, ASKED[kind])


def click(hands: Hands, spot: Spot) -> None:
    hands.see()
    hands.page.mouse.click(*hands.screen(spot))


def at(lie: dict[str, float]) -> Spot:
    return lie["x"], lie["y"]


def test_a_mark_is_judged_by_where_it_is(card, screenshot: Callable[[Page, str], Path]):
    hands, question = card("position.plot-reference")
    taken = hands.table.locator(".nav-drawn")
    expect(taken).to_contain_text("No mark on the sheet yet")
    assert "no pencil mark on the sheet" in judged(hands, "unread")
    (step,) = question.steps
    slip = next(s for s in step.slips if s.name == "tenths-exchanged")
    wrong = question.chain.run(question.givens, {step.name: slip})[step.name]
    (spot,) = key_lies(question)["pencil mark"]
    there = at(lies_of(question, step.name, wrong)["pencil mark"][0])
    hands.press("Make a pencil mark")
    click(hands, there)
    expect(taken).to_contain_text("mm across")
    assert "parts of the two halves exchanged" in judged(hands, "wrong")
    screenshot(hands.page, "plot-mark-wrong")
    # A second mark by keys alone: the last one counts.
    button = hands.table.get_by_role("button", name="Make a pencil mark")
    button.press("Enter")
    middle = hands.lies()["pencil mark"][-1]
    for small, name in ((False, ""), (True, "Shift+")):
        per = 0.1 if small else 1.0
        for axis, keys in (("x", ("ArrowLeft", "ArrowRight")), ("y", ("ArrowUp", "ArrowDown"))):
            now = hands.lies()["pencil mark"][-1] if small else middle
            steps = round((spot[axis] - now[axis]) / per)
            for _ in range(abs(steps)):
                hands.page.keyboard.press(name + keys[steps > 0])
    expect(taken).to_contain_text("Of 2 the last one counts")
    hands.table.get_by_role("button", name="Check").press("Enter")
    expect(hands.table.locator(".nav-part").first).to_have_attribute("data-outcome", "right")
    expect(hands.table.locator(".nav-key-mark")).to_have_count(1)
    assert cut_off(hands.table) == []
    screenshot(hands.page, "plot-mark-right")


def test_a_course_line_runs_from_the_right_place_the_right_way(card, screenshot):
    hands, question = card("bearings.plot-course")
    (line,) = key_lies(question)["pencil line"]
    start, end = (line["x1"], line["y1"]), (line["x2"], line["y2"])
    opposite = (2 * start[0] - 0.6 * end[0] - 0.4 * start[0], 1.6 * start[1] - 0.6 * end[1])
    hands.press("Draw a pencil line")
    hands.drag(start, opposite)
    assert "exactly the other way" in judged(hands, "wrong")
    hands.press("Draw a pencil line")
    hands.drag((start[0] + 0.4, start[1]), (end[0], end[1] + 0.5))
    judged(hands, "right")
    expect(hands.table.locator(".nav-key line")).to_have_count(1)
    screenshot(hands.page, "plot-course-right")


def test_a_circle_is_opened_on_the_side_and_carried_to_its_place(card, screenshot):
    hands, question = card("distance.plot-circle")
    (key,) = key_lies(question)["pencil circle"]
    hands.press("Draw a pencil circle")
    side = (window(question.picture).frame.left, 60.0)
    hands.drag(side, (side[0], side[1] - key["r"]))
    judged(hands, "wrong")  # as wide as asked, but not about A
    point = hands.part("Point of the compasses").locator(".nav-hub")
    hands.bring(point, at(hands.lies()["pencil circle"][0]), at(key))
    judged(hands, "right")
    screenshot(hands.page, "plot-circle-right")


def test_dividers_on_the_wrong_border_are_told(card, screenshot):
    hands, question = card("distance.by-latitude")
    on_sheet, leg = window(question.picture), question.givens["length_mm"]
    level, left = on_sheet.frame.top - 1, on_sheet.frame.left + 20
    hands.press("Take the dividers")
    for n, to in ((1, (left, level)), (2, (left + leg, level))):
        lie = hands.lies()["dividers"]
        hands.bring(hands.part(f"Point {n}"), (lie[f"x{n}"], lie[f"y{n}"]), to)
    lie = hands.lies()["dividers"]
    lons = [float(on_sheet.lat_lon_at(lie[f"x{n}"], lie[f"y{n}"])[1]) for n in (1, 2)]
    answer(hands.table, f"{60 * abs(lons[1] - lons[0]):.2f} NM")
    said = hands.table.locator(".nav-said").first
    expect(said).to_contain_text("The dividers stand on the top border")
    screenshot(hands.page, "dividers-on-top")
    answer(hands.table, question.answers["distance"])
    expect(said).to_contain_text("Right.")
    expect(said).to_contain_text("costs nothing")


def test_a_protractor_askew_is_told_and_one_that_lies_right_is_not(card, screenshot):
    hands, question = card("bearings.measure")
    a, b = (
        tuple(map(float, window(question.picture).place(s.easting, s.northing)))
        for s in question.picture.spots
    )
    hub = hands.table.locator(".nav-protractor .nav-hub")
    hands.bring(hub, at(hands.lies()["protractor"]), a)
    hands.keys("Turn the protractor", *["ArrowRight"] * 8)
    hands.see()
    knob = hands.sheet(hands.middle(hands.table.locator(".nav-protractor .nav-knob")))
    length = math.dist(a, b)
    hands.drag(knob, (a[0] + (b[0] - a[0]) * 40 / length, a[1] + (b[1] - a[1]) * 40 / length))
    first, second = hands.table.get_by_role("textbox").all()[:2]
    first.fill(f"{hands.lies()['protractor']['arm']:03.0f} G")
    second.fill(question.answers["back"])
    said = judged(hands, "wrong")
    assert (
        "Your line is right, but the protractor is turned 8° clockwise from the grid lines" in said
    )
    screenshot(hands.page, "protractor-askew")
    hands.keys("Turn the protractor", *["ArrowLeft"] * 8)
    hands.keys("Swing the arm", *["ArrowRight"] * 8)
    first.fill(f"{hands.lies()['protractor']['arm']:03.0f} G")
    assert "costs nothing" not in judged(hands, "right")
