"""Pieces of the waters' sheets to read a position from, and open sea far from both for plain sums."""

import random
from collections.abc import Sequence
from functools import cache
from typing import Any, Literal

from navlib import waters
from navlib.distance import ground_m
from navlib.language import say
from navlib.latlon import LatLon
from navlib.questions.bearings.legs import MARGIN_MM, SIZE_MM
from navlib.questions.held import choose, view_of
from navlib.questions.picture import POSITION_TOOLS, SheetWindow, Spot, called, with_places
from navlib.waters import Feature, Place, Water

READING_SIGMA_MM = 0.57
"""Standard deviation of a place read off, or put on, a sheet, along each axis; common practice."""

SEAS = (
    ((44.0, 50.0), (-38.0, -20.0)),
    ((36.0, 44.0), (155.0, 172.0)),
    ((-47.0, -41.0), (92.0, 112.0)),
    ((-46.0, -38.0), (-128.0, -102.0)),
)
"""Open ocean without an island: limits of latitude, then of longitude, one for each hemisphere."""


def reading_sigma_m(scale: int) -> float:
    """Return the standard deviation along each axis of a place read off, in metres."""
    return float(ground_m(READING_SIGMA_MM, scale))


def draw_at_sea(source: random.Random, step: float) -> LatLon:
    """Return a place in open ocean, latitude and longitude in whole `step` degrees."""
    limits = source.choice(SEAS)
    return LatLon(*(round(source.uniform(*pair) / step) * step for pair in limits))


def draw_feature(source: random.Random, water: Water) -> Feature:
    """Return a feature that stands on the sheets with its name."""
    return choose(source, _named(water), lambda mark: [mark.place])


@cache
def _named(water: Water) -> tuple[Feature, ...]:
    return tuple(mark for mark in water.marks() if mark.name)


def draw_window(
    source: random.Random,
    water: Water,
    scale: int,
    places: Sequence[Place],
    sheet: Literal["land map", "sea chart"] = "land map",
) -> tuple[float, float] | None:
    """Return the middle of a window that shows all `places`, not always in its middle.

    None if the sheet cannot hold them with a margin, or the waters end too near.
    """
    held, middle = _held(scale), []
    for axis in (0, 1):
        low, high = min(p[axis] for p in places), max(p[axis] for p in places)
        half, margin = held[axis] / 2, ground_m(MARGIN_MM, scale)
        least = max(high + margin - half, water.bounds[axis] + half)
        most = min(low - margin + half, water.bounds[axis + 2] - half)
        if least > most:
            return None
        middle.append(round(source.uniform(least, most), -1))
    return middle[0], middle[1]


def _held(scale: int) -> tuple[float, float]:
    return ground_m(SIZE_MM[0], scale), ground_m(SIZE_MM[1], scale)


def draw_place_near(source: random.Random, water: Water, scale: int) -> Place:
    """Return a place in the taught area that leaves room for a window about it, to 10 metres."""
    view = view_of(source)
    west, south, east, north = view.area if view else water.bounds
    width, height = (0.0, 0.0) if view else _held(scale)
    return (
        round(source.uniform(west + width / 2, east - width / 2), -1),
        round(source.uniform(south + height / 2, north - height / 2), -1),
    )


def draw_marked(
    source: random.Random,
    name: str,
    scale: int,
    sheet: Literal["land map", "sea chart"] = "land map",
) -> dict[str, Any] | None:
    """Return the givens of one named feature, marked A on a sheet: name, place, scale and window."""
    water = waters.load(name)
    feature = draw_feature(source, water)
    middle = draw_window(source, water, scale, [feature.place], sheet)
    if middle is None:
        return None
    return {
        "a": feature.name,
        "place": feature.place,
        "scale": scale,
        "window": SheetWindow(
            name,
            scale,
            middle,
            SIZE_MM,
            (Spot(*feature.place, "A"),),
            with_places(sheet, scale, [("A", feature.name)]),
            instruments=POSITION_TOOLS[sheet],
            sheet=sheet,
        ),
    }


def crosses_window(
    name: str,
    scale: int,
    middle: tuple[float, float],
    crosses: Sequence[tuple[str, Place]],
    sheet: Literal["land map", "sea chart"] = "land map",
) -> SheetWindow:
    """Return the window with lettered crosses on it."""
    spots = tuple(Spot(*place, letter.upper()) for letter, place in crosses)
    letters = ", ".join(spot.label for spot in spots)
    alt = say(
        "{sheet}, one to {scale}, with crosses {letters}.",
        {"sheet": called(sheet), "scale": scale, "letters": letters},
    )
    tools = POSITION_TOOLS[sheet]
    return SheetWindow(
        name, scale, middle, SIZE_MM, spots, alt, instruments=tools, sheet=sheet, way=()
    )
