"""Hands, keys and fingers at the chart table: what each instrument does, and how well it measures."""

import json
import math
import random
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any, NamedTuple

import pytest
from hands import Hands, Spot, ends, near
from pages import opened
from playwright.sync_api import Browser, Page, expect
from pyproj import Geod, Proj
from rig import Lab, wait_until

from navlib.instruments import Dividers, Protractor, on_ground
from navlib.sheets import Sheet
from navlib.sheets.window import MercatorWindow
from navlib.widgets import chart_table

TABLE = """\
import ipywidgets, json
from navlib.widgets import chart_table
from navlib.widgets.table import EVERY_TOOL
from navlib.instruments import Protractor
table = chart_table("kessoray", "{sheet}", tools=EVERY_TOOL, title="{sheet}")
heard = ipywidgets.Label("heard {{}}")
def hear(change, heard=heard):
    heard.value = "heard " + json.dumps(change["new"])
table.observe(hear, "lies")
shows = ipywidgets.Button(description="Python lays it")
shows.on_click(lambda _, table=table: table.lay(Protractor(table.sheet.grid_at(60, 50), 350, 20)))
ipywidgets.VBox([table, shows, heard])"""
CARD = """\
from navlib.desk import Exercise
from navlib.record import Record
from navlib.widgets import Card
class Telling(Exercise):
    def face(self):
        return super().face() | {{"standing": str(self.lies.get("protractor", ""))}}
Card(Telling("bearings", 1, Record("{name}.sqlite")))"""


class Bench(NamedTuple):
    """A table in the browser, and the same sheet here."""

    hands: Hands
    sheet: Sheet

    def lie(self, name: str) -> Any:
        """Return where an instrument lies, as the page tells."""
        return self.hands.lies()[name]


@pytest.fixture(scope="module")
def table_page(browser: Browser, lab: Lab) -> Iterator[Page]:
    cells = ["# Tables", *(TABLE.format(sheet=s) for s in ("land map", "sea chart"))]
    how = {"viewport": {"width": 1366, "height": 900}, "reduced_motion": "reduce"}
    with opened(browser, lab, "tables", cells, **how) as page:
        yield page


@pytest.fixture
def bench(table_page: Page, request: pytest.FixtureRequest) -> Iterator[Bench]:
    """A table with nothing on it; the land map unless the test asks for the sea chart."""
    sort = getattr(request, "param", "land map")
    page, table = table_page, table_page.locator(".nav-chart-table", has_text=sort)
    hands = Hands(page, table)
    table.locator(".nav-stage").wait_for()
    yield Bench(hands, SHEETS[sort])
    hands.page.keyboard.press("Escape")
    taken = table.locator(".nav-taken")
    while many := taken.count():
        taken.first.click()
        expect(taken).to_have_count(many - 1)
    for thing in ("Beginning of the line", "Pencil mark"):
        while hands.part(thing).count():
            hands.keys(thing, "Delete")
    if hands.seen()[0] or hands.seen()[1]:
        hands.press("Whole sheet")


SHEETS = {sort: chart_table("kessoray", sort).sheet for sort in ("land map", "sea chart")}


# Each instrument ----------------------------------------------------------------------------------


def test_pencil_lines_are_drawn_named_shifted_and_rubbed_out(bench: Bench):
    hands = bench.hands
    hands.press("Draw a pencil line")
    hands.drag((60, 60), (120, 90))
    hands.table.get_by_label("Write beside the line").fill("course")
    hands.keys("The line", "ArrowRight", "ArrowDown", "Shift+ArrowDown")
    (line,) = bench.lie("pencil line")
    assert line["label"] == "course"
    assert ends(line) == (near((61, 61.1)), near((121, 91.1)))
    hands.keys("End of the line", "PageUp")
    assert bench.lie("pencil line")[0]["y2"] == pytest.approx(line["y2"] - 10)
    hands.press("Eraser")
    hands.see()
    hands.page.mouse.click(*hands.screen((61, 61)))
    assert "pencil line" not in hands.lies()
    hands.press("Undo")
    assert len(bench.lie("pencil line")) == 1


