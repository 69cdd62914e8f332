"""The ground of a land map, all from the height field: sea, foreshore, contours, cliffs."""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from contourpy import FillType, LineType, contour_generator
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import Patch, PathPatch
from matplotlib.path import Path
from numpy.typing import NDArray

from navlib.sheets import style
from navlib.sheets.window import Window
from navlib.waters import Water

Array = NDArray[np.float64]
CONTOUR_STEP, INDEX_STEP = 10, 50
"""Metres between contours, and between the thicker ones that carry figures."""
_CLIFF_HEIGHT, _CLIFF_REACH = 17.0, 38.0
"""Metres that land rises in so many metres from the coast where a cliff is drawn."""
_SHORTEST = 3.0  # millimetres of contour; a shorter one says nothing
_MARGIN = 6  # nodes drawn beyond the frame, so that no line ends inside it


def rounded(line: Array, closed: bool, cuts: int = 2) -> Array:
    """Return a line with its corners cut (Chaikin 1974), without points that say nothing."""
    for _ in range(cuts):
        start = line if closed else line[:-1]
        end = np.roll(line, -1, axis=0) if closed else line[1:]
        cut = np.stack([0.75 * start + 0.25 * end, 0.25 * start + 0.75 * end], axis=1)
        cut = cut.reshape(-1, 2)
        line = cut if closed else np.vstack([line[:1], cut, line[-1:]])
    for _ in range(2):
        line = _without_straights(line, 0.02)
    return line


def _without_straights(line: Array, tolerance_mm: float) -> Array:
    """Return the line without each second inner point that lies nearly between its neighbours."""
    if len(line) < 5:
        return line
    before, here, after = line[:-2], line[1:-1], line[2:]
    along = after - before
    length = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-9)
    off = np.abs(
        along[:, 0] * (here[:, 1] - before[:, 1]) - along[:, 1] * (here[:, 0] - before[:, 0])
    )
    drop = off / length < tolerance_mm
    drop[1::2] = False
    return line[np.concatenate([[True], ~drop, [True]])]


@dataclass(frozen=True)
class Ground:
    """The heights around a window (m above chart datum), with each node's place on the sheet."""

    window: Window
    easting: Array
    northing: Array
    height: Array
    coast: float
    zero: float

    @property
    def cuts(self) -> int:
        """How often the corners of lines are cut: less where nodes lie close on the sheet."""
        return 2 if (self.easting[1] - self.easting[0]) * 1000 / self.window.scale > 0.7 else 1

    @cached_property
    def mesh(self) -> tuple[Array, Array]:
        """Where each node lies (x and y in millimetres), shaped as the heights."""
        return self.window.place(*np.meshgrid(self.easting, self.northing))

    def lines(self, level: float, height: Array | None = None) -> list[Array]:
        """Return the smooth contour at a level (m above chart datum), as lines in millimetres."""
        x, y = self.mesh
        field = self.height if height is None else height
        generator = contour_generator(x, y, field, line_type=LineType.Separate)
        result = []
        for given in generator.lines(level):
            line = np.asarray(given, dtype=float)
            closed = bool(np.array_equal(line[0], line[-1]))
            smooth = rounded(line[:-1] if closed else line, closed, self.cuts)
            result.append(np.vstack([smooth, smooth[:1]]) if closed else smooth)
        return result

    def below(self, level: float) -> Path | None:
        """Return the area below a level, as a path in millimetres."""
        x, y = self.mesh
        generator = contour_generator(x, y, self.height, fill_type=FillType.OuterOffset)
        pieces = []
        for points, offsets in zip(*generator.filled(-1e6, level), strict=True):
            for a, b in pairwise(offsets):
                ring = rounded(points[a : b - 1], closed=True, cuts=self.cuts)
                pieces.append(Path(np.vstack([ring, ring[:1]]), closed=True))
        return Path.make_compound_path(*pieces) if pieces else None

    def at(self, x_mm: Array, y_mm: Array) -> Array:
        """Return the height of the nearest node to spots on the sheet."""
        e, n = self.window.grid_at(np.asarray(x_mm), np.asarray(y_mm))
        spacing = self.easting[1] - self.easting[0]
        i = np.clip(np.rint((e - self.easting[0]) / spacing).astype(int), 0, len(self.easting) - 1)
        j = np.rint((n - self.northing[0]) / spacing).astype(int)
        return self.height[np.clip(j, 0, len(self.northing) - 1), i]


def survey(water: Water, window: Window) -> Ground:
    """Return the ground that a window shows, and a little beyond it."""
    more = _MARGIN * water.height_field.spacing
    levels = water.settings.levels
    easting, northing, height = water.height_field.window(
        window.west - more, window.south - more, window.east + more, window.north + more
    )
    return Ground(window, easting, northing, height, levels.mhws, levels.msl)


