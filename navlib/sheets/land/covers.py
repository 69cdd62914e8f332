"""Areas on the land map: woods, lochs, houses, fish farms, and limits drawn as dashed outlines."""

from collections.abc import Iterable

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch
from matplotlib.path import Path
from numpy.typing import ArrayLike

from navlib.sheets import pen, style
from navlib.sheets.ground import Array, Ground, rounded
from navlib.sheets.land.shore import scattered
from navlib.sheets.land.ways import beads, on_sheet
from navlib.sheets.window import Window
from navlib.waters import Water

LIMITS = ("reserve", "anomaly")
"""Areas whose outline and note the land map shows."""
_TREES = 2.9  # millimetres between trees
_CROWN = [(-0.42, 0.1), (0.0, -0.95), (0.42, 0.1), (-0.42, 0.1)]
_STEM = [(0.0, 0.1), (0.0, 0.42)]


def draw_woods(axes: Axes, water: Water, ground: Ground, clip: Patch) -> None:
    """Tint woods and strew small trees over them, which part them from fields in grey print."""
    rings = [ring for f in water.of_kind("wood") for ring in on_sheet(f, ground.window)]
    rings = [rounded(ring[:-1], closed=True) for ring in rings]
    pen.draw_shapes(axes, rings, clip, fill=style.WOOD, zorder=0.5, alpha=0.62)
    places, chance = scattered(ground, _TREES, 3)
    dry = ground.at(places[:, 0], places[:, 1]) > ground.coast
    within = np.zeros(len(places), dtype=bool)
    for ring in rings:
        within |= Path(ring).contains_points(places, radius=-0.6)
    draw_trees(axes, places[within & dry], 0.8 + 0.4 * chance[within & dry], clip)


def draw_trees(
    axes: Axes,
    places: Array,
    sizes: Array | float = 1.0,
    clip: Patch | None = None,
    zorder: float = 2.1,
) -> None:
    """Draw a small tree at each place (mm)."""
    size = np.broadcast_to(np.asarray(sizes, dtype=float), len(places))[:, None, None]
    crowns = places[:, None, :] + size * np.array(_CROWN)
    stems = places[:, None, :] + size * np.array(_STEM)
    ink = style.WOOD_INK
    pen.draw_shapes(axes, crowns, clip, fill=ink, zorder=zorder)
    pen.draw_strokes(axes, stems, clip, colour=ink, width=0.18, zorder=zorder)


def draw_areas(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw lochs, houses, fish farms and the dashed outlines of limits."""
    for kind, fill, edge, width, zorder in (
        ("loch", style.FRESH, style.WATER_INK, 0.2, 2.5),
        ("buildings", style.HOUSE, style.HOUSE, 0.1, 5.0),
        ("fish farm", "none", style.INK, 0.16, 2.6),
    ):
        rings = [ring[:-1] for f in water.of_kind(kind) for ring in on_sheet(f, window)]
        if kind == "loch":
            rings = [rounded(ring, closed=True) for ring in rings]
        dashes = (0, (3, 2)) if kind == "fish farm" else "solid"
        pen.draw_shapes(
            axes, rings, clip, fill=fill, edge=edge, width=width, zorder=zorder, linestyle=dashes
        )
    outlines = [ring for f in water.of_kind(*LIMITS) for ring in on_sheet(f, window)]
    draw_outlines(axes, outlines, clip)


def draw_outlines(
    axes: Axes, lines: Iterable[ArrayLike], clip: Patch | None, zorder: float = 5.5
) -> None:
    """Draw the dashed outlines of limits."""
    ink = style.LETTERS["area-note"].colour
    pen.draw_strokes(axes, lines, clip, colour=ink, width=0.26, zorder=zorder, dashes=(8, 3.5))


def outline_beads(water: Water, window: Window) -> Array:
    """Return points (mm) along the outlines of limits, that their notes had better not hide."""
    lines = [ring for f in water.of_kind(*LIMITS) for ring in on_sheet(f, window)]
    return np.vstack([np.empty((0, 2)), *(beads(line) for line in lines)])
