"""Each instrument used rightly accuses of nothing, and used wrongly is told: at the table, on deck."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import pytest

from navlib import questions
from navlib.angles import wrap
from navlib.chain.question import Question
from navlib.desk.by_hand import by_hand
from navlib.desk.evidence.finding import Spot, figures, towards
from navlib.desk.evidence.lengths import way_on
from navlib.desk.handling import measured_part, norths_on, told
from navlib.kinds.angles import Bearing
from navlib.kinds.marks import OnSheet
from navlib.kinds.quantities import Distance
from navlib.marking import Outcome, mark
from navlib.pictures.drawn import roses, sheet, window
from navlib.pictures.pencilled import drawn_answers, key_lies
from navlib.questions.deck import on_deck
from navlib.questions.picture import SheetWindow

Lies = dict[str, Any]


def off(spot: Spot, way: float, by: float) -> Spot:
    """Return the spot so many millimetres from another, in a direction from the sheet's up."""
    t = math.radians(way)
    return spot[0] + by * math.sin(t), spot[1] - by * math.cos(t)


class Work:
    """A question with its sheet before one; the lies it makes are as a browser sends them."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.window = window(question.picture)
        self.part = measured_part(question)

    def spot(self, place: Any) -> Spot:
        x, y = self.window.place(float(place[0]), float(place[1]))
        return float(x), float(y)

    @property
    def spots(self) -> list[Spot]:
        return [self.spot((s.easting, s.northing)) for s in self.question.picture.spots]

    @property
    def a(self) -> Spot:
        return self.spots[0]

    @property
    def line(self) -> float:
        """Which way the line to measure runs, or the one to draw."""
        if isinstance(self.question.chain.by_name[self.part].kind, OnSheet):
            key = key_lies(self.question)["pencil line"][0]
            return towards((key["x1"], key["y1"]), (key["x2"], key["y2"]))
        return towards(*self.spots[:2])

    @property
    def far(self) -> float:
        return math.dist(*self.spots[:2])

    @property
    def mile(self) -> float:
        return way_on(self.spots, self.window, None).mile_mm

    @property
    def longitude_minute(self) -> float:
        return way_on(self.spots, self.window, None).others_mm["longitude-scale"]

    def written(self, value: float) -> str:
        return self.question.chain.by_name[self.part].kind.write(value)

    def miles(self, on_paper: float, unit: float | None = None) -> str:
        """Return a length on paper as so many miles, each as long as `unit`, mm."""
        return f"{on_paper / (unit or self.mile):.2f} NM"

    def ring(self, arm: float) -> str:
        return f"{figures(arm)} {self.question.chain.by_name[self.part].kind.north}"

    # What lies on the sheet ---------------------------------------------------------------------

    def pencil(self, a: Spot, b: Spot) -> Lies:
        return {"pencil line": [ends(a, b, label="")]}

    def protractor(self, turn: float = 0.0, astray: float = 0.0, name: str = "protractor") -> Lies:
        north = "T" if self.question.picture.sheet == "sea chart" else "G"
        turn = wrap(self.norths[north] + turn)
        return {name: at(self.a, turn=turn, arm=wrap(self.line + astray - turn))}

    def soft(self, turn: float = 0.0, astray: float = 0.0) -> Lies:
        return self.protractor(turn, astray, "soft protractor")

    @property
    def norths(self) -> Mapping[str, float]:
        return norths_on(self.question, self.window).by_letter

    def rule(self, turn: float = 0.0, past: float = 0.0) -> Lies:
        """Return a rule whose bar 1 passes the sheet's first rose so far right of the middle."""
        rose = roses(self.question.picture)[0]
        way = self.line + turn
        return {
            "parallel rule": at(off((rose.x, rose.y), way + 90, past), turn=wrap(way), gap=20.0)
        }

    def by_rose(self, past: float) -> float:
        return wrap(
            self.line + math.degrees(math.asin(past / roses(self.question.picture)[0].radius))
        )

    def dividers(self, opening: float, border: str = "side") -> Lies:
        f = self.window.frame
        if border == "top":
            return {"dividers": ends((f.left + 5, f.top), (f.left + 5 + opening, f.top), steps=0)}
        low = min(max(self.a[1] + opening / 2, f.top + opening), f.bottom)
        return {"dividers": ends((f.left, low), (f.left, low - opening), steps=0)}

    def cord(self, points: list[Spot], knots: float | None = None) -> Lies:
        lie: Lies = {"points": [list(p) for p in points], "straight": None}
        return {"cord": lie} if knots is None else {"knotted cord": {**lie, "knots": knots}}

    def coast(self, bay: float = 0.0) -> list[Spot]:
        """Return spots along the coast, all those inside its middle half left out for a bay."""
        points = [self.spot(place) for place in self.question.givens["coast"].points]
        n = len(points)
        return points if not bay else [*points[: n // 4], *points[3 * n // 4 :]]

    def ruler(self, beside: float = 0.0) -> Lies:
        return {"ruler": at(off(self.a, self.line, -beside), turn=self.line)}

    def romer(self, scale: int | None = None, turn: float = 0.0) -> Lies:
        return {"romer": at(self.a, turn=turn, scale=scale or self.question.picture.scale)}

    def thumb(self, steps: int | None = None, turn: float = 0.0, width: float = 20.0) -> Lies:
        steps = int(self.far // width) if steps is None else steps
        way = wrap(self.line + turn)
        edge = off(self.a, way, steps * width)
        return {"thumb": at(edge, turn=way, width=width, steps=steps)}


def at(spot: Spot, **more: Any) -> Lies:
    return {"x": spot[0], "y": spot[1], **more}


def ends(a: Spot, b: Spot, **more: Any) -> Lies:
    return {"x1": a[0], "y1": a[1], "x2": b[0], "y2": b[1], **more}


def slack(work: Work, by: float) -> list[Spot]:
    """Return points of a cord that sags to one side of the leg between its ends."""
    a, b = work.spots[:2]
    middle = off(off(a, work.line, work.far / 2), work.line + 90, by)
    return [a, middle, b]


def table(kind: str, seed: int) -> Callable[[], Work]:
    return lambda: Work(questions.make(kind, seed))


def deck(kind: str, seed: int) -> Callable[[], Work]:
    def made() -> Work:
        question = on_deck(questions.make(kind, seed))
        assert question is not None
        return Work(question)

    return made


@dataclass(frozen=True)
class Use:
    """An instrument laid rightly and wrongly for a task, what someone then answers, and what is told."""

    task: Callable[[], Work]
    right: Callable[[Work], Lies]
    wrong: Callable[[Work], Lies]
    answer: Callable[[Work], str]
    says: str


LINE, ROSE = table("bearings.measure", 3), table("variation.chart-to-compass", 3)
CHART, COAST = table("distance.by-latitude", 2), table("distance.coast-steps", 1)
MAP_LEG, REFERENCE = table("speed.on-the-map", 2), table("position.six-figures", 1)
SOFT_LINE, COURSE = deck("bearings.measure", 3), deck("bearings.plot-course", 0)
CHART_LEG, ROUND = deck("distance.by-latitude", 2), deck("distance.round-the-head", 1)
TIED = deck("speed.on-the-map", 2)

USES: dict[str, Use] = {
    "pencil line: misses a place": Use(
        LINE,
        lambda w: w.pencil(*w.spots),
        lambda w: w.pencil(w.a, off(w.spots[1], w.line + 90, 10)),
        lambda w: w.ring(w.line + math.degrees(math.atan2(10, w.far))),
        "Your pencil line misses B by 10 mm.",
    ),
    "protractor: turned": Use(
        LINE,
        lambda w: w.protractor(),
        lambda w: w.protractor(turn=20),
        lambda w: w.ring(w.line - 20),
        "the protractor is turned 20° clockwise from the grid lines.",
    ),
    "protractor: its arm beside the line": Use(
        LINE,
        lambda w: w.protractor(),
        lambda w: w.protractor(astray=12),
        lambda w: w.ring(w.line + 12),
        "The arm runs 12° to the right of the line from A to B.",
    ),
    "rule: slewed": Use(
        ROSE,
        lambda w: w.rule(),
        lambda w: w.rule(turn=9),
        lambda w: w.ring(w.line + 9),
        "The rule’s edges run 9° to the right of your line.",
    ),
    "rule: not on the middle of the rose": Use(
        ROSE,
        lambda w: w.rule(),
        lambda w: w.rule(past=4),
        lambda w: w.ring(w.by_rose(4)),
        "passes the middle of the rose at 4 mm",
    ),
    "dividers: on the top border": Use(
        CHART,
        lambda w: w.dividers(w.far),
        lambda w: w.dividers(w.far, "top"),
        lambda w: w.miles(w.far, w.longitude_minute),
        "The dividers stand on the top border.",
    ),
    "dividers: another opening": Use(
        CHART,
        lambda w: w.dividers(w.far),
        lambda w: w.dividers(w.far + 12),
        lambda w: w.miles(w.far + 12),
        "and the leg is",
    ),
    "cord: jumps a bay": Use(
        COAST,
        lambda w: w.cord(w.coast()),
        lambda w: w.cord(w.coast(bay=1)),
        lambda w: w.written(0.6 * w.question.values[w.part]),
        "The cord leaves the coast by",
    ),
    "ruler: its zero beside the place": Use(
        MAP_LEG,
        lambda w: w.ruler(),
        lambda w: w.ruler(beside=10),
        lambda w: w.miles(w.far + 10),
        "The ruler’s zero lies 10 mm from the place",
    ),
    "romer: the corner of the other scale": Use(
        REFERENCE,
        lambda w: w.romer(),
        lambda w: w.romer(scale=50_000),
        lambda w: "NB 900 900",
        "The romer lies there with its corner for 1:50",
    ),
    "romer: not along the grid": Use(
        REFERENCE,
        lambda w: w.romer(),
        lambda w: w.romer(turn=12),
        lambda w: "NB 900 900",
        "The romer is turned 12° from the grid.",
    ),
    "soft protractor: to the learner's own up": Use(
        SOFT_LINE,
        lambda w: w.soft(turn=4),  # nobody sees as much on film
        lambda w: w.soft(turn=13),
        lambda w: w.ring(w.line - 13),
        "the protractor is turned 13° clockwise from the grid lines.",
    ),
    "soft protractor: its thread the other way": Use(
        SOFT_LINE,
        lambda w: w.soft(),
        lambda w: w.soft(astray=180),
        lambda w: w.ring(w.line + 180),
        "The thread points from B to A.",
    ),
    "soft protractor: read at the tail": Use(
        SOFT_LINE,
        lambda w: w.soft(astray=-3),
        lambda w: w.soft(),
        lambda w: w.ring(w.line + 180),
        "The protractor lies right, and its ring shows 121, not 301.",
    ),
    "soft protractor: misread": Use(
        SOFT_LINE,
        lambda w: w.soft(),
        lambda w: w.soft(),
        lambda w: w.ring(w.line + 30),
        "So it is not the measuring.",
    ),
    "knotted cord: slack": Use(
        CHART_LEG,
        lambda w: w.cord(w.spots, w.mile),
        lambda w: w.cord(slack(w, 20), w.mile),
        lambda w: w.miles(2 * math.hypot(20, w.far / 2)),
        "It lies slack, and shows more miles than there are.",
    ),
    "knotted cord: past a turn": Use(
        ROUND,
        lambda w: w.cord(w.spots, w.mile),
        lambda w: w.cord([w.a, w.spots[-1]], w.mile),
        lambda w: w.miles(math.dist(w.a, w.spots[-1])),
        "The cord passes ",
    ),
    "knotted cord: by the wrong border": Use(
        CHART_LEG,
        lambda w: w.cord(w.spots, w.mile / 2),
        lambda w: w.cord(w.spots, w.longitude_minute),
        lambda w: w.miles(w.far, w.longitude_minute),
        "The knots are 29 mm apart, and a mile is 37 mm on this sheet. Yours, ",
    ),
    "knotted cord: by kilometres": Use(
        TIED,
        lambda w: w.cord(w.spots, w.mile),
        lambda w: w.cord(w.spots, w.mile / 1.852),
        lambda w: w.miles(1.852 * w.far),
        "and a mile is 74 mm on this sheet.",
    ),
    "knotted cord: miscounted": Use(
        CHART_LEG,
        lambda w: w.cord(w.spots, w.mile),
        lambda w: w.cord(w.spots, w.mile),
        lambda w: w.miles(w.far + w.mile),
        "A knot was miscounted.",
    ),
    "thumb: beside the line": Use(
        CHART_LEG,
        lambda w: w.thumb(),
        lambda w: w.thumb(turn=18),
        lambda w: w.miles(w.far + 0.4 * w.mile),
        "The thumb was walked 18° beside the line from A to B.",
    ),
    "thumb: does not reach": Use(
        CHART_LEG,
        lambda w: w.thumb(width=16),
        lambda w: w.thumb(steps=2, width=16),
        lambda w: w.miles(2 * 16),
        "It did not reach B.",
    ),
    "thumb: a breadth too many": Use(
        CHART_LEG,
        lambda w: w.thumb(),
        lambda w: w.thumb(),
        lambda w: w.miles(w.far + 20),
        "Your figure has one breadth too many.",
    ),
    "thumb: breadths for miles": Use(
        CHART_LEG,
        lambda w: w.thumb(),
        lambda w: w.thumb(),
        lambda w: w.miles(w.far, 20),
        "You gave the breadths for miles.",
    ),
    "thumb: its worth on the wrong border": Use(
        CHART_LEG,
        lambda w: w.thumb(),
        lambda w: w.thumb(),
        lambda w: w.miles(w.far, w.longitude_minute),
        "breadths long. Yours, ",
    ),
    "thumb: its worth on the scale": Use(
        CHART_LEG,
        lambda w: w.thumb(),
        lambda w: w.thumb(),
        lambda w: w.miles(1.6 * w.far),
        "how far does one breadth reach on the scale?",
    ),
}


@pytest.mark.parametrize("use", USES.values(), ids=USES)
def test_a_right_use_accuses_of_nothing_and_a_wrong_one_is_told(use: Use):
    work = use.task()
    asked = work.question
    key = mark(asked, asked.answers)
    assert told(asked, key, use.right(work)) == key
    answers = {**asked.answers, work.part: use.answer(work)}
    judged = told(asked, mark(asked, answers), use.wrong(work))
    (part,) = (part for part in judged.parts if part.name == work.part)
    assert part.outcome is Outcome.WRONG
    assert use.says in " ".join(part.says)


@pytest.mark.parametrize(
    ("north", "figure", "says"),
    [
        (
            "M",
            "true",
            "which is right, but the protractor stands on magnetic north, not on true north.",
        ),
        ("T", "magnetic", "the compass’s own figure, and the protractor stands on true north."),
    ],
)
def test_a_course_laid_off_with_a_soft_protractor_from_the_wrong_north_is_told(north, figure, says):
    work = COURSE()
    asked, turn = work.question, work.norths[north]
    arm = (asked.values | asked.givens)[figure]
    key = key_lies(asked)["pencil line"][0]
    begin = (key["x1"], key["y1"])
    lies = work.pencil(begin, off(begin, turn + arm, 60))
    lies["soft protractor"] = at(begin, turn=turn, arm=arm)
    part = told(asked, mark(asked, drawn_answers(asked, lies)), lies).parts[-1]
    assert part.outcome is Outcome.WRONG
    assert f"The thread shows {figures(arm)} on the ring, {says}" in " ".join(part.says)


def test_the_roses_that_a_rule_is_walked_to_are_those_on_the_sheet():
    picture = ROSE().question.picture
    written = sheet(picture).names
    words = [word for rose in roses(picture) for word in rose.word_boxes()]
    assert len(words) > 1
    assert all(word in written for word in words)


def exactly(question: Question) -> list[Lies]:
    """Return ways to lay each instrument on the sheet of a question, all without an error."""
    work = Work(question)
    kind = question.chain.by_name[work.part].kind
    found = [movement.lies for movement in by_hand(question)[1]]
    if isinstance(kind, Bearing) and len(work.spots) > 1:
        found += [work.protractor(), work.soft(), work.pencil(*work.spots[:2])]
        if kind.north == "T" and roses(question.picture):
            found.append(work.rule())
    elif isinstance(kind, Distance) and "coast" not in question.givens:
        found += [work.cord(work.spots, mm) for mm in (None, 0.0, work.mile, work.mile / 2, 17.0)]
        found += [work.thumb(), work.thumb(width=13.0), work.thumb(steps=1)]
        found.append(work.ruler())
    return found


@pytest.mark.parametrize(
    "kind",
    [k for k in questions.kinds() if isinstance(questions.make(k, 1).picture, SheetWindow)],
)
def test_what_lies_exactly_is_never_a_fault(kind: str):
    for seed in range(6):
        made = questions.make(kind, seed)
        for question in filter(None, (made, on_deck(made))):
            if not measured_part(question):
                continue
            right = mark(question, question.answers)
            for lies in exactly(question):
                assert told(question, right, lies) == right, (seed, lies)


@pytest.mark.parametrize(
    "kind", ["bearings.measure", "distance.by-latitude", "position.six-figures"]
)
def test_nonsense_from_a_browser_is_passed_over(kind: str):
    asked = questions.make(kind, 1)
    wrong = mark(asked, {**asked.answers, measured_part(asked): "1"})
    lies = {
        "cord": {"points": [[10, 10]], "straight": None},
        "knotted cord": {"points": [], "straight": None, "knots": -3},
        "thumb": at((10, 10), turn=0, width=0, steps=4),
        "dividers": ends((60, 60), (60, 60), steps=0),
        "pencil line": [ends((9, 9), (9, 9))],
    }
    assert told(asked, wrong, lies) == wrong


def test_a_way_round_a_head_goes_over_its_marked_spots():
    work = ROUND()
    way = way_on(work.spots, work.window, None)
    assert way.length / way.mile_mm == pytest.approx(
        work.question.values[work.part] / 1852, rel=0.01
    )
