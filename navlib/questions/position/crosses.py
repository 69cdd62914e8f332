"""From a written position to the sheet: which of five crosses stands there."""

import math
import random
from collections.abc import Mapping
from typing import Any

from navlib import waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.gridref import GridPlace, Square
from navlib.grids import to_grid
from navlib.kinds.choices import Choice
from navlib.kinds.places import GridReference, Position
from navlib.latlon import LatLon
from navlib.questions.held import choose_scale, choose_sheet, choose_water
from navlib.questions.position import border, squares
from navlib.questions.position.squares import in_tenths
from navlib.questions.position.views import crosses_window, draw_place_near, draw_window
from navlib.waters import Place, Water

LETTERS = "abcde"
APART_MM = 6.0
"""Paper between two crosses, at least: nobody is to miss by a shaky hand."""
RIGHT = "right"
DEEP_M = -3.0
"""Height of a sea bed where a pot may lie, metres above chart datum."""


def _cross(role: str) -> Any:
    return lambda roles: roles.get(role)


def _step(how: str, line: str, slips: tuple[Slip, ...]) -> Step:
    return Step(
        "cross",
        Choice({letter: letter.upper() for letter in LETTERS}),
        _cross(RIGHT),
        how=how,
        line=line,
        check="Put a finger on your cross and read its position as if nobody had given you one.",
        slips=slips,
    )


def _lettered(
    source: random.Random, places: Mapping[str, Place], scale: int
) -> tuple[dict[str, str], list[tuple[str, Place]]] | None:
    """Return the letter of each role and the crosses in order; None if two lie too near."""
    roles = list(places)
    near = APART_MM / 1000 * scale
    if any(math.dist(places[a], places[b]) < near for a in roles for b in roles if a < b):
        return None
    source.shuffle(roles)
    letters = dict(zip(roles, LETTERS, strict=True))
    return letters, [(letters[role], places[role]) for role in roles]


# By grid reference ------------------------------------------------------------------------------

BY_REFERENCE = _step(
    "The first half counts to the right from the figures along the edge, the second half up. The "
    "third figure of each half is tenths of a square, from its left and its lower line.",
    "{reference}: right of line {east_line} by {east_tenths}, above line {north_line} by "
    "{north_tenths}: {cross}",
    (
        Slip(
            "tenths-backwards",
            _cross("tenths-backwards"),
            "Yours, {yours}, is in the right square, but with the tenths counted from the right "
            "and from above. Tenths grow to the east and to the north. Check: is {east_tenths} "
            "past the middle of the square or short of it?",
        ),
        Slip(
            "tenths-exchanged",
            _cross("tenths-exchanged"),
            "Yours, {yours}, is in the right square, but has the tenths of the two halves "
            "exchanged. The third figure belongs to east, the sixth to north. Check: write "
            "{reference} as two numbers of three figures.",
        ),
        Slip(
            "line-on-the-right",
            _cross("line-on-the-right"),
            "Yours, {yours}, is one square too far west: line {east_line} is on its right. A "
            "square is called by the line on its left. Check: find the line, then go right.",
        ),
        Slip(
            "line-above",
            _cross("line-above"),
            "Yours, {yours}, is one square too far south: line {north_line} is above it. A square "
            "is called by its lower line. Check: find the line, then go up.",
        ),
    ),
)


def _draw_reference(source: random.Random) -> Mapping[str, Any] | None:
    name, scale = choose_water(source, ("kessoray",)), choose_scale(source, (25_000, 50_000))
    water = waters.load(name)
    spot = squares.middle(GridPlace(*draw_place_near(source, water, scale)), 100)
    places: dict[str, Place] = {
        RIGHT: spot,
        "tenths-backwards": squares.tenths_backwards(spot),
        "tenths-exchanged": squares.tenths_exchanged(spot),
        "line-on-the-right": (spot[0] - squares.KM, spot[1]),
        "line-above": (spot[0], spot[1] - squares.KM),
    }
    middle = draw_window(source, water, scale, list(places.values()))
    lettered = _lettered(source, places, scale)
    if middle is None or lettered is None:
        return None
    corner = Square(spot.easting - 50, spot.northing - 50, 100)
    lines = [f"{m % 100_000 // 1000:02.0f}" for m in corner]
    tenths = [in_tenths(m) for m in corner]
    return {
        "reference": corner,
        "roles": lettered[0],
        "window": crosses_window(name, scale, middle, lettered[1]),
        **dict(zip(("east_line", "north_line"), lines, strict=True)),
        **dict(zip(("east_tenths", "north_tenths"), tenths, strict=True)),
    }


