"""A coach sets a paper, marks one with a slip in it, stops, comes back, and sees what came of it."""

from collections.abc import Callable
from pathlib import Path

from cards import cut_off
from playwright.sync_api import Locator, Page, expect
from rig import Lab

from navlib.paper.awards import labels
from navlib.paper.sitting import Sitting

Open = Callable[[str], Page]
SLIP = "variation-sign"


def part(page: Page, name: str) -> Locator:
    return page.get_by_role("region", name=name)


def answers_with_a_slip(sitting: Sitting, code: str) -> dict[str, str]:
    """Return right answers to a paper, but for the first with its variation the wrong way on."""
    paper = sitting.papers[code]
    found = {
        label: item.question.answers[name]
        for item in paper.items
        for label, name in labels(item).items()
    }
    first = paper.items[0]
    (label, name) = next(iter(labels(first).items()))
    step = first.question.chain.by_name[name]
    slip = next(one for one in step.slips if one.name == SLIP)
    wrong = first.question.chain.run(first.question.givens, {name: slip})[name]
    return {**found, label: step.kind.write(wrong)}


def test_from_a_blueprint_to_results(
    open_lesson: Open, lab: Lab, screenshot: Callable[[Page, str], Path]
):
    page = open_lesson("coach")
    setting, marking = part(page, "Set a paper"), part(page, "Mark the papers")
    expect(setting.locator(".nav-state")).to_have_text("Ready to make.")
    screenshot(page, "coach-1")
    setting.scroll_into_view_if_needed()
    setting.evaluate("(node) => node.scrollIntoView({block: 'start'})")
    screenshot(page, "coach-2")

    setting.get_by_label("Pass mark").fill("99")
    expect(setting.locator(".nav-state")).to_contain_text("Not ready")
    screenshot(page, "coach-3")
    setting.get_by_label("Pass mark").fill("8")
    expect(setting.locator(".nav-state")).to_have_text("Ready to make.")
    setting.get_by_label("How many papers").fill("2")
    setting.get_by_role("button", name="Make the papers").press("Enter")
    expect(setting.locator(".nav-done")).to_contain_text("Made: 2 papers")
    screenshot(page, "coach-4")
    assert cut_off(setting, "input, select") == []

    (folder,) = (file.parent for file in (lab.folder.parent / "papers").glob("*/sitting.json"))
    sitting = Sitting(folder)
    answers = answers_with_a_slip(sitting, sitting.plan.codes["01"])
    marking.get_by_label("Your initials").fill("AB")
    marking.get_by_label("Your initials").press("Enter")
    boxes = marking.locator(".nav-part-line input")
    expect(boxes).to_have_count(len(answers))
    expect(boxes.first).to_be_focused()
    screenshot(page, "coach-5")
    *most, last = answers.values()
    for text in most:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(marking.locator("[data-outcome=wrong]")).to_have_count(1)
    expect(marking.locator("[data-outcome=right]")).to_have_count(len(most) - 1)
    expect(marking.locator(".nav-kept")).to_have_text("All is kept.")
    page.keyboard.type(last)  # and no Enter: the page is closed on it
    screenshot(page, "coach-6")

    lab.end_kernels()
    page = open_lesson("coach")
    marking, results = part(page, "Mark the papers"), part(page, "What came of it")
    expect(boxes.last).to_have_value(last)
    expect(boxes.first).to_have_value(next(iter(answers.values())))
    expect(marking.locator("[data-outcome=right]")).to_have_count(len(most))
    total = sitting.script("01").total
    assert total == sitting.plan.blueprint.marks - 2
    expect(marking.locator(".nav-total")).to_contain_text(f"{total:g} of 13")

    marking.get_by_role("button", name="Overrule question 1").press("Enter")
    own = marking.get_by_role("group", name="Your own marks").filter(visible=True)
    own.get_by_label("Your reason").fill("The sketch shows it rightly.")
    own.get_by_label("Marks for the whole question").select_option("1")
    marking.evaluate("(node) => node.scrollIntoView({block: 'start'})")
    screenshot(page, "coach-7")
    own.get_by_role("button", name="Keep my marks").press("Enter")
    expect(marking.locator(".nav-person:visible")).to_contain_text("AB gives 1")
    assert cut_off(marking, "input, select, .nav-live") == []

    results.evaluate("(node) => node.scrollIntoView({block: 'start'})")
    expect(results.get_by_role("row", name="01")).to_contain_text(f"{total + 1:g} of 13")
    screenshot(page, "coach-8")
    results.get_by_role("button", name="Write results").press("Enter")
    expect(results.locator(".nav-make .nav-done")).to_contain_text("Written: 3 files")
    screenshot(page, "coach-9")
    with page.context.expect_page() as opened:
        results.get_by_role("button", name="feedback-01").press("Enter")
    assert opened.value.url.startswith("blob:")
    assert cut_off(results, "input, select") == []
