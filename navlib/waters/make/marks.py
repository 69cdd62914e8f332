"""Features for the plan's points, lines and areas, set where the height field agrees."""

from typing import Any

import numpy as np
from contourpy import contour_generator

from navlib.waters.make.erosion import burns
from navlib.waters.make.frame import (
    COAST,
    COLUMNS,
    LAND_DATUM,
    PLAN,
    SOUTH,
    SPACING,
    WEST,
    Array,
    Points,
    X,
    Y,
    bilinear,
    metres,
)
from navlib.waters.make.noise import box_mean
from navlib.waters.make.outline import corner_cut, dense
from navlib.waters.make.routes import relax, thin, way_through

Json = dict[str, Any]
_BUILT = {"light", "beacon", "daymark", "church", "mast", "chimney", "cottage", "ruin"}


def feature(key: str, name: str, kind: str, geometry: Json, **more: Any) -> Json:
    """Return a GeoJSON feature."""
    properties = {"id": key, "name": name, "kind": kind, **more}
    return {"type": "Feature", "properties": properties, "geometry": geometry}


def grid(points: Points) -> list[list[float]]:
    """Return local positions as National Grid metres, to the metre."""
    return [[round(float(x) + WEST), round(float(y) + SOUTH)] for x, y in points]


def _point(x: float, y: float) -> Json:
    return {"type": "Point", "coordinates": grid(np.array([[x, y]]))[0]}


def _line(points: Points) -> Json:
    return {"type": "LineString", "coordinates": grid(points)}


def _best(score: Array, allowed: np.ndarray) -> tuple[float, float]:
    j, i = np.unravel_index(np.argmax(np.where(allowed, score, -1e12)), score.shape)
    return float(X[j, i]), float(Y[j, i])


def snap(height: Array, openness: Array, kind: str, x: float, y: float) -> tuple[float, float]:
    """Return the place near (x, y) that fits a feature of this kind, in local metres.

    `openness` is high where little land lies around.
    """
    away = np.sqrt((X - x) ** 2 + (Y - y) ** 2)
    if kind == "summit":
        return _climb(height, x, y)
    if kind in ("headland", "beach"):
        reach = 420 if kind == "headland" else 500
        coast = (away < reach) & (height > COAST) & (_around(height, np.minimum) <= COAST)
        return _best(openness - away / 900.0 if kind == "headland" else -away, coast)
    if kind in ("skerry", "rock"):
        return _best(height - away / 200.0, away < 260)
    if kind == "buoy":
        return _best(-away, (height < -3.0) & (away < 900))
    if kind in _BUILT:
        firm = height > COAST + (1.5 if kind in ("light", "beacon") else 3.0)
        return _best(-away, firm & (away < 600))
    return x, y


def _climb(height: Array, x: float, y: float) -> tuple[float, float]:
    """Return the top that is reached from (x, y) by going to the highest node within 150 m."""
    while True:
        away = np.sqrt((X - x) ** 2 + (Y - y) ** 2)
        top = _best(height, away < 150)
        if top == (x, y):
            return top
        x, y = top


def point_features(height: Array, lochs: list[tuple[float, Array]]) -> list[Json]:
    """Return the plan's points, snapped, and its labels, as they stand."""
    openness = -box_mean(box_mean((height > COAST).astype(float), 9), 6)
    result: list[Json] = []
    places: dict[str, tuple[float, float]] = {}
    for key, name, kind, x, y, *more in PLAN["points"]:
        properties = dict(more[0]) if more else {}
        if key == "tusk-beacon":
            at = places["tusk-rock"]
        else:
            at = snap(height, openness, kind, x * 1000, y * 1000)
        places[key] = at
        if kind == "summit":
            j, i = int(at[1] / SPACING), int(at[0] / SPACING)
            properties["map_height"] = round(float(height[j, i]) - LAND_DATUM)
        if kind == "light":
            ground = float(bilinear(height, np.array(at[0]), np.array(at[1])))
            properties["structure"] = round(properties["elevation"] + COAST - ground, 1)
        result.append(feature(key, name, kind, _point(*at), **properties))
    for key, name, kind, x, y, *more in PLAN["labels"]:
        geometry = _point(x * 1000, y * 1000)
        result.append(feature(key, name, kind, geometry, **(more[0] if more else {})))
    taken = [at for key, at in places.items()]
    dry = np.all([reach > 1.35 for _, reach in lochs], axis=0)
    return result + _spot_heights(height, dry, taken)


