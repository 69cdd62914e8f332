"""Which parts of a chart are free: a fine raster over the frame in which things are marked off."""

from collections.abc import Iterable
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from navlib.sheets.ground import Ground
from navlib.sheets.window import Box, spread

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
STEP = 0.5
"""Millimetres between the middles of the raster's cells."""


def beads(line: Array, every: float) -> Array:
    """Return points along a line, `every` so many millimetres, and its end."""
    side = np.diff(line, axis=0)
    run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
    at = np.append(np.arange(0.0, run[-1], every), run[-1])
    return np.stack([np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])], axis=1)


class Raster:
    """Cells of 0.5 mm over a frame, each free or marked off."""

    def __init__(self, ground: Ground) -> None:
        """Begin with all cells free."""
        self.ground, self.window, f = ground, ground.window, ground.window.frame
        self.frame = f
        self.x = np.arange(f.left + STEP / 2, f.right, STEP)
        self.y = np.arange(f.top + STEP / 2, f.bottom, STEP)
        self.marked: Mask = np.zeros((len(self.y), len(self.x)), dtype=bool)

    @cached_property
    def places(self) -> tuple[Array, Array]:
        """Easting and northing (m) of each cell's middle."""
        return spread(self.x, self.y, self.window.grid_at)

    @cached_property
    def height(self) -> Array:
        """The height (m above chart datum) of the node nearest to each cell."""
        e, n = self.places
        g = self.ground
        step = g.easting[1] - g.easting[0]
        i = np.rint((e - g.easting[0]) / step).astype(int)
        j = np.rint((n - g.northing[0]) / step).astype(int)
        rows, columns = g.height.shape
        return np.asarray(g.height[np.clip(j, 0, rows - 1), np.clip(i, 0, columns - 1)])

    def marked_where(self, marked: Mask) -> "Raster":
        """Return a raster of the same cells with these marked off."""
        twin = Raster(self.ground)
        twin.__dict__["height"] = self.height
        twin.marked = marked.copy()
        return twin

    def mark_boxes(self, boxes: Iterable[Box], gap: float = 0.0) -> None:
        """Mark off boxes, and `gap` millimetres around them."""
        for b in boxes:
            i0 = max(0, int(np.floor((b.left - gap - self.frame.left) / STEP)))
            j0 = max(0, int(np.floor((b.top - gap - self.frame.top) / STEP)))
            i1 = max(0, int(np.ceil((b.right + gap - self.frame.left) / STEP)))
            j1 = max(0, int(np.ceil((b.bottom + gap - self.frame.top) / STEP)))
            self.marked[j0:j1, i0:i1] = True

    def mark_lines(self, lines: Iterable[Array]) -> None:
        """Mark off lines."""
        points = [beads(line, STEP / 2) for line in lines if len(line) > 1]
        if points:
            self.mark_points(np.vstack(points))

    def mark_points(self, points: Array) -> None:
        """Mark off the cells that hold these points."""
        i = np.floor((points[:, 0] - self.frame.left) / STEP).astype(int)
        j = np.floor((points[:, 1] - self.frame.top) / STEP).astype(int)
        inside = (i >= 0) & (j >= 0) & (i < len(self.x)) & (j < len(self.y))
        self.marked[j[inside], i[inside]] = True

    def clear_of(self, width: float, height: float) -> Mask:
        """Return for each cell whether a box of this size about it is free and in the frame."""
        half_i, half_j = int(np.ceil(width / 2 / STEP)), int(np.ceil(height / 2 / STEP))
        return summed(self.marked, half_i, half_j) == 0


def summed(weight: Array | Mask, half_i: int, half_j: int) -> Array:
    """Return the sum of weights within so many cells across and down of each cell.

    Cells outside the frame weigh 1.
    """
    kind = np.int32 if weight.dtype == bool else np.float64
    edge = ((half_j, half_j), (half_i, half_i))
    padded = np.pad(weight.astype(kind), edge, constant_values=1)
    total = np.pad(padded.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    down, across = 2 * half_j + 1, 2 * half_i + 1
    result = total[down:, across:] - total[:-down, across:]
    return np.asarray(result - total[down:, :-across] + total[:-down, :-across])


_ROUGH = 3  # cells across and down taken as one where a circle is looked for


def roomiest(raster: Raster, most: float) -> tuple[float, float, float]:
    """Return the middle (mm) and radius of the largest free circle, of radius `most` or less.

    The circle is looked for as three boxes laid over each other, which lie inside it.
    """
    rows, columns = (n // _ROUGH for n in raster.marked.shape)
    part = raster.marked[: rows * _ROUGH, : columns * _ROUGH]
    marked = np.asarray(part.reshape(rows, _ROUGH, columns, _ROUGH).any(axis=(1, 3)))
    x = raster.x[_ROUGH // 2 :: _ROUGH][:columns]
    y = raster.y[_ROUGH // 2 :: _ROUGH][:rows]
    best, low, high = (*raster.frame.middle, 0.0), 0.0, most
    radius = most
    while high - low > 0.5 or low == 0.0:
        free = np.ones(marked.shape, dtype=bool)
        for across, down in ((0.97, 0.38), (0.75, 0.75), (0.38, 0.97)):
            half_i, half_j = (int(np.ceil(radius * s / STEP / _ROUGH)) for s in (across, down))
            free &= summed(marked, half_i, half_j) == 0
        if free.any():
            best, low = (*_aside(raster.frame, x, y, free), radius), radius
        else:
            high = radius
        radius = (low + high) / 2
        if high < 1.0:
            break
    return best


def _aside(frame: Box, x: Array, y: Array, free: Mask) -> tuple[float, float]:
    """Return the free cell nearest to an edge of the frame, the middle one of those equally near.

    Blocks stand best at the side, where they leave the open water for plotting.
    """
    j, i = np.nonzero(free)
    across = np.minimum(x[i] - frame.left, frame.right - x[i])
    near = np.minimum(across, np.minimum(y[j] - frame.top, frame.bottom - y[j]))
    nearest = np.flatnonzero(near < near.min() + 4.0)
    k = nearest[len(nearest) // 2]
    return float(x[i[k]]), float(y[j[k]])


def freest(raster: Raster, weight: Array, width: float, height: float) -> Box:
    """Return the box of this size in the frame with the least sum of the weights of its cells.

    Of equals the one nearest to a corner of the frame.
    """
    half_i, half_j = int(np.ceil(width / 2 / STEP)), int(np.ceil(height / 2 / STEP))
    busy = summed(weight, half_i, half_j)
    f = raster.frame
    across = np.minimum(raster.x - f.left, f.right - raster.x)
    down = np.minimum(raster.y - f.top, f.bottom - raster.y)
    busy += (across[None, :] + down[:, None]) * 1e-3
    outside = (across[None, :] < width / 2 + 1) | (down[:, None] < height / 2 + 1)
    busy[outside] = np.inf
    j, i = divmod(int(np.argmin(busy)), len(raster.x))
    x, y = float(raster.x[i]), float(raster.y[j])
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
