"""From the cockpit: bearings off the bow, and what a degree off the line costs."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.bearings import bearing_from_relative, one_in_sixty_distance
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.kinds.angles import Bearing
from navlib.kinds.quantities import Distance
from navlib.language import say, to_say
from navlib.questions.bearings.words import ten_out
from navlib.units import LENGTHS, NM

MAGNETIC = Bearing("M")

# Clockwise from the bow, by how a paddler says it: how far, from where, to which side.
_FROM = {
    ("starboard", "bow"): lambda angle: angle,
    ("starboard", "stern"): lambda angle: 180 - angle,
    ("port", "bow"): lambda angle: -angle,
    ("port", "stern"): lambda angle: 180 + angle,
}
_OTHER = {
    "starboard": to_say("port"),
    "port": to_say("starboard"),
    "bow": to_say("stern"),
    "stern": to_say("bow"),
}


def _relative(angle: float, side: str, end: str) -> float:
    return _FROM[side, end](angle) % 360


def _bearing(heading: float, angle: float, side: str, end: str) -> float:
    return bearing_from_relative(heading, _relative(angle, side, end))


ON_THE_BOW = Step(
    "bearing",
    MAGNETIC,
    _bearing,
    how="Turn the angle into one clockwise from the bow, then put it on the heading.",
    line="Heading {heading}, {angle}° {side} from the {end}: {bearing}",
    check="Sketch the boat with its bow on {heading} and point. Which quarter is it in?",
    slips=(
        Slip(
            "wrong-side",
            lambda heading, angle, side, end: _bearing(heading, angle, _OTHER[side], end),
            "Yours, {yours}, lies on the other side of the boat. {Side} is to the {hand} when you "
            "look towards the bow. Check: starboard grows the bearing from the bow, port shrinks it.",
        ),
        Slip(
            "wrong-end",
            lambda heading, angle, side, end: _bearing(heading, angle, side, _OTHER[end]),
            "Yours, {yours}, is what you get if the angle is counted from the {other_end}. It was "
            "counted from the {end}. Check: say where you start counting before you turn.",
        ),
        Slip(
            "angle-for-bearing",
            lambda angle, side, end: _relative(angle, side, end),
            "Yours, {yours}, is the angle round from the bow as if the bow pointed north. It points "
            "{heading}. Check: an angle off the bow is no bearing until the heading is put on.",
        ),
        *ten_out(_bearing),
    ),
)


def _draw_bow(source: random.Random) -> Mapping[str, Any]:
    side, end = source.choice(list(_FROM))
    return {
        "heading": float(source.randrange(0, 360, 5)),
        "angle": source.randrange(20, 75, 5),
        "side": side,
        "end": end,
        "Side": say("Starboard" if side == "starboard" else "Port"),
        "hand": say("right" if side == "starboard" else "left"),
        "other_end": _OTHER[end],
    }


CABLES = Distance("cable", 0.5)

OFF_THE_LINE = Step(
    "off",
    CABLES,
    lambda run, degrees: one_in_sixty_distance(run, degrees),
    how="One degree is one in sixty: the run times the degrees, divided by sixty.",
    line="{run} times {degrees}, divided by 60: {off}",
    check="One degree over one mile is about 30 m. Does yours fit that?",
    slips=(
        Slip(
            "degree-per-cent",
            lambda run, degrees: run * degrees / 100,
            "Yours, {yours}, takes a degree for one in a hundred. It is one in sixty, because a "
            "circle round you of 60 miles has a degree for each mile of its rim. Check: 1° over "
            "60 miles is 1 mile.",
        ),
        Slip(
            "degrees-forgotten",
            lambda run: run / 60,
            "Yours, {yours}, is what one degree would cost. You were {degrees}° out. Check: twice "
            "the angle, twice as far off.",
        ),
        Slip(
            "divided-by-angle",
            lambda run, degrees: run / degrees,
            "Yours, {yours}, divides the run by the angle, so a bigger mistake would bring you "
            "nearer. Multiply by the angle, divide by sixty. Check: off the line is far less than "
            "the run.",
        ),
    ),
    errors=(
        Error(
            "one in sixty in the head",
            lambda run, degrees: 0.03 * run / 60 * degrees / LENGTHS["cable"],
        ),
    ),
)


def _draw_off(source: random.Random) -> Mapping[str, Any]:
    return {
        "run": source.randrange(20, 81, 5) / 10 * NM,
        "degrees": source.choice((5, 6, 8, 10, 12, 15)),
    }


TYPES = (
    QuestionType(
        "bearings.on-the-bow",
        "So far off the bow",
        "bearings",
        1,
        Chain(
            {
                "heading": MAGNETIC,
                **dict.fromkeys(("angle", "side", "end", "Side", "hand", "other_end")),
            },
            (ON_THE_BOW,),
        ),
        _draw_bow,
        "You are paddling on {heading}. A skerry lies {angle}° from the {end}, on the {side} side."
        "\n\nWhat is its magnetic bearing?",
        {"bearing": "Magnetic bearing of the skerry"},
    ),
    QuestionType(
        "bearings.off-the-line",
        "What a few degrees cost",
        "bearings",
        2,
        Chain({"run": Distance("NM", 0.1), "degrees": None}, (OFF_THE_LINE,)),
        _draw_off,
        "You hold a course that is {degrees}° wrong for {run}.\n\n"
        "How far off your line are you then, in cables, by the rule of one in sixty?",
        {"off": "Distance off the line"},
    ),
)
