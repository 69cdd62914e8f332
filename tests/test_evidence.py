"""Each instrument used rightly accuses of nothing, and used wrongly is told: at the table, on deck."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from sheet_work import Lies, Work, at, deck, ends, off, slack, table

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.by_hand import by_hand
from navlib.desk.evidence.finding import figures
from navlib.desk.evidence.lengths import way_on
from navlib.desk.handling import measured_part, told
from navlib.kinds.angles import Bearing
from navlib.kinds.quantities import Distance
from navlib.marking import Outcome, mark
from navlib.pictures.drawn import roses, sheet
from navlib.pictures.pencilled import drawn_answers, key_lies
from navlib.questions.deck import on_deck
from navlib.questions.picture import SheetWindow


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
