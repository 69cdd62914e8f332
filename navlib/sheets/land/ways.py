"""Lines on the land map: roads, tracks, walls, burns, the ferry's route and cables."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch

from navlib.sheets import pen, style
from navlib.sheets.ground import Array, Ground, rounded
from navlib.sheets.window import Box, Window
from navlib.waters import Feature, Water

LINES: dict[str, tuple[tuple[str, float, tuple[float, ...] | None, float], ...]] = {
    "path": ((style.TRACK, 0.24, (1.2, 2.4), 4.0),),
    "track": ((style.TRACK, 0.34, (5.0, 1.6), 4.0),),
    "causeway": ((style.TRACK, 0.34, (1.6, 1.6), 4.0),),
    "wall": ((style.INK, 0.1, None, 3.8), (style.INK, 0.42, (0.9, 2.9), 3.8)),
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
    "submarine cable": ((style.SECOND_GRID, 0.22, (6.0, 2.0, 1.0, 2.0), 2.6),),
}
"""Strokes of each kind from the lowest up: colour, width in mm, dashes in widths, z-order."""
_SMOOTH = ("road", "track", "path", "burn", "wall")
BURN = ((0.0, 0.14), (0.35, 0.22), (0.7, 0.32))
"""A burn's width (mm) from each share of its length on: it grows as it runs down."""
_LANDFALL = 500.0  # metres of a cable under the sea that the land map shows from the shore out


def on_sheet(feature: Feature, window: Window) -> list[Array]:
    """Return a feature's lines or rings in millimetres."""
    lines = []
    for part in feature.parts:
        places = np.array(part)
        lines.append(np.stack(window.place(places[:, 0], places[:, 1]), axis=1))
    return lines


def _run(line: Array) -> Array:
    """Return how far along a line each of its points lies."""
    side = np.diff(line, axis=0)
    return np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])


def beads(line: Array, every: float = 1.0) -> Array:
    """Return points along a line (mm), `every` so far."""
    run = _run(line)
    at = np.arange(0.0, run[-1], every)
    return np.stack([np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])], axis=1)


def clutter(water: Water, ground: Ground) -> Array:
    """Return points (mm) that names had better not hide: houses, beads along ways and coast."""
    window = ground.window
    points = [np.empty((0, 2))]
    points += [beads(line, 2.0) for line in ground.coast_lines]
    for feature in water.of_kind("buildings", "road", "bridge road", "track", "quay", "ferry"):
        for line in on_sheet(feature, window):
            if feature.kind == "buildings":
                points.append(line[:-1].mean(axis=0, keepdims=True))
            else:
                points.append(beads(line))
    found, f = np.vstack(points), window.frame
    inside = (found[:, 0] > f.left) & (found[:, 0] < f.right)
    return found[inside & (found[:, 1] > f.top) & (found[:, 1] < f.bottom)]


def _meets(line: Array, frame: Box) -> bool:
    low, high = line.min(axis=0), line.max(axis=0)
    return bool(
        low[0] < frame.right + 2
        and high[0] > frame.left - 2
        and low[1] < frame.bottom + 2
        and high[1] > frame.top - 2
    )


def _between(line: Array, start: float, end: float) -> Array:
    """Return the part of a line between two distances along it."""
    run = _run(line)
    ends = [
        (np.interp(d, run, line[:, 0]), np.interp(d, run, line[:, 1])) for d in (start, end)
    ]  # fmt: skip
    return np.vstack([ends[:1], line[(run > start) & (run < end)], ends[1:]])


def _landfalls(line: Array, reach: float) -> list[Array]:
    """Return the first and last stretch (mm) of a cable: where it comes ashore."""
    long = float(_run(line)[-1])
    if long <= 2 * reach:
        return [line]
    return [_between(line, 0.0, reach), _between(line, long - reach, long)]


def draw_lines(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw roads, tracks, paths, walls, the ferry's route and cables."""
    for kind, strokes in LINES.items():
        lines = [line for f in water.of_kind(kind) for line in on_sheet(f, window)]
        if kind == "submarine cable":
            reach = _LANDFALL * 1000 / window.scale
            lines = [end for line in lines for end in _landfalls(line, reach)]
        lines = [line for line in lines if _meets(line, window.frame)]
        if kind in _SMOOTH:
            lines = [rounded(line, closed=False) for line in lines]
        for colour, width, dashes, zorder in strokes:
            cap = {"capstyle": "butt"} if kind in ("bridge road", "quay") else {}
            pen.draw_strokes(
                axes, lines, clip, colour=colour, width=width, zorder=zorder, dashes=dashes, **cap
            )


def draw_burns(axes: Axes, water: Water, ground: Ground, clip: Patch) -> None:
    """Draw burns, wider as they run down."""
    pieces: dict[float, list[Array]] = {width: [] for _, width in BURN}
    for feature in water.of_kind("burn"):
        for given in on_sheet(feature, ground.window):
            if not _meets(given, ground.window.frame):
                continue
            line = rounded(given, closed=False)
            ends = ground.at(line[[0, -1], 0], line[[0, -1], 1])
            if ends[0] < ends[1]:
                line = line[::-1]
            long = float(_run(line)[-1])
            shares = [share for share, _ in BURN] + [1.0]
            for (share, width), to in zip(BURN, shares[1:], strict=True):
                pieces[width].append(_between(line, share * long, to * long))
    for width, lines in pieces.items():
        pen.draw_strokes(axes, lines, clip, colour=style.WATER_INK, width=width, zorder=2.4)
