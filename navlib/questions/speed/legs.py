"""There and back: two speeds and one mean, and when one must turn round."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.clock import later
from navlib.language import say
from navlib.questions.speed.by_clock import arrival_step, elapsed_step
from navlib.questions.speed.draws import draw_time
from navlib.questions.speed.steps import (
    KNOTS,
    MILES,
    TIME,
    UT,
    hundredths_for_minutes,
    stream_words,
    whole,
)
from navlib.speed import speed_needed, time_taken
from navlib.units import NM

MEAN_OF_SPEEDS = (
    "Yours, {yours}, goes by the middle of the two speeds. You spend longer on the slow part, so it "
    "counts for more. Check: add the two times, never the two speeds."
)

# There and back ---------------------------------------------------------------------------------


def _both_ways(one_way: float, out: float, back: float) -> float:
    return time_taken(one_way, out) + time_taken(one_way, back)


BOTH_WAYS = Step(
    "total",
    TIME,
    _both_ways,
    how="Work out each way by itself, then add the times.",
    line="{one_way} at {out}, then {one_way} at {back}: {total}",
    check="Two legs, two times. Which of them is the longer?",
    slips=(
        Slip(
            "mean-of-speeds",
            lambda one_way, out, back: time_taken(2 * one_way, (out + back) / 2),
            MEAN_OF_SPEEDS,
        ),
        Slip(
            "one-way-only",
            lambda one_way, out: time_taken(one_way, out),
            "Yours, {yours}, is the way out alone. You have to come home as well, at {back}. Check: "
            "trace the whole way with a finger and count the legs.",
        ),
        Slip(
            "decimal-hours",
            lambda one_way, out, back: hundredths_for_minutes(_both_ways(one_way, out, back)),
            "Yours, {yours}, takes hundredths of an hour for minutes. An hour has 60 minutes, so "
            "0.50 h is 30 min, not 50. Check: multiply what stands behind the point by 60.",
        ),
    ),
)

MEAN = Step(
    "mean",
    KNOTS,
    lambda one_way, total: speed_needed(2 * one_way, total) if total > 0 else None,
    how="Mean speed is the whole way divided by the whole time.",
    line="Twice {one_way} in {total}: {mean}",
    check="Is yours nearer to the slow speed than to the fast one? It must be.",
    slips=(
        Slip("mean-of-speeds", lambda out, back: (out + back) / 2, MEAN_OF_SPEEDS),
        Slip(
            "one-way-only",
            lambda one_way, total: speed_needed(one_way, total) if total > 0 else None,
            "Yours, {yours}, divides the way out by the time for both ways. The whole time belongs "
            "to the whole way, twice {one_way}. Check: no mean is less than the slowest speed.",
        ),
    ),
)


def _draw_both_ways(source: random.Random) -> Mapping[str, Any] | None:
    one_way = source.randrange(40, 200, 5) / 10 * NM
    out, back = source.sample((4.0, 5.0, 6.0, 8.0, 10.0, 12.0), 2)
    times = (time_taken(one_way, out), time_taken(one_way, back))
    if not all(map(whole, times)) or sum(times) > 200 or max(times) > 2.5 * min(times):
        return None
    winds = (say("against the sea"), say("with the sea behind you"))
    out_words, back_words = winds if out < back else winds[::-1]
    return {
        "one_way": one_way,
        "out": out,
        "back": back,
        "out_words": out_words,
        "back_words": back_words,
    }


# When to turn round -----------------------------------------------------------------------------

USABLE = Step(
    "usable",
    TIME,
    lambda elapsed, reserve: elapsed - reserve,
    how="Take the reserve off first: that time is not for paddling out or back.",
    line="{elapsed} less {reserve} in reserve: {usable}",
    check="Whatever happens on the way, is {reserve} still left at the end?",
    slips=(
        Slip(
            "reserve-forgotten",
            lambda elapsed: elapsed,
            "Yours, {yours}, uses up the whole time, the {reserve} in reserve too. A reserve that is "
            "planned away is none. Check: take it off before you share out the rest.",
        ),
    ),
)

OUT_TIME = Step(
    "out_time",
    TIME,
    lambda usable, out, back: usable * back / (out + back),
    how="Out and back are the same way, so the times are the other way round than the speeds: out "
    "takes the usable time, times the speed back, divided by the two speeds added.",
    line="{usable} × {back} ÷ ({out} + {back}): {out_time} out",
    check="Are the miles out as many as the miles back? Multiply and see.",
    slips=(
        Slip(
            "half-time",
            lambda usable: usable / 2,
            "Yours, {yours}, turns round at half time. Out you make {out}, back {back}, so the two "
            "ways do not take the same time. Check: how far are you out by then, and how long does "
            "that take at {back}?",
        ),
        Slip(
            "shares-swapped",
            lambda usable, out, back: usable * out / (out + back),
            "Yours, {yours}, is the time for the way back. The slower way needs the longer share, and "
            "the way {slow_way} is the slower. Check: are the miles out and back the same?",
        ),
    ),
)


def _draw_turn(source: random.Random) -> Mapping[str, Any] | None:
    speed, along = source.choice((3.0, 3.5, 4.0)), source.choice((-1.0, -0.5, 0.5, 1.0, 1.5))
    departure = draw_time(source, 8, 13)
    usable, reserve = source.randrange(100, 260, 5), source.choice((20, 30, 40, 45))
    if not whole(usable * (speed - along) / (2 * speed)):
        return None
    return {
        "departure": departure,
        "deadline": later(departure, usable + reserve),
        "reserve": float(reserve),
        "speed": speed,
        "out": speed + along,
        "back": speed - along,
        "along_words": stream_words(along),
        "slow_way": say("out" if along < 0 else "back"),
    }


TYPES = (
    QuestionType(
        "speed.there-and-back",
        "Out and home again",
        "speed",
        2,
        Chain(
            {
                "one_way": MILES,
                "out": KNOTS,
                "back": KNOTS,
                **dict.fromkeys(("out_words", "back_words")),
            },
            (BOTH_WAYS, MEAN),
        ),
        _draw_both_ways,
        "You take a small motor boat {one_way} to an island, {out_words}, at {out} over the ground, and "
        "the same way home, {back_words}, at {back}.\n\n"
        "How long are you under way, and what is your mean speed for the whole trip?",
        {"total": "Time under way", "mean": "Mean speed"},
    ),
    QuestionType(
        "speed.turn-back",
        "Time to turn round",
        "speed",
        3,
        Chain(
            {
                "departure": UT,
                "deadline": UT,
                "reserve": TIME,
                "speed": KNOTS,
                "out": KNOTS,
                "back": KNOTS,
                **dict.fromkeys(("along_words", "slow_way")),
            },
            (
                elapsed_step("elapsed", "departure", "deadline").without(
                    "midnight-lost", "smaller-from-larger", "hour-not-borrowed"
                ),
                USABLE,
                OUT_TIME,
                arrival_step("turn", "departure", "out_time").without("clock-backwards"),
            ),
        ),
        _draw_turn,
        "You leave at {departure}, paddle out along the coast and must be back at the same place by "
        "{deadline} with {reserve} in reserve. You make {speed} through the water. The stream, "
        "{along_words} on the way out, does not turn while you are out: {out} over the ground going "
        "out, {back} coming back.\n\n"
        "How long can you paddle out, and when must you turn round?",
        {"out_time": "Time out", "turn": "Turn round at"},
    ),
)
