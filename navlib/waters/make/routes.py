"""Roads and tracks that go the way that people would have made them: easy ground, no sea."""

import heapq
from itertools import pairwise

import numpy as np

from navlib.waters.make.frame import Array, Frame, Points
from navlib.waters.make.outline import corner_cut

_STEPS = [
    (j, i)
    for j in range(-2, 3)
    for i in range(-2, 3)
    if (j or i) and not (abs(j) in (0, 2) and abs(i) in (0, 2))
]


def _least_effort(
    frame: Frame, height: Array, start: Points, end: Points, steepest: float
) -> Points:
    """Return the cheapest way on every second node; a slope of `steepest` doubles the cost.

    Hart, Nilsson and Raphael 1968 (A*): the straight way left is never dearer than the real one.
    """
    step, columns = 2 * frame.spacing, height[::2, ::2].shape[1]
    rows, level = height[::2, ::2].shape[0], height[::2, ::2].ravel().tolist()
    (x0, y0), (x1, y1) = (np.rint(p / step).astype(int).tolist() for p in (start, end))
    first, last = y0 * columns + x0, y1 * columns + x1
    moves = [(j, i, step * float(np.sqrt(j * j + i * i))) for j, i in _STEPS]
    cost, came, done = {first: 0.0}, {}, set()
    queue = [(0.0, first)]
    while queue:
        _, node = heapq.heappop(queue)
        if node == last:
            break
        if node in done:
            continue
        done.add(node)
        j, i = divmod(node, columns)
        here, so_far = level[node], cost[node]
        for dj, di, length in moves:
            y, x = j + dj, i + di
            other = y * columns + x
            if not (0 <= y < rows and 0 <= x < columns) or other in done:
                continue
            slope = (level[other] - here) / length / steepest
            wet = 40.0 if level[other] < frame.coast + 1.2 else 1.0
            total = so_far + length * (1 + slope * slope) * wet
            if total < cost.get(other, 1e18):
                cost[other], came[other] = total, node
                left = step * ((x - x1) ** 2 + (y - y1) ** 2) ** 0.5
                heapq.heappush(queue, (total + left, other))
    way = [last]
    while way[-1] != first:
        way.append(came[way[-1]])
    nodes = np.array(way[::-1])
    return np.stack([nodes % columns, nodes // columns], axis=1) * step


def relax(points: Points, rounds: int) -> Points:
    """Return the line with each inner point drawn towards the middle of its neighbours."""
    points = points.copy()
    for _ in range(rounds):
        points[1:-1] = 0.5 * points[1:-1] + 0.25 * (points[:-2] + points[2:])
    return points


def thin(points: Points, tolerance: float) -> Points:
    """Return the line without the points that change it by less than `tolerance` metres.

    Douglas and Peucker 1973, Cartographica 10(2), 112-122.
    """
    keep = np.zeros(len(points), dtype=bool)
    keep[[0, -1]] = True
    spans = [(0, len(points) - 1)]
    while spans:
        a, b = spans.pop()
        if b - a < 2:
            continue
        line = points[b] - points[a]
        length = np.sqrt((line * line).sum())
        off = points[a + 1 : b] - points[a]
        if length == 0:
            away = np.sqrt((off * off).sum(axis=1))
        else:
            away = np.abs(off[:, 0] * line[1] - off[:, 1] * line[0]) / length
        far = int(np.argmax(away))
        if away[far] > tolerance:
            middle = a + 1 + far
            keep[middle] = True
            spans += [(a, middle), (middle, b)]
    return points[keep]


def way_through(frame: Frame, height: Array, stops: Points, kind: str) -> Points:
    """Return a road, track or path through `stops` in order."""
    steepest = {"road": 0.05, "track": 0.08, "path": 0.16}[kind]
    legs = [_least_effort(frame, height, a, b, steepest) for a, b in pairwise(stops)]
    line = np.vstack([legs[0], *[leg[1:] for leg in legs[1:]]])
    line[0], line[-1] = stops[0], stops[-1]
    return thin(corner_cut(relax(line, 3), closed=False), 2.5)
