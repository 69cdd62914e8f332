"""Any one of distance, speed and time from the other two, and the time between two clock times."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.clock import later
from navlib.kinds.quantities import Distance
from navlib.questions.speed.by_clock import elapsed_step
from navlib.questions.speed.draws import PADDLING, WITH_MOTORS, draw_leg, draw_time
from navlib.questions.speed.steps import KNOTS, MILES, TIME, UT, minutes_for_hundredths, time_step
from navlib.speed import HOUR, distance_run, speed_needed
from navlib.units import NM

KILOMETRES = Distance("km", 0.1)
KM_A_NM = NM / 1000

RUN = Step(
    "distance",
    MILES,
    lambda speed, minutes: distance_run(speed, minutes),
    how="Knots are miles in one hour: multiply by the minutes and divide by 60.",
    line="{speed} for {minutes}: {distance}",
    check="How far in one full hour? Is yours more or less than that, as it should be?",
    slips=(
        Slip(
            "decimal-hours",
            lambda speed, minutes: distance_run(speed, minutes_for_hundredths(minutes)),
            "Yours, {yours}, puts the minutes behind the point, as if an hour had a hundred of them. "
            "30 min is 0.50 h, not 0.30 h. Check: divide the minutes by 60 before you multiply.",
        ),
        Slip(
            "upside-down",
            lambda speed, minutes: speed / (minutes / HOUR) * NM,
            "Yours, {yours}, divides the speed by the time, so the longer you went the less you would "
            "have gone. Distance is speed times time. Check: would two hours double it?",
        ),
        Slip(
            "kilometres-an-hour",
            lambda speed, minutes: distance_run(speed, minutes) / KM_A_NM,
            "Yours, {yours}, takes knots for kilometres an hour and then makes miles of them. A knot "
            "is already one nautical mile an hour. Check: {speed} gives how many miles in an hour?",
        ),
    ),
)


def _draw_run(source: random.Random) -> Mapping[str, Any]:
    return {"speed": source.choice(WITH_MOTORS), "minutes": float(source.randrange(35, 165, 5))}


IN_MILES = Step(
    "miles",
    Distance("NM", 0.01),
    lambda run: run,
    how="Knots want nautical miles: divide the kilometres by 1.85.",
    line="{run} is {miles}",
    check="A nautical mile is nearly 2 km: about half as many miles as kilometres.",
    slips=(
        Slip(
            "kilometres-for-miles",
            lambda run: run * KM_A_NM,
            "Yours, {yours}, is kilometres an hour. A knot is a nautical mile an hour, and a nautical "
            "mile is 1.85 km. Check: which unit does the map’s figure have, and which the knot?",
        ),
        Slip(
            "miles-wrong-way",
            lambda run: run * KM_A_NM**2,
            "Yours, {yours}, multiplies by 1.85 to get miles, so there are more miles than "
            "kilometres. A mile is the longer one: divide. Check: about half as many miles.",
            0.5,
        ),
    ),
)

SPEED_MADE = Step(
    "speed",
    KNOTS,
    lambda miles, minutes: speed_needed(miles, minutes),
    how="Divide the miles by the minutes and multiply by 60.",
    line="60 × {miles} ÷ {minutes}: {speed}",
    check="How many times does {minutes} go into an hour? So many times the miles.",
    slips=(
        Slip(
            "decimal-hours",
            lambda miles, minutes: speed_needed(miles, minutes_for_hundredths(minutes)),
            "Yours, {yours}, puts the minutes behind the point, as if an hour had a hundred of them. "
            "30 min is 0.50 h, not 0.30 h. Check: divide the minutes by 60 first.",
        ),
    ),
)


def _draw_knots(source: random.Random) -> Mapping[str, Any]:
    speed, minutes = source.uniform(2.5, 12), source.randrange(15, 46)
    return {"run": round(distance_run(speed, minutes) / 100) * 100.0, "minutes": float(minutes)}


def _draw_elapsed(source: random.Random) -> Mapping[str, Any] | None:
    """Return two clock times, mostly with more minutes in the first: there the slips are made."""
    over_midnight = source.random() < 0.5
    first = draw_time(source, 22 if over_midnight else 6, 24 if over_midnight else 18, 1)
    second = later(first, source.randrange(50, 290))
    if second.minute >= first.minute and source.random() < 0.8:
        return None
    return {"first": first, "second": second}


TYPES = (
    QuestionType(
        "speed.time",
        "How long will it take?",
        "speed",
        1,
        Chain({"distance": MILES, "speed": KNOTS}, (time_step("time"),)),
        lambda source: draw_leg(source, PADDLING, 35, 150),
        "You make {speed} over the ground. The next beach is {distance} away.\n\n"
        "How long does it take to get there?",
        {"time": "Time"},
    ),
    QuestionType(
        "speed.distance",
        "How far have you come?",
        "speed",
        1,
        Chain({"speed": KNOTS, "minutes": TIME}, (RUN,)),
        _draw_run,
        "You have gone at {speed} over the ground for {minutes}.\n\n"
        "How far have you come, in nautical miles?",
        {"distance": "Distance in NM"},
    ),
    QuestionType(
        "speed.elapsed",
        "From clock to clock",
        "speed",
        1,
        Chain({"first": UT, "second": UT}, (elapsed_step("time", "first", "second"),)),
        _draw_elapsed,
        "You pass one buoy at {first} and the next at {second}.\n\nHow long did it take?",
        {"time": "Time between the buoys"},
    ),
    QuestionType(
        "speed.knots",
        "How fast are you?",
        "speed",
        2,
        Chain({"run": KILOMETRES, "minutes": TIME}, (IN_MILES, SPEED_MADE)),
        _draw_knots,
        "Two points lie {run} apart on the land map. You go from one to the other in {minutes}.\n\n"
        "What is your speed over the ground, in knots?",
        {"speed": "Speed in knots"},
    ),
)
