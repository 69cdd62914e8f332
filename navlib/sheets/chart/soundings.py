"""Soundings: which depths are printed where, the shoalest first, and how they are written."""

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch, PathPatch
from numpy.typing import ArrayLike

from navlib.sheets import style
from navlib.sheets.chart.glyphs import figures, moved, together
from navlib.sheets.chart.room import STEP, Array, Mask, Raster
from navlib.sheets.ground import Ground
from navlib.sheets.window import Box, Window
from navlib.waters import Water

SIZE, SMALL = 7.0, 5.5
"""Points of the metres and of the decimetres."""
WHOLE, HALVES = 31.0, 21.0
"""Metres from which soundings are whole, and from which they go by half metres.

From memory: the international chart specifications (S-4), section B-412.
"""
_DEPTHS = (0.0, 5.0, 10.0, 20.0, 30.0, 50.0)
_SPACING = (7.5, 5.6, 6.4, 7.6, 9.0, 10.5)  # millimetres between soundings at these depths
_LEAST_REACH, _MOST_REACH = 3.0, 4.5  # millimetres around in which a depth is the least, the most
_GAP = 0.55
_TALL = 2.4  # millimetres, about, of a sounding from top to foot


@dataclass(frozen=True)
class Sounding:
    """A printed depth: `depth` in metres as shown, below zero for what dries; its spot in mm."""

    depth: float
    x: float
    y: float

    @property
    def written(self) -> tuple[str, str]:
        """The metres and the decimetres as printed; the decimetres are empty if there are none."""
        tenths = round(abs(self.depth) * 10)
        return f"{tenths // 10}", f"{tenths % 10}" if tenths % 10 else ""

    @property
    def text(self) -> str:
        """The sounding in one line, such as 4₃, with a line under what dries."""
        metres, decimetres = self.written
        small = "".join("₀₁₂₃₄₅₆₇₈₉"[int(d)] for d in decimetres)
        return ("".join(f"{m}\u0332" for m in metres) if self.depth < 0 else metres) + small

    @property
    def box(self) -> Box:
        """The box that its figures fill."""
        _, width, height = figures(*_type(self.depth))
        return Box(self.x - width / 2, self.y - height / 2, self.x + width / 2, self.y + height / 2)


def _type(depth: float) -> tuple[str, float, style.Slant, str, str, float, bool]:
    metres, decimetres = Sounding(depth, 0.0, 0.0).written
    return metres, SIZE, "italic", "normal", decimetres, SMALL, depth < 0


def shown(depth: Array) -> Array:
    """Return depths (m below chart datum) as a chart prints them: to the safe side, never deeper.

    To the decimetre below 21 m, to the half metre below 31 m, else to the metre; what dries has
    its height rounded up to the decimetre.
    """
    step = np.where(depth >= WHOLE, 1.0, np.where(depth >= HALVES, 0.5, 0.1))
    counts = np.floor(np.round(depth / step, 6))
    return np.asarray(np.round(counts * step, 1))


