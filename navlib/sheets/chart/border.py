"""The chart's graduated border in degrees and minutes, with its parallels and meridians."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Patch, Rectangle

from navlib.sheets import style
from navlib.sheets.ground import Array
from navlib.sheets.window import MercatorWindow

TICKS, BARS = 1.3, 1.3
"""Millimetres across of the strip of small divisions, and of the bars outside it."""
_FONT: dict[str, Any] = {"family": style.SANS, "color": style.CHART_INK, "parse_math": False}


@dataclass(frozen=True)
class Division:
    """How a border is cut, in tenths of a minute: ticks, longer ticks, bars, figures, and labels.

    `label` is also the step of the parallels and meridians.
    """

    tick: int
    long: int
    bar: int
    figure: int
    label: int


def division(scale: int) -> Division:
    """Return how the border of a chart of this scale is cut."""
    if scale <= 30_000:
        return Division(tick=1, long=5, bar=5, figure=10, label=10)
    if scale <= 60_000:
        return Division(tick=1, long=5, bar=10, figure=10, label=50)
    return Division(tick=2, long=10, bar=10, figure=10, label=50)


def steps(low: float, high: float, step: int) -> list[int]:
    """Return the whole steps between two angles in degrees, all in tenths of a minute."""
    first = int(np.ceil(low * 600 / step - 1e-9))
    return list(range(first * step, int(np.floor(high * 600 + 1e-9)) + 1, step))


@dataclass(frozen=True)
class Side:
    """One scale of the border: its limits in degrees, and where an angle lies along the frame."""

    name: str
    low: float
    high: float
    along: Callable[[float], float]
    letters: str


def sides(window: MercatorWindow) -> tuple[Side, Side]:
    """Return the scales of latitude (up the sides) and of longitude (along top and bottom)."""
    f = window.frame
    south, west = (float(v) for v in window.lat_lon_at(f.left, f.bottom))
    north, east = (float(v) for v in window.lat_lon_at(f.right, f.top))
    return (
        Side("lat", south, north, lambda a: float(window.at_lat_lon(a, window.lon)[1]), "NS"),
        Side("lon", west, east, lambda a: float(window.at_lat_lon(window.lat, a)[0]), "EW"),
    )


def lines(window: MercatorWindow) -> list[Array]:
    """Return the parallels and meridians in millimetres."""
    f, step = window.frame, division(window.scale).label
    latitude, longitude = sides(window)
    result = []
    for tenths in steps(latitude.low, latitude.high, step):
        y = latitude.along(tenths / 600)
        result.append(np.array([(f.left, y), (f.right, y)]))
    for tenths in steps(longitude.low, longitude.high, step):
        x = longitude.along(tenths / 600)
        result.append(np.array([(x, f.top), (x, f.bottom)]))
    return result


def draw_lines(axes: Axes, window: MercatorWindow, clip: Patch) -> None:
    """Draw the parallels and meridians, thin."""
    drawn = LineCollection(
        lines(window),
        colors=style.CHART_INK,
        linewidths=style.points(0.09),
        zorder=5.5,
        gid="graticule",
    )
    axes.add_collection(drawn, autolim=False)
    drawn.set_clip_path(clip)


def draw_border(axes: Axes, window: MercatorWindow) -> None:
    """Draw the frame, its divisions, its bars, and their figures."""
    f = window.frame
    for grow, width in ((0.0, 0.2), (TICKS, 0.12), (TICKS + BARS, 0.4)):
        axes.add_artist(
            Rectangle(
                (f.left - grow, f.top - grow),
                f.width + 2 * grow,
                f.height + 2 * grow,
                fill=False,
                edgecolor=style.CHART_INK,
                linewidth=style.points(width),
                zorder=10,
            )
        )
    for side in sides(window):
        _draw_ticks(axes, window, side)
        _draw_bars(axes, window, side)
        _draw_figures(axes, window, side)


def _draw_ticks(axes: Axes, window: MercatorWindow, side: Side) -> None:
    f, cut = window.frame, division(window.scale)
    ticks, edges = (
        [],
        ((f.left, -1), (f.right, 1))
        if side.name == "lat"
        else (
            (f.top, -1),
            (f.bottom, 1),
        ),
    )
    for tenths in steps(side.low, side.high, cut.tick):
        at = side.along(tenths / 600)
        reach = 0.62 * TICKS
        if tenths % cut.long == 0:
            reach = TICKS
        if tenths % cut.figure == 0:
            reach = TICKS + BARS
        if tenths % cut.label == 0:
            reach = TICKS + BARS + 0.9
        for edge, out in edges:
            ends = (edge, edge + out * reach)
            ticks.append([(e, at) if side.name == "lat" else (at, e) for e in ends])
    drawn = LineCollection(
        ticks,
        colors=style.CHART_INK,
        linewidths=style.points(0.13),
        zorder=10,
        gid=f"graduation-{side.name}",
    )
    axes.add_collection(drawn, autolim=False)


def _draw_bars(axes: Axes, window: MercatorWindow, side: Side) -> None:
    """Fill every second bar in the outer strip."""
    f, cut = window.frame, division(window.scale)
    edges = [side.low, *(t / 600 for t in steps(side.low, side.high, cut.bar)), side.high]
    bars = []
    for a, b in pairwise(edges):
        if int(np.floor((a + b) / 2 * 600 / cut.bar)) % 2:
            continue
        low, high = sorted((side.along(a), side.along(b)))
        for near in (
            (f.left - TICKS - BARS, f.right + TICKS)
            if side.name == "lat"
            else (f.top - TICKS - BARS, f.bottom + TICKS)
        ):
            far = near + BARS
            corners = [(near, low), (far, low), (far, high), (near, high)]
            bars.append(corners if side.name == "lat" else [(y, x) for x, y in corners])
    drawn = PolyCollection(
        bars, facecolors=style.CHART_INK, edgecolors="none", zorder=9.9, gid=f"bars-{side.name}"
    )
    axes.add_collection(drawn, autolim=False)


def _draw_figures(axes: Axes, window: MercatorWindow, side: Side) -> None:
    f, cut = window.frame, division(window.scale)
    off = TICKS + BARS + 1.5
    for tenths in steps(side.low, side.high, cut.figure):
        at = side.along(tenths / 600)
        label = tenths % cut.label == 0
        text = _label(tenths, side.letters) if label else f"{abs(tenths) % 600 / 10:.0f}′"
        font = {**_FONT, "size": 7.2 if label else 6.0, "weight": "bold" if label else "normal"}
        if side.name == "lat":
            for x, align in ((f.left - off, "right"), (f.right + off, "left")):
                axes.text(x, at, text, **font, ha=align, va="center_baseline", zorder=11)
        else:
            axes.text(at, f.top - off, text, **font, ha="center", va="baseline", zorder=11)
            axes.text(at, f.bottom + off, text, **font, ha="center", va="top", zorder=11)


def _label(tenths: int, letters: str) -> str:
    """Return an angle in whole minutes as the border has it, such as 58°45′N."""
    minutes = abs(tenths) // 10
    return f"{minutes // 60}°{minutes % 60:02d}′{letters[tenths < 0]}"
