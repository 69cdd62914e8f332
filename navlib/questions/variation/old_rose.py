"""What a rose that was not brought up to date costs on the water."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import Angle
from navlib.kinds.choices import Choice
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.magnetism import Rose
from navlib.questions.bearings.by_eye import OFF_THE_LINE
from navlib.questions.variation.roses import ROSE, change_since, rose_words
from navlib.units import NM

LEFT, RIGHT = "left", "right"

DEGREES = Step(
    "degrees",
    Angle(rounding=0.5),
    lambda rose, now: abs(change_since(rose, now)),
    how="What the needle has moved since the rose was made is what your bearing is out by.",
    line="{years} years, {yearly} each: {total}', that is {degrees}",
    check="Only the change counts here. How large it was to begin with does not matter.",
    slips=(
        Slip(
            "minutes-as-decimals",
            lambda rose, now: abs(change_since(rose, now)) * 60 / 100,
            "Yours, {yours}, comes out if {total} minutes are written as hundredths of a degree. A "
            "degree has 60 minutes, so they are {degrees}. Check: divide minutes by 60.",
        ),
        Slip(
            "whole-variation",
            lambda rose: abs(rose.printed),
            "Yours, {yours}, is the whole variation, as if you had left it out. You did apply it, "
            "only {years} years too old. Check: what was used, what is right, and their difference?",
        ),
        Slip(
            "variation-of-now",
            lambda rose, now: abs(rose.variation(now)),
            "Yours, {yours}, is the variation of {now}, not the error. You used {printed} in its "
            "place. Check: what was used, what is right, and their difference?",
            0.5,
        ),
    ),
)

COST = OFF_THE_LINE.without("degrees-forgotten")

OFF_SIDE = Step(
    "side",
    Choice({LEFT: "left of the line", RIGHT: "right of the line"}),
    lambda rose, now: RIGHT if change_since(rose, now) > 0 else LEFT,
    how="If the needle has moved east, the compass should read less than you hold: you go right. If "
    "it has moved west, you go left.",
    line="The needle has moved {way_side}, so the same figure leads you to the {side_word}",
    check="Turn the needle in your sketch, and keep the boat’s angle to it.",
    slips=(
        Slip(
            "side-reversed",
            lambda rose, now: LEFT if change_since(rose, now) > 0 else RIGHT,
            "Yours, {yours}, is the other side. The needle moved {way_side}, and a boat that keeps "
            "its angle to the needle turns with it. Check: turn a pencil and a needle together.",
        ),
    ),
)


def _draw_cost(source: random.Random) -> Mapping[str, Any] | None:
    now, years = source.randint(2026, 2029), source.randint(14, 30)
    annual = source.choice((-1, 1)) * source.randint(8, 15)
    if years * annual % 30 or abs(years * annual) > 360:
        return None
    printed = source.choice((-1, 1)) * float(source.randint(5, 16))
    rose = Rose(printed, now - years, annual)
    east = annual > 0
    return {
        **rose_words(rose, now),
        "run": source.randrange(30, 81, 5) / 10 * NM,
        "way_side": say("east" if east else "west"),
        "side_word": say("right" if east else "left"),
    }


TYPES = (
    QuestionType(
        "variation.old-rose",
        "What an old rose costs",
        "variation",
        3,
        Chain(
            {**ROSE, "run": Distance("NM", 0.1), "way_side": None, "side_word": None},
            (DEGREES, COST, OFF_SIDE),
        ),
        _draw_cost,
        "A rose reads {legend}. It is {now}, and you take its figure as it is printed. Then you hold "
        "your compass course for {run}.\n\n"
        "By how many degrees is your course wrong, counting whole years? How far off your line does "
        "that lead you, in cables, by the rule of one in sixty? And to which side?",
        {
            "degrees": "Degrees out",
            "off": "Distance off the line",
            "side": "You end up",
        },
    ),
)
