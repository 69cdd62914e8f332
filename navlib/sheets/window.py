"""Where a place lies on a sheet: a window straight on the grid, or one on a Mercator chart.

Places are easting and northing in metres on the water's own grid, whatever the sheet; spots on the
sheet are millimetres from its top left corner, y downwards.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray
from pyproj import Proj

from navlib.grids import Grid, from_grid, to_grid

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Box:
    """A rectangle on the sheet in millimetres from its top left corner, y downwards."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Millimetres from left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Millimetres from top to bottom."""
        return self.bottom - self.top

    @property
    def middle(self) -> tuple[float, float]:
        """The spot half-way across and down."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def overlaps(self, other: "Box", gap: float = 0.0) -> bool:
        """Return whether two boxes come nearer to each other than `gap`."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def within(self, other: "Box") -> bool:
        """Return whether this box lies wholly in the other."""
        return (
            other.left <= self.left
            and self.right <= other.right
            and other.top <= self.top
            and self.bottom <= other.bottom
        )

    def holds(self, x: float, y: float, inset: float = 0.0) -> bool:
        """Return whether a spot lies in the box, at least `inset` from its edge."""
        return (
            self.left + inset <= x <= self.right - inset
            and self.top + inset <= y <= self.bottom - inset
        )


class Window(Protocol):
    """Part of a piece of water at a scale, in a frame on a sheet.

    `west`, `south`, `east` and `north` bound it on the grid in metres.
    """

    @property
    def west(self) -> float:
        """The least easting in the frame."""

    @property
    def south(self) -> float:
        """The least northing in the frame."""

    @property
    def east(self) -> float:
        """The greatest easting in the frame."""

    @property
    def north(self) -> float:
        """The greatest northing in the frame."""

    @property
    def scale(self) -> int:
        """The denominator of the scale fraction."""

    @property
    def frame(self) -> Box:
        """The frame on the sheet, in millimetres."""

    def place(self, easting: Any, northing: Any) -> tuple[Any, Any]:
        """Return x and y in millimetres on the sheet of a place on the grid in metres."""

    def grid_at(self, x_mm: Any, y_mm: Any) -> tuple[Any, Any]:
        """Return easting and northing in metres of a spot on the sheet."""


def spread(x: Array, y: Array, exact: Any) -> tuple[Array, Array]:
    """Return `exact(x, y)` (two arrays) over a lattice, worked out at some nodes, linear between.

    `x` and `y` rise. Nodes are 16 apart: over 400 m of ground a map projection bends by a
    centimetre or less.
    """

    def some(values: Array) -> Any:
        count = max(2, (len(values) - 1) // 16 + 2)
        return np.unique(np.linspace(0, len(values) - 1, count).astype(int))

    i, j = some(x), some(y)
    at = np.clip(np.searchsorted(y[j], y) - 1, 0, len(j) - 2)
    t = ((y - y[j][at]) / (y[j][at + 1] - y[j][at]))[:, None]
    result = []
    for values in exact(*np.meshgrid(x[i], y[j])):
        rows = np.array([np.interp(x, x[i], row) for row in values])
        result.append(rows[at] * (1 - t) + rows[at + 1] * t)
    return result[0], result[1]


@dataclass(frozen=True)
class GridWindow:
    """A window of the land map: grid lines run up and down and straight across."""

    west: float
    south: float
    east: float
    north: float
    scale: int
    frame: Box

    def place(self, easting: Any, northing: Any) -> tuple[Any, Any]:
        """Return x and y in millimetres on the sheet of a place on the grid in metres."""
        mm = 1000.0 / self.scale
        return (
            self.frame.left + (easting - self.west) * mm,
            self.frame.top + (self.north - northing) * mm,
        )

    def grid_at(self, x_mm: Any, y_mm: Any) -> tuple[Any, Any]:
        """Return easting and northing in metres of a spot on the sheet."""
        metres = self.scale / 1000.0
        return (
            self.west + (x_mm - self.frame.left) * metres,
            self.north - (y_mm - self.frame.top) * metres,
        )


@dataclass(frozen=True)
class MercatorWindow:
    """A window of the sea chart: meridians run up and down, parallels straight across.

    The frame's middle is the place (`lat`, `lon`), WGS 84 degrees. The scale is true at latitude
    `true_at`; elsewhere it varies as on every Mercator chart. A straight line is a rhumb line.
    Projection: pyproj's ellipsoidal Mercator (Snyder 1987, section 7).
    """

    grid: Grid
    lat: float
    lon: float
    true_at: float
    scale: int
    frame: Box

    @cached_property
    def _mercator(self) -> Proj:
        return Proj(proj="merc", lat_ts=self.true_at, lon_0=self.lon, ellps="WGS84")

    @cached_property
    def _middle_northing(self) -> float:
        return float(self._mercator(self.lon, self.lat)[1])

    def at_lat_lon(self, lat: Any, lon: Any) -> tuple[Any, Any]:
        """Return x and y in millimetres on the sheet of a place in degrees (WGS 84)."""
        x, y = self._mercator(lon, lat)
        mid_x, mid_y = self.frame.middle
        mm = 1000.0 / self.scale
        return (
            mid_x + np.asarray(x) * mm,
            mid_y - (np.asarray(y) - self._middle_northing) * mm,
        )

    def lat_lon_at(self, x_mm: Any, y_mm: Any) -> tuple[Any, Any]:
        """Return latitude and longitude in degrees (WGS 84) of a spot on the sheet."""
        metres = self.scale / 1000.0
        mid_x, mid_y = self.frame.middle
        x = (np.asarray(x_mm, dtype=float) - mid_x) * metres
        y = (mid_y - np.asarray(y_mm, dtype=float)) * metres + self._middle_northing
        lon, lat = self._mercator(x, y, inverse=True)
        return lat, lon

    def place(self, easting: Any, northing: Any) -> tuple[Any, Any]:
        """Return x and y in millimetres on the sheet of a place on the grid in metres."""
        return self.at_lat_lon(*from_grid(easting, northing, self.grid))

    def grid_at(self, x_mm: Any, y_mm: Any) -> tuple[Any, Any]:
        """Return easting and northing in metres of a spot on the sheet."""
        return to_grid(*self.lat_lon_at(x_mm, y_mm), self.grid)

    @cached_property
    def _bounds(self) -> tuple[float, float, float, float]:
        f, along = self.frame, np.linspace(0.0, 1.0, 33)
        x = np.concatenate([f.left + f.width * along, f.left + f.width * along])
        y = np.concatenate([np.full(33, f.top), np.full(33, f.bottom)])
        x = np.concatenate([x, np.full(33, f.left), np.full(33, f.right)])
        y = np.concatenate([y, f.top + f.height * along, f.top + f.height * along])
        e, n = self.grid_at(x, y)
        return float(np.min(e)), float(np.min(n)), float(np.max(e)), float(np.max(n))

    @property
    def west(self) -> float:
        """The least easting in the frame."""
        return self._bounds[0]

    @property
    def south(self) -> float:
        """The least northing in the frame."""
        return self._bounds[1]

    @property
    def east(self) -> float:
        """The greatest easting in the frame."""
        return self._bounds[2]

    @property
    def north(self) -> float:
        """The greatest northing in the frame."""
        return self._bounds[3]
