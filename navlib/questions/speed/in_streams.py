"""In a stream along the track: with it and against it, and when it turns on the way."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, taking
from navlib.questions.speed.by_clock import arrival_step
from navlib.questions.speed.draws import draw_time
from navlib.questions.speed.steps import (
    KNOTS,
    MILES,
    TIME,
    UT,
    added_step,
    minutes_for,
    minutes_for_hundredths,
    stream_words,
    time_step,
    whole,
)
from navlib.speed import distance_run, time_taken
from navlib.units import NM

# Round the point: one leg with the stream, one against it -----------------------------------------


def _ground_step(name: str, stream: str, turned: str) -> Step:
    """Return the step to the speed over the ground in the stream called `stream`, signed."""
    return Step(
        name,
        KNOTS,
        taking(lambda speed, along: speed + along, "speed", stream),
        how="A stream with you is put on the boat’s speed, a stream against you is taken off.",
        line=f"{{speed}} through the water, {{{stream}_words}}: {{{name}}} over the ground",
        check="With you or against you? Are you faster over the ground than through the water?",
        slips=(
            Slip(
                "stream-wrong-way",
                taking(lambda speed, along: speed - along, "speed", stream),
                "Yours, {yours}, comes out if the stream is put on the wrong way. "
                f"{turned} Check: say “with me” or “against me” for each leg before the sum.",
            ),
            Slip(
                "stream-forgotten",
                taking(lambda speed: speed, "speed"),
                "Yours, {yours}, comes out with the speed through the water. Miles on the chart are "
                f"miles over the ground, and the stream is {{{stream}_words}}. Check: what carries "
                "you while you paddle?",
            ),
        ),
    )


FIRST_SPEED = _ground_step(
    "first_speed",
    "first_stream",
    "On the first leg it is {first_stream_words}.",
)
SECOND_SPEED = _ground_step(
    "second_speed",
    "second_stream",
    "Round the point you turned, and the stream is {second_stream_words}.",
)


def _draw_round_the_point(source: random.Random) -> Mapping[str, Any] | None:
    speed, stream = source.choice((3.0, 3.5, 4.0)), source.choice((-1.5, -1.0, -0.5, 0.5, 1.0, 1.5))
    first_way, second_way = (source.randrange(12, 60) / 10 * NM for _ in range(2))
    times = (time_taken(first_way, speed + stream), time_taken(second_way, speed - stream))
    if not all(whole(minutes) and 25 < minutes < 115 for minutes in times):
        return None
    return {
        "departure": draw_time(source, 8, 20, 1),
        "speed": speed,
        "first_way": first_way,
        "second_way": second_way,
        "first_stream": stream,
        "second_stream": -stream,
        "first_stream_words": stream_words(stream),
        "second_stream_words": stream_words(-stream),
    }


ROUND_THE_POINT = QuestionType(
    "speed.round-the-point",
    "Round the point",
    "speed",
    3,
    Chain(
        {
            "departure": UT,
            "speed": KNOTS,
            "first_way": MILES,
            "second_way": MILES,
            "first_stream": KNOTS,
            "second_stream": KNOTS,
            **dict.fromkeys(("first_stream_words", "second_stream_words")),
        },
        (
            FIRST_SPEED,
            time_step("first", "first_way", "first_speed").without(
                "miles-left-for-hours", "upside-down"
            ),
            SECOND_SPEED,
            time_step("second", "second_way", "second_speed").without(
                "miles-left-for-hours", "upside-down"
            ),
            added_step("under_way", "first", "second"),
            arrival_step("eta", "departure", "under_way").without("clock-backwards"),
        ),
    ),
    _draw_round_the_point,
    "You make {speed} through the water and leave at {departure}. To the point it is {first_way}, the "
    "stream {first_stream_words}. There you turn back along the other shore, {second_way} with the "
    "stream {second_stream_words}.\n\nHow long does each leg take, and when are you there?",
    {
        "first": "Time for the first leg",
        "second": "Time for the second leg",
        "eta": "Estimated time of arrival",
    },
)

# The stream turns on the way --------------------------------------------------------------------

GONE = Step(
    "gone",
    MILES,
    lambda speed, first_stream, until: distance_run(speed + first_stream, until),
    how="Put the stream on the boat’s speed or take it off, then multiply by the time until it turns.",
    line="{speed} through the water, {first_stream_words}, for {until}: {gone}",
    check="With you or against you until it turns? Is yours more or less than in still water?",
    slips=(
        Slip(
            "stream-wrong-way",
            lambda speed, first_stream, until: distance_run(speed - first_stream, until),
            "Yours, {yours}, comes out if the stream is put on the wrong way. Until it turns it is "
            "{first_stream_words}. Check: say “with me” or “against me” before the sum.",
        ),
        Slip(
            "stream-forgotten",
            lambda speed, until: distance_run(speed, until),
            "Yours, {yours}, is the way through the water. The water itself moves over the ground, "
            "{first_stream_words}. Check: what carries you while you paddle?",
        ),
        Slip(
            "decimal-hours",
            lambda speed, first_stream, until: distance_run(
                speed + first_stream, minutes_for_hundredths(until)
            ),
            "Yours, {yours}, puts the minutes behind the point, as if an hour had a hundred of them. "
            "30 min is 0.50 h, not 0.30 h. Check: divide the minutes by 60 before you multiply.",
        ),
    ),
)


def _after(run: float, speed: float, along: float, before: float) -> float | None:
    minutes = minutes_for(run, speed + along)
    return None if minutes is None else before + minutes


TOTAL = Step(
    "total",
    TIME,
    lambda until, distance, gone, speed, second_stream: _after(
        distance - gone, speed, second_stream, until
    ),
    how="Take off what you have gone by the turn. The rest goes at the new speed over the ground; "
    "then add the two times.",
    line="{until}, then {distance} less {gone} at {speed} through the water, "
    "{second_stream_words}: {total}",
    check="Two parts, two speeds, one way. Do the two parts together make {distance}?",
    slips=(
        Slip(
            "stream-not-turned",
            lambda until, distance, gone, speed, first_stream: _after(
                distance - gone, speed, first_stream, until
            ),
            "Yours, {yours}, has the stream run on as it began. It turns after {until} and is then "
            "{second_stream_words}. Check: write the stream beside each part of the way.",
        ),
        Slip(
            "stream-forgotten",
            lambda until, distance, gone, speed: _after(distance - gone, speed, 0, until),
            "Yours, {yours}, takes still water after the turn. The stream is then "
            "{second_stream_words}. Check: write the stream beside each part of the way.",
        ),
        Slip(
            "whole-way-again",
            lambda until, distance, speed, second_stream: _after(
                distance, speed, second_stream, until
            ),
            "Yours, {yours}, counts the whole {distance} once more after the turn. {gone} of it lies "
            "behind you by then. Check: what is still to go?",
        ),
        Slip(
            "first-part-forgotten",
            lambda distance, gone, speed, second_stream: _after(
                distance - gone, speed, second_stream, 0
            ),
            "Yours, {yours}, is the time from the turn of the stream on. You left {until} before it. "
            "Check: from where to where does the question count?",
        ),
    ),
)


def _draw_turning(source: random.Random) -> Mapping[str, Any] | None:
    speed, first = source.choice((3.5, 4.0, 5.0, 6.0)), source.choice((-1.0, -0.5, 0.5, 1.0))
    second = -source.choice((0.5, 1.0, 1.5)) * (1 if first > 0 else -1)
    until, distance = source.randrange(40, 95), source.randrange(45, 130) / 10 * NM
    gone = distance_run(speed + first, until)
    left = distance - gone
    if (
        not NM < left < 9 * NM
        or not whole(gone / NM * 10)
        or not whole(time_taken(left, speed + second))
    ):
        return None
    return {
        "speed": speed,
        "distance": distance,
        "until": float(until),
        "first_stream": first,
        "second_stream": second,
        "first_stream_words": stream_words(first),
        "second_stream_words": stream_words(second),
    }


TURNING = QuestionType(
    "speed.stream-turns",
    "The stream turns on the way",
    "speed",
    3,
    Chain(
        {
            "speed": KNOTS,
            "distance": MILES,
            "until": TIME,
            "first_stream": KNOTS,
            "second_stream": KNOTS,
            **dict.fromkeys(("first_stream_words", "second_stream_words")),
        },
        (GONE, TOTAL),
    ),
    _draw_turning,
    "It is {distance} across to the anchorage, and you make {speed} through the water. For the first "
    "{until} the stream is {first_stream_words}. Then it turns and is {second_stream_words}.\n\n"
    "How far have you come when it turns, and how long does the whole way take?",
    {"gone": "Distance gone when it turns", "total": "Time for the whole way"},
)

TYPES = (ROUND_THE_POINT, TURNING)
