"""Features with an extent: lochs, houses and the plan's areas."""

from typing import Any

import numpy as np
from contourpy import contour_generator

from navlib.waters.make.frame import Array, Frame, metres
from navlib.waters.make.geojson import Json, area, feature
from navlib.waters.make.outline import corner_cut
from navlib.waters.make.plan import Plan
from navlib.waters.make.routes import thin

_TURN = np.radians(np.arange(0, 361, 7.5))
_CIRCLE = np.stack([np.sin(_TURN), np.cos(_TURN)], axis=1)


def _houses(
    plan: Plan, frame: Frame, height: Array, ways: list[Json], rng: np.random.Generator
) -> list[Json]:
    """Return each village's houses, small oblongs set along its roads and off them."""
    roads = [
        np.array(w["geometry"]["coordinates"]) - [frame.west, frame.south]
        for w in ways
        if w["properties"]["kind"] in ("road", "track")
    ]
    road = np.vstack(roads or [metres([[x, y] for _, x, y, *_ in plan.villages])])
    if not plan.villages:
        return []
    result = []
    for key, x, y, radius, count in plan.villages:
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
            if frame.at(height, px, py) < frame.coast + 1.5:
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
            if min(frame.at(height, *corner) for corner in corners) > frame.highest:
                houses.append([frame.grid(np.array(corners))])
        geometry = {"type": "MultiPolygon", "coordinates": houses}
        result.append(feature(key, "", "buildings", geometry))
    return result


def area_features(
    plan: Plan,
    frame: Frame,
    height: Array,
    lochs: list[tuple[float, Array]],
    ways: list[Json],
    rng: np.random.Generator,
) -> list[Json]:
    """Return lochs, the plan's areas and houses."""
    result = []
    for n, (level, reach) in enumerate(lochs, 1):
        rings = [
            np.asarray(r, dtype=float)
            for r in contour_generator(frame.x, frame.y, reach).lines(1.0)
        ]
        ring = max(rings, key=len)
        ring = thin(corner_cut(ring, closed=False), 2.0)
        ring[-1] = ring[0]
        result.append(
            feature(
                f"loch-{n}",
                "",
                "loch",
                area(frame, ring),
                map_height=round(level - frame.land_datum),
            )
        )
    for key, name, kind, outline, *more in plan.areas:
        if isinstance(outline[1], int | float):
            ring = metres(outline[:1]) + outline[1] * 1000 * _CIRCLE
        else:
            ring = metres([*outline, outline[0]])
        result.append(feature(key, name, kind, area(frame, ring), **(more[0] if more else {})))
    return result + _houses(plan, frame, height, ways, rng)
