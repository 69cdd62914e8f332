"""Lines and areas on the land map: roads, tracks, burns, lochs, houses, ferry and cables."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Patch

from navlib.sheets import style
from navlib.sheets.ground import rounded
from navlib.sheets.window import Window
from navlib.waters import Feature, Water

_LINES: dict[str, tuple[tuple[str, float, tuple[float, ...] | None, float], ...]] = {
    "burn": ((style.WATER_INK, 0.2, None, 2.4),),
    "path": ((style.TRACK, 0.2, (1.2, 2.2), 4.0),),
    "track": ((style.TRACK, 0.3, (5.0, 2.0), 4.0),),
    "causeway": ((style.TRACK, 0.3, (2.0, 2.0), 4.0),),
    "road": ((style.ROAD_EDGE, 1.0, None, 4.2), (style.ROAD, 0.66, None, 4.3)),
    "bridge road": (
        (style.INK, 1.5, None, 4.25),
        (style.PAPER, 1.0, None, 4.26),
        (style.ROAD_EDGE, 1.0, None, 4.27),
        (style.ROAD, 0.66, None, 4.3),
    ),
    "quay": ((style.INK, 0.9, None, 5.1),),
    "ferry": ((style.WATER_INK, 0.24, (9.0, 5.0), 2.6),),
    "power cable": ((style.INK, 0.13, None, 5.2), (style.INK, 0.9, (0.22, 8.0), 5.2)),
}
"""Strokes of each kind from the lowest up: colour, width in mm, dashes in widths, z-order."""


def on_sheet(feature: Feature, window: Window) -> list[np.ndarray]:
    """Return a feature's lines or rings in millimetres."""
    lines = []
    for part in feature.parts:
        places = np.array(part)
        lines.append(np.stack(window.place(places[:, 0], places[:, 1]), axis=1))
    return lines


def clutter(water: Water, window: Window) -> np.ndarray:
    """Return points (mm) that names had better not hide: houses, and beads along the ways."""
    beads = [np.empty((0, 2))]
    for feature in water.of_kind("buildings", "road", "bridge road", "track", "quay", "ferry"):
        for line in on_sheet(feature, window):
            if feature.kind == "buildings":
                beads.append(line[:-1].mean(axis=0, keepdims=True))
                continue
            side = np.diff(line, axis=0)
            run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
            at = np.arange(0.0, run[-1], 1.0)
            beads.append(
                np.stack([np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])], axis=1)
            )
    points, f = np.vstack(beads), window.frame
    inside = (points[:, 0] > f.left) & (points[:, 0] < f.right)
    return points[inside & (points[:, 1] > f.top) & (points[:, 1] < f.bottom)]


def draw_lines(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw roads, tracks, paths, burns, the ferry's route and overhead cables."""
    for kind, strokes in _LINES.items():
        lines = [line for f in water.of_kind(kind) for line in on_sheet(f, window)]
        if kind in ("road", "track", "path", "burn"):
            lines = [rounded(line, closed=False) for line in lines]
        for colour, width, dashes, zorder in strokes:
            collection = LineCollection(
                lines,
                colors=colour,
                linewidths=style.points(width),
                linestyles=[(0, dashes)] if dashes else "solid",
                capstyle="butt" if dashes else "round",
                joinstyle="round",
                zorder=zorder,
            )
            if kind in ("bridge road", "quay"):
                collection.set_capstyle("butt")
            axes.add_collection(collection, autolim=False)
            collection.set_clip_path(clip)


def draw_areas(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw lochs, houses and fish farms."""
    for kind, fill, edge, width, zorder in (
        ("loch", style.FRESH, style.WATER_INK, 0.2, 2.5),
        ("buildings", style.HOUSE, style.HOUSE, 0.1, 5.0),
        ("fish farm", "none", style.INK, 0.16, 2.6),
    ):
        rings = [ring for f in water.of_kind(kind) for ring in on_sheet(f, window)]
        if kind == "loch":
            rings = [rounded(ring[:-1], closed=True) for ring in rings]
        collection = PolyCollection(
            rings,
            facecolors=fill,
            edgecolors=edge,
            linewidths=style.points(width),
            linestyles=[(0, (3, 2))] if kind == "fish farm" else "solid",
            zorder=zorder,
        )
        axes.add_collection(collection, autolim=False)
        collection.set_clip_path(clip)
