"""How a test finds a question card and answers it, whatever the lesson."""

from playwright.sync_api import Locator, Page


def card(page: Page, title: str) -> Locator:
    return page.locator(".nav-card", has=page.get_by_role("heading", name=title))


def answer(where: Locator, text: str) -> None:
    box = where.get_by_role("textbox").first
    box.fill(text)
    box.press("Enter")


def demonstration(page: Page, title: str) -> Locator:
    return page.locator(".nav-demo", has=page.get_by_role("heading", name=title))


def put(demo: Locator, label: str, value: object) -> None:
    """Write `value` into a demonstration's box and leave it."""
    box = demo.get_by_label(label, exact=True)
    box.fill(str(value))
    box.press("Tab")