# By latitude and longitude ----------------------------------------------------------------------

_SIDE = (
    "Find the minute at the edge, then go on the way the numbers grow, counting what a small "
    "division is worth. Latitude at the side first, then longitude along the top."
)
BY_LAT_LON = _step(
    _SIDE,
    "{position}: latitude at the side, longitude along the top: {cross}",
    (
        Slip(
            "wrong-division",
            _cross("wrong-division"),
            "Yours, {yours}, goes on from the right minutes, but {far} as far as it should: one "
            "small division was taken for {taken}′, and it is {worth}′ here. Check: count the "
            "divisions from one numbered minute to the next.",
        ),
        Slip(
            "longitude-backwards",
            _cross("longitude-backwards"),
            "Yours, {yours}, is on the wrong side of the longitude’s minute. West of Greenwich the "
            "numbers grow to the left. Check: read the next two numbers along the edge first.",
        ),
        Slip(
            "latitude-backwards",
            _cross("latitude-backwards"),
            "Yours, {yours}, is on the wrong side of the latitude’s minute. {Half} of the equator "
            "the numbers grow {upward}. Check: read the next two numbers up the side first.",
        ),
        Slip(
            "both-backwards",
            _cross("both-backwards"),
            "Yours, {yours}, is on the wrong side of the minute both ways: you went to the right "
            "and {downward} as on a drawing. Check: the numbers on the edge say which way to go.",
        ),
    ),
)


def _on_grid(water: Water, place: LatLon) -> Place:
    east, north = to_grid(*place, water.settings.grid)
    return float(east), float(north)


def _draw_lat_lon(source: random.Random) -> Mapping[str, Any] | None:
    # Fewer draws fit the smaller water: it is drawn more often, so that both come up about as often.
    name, scale = choose_sheet(source, border.CHARTS, (1, 6))
    water = waters.load(name)
    exact = LatLon(*water.lat_lon(draw_place_near(source, water, scale)))
    spot = LatLon(*(round(angle * 600) / 600 for angle in exact))
    wrong = border.other_division(spot, scale)
    if wrong is None:
        return None
    if water.height(_on_grid(water, spot)) > DEEP_M:
        return None
    lat, lon = (border.backwards(angle, up=False) for angle in spot)
    on_sheet = {
        RIGHT: spot,
        "wrong-division": wrong,
        "longitude-backwards": LatLon(spot.lat, lon),
        "latitude-backwards": LatLon(lat, spot.lon),
        "both-backwards": LatLon(lat, lon),
    }
    places = {role: _on_grid(water, place) for role, place in on_sheet.items()}
    middle = draw_window(source, water, scale, list(places.values()))
    lettered = _lettered(source, places, scale)
    if middle is None or lettered is None:
        return None
    return {
        "position": spot,
        "roles": lettered[0],
        "window": crosses_window(name, scale, middle, lettered[1], "sea chart"),
        **border.words(spot, scale),
    }


TYPES = (
    QuestionType(
        "position.find-the-reference",
        "What stands there?",
        "position",
        1,
        Chain(
            {
                "reference": GridReference(6),
                **dict.fromkeys(
                    ("roles", "window", "east_line", "north_line", "east_tenths", "north_tenths")
                ),
            },
            (BY_REFERENCE,),
        ),
        _draw_reference,
        "A friend ashore gives a place as {reference}.\n\nWhich cross stands there?",
        {"cross": "Cross"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "position.find-the-position",
        "Where is that on the chart?",
        "position",
        2,
        Chain(
            {
                "position": Position(places=1),
                **dict.fromkeys(("roles", "window", *border.WORDS)),
            },
            (BY_LAT_LON,),
        ),
        _draw_lat_lon,
        "A skipper has dropped a pot at {position}.\n\nWhich cross stands there?",
        {"cross": "Cross"},
        lambda givens: givens["window"],
    ),
)
