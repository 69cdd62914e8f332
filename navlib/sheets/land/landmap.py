"""The land map: any window of a piece of water at true scale, with its own edge, in one call."""

from collections.abc import Sequence

import numpy as np
from matplotlib.patches import Rectangle

from navlib.language import say
from navlib.sheets import bars, ground, lettering, pencil, placing
from navlib.sheets.land import (
    contours,
    covers,
    edge,
    graticule,
    margin,
    names,
    relief,
    shore,
    symbols,
    ways,
)
from navlib.sheets.land.figures import figure_lines
from navlib.sheets.land.frame import SIDE, land_window
from navlib.sheets.marks import Mark
from navlib.sheets.paper import Sheet, blank
from navlib.sheets.window import GridWindow
from navlib.waters import Place, Water


def land_map(
    water: Water,
    centre: Place | None = None,
    *,
    bounds: tuple[float, float, float, float] | None = None,
    scale: int | None = None,
    size_mm: tuple[float, float] | None = None,
    marks: Sequence[Mark] = (),
) -> Sheet:
    """Return the land map of a window of `water`, drawn and ready to print.

    The window is `size_mm` (width, height of the map's frame in millimetres; 150 x 130 unless
    given) about `centre` (easting, northing in metres), or `bounds` (west, south, east, north in
    metres), at 1:`scale`, which unless given is the first of the water's map scales. `marks` are
    pencil lines and crosses laid over it. Raises OutsideWaters where the window runs off the water,
    and ValueError for a frame too narrow for its bars.
    """
    scale = water.settings.scales.land_map[0] if scale is None else scale
    window = land_window(water, centre, bounds, scale, size_mm or (150.0, 130.0))
    frame = window.frame
    width, height = (
        frame.right + SIDE,
        frame.bottom + margin.bottom(water, frame.width),
    )
    figure, axes = blank(width, height)
    clip = Rectangle(
        (frame.left, frame.top),
        frame.right - frame.left,
        frame.bottom - frame.top,
        transform=axes.transData,
        visible=False,
    )
    axes.add_artist(clip)
    around, laid = ground.survey(water, window), tuple(marks)

    taken = [symbols.sign_box(f, window) for f in symbols.signed_features(water, window)]
    letters = edge.meeting_letters(water, window, taken)
    taken += [box for _, box in letters]
    degrees = graticule.ticks(water, window)
    placed = graticule.figures(degrees, taken, frame)
    taken += pencil.mark_boxes(laid, window)
    placed += placing.settle(pencil.wished(laid, window), taken, frame)
    clutter = np.vstack([ways.clutter(water, around), covers.outline_beads(water, window)])
    placed += placing.settle(names.wishes(water, around, clutter), taken, frame)
    figures, lines = figure_lines(contours.contours(around), taken, frame, clutter)

    relief.draw_relief(axes, around, clip)
    covers.draw_woods(axes, water, around, clip)
    contours.draw_contours(axes, lines, clip)
    shore.draw_sea(axes, around, clip)
    ground.draw_cliffs(axes, around, clip)
    ways.draw_burns(axes, water, around, clip)
    ways.draw_lines(axes, water, window, clip)
    covers.draw_areas(axes, water, window, clip)
    edge.draw_grid(axes, window, clip)
    graticule.draw_graticule(axes, water, window, degrees, clip)
    symbols.draw_signs(axes, water, window, clip)
    lettering.draw_names(axes, placed + figures)
    pencil.draw_marks(axes, laid, window, clip)
    edge.draw_frame(axes, window)
    edge.draw_meeting_letters(axes, letters)
    edge.draw_numbers(axes, water, window)
    second = water.settings.second_grid
    if second and scale <= graticule.FINEST:
        numbers = edge.number_spots(window)
        meetings = graticule.second_ticks(water, window, second)
        graticule.draw_second_grid(axes, window, meetings, numbers, edge.RULER)
    margin.draw_head(axes, water, window, width)
    margin.draw_foot(axes, water, window)
    written = tuple((p.text, p.box) for p in placed + figures)
    return Sheet(width, height, _alt(water, window, placed), figure, water, window, written)


def _alt(water: Water, window: GridWindow, placed: list[lettering.Placed]) -> str:
    """Return what the sheet shows, in words, for those who cannot see it."""
    figures = ("height", "contour", "graticule")
    shown = [p.text.replace("\n", ", ") for p in placed if p.letters not in figures]
    return say(
        "Land map of part of {title}, {scale}, eastings {west} to {east}, northings {south} to "
        "{north}. On it: {shown}. For training, not for navigation.",
        {
            "title": water.settings.title,
            "scale": bars.fraction(window.scale),
            "west": f"{window.west:.0f}",
            "east": f"{window.east:.0f}",
            "south": f"{window.south:.0f}",
            "north": f"{window.north:.0f}",
            "shown": ", ".join(shown) if shown else say("open sea"),
        },
    )
