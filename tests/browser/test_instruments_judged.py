"""Instruments in hand on a card: a right and a wrong use of each, and what the card says to it.

What is drawn, dividers and the protractor are in `test_plotting_in_lab`.
"""

import math
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

import pytest
from asked import asking, found, judged
from hands import Hands, Spot
from playwright.sync_api import Browser, Page, expect
from rig import Lab

from navlib.angles import signed
from navlib.chain.question import Question
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import key_lies

ASKED = {
    "variation.chart-to-compass": 3,
    "distance.round-the-head": 1,
    "distance.by-bar": 1,
    "distance.by-latitude": 2,
    "position.six-figures": 1,
    "position.plot-reference": 1,
    "bearings.measure": 3,
    "speed.on-the-map": 1,
}


class Task(NamedTuple):
    """A card, its question, and where on the sheet (mm) the places are that it is about."""

    hands: Hands
    question: Question
    spots: list[Spot]

    def lie(self, tool: str) -> Any:
        return self.hands.lies()[tool]

    @property
    def bearing(self) -> float:
        """Which way it runs from A to B on the sheet, degrees."""
        (x1, y1), (x2, y2) = self.spots[:2]
        return math.degrees(math.atan2(x2 - x1, y1 - y2)) % 360

    @property
    def mile_mm(self) -> float:
        """How long the sheet's mile is, by the answer."""
        return math.dist(*self.spots[:2]) / float(self.question.answers["distance"].split()[0])


@pytest.fixture(scope="module")
def cards(browser: Browser, lab: Lab) -> Iterator[Page]:
    with asking(browser, lab, "judged", ASKED) as page:
        yield page


def at(lie: dict[str, float]) -> Spot:
    return lie["x"], lie["y"]


def turn(hands: Hands, part: str, now: float, to: float) -> None:
    """Turn a part by whole degrees, with keys."""
    degrees = signed(to - now)
    tens, ones = divmod(round(abs(degrees)), 10)
    way = ("PageUp", "ArrowRight") if degrees > 0 else ("PageDown", "ArrowLeft")
    hands.keys(part, *[way[0]] * tens, *[way[1]] * ones)


# Each use lays the instrument, and returns what a learner then reads, or None for the right answer. ---


def rule(task: Task, askew: float) -> str:
    task.hands.press("Take the parallel rule")
    now = task.lie("parallel rule")["turn"]
    turn(task.hands, "Slew the rule by its right end", now, task.bearing + askew)
    lift = task.hands.part("Lift the rule")
    task.hands.bring(lift.locator(".nav-hub"), at(task.lie("parallel rule")), task.spots[0])
    return f"{task.lie('parallel rule')['turn']:03.0f} T"


def cord(task: Task, by_way_of: list[Spot]) -> str | None:
    task.hands.press("Take the cord")
    task.hands.press("Lay it along a way")
    first, *between, last = by_way_of
    task.hands.drag(first, last, tuple(between))
    return None


def ruler(task: Task, short_mm: float) -> str:
    (x1, y1), (x2, y2) = task.spots
    length = math.dist(*task.spots)
    hands = task.hands
    hands.press("Take the ruler")
    turn(hands, "Turn the ruler", task.lie("ruler")["turn"], task.bearing)
    share = short_mm / length
    zero = hands.part("Zero of the ruler").locator(".nav-zero")
    hands.bring(zero, at(task.lie("ruler")), (x1 + share * (x2 - x1), y1 + share * (y2 - y1)))
    return f"{(length - short_mm) / task.mile_mm:.2f} NM"


def romer(task: Task, scale: str) -> str | None:
    hands = task.hands
    hands.press("Take the romer")
    corner = hands.part("Corner of the romer").locator(".nav-hub")
    hands.bring(corner, at(task.lie("romer")), task.spots[0])
    if scale:
        hands.press(f"Use the corner for {scale}")
    return None


def soft_protractor(task: Task, askew: float) -> str:
    hands = task.hands
    hands.press("Take the soft protractor")
    middle = hands.part("Middle of the protractor").locator(".nav-hub")
    hands.bring(middle, at(task.lie("soft protractor")), task.spots[0])
    lie = task.lie("soft protractor")
    turn(hands, "Turn the protractor", lie["turn"], askew)
    turn(hands, "Swing the arm", lie["arm"], task.bearing - askew)
    return f"{task.lie('soft protractor')['arm']:03.0f} G"