def _peaks(ground: Ground, reach_mm: float, deepest: bool) -> tuple[Array, Array]:
    """Return spots (mm, a row each) and depths of the least, or the greatest, depths around.

    The sea bed is cut in squares of `reach_mm`; a node counts that no other node of its square
    and the eight around it goes beyond. Ground above water counts as the least depth of all, so
    that a slope up to the shore has no least depth; the greatest depths are those between shores.
    """
    spacing = ground.easting[1] - ground.easting[0]
    side = max(1, round(reach_mm / (spacing * 1000 / ground.window.scale)))
    rows, columns = (n // side for n in ground.height.shape)
    height = ground.height[: rows * side, : columns * side]
    square = height.reshape(rows, side, columns, side)
    land = square.max(axis=(1, 3)) >= ground.coast
    most = np.where(land, np.inf, square.max(axis=(1, 3)))
    if deepest:
        most = -square.min(axis=(1, 3))
    beyond = np.pad(most, 1, constant_values=np.inf)
    shore = np.pad(land, 2)
    top = np.ones(most.shape, dtype=bool)
    between = np.zeros(most.shape, dtype=bool)
    for down in range(5):
        for across in range(5):
            between |= shore[down : down + rows, across : across + columns]
            if max(abs(down - 2), abs(across - 2)) == 1:
                j, i = down - 1, across - 1
                top &= most >= beyond[j : j + rows, i : i + columns]
    top &= between if deepest else np.isfinite(most)
    x, y = ground.mesh
    spots, depths = [], []
    for row, column in np.argwhere(top):
        cell = (-square if deepest else square)[row, :, column, :]
        j, i = divmod(int(np.argmax(cell)), side)
        node = row * side + j, column * side + i
        spots.append((x[node], y[node]))
        depths.append(-ground.height[node])
    return np.array(spots).reshape(-1, 2), np.array(depths)


class _Board:
    """The raster as soundings see it: `alive` are the cells about which one may still stand."""

    def __init__(self, raster: Raster) -> None:
        self.raster, self.depth = raster, -raster.height
        self.wide = np.where(self.depth >= HALVES, 4.4, 3.9) / 2 + _GAP
        self.alive: Mask = np.zeros(raster.marked.shape, dtype=bool)
        for half in np.unique(self.wide):
            self.alive |= (self.wide == half) & raster.clear_of(2 * half - _GAP, _TALL)

    def holds(self, x: float, y: float) -> bool:
        """Return whether a sounding may still stand at a spot."""
        i = min(int((x - self.raster.frame.left) / STEP), self.alive.shape[1] - 1)
        j = min(int((y - self.raster.frame.top) / STEP), self.alive.shape[0] - 1)
        return min(i, j) >= 0 and bool(self.alive[j, i])

    def take(self, x: float, y: float, spacing: float) -> None:
        """Let no further sounding stand within `spacing` of one here, nor run into it."""
        r = self.raster
        reach = max(spacing, 5.0)
        i0, i1 = np.searchsorted(r.x, (x - reach, x + reach))
        j0, j1 = np.searchsorted(r.y, (y - reach, y + reach))
        part = slice(j0, j1), slice(i0, i1)
        dx, dy = np.abs(r.x[i0:i1] - x), np.abs(r.y[j0:j1, None] - y)
        self.alive[part] &= dx**2 + dy**2 > spacing**2
        self.alive[part] &= (dx > self.wide[part] + 2.2) | (dy > _TALL + _GAP)


def sounded(water: Water, window: Window, spots: Array) -> list[Sounding]:
    """Return soundings at spots (mm, a row each), from the field at their exact places."""
    if not len(spots):
        return []
    e, n = window.grid_at(spots[:, 0], spots[:, 1])
    depth = shown(-np.asarray(water.height_field.at(e, n)))
    return [Sounding(float(d), float(x), float(y)) for d, (x, y) in zip(depth, spots, strict=True)]


def _spacing(depth: ArrayLike) -> Array:
    return np.asarray(np.interp(np.asarray(depth, dtype=float), _DEPTHS, _SPACING))


def peak_soundings(water: Water, hard: Raster) -> list[Sounding]:
    """Return the soundings that a chart owes first: shoals, then the deepest of each passage.

    `hard` is marked off where no figure may stand at all: land, signs, blocks of words.
    """
    board, spots = _Board(hard), []
    for reach, deepest in ((_LEAST_REACH, False), (_MOST_REACH, True)):
        found, depths = _peaks(hard.ground, reach, deepest)
        for k in np.argsort(-depths if deepest else depths, kind="stable"):
            x, y = (float(v) for v in found[k])
            if board.holds(x, y):
                board.take(x, y, float(_spacing(depths[k])))
                spots.append((x, y))
    return sounded(water, hard.window, np.array(spots))


def fill(water: Water, first: list[Sounding], soft: Raster) -> list[Sounding]:
    """Return further soundings between the `first`, evenly spread and closer inshore.

    `soft` is marked off where a figure would hide a line or a sign. Spots are tried in an order
    that looks like chance and is the same every time.
    """
    board = _Board(soft)
    spacing = _spacing(board.depth)
    for sounding in first:
        board.take(sounding.x, sounding.y, 0.9 * float(_spacing(sounding.depth)))
    spots = []
    rows, columns = np.nonzero(board.alive)
    some = (rows + columns) % 3 == 0  # every third cell is choice enough
    order = np.random.Generator(np.random.PCG64(7)).permutation(int(some.sum()))
    for j, i in zip(rows[some][order], columns[some][order], strict=True):
        if board.alive[j, i]:
            spots.append((float(soft.x[i]), float(soft.y[j])))
            board.take(*spots[-1], float(spacing[j, i]))
    return sounded(water, soft.window, np.array(spots))


def draw_soundings(axes: Axes, soundings: list[Sounding], clip: Patch) -> None:
    """Print soundings: sloping figures about their places, decimetres small and low."""
    shape = together(moved(figures(*_type(s.depth))[0], s.x, s.y) for s in soundings)
    drawn = PathPatch(
        shape, facecolor=style.CHART_INK, edgecolor="none", zorder=6.5, gid="soundings"
    )
    axes.add_artist(drawn).set_clip_path(clip)
