"""What questions share that ask for a mark, a line or a circle on a sheet of the waters."""

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from navlib import gridref, waters
from navlib.angles import reciprocal, wrap
from navlib.chain.step import Error, Slip, Step, Work, taking
from navlib.distance import ground_m
from navlib.geodesy import rhumb_destination
from navlib.gridref import Letters
from navlib.grids import to_grid
from navlib.kinds.angles import EastWest
from navlib.kinds.marks import OnSheet, Pencilled, Sort, moved, turned
from navlib.language import say
from navlib.latlon import LatLon
from navlib.questions.bearings.legs import SIZE_MM
from navlib.questions.bearings.on_the_map import PENCIL_SIGMA_MM, drawn_line_sigma
from navlib.questions.deck import DECK, LAID_MM, soft_line_sigma
from navlib.questions.held import choose_sheet
from navlib.questions.picture import SheetWindow, Spot, called, with_places
from navlib.questions.picture import Sort as SortOfSheet
from navlib.waters import Place, Water

CHARTS = (("kessoray", 75_000), ("orrimer", 50_000))
"""The waters, each with the scale of its sea chart."""
LINE_MM = 60.0
"""Paper that a line asked for is judged over, from where it begins."""
PLACING_SIGMA_MM = math.hypot(0.4, PENCIL_SIGMA_MM)
"""Standard deviation along each axis of a place put on a sheet by romer or dividers."""
CLEAR_MM = 2.0
"""Paper that a place plotted with a slip must lie within the frame, to be plotted at all."""

DEEP_M = -3.0
"""Height of a sea bed over which a boat may lie, metres above chart datum."""

LAID_ON_DECK = {DECK: LAID_MM}
"""The same of a place or the beginning of a line put there on deck, by eye or by a thumb's breadth."""

PLACED = (
    Error("romer or dividers, and pencil", PLACING_SIGMA_MM, lambda v, by: moved(v, by, 0.0)),
    Error("the same, up and down", PLACING_SIGMA_MM, lambda v, by: moved(v, 0.0, by)),
)
"""The errors of a place put on a sheet, along each axis; common practice."""
PLACED_BY_EYE = tuple(replace(error, others=LAID_ON_DECK) for error in PLACED)
"""The errors of a place that is put there by eye on deck."""
BEGUN = (
    Error("pencil at the beginning", PENCIL_SIGMA_MM, lambda v, by: moved(v, by, 0.0)),
    Error("the same, up and down", PENCIL_SIGMA_MM, lambda v, by: moved(v, 0.0, by)),
)
"""The errors of where something drawn begins."""
DRAWN = (
    *(replace(error, others=LAID_ON_DECK) for error in BEGUN),
    Error(
        "protractor and pencil",
        drawn_line_sigma(LINE_MM),
        lambda v, by: turned(v, by),
        {DECK: soft_line_sigma(LINE_MM)},
    ),
)
"""The errors of a line laid off from a place."""


def on_map(sort: Sort, lettering: Letters = gridref.NATIONAL, drawn_only: bool = False) -> OnSheet:
    """Return the kind of something drawn on a land map."""
    return OnSheet(sort, lettering, drawn_only)


def on_chart(sort: Sort, drawn_only: bool = False) -> OnSheet:
    """Return the kind of something written by latitude and longitude, as on a sea chart."""
    return OnSheet(sort, None, drawn_only)


def on_grid(water: Water, place: LatLon) -> Place:
    """Return easting and northing of a position on the water's grid, in metres."""
    east, north = to_grid(*place, water.settings.grid)
    return float(east), float(north)


def put(place: LatLon | None, window: SheetWindow) -> Pencilled | None:
    """Return a mark at a place; None where that is off the sheet and nobody could make it."""
    if place is None:
        return None
    spot = on_grid(waters.load(window.water), place)
    half = [ground_m(size / 2 - CLEAR_MM, window.scale) for size in window.size_mm]
    off = [abs(m - c) for m, c in zip(spot, window.centre, strict=True)]
    if off[0] > half[0] or off[1] > half[1]:
        return None
    return Pencilled((place,), window.scale)


