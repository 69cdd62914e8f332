"""From hand-drawn coarse outlines to rough coasts, and each node's distance from them."""

from itertools import pairwise
from typing import Any

import numpy as np

from navlib.waters.make.frame import Array, Frame, Points, metres


def corner_cut(points: Points, closed: bool, rounds: int = 1) -> Points:
    """Return the line with its corners cut at a quarter of each side."""
    for _ in range(rounds):
        start = points if closed else points[:-1]
        end = np.roll(points, -1, axis=0) if closed else points[1:]
        cut = np.stack([0.75 * start + 0.25 * end, 0.25 * start + 0.75 * end], axis=1)
        cut = cut.reshape(-1, 2)
        points = cut if closed else np.vstack([points[:1], cut, points[-1:]])
    return points


def _roughness(points: Points, rough: float, zones: list[list[float]]) -> Array:
    result = np.full(len(points), rough)
    for x, y, radius, value in zones:
        near = np.hypot(points[:, 0] - x * 1000, points[:, 1] - y * 1000) < radius * 1000
        result[near] = value
    return result


def rough_coast(island: dict[str, Any], rng: np.random.Generator, finest: float) -> Points:
    """Return an island's closed coast by midpoint displacement, sides at most `finest` metres."""
    points = metres(island["outline"])
    zones = island.get("zones", [])
    while True:
        side = np.roll(points, -1, axis=0) - points
        length = np.sqrt((side * side).sum(axis=1))
        if length.max() <= finest:
            return points
        across = np.stack([-side[:, 1], side[:, 0]], axis=1)
        bend = (rng.random(len(points)) * 2 - 1) * _roughness(points, island["rough"], zones)
        middle = points + 0.5 * side + across * bend[:, None]
        keep = length > finest
        both = np.stack([points, middle], axis=1).reshape(-1, 2)
        points = both[np.stack([np.ones_like(keep), keep], axis=1).reshape(-1)]


def inside(frame: Frame, polygon: Points) -> np.ndarray:
    """Return which nodes lie inside a closed polygon (even-odd rule)."""
    x0, y0 = polygon[:, 0], polygon[:, 1]
    x1, y1 = np.roll(x0, -1), np.roll(y0, -1)
    crossings = np.zeros((frame.rows, frame.columns + 1))
    for j in range(frame.rows):
        y = j * frame.spacing + 0.01
        spans = (y0 <= y) != (y1 <= y)
        if spans.any():
            a, b, c, d = x0[spans], y0[spans], x1[spans], y1[spans]
            at = a + (y - b) * (c - a) / (d - b)
            column = np.clip(np.ceil(at / frame.spacing).astype(int), 0, frame.columns)
            np.add.at(crossings[j], column, 1)
    return np.cumsum(crossings, axis=1)[:, :-1] % 2 == 1


def dense(points: Points, step: float, closed: bool = False) -> Points:
    """Return points along a line not more than `step` metres apart."""
    ends = np.vstack([points, points[:1]]) if closed else points
    pieces = []
    for a, b in pairwise(ends):
        count = max(1, int(np.ceil(np.sqrt(((b - a) ** 2).sum()) / step)))
        pieces.append(a + (b - a) * (np.arange(count) / count)[:, None])
    return np.vstack([*pieces, ends[-1:]])


def distance_from(frame: Frame, points: Points) -> Array:
    """Return each node's distance in metres from the nearest of `points`.

    Jump flooding: nodes hand their nearest known point on over ever shorter jumps.
    """
    rows, columns, spacing = frame.rows, frame.columns, frame.spacing
    sx, sy = np.full((rows, columns), 1e7), np.full((rows, columns), 1e7)
    i = np.clip(np.rint(points[:, 0] / spacing).astype(int), 0, columns - 1)
    j = np.clip(np.rint(points[:, 1] / spacing).astype(int), 0, rows - 1)
    far = (points[:, 0] - i * spacing) ** 2 + (points[:, 1] - j * spacing) ** 2
    for k in np.argsort(-far, kind="stable"):  # the nearest point of a node is written last
        sx[j[k], i[k]], sy[j[k], i[k]] = points[k]
    best = (sx - frame.x) ** 2 + (sy - frame.y) ** 2
    jumps = [jump for jump in (256, 128, 64, 32, 16, 8, 4, 2, 1, 1) if jump < min(rows, columns)]
    for jump in jumps:
        for dj in (-jump, 0, jump):
            for di in (-jump, 0, jump):
                to_j = slice(max(0, -dj), rows - max(0, dj))
                from_j = slice(max(0, dj), rows - max(0, -dj))
                to_i = slice(max(0, -di), columns - max(0, di))
                from_i = slice(max(0, di), columns - max(0, -di))
                cx, cy = sx[from_j, from_i], sy[from_j, from_i]
                d = (cx - frame.x[to_j, to_i]) ** 2 + (cy - frame.y[to_j, to_i]) ** 2
                nearer = d < best[to_j, to_i]
                best[to_j, to_i] = np.where(nearer, d, best[to_j, to_i])
                sx[to_j, to_i] = np.where(nearer, cx, sx[to_j, to_i])
                sy[to_j, to_i] = np.where(nearer, cy, sy[to_j, to_i])
    return np.sqrt(best)
