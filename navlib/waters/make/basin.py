"""The sea at mean level in square cells: how deep it is through their sides, and how much is wet."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from navlib.waters.heights import HeightField

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Basin:
    """What holds the water at mean sea level, in square cells; sea is whatever lies below it.

    `wet` is the part of each cell that is sea. Through the west sides of cells (and the last
    east side) `depth_x` is the mean depth, dry parts counted as 0, and `wet_x` the wet part;
    `depth_y`, `wet_y` the like through south sides.
    """

    wet: Array
    depth_x: Array
    wet_x: Array
    depth_y: Array
    wet_y: Array
    spacing: float


def basin(heights: HeightField, level: float, spacing: float) -> Basin:
    """Return the basin of a height field; `spacing` must be whole times that of the heights."""
    step = round(spacing / heights.spacing)
    rows, columns = ((n - 1) // step * step + 1 for n in heights.values.shape)
    depth = np.maximum(level - heights.values[:rows, :columns], 0.0)
    wet = (depth > 0).astype(float)
    trapezium = np.ones(step + 1) / step
    trapezium[[0, -1]] /= 2

    def mean(field: Array, axis: int) -> Array:
        windows = np.lib.stride_tricks.sliding_window_view(field, step + 1, axis)
        return np.take(windows @ trapezium, np.arange(0, windows.shape[axis], step), axis)

    depth_x, depth_y = mean(depth, 0)[:, ::step], mean(depth, 1)[::step]
    open_sea = _open_sea(depth_x > 0, depth_y > 0)
    return Basin(
        mean(mean(wet, 0), 1) * open_sea[1:-1, 1:-1],
        depth_x * (open_sea[1:-1, 1:] & open_sea[1:-1, :-1]),
        mean(wet, 0)[:, ::step],
        depth_y * (open_sea[1:, 1:-1] & open_sea[:-1, 1:-1]),
        mean(wet, 1)[::step],
        step * heights.spacing,
    )


def _open_sea(through_x: NDArray[np.bool_], through_y: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return which cells, with a ring around them, water from beyond the edge can reach."""
    sea = np.ones((through_x.shape[0] + 2, through_y.shape[1] + 2), bool)
    sea[1:-1, 1:-1] = False
    found = 0
    while found != (now := int(np.count_nonzero(sea))):
        found = now
        sea[1:-1, 1:] |= sea[1:-1, :-1] & through_x
        sea[1:-1, :-1] |= sea[1:-1, 1:] & through_x
        sea[1:, 1:-1] |= sea[:-1, 1:-1] & through_y
        sea[:-1, 1:-1] |= sea[1:, 1:-1] & through_y
    return sea
