"""What the sea chart shows beside the plan's marks: the bottom, leading lines, limits."""

import numpy as np

from navlib.waters.make.frame import Array, Frame, Points, metres
from navlib.waters.make.geojson import Json, feature, line, point
from navlib.waters.make.noise import box_mean, fractal_noise
from navlib.waters.make.outline import dense
from navlib.waters.make.plan import Plan
from navlib.waters.make.routes import thin

_ROCKY = ("Wd", "R", "R", "R", "St", "G")
_SCOURED = ("Sh", "G.Sh", "G", "St", "R")
_STILL = ("M", "M", "M.S", "S.M", "S")
_BANK = ("S", "S", "S.Sh")
_SHELF = ("S.M", "S", "S", "S.Sh", "Sh", "S.G", "G")
_DEEP = ("M", "M.S", "S.M", "S", "S.Sh", "Sh", "G.Sh", "G")


def bottom(plan: Plan, frame: Frame, height: Array) -> list[Json]:
    """Return letters of the sea bed, one in each square of `bottom_km2`, by depth and shelter.

    Waves keep exposed shallows to bare rock and weed, mud settles where they cannot reach, and
    fast streams leave gravel, stones and shells; what the bottom is changes slowly from place to
    place, finer to coarser. Letters as INT 1, section J.
    """
    if not plan.bottom_km2:
        return []
    rng = np.random.default_rng([plan.seed, 1])
    land = (height > frame.coast).astype(float)
    shelter = box_mean(box_mean(land, 20), 14)
    banks = [frame.away_from_line(s["line"]) / 1000 for s in plan.shoals if s["sort"] == "bank"]
    coarse = 0.5 + 1.1 * fractal_noise(frame, rng, 3600.0, 2)
    side = float(np.sqrt(plan.bottom_km2)) * 1000
    wide, high = frame.size
    result: list[Json] = []
    for row in range(int(high / side)):
        for column in range(int(wide / side)):
            tries = rng.random((12, 3)).tolist()
            for u, v, w in tries:
                x, y = (column + 0.12 + 0.76 * u) * side, (row + 0.12 + 0.76 * v) * side
                depth = -frame.at(height, x, y)
                if depth < 0.5:
                    continue
                j, i = frame.node(x, y)
                near = [bank[j, i] for bank in banks]
                sorts = _sorts(plan, x / 1000, y / 1000, depth, shelter[j, i], near)
                grain = min(max(coarse[j, i] + 0.3 * (w - 0.5), 0.0), 0.999)
                letters = sorts[int(grain * len(sorts))]
                key = f"bottom-{len(result) + 1:03d}"
                result.append(feature(key, letters, "bottom", point(frame, x, y)))
                break
    return result


def _sorts(
    plan: Plan, x: float, y: float, depth: float, shelter: float, banks: list[float]
) -> tuple[str, ...]:
    if any((x - a) ** 2 + (y - b) ** 2 < r * r for a, b, r in plan.scoured):
        return _SCOURED
    if banks and min(banks) < 1.0:
        return _BANK
    if shelter > 0.3 and depth < 16:
        return _STILL
    if depth < 12:
        return _ROCKY
    return _SHELF if depth < 32 else _DEEP


def leading_lines(plan: Plan, frame: Frame, points: list[Json]) -> list[Json]:
    """Return lines from the sea through two marks, the seaward end first and the rear mark last."""
    places = {one["properties"]["id"]: np.array(one["geometry"]["coordinates"]) for one in points}
    result = []
    for key, name, front, rear, out in plan.leading_lines:
        ahead = places[front] - places[rear]
        start = places[front] + ahead / np.sqrt((ahead * ahead).sum()) * out * 1000
        course = np.array([start, places[front], places[rear]]) - [frame.west, frame.south]
        result.append(feature(key, name, "leading line", line(frame, course)))
    return result


def limits(plan: Plan, frame: Frame, height: Array) -> list[Json]:
    """Return closed limits on both sides of a line of the plan, from shore to shore."""
    lines = {key: metres(places) for key, _, _, places, *_ in plan.lines}
    result = []
    for key, along, half_width, note in plan.limits:
        steps = dense(lines[along], 20.0)
        wet = np.flatnonzero([frame.at(height, x, y) < frame.coast for x, y in steps])
        course = thin(steps[wet[0] : wet[-1] + 1], 1.0)
        one, other = (_beside(course, s * half_width * 1000) for s in (1, -1))
        ring = np.vstack([one, other[::-1], one[:1]])
        result.append(feature(key, "", "limit", line(frame, ring), note=note))
    return result


def _beside(points: Points, off: float) -> Points:
    """Return the line moved to its left by `off` metres, mitred at its corners."""
    along = np.diff(points, axis=0)
    along = along / np.sqrt((along * along).sum(axis=1))[:, None]
    left = np.stack([-along[:, 1], along[:, 0]], axis=1)
    corner = np.vstack([left[:1], left[:-1] + left[1:], left[-1:]])
    corner = corner / np.maximum((corner * np.vstack([left[:1], left])).sum(axis=1), 1e-9)[:, None]
    return points + off * corner
