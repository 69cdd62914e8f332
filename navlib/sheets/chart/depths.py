"""Land and sea bed on the chart: tints, coast, drying shore, depth lines, contours, small rocks."""

from collections.abc import Iterable

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Patch, PathPatch, Rectangle

from navlib.sheets import style
from navlib.sheets.along import without
from navlib.sheets.ground import Array, Ground
from navlib.sheets.window import Box

DEPTH_LINES = (0, 2, 5, 10, 20, 30, 50)
"""Metres below chart datum at which lines run."""
_TINTS = (
    (style.CHART_SHALLOW, 0.0),
    (style.CHART_MIDDLE, -5.0),
    (style.CHART_DEEP, -10.0),
)
_SMALLEST = 0.9  # millimetres that a rock is drawn wide, however small it is
_SHORTEST = 3.0  # millimetres of a depth line or contour; a shorter one says nothing
_PLAN = 30_000  # from this denominator down contours run every 25 m


def draw_tints(axes: Axes, ground: Ground, clip: Patch) -> None:
    """Paint land, what dries, and the shallows; below 10 m the paper stays white."""
    f = ground.window.frame
    axes.add_artist(
        Rectangle((f.left, f.top), f.width, f.height, color=style.CHART_LAND, lw=0, zorder=0.5)
    )
    for k, (colour, level) in enumerate(((style.CHART_DRYING, ground.coast), *_TINTS)):
        area = ground.below(level)
        if area is not None:
            axes.add_artist(
                PathPatch(area, facecolor=colour, edgecolor="none", zorder=1 + 0.1 * k)
            ).set_clip_path(clip)


def depth_lines(ground: Ground) -> dict[int, list[Array]]:
    """Return depth lines in millimetres by depth; rings too small to be read are left to the tints.

    The line of chart datum is kept whole, as what dries must show however small it is.
    """
    return {
        depth: [line for line in ground.lines(-depth) if not depth or length(line) > _SHORTEST]
        for depth in DEPTH_LINES
    }


def broken(lines: dict[int, list[Array]], boxes: list[Box]) -> dict[int, list[Array]]:
    """Return depth lines with gaps where words and soundings stand."""
    corners = np.array([(b.left, b.top, b.right, b.bottom) for b in boxes]).reshape(-1, 4)
    result: dict[int, list[Array]] = {}
    for depth, given in lines.items():
        result[depth] = []
        for line in given:
            low, high = line.min(axis=0), line.max(axis=0)
            near = (corners[:, :2] < high).all(axis=1) & (corners[:, 2:] > low).all(axis=1)
            result[depth] += without(line, [boxes[k] for k in np.flatnonzero(near)])
    return result


def land_contours(ground: Ground) -> dict[int, list[Array]]:
    """Return contours in millimetres by height above mean high water springs."""
    step = 25 if ground.window.scale <= _PLAN else 50
    top = float(ground.height.max()) - ground.coast
    return {
        height: [x for x in ground.lines(ground.coast + height) if length(x) > _SHORTEST]
        for height in range(step, int(max(top, 0)) + 1, step)
    }


def length(line: Array) -> float:
    """Return the length of a line."""
    side = np.diff(line, axis=0)
    return float(np.hypot(side[:, 0], side[:, 1]).sum())


def _stroke(
    axes: Axes,
    lines: Iterable[Array],
    clip: Patch,
    colour: str,
    width: float,
    zorder: float,
    dashes: tuple[float, ...] | None = None,
    gid: str | None = None,
) -> None:
    drawn = LineCollection(
        list(lines),
        colors=colour,
        linewidths=style.points(width),
        linestyles=[(0, dashes)] if dashes else "solid",
        capstyle="butt" if dashes else "round",
        joinstyle="round",
        zorder=zorder,
        gid=gid,
    )
    axes.add_collection(drawn, autolim=False)
    drawn.set_clip_path(clip)


def draw_depth_lines(axes: Axes, lines: dict[int, list[Array]], clip: Patch) -> None:
    """Draw depth lines: thin, a little thicker every 10 m; dashed is chart datum's."""
    for depth, drawn in lines.items():
        if depth == 0:
            _stroke(axes, drawn, clip, style.CHART_INK, 0.12, 2.1, (4, 2))
        else:
            width = 0.17 if depth in (5, 10) else 0.11
            _stroke(axes, drawn, clip, style.CHART_DEPTH_LINE, width, 2.0)


def draw_land(
    axes: Axes,
    ground: Ground,
    contours: dict[int, list[Array]],
    datum: list[Array],
    clip: Patch,
) -> None:
    """Draw the coast, the contours of the land, and all rocks too small to be seen at this scale.

    `datum` is the line of chart datum.
    """
    lines = [line for level in contours.values() for line in level]
    _stroke(axes, lines, clip, style.CHART_LAND_INK, 0.11, 2.2)
    _stroke(axes, ground.coast_lines, clip, style.CHART_INK, 0.28, 3.0, gid="coast")
    for level, lines, colour, zorder in (
        (0.0, datum, style.CHART_DRYING, 3.1),
        (ground.coast, ground.coast_lines, style.CHART_LAND, 3.2),
    ):
        spots = small_rings(ground, lines, level)
        if not spots:
            continue
        turn = np.linspace(0, 2 * np.pi, 13)
        ring = np.stack([np.sin(turn), np.cos(turn)], axis=1) * _SMALLEST / 2
        rocks = PolyCollection(
            [ring + spot for spot in spots],
            facecolors=colour,
            edgecolors=style.CHART_INK,
            linewidths=style.points(0.16),
            zorder=zorder,
        )
        axes.add_collection(rocks, autolim=False)
        rocks.set_clip_path(clip)


def small_rings(ground: Ground, lines: list[Array], level: float) -> list[Array]:
    """Return the middles (mm) of those of the `lines` at a level that ring too small a rock.

    Smaller, that is, than the smallest rock drawn. A ring round a hollow is left out: only ground
    that rises above the level counts.
    """
    result = []
    for line in lines:
        if not np.array_equal(line[0], line[-1]):
            continue
        low, high = line.min(axis=0), line.max(axis=0)
        middle = (low + high) / 2
        if max(high - low) < _SMALLEST and float(ground.at(*middle[:, None])[0]) >= level:
            result.append(middle)
    return result
