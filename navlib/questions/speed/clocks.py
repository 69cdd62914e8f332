"""When one arrives: from the plan, and again from what the marks on the way say."""

import math
import random
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from functools import cache
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.clock import later
from navlib.kinds.choices import Choice
from navlib.questions.speed.by_clock import arrival_step, elapsed_step
from navlib.questions.speed.draws import SMALL_BOATS, draw_leg, draw_time
from navlib.questions.speed.steps import (
    KNOTS,
    MILES,
    UT,
    minutes_for,
    minutes_for_hundredths,
    time_step,
    whole,
)
from navlib.speed import distance_run, speed_needed, time_taken
from navlib.units import NM

DAYS = Choice({"same": "the same day", "next": "the next day"})


def _day(departure: datetime, eta: datetime) -> str:
    return "next" if eta.date() > departure.date() else "same"


ARRIVAL_DAY = Step(
    "day",
    DAYS,
    _day,
    how="At 2400 a new day begins: what lies behind it has the next date.",
    line="Left at {departure}, there at {eta}: {day}",
    check="Do you pass 2400 on the way?",
    slips=(
        Slip(
            "midnight-lost",
            lambda departure, eta: "same" if _day(departure, eta) == "next" else None,
            "Yours, {yours}, lets you arrive before you leave. {eta} comes before {departure} on any "
            "one day, so midnight lies between. Check: count up to 2400 first.",
        ),
        Slip(
            "midnight-imagined",
            lambda departure, eta: "next" if _day(departure, eta) == "same" else None,
            "Yours, {yours}, has you out for more than a day. {eta} comes after {departure}, and no "
            "midnight lies between. Check: do you pass 2400 on the way?",
        ),
    ),
)


def _draw_eta(source: random.Random) -> Mapping[str, Any]:
    late = source.random() < 0.6
    departure = draw_time(source, 21 if late else 17, 24 if late else 21, 1)
    return {"departure": departure, **draw_leg(source, SMALL_BOATS, 45, 170)}


SPEED_MADE = Step(
    "speed",
    KNOTS,
    lambda run, elapsed: speed_needed(run, elapsed),
    how="Take the time between the marks, then divide the miles by it and multiply by 60.",
    line="60 × {run} ÷ {elapsed}: {speed}",
    check="You planned {planned} and come later than planned: yours should be less.",
    slips=(
        Slip(
            "decimal-hours",
            lambda run, elapsed: speed_needed(run, minutes_for_hundredths(elapsed)),
            "Yours, {yours}, puts the minutes behind the point, as if an hour had a hundred of them. "
            "30 min is 0.50 h, not 0.30 h. Check: divide the minutes by 60 first.",
        ),
    ),
)

_FROM_NOW = arrival_step("eta", "second", "left")

TIME_LEFT = replace(
    time_step("left", "to_go"),
    slips=(
        Slip(
            "plan-kept",
            lambda to_go, planned: time_taken(to_go, planned),
            "Yours, {yours}, goes on at the {planned} of your plan. The marks say you make {speed}, "
            "and nothing promises that it gets better. Check: plan the rest with the speed you make.",
        ),
        Slip(
            "whole-way-again",
            lambda run, to_go, speed: minutes_for(run + to_go, speed),
            "Yours, {yours}, takes the time for the whole way from {second} on, but {run} of it lies "
            "behind you. Check: what is still to go, from the place where the clock stands?",
        ),
    ),
)


@cache
def _made(speed: float) -> tuple[list[int], list[float]]:
    """Return the minutes in which a speed runs tenths of a mile, and what it runs in whole ones."""
    return (
        [minutes for minutes in range(20, 58) if whole(distance_run(speed, minutes) / NM * 10)],
        [t / 10 * NM for t in range(15, 80) if whole(time_taken(t / 10 * NM, speed))],
    )


def _draw_late(source: random.Random) -> Mapping[str, Any]:
    """Return two fixes with a speed that comes out in tenths, and the rest in whole minutes."""
    speed = source.choice((2.4, 2.5, 2.7, 3.0, 3.2, 3.5, 3.6, 4.0, 4.2, 4.5, 4.8, 5.0, 5.4))
    all_minutes, all_to_go = _made(speed)
    minutes, to_go = source.choice(all_minutes), source.choice(all_to_go)
    first = draw_time(source, 8, 16, 1)
    return {
        "first": first,
        "second": later(first, minutes),
        "run": distance_run(speed, minutes),
        "to_go": to_go,
        "planned": math.ceil(speed * 2 + 1) / 2,
    }


TYPES = (
    QuestionType(
        "speed.eta",
        "When are you there?",
        "speed",
        2,
        Chain(
            {"departure": UT, "distance": MILES, "speed": KNOTS},
            (
                time_step(),
                arrival_step("eta", "departure", "moving"),
                ARRIVAL_DAY,
            ),
        ),
        _draw_eta,
        "You leave at {departure}. It is {distance} to the anchorage, and you make {speed} over the "
        "ground.\n\nHow long does it take, and when do you arrive?",
        {"moving": "Time under way", "eta": "Estimated time of arrival", "day": "On which day?"},
    ),
    QuestionType(
        "speed.revised-eta",
        "Later than planned",
        "speed",
        3,
        Chain(
            {"first": UT, "second": UT, "run": MILES, "to_go": MILES, "planned": KNOTS},
            (
                elapsed_step("elapsed", "first", "second").without(
                    "midnight-lost", "hour-not-borrowed"
                ),
                SPEED_MADE,
                TIME_LEFT,
                _FROM_NOW.without("clock-backwards"),
            ),
        ),
        _draw_late,
        "You planned on {planned}. The first mark comes abeam at {first}, the second, {run} further "
        "on, at {second}. From there it is {to_go} to the landing.\n\n"
        "What speed do you make over the ground, and when will you land at that speed?",
        {"speed": "Speed over the ground", "eta": "New estimated time of arrival"},
    ),
)
