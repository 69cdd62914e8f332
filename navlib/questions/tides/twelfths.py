"""Heights and times by the rule of twelfths, from the table's high and low water."""

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.clock import later
from navlib.kinds.numbers import Number
from navlib.language import say
from navlib.questions.tides.draws import (
    FINE,
    HEIGHT,
    TIDE,
    UT,
    WATCH,
    by_day,
    draw_tide,
    draw_within,
    tide_givens,
)
from navlib.questions.tides.steps import (
    A_TIDAL_HOUR,
    BY_HAND_MIN,
    GONE,
    HEIGHT_NOW,
    LASTS,
    RANGE,
    SHARE,
    STRAIGHT,
    TIDAL_HOURS,
    TWELVE,
    WATCH_BY_HAND,
    hours_after,
    moved,
    to_table,
    to_watch,
    twelfths_after,
)
from navlib.tides import STRAIGHT_LINE, TWELFTHS

# At a whole tidal hour --------------------------------------------------------------------------

WHOLE_HOURS = Number("", 1.0)

SUM_OF_TWELFTHS = replace(
    SHARE,
    line="After {hours_words} of 1, 2, 3, 3, 2, 1: {twelfths}",
    slips=(
        *SHARE.slips,
        Slip(
            "last-hour-only",
            lambda hours: _last_twelfths(hours),
            "Yours, {yours}, has only the twelfths of the last tidal hour. All the hours before "
            "it count too. Check: point to 1, 2, 3, 3, 2, 1 one by one and add as you go.",
        ),
    ),
)

AT_THE_HOUR = replace(
    HEIGHT_NOW,
    errors=(),
    slips=(
        *HEIGHT_NOW.slips,
        Slip(
            "wrong-end",
            lambda high, low, range, twelfths, rising: moved(
                high if rising else low, range, twelfths, not rising
            ),
            "Yours, {yours}, begins at the other turn, {then}. The water is {falling}, away from "
            "{first}. Check: say aloud which way the water goes, then put on or take off.",
        ),
    ),
)


def _last_twelfths(hours: float) -> float | None:
    """Return the twelfths of the last hour alone, where no other slip ends at the same place."""
    return twelfths_after(hours) - twelfths_after(hours - 1) if hours == 2 else None


SHOWS_M = 0.26
"""Metres by which a straight line must differ from the twelfths to show beyond rounding."""


def _draw_whole_hours(source: random.Random) -> Mapping[str, Any] | None:
    hours = source.choice((1, 2, 4, 5))
    words = {
        1: "one tidal hour",
        2: "two tidal hours",
        4: "four tidal hours",
        5: "five tidal hours",
    }
    tide = draw_tide(source)
    if tide.range / 12 < SHOWS_M:
        return None
    return {**tide_givens(tide), "hours": float(hours), "hours_words": say(words[hours])}


# At any time ------------------------------------------------------------------------------------


def _draw_time(source: random.Random) -> Mapping[str, Any] | None:
    tide = draw_tide(source)
    when = draw_within(source, tide, 5)
    if when is None:
        return None
    by_rule, straight = (float(r.height(tide, when)) for r in (TWELFTHS, STRAIGHT_LINE))
    if abs(by_rule - straight) < SHOWS_M:
        return None
    return {**tide_givens(tide), "watch": when}


HEIGHT_AT = QuestionType(
    "tides.height-at",
    "How high is the water now?",
    "tides",
    2,
    Chain(
        {**TIDE, "watch": WATCH},
        (
            to_table("at", "watch").without("zone-wrong-way"),
            LASTS,
            A_TIDAL_HOUR,
            GONE,
            SHARE,
            RANGE,
            HEIGHT_NOW,
        ),
    ),
    _draw_time,
    "On {day} the table of Kessoray Harbour, in UT, has {first} and next {then}.\n\n"
    "Your watch, on the clocks ashore, shows {watch}. How high is the water, by twelfths?",
    {"height": "Height of tide"},
)

# The time for a height --------------------------------------------------------------------------

