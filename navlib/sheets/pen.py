"""Many strokes or shapes of one look as a single path: quick to draw and small in a file."""

from collections.abc import Iterable
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch, PathPatch
from matplotlib.path import Path
from numpy.typing import ArrayLike

from navlib.sheets import style


def joined(lines: Iterable[ArrayLike], closed: bool = False) -> Path | None:
    """Return one path of all lines (arrays of x, y in millimetres), or None if there is none."""
    points, codes = [], []
    for line in lines:
        given = np.asarray(line, dtype=float)
        if closed:
            given = np.vstack([given, given[:1]])
        code = np.full(len(given), Path.LINETO)
        code[0] = Path.MOVETO
        if closed:
            code[-1] = Path.CLOSEPOLY
        points.append(given)
        codes.append(code)
    return Path(np.vstack(points), np.concatenate(codes)) if points else None


def draw_strokes(
    axes: Axes,
    lines: Iterable[ArrayLike],
    clip: Patch | None,
    *,
    colour: str,
    width: float,
    zorder: float,
    dashes: tuple[float, ...] | None = None,
    **more: Any,
) -> None:
    """Draw lines of one colour and `width` (mm); `dashes` count in widths."""
    path = joined(lines)
    if path is None:
        return
    cap = "butt" if dashes else "round"
    look = {"capstyle": cap, "joinstyle": "round", **more}
    patch = PathPatch(
        path,
        fill=False,
        edgecolor=colour,
        linewidth=style.points(width),
        linestyle=(0, dashes) if dashes else "solid",
        zorder=zorder,
        **look,
    )
    axes.add_artist(patch)
    if clip is not None:
        patch.set_clip_path(clip)


def draw_shapes(
    axes: Axes,
    rings: Iterable[ArrayLike],
    clip: Patch | None,
    *,
    fill: str,
    edge: str = "none",
    width: float = 0.0,
    zorder: float,
    **more: Any,
) -> None:
    """Fill closed shapes, with an edge of `width` (mm) if `edge` is a colour."""
    path = joined(rings, closed=True)
    if path is None:
        return
    patch = PathPatch(
        path, facecolor=fill, edgecolor=edge, linewidth=style.points(width), zorder=zorder, **more
    )
    axes.add_artist(patch)
    if clip is not None:
        patch.set_clip_path(clip)
