"""Cards, worked steps and demonstrations in a real lesson, by mouse and by keyboard alone."""

import math
from collections.abc import Callable

import pytest
from cards import cut_off, put_angle
from playwright.sync_api import Locator, Page, expect
from rig import Lab

from navlib import bearings
from navlib.angles import to_nearest
from navlib.deviation import DeviationCard
from navlib.pictures.drawn import sheet
from navlib.questions import exercise
from navlib.questions.picture import SheetWindow

Open = Callable[[str], Page]

CARD = """\
from navlib.desk import Exercise
from navlib.record import Record
from navlib.widgets import Card
Card(Exercise("bearings", {number}, Record("{name}.sqlite")))"""

FAILS_ONCE = """\
from navlib.desk import Exercise
from navlib.record import Record
from navlib.widgets import Card
class FullDisk(Exercise):
    full = True
    def do_check(self):
        if self.full:
            self.full = False
            raise OSError("the disk is full")
        super().do_check()
Card(FullDisk("bearings", 2, Record("full.sqlite")))"""

STEPS = """\
from navlib.desk import worked_steps
from navlib.questions import exercise
from navlib.widgets import Steps
Steps(worked_steps(exercise("bearings", 6)))"""

DEVIATIONS = {0: -3, 45: 1, 90: 4, 135: 5, 180: 3, 225: -1, 270: -5, 315: -6}

DEMOS = f"""\
from navlib.widgets.demos import DeviationByHeading, ThereAndBack, ThreeNorths
ThreeNorths()
---
ThereAndBack()
---
DeviationByHeading({DEVIATIONS})"""

SEEN_BY_PYTHON = """\
import ipywidgets
from navlib.widgets.demos import ThereAndBack
demo = ThereAndBack(bearing=60)
heard = ipywidgets.Label("nothing yet")
demo.observe(lambda change: setattr(heard, "value", f"Python heard {change['new']:g}"), "bearing")
north = ipywidgets.Button(description="Nearly north")
north.on_click(lambda _: setattr(demo, "bearing", 359.6))
ipywidgets.VBox([demo, heard, north])"""


@pytest.fixture
def opened(open_lesson: Open, lab: Lab) -> Callable[[str, str], Page]:
    """Write a lesson of the cells that `---` parts, and open it."""

    def page_of(name: str, cells: str) -> Page:
        lab.write(name, ["# Trying widgets", *cells.split("\n---\n")])
        return open_lesson(name)

    return page_of


def focused(page: Page) -> Locator:
    return page.locator("*:focus")


def only_box(page: Page) -> Locator:
    return page.locator(".nav-card").get_by_role("textbox")


def drag(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    page.mouse.move(*start)
    page.mouse.down()
    page.mouse.move((start[0] + end[0]) / 2, (start[1] + end[1]) / 2, steps=5)
    page.mouse.move(*end, steps=5)
    page.mouse.up()


def middle(thing: Locator) -> tuple[float, float]:
    box = thing.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


# The card -----------------------------------------------------------------------------------------


def test_an_answer_is_checked_by_enter_and_said_in_words(opened: Callable[[str, str], Page]):
    page = opened("enter", CARD.format(number=2, name="enter"))
    box = page.get_by_label(*exercise("bearings", 2).prompts.values())
    box.fill("abdm xyz")
    box.press("Enter")
    verdict = page.locator(".nav-verdict")
    expect(verdict).to_have_text("I could not read this.")
    expect(verdict.locator("svg.nav-sign path")).to_have_count(1)
    expect(box).to_have_value("abdm xyz")
    expect(box).to_be_focused()
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(page.locator(".nav-card [role=status]")).to_contain_text("I could not read this.")
    expect(page.locator(".jp-Cell")).to_have_count(2)  # no letter was taken for a shortcut
    (answer,) = exercise("bearings", 2).answers.values()
    box.fill(answer)
    box.press("Enter")
    expect(page.locator(".nav-part")).to_have_attribute("data-outcome", "right")
    expect(page.get_by_role("button", name="Other numbers")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="other numbers")).to_be_visible()
    expect(only_box(page)).to_have_value("")
    expect(only_box(page)).to_be_focused()


def test_hints_leave_what_is_typed_and_the_keyboard_where_they_are(
    opened: Callable[[str, str], Page],
):
    page = opened("hints", CARD.format(number=2, name="hints"))
    box = only_box(page)
    box.fill("099")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    for count in (1, 2, 3):
        expect(focused(page)).to_contain_text("hint")
        page.keyboard.press("Enter")
        expect(page.locator(".nav-hints li")).to_have_count(count)
    expect(box).to_have_value("099")
    expect(focused(page)).to_have_text("Check")


