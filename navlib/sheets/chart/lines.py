"""Lines and areas on the sea chart: roads and houses thin, limits, cables, ferry, leading lines."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch

from navlib.geodesy import rhumb
from navlib.sheets import style
from navlib.sheets.chart import lights
from navlib.sheets.chart import style as colours
from navlib.sheets.chart.parts import Points, along
from navlib.sheets.chart.room import beads
from navlib.sheets.ground import Array, rounded
from navlib.sheets.pen import draw_shapes, draw_strokes
from navlib.sheets.window import Window
from navlib.waters import Feature, Water

LEFT_OUT = ("path", "wall", "wood", "lay-by", "radio shadow")
"""Kinds of feature that the chart leaves to the land map: nothing at sea is judged by them."""
SAFE_DEPTH = 2.0
"""Metres of water at chart datum as far as which a leading line is drawn firm: to be followed."""


@dataclass(frozen=True)
class Stroke:
    """How a line is drawn: colour, width in mm, dashes in widths, and what it lies above."""

    colour: str
    width: float
    dashes: tuple[float, ...] | None = None
    zorder: float = 4.0


STROKES: Mapping[str, tuple[Stroke, ...]] = {
    "burn": (Stroke(colours.FRESH_INK, 0.12, zorder=2.4),),
    "track": (Stroke(colours.ROAD, 0.15, (8.0, 5.0)),),
    "causeway": (Stroke(colours.ROAD, 0.3, (3.0, 2.0)),),
    "road": (Stroke(colours.ROAD, 0.28),),
    "bridge road": (
        Stroke(style.CHART_INK, 1.1, zorder=4.3),
        Stroke(style.PAPER, 0.72, zorder=4.31),
        Stroke(colours.ROAD, 0.28, zorder=4.32),
    ),
    "quay": (Stroke(style.CHART_INK, 0.5, zorder=4.2),),
    "ferry": (Stroke(style.MAGENTA, 0.2, (14.0, 8.0), 6.0),),
    "power cable": (
        Stroke(style.CHART_INK, 0.14, zorder=6.0),
        Stroke(style.CHART_INK, 0.9, (0.24, 5.5), 6.0),
    ),
    "limit": (Stroke(style.MAGENTA, 0.2, (12.0, 6.0), 6.0),),
    "reserve": (Stroke(style.MAGENTA, 0.2, (12.0, 6.0), 6.0),),
    "anomaly": (Stroke(style.MAGENTA, 0.2, (5.0, 4.0), 6.0),),
    "fish farm": (Stroke(style.CHART_INK, 0.16, (6.0, 4.0), 6.0),),
    "submarine cable": (Stroke(style.MAGENTA, 0.18, zorder=6.0),),
}
"""Lines, and the edges of areas, from the lowest up."""


def on_sheet(feature: Feature, window: Window) -> list[Array]:
    """Return a feature's lines or rings in millimetres."""
    return [np.stack(window.place(*np.array(part).T), axis=1) for part in feature.parts]


def _lines(water: Water, window: Window, *kinds: str) -> list[Array]:
    return [line for f in water.of_kind(*kinds) for line in on_sheet(f, window)]


