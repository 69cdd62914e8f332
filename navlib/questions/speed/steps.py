"""How long a leg takes: kinds of answer, steps and slips that this topic's types share."""

import math
from collections.abc import Callable

from navlib.chain.step import Slip, Step, Work, taking
from navlib.clock import DAY
from navlib.kinds.quantities import Distance, Speed
from navlib.kinds.times import Clock, Duration
from navlib.language import say
from navlib.speed import HOUR, time_taken
from navlib.units import NM

MILES = Distance("NM", 0.1, unit_asked=True)
KNOTS = Speed("kn", 0.1)
TIME = Duration()
UT = Clock("UT")


def whole(minutes: float) -> bool:
    """Return whether a time comes out in whole minutes, so that each line of a working adds up."""
    return abs(minutes - round(minutes)) < 1e-6


LONGEST = 10 * DAY
"""Minutes beyond which no trip here goes on; a learner's own answer may hold any number."""


def bounded(minutes: float) -> float | None:
    """Return `minutes`, or None where they make no sense for a trip: below zero or without end."""
    return minutes if 0 <= minutes < LONGEST else None


def minutes_for(distance: float, speed: float) -> float | None:
    """Return the minutes for a distance in metres at a speed in knots; None if one never arrives."""
    return bounded(time_taken(distance, speed)) if speed > 0 else None


def hours_and_minutes(minutes: float) -> tuple[int, float]:
    """Return whole hours and the minutes left over."""
    hours, left = divmod(round(minutes, 6), HOUR)
    return int(hours), left


def stream_words(along: float) -> str:
    """Return how a stream along the track is said: 0.8 kn with you, or against you."""
    words = "{rate} with you" if along > 0 else "{rate} against you"
    return say(words, {"rate": KNOTS.write(abs(along))})


# How long a leg takes ---------------------------------------------------------------------------


def hundredths_for_minutes(minutes: float) -> float:
    """Return what 1.13 h becomes when it is read as 1 h 13."""
    hours, left = hours_and_minutes(minutes)
    return hours * HOUR + math.floor(left / HOUR * 100 + 0.5)


def minutes_for_hundredths(minutes: float) -> float:
    """Return what 1 h 20 becomes when it is put into a sum as 1.20 h."""
    hours, left = hours_and_minutes(minutes)
    return (hours + left / 100) * HOUR


def _miles_left_for_hours(distance: float, speed: float) -> float | None:
    hours, left = divmod(round(distance / NM, 6), speed)
    return (hours + left) * HOUR if 0 < hours < LONGEST and 0 < left < 1 else None


def time_step(name: str = "moving", distance: str = "distance", speed: str = "speed") -> Step:
    """Return the step from a distance and a speed over the ground to a duration."""

    def made(work: Callable[[float, float], float | None]) -> Work:
        return taking(work, distance, speed)

    return Step(
        name,
        TIME,
        made(minutes_for),
        how="Minutes are 60 times the miles, divided by the knots. Or: find the minutes for one "
        "mile, then take as many as there are miles.",
        line=f"60 × {{{distance}}} ÷ {{{speed}}}: {{{name}}}",
        check=f"How many minutes does one mile take at {{{speed}}}? Does yours fit that?",
        slips=(
            Slip(
                "decimal-hours",
                made(
                    lambda d, v: (minutes := minutes_for(d, v)) and hundredths_for_minutes(minutes)
                ),
                "Yours, {yours}, takes hundredths of an hour for minutes. An hour has 60 minutes, so "
                "0.50 h is 30 min, not 50. Check: multiply what stands behind the point by 60.",
            ),
            Slip(
                "upside-down",
                made(lambda d, v: bounded(v / (d / NM) * HOUR) if d > 0 else None),
                f"Yours, {{yours}}, divides the speed by the distance. Time is distance divided by "
                f"speed, so more miles take longer. Check: {{{speed}}} means so many miles in one "
                "hour; is your way longer than that?",
            ),
            Slip(
                "miles-left-for-hours",
                made(_miles_left_for_hours),
                "Yours, {yours}, counts the full hours rightly, but takes the last part of a mile "
                f"for the same part of an hour. At {{{speed}}} a mile is far less than an hour. "
                "Check: work out one mile in minutes first.",
            ),
        ),
    )


def added_step(name: str, first: str, second: str) -> Step:
    """Return the step that adds two durations."""

    def made(work: Callable[[float, float], float | None]) -> Work:
        return taking(work, first, second)

    def not_carried(one: float, other: float) -> float | None:
        left = hours_and_minutes(one)[1] + hours_and_minutes(other)[1]
        return one + other - HOUR if left >= HOUR else None

    return Step(
        name,
        TIME,
        made(lambda one, other: one + other),
        how="Add the times. Sixty minutes make an hour.",
        line=f"{{{first}}} and {{{second}}}: {{{name}}}",
        check="Add the hours, then the minutes; carry an hour at 60.",
        slips=(
            Slip(
                "hour-not-carried",
                made(not_carried),
                "Yours, {yours}, has exactly one hour too few in it. The minutes come to more "
                "than 60, which makes one hour more. Check: write the carried hour down at once.",
            ),
        ),
    )
