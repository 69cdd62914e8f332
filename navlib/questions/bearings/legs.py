"""Lines on the land map that are worth measuring: two places and a window that holds them."""

import math
import random
from functools import cache
from itertools import permutations
from typing import Any

from navlib import waters
from navlib.angles import wrap
from navlib.questions.held import choose, choose_scale, choose_water
from navlib.questions.picture import BEARING_TOOLS, SheetWindow, Spot, with_places
from navlib.waters import Feature

SIZE_MM = (150.0, 110.0)
"""Paper shown with a question: what fits beside the words on a small screen, and on half of A4."""
MARGIN_MM = 12.0
"""Paper left between a marked place and the sheet's edge, at least."""
SCALES = (25_000, 50_000)
"""Scales of the land map, as 1 to so many."""
LEG_MM = (50.0, 105.0)
"""Shortest and longest line on paper that can be measured well and still fits."""


AFLOAT = ("headland", "jetty", "beach", "skerry", "rock", "buoy", "beacon")
"""Kinds of place that one would paddle from or to."""
SHORE_M = 150
"""Land that the straight line of a paddle may lie on, metres: the shore at either end."""


@cache
def _legs(name: str, scale: int, paddled: bool) -> tuple[tuple[Feature, Feature], ...]:
    """Return pairs of named places whose line has a length that can be measured well."""
    water = waters.load(name)
    near, far = (mm / 1000 * scale for mm in LEG_MM)
    places = water.of_kind(*AFLOAT) if paddled else water.marks()
    return tuple(
        (a, b)
        for a, b in permutations(places, 2)
        if near <= math.dist(a.place, b.place) <= far
        and min(_room(a, b, scale)) >= 0
        and not (paddled and water.land_crossed(a.place, b.place) > SHORE_M)
    )


def _room(a: Feature, b: Feature, scale: int) -> tuple[float, float]:
    """Return how far a window that holds both places may move, east and north, in metres."""
    spans = (abs(a.easting - b.easting), abs(a.northing - b.northing))
    held = ((size - 2 * MARGIN_MM) / 1000 * scale for size in SIZE_MM)
    east, north = (size - span for size, span in zip(held, spans, strict=True))
    return east, north


def draw_leg(source: random.Random, paddled: bool = False) -> dict[str, Any]:
    """Return the givens of a line between two places: their names, its grid bearing in degrees, its
    length on paper in mm, and the window that shows both.

    With `paddled`, both are places that one would paddle between, with open water on the line.
    """
    water = choose_water(source, ("kessoray",))
    scale = choose_scale(source, SCALES)
    a, b = choose(source, _legs(water, scale, paddled), lambda leg: [leg[0].place, leg[1].place])
    east, north = b.easting - a.easting, b.northing - a.northing
    return {
        "a": a.name,
        "b": b.name,
        "line": wrap(math.degrees(math.atan2(east, north))),
        "length_mm": math.hypot(east, north) * 1000 / scale,
        "window": _window(source, water, scale, a, b),
    }


def _window(source: random.Random, name: str, scale: int, a: Feature, b: Feature) -> SheetWindow:
    """Return a window that holds both places, not always in its middle."""
    room, field = _room(a, b, scale), waters.load(name).bounds
    east, north = (
        _clamp(
            (a.place[i] + b.place[i]) / 2 + source.uniform(-0.5, 0.5) * room[i],
            field[i] + SIZE_MM[i] / 2000 * scale,
            field[i + 2] - SIZE_MM[i] / 2000 * scale,
        )
        for i in (0, 1)
    )
    return SheetWindow(
        name,
        scale,
        (east, north),
        SIZE_MM,
        (Spot(a.easting, a.northing, "A"), Spot(b.easting, b.northing, "B")),
        with_places("land map", scale, [("A", a.name), ("B", b.name)]),
        instruments=BEARING_TOOLS["land map"],
    )


def _clamp(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)
