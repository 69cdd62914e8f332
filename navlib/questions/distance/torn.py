"""A chart with its title torn off: its scale from two marks of latitude, then a leg."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.distance import latitude_scale_mm, scale_from
from navlib.kinds.quantities import Distance
from navlib.latlon import format_latitude
from navlib.questions.distance.on_paper import SCALE
from navlib.questions.distance.steps import LAND_MILE, PAPER, in_miles, on_the_ground
from navlib.units import NM

WHOLE_MILES = Distance("NM", 1.0)
SPANS = {25_000: (1, 2), 50_000: (2, 3, 4), 75_000: (3, 4, 5), 150_000: (5, 10), 200_000: (10, 15)}
"""Minutes of latitude that lie some 70 to 140 mm apart, by scale."""


def _minutes(lat1: float, lat2: float) -> float:
    return (lat2 - lat1) * 60


def _read_as_decimals(lat1: float, lat2: float) -> float | None:
    """Return the miles of 58°55' to 59°05' when the degree is thought to have 100 minutes."""
    crosses = int(lat1) != int(lat2)
    return (_minutes(lat1, lat2) + 40) * NM if crosses else None


SPAN = Step(
    "span",
    WHOLE_MILES,
    lambda lat1, lat2: _minutes(lat1, lat2) * NM,
    how="A minute of latitude is a nautical mile: count the minutes between the two marks.",
    line="From {mark1} to {mark2}: {span}",
    check="Count the minutes one by one at the side; 60 make a degree.",
    slips=(
        Slip(
            "minutes-for-kilometres",
            lambda lat1, lat2: _minutes(lat1, lat2) * 1000,
            "Yours, {yours}, takes a minute of latitude for a kilometre. It is a nautical mile, 1852 m. "
            "Check: 60 minutes are a degree, and a degree is about 111 km.",
        ),
        Slip(
            "minutes-for-land-miles",
            lambda lat1, lat2: _minutes(lat1, lat2) * LAND_MILE,
            "Yours, {yours}, takes a minute of latitude for a land mile of 1609 m. It is a nautical "
            "mile, 1852 m. Check: 60 minutes are a degree, and a degree is about 111 km.",
        ),
        Slip(
            "hundred-minute-degree",
            _read_as_decimals,
            "Yours, {yours}, comes from {mark1} and {mark2} taken from each other like plain numbers, "
            "with 100 minutes to the degree. A degree has 60. Check: count up to the full degree first.",
        ),
    ),
)

FOUND = Step(
    "found",
    SCALE,
    lambda span, apart: scale_from(apart * 1000, span),
    how="Divide the distance on the ground by the distance on paper, both in millimetres.",
    line="{span} × 1 852 000 ÷ {apart}: {found}",
    check="At 1:50 000 a mile takes 37 mm. How many does it take here?",
    slips=(
        Slip(
            "zero-slip",
            lambda span, apart: scale_from(apart * 10_000, span),
            "Yours, {yours}, is ten times out: centimetres against millimetres, or a zero lost. "
            "Check: how many kilometres would the whole sheet then cover?",
        ),
        Slip(
            "zero-slip",
            lambda span, apart: scale_from(apart * 100, span),
            "Yours, {yours}, is ten times out: centimetres against millimetres, or a zero won. "
            "Check: how many kilometres would the whole sheet then cover?",
        ),
    ),
)


def _draw_torn(source: random.Random) -> Mapping[str, Any]:
    scale = source.choice(tuple(SPANS))
    minutes, south = source.choice(SPANS[scale]), source.random() < 0.3
    first = source.choice((57, 58, 59, 60, 61)) * 60
    first += source.randrange(-minutes + 1, 0) if minutes > 1 and source.random() < 0.4 else 10
    lat1, lat2 = first / 60, (first + minutes) / 60
    apart = latitude_scale_mm(lat1, lat2, scale, (lat1 + lat2) / 2)
    low, high = (format_latitude(-lat if south else lat, places=0) for lat in (lat1, lat2))
    return {
        "lat1": lat1,
        "lat2": lat2,
        "mark1": low,
        "mark2": high,
        "apart": round(apart) / 1000,
        "length": round(source.uniform(45, 130)) / 1000,
    }


TYPES = (
    QuestionType(
        "distance.torn-title",
        "The title is torn off",
        "distance",
        2,
        Chain(
            {
                "apart": PAPER,
                "length": PAPER,
                **dict.fromkeys(("lat1", "lat2", "mark1", "mark2")),
            },
            (
                SPAN,
                FOUND,
                on_the_ground("ground", "length", "found", "found").without(
                    "zero-slip", "wrong-scale"
                ),
                in_miles("miles", "ground"),
            ),
        ),
        _draw_torn,
        "A chart has lost the corner with its title. At its side the marks of {mark1} and {mark2} lie "
        "{apart} apart. Near them a leg measures {length}.\n\n"
        "What is the scale of the chart, and how long is the leg in nautical miles?",
        {"found": "Scale of the chart", "miles": "Distance in NM"},
    ),
)
