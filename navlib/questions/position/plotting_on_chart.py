"""Put on the chart: a mark at a latitude and longitude, or off a named place."""

import random
from collections.abc import Callable, Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, taking
from navlib.geodesy import minute_of_longitude, rhumb_destination
from navlib.kinds.angles import Bearing
from navlib.kinds.places import Position
from navlib.kinds.quantities import Distance
from navlib.latlon import LatLon
from navlib.questions.picture import FIXING_TOOLS, POSITION_TOOLS, SheetWindow
from navlib.questions.plotted import (
    DEEP_M,
    PLACED,
    chart_drawn,
    laid_slips,
    on_chart,
    on_grid,
    put,
    window_about,
)
from navlib.questions.position import border
from navlib.questions.position.views import draw_feature, draw_place_near, draw_window
from navlib.units import NM

# At a latitude and longitude --------------------------------------------------------------------


def _plot(change: Callable[..., LatLon | None], *more: str) -> Any:
    def work(position: LatLon, window: SheetWindow, *rest: Any) -> Any:
        return put(change(position, *rest), window)

    return taking(work, "position", "window", *more)


def _other_border(position: LatLon) -> LatLon | None:
    """Return where the parts of a minute lead that are taken from each other's border."""
    lat, lon = (border.minutes(angle) % 1 for angle in position)
    ratio = minute_of_longitude(position.lat) / NM
    if lon / ratio >= 1:
        return None
    lon_part, lat_part = lon / ratio, lat * ratio
    return LatLon(
        border.with_part(position.lat, lat_part), border.with_part(position.lon, lon_part)
    )


AT_POSITION = Step(
    "spot",
    on_chart("mark", drawn_only=True),
    _plot(lambda position: position),
    how="Mark the latitude at the side and the longitude along the top or bottom, counting on from the "
    "last whole minute the way the numbers grow; a small division is {worth}′. Carry both into the "
    "sheet with the rule, and mark where they cross.",
    line="{position}: latitude grows {upward}, longitude to the {sideways}; a small division is "
    "{worth}′",
    check="Put a finger on your mark and read its position as if nobody had given you one.",
    slips=(
        Slip(
            "wrong-division",
            _plot(lambda p, scale: border.other_division(p, scale, plotted=True), "scale"),
            "Yours, {yours}, goes on from the right minutes, but {far} as far as it should: one small "
            "division was taken for {taken}′, and it is {worth}′ here. Check: count the divisions "
            "from one numbered minute to the next.",
        ),
        Slip(
            "longitude-backwards",
            _plot(lambda p: LatLon(p.lat, border.backwards(p.lon, up=False))),
            "Yours, {yours}, is on the wrong side of the longitude’s minute. The numbers along the "
            "edge grow to the {sideways}. Check: read the next two numbers there first.",
        ),
        Slip(
            "latitude-backwards",
            _plot(lambda p: LatLon(border.backwards(p.lat, up=False), p.lon)),
            "Yours, {yours}, is on the wrong side of the latitude’s minute. {Half} of the equator the "
            "numbers grow {upward}. Check: read the next two numbers up the side first.",
        ),
        Slip(
            "other-border",
            _plot(_other_border),
            "Yours, {yours}, has the parts of a minute taken from each other’s border. A minute of "
            "longitude is shorter than one of latitude. Check: latitude from the side, longitude "
            "from the top or bottom, never across.",
            0.7,
        ),
    ),
    errors=PLACED,
)


def _draw_position(source: random.Random) -> Mapping[str, Any] | None:
    water, scale = chart_drawn(source)
    exact = water.lat_lon(draw_place_near(source, water, scale))
    spot = LatLon(*(round(angle * 600) / 600 for angle in exact))
    place = on_grid(water, spot)
    centre = draw_window(source, water, scale, [place], "sea chart")
    if centre is None or water.height(place) > DEEP_M:
        return None
    tools = POSITION_TOOLS["sea chart"]
    return {
        "position": spot,
        "scale": scale,
        "window": window_about(water, scale, centre, (), "sea chart", tools),
        **border.words(spot, scale),
    }


