"""The hills of a land map: contour lines, thicker at each fifty metres."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch

from navlib.sheets import pen, style
from navlib.sheets.ground import Array, Ground

CONTOUR_STEP, INDEX_STEP = 10, 50
"""Metres between contours, and between the thicker ones that carry figures."""
_SHORTEST = 3.0  # millimetres of contour; a shorter one says nothing
_STEEP = 1.05  # rise over run from which only the thicker contours are drawn: the cliffs' own sign


def contour_levels(ground: Ground) -> list[int]:
    """Return the heights above the map's zero at which contours run over this ground."""
    top = float(ground.height.max()) - ground.zero
    return list(range(CONTOUR_STEP, int(max(top, 0)) + 1, CONTOUR_STEP))


def contours(ground: Ground) -> dict[int, list[Array]]:
    """Return contour lines by height above the map's zero; only thick ones run through cliffs."""
    spacing = ground.easting[1] - ground.easting[0]
    north, east = np.gradient(ground.height, spacing)
    gentle = ground.tracer(np.where(np.hypot(north, east) > _STEEP, np.nan, ground.height))
    result = {}
    for level in contour_levels(ground):
        lines = ground.lines(level + ground.zero, None if level % INDEX_STEP == 0 else gentle)
        result[level] = [line for line in lines if length(line) > _SHORTEST]
    return result


def length(line: Array) -> float:
    """Return the length of a line in the unit of its points."""
    side = np.diff(line, axis=0)
    return float(np.hypot(side[:, 0], side[:, 1]).sum())


def draw_contours(axes: Axes, lines: dict[int, list[Array]], clip: Patch) -> None:
    """Draw contour lines, those of whole fifties thicker."""
    for index in (False, True):
        chosen = [
            x for level, ls in lines.items() if (level % INDEX_STEP == 0) == index for x in ls
        ]
        width = 0.24 if index else 0.11
        pen.draw_strokes(axes, chosen, clip, colour=style.CONTOUR, width=width, zorder=2)
