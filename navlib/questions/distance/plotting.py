"""Drawn on the chart: all that is as far from a place, a circle with its radius from the border."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.geodesy import minute_of_longitude
from navlib.kinds.marks import Pencilled, widened
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.latlon import LatLon
from navlib.questions.picture import CIRCLE_TOOLS
from navlib.questions.plotted import BEGUN, chart_drawn, on_chart, window_about
from navlib.questions.position.border import DIVISION
from navlib.questions.position.views import draw_feature, draw_window
from navlib.units import NM

MILES = Distance("NM", 0.1)
RADIUS_MM = (22.0, 42.0)
"""Paper between middle and rim."""
OPENING_SIGMA_MM = 0.5
"""Standard deviation of an opening set on the border and kept: each point 0.3, the pencil 0.3;
common practice."""
ALIKE = 0.08
"""Difference in a radius, as a share, below which nobody can tell two slips apart."""


def _circle(start: LatLon, radius: float | None, scale: int) -> Pencilled | None:
    return None if radius is None else Pencilled((start,), scale, radius)


def _by_longitude(start: LatLon, metres: float) -> float:
    return metres * minute_of_longitude(start.lat) / NM


def _by_kilometres(start: LatLon, metres: float) -> float | None:
    """Return the radius with kilometres for miles; None where that is as on the other border."""
    radius = metres * 1000 / NM
    return radius if abs(radius - _by_longitude(start, metres)) > ALIKE * metres else None


def _other_division(metres: float, scale: int) -> float | None:
    whole, rest = metres // NM * NM, metres % NM
    return whole + rest * (2 if DIVISION[scale] == 0.2 else 0.5) if rest else None


CIRCLE = Step(
    "circle",
    on_chart("circle"),
    lambda start, metres, scale: _circle(start, metres, scale),
    how="Open the compasses on the side of the chart, level with A: a minute of latitude is a nautical "
    "mile. Then set the point on A and draw the circle.",
    line="{metres} about A, taken from the side of the chart",
    check="Lay the opening on the side once more: how many minutes is it?",
    slips=(
        Slip(
            "longitude-scale",
            lambda start, metres, scale: _circle(start, _by_longitude(start, metres), scale),
            "Yours, {yours}, is too narrow: the opening was taken from the top or bottom edge. There "
            "are minutes of longitude, and here one is well under a mile. Check: take miles from the "
            "side, level with A.",
        ),
        Slip(
            "kilometres-for-miles",
            lambda start, metres, scale: _circle(start, _by_kilometres(start, metres), scale),
            "Yours, {yours}, is as wide as that many kilometres. The question says nautical miles. "
            "Check: which bar or border did the opening come from?",
            0.6,
        ),
        Slip(
            "wrong-division",
            lambda start, metres, scale: _circle(start, _other_division(metres, scale), scale),
            "Yours, {yours}, has the part of a mile {far} what it should be: one small division was "
            "taken for {taken}′, and it is {worth}′ here. Check: count the divisions of one minute "
            "first.",
        ),
        Slip(
            "diameter-for-radius",
            lambda start, metres, scale: _circle(start, 2 * metres, scale),
            "Yours, {yours}, is twice as wide as asked. The distance is from the middle to the rim, "
            "and not half of it. Check: lay the dividers from A to the rim.",
            0.5,
        ),
    ),
    errors=(
        *BEGUN,
        Error("opening of the compasses", OPENING_SIGMA_MM, lambda v, by: widened(v, by)),
    ),
)


def _draw(source: random.Random) -> Mapping[str, Any] | None:
    water, scale = chart_drawn(source)
    mark = draw_feature(source, water)
    metres = round(source.uniform(*RADIUS_MM) / 1000 * scale / NM, 1) * NM
    east, north = mark.place
    rim = [(east + x * metres, north + y * metres) for x, y in ((0, 1), (1, 0), (0, -1), (-1, 0))]
    centre = draw_window(source, water, scale, rim, "sea chart")
    if centre is None:
        return None
    division = DIVISION[scale]
    return {
        "a": mark.name,
        "start": LatLon(*water.lat_lon(mark.place)),
        "metres": metres,
        "scale": scale,
        "window": window_about(
            water, scale, centre, (("A", mark.name, mark.place),), "sea chart", CIRCLE_TOOLS
        ),
        "far": say("twice" if division == 0.2 else "half"),
        "taken": "0.1" if division == 0.2 else "0.2",
        "worth": f"{division:.1f}",
    }


TYPES = (
    QuestionType(
        "distance.plot-circle",
        "Not nearer than that",
        "distance",
        2,
        Chain(
            {
                "metres": MILES,
                **dict.fromkeys(("a", "start", "scale", "window", "far", "taken", "worth")),
            },
            (CIRCLE,),
        ),
        _draw,
        "Divers are at work at A, {a}, and boats are asked to keep {metres} off.\n\nDraw the limit "
        "on the chart: a pencil circle about A.",
        {"circle": "Your circle"},
        lambda givens: givens["window"],
    ),
)
