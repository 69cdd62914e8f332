"""Measured on the sheets: by a scale bar, by the latitude scale, and round a head."""

import math
import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step, Work
from navlib.distance import paper_mm
from navlib.geodesy import minute_of_latitude, minute_of_longitude
from navlib.language import say
from navlib.questions.deck import DECK, laid_nm_sigma
from navlib.questions.distance.draws import MAP_LEG, draw_chart_leg, draw_map_leg, draw_way_round
from navlib.questions.distance.steps import MEASURED, MILES, TO_HALF_A_CABLE, measured_nm_sigma
from navlib.units import NM

# By the scale bar -------------------------------------------------------------------------------

BAR_WITH_TENTHS = 50_000
"""The land map on which the bar of nautical miles has a mile in tenths left of its zero."""


def _from_the_left_end(distance: float, scale: int) -> float | None:
    return distance - NM if scale == BAR_WITH_TENTHS and distance > 1.3 * NM else None


MEASURED_BY_BAR = replace(
    MEASURED,
    slips=(
        *MEASURED.without("miles-wrong-way").slips,
        Slip(
            "bar-from-its-end",
            lambda length_mm, scale: _from_the_left_end(MEASURED.work(length_mm, scale), scale),
            "Yours, {yours}, is one mile short: the dividers stood on the left end of the bar, and "
            "there is not its zero. The mile left of zero is for the tenths. Check: one point on a "
            "whole mile, the other left of zero.",
        ),
    ),
)


# By the latitude scale --------------------------------------------------------------------------


def on_latitude(metres: float, level: float) -> float:
    """Return what dividers read at the side, a minute of latitude for a mile, in metres."""
    return metres / minute_of_latitude(level) * NM


def on_longitude(metres: float, level: float) -> float:
    """Return the same for the scale of longitude at the top or bottom."""
    return metres / minute_of_longitude(level) * NM


PLAN = 30_000
"""From this denominator down the border's black and white bars are half a minute long,"""
COARSE = 60_000
"""and above this one its small divisions are two tenths of a minute."""


def _bars_for_minutes(miles: float, scale: int) -> float | None:
    return 2 * miles if scale <= PLAN else None


def _divisions_for_tenths(miles: float, scale: int) -> float | None:
    """Return whole minutes rightly, and the divisions of two tenths counted as one each."""
    if scale <= COARSE:
        return None
    whole = miles // NM * NM
    return whole + (miles - whole) / 2


_LONGITUDE = (
    "Yours, {yours}, comes from the top or bottom edge. There are minutes of longitude, and here one "
    "is well under a mile. Check: measure on the side, level with the leg."
)
_KILOMETRES = (
    "Yours, {yours}, divides by 1.85, as if the minutes were kilometres. A minute of latitude is a "
    "nautical mile already. Check: what does the border count, and what is asked?"
)

BY_LATITUDE = Step(
    "distance",
    TO_HALF_A_CABLE,
    on_latitude,
    how="Set the dividers to the leg and carry them to the side, level with it: a minute of latitude "
    "is a nautical mile.",
    line="From {a} to {b}: {distance}",
    check="One minute at the side, held beside the leg: how often does it go in?",
    slips=(
        Slip("longitude-scale", on_longitude, _LONGITUDE),
        Slip(
            "minutes-for-kilometres",
            lambda metres, level: on_latitude(metres, level) / NM * 1000,
            _KILOMETRES,
            0.5,
        ),
        Slip(
            "bars-for-minutes",
            lambda metres, level, scale: _bars_for_minutes(on_latitude(metres, level), scale),
            "Yours, {yours}, counts each black or white bar at the side as a minute. On this plan a bar "
            "is half a minute. Check: find two minutes that have figures, and count between them.",
        ),
        Slip(
            "divisions-for-tenths",
            lambda metres, level, scale: _divisions_for_tenths(on_latitude(metres, level), scale),
            "Yours, {yours}, counts the small divisions as tenths. On this chart there are five to a "
            "minute, so each is two tenths. Check: count the divisions of one minute first.",
        ),
    ),
    errors=(Error("points, border and paper", measured_nm_sigma, others={DECK: laid_nm_sigma}),),
)

