"""Two bearings that cross on the chart: where the boat is."""

import math
import random
from collections.abc import Mapping
from itertools import permutations
from typing import Any

from navlib.angles import wrap
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step, taking
from navlib.distance import ground_m
from navlib.fixes import bearings_cross
from navlib.geodesy import rhumb
from navlib.kinds.angles import Bearing
from navlib.latlon import LatLon
from navlib.questions.bearings.convert import draw_variation
from navlib.questions.bearings.on_the_map import PROTRACTOR_SIGMA
from navlib.questions.bearings.plotting import BY_VARIATION, DEGREE, EYE_M, MAGNETIC, TURNED
from navlib.questions.bearings.words import variation_words
from navlib.questions.picture import FIXING_TOOLS, SheetWindow
from navlib.questions.plotted import (
    DEEP_M,
    PLACED,
    chart_drawn,
    on_chart,
    put,
    window_about,
)
from navlib.questions.position.views import draw_place_near, draw_window

CUT = (50.0, 130.0)
"""Angles at which two position lines cross well, in degrees."""
FAR_MM = (25.0, 70.0)
"""Paper between the boat and a mark that it takes a bearing of."""
_LAID = Error("protractor", PROTRACTOR_SIGMA)


def _bearing(letter: str) -> Step:
    own = f"magnetic_{letter}"
    return Step(
        f"true_{letter}",
        Bearing("T"),
        taking(lambda magnetic, turn: wrap(magnetic + turn), own, "turn"),
        how=f"Then for {letter.upper()}.",
        line=f"{{{own}}} to {letter.upper()}: {{true_{letter}}}",
        slips=(
            Slip(
                "one-of-two-turned",
                taking(lambda magnetic: magnetic, own),
                f"Yours, {{yours}}, lies where the bearing of {letter.upper()} puts it if that one "
                "is laid off as the compass showed it. Both come from the same needle. Check: T "
                "behind both figures before you draw either.",
                0.5,
            ),
        ),
        errors=(_LAID,),
    )


def _cross(a: LatLon, true_a: float, b: LatLon, true_b: float, window: SheetWindow) -> Any:
    try:
        return put(bearings_cross(a, true_a, b, true_b), window)
    except ValueError:
        return None


FIX = Step(
    "spot",
    on_chart("mark"),
    lambda place_a, true_a, place_b, true_b, window: _cross(
        place_a, true_a, place_b, true_b, window
    ),
    how="Draw through each mark the line that runs to it on its bearing. Mark where the two cross: "
    "there you are.",
    line="{true_a} to A and {true_b} to B cross there",
    check="From your mark, do A and B lie where you looked for them?",
    slips=(
        Slip(
            "bearings-exchanged",
            lambda place_a, true_a, place_b, true_b, window: _cross(
                place_a, true_b, place_b, true_a, window
            ),
            "Yours, {yours}, lies where the two bearings cross if each is drawn through the other "
            "mark. A bearing belongs to its own mark. Check: write the letter beside each line as "
            "you draw it.",
        ),
    ),
    errors=PLACED,
)


def _draw_fix(source: random.Random) -> Mapping[str, Any] | None:
    water, scale = chart_drawn(source)
    boat = draw_place_near(source, water, scale)
    if water.height(boat) > DEEP_M:
        return None
    near, far = (ground_m(mm, scale) for mm in FAR_MM)
    seen = [
        mark for mark in water.marks() if near < math.dist(mark.place, boat) < far and mark.name
    ]
    spot, variation = LatLon(*water.lat_lon(boat)), draw_variation(source)
    if len(seen) < 2:
        return None
    pairs = source.sample(list(permutations(seen, 2)), min(6, len(seen)))
    for a, b in pairs:
        places = [LatLon(*water.lat_lon(mark.place)) for mark in (a, b)]
        trues = [float(rhumb(*spot, *place).bearing) for place in places]
        cut = abs((trues[0] - trues[1] + 180) % 360 - 180)
        centre = draw_window(source, water, scale, [a.place, b.place, boat], "sea chart")
        if not CUT[0] < cut < CUT[1] or centre is None:
            continue
        if not all(water.sees(boat, mark, eye_height=EYE_M) for mark in (a, b)):
            continue
        named = (("A", a.name, a.place), ("B", b.name, b.place))
        shown = window_about(water, scale, centre, named, "sea chart", FIXING_TOOLS)
        return {
            "a": a.name,
            "b": b.name,
            "place_a": places[0],
            "place_b": places[1],
            "magnetic_a": wrap(round(trues[0] - variation)),
            "magnetic_b": wrap(round(trues[1] - variation)),
            "variation": variation,
            "window": shown,
            **variation_words(variation),
        }
    return None


TYPES = (
    QuestionType(
        "bearings.plot-fix",
        "Where two bearings cross",
        "bearings",
        3,
        Chain(
            {
                "magnetic_a": MAGNETIC,
                "magnetic_b": MAGNETIC,
                "variation": DEGREE,
                **dict.fromkeys(("a", "b", "place_a", "place_b", "window")),
                **TURNED,
            },
            (BY_VARIATION, _bearing("a"), _bearing("b"), FIX),
        ),
        _draw_fix,
        "With a hand compass you take two bearings, one straight after the other: A, {a}, "
        "{magnetic_a}, and B, {b}, {magnetic_b}. For this exercise take a variation of {variation}."
        "\n\nMake a pencil mark where you are.",
        {"spot": "Your mark"},
        lambda givens: givens["window"],
    ),
)