def _spot_heights(height: Array, dry: np.ndarray, taken: list[tuple[float, float]]) -> list[Json]:
    """Return heights of unnamed tops, the higher first, none within 550 m of another or a mark."""
    tops = (height >= _around(height, np.maximum, 3)) & (height > COAST + 8) & dry
    tops &= (height - box_mean(height, 4) > 1.5) & (
        box_mean((height > COAST).astype(float), 3) > 0.99
    )
    nodes = np.flatnonzero(tops)
    order = nodes[np.argsort(-height.ravel()[nodes], kind="stable")]
    result: list[Json] = []
    for node in order.tolist():
        j, i = divmod(node, COLUMNS)
        x, y = float(X[j, i]), float(Y[j, i])
        if all((x - a) ** 2 + (y - b) ** 2 > 550.0**2 for a, b in taken):
            taken.append((x, y))
            level = round(float(height[j, i]) - LAND_DATUM)
            key = f"spot-{len(result) + 1:02d}"
            result.append(feature(key, "", "spot height", _point(x, y), map_height=level))
    return result


def _around(height: Array, which: Any, reach: int = 1) -> Array:
    """Return the highest or lowest (np.maximum, np.minimum) of the nodes around each node."""
    result = height
    for axis in (0, 1):
        line = result
        for shift in range(1, reach + 1):
            result = which(result, np.roll(line, shift, axis=axis))
            result = which(result, np.roll(line, -shift, axis=axis))
    return result


def _joined(end: Points, made: list[Points]) -> Points:
    """Return the end of a way, moved onto a way that is there already if one is near."""
    for way in made:
        off = way - end
        away = (off * off).sum(axis=1)
        if away.min() < 260.0**2:
            return way[int(np.argmin(away))]
    return end


def _quay(height: Array, x: float, y: float) -> Points:
    """Return a quay's line from firm ground, the nearest there is, to its head at (x, y)."""
    away = np.sqrt((X - x) ** 2 + (Y - y) ** 2)
    root = _best(-away, (height > COAST + 0.5) & (away < 900))
    return np.array([root, (x, y)])


def line_features(height: Array, rng: np.random.Generator) -> list[Json]:
    """Return roads, tracks and paths by the easiest ground, burns, and the plan's other lines."""
    result: list[Json] = []
    made: list[Points] = []
    for key, kind, places in PLAN["ways"]:
        stops = metres(places)
        for end in (0, -1):
            stops[end] = _joined(stops[end], made)
        made.append(way_through(height, stops, kind))
        result.append(feature(key, "", kind, _line(made[-1])))
    result.append(feature("bridge-road", "", "bridge road", _line(metres(PLAN["bridge"]))))
    spots = {key: (x * 1000, y * 1000) for key, _, _, x, y, *_ in PLAN["points"]}
    for key, jetty in PLAN["quays"]:
        result.append(feature(key, "", "quay", _line(_quay(height, *spots[jetty]))))
    for key, name, kind, stops in PLAN["lines"]:
        line = metres(stops)
        result.append(feature(key, name, kind, _line(line)))
    for n, line in enumerate(_burns(height, rng), 1):
        result.append(feature(f"burn-{n:02d}", "", "burn", _line(line)))
    return result