def test_the_pencil_is_guided_by_an_edge(bench: Bench):
    hands = bench.hands
    hands.press("Take the ruler")
    x, y = (bench.lie("ruler")[k] for k in "xy")
    hands.press("Draw a pencil line")
    hands.drag((x + 20, y - 1.2), (x + 80, y + 0.9))
    assert ends(bench.lie("pencil line")[0]) == (near((x + 20, y), 0.5), near((x + 80, y), 0.5))
    assert bench.lie("pencil line")[0]["y1"] == pytest.approx(y)


def test_a_mark_is_made_by_mouse_and_by_keyboard(bench: Bench):
    hands = bench.hands
    hands.press("Make a pencil mark")
    hands.see()
    hands.page.mouse.click(*hands.screen((80, 70)))
    hands.table.get_by_label("Write beside the mark").fill("A")
    button = hands.table.get_by_role("button", name="Make a pencil mark")
    button.focus()
    hands.page.keyboard.press("Enter")
    hands.page.keyboard.press("ArrowLeft")
    first, second = bench.lie("pencil mark")
    assert (first["x"], first["y"]) == near((80, 70))
    assert first["label"] == "A"
    assert second["x"] == pytest.approx(bench.sheet.width_mm / 2 - 1)
    hands.page.keyboard.press("Delete")
    assert len(bench.lie("pencil mark")) == 1


def test_the_parallel_rule_keeps_its_direction_when_walked_and_loses_it_when_slewed(bench: Bench):
    hands = bench.hands
    hands.press("Take the parallel rule")
    hands.keys("Slew the rule by its right end", *["ArrowRight"] * 3)
    start = bench.lie("parallel rule")
    assert start["turn"] == 93
    for _ in range(2):  # a walk: bar 2 out, then bar 1 after it
        hands.pull(hands.part("Bar 2").locator(".nav-glass"), (0, 25))
        hands.pull(hands.part("Bar 1").locator(".nav-bar-name"), (0, 25))
    walked = bench.lie("parallel rule")
    assert walked["turn"] == start["turn"]
    assert walked["y"] - start["y"] == pytest.approx(50, abs=4)
    hands.pull(hands.part("Slew the rule by its left end"), (0, -8))
    assert bench.lie("parallel rule")["turn"] > start["turn"] + 2


def test_dividers_open_step_and_are_counted_and_carried(bench: Bench):
    hands = bench.hands
    hands.press("Take the dividers")
    hands.pull(hands.part("Point 2"), (-10, 0))
    (x1, y1), (x2, y2) = ends(bench.lie("dividers"))
    opening = math.hypot(x2 - x1, y2 - y1)
    assert opening == pytest.approx(20, abs=0.6)
    hands.press("Step on")
    hands.press("Step on")
    hands.keys("Head of the dividers", "Enter")
    lie = bench.lie("dividers")
    assert lie["steps"] == 3
    assert ends(lie)[1] == near((x2 + 3 * (x2 - x1), y2 + 3 * (y2 - y1)), 0.05)
    expect(hands.table.locator(".nav-count")).to_have_text("Steps: 3")
    hands.keys("Swing point 1", *["PageUp"] * 2)
    assert math.dist(*ends(bench.lie("dividers"))) == pytest.approx(opening, abs=0.02)
    hands.pull(hands.part("Head"), (5, -20))
    assert math.dist(*ends(bench.lie("dividers"))) == pytest.approx(opening, abs=0.02)
    assert bench.lie("dividers")["steps"] == 0