def _length(line: Array) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def draw_line_features(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw all lines and areas, those at sea each as a group `line-ID`."""
    lochs = [rounded(r[:-1], closed=True) for r in _lines(water, window, "loch")]
    draw_shapes(
        axes,
        lochs,
        clip,
        fill=colours.FRESH_WATER,
        edge=colours.FRESH_INK,
        width=0.12,
        zorder=2.5,
    )
    houses = _lines(water, window, "buildings")
    draw_shapes(axes, houses, clip, fill=colours.HOUSES, edge=colours.HOUSES, width=0.1, zorder=4.1)
    for kind in STROKES:
        for feature in water.of_kind(kind):
            lines = on_sheet(feature, window)
            if kind in ("road", "track", "burn"):
                lines = [rounded(line, closed=False) for line in lines]
            draw_line(axes, kind, lines, clip, gid=f"line-{feature.id}")
    for feature in water.of_kind("leading line"):
        share = firm_part(water, feature)
        for line in on_sheet(feature, window):
            draw_leading_line(axes, line, share, clip, gid=f"line-{feature.id}")


def draw_line(
    axes: Axes,
    kind: str,
    lines: list[Array],
    clip: Patch | None = None,
    gid: str | None = None,
) -> None:
    """Draw lines (mm) as one of the kinds in STROKES."""
    for k, s in enumerate(STROKES[kind]):
        draw_strokes(
            axes,
            [wavy(line) for line in lines] if kind == "submarine cable" else lines,
            clip,
            colour=s.colour,
            width=s.width,
            dashes=s.dashes,
            zorder=s.zorder,
            gid=gid if k == 0 else None,
        )
    if kind in ("limit", "reserve"):
        teeth = [tooth for line in lines for tooth in _teeth(line)]
        last = STROKES[kind][-1]
        draw_strokes(axes, teeth, clip, colour=last.colour, width=last.width, zorder=last.zorder)


def _teeth(line: Array) -> list[Points]:
    """Return the ticks of a limit's dashes, on the side of what it closes in.

    Of a line that does not close, they stand on its left.
    """
    closed = float(np.hypot(*(line[0] - line[-1]))) < 1e-6
    x, y = line.T
    clockwise = float(np.sum(np.roll(x, -1) * y - x * np.roll(y, -1))) < 0
    side = 90.0 if closed and clockwise else -90.0

    def tick(x: float, y: float, turn: float) -> list[Points]:
        to = np.radians(turn + side)
        return [[(x, y), (x + 0.95 * float(np.sin(to)), y - 0.95 * float(np.cos(to)))]]

    return along(line, 6.0, tick)


def wavy(line: Array) -> Array:
    """Return a submarine cable's line: small waves along it."""
    points = beads(line, 0.22)
    run = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    way = np.gradient(points, axis=0)
    way /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-9)[:, None]
    swing = 0.42 * np.sin(run * 2 * np.pi / 2.2)
    return points + swing[:, None] * np.stack([-way[:, 1], way[:, 0]], axis=1)


def firm_part(water: Water, line: Feature) -> float:
    """Return which share of a leading line is to be followed: from seaward to where it shoals."""
    (e0, n0), (e1, n1) = line.parts[0][0], line.parts[0][-1]
    share = np.linspace(0.0, 1.0, 400)
    bed = np.asarray(water.height_field.at(e0 + (e1 - e0) * share, n0 + (n1 - n0) * share))
    shoal = np.flatnonzero(bed > -SAFE_DEPTH)
    return float(share[shoal[0]]) if len(shoal) else 1.0


def draw_leading_line(
    axes: Axes,
    line: Array,
    firm: float,
    clip: Patch | None = None,
    gid: str | None = None,
) -> None:
    """Draw a leading line (mm) from sea to rear mark: firm along its first share, then pecked."""
    start, rear = line[0], line[-1]
    turn = start + (rear - start) * firm
    look: dict[str, Any] = {"colour": style.CHART_INK, "width": 0.2, "zorder": 6.1}
    draw_strokes(axes, [[start, turn]], clip, gid=gid, **look)
    draw_strokes(axes, [[turn, rear]], clip, dashes=(7, 4), **look)


def leading_bearing(water: Water, line: Feature) -> float:
    """Return the true bearing of a leading line from seaward, in degrees."""
    ends = (water.lat_lon(line.parts[0][k]) for k in (0, -1))
    return rhumb(*next(ends), *next(ends)).bearing


_CLUTTER = (
    *("road", "track", "bridge road", "causeway", "quay", "ferry", "power cable", "limit"),
    *("reserve", "anomaly", "fish farm", "submarine cable", "leading line"),
)


def clutter(water: Water, window: Window) -> Array:
    """Return points (mm) that names had better not hide: houses, and beads along lines."""
    points = [np.empty((0, 2))]
    points += [r[:-1].mean(axis=0, keepdims=True) for r in _lines(water, window, "buildings")]
    lines = _lines(water, window, *_CLUTTER)
    for light in lights.sectored(water, window):
        x, y = (float(v) for v in window.place(*light.place))
        lines += lights.limit_lines(light, window)
        lines += [lights.arc(x, y, s, lights.arc_radius(window)) for s in lights.sectors(light)]
    points += [beads(line, 1.0) for line in lines if _length(line) > 0]
    found, f = np.vstack(points), window.frame
    inside = (found[:, 0] > f.left) & (found[:, 0] < f.right)
    return found[inside & (found[:, 1] > f.top) & (found[:, 1] < f.bottom)]
