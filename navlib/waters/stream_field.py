"""The streams of a piece of water: complex amplitudes of one half-daily wave over the grid."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

from navlib.waters.errors import WatersError
from navlib.waters.heights import HeightField, read_grey

Complex = NDArray[np.complex128]


@dataclass(frozen=True, eq=False)
class StreamField:
    """East and north amplitudes (m/s) of M2 at the middle of the west and south sides of cells.

    `amplitudes` has shape (2, rows + 1, columns + 1); 0 where a side is shut by land, and past the
    last cell. The phase counts from M2's high water at the standard port. The cells begin at the
    south-west node of `heights` and are `spacing` metres wide; ground above `level` has no stream.
    """

    amplitudes: Complex
    spacing: float
    heights: HeightField
    level: float

    def at(self, easting: ArrayLike, northing: ArrayLike) -> Complex:
        """Return the amplitudes (2, ...) at places: bilinear between the open sides, 0 on land.

        Raises OutsideWaters.
        """
        e, n = np.broadcast_arrays(np.asarray(easting, float), np.asarray(northing, float))
        sea = np.asarray(self.heights.at(e, n)) < self.level
        x, y = (e - self.heights.west) / self.spacing, (n - self.heights.south) / self.spacing
        known = self._known()
        both = [
            _between(self.amplitudes[0], known[0], x, y - 0.5),
            _between(self.amplitudes[1], known[1], x - 0.5, y),
        ]
        return np.where(sea, np.stack(both), 0)

    def _known(self) -> NDArray[np.bool_]:
        """Return which sides are open or shut against the sea; the rest lie inside land."""
        open_x, open_y = self.amplitudes != 0
        wet = open_x | open_y
        wet[:, :-1] |= open_x[:, 1:]
        wet[:-1] |= open_y[1:]
        known = np.stack([wet, wet])
        known[0, :, 1:] |= wet[:, :-1]
        known[1, 1:] |= wet[:-1]
        return known


def _between(
    field: Complex, known: NDArray[np.bool_], column: NDArray[np.float64], row: NDArray[np.float64]
) -> Complex:
    """Return the mean of the four values around, those that are known, by nearness."""
    rows, columns = field.shape
    i = np.clip(np.floor(column).astype(int), 0, columns - 2)
    j = np.clip(np.floor(row).astype(int), 0, rows - 2)
    u, v = np.clip(column - i, 0, 1), np.clip(row - j, 0, 1)
    total, weights = np.zeros(i.shape, complex), np.zeros(i.shape)
    for dj, along in ((0, 1 - v), (1, v)):
        for di, across in ((0, 1 - u), (1, u)):
            weight = along * across * known[j + dj, i + di]
            total += weight * field[j + dj, i + di]
            weights += weight
    return np.asarray(total / np.where(weights > 0, weights, 1))


def as_picture(amplitudes: Complex, step: float) -> NDArray[np.uint16]:
    """Return amplitudes as numbers of a 16-bit grey picture, `step` m/s each about 32768.

    Four panels one under another, north row first in each: the real and the imaginary part of the
    east amplitudes, then of the north ones.
    """
    panels = [part for field in amplitudes for part in (field.real, field.imag)]
    numbers = np.round(np.array(panels) / step) + 32768
    return numbers[:, ::-1].reshape(-1, numbers.shape[-1]).astype(np.uint16)


def read_streams(
    path: Path, step: float, spacing: float, heights: HeightField, level: float
) -> StreamField:
    """Return the field in a picture made by `as_picture`.

    Raises WatersError if it is of another kind or does not cover the height field.
    """
    numbers = read_grey(path)
    rows, columns = (int((n - 1) * heights.spacing / spacing) + 1 for n in heights.values.shape)
    if numbers.shape != (4 * rows, columns):
        raise WatersError(
            f"{path.name} should be 4 panels of {columns} by {rows} (one number a cell of "
            f"{spacing:g} m and one more), but is {numbers.shape[1]} by {numbers.shape[0]}: make "
            "it anew for this height picture."
        )
    panels = (numbers.astype(float) - 32768).reshape(4, rows, columns)[:, ::-1] * step
    amplitudes = panels[0::2] + 1j * panels[1::2]
    amplitudes.setflags(write=False)
    return StreamField(amplitudes, spacing, heights, level)