def test_a_cord_is_laid_along_a_way_and_pulled_straight(bench: Bench):
    hands = bench.hands
    hands.press("Take the cord")
    hands.press("Lay it along a way")
    arc = [
        (100 - 30 * math.cos(a / 20 * math.pi), 80 - 30 * math.sin(a / 20 * math.pi))
        for a in range(21)
    ]
    hands.drag(arc[0], arc[-1], tuple(arc))
    points = bench.lie("cord")["points"]
    laid = sum(math.dist(a, b) for a, b in pairwise(points))
    assert laid == pytest.approx(30 * math.pi, abs=1.5)
    hands.keys("Point 1 of the cord", "Enter")
    assert len(bench.lie("cord")["points"]) == len(points) + 1
    hands.page.keyboard.press("Delete")
    assert bench.lie("cord")["points"] == points
    hands.press("Pull it straight")
    hands.keys("Straight cord", "PageDown")
    line = hands.table.locator("line.nav-cord")
    x1, y1, x2, y2 = (float(line.get_attribute(k) or 0) for k in ("x1", "y1", "x2", "y2"))
    assert math.hypot(x2 - x1, y2 - y1) == pytest.approx(laid, abs=0.02)
    hands.press("Lay it back")
    assert bench.lie("cord") == {"points": points, "straight": None}


def test_a_romer_has_a_corner_for_either_scale(bench: Bench):
    hands = bench.hands
    hands.press("Take the romer")
    lie = bench.lie("romer")
    corner = hands.part("Corner of the romer")
    hands.bring(corner.locator(".nav-hub"), (lie["x"], lie["y"]), (150, 60))
    hands.keys("Turn the romer", "Shift+ArrowRight")
    hands.press("Use the corner for 1:50 000")
    lie = bench.lie("romer")
    assert (lie["x"], lie["y"]) == near((150, 60))
    assert (lie["turn"], lie["scale"]) == (0.1, 50_000)
    # A square of 1 km is 20 mm at this scale: the last of ten tenths stands there.
    ticks = corner.locator(".nav-ticks").bounding_box()
    assert ticks is not None
    assert ticks["width"] == pytest.approx(hands.pixels(20), abs=3)


def test_a_ruler_is_turned_about_its_zero_and_is_true_to_size(bench: Bench):
    hands = bench.hands
    hands.press("Take the ruler")
    before = bench.lie("ruler")
    hands.keys("Turn the ruler", "PageDown", "ArrowLeft")
    after = bench.lie("ruler")
    assert after == {**before, "turn": 79}
    hands.keys("Turn the ruler", "PageUp", "ArrowRight")
    ticks = hands.part("Zero of the ruler").locator(".nav-ticks").bounding_box()
    assert ticks is not None
    assert ticks["width"] == pytest.approx(hands.pixels(150), abs=3)


# The sheet, and who moves things ------------------------------------------------------------------


def test_the_sheet_comes_closer_by_keys_and_is_moved_by_hand_and_by_fingers(bench: Bench):
    hands = bench.hands
    width = hands.seen()[2]
    caution = hands.table.locator(".nav-stage-caution")  # the sheet's own may be out of sight
    expect(caution).to_be_hidden()
    hands.table.locator(".nav-stage").focus()
    hands.page.keyboard.press("+")
    expect(caution).to_have_text("For training, not for navigation.")
    expect(caution).to_be_visible()
    hands.page.keyboard.press("+")
    left, top, closer, _ = hands.seen()
    assert closer == pytest.approx(width / 1.5**2)
    hands.page.keyboard.press("ArrowRight")
    assert hands.seen()[0] > left
    left = hands.seen()[0]
    middle = (left + closer / 2, top + 30)
    hands.drag(middle, (middle[0] + 20, middle[1]))
    assert hands.seen()[0] == pytest.approx(left - 20, abs=0.5)
    hands.page.keyboard.press("0")
    a, b = (80, 60), (120, 60)
    hands.touch((a,), (a, b), ((70, 60), (130, 60)), ((60, 60), (140, 60)))
    assert hands.seen()[2] == pytest.approx(width / 2, rel=0.05)
    expect(hands.table.locator("img")).to_have_js_property("complete", True)
    hands.press("Whole sheet")


