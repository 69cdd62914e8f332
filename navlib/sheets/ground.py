"""The ground under a sheet, all from the height field: lines and areas of a height, cliffs."""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from contourpy import ContourGenerator, FillType, LineType, contour_generator
from matplotlib.axes import Axes
from matplotlib.patches import Patch
from matplotlib.path import Path
from numpy.typing import NDArray

from navlib.sheets import pen, style
from navlib.sheets.window import Window, spread
from navlib.waters import Water

Array = NDArray[np.float64]
_CLIFF_HEIGHT, _CLIFF_REACH = 17.0, 38.0
"""Metres that land rises in so many metres from the coast where a cliff is drawn."""
_LATTICE = 4.0  # millimetres between spots whose places are worked out exactly
_MARGIN = 6  # nodes drawn beyond the frame, so that no line ends inside it


def rounded(line: Array, closed: bool, cuts: int = 2) -> Array:
    """Return a line with its corners cut (Chaikin 1974), without points that say nothing."""
    for _ in range(cuts):
        start = line if closed else line[:-1]
        end = np.roll(line, -1, axis=0) if closed else line[1:]
        cut = np.stack([0.75 * start + 0.25 * end, 0.25 * start + 0.75 * end], axis=1)
        cut = cut.reshape(-1, 2)
        line = cut if closed else np.vstack([line[:1], cut, line[-1:]])
    for _ in range(3):
        line = _without_straights(line, 0.03)
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
        return spread(self.easting, self.northing, self.window.place)

    @cached_property
    def _tracer(self) -> ContourGenerator:
        return self.tracer(self.height)

    def tracer(self, field: Array) -> ContourGenerator:
        """Return what traces lines of a field at the nodes, for `lines`; none where it is NaN."""
        x, y = self.mesh
        return contour_generator(
            x, y, field, line_type=LineType.Separate, fill_type=FillType.OuterOffset
        )

    def lines(self, level: float, tracer: ContourGenerator | None = None) -> list[Array]:
        """Return the smooth contour at a level, as lines in millimetres.

        It is one of the heights (m above chart datum) unless a `tracer` is given.
        """
        result = []
        for given in (tracer or self._tracer).lines(level):
            line = np.asarray(given, dtype=float)
            closed = bool(np.array_equal(line[0], line[-1]))
            smooth = rounded(line[:-1] if closed else line, closed, self.cuts)
            result.append(np.vstack([smooth, smooth[:1]]) if closed else smooth)
        return result

    def below(self, level: float) -> Path | None:
        """Return the area below a level, as a path in millimetres."""
        pieces = []
        for points, offsets in zip(*self._tracer.filled(-1e6, level), strict=True):
            for a, b in pairwise(offsets):
                ring = rounded(points[a : b - 1], closed=True, cuts=self.cuts)
                pieces.append(Path(np.vstack([ring, ring[:1]]), closed=True))
        return Path.make_compound_path(*pieces) if pieces else None

    @cached_property
    def coast_lines(self) -> list[Array]:
        """The coast, which is mean high water springs, as lines in millimetres."""
        return self.lines(self.coast)

    @cached_property
    def _lattice(self) -> tuple[Array, Array]:
        """Eastings and northings at spots 4 mm apart over the frame."""
        f, step = self.window.frame, _LATTICE
        x, y = (
            np.arange(f.left, f.right + 2 * step, step),
            np.arange(f.top, f.bottom + 2 * step, step),
        )
        return self.window.grid_at(*np.meshgrid(x, y))

    def _near(self, x_mm: Array, y_mm: Array) -> tuple[Array, Array]:
        """Return easting and northing (m) of spots, within a centimetre: linear between lattice spots.

        Beyond the frame the outermost cells are continued, which is as good for some centimetres.
        """
        f, (e, n) = self.window.frame, self._lattice
        u, v = (x_mm - f.left) / _LATTICE, (y_mm - f.top) / _LATTICE
        i = np.clip(np.floor(u).astype(int), 0, e.shape[1] - 2)
        j = np.clip(np.floor(v).astype(int), 0, e.shape[0] - 2)
        u, v = u - i, v - j
        shares = (1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v
        corners = (j, i), (j, i + 1), (j + 1, i), (j + 1, i + 1)
        east = sum(share * e[at] for share, at in zip(shares, corners, strict=True))
        north = sum(share * n[at] for share, at in zip(shares, corners, strict=True))
        return np.asarray(east), np.asarray(north)

    def at(self, x_mm: Array, y_mm: Array, field: Array | None = None) -> Array:
        """Return the height (or what else `field` holds) at the node nearest to spots (mm)."""
        e, n = self._near(np.asarray(x_mm), np.asarray(y_mm))
        spacing = self.easting[1] - self.easting[0]
        i = np.clip(np.rint((e - self.easting[0]) / spacing).astype(int), 0, len(self.easting) - 1)
        j = np.rint((n - self.northing[0]) / spacing).astype(int)
        held = self.height if field is None else field
        return held[np.clip(j, 0, len(self.northing) - 1), i]


def survey(water: Water, window: Window) -> Ground:
    """Return the ground that a window shows, and a little beyond it."""
    more = _MARGIN * water.height_field.spacing
    levels = water.settings.levels
    easting, northing, height = water.height_field.window(
        window.west - more, window.south - more, window.east + more, window.north + more
    )
    return Ground(window, easting, northing, height, levels.mhws, levels.msl)


def draw_cliffs(axes: Axes, ground: Ground, clip: Patch) -> None:
    """Draw combs along the coast where land rises straight from the sea, teeth towards the sea."""
    mm = 1000.0 / ground.window.scale
    teeth: list[Array] = []
    edges: list[Array] = []
    for line in ground.coast_lines:
        side = np.diff(line, axis=0)
        run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
        if run[-1] < 1.5:
            continue
        at = np.arange(0.0, run[-1], 0.62)
        here = np.stack([np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])], axis=1)
        along = np.gradient(here, axis=0)
        long = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-9)
        across = np.stack([-along[:, 1], along[:, 0]], axis=1) / long[:, None]
        reach = _CLIFF_REACH * mm * across
        left = ground.at(here[:, 0] + reach[:, 0], here[:, 1] + reach[:, 1])
        right = ground.at(here[:, 0] - reach[:, 0], here[:, 1] - reach[:, 1])
        rise = np.maximum(left, right) - ground.coast
        seaward = np.where((left < right)[:, None], across, -across)
        cliff = rise > _CLIFF_HEIGHT
        cliff &= np.roll(cliff, 1) | np.roll(cliff, -1)
        depth = np.clip(rise / 50.0, 0.0, 1.0) * 0.55 + 0.45
        teeth += list(np.stack([here, here + seaward * depth[:, None]], axis=1)[cliff])
        ends = np.flatnonzero(np.diff(np.concatenate([[0], cliff.astype(int), [0]])))
        edges += [here[a:b] for a, b in zip(ends[::2], ends[1::2], strict=True) if b - a > 1]
    for strokes, width in ((teeth, 0.16), (edges, 0.42)):
        pen.draw_strokes(axes, strokes, clip, colour=style.INK, width=width, zorder=3.2)
