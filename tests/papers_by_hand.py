"""Papers put together by hand, for tests of marking: a row of one kind a question."""

from datetime import date

from navlib import questions
from navlib.paper.blueprint import Blueprint, Row
from navlib.paper.lots import code
from navlib.paper.variants import Item, Paper

SECRET = b"for tests alone"
KINDS = (
    "bearings.measure",
    "bearings.true-to-compass",
    "variation.compass-error",
    "distance.photocopy",
    "speed.eta",
    "position.six-figures",
    "tides.bridge-and-sill",
    "tides.height-at",
    "bearings.three-norths",
    "speed.first-there",
)


def blueprint(kinds=KINDS, marks=6, working=2, notation=1):
    rows = tuple(
        Row(number, questions.question_type(kind).topic, (kind,), marks, working, 6.0)
        for number, kind in enumerate(kinds, 1)
    )
    days = date(2026, 3, 1), date(2026, 10, 31)
    pass_mark = len(rows) * marks * 7 // 10
    return Blueprint(
        *("by-hand", "By hand", 90, pass_mark, notation, *days),
        *((), ("pencil", "dividers"), rows, {"centre": "Kessoray"}),
    )


def item(kind, seed=1, marks=6, working=2, number=1):
    question = questions.make(kind, seed)
    return Item(Row(number, question.topic, (kind,), marks, working, 6.0), question, 0, {})


def papers(count, plan=None, first_seed=1):
    plan = plan or blueprint()
    return tuple(
        Paper(
            plan,
            "first",
            variant,
            code(SECRET, first_seed, variant),
            tuple(
                Item(row, questions.make(row.kinds[0], first_seed + variant), 0, {})
                for row in plan.rows
            ),
            (),
        )
        for variant in range(1, count + 1)
    )
