"""The sea chart: any window of a piece of water on Mercator at true scale, in one call."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from navlib import latlon
from navlib.language import say
from navlib.sheets import bars, ground, lettering, pencil, placing, style
from navlib.sheets.chart import border, depths, diamonds, frame, margin, signs
from navlib.sheets.chart import rose as roses
from navlib.sheets.chart.blocks import Blocks, find_blocks
from navlib.sheets.chart.figures import figure_lines
from navlib.sheets.chart.room import Raster
from navlib.sheets.chart.rose import PlacedRose
from navlib.sheets.chart.soundings import draw_soundings, fill, peak_soundings
from navlib.sheets.lettering import Placed
from navlib.sheets.marks import Mark
from navlib.sheets.paper import Sheet, blank
from navlib.sheets.window import Box, MercatorWindow, Window
from navlib.waters import Feature, Place, Water

_BOTTOM_APART = 24.0  # millimetres between letters for the nature of the bottom
_NAMES = ("chart-island", "chart-place", "chart-summit", "chart-water", "chart-mark", "chart-float")


def sea_chart(
    water: Water,
    centre: Place | None = None,
    *,
    bounds: tuple[float, float, float, float] | None = None,
    scale: int | None = None,
    size_mm: tuple[float, float] | None = None,
    marks: Sequence[Mark] = (),
) -> Sheet:
    """Return the sea chart of a window of `water`, drawn and ready to print.

    Without a place it is the whole water, or at a larger scale the plan of its standard port; else
    a frame of `size_mm` (width and height in millimetres) about `centre` (easting, northing in
    metres), or one that holds `bounds` (west, south, east, north in metres). The scale 1:`scale`,
    unless given the first of the water's chart scales, is true at the latitude that the chart
    states; the projection is Mercator. `marks` are pencil lines and crosses laid over it. Raises
    OutsideWaters where the window runs off the water, and ValueError for a frame that is too small.
    """
    window = frame.chart_window(water, centre, bounds, scale, size_mm)
    f, laid = window.frame, tuple(marks)
    layout = frame.layout(window.scale, (f.width, f.height))
    width, height = f.right + layout.right, f.bottom + layout.bottom
    figure, axes = blank(width, height)
    clip = Rectangle((f.left, f.top), f.width, f.height, transform=axes.transData, visible=False)
    axes.add_artist(clip)
    around = ground.survey(water, window)
    raster = Raster(around)

    streams = diamonds.on_sheet(water, window)
    taken = _never_hidden(water, window, laid)
    clutter = signs.clutter(water, window)
    blocks = find_blocks(water, raster, taken, clutter, layout)
    taken += blocks.boxes

    land = raster.height >= around.coast
    hard = raster.marked_where(land)
    hard.mark_boxes(taken)
    first = peak_soundings(water, hard)
    taken += [s.box for s in first]

    placed = placing.settle(pencil.wished(laid, window), taken, f)
    placed += placing.settle(signs.wishes(_thinned(water, window), around, clutter), taken, f)
    deep_lines = depths.depth_lines(around)
    datum = deep_lines[0]
    deep, deep_lines = figure_lines(deep_lines, "chart-depth", taken, f)
    high, high_lines = figure_lines(depths.land_contours(around), "chart-contour", taken, f)

    soft = raster.marked_where(land)
    soft.mark_boxes(taken)
    soft.mark_points(clutter)
    soft.mark_lines(x for depth, lines in deep_lines.items() if depth != 2 for x in lines)
    soft.mark_lines(border.lines(window))
    soundings = first + fill(water, first, soft)
    deep_lines = depths.broken(deep_lines, [*blocks.breaks, *(x.box for x in soundings)])

    depths.draw_tints(axes, around, clip)
    depths.draw_depth_lines(axes, deep_lines, clip)
    depths.draw_land(axes, around, high_lines, datum, clip)
    ground.draw_cliffs(axes, around, clip)
    signs.draw_sectors(axes, water, window, clip)
    signs.draw_line_features(axes, water, window, clip)
    border.draw_lines(axes, window, clip)
    _draw_blocks(axes, blocks)
    draw_soundings(axes, soundings, clip)
    diamonds.draw_signs_at(axes, streams, clip)
    signs.draw_signs(axes, water, window, clip)
    lettering.draw_names(axes, placed + deep + high + blocks.words)
    pencil.draw_marks(axes, laid, window, clip)
    border.draw_border(axes, window)
    margin.draw_head(axes, water, window, width, layout.whole)
    margin.draw_foot(axes, water, window, layout)
    if layout.whole:
        margin.draw_key(axes, water, window, layout)
        margin.draw_tables(axes, water, window)
    written = [(p.text, p.box) for p in placed + deep + high + blocks.words]
    written += [(s.text, s.box) for s in soundings]
    written += [word for r in blocks.roses for word in r.word_boxes()]
    alt = _alt(water, window, placed)
    return Sheet(
        width_mm=width,
        height_mm=height,
        alt=alt,
        _figure=figure,
        water=water,
        window=window,
        names=tuple(written),
    )


def large_blocks(water: Water, window: Window) -> list[Box]:
    """Return where the title and the roses of a chart stand that has no pencil marks on it."""
    blocks = _blocks(water, window, ())
    roses = [rose.box for rose in blocks.roses]
    return [blocks.title, *roses] if blocks.title else roses


def roses_on(water: Water, window: Window, marks: Sequence[Mark] = ()) -> list[PlacedRose]:
    """Return the roses of a chart, where they stand when `marks` are pencilled on it."""
    return _blocks(water, window, marks).roses


def _blocks(water: Water, window: Window, marks: Sequence[Mark]) -> Blocks:
    raster = Raster(ground.survey(water, window))
    taken = _never_hidden(water, window, marks)
    layout = frame.layout(window.scale, (window.frame.width, window.frame.height))
    return find_blocks(water, raster, taken, signs.clutter(water, window), layout)


def _never_hidden(water: Water, window: Window, marks: Sequence[Mark]) -> list[Box]:
    """Return the boxes that nothing large may stand on: signs, diamonds and pencil marks."""
    taken = [signs.sign_box(x, window) for x in signs.signed_features(water, window)]
    taken += diamonds.boxes(diamonds.on_sheet(water, window))
    return taken + pencil.mark_boxes(tuple(marks), window)


def _thinned(water: Water, window: MercatorWindow) -> Water:
    """Return the water with only some of the natures of its bottom: those in the frame, well apart."""
    kept: list[Feature] = []
    spots = np.empty((0, 2))
    for feature in water.features:
        if feature.kind == "bottom":
            spot = np.array(window.place(*feature.place), dtype=float)
            near = np.hypot(*(spots - spot).T) < _BOTTOM_APART
            if not window.frame.holds(float(spot[0]), float(spot[1]), 2.0) or near.any():
                continue
            spots = np.vstack([spots, spot])
        kept.append(feature)
    return replace(water, features=tuple(kept))


def _draw_blocks(axes: Axes, blocks: Blocks) -> None:
    """Draw the roses, and a ground for the title; its words are drawn with the names."""
    if blocks.title is not None:
        box, colour = blocks.title, style.CHART_LAND if blocks.on_land else style.CHART_DEEP
        ground = Rectangle((box.left, box.top), box.width, box.height, color=colour, lw=0)
        ground.set_zorder(6.4)
        axes.add_artist(ground)
    for k, placed in enumerate(blocks.roses):
        roses.draw_rose(axes, placed, f"training-rose-{k}" if placed.training else "rose")


def _alt(water: Water, window: MercatorWindow, placed: list[Placed]) -> str:
    """Return what the sheet shows, in words, for those who cannot see it."""
    f = window.frame
    south, west = (float(v) for v in window.lat_lon_at(f.left, f.bottom))
    north, east = (float(v) for v in window.lat_lon_at(f.right, f.top))
    shown = [p.text for p in placed if p.letters.startswith(_NAMES)]
    return say(
        "Sea chart of {title}, {scale}, from {corner} to {other}. On it: {shown}. For training, not "
        "for navigation.",
        {
            "title": water.settings.title,
            "scale": bars.fraction(window.scale),
            "corner": latlon.format(south, west),
            "other": latlon.format(north, east),
            "shown": ", ".join(shown) if shown else say("open sea"),
        },
    )
