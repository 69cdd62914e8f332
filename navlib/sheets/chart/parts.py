"""What signs are made of: filled, open and dotted shapes about the exact place at 0, 0."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import PathCollection
from matplotlib.patches import Patch
from matplotlib.path import Path

from navlib.sheets import style
from navlib.sheets.chart.glyphs import figures
from navlib.sheets.ground import Array
from navlib.sheets.window import Box, Window

Points = Sequence[tuple[float, float]]
_LARGE_SCALE, _LARGER = 30_000, 1.15
"""Up to this denominator signs are drawn larger, by this factor."""


@dataclass(frozen=True, eq=False)
class Part:
    """One shape of a sign in millimetres, y downwards: filled, outlined, or both.

    `dashes` are in widths of the outline.
    """

    path: Path
    fill: str = "none"
    ink: str = "none"
    width: float = 0.18
    dashes: tuple[float, ...] | None = None


Sign = tuple[Part, ...]


def size(window: Window) -> float:
    """Return the factor by which signs are drawn at the window's scale."""
    return _LARGER if window.scale <= _LARGE_SCALE else 1.0


def points(path: Path) -> Array:
    """Return the points of a path, one a row."""
    return np.asarray(path.vertices, dtype=float)


def outline(sign: Sign) -> Array:
    """Return all points that a sign's shapes run through or are bent by, one a row."""
    found = []
    for part in sign:
        codes = part.path.codes
        ends = slice(None) if codes is None else codes != Path.CLOSEPOLY
        found.append(points(part.path)[ends])
    return np.vstack(found)


def shifted(path: Path, x: float, y: float, factor: float = 1.0) -> Path:
    """Return a path made larger by a factor about its place, and moved there."""
    return Path(factor * points(path) + np.array([x, y]), path.codes)


def ring(radius: float, x: float = 0.0, y: float = 0.0, count: int = 32) -> Points:
    """Return a circle about (x, y)."""
    turn = np.linspace(0, 2 * np.pi, count + 1)
    return [(x + radius * float(np.sin(t)), y - radius * float(np.cos(t))) for t in turn]


def line(ends: Points, width: float = 0.2, ink: str = style.CHART_INK) -> Part:
    """Return an open line."""
    return Part(Path(np.array(ends, dtype=float)), ink=ink, width=width)


def shape(
    around: Points, fill: str = style.CHART_INK, ink: str = "none", width: float = 0.16
) -> Part:
    """Return a closed shape."""
    corners = np.array(around, dtype=float)
    if not np.array_equal(corners[0], corners[-1]):
        corners = np.vstack([corners, corners[:1]])
    return Part(Path(corners, closed=True), fill, ink, width)


def open_shape(around: Points, width: float = 0.2, ink: str = style.CHART_INK) -> Part:
    """Return a closed shape with paper inside."""
    return shape(around, style.PAPER, ink, width)


def dotted(around: Points, width: float = 0.24, ink: str = style.CHART_INK) -> Part:
    """Return a dotted line, such as the one around a danger."""
    return replace(line(around, width, ink), dashes=(1.0, 1.7))


def words(text: str, x: float, y: float, size: float, ink: str = style.CHART_INK) -> Part:
    """Return letters of a size in points with their middle at (x, y)."""
    path = figures(text, size)[0]
    return Part(shifted(path, x, y), fill=ink)


BASE = open_shape(ring(0.38))
"""The small circle that stands at the exact place of a thing drawn as it looks from the side."""
DOT = shape(ring(0.24))


def turned(sign: Sign, degrees: float) -> Sign:
    """Return a sign turned clockwise about its place."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    turn = np.array([[c, s], [-s, c]])
    return tuple(replace(p, path=Path(points(p.path) @ turn, p.path.codes)) for p in sign)


def moved(sign: Sign, x: float, y: float) -> Sign:
    """Return a sign set off from its place by millimetres across and down."""
    return tuple(replace(p, path=shifted(p.path, x, y)) for p in sign)


def box_of(sign: Sign, x: float, y: float, factor: float = 1.0) -> Box:
    """Return the box that a sign fills with its place at (x, y)."""
    corners = factor * outline(sign)
    (left, top), (right, bottom) = corners.min(axis=0), corners.max(axis=0)
    return Box(x + float(left), y + float(top), x + float(right), y + float(bottom))


def draw(
    axes: Axes,
    sign: Sign,
    x: float,
    y: float,
    *,
    factor: float = 1.0,
    clip: Patch | None = None,
    zorder: float = 7.1,
    gid: str | None = None,
) -> None:
    """Draw a sign with its place at (x, y) in millimetres; its parts one over the other."""
    drawn = PathCollection(
        [shifted(p.path, x, y, factor) for p in sign],
        facecolors=[p.fill for p in sign],
        edgecolors=[p.ink for p in sign],
        linewidths=[style.points(p.width * factor) for p in sign],
        linestyles=[(0, p.dashes) if p.dashes else "solid" for p in sign],
        zorder=zorder,
        gid=gid,
    )
    axes.add_collection(drawn, autolim=False)
    if clip is not None:
        drawn.set_clip_path(clip)


def along(
    path: Array, every: float, mark: Callable[[float, float, float], Iterable[Points]]
) -> list[Points]:
    """Return the marks set at equal steps along a line: `mark` takes x, y and the line's turn.

    The turn is in degrees clockwise from up the sheet.
    """
    side = np.diff(path, axis=0)
    run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
    count = int(run[-1] / every)
    result: list[Points] = []
    for k in range(count):
        at = (k + 0.5) * run[-1] / count
        n = min(int(np.searchsorted(run, at, side="right")) - 1, len(side) - 1)
        x, y = np.interp(at, run, path[:, 0]), np.interp(at, run, path[:, 1])
        turn = np.degrees(np.arctan2(side[n, 0], -side[n, 1]))
        result += mark(float(x), float(y), float(turn))
    return result