# Off a named place --------------------------------------------------------------------------------

MILES = Distance("NM", 0.1)
REACH_MM = (30.0, 70.0)
"""Paper between the named place and the mark."""


def _off(true: float, metres: float, start: LatLon, window: SheetWindow) -> Any:
    return put(LatLon(*rhumb_destination(*start, true, metres)), window)


def _divided(metres: float, scale: int) -> float:
    """Return the distance with whole minutes rightly, the divisions counted at the other worth."""
    whole = metres // NM * NM
    return whole + (metres - whole) * (2 if border.DIVISION[scale] == 0.2 else 0.5)


OFF = Step(
    "spot",
    on_chart("mark"),
    lambda true, metres, start, window: _off(true, metres, start, window),
    how="Lay the bearing off from {a}, and take the distance with the dividers from the side of the "
    "chart, level with it. Mark the place on the line.",
    line="{true} from {a}, {metres} by the latitude scale",
    check="From your mark, is {a} where a boat there would look for it?",
    slips=(
        *laid_slips(_off, "true", "metres", "start", "window"),
        Slip(
            "longitude-scale",
            lambda true, metres, start, window: _off(
                true, metres * minute_of_longitude(start.lat) / NM, start, window
            ),
            "Yours, {yours}, is on the right line but too near: the miles were taken from the top or "
            "bottom edge. There are minutes of longitude, and one is well under a mile. Check: take "
            "miles from the side.",
        ),
        Slip(
            "wrong-division",
            lambda true, metres, start, window, scale: _off(
                true, _divided(metres, scale), start, window
            ),
            "Yours, {yours}, is on the right line, but the part of a mile is {far} what it should be: "
            "one small division was taken for {taken}′, and it is {worth}′ here. Check: count the "
            "divisions of one minute first.",
        ),
    ),
    errors=PLACED,
)


def _draw_off(source: random.Random) -> Mapping[str, Any] | None:
    water, scale = chart_drawn(source)
    mark = draw_feature(source, water)
    tenths = source.uniform(*REACH_MM) / 1000 * scale / NM
    metres, true = round(tenths, 1) * NM, float(source.randrange(360))
    start = LatLon(*water.lat_lon(mark.place))
    end, opposite = (
        on_grid(water, LatLon(*rhumb_destination(*start, way, metres)))
        for way in (true, true + 180)
    )
    # Room for the commonest slip where there is any, or nobody could make it.
    held = ([mark.place, end, opposite], [mark.place, end])
    tried = (draw_window(source, water, scale, places, "sea chart") for places in held)
    centre = next(filter(None, tried), None)
    if centre is None or water.height(end) > DEEP_M:
        return None
    named = (("A", mark.name, mark.place),)
    return {
        "a": mark.name,
        "true": true,
        "metres": metres,
        "start": start,
        "scale": scale,
        "window": window_about(water, scale, centre, named, "sea chart", FIXING_TOOLS),
        **border.words(start, scale),
    }


TYPES = (
    QuestionType(
        "position.plot-position",
        "Put it on the chart",
        "position",
        2,
        Chain(
            {
                "position": Position(places=1),
                **dict.fromkeys(("scale", "window", *border.WORDS)),
            },
            (AT_POSITION,),
        ),
        _draw_position,
        "A drifting boat gives its position as {position}.\n\nMake a pencil mark there.",
        {"spot": "Your mark"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "position.plot-report",
        "So far from there",
        "position",
        2,
        Chain(
            {
                "true": Bearing("T"),
                "metres": MILES,
                **dict.fromkeys(("a", "start", "scale", "window", *border.WORDS)),
            },
            (OFF,),
        ),
        _draw_off,
        "On the radio you hear: “My position is {true} from A, {a}, {metres}.” A bearing in a position "
        "is from the place named.\n\nMake a pencil mark where the boat is.",
        {"spot": "Your mark"},
        lambda givens: givens["window"],
    ),
)
