"""Demonstrations of the lesson on scale and distance.

Lengths on paper in millimetres, on the ground in metres, at sea in nautical miles; latitudes in
degrees north. What is more than a line of arithmetic reaches the front end as a table.
"""

import math
from functools import cache
from typing import Any

import numpy as np
import traitlets

from navlib import waters
from navlib.coastline import cord_length, walk
from navlib.geodesy import meridional_parts, minute_of_latitude, minute_of_longitude
from navlib.questions.distance.shore import Stretch, coasts, stretches
from navlib.units import LENGTHS
from navlib.widgets.demos.demonstration import Demonstration, front_of
from navlib.widgets.shown import front


def _front_of(name: str, *also: str) -> str:
    return front_of(name, "quantities", "timeline", "dividers", *also)


class OfDistance(Demonstration):
    """A figure of lengths on paper and on the ground."""

    _css = front("kit.css", "sheet.css", "demos/demo.css", "demos/speed.css", "demos/distance.css")


class UnitsBeside(OfDistance):
    """One distance beside rulers of nautical miles, kilometres and land miles."""

    words = "A figure to move: one distance in nautical miles, kilometres and land miles."
    _esm = _front_of("units_beside")

    miles = traitlets.Float(3.0, min=0.1, max=6).tag(sync=True)
    lengths = traitlets.Dict(
        {name: LENGTHS[name] for name in ("km", "NM", "cable", "statute mile")}
    ).tag(sync=True)


class PaperToGround(OfDistance):
    """A leg on a sheet, by ruler and fraction and by scale bar; the sheet may be a copy.

    `length` is the leg on the sheet itself, in mm; `copy` the size of the copy in per cent.
    """

    words = "A figure to move: a leg on a sheet by ruler and by scale bar, and on a smaller copy."
    _esm = _front_of("paper_to_ground", "printed_sheet")

    length = traitlets.Float(72.0, min=40, max=110).tag(sync=True)
    scale = traitlets.Enum((25_000, 50_000, 75_000), 50_000).tag(sync=True)
    copy = traitlets.Int(100, min=80, max=115).tag(sync=True)


class TwoMinutes(OfDistance):
    """A minute of latitude and a minute of longitude, in metres, at each whole `latitude`."""

    words = "A figure to move: how long a minute of latitude and one of longitude are."
    _esm = _front_of("two_minutes")

    latitude = traitlets.Int(59, min=0, max=85).tag(sync=True)
    minutes = traitlets.List(
        [
            [round(minute_of_latitude(lat), 1), round(minute_of_longitude(lat), 1)]
            for lat in range(86)
        ]
    ).tag(sync=True)


SOUTH, NORTH, EVERY = 50, 62, 10
"""Lowest and highest degree of the tall chart, and the minutes between two entries of its table."""


class LatitudeBorder(OfDistance):
    """Dividers with a kept opening on the borders of a tall Mercator chart.

    The leg is 120 miles long, its middle at `leg`; the dividers read at `level`, or, if `edge`, on
    the border of longitude.
    """

    words = "A figure to move: dividers read a Mercator chart’s border higher up and lower down."
    _esm = _front_of("latitude_border")

    leg = traitlets.Float(56.0, min=52, max=60).tag(sync=True)
    level = traitlets.Float(56.0, min=52, max=60).tag(sync=True)
    edge = traitlets.Bool(False).tag(sync=True)
    south = traitlets.Int(SOUTH).tag(sync=True)
    parts = traitlets.List(
        [
            round(float(meridional_parts(SOUTH + at / 60) - meridional_parts(SOUTH)), 3)
            for at in range(0, (NORTH - SOUTH) * 60 + 1, EVERY)
        ]
    ).tag(sync=True)


STEPS = range(50, 2001, 50)
"""Steps of the dividers, in metres, that the coast can be walked in."""


class CoastInSteps(OfDistance):
    """A coast of Kessoray walked with dividers of `step` metres, and beside it a cord."""

    words = "A figure to move: the shorter the dividers’ step, the longer the coast."
    _esm = _front_of("coast_in_steps")

    step = traitlets.Int(1600, min=STEPS[0], max=STEPS[-1]).tag(sync=True)
    coast = traitlets.Dict().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(coast=_coast(), **traits)


def _stretch() -> Stretch:
    ends = ("Cleaver Point", "Yoke Head")
    return next(one for one in stretches("kessoray") if (one.a, one.b) == ends)


@cache
def _coast() -> dict[str, Any]:
    """Return the coast of the demonstration, in whole metres from its own south-west corner."""
    shown = _stretch()
    corner = shown.points.min(axis=0)
    window = (shown.points.min(axis=0) - 900, shown.points.max(axis=0) + 900)

    def written(points: Any) -> list[list[int]]:
        return [[round(float(x)), round(float(y))] for x, y in np.asarray(points) - corner]

    land = []
    for ring in coasts(waters.load("kessoray")):
        inside = np.all((ring > window[0]) & (ring < window[1]), axis=1)
        if inside.any():
            kept = inside | (np.arange(len(ring)) % 8 == 0)
            land.append(written(ring[kept]))
    walked = [walk(shown.points, step) for step in STEPS]
    return {
        "a": shown.a,
        "b": shown.b,
        "line": written(shown.points),
        "land": land,
        "cord": round(cord_length(shown.points)),
        "straight": round(math.dist(shown.points[0], shown.points[-1])),
        "walks": [
            {
                "step": one.step,
                "steps": one.steps,
                "rest": round(one.remainder),
                "points": written(one.points),
            }
            for one in walked
        ],
    }
