"""Height by the port's own curve: a factor read off the form, then low water and part of the range."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.clock import minutes_between
from navlib.kinds.numbers import Number
from navlib.kinds.times import Duration
from navlib.language import say
from navlib.questions.picture import TidePage
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    TIDE,
    WATCH,
    draw_tide,
    draw_within,
    model,
    tide_givens,
)
from navlib.questions.tides.steps import RANGE, to_table
from navlib.tides import mean_curves

READING = 0.01
"""Standard deviation of a factor read off the form, between the two curves; common practice."""

FROM_HIGH = Step(
    "from_high",
    Duration(),
    lambda start, end, at, rising: abs(minutes_between(end if rising else start, at)),
    how="Count the time from high water, before it or after it.",
    line="{at} is {from_high} {side} high water",
    check="The form counts from high water, never from low water.",
)


def _factor(minutes: float, range_m: float, rising: bool) -> float:
    hours = minutes / 60 * (-1 if rising else 1)
    return float(mean_curves(model(KESSORAY).standard).factor(hours, range_m))


FACTOR = Step(
    "factor",
    Number("", 0.01),
    lambda from_high, range, rising: _factor(from_high, range, rising),
    how="Go up from the hour to the curve, between the two by today’s range, and across to the "
    "factor.",
    line="{from_high} {side} high water, range {range}: factor {factor}",
    check="At high water the factor is 1, at low water 0, about half way 0.5.",
    slips=(
        Slip(
            "other-side",
            lambda from_high, range, rising: _factor(from_high, range, not rising),
            "Yours, {yours}, is read on the other side of high water. {at} is {side} it, while "
            "the water is {falling}. Check: write HW in its box, then the hours to the {hand} of "
            "it.",
        ),
    ),
    errors=(Error("reading the curve", READING),),
)

BY_FACTOR = Step(
    "height",
    HEIGHT,
    lambda low, factor, range: low + factor * range,
    how="Multiply the range by the factor and put it on low water.",
    line="{low} and {factor} of {range}: {height}",
    check="Put in 1 and you must get high water, put in 0 and you must get low water.",
    slips=(
        Slip(
            "low-water-forgotten",
            lambda factor, range: factor * range,
            "Yours, {yours}, is the height above low water. At low water {low} is still there. "
            "Check: with a factor of 0 your way must give low water, {low}.",
        ),
        Slip(
            "taken-off-high-water",
            lambda high, factor, range: high - factor * range,
            "Yours, {yours}, takes the part off high water. The factor is 0 at low water and "
            "counts up from there. Check: with a factor of 1 your way must give high water, "
            "{high}.",
        ),
        Slip(
            "part-of-high-water",
            lambda low, high, factor: low + factor * high,
            "Yours, {yours}, takes the factor of the high water. It is a part of the range, "
            "{range}. Check: with a factor of 1 your way must give high water, {high}.",
        ),
    ),
)


def _draw(source: random.Random) -> Mapping[str, Any] | None:
    tide = draw_tide(source)
    when = draw_within(source, tide, 5)
    if when is None or not 45 < abs(minutes_between(tide.high.time, when)) < 320:
        return None
    side = say("before" if tide.rising else "after")
    hand = say("left" if tide.rising else "right")
    return {**tide_givens(tide), "watch": when, "side": side, "hand": hand}


TYPES = (
    QuestionType(
        "tides.by-the-curve",
        "By the port’s own curve",
        "tides",
        2,
        Chain(
            {**TIDE, "watch": WATCH, "side": None, "hand": None},
            (
                to_table("at", "watch").without("zone-wrong-way"),
                FROM_HIGH,
                RANGE,
                FACTOR,
                BY_FACTOR,
            ),
        ),
        _draw,
        "On {day} the table of Kessoray Harbour, in UT, has {first} and next {then}. The clocks "
        "ashore show {watch}.\n\nRead the factor off the form, between the two curves by today’s "
        "range. How high is the water?",
        {"factor": "Factor", "height": "Height of tide"},
        lambda givens: TidePage(KESSORAY, "curve", say("Mean curves at springs and at neaps.")),
    ),
)
