"""Stretches of the waters' own coasts, from one headland to another, for dividers and cord."""

import math
import random
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations
from typing import Any, NamedTuple

import numpy as np
from contourpy import LineType, contour_generator
from numpy.typing import NDArray

from navlib import waters
from navlib.coastline import cord_length, walk
from navlib.distance import ground_m
from navlib.language import say
from navlib.questions.distance.draws import MARGIN_MM, SIZE_MM, Course, window
from navlib.questions.held import choose, choose_water, view_of
from navlib.waters import Place, Water

Line = NDArray[np.float64]

COARSE_MM, FINE_MM = 40.0, 10.0
"""Openings of the dividers: for steps from head to head, and for steps into the bays."""
INDENTED = 1.4
"""Times the straight line that a cord must be for a coast to be worth it."""
LONGEST_MM = 320.0
"""The longest cord, on paper, that anyone would lay."""


class Stretch(NamedTuple):
    """A piece of coast between two headlands: its points in grid metres, and its lengths in metres.

    `coarse`, `fine` and `cord` are by wide and by narrow dividers, and with every bend; `over_land`
    is what of the straight line lies on land. `scale` is that of the map it is walked on.
    """

    scale: int
    a: str
    b: str
    points: Line
    straight: float
    coarse: float
    fine: float
    cord: float
    over_land: float

    def __str__(self) -> str:
        """Return its ends; the points are many, and nobody reads them."""
        return f"the shore from {self.a} to {self.b}"


def coasts(water: Water) -> list[Line]:
    """Return the coast (mean high water springs) as closed lines in grid metres."""
    east, north, height = water.height_field.window(*water.bounds)
    tracer = contour_generator(east, north, height, line_type=LineType.Separate)
    found = (np.asarray(line, float) for line in tracer.lines(water.settings.levels.mhws))
    return [line for line in found if np.array_equal(line[0], line[-1])]


def _between(coast: Line, start: Place, end: Place) -> Line | None:
    """Return the shorter way along a closed coast between the spots nearest to two places.

    None where both ways are much alike, so that nobody knows which is meant.
    """
    ring = coast[:-1]
    i, j = (int(np.hypot(*(ring - place).T).argmin()) for place in (start, end))
    turned = np.roll(ring, -i, axis=0)
    j = (j - i) % len(ring)
    ways = turned[: j + 1], np.vstack([turned[:1], turned[j:][::-1]])
    short, long = sorted((way for way in ways if len(way) > 1), key=cord_length)
    return short if cord_length(long) > 1.5 * cord_length(short) else None


@cache
def stretches(name: str) -> tuple[Stretch, ...]:
    """Return the indented stretches between two headlands that fit a question's sheet."""
    water = waters.load(name)
    return tuple(s for scale in water.settings.scales.land_map for s in _stretches(water, scale))


@cache
def _stretches_at(name: str, scale: int) -> tuple[Stretch, ...]:
    return tuple(stretch for stretch in stretches(name) if stretch.scale == scale)


def _stretches(water: Water, scale: int) -> Iterator[Stretch]:
    held = [ground_m(mm - 2 * MARGIN_MM, scale) for mm in SIZE_MM]
    wide, narrow = ground_m(COARSE_MM, scale), ground_m(FINE_MM, scale)
    for coast in coasts(water):
        on_it = [
            head
            for head in water.of_kind("headland")
            if np.hypot(*(coast - head.place).T).min() < 100
        ]
        for a, b in combinations(on_it, 2):
            way = _between(coast, a.place, b.place)
            if way is None or np.any(np.ptp(way, axis=0) > held):
                continue
            straight, cord = math.dist(way[0], way[-1]), cord_length(way)
            if straight < wide or not INDENTED * straight < cord < ground_m(LONGEST_MM, scale):
                continue
            coarse, fine = (walk(way, step).length for step in (wide, narrow))
            land = water.land_crossed(a.place, b.place)
            yield Stretch(scale, a.name, b.name, way, straight, coarse, fine, cord, land)


def _stepped(stretch: Stretch) -> tuple[Place, ...]:
    """Return where dividers with the narrow opening prick a stretch."""
    which = (stretch.scale, stretch.a, stretch.b)
    if which not in _PRICKS:
        steps = walk(stretch.points, ground_m(FINE_MM, stretch.scale)).points
        _PRICKS[which] = tuple((float(e), float(n)) for e, n in steps)
    return _PRICKS[which]


_PRICKS: dict[tuple[int, str, str], tuple[Place, ...]] = {}
"""What was walked before: each stretch comes up again and again, and walking it is slow."""


def _extent(stretch: Stretch) -> list[Place]:
    """Return the ends of a stretch, and between them what of it lies farthest each way."""
    points = stretch.points
    far = (*points.argmin(axis=0), *points.argmax(axis=0))
    return [(float(e), float(n)) for e, n in points[[0, *far, -1]]]


def draw_stretch(source: random.Random) -> dict[str, Any] | None:
    """Return the givens of a stretch of coast: its names, the stretch, and the window."""
    water = waters.load(choose_water(source, waters.shipped()))
    view = view_of(source)
    found = _stretches_at(water.name, view.scale) if view else stretches(water.name)
    chosen = choose(source, found, _extent)
    ends = tuple((float(e), float(n)) for e, n in chosen.points[[0, -1]])
    named = (say("the shore at {place}", {"place": end}) for end in (chosen.a, chosen.b))
    course = Course(tuple(named), ends)
    shown = window(source, water, "land map", chosen.scale, course, chosen.points)
    if shown is None:
        return None
    shown = replace(shown, way=_stepped(chosen))
    return {"a": chosen.a, "b": chosen.b, "coast": chosen, "window": shown}
