"""A whole lesson without a mouse: to the exercises, an answer, a hint, practice, the checkpoint."""

from collections.abc import Callable
from typing import Any

from cards import card
from playwright.sync_api import Page, expect

from navlib import questions

Open = Callable[[str], Page]
QUESTION = questions.exercise("speed", 1)
STEP = QUESTION.chain.by_name["time"]
SLIP = next(slip for slip in STEP.slips if slip.name == "decimal-hours")
WRONG = STEP.kind.write(QUESTION.chain.run(QUESTION.givens, {"time": SLIP})["time"])
MOST_STOPS = 250

HELD = """
() => {
    const held = document.activeElement;
    const style = getComputedStyle(held);
    const box = held.getBoundingClientRect();
    return {
        card: held.closest(".nav")?.querySelector(".nav-title")?.textContent ?? "",
        does: held.textContent || held.type || "",
        ringed: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
        seen: box.bottom > 0 && box.top < innerHeight,
    };
}
"""


def held(page: Page) -> dict[str, Any]:
    """Return what the keyboard is on, and hold that one sees it if it is in a card or figure."""
    now: dict[str, Any] = page.evaluate(HELD)
    if now["card"]:
        assert now["ringed"], f"no ring is seen around “{now['does']}” in “{now['card']}”"
        assert now["seen"], f"“{now['does']}” in “{now['card']}” is out of sight"
    return now


def tab_to(page: Page, title: str, does: str) -> None:
    """Press Tab until the keyboard is on what a card or figure does."""
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        now = held(page)
        if now["card"].startswith(title) and now["does"].startswith(does):
            return
    raise AssertionError(f"the keyboard did not come to “{does}” in “{title}”")


def test_a_lesson_from_its_top_to_its_checkpoint(open_lesson: Open):
    page = open_lesson("speed")
    first = card(page, "Exercise 1:")
    part = first.locator(".nav-part").first

    tab_to(page, "Exercise 1:", "text")
    page.keyboard.type(WRONG)
    page.keyboard.press("Enter")
    expect(part).to_have_attribute("data-outcome", "wrong")
    expect(first.get_by_role("textbox")).to_be_focused()

    tab_to(page, "Exercise 1:", "Give me a hint")
    page.keyboard.press("Enter")
    expect(first).to_contain_text(QUESTION.hints("time")[0])
    assert held(page)["does"].startswith("Give me a hint")

    while held(page)["does"] != "text":
        page.keyboard.press("Shift+Tab")
    page.keyboard.press("Control+A")
    page.keyboard.type(QUESTION.answers["time"])
    page.keyboard.press("Enter")
    expect(part).to_have_attribute("data-outcome", "right")
    expect(first.get_by_role("button", name="Other numbers")).to_be_focused()

    tab_to(page, "Practice:", "Another question")
    practice = card(page, "Practice:")
    before = practice.locator(".nav-title").inner_text()
    page.keyboard.press("Enter")
    expect(practice.locator(".nav-title")).not_to_have_text(before)
    expect(practice.locator(":focus")).to_have_count(1)
    assert held(page)["card"].startswith("Practice:")

    ten = card(page, "Checkpoint 1 of 10:")
    for example in ten.locator(".nav-part:has(.nav-box) .nav-example").all_inner_texts():
        tab_to(page, "Checkpoint 1 of 10:", "text")
        page.keyboard.type(example.removeprefix("for example "))
    for group in range(ten.locator(".nav-part:has(input[type=radio])").count()):
        tab_to(page, "Checkpoint 1 of 10:", "radio")
        page.keyboard.press("Space")
        assert group < 4
    tab_to(page, "Checkpoint 1 of 10:", "Hand in")
    page.keyboard.press("Enter")
    expect(card(page, "Checkpoint 2 of 10")).to_be_visible()
    expect(card(page, "Checkpoint 2 of 10").locator(":focus")).to_have_count(1)
    held(page)
