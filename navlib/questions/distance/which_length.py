"""Which length is meant: the straight line, from head to head, or into each bay."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.language import say, to_say
from navlib.questions.distance.shore import Stretch, draw_stretch
from navlib.questions.distance.steps import KILOMETRES, in_miles
from navlib.questions.picture import Table

LENGTHS = {
    "straight": "the straight line from A to B",
    "coarse": "the shore in long steps, from head to head",
    "fine": "the shore in short steps, into each bay",
}

PURPOSES = {
    to_say("You plan a passage from A to B and want to know how long you will paddle."): "coarse",
    to_say(
        "You paddle out of A for B along the shore, and want to be there before the stream turns."
    ): "coarse",
    to_say("You will follow the shore into each bay to look for a drifting boat."): "fine",
    to_say(
        "You will clean the beaches of all bays and want to know how far you will paddle."
    ): "fine",
    to_say(
        "You stand at A and want to know whether a signal rocket from B could be near enough to be seen."
    ): "straight",
    to_say("A gull flies from A to B, and you want to know how far it flies."): "straight",
}
"""What somebody wants to know, and the length that says it."""


def _unless(wrong: str) -> Any:
    return lambda purpose: wrong if PURPOSES[purpose] != wrong else None


WHICH = Step(
    "which",
    Choice(LENGTHS),
    lambda purpose: PURPOSES[purpose],
    how="Ask what moves, and along which line: that line is the one to measure.",
    line="The line that is gone along: {which}",
    check="Draw with a finger the line that is really gone along.",
    slips=(
        Slip(
            "over-land",
            _unless("straight"),
            "Yours, {yours}, lies partly over land, and a boat cannot go there. Check: draw with a "
            "finger the line that the boat takes.",
        ),
        Slip(
            "bays-jumped-over",
            lambda purpose: "coarse" if PURPOSES[purpose] == "fine" else None,
            "Yours, {yours}, jumps over the bays, and into the bays is where this boat goes. Check: "
            "draw with a finger the line that the boat takes.",
        ),
        Slip(
            "bays-counted",
            lambda purpose: "fine" if PURPOSES[purpose] == "coarse" else None,
            "Yours, {yours}, follows every bay, and a boat on passage goes from head to head. Check: "
            "draw with a finger the line that the boat takes.",
        ),
        Slip(
            "shore-followed",
            lambda purpose: "coarse" if PURPOSES[purpose] == "straight" else None,
            "Yours, {yours}, is the way of a boat. What is seen or flies goes straight. Check: draw "
            "with a finger the line that is really gone along.",
        ),
        Slip(
            "shore-followed",
            lambda purpose: "fine" if PURPOSES[purpose] == "straight" else None,
            "Yours, {yours}, is the way of a boat into each bay. What is seen or flies goes straight. "
            "Check: draw with a finger the line that is really gone along.",
        ),
    ),
)

LENGTH = Step(
    "length",
    KILOMETRES,
    lambda figures, which: figures[which],
    how="Take the figure from the table.",
    line="From the table: {length}",
)

OVER_LAND_M = 400.0
"""Metres of land on the straight line from which no boat can mean to take it."""


def _draw_which(source: random.Random) -> Mapping[str, Any] | None:
    given = draw_stretch(source)
    if given is None:
        return None
    coast: Stretch = given["coast"]
    lengths = {key: round(getattr(coast, key), -2) for key in LENGTHS}
    if coast.over_land < OVER_LAND_M or lengths["coarse"] < 1.1 * lengths["straight"]:
        return None
    return {
        "a": coast.a,
        "b": coast.b,
        "figures": lengths,
        "purpose": source.choice(tuple(PURPOSES)),
    }


def _lengths_table(givens: Mapping[str, Any]) -> Table:
    return Table(
        say("A is {a}, B is {b}", givens),
        (say("What was measured from A to B"), say("Length")),
        tuple((say(LENGTHS[key]), KILOMETRES.write(m)) for key, m in givens["figures"].items()),
    )


TYPES = (
    QuestionType(
        "distance.which-length",
        "Which length do you take?",
        "distance",
        2,
        Chain(
            dict.fromkeys(("a", "b", "figures", "purpose")),
            (WHICH, LENGTH, in_miles("miles", "length").without("land-miles")),
        ),
        _draw_which,
        "The table gives three lengths from A, {a}, to B, {b}. {purpose}\n\n"
        "Which of the three do you take, and how many nautical miles is it?",
        {"which": "The length to take", "miles": "Distance in NM"},
        _lengths_table,
    ),
)