def test_one_finger_moves_an_instrument_and_what_moved_is_said(bench: Bench):
    hands = bench.hands
    hands.press("Take the dividers")
    x, y = hands.sheet(hands.middle(hands.part("Point 1")))
    before = ends(bench.lie("dividers"))
    hands.touch(((x, y),), ((x - 5, y + 3),), ((x - 10, y + 6),))
    after = ends(bench.lie("dividers"))
    assert after[0] == near((before[0][0] - 10, before[0][1] + 6))
    assert after[1] == before[1]
    expect(hands.table.locator(".nav-live")).to_contain_text("Dividers: point 1")
    hands.keys("Point 1", "Control+z")
    assert ends(bench.lie("dividers")) == before


def test_python_lays_an_instrument_and_hears_where_it_goes(bench: Bench):
    hands = bench.hands
    heard = hands.page.locator(".widget-label:has-text('heard')").first
    expect(heard).to_have_text("heard {}")  # what lay there before is away for Python too
    hands.page.get_by_role("button", name="Python lays it").first.click()
    swing = hands.part("Swing the arm")
    expect(swing).to_have_attribute("aria-valuenow", "20")
    (found,) = on_ground(hands.lies(), bench.sheet.window)
    assert isinstance(found, Protractor)
    assert found.along == 10
    assert found.centre == pytest.approx(bench.sheet.grid_at(60, 50), abs=0.5)
    swing.press("ArrowRight")
    expect(heard).to_contain_text('"arm": 21')
    assert json.loads(heard.inner_text().removeprefix("heard ")) == hands.lies()


# How well it measures -----------------------------------------------------------------------------


def legs(sheet: Sheet, seed: int, count: int) -> Iterator[tuple[Spot, Spot]]:
    """Yield pairs of spots in the frame, 45 to 90 mm apart, in millimetres of the sheet."""
    source, frame = random.Random(seed), sheet.frame
    while count:
        a, b = (
            (source.uniform(frame.left, frame.right), source.uniform(frame.top, frame.bottom))
            for _ in "ab"
        )
        if 45 < math.dist(a, b) < 90:
            count -= 1
            yield a, b


def true_bearing(sheet: Sheet, a: Spot, b: Spot) -> float:
    """Return the grid bearing of a land map's line, or the rhumb line's of a chart's, by pyproj."""
    window = sheet.window
    if isinstance(window, MercatorWindow):
        mercator = Proj(proj="merc", ellps="WGS84")
        (x1, y1), (x2, y2) = (mercator(*window.lat_lon_at(*spot)[::-1]) for spot in (a, b))
    else:
        (x1, y1), (x2, y2) = (sheet.grid_at(*spot) for spot in (a, b))
    return math.degrees(math.atan2(x2 - x1, y2 - y1)) % 360


@pytest.mark.parametrize("bench", SHEETS, indirect=True)
def test_bearings_by_protractor_agree_with_pyproj(bench: Bench):
    hands = bench.hands
    for a, b in legs(bench.sheet, 6, 3):
        hands.press("Take the protractor")
        lie = bench.lie("protractor")
        hands.bring(hands.table.locator(".nav-protractor .nav-hub"), (lie["x"], lie["y"]), a)
        knob = hands.table.locator(".nav-protractor .nav-knob")
        hands.see()
        hands.drag(hands.sheet(hands.middle(knob)), b)
        lie = bench.lie("protractor")
        hands.press("Put the protractor away")
        read = (lie["turn"] + lie["arm"]) % 360
        # Point and line 0.4 mm each, as far apart as A and B; 0.7 deg of the instrument: 2 sigma.
        sigma = math.hypot(0.7, math.degrees(math.sqrt(2) * 0.4 / math.dist(a, b)))
        assert abs((read - true_bearing(bench.sheet, a, b) + 180) % 360 - 180) < 2 * sigma


