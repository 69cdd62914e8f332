"""The height field: land and sea bed as one surface, from which everything on a sheet derives."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray
from PIL import Image

from navlib.waters.errors import OutsideWaters, WatersError


@dataclass(frozen=True, eq=False)
class HeightField:
    """Heights in metres above chart datum at square nodes, the southern row first.

    `west` and `south` are the grid position of the first node and `spacing` the way to the next,
    in metres.
    """

    values: NDArray[np.float64]
    west: float
    south: float
    spacing: float

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """West, south, east and north limits in grid metres."""
        rows, columns = self.values.shape
        return (
            self.west,
            self.south,
            self.west + (columns - 1) * self.spacing,
            self.south + (rows - 1) * self.spacing,
        )

    def at(self, easting: ArrayLike, northing: ArrayLike) -> float | NDArray[np.float64]:
        """Return the height (m above chart datum) at a place, bilinear between nodes.

        Numbers in, a float out; arrays of one shape in, an array out. Raises OutsideWaters.
        """
        e, n = np.asarray(easting, float), np.asarray(northing, float)
        west, south, east, north = self.bounds
        off = (e < west) | (e > east) | (n < south) | (n > north) | np.isnan(e) | np.isnan(n)
        if off.any():
            worst = [np.broadcast_to(v, off.shape)[off].flat[0] for v in (e, n)]
            raise OutsideWaters(
                f"This water runs from easting {west:g} to {east:g} and northing {south:g} to "
                f"{north:g} (metres); {worst[0]:g}, {worst[1]:g} is off it."
            )
        rows, columns = self.values.shape
        x, y = (e - west) / self.spacing, (n - south) / self.spacing
        i = np.minimum(x.astype(int), columns - 2)
        j = np.minimum(y.astype(int), rows - 2)
        u, v = x - i, y - j
        low = self.values[j, i] * (1 - u) + self.values[j, i + 1] * u
        high = self.values[j + 1, i] * (1 - u) + self.values[j + 1, i + 1] * u
        result = low * (1 - v) + high * v
        return float(result) if result.ndim == 0 else result

    def window(
        self, west: float, south: float, east: float, north: float
    ) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
        """Return eastings, northings and heights of the nodes that cover these bounds."""
        rows, columns = self.values.shape
        i0 = max(0, int(np.floor((west - self.west) / self.spacing)))
        i1 = min(columns, int(np.ceil((east - self.west) / self.spacing)) + 1)
        j0 = max(0, int(np.floor((south - self.south) / self.spacing)))
        j1 = min(rows, int(np.ceil((north - self.south) / self.spacing)) + 1)
        eastings = self.west + np.arange(i0, i1) * self.spacing
        northings = self.south + np.arange(j0, j1) * self.spacing
        return eastings, northings, self.values[j0:j1, i0:i1]


def read_heights(
    path: Path, west: float, south: float, spacing: float, zero: float, step: float
) -> HeightField:
    """Return the field in a 16-bit grey picture: height = (value - `zero`) x `step` metres.

    Raises WatersError if the picture is of another kind.
    """
    heights = (read_grey(path)[::-1].astype(float) - zero) * step
    heights.setflags(write=False)
    return HeightField(heights, float(west), float(south), float(spacing))


def read_grey(path: Path) -> NDArray[np.integer]:
    """Return the numbers of a 16-bit grey picture, north row first; WatersError for another kind."""
    try:
        with Image.open(path) as picture:
            mode, values = picture.mode, np.asarray(picture)
    except OSError:
        raise WatersError(f"{path.name} cannot be read as a picture; expected a PNG.") from None
    if not mode.startswith("I;16") and mode != "I":
        raise WatersError(
            f"{path.name} is a picture of mode {mode}; expected 16-bit grey (one number a node)."
        )
    return values