def test_a_failure_is_said_and_nothing_typed_is_lost(opened: Callable[[str, str], Page]):
    page = opened("failure", FAILS_ONCE)
    box = only_box(page)
    box.fill("099°M")
    box.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("the disk is full")
    expect(box).to_have_value("099°M")
    page.reload()
    expect(only_box(page)).to_have_value("099°M")
    page.get_by_role("button", name="Check").click()
    expect(page.get_by_role("alert")).to_contain_text("the disk is full")  # a new kernel, once
    page.get_by_role("button", name="Check").click()
    expect(page.locator(".nav-verdict")).to_have_count(1)
    expect(page.locator(".nav-trouble")).to_be_hidden()


@pytest.mark.parametrize(("width", "height"), [(800, 900), (683, 384), (1920, 1080)])
def test_nothing_is_cut_off(opened: Callable[[str, str], Page], width: int, height: int):
    page = opened("sizes", "\n---\n".join([CARD.format(number=9, name="sizes"), STEPS, DEMOS]))
    expect(page.locator(".nav")).to_have_count(5)
    page.set_viewport_size({"width": width, "height": height})
    for widget in page.locator(".nav").all():
        widget.scroll_into_view_if_needed()
        assert cut_off(widget) == []


# The protractor -----------------------------------------------------------------------------------


def test_a_bearing_is_measured_on_the_sheet(opened: Callable[[str, str], Page]):
    page = opened("measure", CARD.format(number=1, name="measure"))
    question = exercise("bearings", 1)
    window = question.picture
    assert isinstance(window, SheetWindow)
    stage = page.locator(".nav-stage")
    stage.scroll_into_view_if_needed()
    picture = stage.locator("img")
    expect(picture).to_have_js_property("complete", True)
    places = sheet_places(page, window)
    page.evaluate(
        "() => { window.sent = 0; const send = WebSocket.prototype.send;"
        " WebSocket.prototype.send = function (data) { window.sent++; send.call(this, data); }; }"
    )
    drag(page, middle(page.locator(".nav-hub")), places[0])
    drag(page, middle(page.locator(".nav-knob")), places[1])
    assert page.evaluate("window.sent") == 0  # nothing goes to the kernel meanwhile
    arm = page.get_by_label("Swing the arm")
    read = float(arm.get_attribute("aria-valuenow") or "nan")
    key = question.values[question.asks[0]]
    assert abs((read - key + 180) % 360 - 180) <= 1
    expect(arm).to_be_focused()
    page.keyboard.press("ArrowRight")
    expect(arm).to_have_attribute("aria-valuenow", f"{(read + 1) % 360:.0f}")
    page.keyboard.press("b")
    expect(page.locator(".jp-Cell")).to_have_count(2)


def sheet_places(page: Page, window: SheetWindow) -> list[tuple[float, float]]:
    """Return where the window's spots lie on the screen."""
    drawn = sheet(window)
    box = page.locator(".nav-stage img").bounding_box()
    assert box is not None
    spots = [drawn.place(spot.easting, spot.northing) for spot in window.spots]
    return [
        (
            box["x"] + x / drawn.width_mm * box["width"],
            box["y"] + y / drawn.height_mm * box["height"],
        )
        for x, y in spots
    ]


def lie(page: Page) -> tuple[float, float]:
    """Return where the protractor's middle lies, in mm of the sheet."""
    x, y = page.locator(".nav-protractor").evaluate(
        "(node) => { const { e, f } = node.transform.baseVal.consolidate().matrix; return [e, f]; }"
    )
    return x, y


def test_the_protractor_is_worked_by_the_keyboard(opened: Callable[[str, str], Page]):
    page = opened("keys", CARD.format(number=1, name="keys"))
    x, y = lie(page)
    page.get_by_label("Middle of the protractor").focus()
    for key in ("ArrowLeft", "ArrowLeft", "ArrowUp", "Shift+ArrowRight"):
        page.keyboard.press(key)
    assert lie(page) == pytest.approx((x - 1.9, y - 1))
    page.get_by_label("Turn the protractor").focus()
    page.keyboard.press("ArrowLeft")
    expect(focused(page)).to_have_attribute("aria-valuenow", "359")
    page.get_by_label("Swing the arm").focus()
    page.keyboard.press("PageUp")
    expect(focused(page)).to_have_attribute("aria-valuenow", "10")
    page.get_by_role("button", name="Put the protractor away").press("Enter")
    expect(page.locator(".nav-protractor")).to_have_count(0)
    page.get_by_role("button", name="Take the protractor").press("Enter")
    assert lie(page) == pytest.approx((x - 1.9, y - 1))
    before = page.locator(".nav-stage").bounding_box()
    page.get_by_role("button", name="Enlarge the sheet").press("Enter")
    after = page.locator(".nav-stage").bounding_box()
    assert before is not None
    assert after is not None
    assert after["width"] > 1.3 * before["width"]
    assert lie(page) == pytest.approx((x - 1.9, y - 1))