@pytest.mark.parametrize("bench", SHEETS, indirect=True)
def test_distances_by_dividers_agree_with_pyproj(bench: Bench):
    hands, window = bench.hands, bench.sheet.window
    geod = Geod(ellps="WGS84")
    for a, b in legs(bench.sheet, 11, 3):
        hands.press("Take the dividers")
        hands.bring(hands.part("Point 1"), ends(bench.lie("dividers"))[0], a)
        hands.bring(hands.part("Point 2"), ends(bench.lie("dividers"))[1], b)
        (set_,) = on_ground(hands.lies(), window)
        assert isinstance(set_, Dividers)
        one, two = ends(bench.lie("dividers"))
        opening = math.dist(one, two)
        if isinstance(window, MercatorWindow):  # up the latitude border, level with the leg
            hands.bring(hands.part("Head"), one, (bench.sheet.width_mm / 2, 150))
            hands.keys("Swing point 2", *turns_to_north(*ends(bench.lie("dividers"))))
            one, two = ends(bench.lie("dividers"))
            level, frame = (a[1] + b[1]) / 2, bench.sheet.frame
            border = (frame.left, min(level + opening / 2, frame.bottom))
            hands.bring(hands.part("Head"), one, border)
            one, two = ends(bench.lie("dividers"))
            assert math.dist(one, two) == pytest.approx(opening, abs=0.03)
            minutes = (window.lat_lon_at(*two)[0] - window.lat_lon_at(*one)[0]) * 60
            read = float(minutes) * 1852
            (lat1, lon1), (lat2, lon2) = window.lat_lon_at(*a), window.lat_lon_at(*b)
            true = geod.inv(lon1, lat1, lon2, lat2)[2]
        else:
            read = opening * window.scale / 1000
            true = math.dist(bench.sheet.grid_at(*a), bench.sheet.grid_at(*b))
        # Two points and a reading; a minute of latitude here is 0.25 % longer than a mile.
        sigma = math.sqrt(0.4**2 + 0.4**2 + 0.3**2) * window.scale / 1000
        assert abs(read - true) < 2 * sigma + 0.003 * true
        hands.press("Put the dividers away")


def turns_to_north(one: Spot, two: Spot) -> list[str]:
    """Return the keys that swing point 2 until it is straight above point 1, to a tenth."""
    degrees = -math.degrees(math.atan2(two[0] - one[0], one[1] - two[1]))
    big, small = divmod(round(abs(degrees) * 10), 100)
    way = ("PageUp", "ArrowRight") if degrees > 0 else ("PageDown", "ArrowLeft")
    return [*[way[0]] * big, *[way[1]] * (small // 10), *[f"Shift+{way[1]}"] * (small % 10)]


# On a card -----------------------------------------------------------------------------------------


# Last, since its page ends the kernels of all others.
def test_a_card_sends_where_things_lie_and_a_reload_brings_them_back(
    page: Page, lab: Lab, open_lesson: Callable[[str], Page]
):
    lab.write("lying", ["# Lying", CARD.format(name="lying")])
    open_lesson("lying")
    hands = Hands(page, page.locator(".nav-card"))
    hands.keys("Middle of the protractor", "PageUp", "ArrowLeft")
    hands.keys("Swing the arm", "PageUp")
    hands.table.get_by_role("button", name="Draw a pencil line").press("Enter")
    hands.keys("Beginning of the line", "ArrowUp")
    lies = hands.lies()
    hands.press("Check")
    expect(page.locator(".nav-standing")).to_contain_text("'arm': 10")
    page.reload()
    wait_until(page, "alive")
    expect(hands.part("Swing the arm")).to_have_attribute("aria-valuenow", "10")
    assert hands.lies() == lies
    assert set(lies) == {"protractor", "pencil line"}