def _burns(height: Array, rng: np.random.Generator) -> list[Points]:
    """Return the burns, longest first; one that comes near a longer one ends on it."""
    courses = burns(height, height > COAST, least_area=320.0, rng=rng)
    courses.sort(key=len, reverse=True)
    near: dict[int, int] = {}  # node: the number of the burn that it is near
    kept: list[Points] = []
    for course in courses:
        end = next((k for k, node in enumerate(course) if node in near), None)
        nodes = np.array(course[: end and end + 1])
        if len(nodes) < 14:
            continue
        line = np.stack([nodes % COLUMNS, nodes // COLUMNS], axis=1) * SPACING
        line = thin(corner_cut(relax(line, 5), closed=False), 3.0)
        if end is not None:
            other = dense(kept[near[course[end]]], 8.0)
            line[-1] = other[int(np.argmin(((other - line[-1]) ** 2).sum(axis=1)))]
        for dj in range(-3, 4):
            for di in range(-3, 4):
                for node in nodes.tolist():
                    near.setdefault(node + dj * COLUMNS + di, len(kept))
        kept.append(line)
    return kept


def _houses(height: Array, ways: list[Json], rng: np.random.Generator) -> list[Json]:
    """Return each village's houses, small oblongs set along its roads and off them."""
    road = np.vstack(
        [
            np.array(w["geometry"]["coordinates"]) - [WEST, SOUTH]
            for w in ways
            if w["properties"]["kind"] in ("road", "track")
        ]
    )
    result = []
    for key, x, y, radius, count in PLAN["villages"]:
        houses: list[Any] = []
        middles: list[tuple[float, float]] = []
        for u, v, w, turn in rng.random((60 * count, 4)).tolist():
            if len(houses) == count:
                break
            px, py = (x + (2 * u - 1) * radius) * 1000, (y + (2 * v - 1) * radius) * 1000
            off = road - [px, py]
            away = np.sqrt((off * off).sum(axis=1))
            near = int(np.argmin(away))
            if not 24 < away[near] < 24 + 46 * w + 30 * (count < 10):
                continue
            if bilinear(height, np.array(px), np.array(py)) < COAST + 1.5:
                continue
            if any((px - a) ** 2 + (py - b) ** 2 < 34.0**2 for a, b in middles):
                continue
            middles.append((px, py))
            along = off[near] / away[near]
            along = along + (np.array([-along[1], along[0]]) * (turn - 0.5) * 0.4)
            along = along / np.sqrt((along * along).sum())
            across = np.array([-along[1], along[0]])
            half_long, half_wide = 8 + 7 * w, 5.0 + 2 * turn
            corners = [
                [px, py] + sx * half_wide * along + sy * half_long * across
                for sx, sy in ((1, 1), (1, -1), (-1, -1), (-1, 1), (1, 1))
            ]
            houses.append([grid(np.array(corners))])
        geometry = {"type": "MultiPolygon", "coordinates": houses}
        result.append(feature(key, "", "buildings", geometry))
    return result


def area_features(
    height: Array, lochs: list[tuple[float, Array]], ways: list[Json], rng: np.random.Generator
) -> list[Json]:
    """Return lochs, the fish farm and houses."""
    result = []
    for n, (level, reach) in enumerate(lochs, 1):
        rings = [np.asarray(r, dtype=float) for r in contour_generator(X, Y, reach).lines(1.0)]
        ring = max(rings, key=len)
        ring = thin(corner_cut(ring, closed=False), 2.0)
        ring[-1] = ring[0]
        geometry = {"type": "Polygon", "coordinates": [grid(ring)]}
        result.append(
            feature(f"loch-{n}", "", "loch", geometry, map_height=round(level - LAND_DATUM))
        )
    for key, name, kind, corners in PLAN["areas"]:
        ring = metres([*corners, corners[0]])
        geometry = {"type": "Polygon", "coordinates": [grid(ring)]}
        result.append(feature(key, name, kind, geometry))
    return result + _houses(height, ways, rng)
