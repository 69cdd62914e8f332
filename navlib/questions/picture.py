"""What a question shows beside its words, as data; who draws it is not known here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from navlib.language import say

Sort = Literal["land map", "sea chart"]

_CALLED = {"land map": "Land map", "sea chart": "Sea chart"}

# Instruments that a navigator reaches for. A protractor that is named first lies on the sheet from
# the beginning; the others lie in the tray.
BEARING_TOOLS: Mapping[str, tuple[str, ...]] = {
    "land map": ("protractor", "pencil line"),
    "sea chart": ("protractor", "parallel rule", "pencil line"),
}
"""To measure or lay off a direction."""
DISTANCE_TOOLS: Mapping[str, tuple[str, ...]] = {
    "land map": ("ruler", "dividers", "cord", "pencil line"),
    "sea chart": ("dividers", "cord", "ruler", "pencil line"),
}
"""To measure a distance, straight or along a way."""
POSITION_TOOLS: Mapping[str, tuple[str, ...]] = {
    "land map": ("romer", "ruler", "pencil line", "pencil mark"),
    "sea chart": ("dividers", "parallel rule", "pencil line", "pencil mark"),
}
"""To read a position off, or put one on."""
FIXING_TOOLS = ("protractor", "parallel rule", "dividers", "pencil line", "pencil mark")
"""To put a place on a sea chart by bearings and distances."""
CIRCLE_TOOLS = ("pencil circle", "dividers", "ruler")
"""To draw all that is as far from a place."""
TOOLS: Mapping[str, tuple[str, ...]] = {
    "land map": (
        *("ruler", "romer", "dividers", "cord", "protractor"),
        *("pencil line", "pencil mark", "pencil circle"),
    ),
    "sea chart": (
        *("dividers", "parallel rule", "cord", "ruler", "protractor"),
        *("pencil line", "pencil mark", "pencil circle"),
    ),
}
"""All that belong to a sheet, where a question does not say which."""


PAGE_TOOLS: Mapping[str, tuple[str, ...]] = {
    "curve": ("ruler", "pencil line"),
    "streams": ("pencil line", "protractor"),
}
"""The same for a page of tides that is measured on: along a curve, or at an arrow."""


def called(sheet: str) -> str:
    """Return what a sort of sheet is called in the learner's language, to begin a sentence with."""
    return say(_CALLED[sheet])


def with_places(sheet: str, scale: int, places: Sequence[tuple[str, str]]) -> str:
    """Return in words a sheet on which places are marked, each a letter and a name."""
    marked = "; ".join(f"{letter}, {name}" for letter, name in places)
    return say(
        "{sheet}, one to {scale}, with one place marked: {marked}."
        if len(places) == 1
        else "{sheet}, one to {scale}, with places marked: {marked}.",
        {"sheet": called(sheet), "scale": scale, "marked": marked},
    )


@dataclass(frozen=True)
class Table:
    """A small table: its caption, the heads of its columns, and rows of text."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Spot:
    """A place marked on a sheet, in grid metres, with the letter it is called by."""

    easting: float
    northing: float
    label: str


@dataclass(frozen=True)
class SheetWindow:
    """A piece of a water's land map or sea chart at a true scale, with places marked on it.

    `centre` is easting and northing in grid metres, `size_mm` width and height on paper; `line`
    draws a pencil line through the spots. `alt` says in words what is to be seen, `instruments` what
    lies in the tray beside it (`TOOLS` unless given, nothing if empty). `way` is what a worked
    answer draws, in grid metres from point to point: through the spots in order unless given.
    """

    water: str
    scale: int
    centre: tuple[float, float]
    size_mm: tuple[float, float]
    spots: tuple[Spot, ...]
    alt: str
    line: bool = False
    instruments: tuple[str, ...] | None = None
    sheet: Sort = "land map"
    way: tuple[tuple[float, float], ...] | None = None


@dataclass(frozen=True)
class TidePage:
    """A page of a water's tides: which one, for which port, and for which day or hour.

    `page` is "table" (the month of `day`), "curve" (the port's mean curves), "day" (the height
    through `day`), "differences", "diamonds", or "streams" (`hour` from high water, -6 to 6).
    `port` is a port's name, the standard port if empty.
    """

    water: str
    page: Literal["table", "curve", "day", "differences", "diamonds", "streams"]
    alt: str
    port: str = ""
    day: date | None = None
    hour: int = 0