# Worked steps -------------------------------------------------------------------------------------


def test_steps_are_uncovered_one_by_one(opened: Callable[[str, str], Page]):
    page = opened("steps", STEPS)
    lines = page.locator(".nav-steps li")
    expect(page.get_by_text("What do you do first?")).to_be_visible()
    expect(lines).to_have_count(0)
    page.get_by_role("button", name="Show the next step").press("Enter")
    expect(lines).to_have_count(1)
    expect(page.locator(".nav-worked [role=status]")).to_have_text(
        f"{lines.first.inner_text()} What comes next?"
    )
    page.get_by_role("button", name="Show all").press("Enter")
    expect(page.get_by_role("button", name="Cover again")).to_be_focused()
    page.keyboard.press("Enter")
    expect(lines).to_have_count(0)
    expect(page.get_by_role("button", name="Show the next step")).to_be_focused()


# Demonstrations: the browser's sums are Python's --------------------------------------------------

NORTHS = [  # bearing, variation, convergence; north is passed both ways
    (100, -8, -4.5),
    (356, -8, 0),
    (4, 8, 4.5),
    (0, 0, -0.5),
    (359, -30, 6),
    (180, 12.5, -6),
]


def test_the_demonstrations_reckon_as_python_does(opened: Callable[[str, str], Page]):
    page = opened("demos", DEMOS)
    expect(page.locator(".nav-demo")).to_have_count(3)
    norths, back, swing = page.locator(".nav-demo").all()
    for true, variation, convergence in NORTHS:
        put_angle(norths, "True bearing of the mark", true)
        put_angle(norths, "Variation", variation)
        put_angle(norths, "Convergence of the grid", convergence)
        angles = {"variation": variation, "convergence": convergence}
        expected = [
            bearings.write(bearings.convert(true, "T", north, **angles), north) for north in "TGM"
        ]
        expect(norths.locator(".nav-value")).to_have_text(expected)
        expect(norths.locator(".nav-sums")).to_contain_text(expected[1])
    for there in (60, 0, 90, 181, 359):
        put_angle(back, "Bearing from A to B", there)
        expected = [bearings.write(way, "T") for way in (there, bearings.back_bearing(there))]
        expect(back.locator(".nav-value")).to_have_text(expected)
    card = DeviationCard(list(DEVIATIONS), list(DEVIATIONS.values()), "invented for this test")
    for heading, mark in ((300, 75), (0, 2), (340, 359), (22, 180), (359, 1)):
        put_angle(swing, "Boat’s heading by compass", heading)
        put_angle(swing, "The mark’s magnetic bearing", mark)
        deviation = to_nearest(card.deviation(heading), 1)
        expected = [
            bearings.write(bearings.compass_from_magnetic(mark, deviation), "C"),
            bearings.write(mark, "M"),
            bearings.write(bearings.true_from_magnetic(mark, -8), "T"),
        ]
        expect(swing.locator(".nav-value")).to_have_text(expected)


def test_what_is_moved_reaches_python_and_what_python_sets_is_shown(
    opened: Callable[[str, str], Page],
):
    page = opened("heard", SEEN_BY_PYTHON)
    demo = page.locator(".nav-demo")
    place = page.get_by_role("slider", name="Place B")
    a, b = (
        middle(page.locator("circle.nav-place").first),
        middle(page.locator("circle.nav-place").last),
    )
    out = math.hypot(b[0] - a[0], b[1] - a[1])
    drag(page, b, (a[0] - out, a[1]))
    expect(demo.locator(".nav-value").first).to_have_text("270°T")
    expect(page.get_by_text("Python heard 270")).to_be_visible()
    expect(place).to_be_focused()
    page.keyboard.press("Shift+ArrowDown")
    expect(page.get_by_text("Python heard 269")).to_be_visible()
    page.get_by_role("button", name="Nearly north").click()
    expect(demo.locator(".nav-value")).to_have_text(["000°T", "180°T"])
    expect(place).to_have_attribute("aria-valuetext", "000°T")