TO_GO = Step(
    "part",
    FINE,
    lambda start_height, wanted, rising: (wanted - start_height) * (1 if rising else -1),
    how="Find how far the water must move from the turn behind it to the height wanted.",
    line="From {start_height} to {wanted}: {part}",
    check="Is the water {falling}? Then measure from {start_name}.",
    slips=(
        Slip(
            "wrong-end",
            lambda high, low, wanted, rising: high - wanted if rising else wanted - low,
            "Yours, {yours}, measures from the height that the water comes to, {then}, but "
            "counts the time from {first}. Check: take time and height from the same turn.",
        ),
        Slip(
            "low-water-forgotten",
            lambda high, low, wanted, rising: wanted if rising else high - low - wanted,
            "Yours, {yours}, takes {wanted} for the height above low water. Both count from "
            "chart datum, and low water stands at {low}. Check: the figures of one table have "
            "one zero.",
        ),
    ),
)

PART = Step(
    "twelfths",
    TWELVE,
    lambda part, range: _a_share(part, range),
    how="Write that as twelfths of the range.",
    line="{part} of {range}: {twelfths}",
    check="Half the range is six twelfths. Is yours more, or less?",
    read_off=True,
)

HOURS_FOR = Step(
    "hours",
    TIDAL_HOURS,
    lambda twelfths: hours_after(twelfths),
    how="Go along 1, 2, 3, 3, 2, 1 until you have so many twelfths, and count the tidal hours.",
    line="{twelfths} by 1, 2, 3, 3, 2, 1: {hours}",
    check="One twelfth takes one hour, three take two, six take three.",
    slips=(
        Slip(
            "straight-line",
            lambda twelfths: twelfths / 2,
            f"Yours, {{yours}}, comes out if the water moves evenly. {STRAIGHT} Check: the first and "
            "the last twelfth take a whole tidal hour each.",
        ),
    ),
)

TIME_FOR = Step(
    "time",
    UT,
    lambda start, hours, tidal_hour: later(start, hours * tidal_hour),
    how="Turn tidal hours into minutes and add them to the time of the turn.",
    line="{start} and {hours} of {tidal_hour}: {time}",
    check="Is your time between {start} and {end}?",
    errors=(Error("by twelfths in the head", BY_HAND_MIN),),
)


def _a_share(part: float, range_m: float) -> float | None:
    return 12 * part / range_m if 0 < part < range_m else None


def _draw_height(source: random.Random) -> Mapping[str, Any] | None:
    tide = draw_tide(source)
    if tide.range < 1.5:
        return None
    wanted = HEIGHT.rounded(tide.low.height + source.uniform(0.08, 0.92) * tide.range)
    givens = {**tide_givens(tide), "wanted": wanted}
    return givens if by_day(TWELFTHS.time(tide, wanted)) else None


TYPES = (
    QuestionType(
        "tides.tidal-hour",
        "One, two, three, three, two, one",
        "tides",
        1,
        Chain(
            {**TIDE, "hours": WHOLE_HOURS, "hours_words": None},
            (SUM_OF_TWELFTHS, RANGE, AT_THE_HOUR),
        ),
        _draw_whole_hours,
        "On {day} the table has {first} and next {then}.\n\n"
        "Use the rule of twelfths. How high is the water {hours_words} after {start_name}?",
        {"height": "Height of tide"},
    ),
    HEIGHT_AT,
    QuestionType(
        "tides.time-for-height",
        "When is there water enough?",
        "tides",
        2,
        Chain(
            {**TIDE, "wanted": HEIGHT},
            (
                TO_GO,
                RANGE,
                PART,
                HOURS_FOR,
                LASTS,
                A_TIDAL_HOUR,
                TIME_FOR,
                to_watch("ashore", "time", WATCH_BY_HAND).without("zone-wrong-way"),
            ),
        ),
        _draw_height,
        "On {day} the table of Kessoray Harbour, in UT, has {first} and next {then}.\n\n"
        "When does the water, {falling}, pass {wanted}? Use the twelfths, and give the time by the "
        "clocks ashore, with its zone, to five minutes.",
        {"ashore": "Time by the clocks ashore"},
    ),
)
