"""Features for the plan's ways and other lines, and the burns that the ground makes."""

import numpy as np

from navlib.waters.make.erosion import burns
from navlib.waters.make.frame import Array, Frame, Points, metres
from navlib.waters.make.geojson import Json, feature, line
from navlib.waters.make.marks import best
from navlib.waters.make.outline import corner_cut, dense
from navlib.waters.make.plan import Plan
from navlib.waters.make.routes import relax, thin, way_through


def _joined(end: Points, made: list[Points]) -> Points:
    """Return the end of a way, moved onto a way that is there already if one is near."""
    for way in made:
        off = way - end
        away = (off * off).sum(axis=1)
        if away.min() < 260.0**2:
            return way[int(np.argmin(away))]
    return end


def _quay(frame: Frame, height: Array, x: float, y: float) -> Points:
    """Return a quay's line from firm ground, the nearest there is, to its head at (x, y)."""
    away = frame.away(x, y)
    root = best(frame, -away, (height > frame.coast + 0.5) & (away < 900))
    return np.array([root, (x, y)])


def line_features(plan: Plan, frame: Frame, height: Array, rng: np.random.Generator) -> list[Json]:
    """Return roads, tracks and paths by the easiest ground, burns, and the plan's other lines."""
    result: list[Json] = []
    made: list[Points] = []
    for key, kind, places in plan.ways:
        stops = metres(places)
        if kind != "bridge road":
            for end in (0, -1):
                stops[end] = _joined(stops[end], made)
            stops = way_through(frame, height, stops, kind)
        made.append(stops)
        result.append(feature(key, "", kind, line(frame, stops)))
    spots = {key: (x * 1000, y * 1000) for key, _, _, x, y, *_ in plan.points}
    for key, jetty in plan.quays:
        result.append(feature(key, "", "quay", line(frame, _quay(frame, height, *spots[jetty]))))
    for key, name, kind, stops, *more in plan.lines:
        geometry = line(frame, metres(stops))
        result.append(feature(key, name, kind, geometry, **(more[0] if more else {})))
    for n, course in enumerate(_burns(frame, height, rng), 1):
        result.append(feature(f"burn-{n:02d}", "", "burn", line(frame, course)))
    return result


def lay_bys(plan: Plan, lines: list[Json]) -> list[Json]:
    """Return the plan's lay-bys, each at the end of its way."""
    ends = {way["properties"]["id"]: way["geometry"]["coordinates"][-1] for way in lines}
    return [
        feature(key, "", "lay-by", {"type": "Point", "coordinates": ends[way]})
        for key, way in plan.lay_bys
    ]


def _burns(frame: Frame, height: Array, rng: np.random.Generator) -> list[Points]:
    """Return the burns, longest first; one that comes near a longer one ends on it."""
    courses = burns(height, height > frame.coast, least_area=320.0, rng=rng)
    courses.sort(key=len, reverse=True)
    near: dict[int, int] = {}  # node: the number of the burn that it is near
    kept: list[Points] = []
    for course in courses:
        end = next((k for k, node in enumerate(course) if node in near), None)
        nodes = np.array(course[: end and end + 1])
        if len(nodes) < 14:
            continue
        bed = np.stack([nodes % frame.columns, nodes // frame.columns], axis=1) * frame.spacing
        bed = thin(corner_cut(relax(bed, 5), closed=False), 3.0)
        if end is not None:
            other = dense(kept[near[course[end]]], 8.0)
            bed[-1] = other[int(np.argmin(((other - bed[-1]) ** 2).sum(axis=1)))]
        for dj in range(-3, 4):
            for di in range(-3, 4):
                for node in nodes.tolist():
                    near.setdefault(node + dj * frame.columns + di, len(kept))
        kept.append(bed)
    return kept
