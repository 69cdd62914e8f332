"""What hands do on a chart table in the browser: take, drag, press, touch, in millimetres of sheet."""

import json
from typing import Any

import pytest
from playwright.sync_api import Locator, Page

Spot = tuple[float, float]


def near(spot: Spot, within_mm: float = 0.4) -> Any:
    return pytest.approx(spot, abs=within_mm)


def ends(lie: Any) -> tuple[Spot, Spot]:
    return (lie["x1"], lie["y1"]), (lie["x2"], lie["y2"])


class Hands:
    """Hands on one chart table or card, whose `lies` the front end tells."""

    def __init__(self, page: Page, table: Locator) -> None:
        self.page, self.table = page, table
        self.space = table.locator(".nav-overlay")

    def see(self) -> None:
        """Bring the whole sheet into sight."""
        self.table.locator(".nav-stage").evaluate(
            "(node) => node.scrollIntoView({block: 'center'})"
        )

    def screen(self, spot: Spot) -> Spot:
        """Return where a spot of the sheet (mm) is on the screen."""
        x, y = self.space.evaluate(
            """(space, [x, y]) => {
                const at = new DOMPoint(x, y).matrixTransform(space.getScreenCTM());
                return [at.x, at.y];
            }""",
            list(spot),
        )
        return x, y

    def sheet(self, screen: Spot) -> Spot:
        """Return which spot of the sheet (mm) is there on the screen."""
        x, y = self.space.evaluate(
            """(space, [x, y]) => {
                const at = new DOMPoint(x, y).matrixTransform(space.getScreenCTM().inverse());
                return [at.x, at.y];
            }""",
            list(screen),
        )
        return x, y

    def pixels(self, millimetres: float) -> float:
        """Return how long so much of the sheet is on the screen."""
        return self.screen((millimetres, 0))[0] - self.screen((0, 0))[0]

    def press(self, name: str) -> None:
        self.table.get_by_role("button", name=name, exact=True).click()

    def part(self, name: str) -> Locator:
        """Return the part of an instrument whose name begins so."""
        return self.table.locator(f".nav-handle[aria-label^='{name}']").last

    def middle(self, thing: Locator) -> Spot:
        box = thing.bounding_box()
        assert box is not None
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def drag(self, start: Spot, end: Spot, by_way_of: tuple[Spot, ...] = ()) -> None:
        """Drag from one spot of the sheet (mm) to another."""
        self.see()
        self.page.mouse.move(*self.screen(start))
        self.page.mouse.down()
        for spot in by_way_of:
            self.page.mouse.move(*self.screen(spot))
        self.page.mouse.move(*self.screen(end), steps=3)
        self.page.mouse.up()

    def pull(self, grip: Locator, by: Spot) -> None:
        """Drag a grip by so many millimetres of the sheet."""
        self.see()
        x, y = self.sheet(self.middle(grip))
        self.drag((x, y), (x + by[0], y + by[1]))

    def bring(self, grip: Locator, now: Spot, to: Spot) -> None:
        """Drag a grip so that what stands at `now` comes to stand at `to` (mm)."""
        self.pull(grip, (to[0] - now[0], to[1] - now[1]))

    def keys(self, part: str, *keys: str) -> None:
        self.part(part).focus()
        for key in keys:
            self.page.keyboard.press(key)

    def touch(self, *steps: tuple[Spot, ...]) -> None:
        """Touch with as many fingers as a step has spots (mm), move from step to step, and lift."""
        self.see()
        session = self.page.context.new_cdp_session(self.page)
        fingers = [[self.screen(spot) for spot in step] for step in steps]
        for n, step in enumerate(fingers):
            points = [{"x": x, "y": y, "id": k} for k, (x, y) in enumerate(step)]
            kind = "touchMove" if n else "touchStart"
            session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
            self.page.wait_for_timeout(50)  # a browser tells of fingers once a frame
        session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        session.detach()

    def lies(self) -> Any:
        """Return where all instruments lie, in mm of sheet, as the page tells."""
        return json.loads(self.table.locator(".nav-stage").get_attribute("data-lies") or "{}")

    def seen(self) -> list[float]:
        """Return what of the sheet is seen: left, top, width, height in mm."""
        return [float(n) for n in (self.space.get_attribute("viewBox") or "").split()]
