"""Features for the plan's points, set where the height field agrees."""

from collections.abc import Callable

import numpy as np

from navlib.waters.make.frame import Array, Frame
from navlib.waters.make.geojson import Json, feature, point
from navlib.waters.make.noise import box_mean
from navlib.waters.make.plan import Plan

_FLOATING = {"buoy": (3.0, 1e3), "anchorage": (3.0, 9.0), "mooring": (1.5, 5.0)}
"""Least and most depth (m) where each floats or lies."""
_BUILT = {"light", "beacon", "daymark", "church", "mast", "chimney", "cottage", "ruin"}


def best(frame: Frame, score: Array, allowed: np.ndarray) -> tuple[float, float]:
    """Return the place among those allowed that scores highest, in local metres."""
    j, i = np.unravel_index(np.argmax(np.where(allowed, score, -1e12)), score.shape)
    return float(frame.x[j, i]), float(frame.y[j, i])


def snap(
    frame: Frame, height: Array, openness: Array, kind: str, x: float, y: float
) -> tuple[float, float]:
    """Return the place near (x, y) that fits a feature of this kind, in local metres.

    `openness` is high where little land lies around.
    """
    away = frame.away(x, y)
    if kind == "summit":
        return _climb(frame, height, x, y)
    if kind in ("headland", "beach"):
        reach = 420 if kind == "headland" else 500
        coast = (
            (away < reach) & (height > frame.coast) & (around(height, np.minimum) <= frame.coast)
        )
        return best(frame, openness - away / 900.0 if kind == "headland" else -away, coast)
    if kind in ("skerry", "rock"):
        return best(frame, height - away / 200.0, away < 260)
    if kind in _FLOATING:
        least, most = _FLOATING[kind]
        return best(frame, -away, (height < -least) & (height > -most) & (away < 900))
    if kind in _BUILT:
        firm = height > frame.coast + (1.5 if kind in ("light", "beacon") else 3.0)
        return best(frame, -away, firm & (away < 600))
    return x, y


def _climb(frame: Frame, height: Array, x: float, y: float) -> tuple[float, float]:
    """Return the top that is reached from (x, y) by going to the highest node within 150 m."""
    while True:
        away = frame.away(x, y)
        top = best(frame, height, away < 150)
        if top == (x, y):
            return top
        x, y = top


def point_features(
    plan: Plan, frame: Frame, height: Array, lochs: list[tuple[float, Array]]
) -> list[Json]:
    """Return the plan's points, snapped, and its labels, as they stand."""
    openness = -box_mean(box_mean((height > frame.coast).astype(float), 9), 6)
    result: list[Json] = []
    places: dict[str, tuple[float, float]] = {}
    for key, name, kind, x, y, *more in plan.points:
        properties = dict(more[0]) if more else {}
        if "at" in properties:
            at = places[properties.pop("at")]
        else:
            at = snap(frame, height, openness, kind, x * 1000, y * 1000)
        places[key] = at
        if kind == "summit":
            properties["map_height"] = round(float(height[frame.node(*at)]) - frame.land_datum)
        if kind == "light":
            ground = frame.at(height, *at)
            properties["structure"] = round(properties["elevation"] + frame.coast - ground, 1)
        result.append(feature(key, name, kind, point(frame, *at), **properties))
    for key, name, kind, x, y, *more in plan.labels:
        geometry = point(frame, x * 1000, y * 1000)
        result.append(feature(key, name, kind, geometry, **(more[0] if more else {})))
    taken = list(places.values())
    dry = np.ones(height.shape, dtype=bool)
    for _, reach in lochs:
        dry &= reach > 1.35
    return result + _spot_heights(frame, height, dry, taken)


def _spot_heights(
    frame: Frame, height: Array, dry: np.ndarray, taken: list[tuple[float, float]]
) -> list[Json]:
    """Return heights of unnamed tops, the higher first, none within 550 m of another or a mark."""
    tops = (height >= around(height, np.maximum, 3)) & (height > frame.coast + 8) & dry
    tops &= (height - box_mean(height, 4) > 1.5) & (
        box_mean((height > frame.coast).astype(float), 3) > 0.99
    )
    nodes = np.flatnonzero(tops)
    order = nodes[np.argsort(-height.ravel()[nodes], kind="stable")]
    result: list[Json] = []
    for node in order.tolist():
        j, i = divmod(node, frame.columns)
        x, y = float(frame.x[j, i]), float(frame.y[j, i])
        if all((x - a) ** 2 + (y - b) ** 2 > 550.0**2 for a, b in taken):
            taken.append((x, y))
            level = round(float(height[j, i]) - frame.land_datum)
            key = f"spot-{len(result) + 1:02d}"
            result.append(feature(key, "", "spot height", point(frame, x, y), map_height=level))
    return result


def around(height: Array, which: Callable[[Array, Array], Array], reach: int = 1) -> Array:
    """Return the highest or lowest (np.maximum, np.minimum) of the nodes around each node."""
    result = height
    for axis in (0, 1):
        line = result
        for shift in range(1, reach + 1):
            result = which(result, np.roll(line, shift, axis=axis))
            result = which(result, np.roll(line, -shift, axis=axis))
    return result
