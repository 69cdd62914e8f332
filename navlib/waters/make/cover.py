"""What lies on the ground: woods, and the walls of fields and hills."""

from typing import Any

import numpy as np
from contourpy import contour_generator

from navlib.waters.make.frame import Array, Frame, Points, metres
from navlib.waters.make.geojson import Json, feature, line
from navlib.waters.make.marks import around
from navlib.waters.make.noise import box_mean, fractal_noise
from navlib.waters.make.outline import corner_cut, dense
from navlib.waters.make.plan import Plan
from navlib.waters.make.routes import thin

_HIGHEST_WOOD = 110.0
"""Metres above the coast at which trees give up to the wind."""
_OPEN_ROUND = ("buildings", "cottage", "church", "chimney", "mast", "daymark", "ruin")
_LEAST_WOOD = 15_000.0
"""Square metres of the smallest piece of wood that is drawn."""


def _places(frame: Frame, features: list[Json], *kinds: str) -> Points:
    """Return all positions of features of these kinds, in local metres."""
    found: list[Any] = [[-1e6, -1e6]]  # somewhere, so that a distance from them is a number
    for one in features:
        if one["properties"]["kind"] in kinds:
            flat = np.array(_flat(one["geometry"]["coordinates"]))
            found.extend(flat - [frame.west, frame.south])
    return np.array(found)


def _flat(coordinates: Any) -> list[list[float]]:
    if not isinstance(coordinates[0], list):
        return [coordinates]
    return [place for part in coordinates for place in _flat(part)]


def _clear_of(frame: Frame, places: Points, metres_off: float) -> np.ndarray:
    """Return which nodes are at least so far from all of these places."""
    clear = np.ones(frame.x.shape, dtype=bool)
    reach = int(metres_off / frame.spacing) + 1
    for x, y in places[1:]:
        j, i = frame.node(x, y)
        box = (slice(max(0, j - reach), j + reach + 2), slice(max(0, i - reach), i + reach + 2))
        clear[box] &= (frame.x[box] - x) ** 2 + (frame.y[box] - y) ** 2 > metres_off**2
    return clear


def _size(ring: Points) -> float:
    """Return the area in a ring in square metres, positive if it runs anticlockwise."""
    x, y = (ring - ring[0]).T
    return float(0.5 * (x[:-1] * y[1:] - x[1:] * y[:-1]).sum())


def woods(plan: Plan, frame: Frame, height: Array, features: list[Json]) -> list[Json]:
    """Return the plan's woods, grown in low, gentle hollows away from houses and marks."""
    rng = np.random.default_rng([plan.seed, 2])
    south, east = np.gradient(height, frame.spacing)
    ground = height - frame.coast
    fit = (ground > 4.0) & (ground < _HIGHEST_WOOD) & (south**2 + east**2 < 0.35**2)
    fit &= _clear_of(frame, _places(frame, features, *_OPEN_ROUND), 60.0)
    fit &= _clear_of(frame, _places(frame, features, "loch"), 30.0)
    hollow = np.clip((box_mean(height, 14) - height) / 22.0, -0.7, 0.7)
    ragged = 0.7 * fractal_noise(frame, rng, 380.0, 4) + hollow
    dry = around(ground, np.minimum) > 2.0
    result = []
    for key, x, y, radius in plan.woods:
        t = frame.away(x * 1000, y * 1000) / (radius * 1000)
        grown = box_mean(np.where(fit, 0.45 - t * t + ragged, -0.3), 1)
        grown = np.where(dry, grown, -0.3)
        rings = [np.asarray(r) for r in contour_generator(frame.x, frame.y, grown).lines(0.0)]
        largest = max(rings, key=lambda ring: abs(_size(ring)))
        turn = 1 if _size(largest) > 0 else -1  # a hole runs the other way round
        kept = [ring for ring in rings if turn * _size(ring) >= _LEAST_WOOD]
        parts = [[frame.grid(thin(ring, 4.0))] for ring in kept]
        geometry = {"type": "MultiPolygon", "coordinates": parts}
        result.append(feature(key, "", "wood", geometry))
    return result


def walls(plan: Plan, frame: Frame, height: Array, features: list[Json]) -> list[Json]:
    """Return the plan's walls and those round its fields, with gaps at houses and ways."""
    rng = np.random.default_rng([plan.seed, 3])
    ways = [dense(part, 8.0) for part in _parts(frame, features, "road", "track", "burn", "loch")]
    in_the_way = np.vstack([*ways, _places(frame, features, "buildings")])
    drawn = [(key, corner_cut(metres(places), False, 3), 7.0) for key, places in plan.walls]
    for number, (x, y, long, wide, slope, along, across) in enumerate(plan.fields, 1):
        for n, wall in enumerate(_lattice(rng, x, y, long, wide, slope, along, across), 1):
            drawn.append((f"field-{number}-{n:02d}", wall, 16.0))
    result = []
    for key, wall, gap in drawn:
        for n, piece in enumerate(_pieces(frame, height, wall, in_the_way, gap), 1):
            result.append(feature(f"{key}-{n}", "", "wall", line(frame, piece)))
    return result


def _parts(frame: Frame, features: list[Json], *kinds: str) -> list[Points]:
    """Return the lines and rings of features of these kinds, in local metres."""
    found = []
    for one in features:
        if one["properties"]["kind"] in kinds:
            given = one["geometry"]["coordinates"]
            lines = [given] if one["geometry"]["type"] == "LineString" else given
            found += [np.array(part) - [frame.west, frame.south] for part in lines]
    return found


def _lattice(
    rng: np.random.Generator,
    x: float,
    y: float,
    long: float,
    wide: float,
    slope: float,
    along: int,
    across: int,
) -> list[Points]:
    """Return the walls of a block of fields, set a little out of true."""
    axis = np.array([1.0, slope]) / np.sqrt(1.0 + slope * slope)
    side = np.array([-axis[1], axis[0]])
    u, v = np.meshgrid(np.arange(along + 1) / along - 0.5, np.arange(across + 1) / across - 0.5)
    u = u + (rng.random(u.shape) - 0.5) * 0.36 / along
    v = v + (rng.random(v.shape) - 0.5) * 0.36 / across
    places = np.array([x, y]) + u[..., None] * long * axis + v[..., None] * wide * side
    return [*(places * 1000.0), *(places.transpose(1, 0, 2) * 1000.0)]


def _pieces(
    frame: Frame, height: Array, wall: Points, in_the_way: Points, gap: float
) -> list[Points]:
    """Return the stretches of a wall that stand on firm ground clear of houses and ways."""
    steps = dense(wall, 10.0)
    stands = np.array(
        [
            frame.coast + 2.5 < frame.at(height, x, y)
            and ((in_the_way - [x, y]) ** 2).sum(axis=1).min() > gap * gap
            for x, y in steps
        ]
    )
    edges = np.flatnonzero(np.diff(np.concatenate([[0], stands.astype(int), [0]])))
    runs = [steps[a:b] for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > 6]
    return [thin(run, 1.5) for run in runs]
