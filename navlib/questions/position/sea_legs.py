"""Legs in latitude and longitude by middle latitude: where a run ends, and from place to place."""

import math
import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import Angle, Bearing
from navlib.kinds.places import Position
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.latlon import LatLon
from navlib.questions.position.sides import NORTHWARD, Side, bearing_step, distance_step
from navlib.questions.position.views import draw_at_sea
from navlib.sailings import (
    departure_nm,
    difference_of_latitude,
    difference_of_longitude,
    dlong_min,
    middle_latitude_destination,
    middle_latitude_sailing,
)
from navlib.units import NM

TENTHS = Position(places=1)
MILES = Distance("NM", 0.1, unit_asked=True)
NORTHWARD_NM, EASTWARD_NM = Side("NM", ways=NORTHWARD), Side("NM")
MINUTES = Side("min of longitude")
TENTH = 1 / 600
"""A tenth of a minute, in degrees."""
NEAR_A_DEGREE = 0.6
"""Share of places put close to a whole degree, where subtracting needs a borrow."""

# Between two positions --------------------------------------------------------------------------


def _hundred_minutes(one: float, other: float, difference: float) -> float | None:
    """Return the difference in minutes as it comes out if a degree had a hundred of them."""
    degrees = [math.copysign(math.floor(abs(a) + 1e-9), a) for a in (one, other)]
    return None if degrees[0] == degrees[1] else difference + 40 * (degrees[1] - degrees[0])


_BORROW = (
    "Yours, {yours}, has a whole degree counted as a hundred minutes. From {start} to {end} a whole "
    "degree is passed, and a degree has 60. Check: count on from the first to the whole degree, then "
    "from there to the second."
)

NORTH = Step(
    "north",
    NORTHWARD_NM,
    lambda start, end: difference_of_latitude(start.lat, end.lat),
    "A minute of latitude is a nautical mile: take the first latitude from the second.",
    "Latitude, first to second: {north}",
    slips=(
        Slip(
            "hundred-minute-degree",
            lambda start, end: _hundred_minutes(
                start.lat, end.lat, difference_of_latitude(start.lat, end.lat)
            ),
            _BORROW,
        ),
    ),
)

DLONG = Step(
    "dlong",
    MINUTES,
    lambda start, end: difference_of_longitude(start.lon, end.lon),
    "Take the first longitude from the second, counting west as below zero.",
    "Longitude, first to second: {dlong}",
    slips=(
        Slip(
            "hundred-minute-degree",
            lambda start, end: _hundred_minutes(
                start.lon, end.lon, difference_of_longitude(start.lon, end.lon)
            ),
            _BORROW,
        ),
    ),
)

MIDDLE = Step(
    "middle",
    Angle(rounding=0.1),
    lambda start, end: abs(start.lat + end.lat) / 2,
    how="Find the latitude half-way between the two.",
    line="Latitude half-way: {middle}",
)


def departure_step(kind: Side, mile: float = 1.0) -> Step:
    """Return the step from “dlong” at the latitude “middle” to “east”, `mile` of its unit a mile."""
    return Step(
        "east",
        kind,
        lambda dlong, middle: departure_nm(dlong, middle) * mile,
        how="A minute of longitude is a mile times the cosine of the latitude: shorter, the "
        "further from the equator.",
        line="{dlong} × cos {middle}: {east}",
        slips=(
            Slip(
                "minutes-for-miles",
                lambda dlong: dlong * mile,
                "Yours, {yours}, takes a minute of longitude for a mile. Here it is only the "
                "cosine of {middle} of one, because meridians run together. Check: only latitude, "
                "at the SIDE of the chart, is in miles.",
                1.5,
            ),
            Slip(
                "cosine-divided",
                lambda dlong, middle: dlong_min(dlong, middle) * mile,
                "Yours, {yours}, divides by the cosine, so a minute of longitude would be longer "
                "than a mile. From minutes to miles one multiplies. Check: off the equator, miles "
                "east are fewer than minutes.",
            ),
        ),
    )


EAST = departure_step(EASTWARD_NM)
DISTANCE = distance_step(MILES, NM).without("root-forgotten", "squares-subtracted")
TRUE = bearing_step("T")


def _near_degree(source: random.Random, place: LatLon) -> LatLon:
    """Return the place, at times moved so that a leg from it may well pass a whole degree."""
    if source.random() > NEAR_A_DEGREE:
        return place
    return LatLon(round(place.lat) + source.randrange(-60, 61) * TENTH, place.lon)


def _draw_pair(source: random.Random) -> Mapping[str, Any] | None:
    start = _near_degree(source, draw_at_sea(source, TENTH))
    end = LatLon(
        start.lat + source.choice((-1, 1)) * source.randrange(25, 160) * TENTH,
        start.lon + source.choice((-1, 1)) * source.randrange(40, 240) * TENTH,
    )
    leg = middle_latitude_sailing(*start, *end)
    return {"start": start, "end": end} if 4 * NM < leg.distance_m < 20 * NM else None


