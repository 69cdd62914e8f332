"""Legs and routes on the waters' sheets that are worth measuring, and a window that holds them."""

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache, lru_cache
from itertools import combinations, pairwise, permutations
from typing import Any, Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from navlib import waters
from navlib.distance import paper_mm
from navlib.geodesy import rhumb
from navlib.language import say
from navlib.questions.bearings.legs import AFLOAT, SHORE_M, draw_leg
from navlib.questions.held import choose, choose_scale, choose_water, view_of
from navlib.questions.picture import DISTANCE_TOOLS, SheetWindow, Spot, with_places
from navlib.waters import Place, Water

SIZE_MM = (150.0, 110.0)
"""Paper shown with a question: what fits beside the words on a small screen, and on half of A4."""
MARGIN_MM = 10.0
"""Paper left between a marked place and the sheet's edge, at least."""
LEG_MM = (45.0, 105.0)
"""Shortest and longest leg on paper that dividers measure well."""
Sort = Literal["land map", "sea chart"]


class Course(NamedTuple):
    """Named places in the order in which they are passed."""

    names: tuple[str, ...]
    places: tuple[Place, ...]


def window(
    source: random.Random,
    water: Water,
    sheet: Sort,
    scale: int,
    course: Course,
    around: ArrayLike | None = None,
) -> SheetWindow | None:
    """Return a window that holds a course, its places lettered from A; None if it does not fit.

    It holds also what is `around`, shape (n, 2) in grid metres. The course does not always lie in
    its middle.
    """
    centre = []
    held = np.asarray(course.places if around is None else around, float)
    for axis in (0, 1):
        least, most = float(held[:, axis].min()), float(held[:, axis].max())
        half = SIZE_MM[axis] / 2000 * scale
        room = 2 * (half - MARGIN_MM / 1000 * scale) - (most - least)
        if room < 0:
            return None
        middle = (most + least) / 2 + source.uniform(-0.4, 0.4) * room
        low, high = water.bounds[axis] + half, water.bounds[axis + 2] - half
        centre.append(min(max(middle, low), high))
    spots = tuple(
        Spot(*place, letter) for place, letter in zip(course.places, "ABCDEF", strict=False)
    )
    named = [(spot.label, name) for spot, name in zip(spots, course.names, strict=True)]
    return SheetWindow(
        water.name,
        scale,
        (centre[0], centre[1]),
        SIZE_MM,
        spots,
        with_places(sheet, scale, named),
        instruments=DISTANCE_TOOLS[sheet],
        sheet=sheet,
    )


def legs_m(water: Water, places: Sequence[Place]) -> list[float]:
    """Return the metres of the rhumb lines from place to place: straight on a sea chart."""
    return [_leg_m(water.name, a, b) for a, b in pairwise(places)]


@lru_cache(maxsize=4096)
def _leg_m(name: str, a: Place, b: Place) -> float:
    water = waters.load(name)
    return float(rhumb(*water.lat_lon(a), *water.lat_lon(b))[0])


def draw_map_leg(source: random.Random) -> dict[str, Any]:
    """Return the givens of a leg on the land map: its names, its millimetres, scale and window."""
    leg = draw_leg(source, paddled=True)
    shown = replace(leg["window"], instruments=DISTANCE_TOOLS["land map"])
    return {
        **{name: leg[name] for name in ("a", "b", "length_mm")},
        "scale": shown.scale,
        "window": shown,
    }


MAP_LEG = ("a", "b", "length_mm", "scale", "window")
"""Names of those givens."""

# Open legs on a chart ---------------------------------------------------------------------------


@cache
def open_legs(name: str, scale: int) -> tuple[Course, ...]:
    """Return pairs of places that one would paddle between, with open water on the line."""
    water, (near, far) = waters.load(name), (mm / 1000 * scale for mm in LEG_MM)
    return tuple(
        Course((a.name, b.name), (a.place, b.place))
        for a, b in permutations(water.of_kind(*AFLOAT), 2)
        if near <= math.dist(a.place, b.place) <= far
        and water.land_crossed(a.place, b.place) <= SHORE_M
    )


def draw_chart_leg(source: random.Random) -> dict[str, Any] | None:
    """Return the givens of a leg on a sea chart: its names, metres, millimetres, and the window."""
    water = waters.load(choose_water(source, waters.shipped()))
    scale = choose_scale(source, water.settings.scales.sea_chart)
    course = choose(source, open_legs(water.name, scale), lambda course: course.places)
    shown = window(source, water, "sea chart", scale, course)
    if shown is None:
        return None
    (metres,) = legs_m(water, course.places)
    return {
        "a": course.names[0],
        "b": course.names[1],
        "metres": metres,
        "length_mm": paper_mm(metres, scale),
        "level": (water.lat_lon(course.places[0])[0] + water.lat_lon(course.places[1])[0]) / 2,
        "scale": scale,
        "window": shown,
    }


