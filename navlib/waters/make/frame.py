"""The frame that the maker works in: metres east and north of the south-west corner."""

import json
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Points = NDArray[np.float64]
"""Points as an array of shape (n, 2): x east, y north."""

PLAN: dict[str, Any] = json.loads((Path(__file__).parent / "plan.json").read_text("utf-8"))
FOLDER = Path(__file__).parents[1] / "data" / PLAN["water"]
_SETTINGS: dict[str, Any] = json.loads((FOLDER / "settings.json").read_text("utf-8"))
_HEIGHTS = _SETTINGS["heights"]
WEST, SOUTH, SPACING = (float(_HEIGHTS[name]) for name in ("west", "south", "spacing"))
ZERO, STEP = _HEIGHTS["zero"], _HEIGHTS["step"]
"""A height of 0 m is written as ZERO, and each unit is STEP metres."""
COAST: float = _SETTINGS["levels"]["mhws"]
"""Height of the coastline above chart datum: mean high water springs."""
LAND_DATUM: float = _SETTINGS["levels"]["msl"]
"""Height of the land map's zero above chart datum."""

COLUMNS = int(PLAN["width"] / SPACING) + 1
ROWS = int(PLAN["height"] / SPACING) + 1
X, Y = np.meshgrid(np.arange(COLUMNS) * SPACING, np.arange(ROWS) * SPACING)


def metres(points_km: list[list[float]]) -> Points:
    """Return plan positions (km) in metres."""
    return np.array(points_km, dtype=float) * 1000.0


def bilinear(field: Array, x: Array, y: Array) -> Array:
    """Return `field` between its nodes."""
    c = np.clip(np.asarray(x) / SPACING, 0, field.shape[1] - 1.001)
    r = np.clip(np.asarray(y) / SPACING, 0, field.shape[0] - 1.001)
    i, j = c.astype(int), r.astype(int)
    u, v = c - i, r - j
    south = field[j, i] * (1 - u) + field[j, i + 1] * u
    north = field[j + 1, i] * (1 - u) + field[j + 1, i + 1] * u
    return south * (1 - v) + north * v
