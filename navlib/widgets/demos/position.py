"""Demonstrations of the lesson on position: squares of the grid, a romer, minutes and the border.

Grid places are easting and northing in metres on the National Grid.
"""

from functools import lru_cache

import traitlets

from navlib import waters
from navlib.gridref import HUNDRED_KM, NATIONAL
from navlib.pictures.laid import LaidSheet, laid
from navlib.questions.picture import SheetWindow
from navlib.widgets.demos.demonstration import Demonstration
from navlib.widgets.shown import front

LIMITS = (84_000, 992_000, 109_000, 1_012_000)
"""West, south, east and north of what is shown, metres: the northern training water."""


def _front_of(name: str) -> str:
    """Return the front-end module of the demonstration `name`, with what it builds on."""
    shared = ("controls", "quantities", "timeline", "plane")
    return front("kit.js", *(f"demos/{one}.js" for one in (*shared, name)))


def _letters() -> list[list[int | str]]:
    """Return south-west corner and letters of the four 100 km squares that meet in the waters."""
    corners = [(e, n) for e in (0, HUNDRED_KM) for n in (9 * HUNDRED_KM, 10 * HUNDRED_KM)]
    return [[east, north, NATIONAL.of(east, north)] for east, north in corners]


class OfPlace(Demonstration):
    """A figure of where something is."""

    _css = front("kit.css", "sheet.css", *(f"demos/{n}.css" for n in ("demo", "speed", "position")))

    letters: traitlets.List[list[int | str]] = traitlets.List().tag(sync=True)

    @traitlets.default("letters")
    def _four_squares(self) -> list[list[int | str]]:
        return _letters()


class NamedSquare(OfPlace):
    """A place and the square of the grid that its reference of so many figures names."""

    words = "A figure to move: one place named with 4, 6, 8 and 10 figures."
    _esm = _front_of("named_square")

    limits = traitlets.List(traitlets.Int(), list(LIMITS)).tag(sync=True)
    figures = traitlets.Enum((4, 6, 8, 10), 6).tag(sync=True)
    east = traitlets.Int(99_962, min=LIMITS[0], max=LIMITS[2] - 1).tag(sync=True)
    north = traitlets.Int(1_000_347, min=LIMITS[1], max=LIMITS[3] - 1).tag(sync=True)


class Romer(OfPlace):
    """A romer on a piece of the land map at 1:25 000.

    `east` and `north` are where its corner lies; `turned` is upside down; `edge` is the map scale
    that the edge in use is made for; `sought` counts the `places` that are to be read. `frame` is
    the map's, west, south, east and north; `place_on_picture` says how the whole sheet lies: width
    and height in mm, easting and northing of its top left corner, metres to a millimetre.
    """

    words = "A figure to move: a romer on a piece of the land map, read at the grid lines."
    _esm = _front_of("romer")

    frame: traitlets.List[float] = traitlets.List(traitlets.Float()).tag(sync=True)
    picture = traitlets.Unicode().tag(sync=True)
    place_on_picture: traitlets.List[float] = traitlets.List(traitlets.Float()).tag(sync=True)
    places: traitlets.List[list[object]] = traitlets.List().tag(sync=True)
    sought = traitlets.Int(0, min=0, max=2).tag(sync=True)
    east = traitlets.Int(95_600).tag(sync=True)
    north = traitlets.Int(999_800).tag(sync=True)
    turned = traitlets.Bool(False).tag(sync=True)
    edge = traitlets.Enum((25_000, 50_000), 25_000).tag(sync=True)

    @traitlets.default("picture")
    def _map(self) -> str:
        return _harbour().svg()

    @traitlets.default("frame")
    def _edges(self) -> list[float]:
        window = _harbour().window
        return [window.west, window.south, window.east, window.north]

    @traitlets.default("place_on_picture")
    def _lies(self) -> list[float]:
        sheet = _harbour()
        return [sheet.width_mm, sheet.height_mm, *sheet.grid_at(0, 0), sheet.window.scale / 1000]

    @traitlets.default("places")
    def _marks(self) -> list[list[object]]:
        names = ("Starboard Hand Buoy", "Pintle Point", "Kessoray Jetty")
        place = {mark.name: mark.place for mark in waters.load("kessoray").marks()}
        return [[name, *place[name]] for name in names]


@lru_cache(maxsize=1)
def _harbour() -> LaidSheet:
    """Return the piece of the land map that lies under the romer."""
    place, size = (95_280.0, 999_900.0), (112.0, 82.0)
    return laid(SheetWindow("kessoray", 25_000, place, size, (), ""))


class TwoReferences(OfPlace):
    """Two places of six figures, `a` and `b`: how far apart, and on which grid bearing."""

    words = "A figure to move: two grid references, the straight way and its bearing."
    _esm = _front_of("two_references")

    corner = traitlets.List(traitlets.Int(), [94_000, 995_000]).tag(sync=True)
    a = traitlets.List(traitlets.Int(), [96_500, 1_002_300]).tag(sync=True)
    b = traitlets.List(traitlets.Int(), [102_900, 999_100]).tag(sync=True)


class OneAngle(OfPlace):
    """A latitude in decimal degrees, in decimal minutes, and in minutes and seconds.

    `seconds` are whole seconds beyond `degrees` north, which stay as they were made.
    """

    words = "A figure to move: one latitude in decimal degrees, in minutes, and in seconds."
    _esm = _front_of("one_angle")

    degrees = traitlets.Int(58, min=10, max=89).tag(sync=True)
    seconds = traitlets.Int(18 * 60 + 24, min=0, max=3599).tag(sync=True)


class ChartBorder(OfPlace):
    """A place read at a chart's border, north or south and east or west.

    `right` and `up` are tenths of a minute from the left and the lower edge; `division` is what a
    small division of the border is worth, in tenths of a minute.
    """

    words = "A figure to move: latitude and longitude read at the border of a chart."
    _esm = _front_of("border")

    right = traitlets.Int(36, min=1, max=59).tag(sync=True)
    up = traitlets.Int(14, min=1, max=29).tag(sync=True)
    north = traitlets.Bool(True).tag(sync=True)
    east = traitlets.Bool(False).tag(sync=True)
    division = traitlets.Enum((1, 2), 2).tag(sync=True)


class TwoPositions(OfPlace):
    """Two positions not far apart: distance and true bearing by middle latitude.

    A lies at `latitude` degrees north and half a degree beyond `longitude` west; B lies `east` and
    `north` of it in minutes of longitude and of latitude.
    """

    words = "A figure to move: two positions, and what their minutes are in miles."
    _esm = _front_of("two_positions")

    latitude = traitlets.Int(59, min=0, max=75).tag(sync=True)
    longitude = traitlets.Int(34, min=1, max=178).tag(sync=True)
    east = traitlets.Float(16.0, min=-20, max=20).tag(sync=True)
    north = traitlets.Float(8.0, min=-15, max=15).tag(sync=True)
