"""A length on paper and a scale: by ruler, and by dividers walked along a line."""

import math
import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.kinds.numbers import Number
from navlib.kinds.scales import Scale
from navlib.questions.distance.steps import PAPER, in_miles, on_the_ground

SCALE = Scale()

MIXED = {25_000: 50_000, 50_000: 25_000, 75_000: 25_000, 100_000: 50_000}
"""Usual scales of maps and charts for small boats, and the one that each is mixed up with."""


def draw_scale(source: random.Random) -> dict[str, Any]:
    """Return a scale and the one that it is mixed up with."""
    scale = source.choice(tuple(MIXED))
    return {"scale": float(scale), "other": float(MIXED[scale])}


def _draw_length(source: random.Random) -> Mapping[str, Any]:
    return {"length": source.randint(45, 160) / 1000, **draw_scale(source)}


# Dividers walked along a line -------------------------------------------------------------------

STEP_MM = 0.3
"""Standard deviation of one step of the dividers, mm; common practice."""

WALKED = Step(
    "length",
    PAPER,
    lambda steps, span, rest: steps * span + rest,
    how="Multiply the opening by the number of whole steps, then add the rest.",
    line="{steps} × {span} and {rest}: {length}",
    check="The steps alone, then one step more: yours lies between the two.",
    slips=(
        Slip(
            "rest-forgotten",
            lambda steps, span: steps * span,
            "Yours, {yours}, counts the whole steps and leaves out the rest of {rest}. The way does "
            "not end where the last step does. Check: does your length reach the last mark?",
        ),
        Slip(
            "points-for-steps",
            lambda steps, span, rest: (steps + 1) * span + rest,
            "Yours, {yours}, has one step too many: pricks were counted in place of the gaps between "
            "them. Check: say “one” when the dividers have swung for the first time.",
        ),
    ),
    errors=(Error("dividers walked", lambda steps: STEP_MM * math.sqrt(steps)),),
)


def _draw_walk(source: random.Random) -> Mapping[str, Any]:
    span = source.choice((20, 25, 30))
    return {
        "steps": source.randint(4, 8),
        "span": span / 1000,
        "rest": round(span * source.uniform(0.35, 0.65)) / 1000,
        **draw_scale(source),
    }


DIVIDERS = QuestionType(
    "distance.dividers",
    "Steps of the dividers",
    "distance",
    2,
    Chain(
        {
            "steps": Number(),
            "span": PAPER,
            "rest": PAPER,
            "scale": SCALE,
            "other": SCALE,
        },
        (
            WALKED,
            on_the_ground("ground", "length").without("zero-slip"),
            in_miles("miles", "ground").without("land-miles", "miles-wrong-way"),
        ),
    ),
    _draw_walk,
    "You open the dividers to {span} and walk them along your route on a sheet of {scale}: "
    "{steps} steps, and then a rest of {rest}.\n\nHow long is the route, in nautical miles?",
    {"miles": "Length of the route in NM"},
)

TYPES = (
    QuestionType(
        "distance.fraction",
        "From paper to ground",
        "distance",
        1,
        Chain(
            {"length": PAPER, "scale": SCALE, "other": SCALE},
            (on_the_ground("ground", "length"), in_miles("miles", "ground")),
        ),
        _draw_length,
        "On a sheet of {scale} a leg measures {length}.\n\n"
        "How long is it on the ground, in kilometres and in nautical miles?",
        {"ground": "Distance in km", "miles": "Distance in NM"},
    ),
    DIVIDERS,
)