def _dots(ground: Ground) -> Array:
    """Return places (mm) of dots strewn over the foreshore, the same for the same piece of water.

    One dot for each cell of a grid of 1 mm on the ground's own grid, moved about in it by a
    whole-number hash of the cell, so that neighbouring windows show the same dots.
    """
    f, step = ground.window.frame, 1.0 * ground.window.scale / 1000
    west, north = ground.window.grid_at(f.left, f.top)
    east, south = ground.window.grid_at(f.right, f.bottom)
    i, j = np.meshgrid(
        np.arange(int(west / step), int(east / step) + 1),
        np.arange(int(south / step), int(north / step) + 1),
    )
    chance = [((i * 73_856_093) ^ (j * 19_349_663) ^ k) % 1009 / 1009 for k in (83_492, 51_787)]
    x, y = ground.window.place((i + chance[0]) * step, (j + chance[1]) * step)
    height = ground.at(x, y)
    wet = (height > 0.25) & (height < ground.coast - 0.25)
    return np.stack([x[wet], y[wet]], axis=1)


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
    low = LineCollection(
        ground.lines(0.0),
        colors=style.FORESHORE_INK,
        linewidths=style.points(0.11),
        linestyles=[(0, (4, 2.5))],
        zorder=1.3,
    )
    coast = LineCollection(
        ground.lines(ground.coast),
        colors=style.COAST,
        linewidths=style.points(0.26),
        capstyle="round",
        joinstyle="round",
        zorder=3,
    )
    dots = _dots(ground)
    if len(dots):
        ends = np.stack([dots, dots + np.array([0.03, 0.0])], axis=1).reshape(-1, 2)
        path = Path(ends, np.tile([Path.MOVETO, Path.LINETO], len(dots)))
        axes.add_artist(
            PathPatch(
                path,
                fill=False,
                edgecolor=style.FORESHORE_INK,
                linewidth=style.points(0.24),
                capstyle="round",
                zorder=1.25,
            )
        ).set_clip_path(clip)
    for lines in (low, coast):
        axes.add_collection(lines, autolim=False)
        lines.set_clip_path(clip)


def contour_levels(ground: Ground) -> list[int]:
    """Return the heights above the map's zero at which contours run over this ground."""
    top = float(ground.height.max()) - ground.zero
    return list(range(CONTOUR_STEP, int(max(top, 0)) + 1, CONTOUR_STEP))


def contours(ground: Ground) -> dict[int, list[Array]]:
    """Return contour lines by height above the map's zero; only thick ones run through cliffs."""
    spacing = ground.easting[1] - ground.easting[0]
    north, east = np.gradient(ground.height, spacing)
    steep = np.hypot(north, east) > 1.05
    gentle = np.where(steep, np.nan, ground.height)
    result = {}
    for level in contour_levels(ground):
        field = None if level % INDEX_STEP == 0 else gentle
        lines = ground.lines(level + ground.zero, field)
        result[level] = [line for line in lines if _length(line) > _SHORTEST]
    return result


def _length(line: Array) -> float:
    side = np.diff(line, axis=0)
    return float(np.hypot(side[:, 0], side[:, 1]).sum())


def draw_contours(axes: Axes, lines: dict[int, list[Array]], clip: Patch) -> None:
    """Draw contour lines, those of whole fifties thicker."""
    for index in (False, True):
        chosen = [
            x for level, ls in lines.items() if (level % INDEX_STEP == 0) == index for x in ls
        ]
        collection = LineCollection(
            chosen,
            colors=style.CONTOUR,
            linewidths=style.points(0.24 if index else 0.11),
            joinstyle="round",
            zorder=2,
        )
        axes.add_collection(collection, autolim=False)
        collection.set_clip_path(clip)


def draw_cliffs(axes: Axes, ground: Ground, clip: Patch) -> None:
    """Draw combs along the coast where land rises straight from the sea, teeth towards the sea."""
    mm = 1000.0 / ground.window.scale
    teeth, edges = [], []
    for line in ground.lines(ground.coast):
        side = np.diff(line, axis=0)
        run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
        if run[-1] < 1.5:
            continue
        at = np.arange(0.0, run[-1], 0.62)
        x, y = np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])
        dx, dy = np.gradient(x), np.gradient(y)
        length = np.maximum(np.hypot(dx, dy), 1e-9)
        across = np.stack([-dy / length, dx / length], axis=1)
        reach = _CLIFF_REACH * mm
        left = ground.at(x + across[:, 0] * reach, y + across[:, 1] * reach)
        right = ground.at(x - across[:, 0] * reach, y - across[:, 1] * reach)
        rise = np.maximum(left, right) - ground.coast
        seaward = np.where((left < right)[:, None], across, -across)
        cliff = rise > _CLIFF_HEIGHT
        cliff &= np.roll(cliff, 1) | np.roll(cliff, -1)
        depth = np.clip(rise / 50.0, 0.0, 1.0) * 0.55 + 0.45
        for k in np.flatnonzero(cliff):
            here = np.array([x[k], y[k]])
            teeth.append([here, here + seaward[k] * depth[k]])
        both = np.flatnonzero(cliff[:-1] & cliff[1:])
        edges += [[(x[k], y[k]), (x[k + 1], y[k + 1])] for k in both]
    for segments, width in ((teeth, 0.16), (edges, 0.42)):
        collection = LineCollection(
            segments,
            colors=style.INK,
            linewidths=style.points(width),
            capstyle="round",
            zorder=3.2,
        )
        axes.add_collection(collection, autolim=False)
        collection.set_clip_path(clip)