def put_on_grid(place: Place | None, window: SheetWindow) -> Pencilled | None:
    """Return a mark at a place in grid metres; None where there is none on the sheet."""
    if place is None:
        return None
    return put(LatLon(*waters.load(window.water).lat_lon(place)), window)


@lru_cache(maxsize=4096)
def line_from(start: LatLon, true: float, scale: int) -> Pencilled:
    """Return a line of `LINE_MM` from a place along a true bearing.

    The same ones come up again and again behind other slips and errors, and take long to reckon.
    """
    end = rhumb_destination(*start, true, ground_m(LINE_MM, scale))
    return Pencilled((start, LatLon(*end)), scale)


def window_about(
    water: Water,
    scale: int,
    centre: Place,
    named: Sequence[tuple[str, str, Place]],
    sheet: SortOfSheet,
    tools: tuple[str, ...],
) -> SheetWindow:
    """Return a window with places marked that have a letter and a name."""
    spots = tuple(Spot(*place, letter) for letter, _, place in named)
    if named:
        alt = with_places(sheet, scale, [(letter, name) for letter, name, _ in named])
    else:
        alt = say(
            "{sheet}, one to {scale}, with nothing marked on it yet.",
            {"sheet": called(sheet), "scale": scale},
        )
    return SheetWindow(
        water.name, scale, centre, SIZE_MM, spots, alt, instruments=tools, sheet=sheet
    )


def chart_drawn(source: random.Random) -> tuple[Water, int]:
    """Return a water and the scale of its sea chart."""
    name, scale = choose_sheet(source, CHARTS)
    return waters.load(name), scale


def turn_step(angle: str, called: str, name: str, onto: str) -> Step:
    """Return the step “turn”: what is put on a compass bearing before it is drawn.

    `angle` is the name of the given, east positive, `called` its name in words and `name` in those
    of its slips, `onto` the north that the sheet is drawn to.
    """
    return Step(
        "turn",
        EastWest(1.0),
        taking(lambda value: value, angle),
        how=f"First from the compass to {onto}: the {called} is {{{angle}}}, so {{take}}.",
        line=f"From the compass to {onto}, {called} {{turn}}: {{take}}",
        check=f"The {called} is {{side}}: must the {onto} figure be more than the compass shows, or "
        "less?",
        slips=(
            Slip(
                f"{name}-sign",
                taking(lambda value: -value, angle),
                f"Yours, {{yours}}, lies where the {called} of {{{angle}}} puts it if it is put on "
                f"the wrong way. {{Side}} makes the compass read {{more}} than {onto}. Check: the "
                f"{onto} figure must be {{less}} here.",
            ),
            Slip(
                f"{name}-forgotten",
                taking(lambda value: 0.0, angle),
                "Yours, {yours}, lies where the compass figure puts it if it is laid off as it is. "
                f"The compass and the sheet have different norths, {{{angle}}} apart. Check: write "
                "the letter of its north behind each figure before you draw.",
            ),
        ),
    )


def laid_slips(drawn: Callable[..., Any], bearing: str, *more: str) -> tuple[Slip, ...]:
    """Return the slips of laying a bearing off with a protractor.

    `drawn` takes the bearing as it is laid and the givens named in `more`, and returns what is then
    on the sheet.
    """

    def laid(change: Callable[[float], float]) -> Work:
        return taking(lambda value, *rest: drawn(change(value), *rest), bearing, *more)

    quarter = (
        "Yours, {yours}, lies a quarter turn out: the protractor’s north lay along a line that runs "
        "east and west. Check: north on the protractor points up the sheet."
    )
    return (
        Slip(
            "opposite",
            laid(reciprocal),
            "Yours, {yours}, lies exactly the other way, half a turn round. A bearing is drawn from "
            "the place that it is taken from. Check: stand your pencil there and look along the line.",
        ),
        Slip(
            "mirror",
            laid(lambda value: wrap(-value)),
            "Yours, {yours}, lies where the bearing counted the wrong way round puts it: a mirror "
            "image. Bearings grow clockwise. Check: between 000 and 180 it must run to the east.",
        ),
        Slip("laid-on-the-easting", laid(lambda value: wrap(value - 90)), quarter, 0.5),
        Slip("laid-on-the-easting", laid(lambda value: wrap(value + 90)), quarter, 0.5),
    )
