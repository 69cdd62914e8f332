"""The frame that the maker works in: metres east and north of the south-west corner."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Points = NDArray[np.float64]
"""Points as an array of shape (n, 2): x east, y north."""


@dataclass(frozen=True, eq=False)
class Frame:
    """Square nodes `spacing` metres apart, the first at grid position `west`, `south`.

    Metres above chart datum: `coast` is the height of the coastline (mean high water springs),
    `highest` that of the highest tide, `land_datum` that of the land map's zero (mean sea level).
    """

    west: float
    south: float
    spacing: float
    columns: int
    rows: int
    coast: float
    highest: float
    land_datum: float

    @cached_property
    def x(self) -> Array:
        """Metres east of the corner, at every node."""
        return np.tile(np.arange(self.columns) * self.spacing, (self.rows, 1))

    @cached_property
    def y(self) -> Array:
        """Metres north of the corner, at every node."""
        return np.tile((np.arange(self.rows) * self.spacing)[:, None], (1, self.columns))

    @property
    def size(self) -> tuple[float, float]:
        """Metres from the first node to the last, east and north."""
        return (self.columns - 1) * self.spacing, (self.rows - 1) * self.spacing

    def away(self, x: float, y: float) -> Array:
        """Return each node's distance from a place, in metres."""
        return np.sqrt((self.x - x) ** 2 + (self.y - y) ** 2)

    def away_from_line(self, line: list[list[float]]) -> Array:
        """Return each node's distance (m) from a line through places (km)."""
        away = np.full_like(self.x, 1e7)
        for (ax, ay), (bx, by) in zip(metres(line[:-1]), metres(line[1:]), strict=True):
            dx, dy = bx - ax, by - ay
            t = np.clip(((self.x - ax) * dx + (self.y - ay) * dy) / (dx * dx + dy * dy), 0, 1)
            away = np.minimum(
                away, np.sqrt((self.x - ax - t * dx) ** 2 + (self.y - ay - t * dy) ** 2)
            )
        return away

    def at(self, field: Array, x: float, y: float) -> float:
        """Return `field` at a place between its nodes."""
        return float(bilinear(field, np.array(x / self.spacing), np.array(y / self.spacing)))

    def node(self, x: float, y: float) -> tuple[int, int]:
        """Return the row and column of the node at or south-west of a place."""
        return int(y / self.spacing), int(x / self.spacing)

    def grid(self, points: Points) -> list[list[float]]:
        """Return local positions as grid metres, to the metre."""
        return [[round(float(x) + self.west), round(float(y) + self.south)] for x, y in points]


def metres(points_km: list[list[float]]) -> Points:
    """Return plan positions (km) in metres."""
    return np.array(points_km, dtype=float) * 1000.0


def bilinear(field: Array, column: Array, row: Array) -> Array:
    """Return `field` between its nodes, at fractions of columns and rows."""
    c = np.clip(column, 0, field.shape[1] - 1.001)
    r = np.clip(row, 0, field.shape[0] - 1.001)
    i, j = c.astype(int), r.astype(int)
    u, v = c - i, r - j
    south = field[j, i] * (1 - u) + field[j, i + 1] * u
    north = field[j + 1, i] * (1 - u) + field[j + 1, i + 1] * u
    return south * (1 - v) + north * v
