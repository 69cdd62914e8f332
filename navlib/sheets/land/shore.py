"""The shore of a land map: sea, foreshore of sand or of rock, and the coast line."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch, PathPatch

from navlib.sheets import pen, style
from navlib.sheets.ground import Array, Ground

_ROCKY = 0.085  # rise over run from which the foreshore is drawn as rock ledges: no sand lies so


def scattered(ground: Ground, every_mm: float, salt: int) -> tuple[Array, Array]:
    """Return places (mm) strewn over the frame, and a number in [0, 1) for each.

    One place for each cell of `every_mm` on the ground's own grid, moved about in it by a
    whole-number hash of the cell, so that neighbouring windows show the same places.
    """
    window, step = ground.window, every_mm * ground.window.scale / 1000
    i, j = np.meshgrid(
        np.arange(int(window.west / step), int(window.east / step) + 1),
        np.arange(int(window.south / step), int(window.north / step) + 1),
    )
    mixed = (i * 73_856_093) ^ (j * 19_349_663)
    chance = [(mixed ^ (k * salt)) % 1009 / 1009 for k in (83_492, 51_787, 24_593)]
    x, y = window.place((i + chance[0]) * step, (j + chance[1]) * step)
    return np.stack([x.ravel(), y.ravel()], axis=1), chance[2].ravel()


def _foreshore(ground: Ground) -> tuple[Array, Array]:
    """Return dots of sand (short strokes of no length) and strokes of rock on what dries."""
    places, chance = scattered(ground, 1.0, 1)
    height = ground.at(places[:, 0], places[:, 1])
    wet = (height > 0.25) & (height < ground.coast - 0.25)
    places, chance = places[wet], chance[wet]
    north, east = np.gradient(ground.height, ground.easting[1] - ground.easting[0])
    rocky = ground.at(places[:, 0], places[:, 1], np.hypot(north, east)) > _ROCKY
    sand = np.stack([places[~rocky], places[~rocky] + np.array([0.03, 0.0])], axis=1)
    here, turn = places[rocky], np.pi * chance[rocky]
    way = 0.42 * np.stack([np.cos(turn), -np.abs(np.sin(turn))], axis=1)
    aside = 0.3 * np.stack([np.sin(turn), np.cos(turn)], axis=1)
    return sand, np.stack([here - way, here, here + aside], axis=1)


def draw_sea(axes: Axes, ground: Ground, clip: Patch) -> None:
    """Paint the foreshore (between high and low water) and the sea, and draw their edges."""
    for level, colour, zorder in (
        (ground.coast, style.FORESHORE, 1.0),
        (0.0, style.SHALLOW, 1.1),
        (-8.0, style.DEEP, 1.2),
    ):
        area = ground.below(level)
        if area is not None:
            axes.add_artist(
                PathPatch(area, facecolor=colour, edgecolor="none", zorder=zorder)
            ).set_clip_path(clip)
    ink = style.FORESHORE_INK
    sand, rock = _foreshore(ground)
    pen.draw_strokes(axes, sand, clip, colour=ink, width=0.24, zorder=1.25)
    pen.draw_strokes(axes, rock, clip, colour=style.ROCK_INK, width=0.13, zorder=1.26)
    low = ground.lines(0.0)
    pen.draw_strokes(axes, low, clip, colour=ink, width=0.11, zorder=1.3, dashes=(4, 2.5))
    pen.draw_strokes(axes, ground.coast_lines, clip, colour=style.COAST, width=0.26, zorder=3)