# Round a head -----------------------------------------------------------------------------------

OFF_M = 200.0
"""Metres off a headland where one turns."""
BLOCKED_M = 400.0
"""Land on the straight line, metres, from which a way round is worth a question."""
LONGEST_WAY = 1.7
"""Times the straight line: a longer way round is no longer natural."""
ENDS = ("jetty", "beach", "bay", "skerry", "rock", "buoy")
"""Kinds of place from which such a way begins or where it ends."""
TURN_MM = 18.0
"""The shortest leg of such a way, on paper."""


def _off(water: Water, head: Place) -> Place:
    """Return a place off a headland, on the side where the water is deepest."""

    def away(degrees: float, metres: float) -> Place:
        angle = math.radians(degrees)
        return head[0] + metres * math.sin(angle), head[1] + metres * math.cos(angle)

    def depth(degrees: float) -> float:
        return sum(water.height(away(degrees, metres)) for metres in (100.0, 200.0, 400.0))

    return away(min(range(0, 360, 15), key=depth), OFF_M)


@cache
def ways_round(name: str) -> tuple[tuple[int, Course], ...]:
    """Return ways of two or three legs round headlands, where the straight line lies over land.

    Each stands behind the scale of the chart that it fits.
    """
    water = waters.load(name)
    scales = water.settings.scales.sea_chart
    return tuple((scale, way) for scale in scales for way in _ways_round(water, scale))


def _ways_round(water: Water, scale: int) -> Iterator[Course]:
    crossed = cache(water.land_crossed)
    heads = [
        (say("off {place}", {"place": f.name}), _off(water, f.place))
        for f in water.of_kind("headland")
    ]
    ends = [(f.name, f.place) for f in water.of_kind(*ENDS)]
    shortest, across = TURN_MM / 1000 * scale, SIZE_MM[0] / 1000 * scale

    def clear(a: Place, b: Place, shore: float = SHORE_M) -> bool:
        return shortest <= math.dist(a, b) <= across and crossed(a, b) <= shore

    for (a, start), (b, end) in combinations(ends, 2):
        straight = math.dist(start, end)
        if not 2 * shortest < straight < across or crossed(start, end) < BLOCKED_M:
            continue
        longest = LONGEST_WAY * straight
        near = [h for h in heads if math.dist(start, h[1]) + math.dist(h[1], end) <= longest]
        first = [head for head in near if clear(start, head[1])]
        last = [head for head in near if clear(head[1], end)]
        ways = [Course((a, name, b), (start, at, end)) for name, at in first if (name, at) in last]
        ways += [
            Course((a, one, other, b), (start, p, q, end))
            for one, p in first
            for other, q in last
            if clear(p, q, 0.0) and min(crossed(start, q), crossed(p, end)) > SHORE_M
        ]
        best = min(ways, key=_run, default=None)
        if best and _run(best) <= longest:
            yield best


@cache
def _ways_at(name: str, scale: int) -> tuple[tuple[int, Course], ...]:
    return tuple(one for one in ways_round(name) if one[0] == scale)


def _held_ways(source: random.Random, name: str) -> tuple[tuple[int, Course], ...]:
    view = view_of(source)
    return _ways_at(name, view.scale) if view else ways_round(name)


def _run(way: Course) -> float:
    return sum(math.dist(p, q) for p, q in pairwise(way.places))


def draw_way_round(source: random.Random) -> dict[str, Any] | None:
    """Return the givens of a way round headlands on a sea chart: its names, legs, and the window."""
    water = waters.load(choose_water(source, waters.shipped()))
    scale, way = choose(source, _held_ways(source, water.name), lambda one: one[1].places)
    turn = source.choice((1, -1))
    names, places = way.names[::turn], way.places[::turn]
    shown = window(source, water, "sea chart", scale, Course(names, places))
    if shown is None:
        return None
    (straight,) = legs_m(water, (places[0], places[-1]))
    lats = [water.lat_lon(place)[0] for place in places]
    return {
        "names": names,
        "legs": legs_m(water, places),
        "straight": straight,
        "level": sum(lats) / len(lats),
        "scale": scale,
        "window": shown,
    }
