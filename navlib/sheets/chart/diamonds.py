"""Tidal diamonds: a lettered diamond at each place whose stream is tabulated."""

from collections.abc import Iterable

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import PolyCollection
from matplotlib.patches import Patch, PathPatch

from navlib.sheets import style
from navlib.sheets.chart.glyphs import figures, moved, together
from navlib.sheets.window import Box, Window
from navlib.waters import Diamond, Water, WatersError

_HALF = 1.9


def diamonds(water: Water) -> tuple[Diamond, ...]:
    """Return the tidal diamonds of a water; none if it has no tides."""
    try:
        return water.tides.diamonds
    except WatersError:
        return ()


def on_sheet(water: Water, window: Window) -> list[tuple[str, float, float]]:
    """Return letter and spot (mm) of the diamonds well inside the frame."""
    found = []
    for diamond in diamonds(water):
        x, y = (float(v) for v in window.place(*diamond.place))
        if window.frame.holds(x, y, _HALF + 0.5):
            found.append((diamond.letter, x, y))
    return found


def boxes(spots: Iterable[tuple[str, float, float]]) -> list[Box]:
    """Return the boxes that diamonds fill."""
    return [Box(x - _HALF, y - _HALF, x + _HALF, y + _HALF) for _, x, y in spots]


def draw_signs_at(
    axes: Axes, spots: list[tuple[str, float, float]], clip: Patch | None = None
) -> None:
    """Draw diamonds with their letters at spots (mm)."""
    corners = np.array([(0, -1), (1, 0), (0, 1), (-1, 0)]) * _HALF
    shapes = PolyCollection(
        [corners + np.array([x, y]) for _, x, y in spots],
        facecolors=style.PAPER,
        edgecolors=style.MAGENTA,
        linewidths=style.points(0.22),
        zorder=7.3,
        gid="diamonds",
    )
    axes.add_collection(shapes, autolim=False)
    letters = together(moved(figures(t, 6.2, weight="bold")[0], x, y) for t, x, y in spots)
    text = PathPatch(letters, facecolor=style.MAGENTA, edgecolor="none", zorder=7.4)
    axes.add_artist(text)
    if clip is not None:
        shapes.set_clip_path(clip)
        text.set_clip_path(clip)
