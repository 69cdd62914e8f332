"""On deck in a real browser, and a whole exercise with the keyboard alone, at 200 % zoom."""

from collections.abc import Iterator

import pytest
from cards import cut_off
from hands import Hands
from pages import opened
from playwright.sync_api import Browser, Page, expect
from rig import Lab

from navlib import questions
from navlib.angles import reciprocal, wrap
from navlib.pictures.drawn import window

CELLS = (
    "from navlib.record import Record",
    "from navlib.desk import Exercise\nfrom navlib.widgets import Card",
    'Card(Exercise("bearings", 1, Record("{name}.sqlite")))',
)
QUESTION = questions.exercise("bearings", 1)
MOST_TABS = 60


def bearings(name: str) -> list[str]:
    return ["# Bearings", *(cell.format(name=name) for cell in CELLS)]


@pytest.fixture
def page(browser: Browser, lab: Lab) -> Iterator[Page]:
    size = {"width": 1366, "height": 768}
    with opened(browser, lab, "deck", bearings("deck"), viewport=size) as page:
        yield page


@pytest.fixture
def near_page(browser: Browser, lab: Lab) -> Iterator[Page]:
    """A laptop of 1366 x 768 at 200 % zoom, on which the system asks for no motion."""
    zoomed = {"viewport": {"width": 683, "height": 384}, "device_scale_factor": 2}
    with opened(browser, lab, "keys", bearings("keys"), **zoomed, reduced_motion="reduce") as page:
        yield page


def spot_on_sheet(n: int) -> tuple[float, float]:
    place = QUESTION.picture.spots[n]
    x, y = window(QUESTION.picture).place(place.easting, place.northing)
    return float(x), float(y)


def test_a_bearing_is_taken_on_deck(page: Page):
    card = page.locator(".nav-card")
    card.get_by_role("button", name="On deck").click()
    expect(card.locator(".nav-part").first).to_contain_text("on deck: within")
    hands = Hands(page, card)
    expect(card.locator(".nav-stage-caution")).to_be_visible()
    leaf = card.locator(".nav-sheet-leaf")
    turned = leaf.get_attribute("style")

    # It is folded: another panel comes into sight, and what lies on the sheet stays on it.
    hands.press("Take the soft protractor")
    lie = hands.lies()["soft protractor"]
    before, ways = hands.seen(), ("up", "down", "left", "right")
    names = [f"Refold: a panel further {way}" for way in ways]
    for way in names:
        button = card.get_by_role("button", name=way)
        if button.get_attribute("aria-disabled") is None:
            button.click()
            break
    assert hands.seen() != before
    assert hands.lies()["soft protractor"] == lie
    hands.press("Put the soft protractor away")

    # The case lies askew, and the hand still meets the spot that the eye sees.
    hands.press("Take the soft protractor")
    lie = hands.lies()["soft protractor"]
    x, y = lie["x"], lie["y"]
    hands.bring(hands.part("Middle of the protractor"), (x, y), (x - 9, y + 6))
    now = hands.lies()["soft protractor"]
    assert (now["x"], now["y"]) == pytest.approx((x - 9, y + 6), abs=0.5)
    hands.keys("Swing the arm", "PageUp", "ArrowRight")
    expect(hands.part("Swing the arm")).to_have_attribute("aria-valuenow", "10")  # of 11, by eye

    # Knots are tied as far apart as the cord lies, and counted along it; the thumb is walked.
    hands.press("Take the cord with knots")
    hands.press("Tie knots this far apart")
    hands.keys("Point 1 of the cord", *["PageUp"] * 3)
    assert hands.lies()["knotted cord"]["knots"] == pytest.approx(24, abs=0.1)
    expect(card.locator(".nav-knot")).to_have_count(1)
    hands.press("Lay the thumb on")
    hands.press("Broader")
    start = hands.lies()["thumb"]
    hands.keys("Thumb: move it", "Enter")
    walked = hands.lies()["thumb"]
    assert walked["x"] - start["x"] == pytest.approx(start["width"]) == pytest.approx(21)
    assert walked["steps"] == 1

    # A wave comes and is told; the sheet can be held; the time can be let go.
    expect(card.locator(".nav-deck-said")).to_contain_text("A wave: the case lies turned by")
    assert leaf.get_attribute("style") != turned
    hands.press("Hold it steady")
    hands.press("Switch the timer off")
    expect(card.get_by_role("timer")).to_be_hidden()
    hands.press("Switch the timer on")

    # Within the wider band it is right, and the time taken stands still.
    off = wrap(QUESTION.values["grid"] + 3)
    boxes = card.get_by_role("textbox")
    boxes.first.fill(f"{off:03.0f} G")
    boxes.last.fill(f"{reciprocal(off):03.0f} G")
    boxes.last.press("Enter")
    for part in card.locator(".nav-part").all():
        expect(part).to_have_attribute("data-outcome", "right")
    assert card.get_by_role("timer").inner_text().startswith("Time taken: ")