# Round a head -----------------------------------------------------------------------------------


def _sum(reading: Callable[[float, float], float], legs: list[float], level: float) -> float:
    return sum(reading(leg, level) for leg in legs)


def _summed(sigma: Callable[[float, float], float]) -> Work:
    """Return the standard deviation of the sum of all legs, each with its own."""
    return lambda legs, scale: math.hypot(*(sigma(paper_mm(leg, scale), scale) for leg in legs))


ROUND = Step(
    "distance",
    MILES,
    lambda legs, level: _sum(on_latitude, legs, level),
    how="Measure each leg at the side, level with it, and add them. Or walk the dividers on from leg "
    "to leg and measure the sum.",
    line="{parts}: together {distance}",
    check="The way round must be longer than the straight line. By how much does yours exceed it?",
    slips=(
        Slip(
            "over-land",
            lambda straight, level: on_latitude(straight, level),
            "Yours, {yours}, is the straight line from A to {last}. That line crosses land; the boat "
            "must go round. Check: follow the line with a pencil and look for land.",
        ),
        Slip(
            "leg-left-out",
            lambda legs, level: _sum(on_latitude, legs[:-1], level),
            "Yours, {yours}, ends at the last turn, one leg short of {last}. Check: count the legs: "
            "there is one more than there are turns.",
        ),
        Slip(
            "leg-left-out",
            lambda legs, level: _sum(on_latitude, legs[1:], level),
            "Yours, {yours}, begins at B, one leg after A. Check: count the legs: there is one more "
            "than there are turns.",
            0.5,
        ),
        Slip(
            "longitude-scale",
            lambda legs, level: _sum(on_longitude, legs, level),
            _LONGITUDE,
        ),
    ),
    errors=(
        Error(
            "points, border and paper",
            _summed(measured_nm_sigma),
            others={DECK: _summed(laid_nm_sigma)},
        ),
    ),
)


def _draw_round(source: random.Random) -> Mapping[str, Any] | None:
    givens = draw_way_round(source)
    if givens is None:
        return None
    start, *turns, end = givens["names"]
    words = {"a": start, "b": turns[0], "c": turns[-1], "end": end}
    task = (
        "You paddle from A, {a}, round the land to C, {end}. You turn at B, {b}"
        if len(turns) == 1
        else "You paddle from A, {a}, round the land to D, {end}. You turn at B, {b}, and at C, {c}"
    )
    legs = [MILES.write(on_latitude(leg, givens["level"])) for leg in givens["legs"]]
    ends = pairwise("ABCD")
    return {
        **givens,
        "task": say(task, words),
        "last": "ABCD"[len(turns) + 1],
        "parts": ", ".join(
            say("{a} to {b} {leg}", {"a": a, "b": b, "leg": leg})
            for leg, (a, b) in zip(legs, ends, strict=False)
        ),
    }


TYPES = (
    QuestionType(
        "distance.by-bar",
        "By the scale bar",
        "distance",
        1,
        Chain(dict.fromkeys(MAP_LEG), (MEASURED_BY_BAR,)),
        draw_map_leg,
        "A is {a}, B is {b}.\n\nMeasure from A to B. How far is it in nautical miles, to half a cable?",
        {"distance": "Distance in NM"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "distance.by-latitude",
        "By the latitude scale",
        "distance",
        2,
        Chain(
            dict.fromkeys(("a", "b", "metres", "length_mm", "level", "scale", "window")),
            (BY_LATITUDE,),
        ),
        draw_chart_leg,
        "A is {a}, B is {b}.\n\nHow far is it from A to B? Take the miles from the border of the chart, "
        "to half a cable.",
        {"distance": "Distance in NM"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "distance.round-the-head",
        "Round the head",
        "distance",
        3,
        Chain(
            dict.fromkeys(
                (
                    *("names", "legs", "straight", "level", "scale", "window"),
                    *("task", "last", "parts"),
                )
            ),
            (ROUND,),
        ),
        _draw_round,
        "{task}.\n\nHow long is your way in nautical miles?",
        {"distance": "Length of the way in NM"},
        lambda givens: givens["window"],
    ),
)
