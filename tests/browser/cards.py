"""What tests do on the page of any lesson: find a card or a figure, answer, look whether it is whole."""

from playwright.sync_api import Locator, Page, expect


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


def put_angle(demo: Locator, label: str, angle: float) -> None:
    """Write an angle into a demonstration's box, and its side, east or west, if it has one."""
    side = demo.get_by_label(f"{label}, east or west", exact=True)
    if side.count() and angle:
        side.select_option("W" if angle < 0 else "E")
    put(demo, f"{label}, degrees", f"{abs(angle) if side.count() else angle:g}")


def pull(page: Page, handle: Locator, right: float, down: float) -> None:
    """Drag a handle by so many pixels, as a hand does; the keyboard then stands on it."""
    handle.scroll_into_view_if_needed()
    reach = handle.locator(".nav-reach")
    box = (reach if reach.count() else handle).bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right, y + down, steps=4)
    page.mouse.up()
    expect(handle).to_be_focused()


def values(demo: Locator, *expected: str) -> None:
    """Hold that the readings of a demonstration that are in sight are these."""
    expect(demo.locator(".nav-value:visible")).to_have_text(list(expected))


def cut_off(part: Locator, but: str = "svg *") -> list[str]:
    """Return what in a part of the page is wider than its room, but for what a selector names."""
    found: list[str] = part.evaluate(
        """(node, but) => [node, ...node.querySelectorAll(`*:not(${but})`)]
            .filter((one) => one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 1
                && getComputedStyle(one).display !== "inline")
            .map((one) => `${one.tagName} ${one.className}`)""",
        but,
    )
    return found


def beyond_the_drawing(demo: Locator) -> list[str]:
    """Return the words of a demonstration's drawings that lie beyond the drawing's edge."""
    found: list[str] = demo.evaluate(
        """(node) => [...node.querySelectorAll(".nav-drawn > svg")].flatMap((svg) => {
            const all = svg.getBoundingClientRect();
            return [...svg.querySelectorAll("text")].filter((text) => {
                const box = text.getBoundingClientRect();
                return box.width && (box.left < all.left - 1 || box.right > all.right + 1
                    || box.top < all.top - 1 || box.bottom > all.bottom + 1);
            }).map((text) => text.textContent);
        })"""
    )
    return found