# The keyboard alone -------------------------------------------------------------------------------

STANDS_ON = """() => {
    const at = document.activeElement;
    return (at.ariaLabel || at.labels?.[0]?.textContent || at.textContent).trim();
}"""
KEYS = {
    "up": "PageUp ArrowUp",
    "down": "PageDown ArrowDown",
    "left": "ArrowLeft",
    "right": "ArrowRight",
}
SHEET = "svg *, .nav-stage, .nav-stage *"


def tab_to(page: Page, name: str) -> None:
    """Press Tab until the keyboard stands on what begins with this name."""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if page.evaluate(STANDS_ON).startswith(name):
            return
    raise AssertionError(f"{MOST_TABS} times Tab does not lead to “{name}”.")


def move(page: Page, way: str, much: float) -> None:
    """Move what the keyboard stands on so many millimetres or degrees, to a tenth."""
    tenths = round(much * 10)
    *large, small = KEYS[way].split()
    for key, size in (*((key, 100) for key in large), (small, 10), (f"Shift+{small}", 1)):
        times, tenths = divmod(tenths, size)
        for _ in range(times):
            page.keyboard.press(key)


def test_a_whole_exercise_by_keyboard_alone_at_twice_the_size(near_page: Page):
    page, card = near_page, near_page.locator(".nav-card")
    card.wait_for()
    hands = Hands(page, card)
    assert not cut_off(card, SHEET)
    x, y = spot_on_sheet(0)
    lie = hands.lies()["protractor"]

    card.evaluate("(node) => { node.tabIndex = -1; node.focus(); }")
    tab_to(page, "Swing the arm")
    move(page, "up", float(QUESTION.givens["line"]))
    tab_to(page, "Middle of the protractor")
    move(page, "left" if x < lie["x"] else "right", abs(x - lie["x"]))
    move(page, "up" if y < lie["y"] else "down", abs(y - lie["y"]))
    ring = "getComputedStyle(document.activeElement.querySelector('.nav-hub')).strokeWidth"
    assert page.evaluate(ring) == "4px"  # one sees where the keyboard stands
    expect(card.locator(".nav-table-top > .nav-live")).to_contain_text("Protractor: middle")
    page.keyboard.press("Shift+Tab")
    read = int(page.evaluate("document.activeElement.ariaValueNow"))

    for part, bearing in zip(QUESTION.prompts.values(), (read, reciprocal(read)), strict=True):
        tab_to(page, part)
        page.keyboard.type(f"{bearing:03.0f} G")
    page.keyboard.press("Enter")
    for shown in card.locator(".nav-part").all():
        expect(shown).to_have_attribute("data-outcome", "right")
    expect(card.locator(":focus")).to_have_text("Other numbers")
    page.keyboard.press("Enter")
    expect(card.locator(".nav-title").first).to_contain_text("other numbers")
    page.keyboard.press("Shift+Tab")  # from the first box back, and on through the buttons
    tab_to(page, "Set numbers")
    page.keyboard.press("Enter")

    # On deck nothing moves by itself here, and nothing is cut off.
    expect(card.locator(".nav-title").first).not_to_contain_text("other numbers")
    expect(card).not_to_have_attribute("aria-busy", "true")
    tab_to(page, "On deck")
    page.keyboard.press("Enter")
    expect(card.locator(".nav-on-deck")).to_be_visible()
    expect(card.get_by_role("button", name="Hold it steady")).to_have_count(0)
    assert not cut_off(card, SHEET)
