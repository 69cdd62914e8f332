"""The ways between lessons: to the glossary and back, to a heading, and into mixed practice."""

from collections.abc import Callable

from cards import card
from playwright.sync_api import Page, expect
from rig import Lab, wait_until

Open = Callable[[str], Page]


def test_a_term_leads_to_the_glossary_and_back(open_lesson: Open):
    page = open_lesson("bearings")
    page.get_by_role("link", name="reciprocal").click()
    term = page.get_by_role("heading", name="reciprocal")
    expect(term).to_be_in_viewport()
    expect(term).to_be_focused()
    assert page.url.endswith("/doc/tree/glossary.ipynb")
    page.go_back()
    expect(page.get_by_role("link", name="reciprocal")).to_be_in_viewport()
    assert page.url.endswith("/doc/tree/bearings.ipynb")
    page.go_forward()
    expect(term).to_be_visible()
    page.locator(".jp-RenderedMarkdown h3:has-text('reciprocal') + p a").click()
    expect(page.get_by_role("heading", name="A direction as a number")).to_be_in_viewport()


def test_an_address_with_a_heading_leads_to_it_and_another_window_does_too(page: Page, lab: Lab):
    page.goto(f"{lab.address('bearings')}#Practice")
    wait_until(page, "alive")
    heading = page.get_by_role("heading", name="Practice", exact=True)
    expect(heading).to_be_in_viewport()
    page.keyboard.press("Home")
    with page.context.expect_page() as opening:
        page.get_by_role("link", name="reciprocal").click(modifiers=["Control"])
    expect(opening.value.get_by_role("heading", name="reciprocal")).to_be_in_viewport()
    expect(page.get_by_role("link", name="reciprocal")).to_be_visible()


def test_mixed_practice_asks_says_why_and_goes_on(open_lesson: Open):
    page = open_lesson("mixed")
    practice = card(page, "Mixed practice:")
    expect(practice).to_have_count(1)
    ten = card(page, "Checkpoint 1 of 10:")
    expect(ten.get_by_role("button", name="Hand in")).to_be_visible()
    expect(ten.get_by_role("button", name="Give me a hint")).to_have_count(0)
    for _ in range(2):
        before = practice.get_by_role("heading").first.inner_text()
        practice.get_by_role("button", name="Another question").click()
        expect(practice.get_by_role("heading").first).not_to_have_text(before)
    page.reload()
    expect(card(page, "Mixed practice:")).to_have_count(1)