def knotted_cord(task: Task, apart_mm: float) -> str:
    hands = task.hands
    hands.press("Take the cord with knots")
    (x1, y1), (x2, y2) = task.spots
    share = apart_mm / math.dist(*task.spots)
    hands.press("Lay it along a way")
    hands.drag((x1, y1), (x1 + share * (x2 - x1), y1 + share * (y2 - y1)))
    hands.press("Tie knots this far apart")
    hands.press("Lay it along a way")
    hands.drag(*task.spots)
    return f"{math.dist(*task.spots) / task.lie('knotted cord')['knots']:.2f} NM"


def thumb(task: Task, miles: Callable[[float], float]) -> str:
    hands, (a, _) = task.hands, task.spots
    hands.press("Lay the thumb on")
    turn(hands, "Turn the thumb", task.lie("thumb")["turn"], task.bearing)
    hands.bring(hands.part("Thumb: move it").locator(".nav-ghost"), at(task.lie("thumb")), a)
    length = math.dist(*task.spots)
    breadths = length / task.lie("thumb")["width"]
    hands.keys("Thumb: move it", *["Enter"] * math.floor(breadths))
    return f"{miles(breadths):.2f} NM"


Use = Callable[[Task], str | None]


class Case(NamedTuple):
    """An instrument used for a kind of question: wrongly, so that this is said, and rightly."""

    tool: str
    kind: str
    wrong: Use
    says: str
    right: Use
    deck: bool = False


CASES = (
    Case(
        "parallel rule",
        "variation.chart-to-compass",
        lambda task: rule(task, 9),
        "rule",
        lambda task: rule(task, 0),
    ),
    Case(
        "cord",
        "distance.round-the-head",
        lambda task: cord(task, [task.spots[0], task.spots[-1]]) or "3.0 NM",
        "cord",
        lambda task: cord(task, task.spots),
    ),
    Case(
        "ruler",
        "distance.by-bar",
        lambda task: ruler(task, 9),
        "ruler",
        lambda task: ruler(task, 0),
    ),
    Case(
        "romer",
        "position.six-figures",
        lambda task: romer(task, "1:50 000") or "HV 918 043",
        "romer",
        lambda task: romer(task, "1:25 000"),
    ),
    Case(
        "soft protractor",
        "bearings.measure",
        lambda task: soft_protractor(task, 15),
        "protractor",
        lambda task: soft_protractor(task, 0),
        deck=True,
    ),
    Case(
        "knotted cord",
        "distance.by-latitude",
        lambda task: knotted_cord(task, 24),
        "knots",
        lambda task: knotted_cord(task, task.mile_mm),
        deck=True,
    ),
    Case(
        "thumb",
        "speed.on-the-map",
        lambda task: thumb(task, lambda breadths: breadths),
        "thumb",
        lambda task: thumb(task, lambda breadths: breadths * 20 / task.mile_mm),
        deck=True,
    ),
)
AWAY = {"thumb": "Take the thumb off", "knotted cord": "Put the cord with knots away"}


def task_of(page: Page, kind: str) -> Task:
    hands, question = found(page, kind, ASKED[kind])
    on_sheet = window(question.picture)
    spots = [on_sheet.place(spot.easting, spot.northing) for spot in question.picture.spots]
    return Task(hands, question, [(float(x), float(y)) for x, y in spots])


@pytest.mark.parametrize("case", CASES, ids=[case.tool for case in CASES])
def test_a_wrong_use_is_told_and_a_right_one_is_right(cards: Page, case: Case):
    task = task_of(cards, case.kind)
    hands, question = task.hands, task.question
    away = AWAY.get(case.tool, f"Put the {case.tool} away")
    if case.deck:
        hands.press("On deck")
        expect(hands.table.locator(".nav-stage-caution")).to_be_visible()

    def answered(use: Use, outcome: str) -> str:
        read = use(task) or question.answers[question.asks[0]]
        box = hands.table.get_by_role("textbox", name=question.prompts[question.asks[0]])
        box.first.fill(read)
        return judged(hands, outcome)

    assert case.says in answered(case.wrong, "wrong").lower()
    hands.press(away)
    assert "costs nothing" not in answered(case.right, "right")


def test_the_eraser_takes_away_what_counted(cards: Page):
    hands, question, _ = task_of(cards, "position.plot-reference")
    (key,) = key_lies(question)["pencil mark"]
    right, wrong = at(key), (key["x"] + 14, key["y"] - 9)

    def mark(spot: Spot) -> None:
        hands.press("Make a pencil mark")
        hands.see()
        hands.page.mouse.click(*hands.screen(spot))

    mark(right)
    mark(wrong)
    hands.press("Eraser")
    for rubbed, outcome in ((right, "wrong"), (wrong, "right")):
        hands.see()
        hands.page.mouse.click(*hands.screen(rubbed))
        assert len(hands.lies()["pencil mark"]) == 1
        judged(hands, outcome)
        if outcome == "wrong":
            hands.press("Undo")