# The end of a run -------------------------------------------------------------------------------

RUN_NORTH = Step(
    "north",
    NORTHWARD_NM,
    lambda course, run: float(run / NM * math.cos(math.radians(course))),
    "Miles north are the run times the cosine of the course; below zero it is south. Each mile is "
    "a minute of latitude.",
    "{run} × cos {course}: {north}",
)
RUN_EAST = Step(
    "east",
    EASTWARD_NM,
    lambda course, run: float(run / NM * math.sin(math.radians(course))),
    "Miles east are the run times the sine of the course; below zero it is west.",
    "{run} × sin {course}: {east}",
)
RUN_MIDDLE = Step(
    "middle",
    Angle(rounding=0.1),
    lambda start, north: abs(start.lat + north / 120),
    how="Find the latitude half-way along.",
    line="Latitude half-way: {middle}",
)
RUN_DLONG = Step(
    "dlong",
    MINUTES,
    lambda east, middle: dlong_min(east, middle),
    "Miles east become minutes of longitude: divide them by the cosine of the latitude.",
    "{east} ÷ cos {middle}: {dlong}",
    slips=(
        Slip(
            "miles-for-minutes",
            lambda east: east,
            "Yours, {yours}, takes a mile east or west for a minute of longitude. Minutes of "
            "longitude are shorter, so there are more of them: divide by the cosine of {middle}. "
            "Check: the minutes are always more than the miles.",
            1.5,
        ),
        Slip(
            "cosine-multiplied",
            lambda east, middle: departure_nm(east, middle),
            "Yours, {yours}, multiplies by the cosine where it should divide. The meridians run "
            "together, so {east} pass MORE minutes than at the equator. Check: the minutes are "
            "always more than the miles.",
        ),
    ),
)


def _end(start: LatLon, north: float, dlong: float) -> LatLon:
    return LatLon(start.lat + north / 60, start.lon + dlong / 60)


ARRIVED = Step(
    "end",
    TENTHS,
    _end,
    how="Put the minutes on: north and east make N and E numbers grow, and S and W numbers "
    "shrink. Sixty minutes make a degree.",
    line="{start}, {north}, {dlong}: {end}",
    check="Sketch it: did you go away from the equator or towards it, and from Greenwich?",
    slips=(
        Slip(
            "latitude-wrong-way",
            lambda start, north, dlong: _end(start, -north, dlong),
            "Yours, {yours}, has the latitude moved the wrong way. You went {north}, and here "
            "latitudes grow to the {grows}. Check: before the sum, say whether the latitude grows "
            "or shrinks.",
        ),
        Slip(
            "longitude-wrong-way",
            lambda start, north, dlong: _end(start, north, -dlong),
            "Yours, {yours}, has the longitude moved the wrong way. You went {east}, and here "
            "longitudes grow to the {lon_grows}. Check: before the sum, say whether the longitude "
            "grows or shrinks.",
        ),
        Slip(
            "sine-for-cosine",
            lambda start, course, run: middle_latitude_destination(
                start.lat, start.lon, 90 - course, run
            ),
            "Yours, {yours}, has sine and cosine exchanged: north took the sine. A course of "
            "{course} is counted from north, so north takes the cosine. Check: on course 000 all "
            "of the run is north.",
        ),
    ),
)


def _draw_run(source: random.Random) -> Mapping[str, Any] | None:
    start = _near_degree(source, draw_at_sea(source, TENTH))
    course = float(source.randrange(0, 360, 5))
    if min(course % 90, 90 - course % 90) < 15:
        return None
    return {
        "start": start,
        "course": course,
        "run": source.randrange(50, 250, 5) / 10 * NM,
        "grows": say("north" if start.lat > 0 else "south"),
        "lon_grows": say("east" if start.lon > 0 else "west"),
    }


BETWEEN = QuestionType(
    "position.between-positions",
    "How far off, and which way?",
    "position",
    3,
    Chain(
        {"start": TENTHS, "end": TENTHS},
        (NORTH, DLONG, MIDDLE, EAST, DISTANCE, TRUE),
    ),
    _draw_pair,
    "You are at {start}. A boat that needs help gives its position as {end}. There is no chart on "
    "board.\n\nHow far is it to the boat, and on which true bearing?",
    {"distance": "Distance in nautical miles", "bearing": "True bearing"},
)

TYPES = (
    QuestionType(
        "position.after-a-run",
        "Where does the run end?",
        "position",
        3,
        Chain(
            {
                "start": TENTHS,
                "course": Bearing("T"),
                "run": MILES,
                **dict.fromkeys(("grows", "lon_grows")),
            },
            (RUN_NORTH, RUN_EAST, RUN_MIDDLE, RUN_DLONG, ARRIVED),
        ),
        _draw_run,
        "Far out, with a small yacht, you are at {start}. You sail {run} on a course of {course}. "
        "There is no current.\n\nGive the new position, to a tenth of a minute.",
        {"end": "New position"},
    ),
    BETWEEN,
)
