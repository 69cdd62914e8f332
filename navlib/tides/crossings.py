"""When does a quantity that changes smoothly with time pass through zero, and none left out."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from navlib.tides.moments import Floats, Moments

Quantity = Callable[[Moments], Floats]
MINUTE = np.timedelta64(60_000_000, "us")
_PARTS = 6
_INSTANT = np.timedelta64(50_000, "us")


def crossings(
    quantity: Quantity, start: np.datetime64, end: np.datetime64, step: np.timedelta64
) -> tuple[Moments, NDArray[np.bool_]]:
    """Return the moments in [start, end) at which `quantity` changes sign, and whether it rises.

    It is looked at on a grid of `step`, which must be well shorter than its quickest wave, and ever
    finer where it changes sign or comes close to zero, so that crossings seconds apart are all
    found. The grid hangs on the calendar, not on `start`: windows side by side tile.
    """
    first = start - (start - np.datetime64(0, "us")) % step - step
    grid = np.arange(first, end + 2 * step, step)
    values = quantity(grid)
    while step > 10 * np.timedelta64(1, "s"):
        grid, values = _finer(quantity, grid, values)
        step = step // _PARTS
    positive = values > 0
    k = np.flatnonzero(positive[1:] != positive[:-1])
    rising = positive[k + 1]
    moments = _halve(quantity, grid[k], grid[k + 1], rising)
    inside = (moments >= start) & (moments < end)
    return moments[inside], rising[inside]


def _finer(quantity: Quantity, grid: Moments, values: Floats) -> tuple[Moments, Floats]:
    """Cut into parts the steps in which a crossing, or a pair of them, may lie."""
    size, positive = np.abs(values), values > 0
    near = (size[1:-1] < size[:-2]) & (size[1:-1] <= size[2:])
    split = positive[1:] != positive[:-1]
    split[:-1] |= near
    split[1:] |= near
    k = np.flatnonzero(split)
    parts = (grid[k + 1] - grid[k])[:, None] // _PARTS * np.arange(1, _PARTS)
    added = (grid[k][:, None] + parts).ravel()
    places = np.repeat(k + 1, _PARTS - 1)
    return np.insert(grid, places, added), np.insert(values, places, quantity(added))


def _halve(quantity: Quantity, low: Moments, high: Moments, rising: NDArray[np.bool_]) -> Moments:
    """Return the later end of each bracket once it is an instant long."""
    while low.size and (high - low).max() > _INSTANT:
        middle = low + (high - low) // 2
        past = (quantity(middle) > 0) == rising
        low, high = np.where(past, low, middle), np.where(past, middle, high)
    return high
