"""Running water on the height grid: valleys cut by it, and the burns that run in them."""

import heapq

import numpy as np

from navlib.waters.make.frame import Array

_STEPS = [(-1, -1), (-1, 0), (-1, 1), (0, -1), (0, 1), (1, -1), (1, 0), (1, 1)]
_DIAGONAL = 1.4142135623730951


def downhill(
    height: Array, land: np.ndarray, whim: Array | None = None
) -> tuple[np.ndarray, Array]:
    """Return each node's steepest lower neighbour (flat index, itself if none) and its way there.

    Ways are in node spacings. `whim`, one factor for each of the eight ways and each node, keeps
    water on an even slope from running along rows and columns only, after Fairfield and Leymarie
    1991, Water Resources Research 27(5), 709-717.
    """
    rows, columns = height.shape
    padded = np.pad(height, 1, mode="edge")
    index = np.arange(rows * columns).reshape(rows, columns)
    best = np.zeros_like(height)
    to, way = index.copy(), np.ones_like(height)
    for n, (dj, di) in enumerate(_STEPS):
        length = _DIAGONAL if dj and di else 1.0
        fall = (height - padded[1 + dj : 1 + dj + rows, 1 + di : 1 + di + columns]) / length
        if whim is not None:
            fall = fall * whim[n]
        steeper = (fall > best) & land
        best = np.where(steeper, fall, best)
        to = np.where(steeper, index + dj * columns + di, to)
        way = np.where(steeper, length, way)
    return to, way


def carve(
    height: Array,
    land: np.ndarray,
    spacing: float,
    rounds: int,
    power: float,
    rng: np.random.Generator,
) -> Array:
    """Return `height` cut by running water: each round lowers nodes by what drains through them.

    Stream power law with slope to the first power and drained area to the half, solved from the
    sea upwards (Braun and Willett 2013, Geomorphology 180-181, 170-179), no uplift.
    """
    height = height.copy()
    flat_land = np.flatnonzero(land)
    whim = 0.6 + 0.8 * rng.random((len(_STEPS), *height.shape))
    for _ in range(rounds):
        to, way = downhill(height, land, whim)
        order = flat_land[np.argsort(height.ravel()[flat_land], kind="stable")].tolist()
        receiver, length = to.ravel().tolist(), (way.ravel() * spacing).tolist()
        area = [spacing * spacing / 1e4] * height.size
        for node in reversed(order):
            if receiver[node] != node:
                area[receiver[node]] += area[node]
        strength = (power * np.sqrt(np.array(area))).tolist()
        level = height.ravel().tolist()
        for node in order:
            below = receiver[node]
            if below != node:
                f = strength[node] / length[node]
                level[node] = (level[node] + f * level[below]) / (1.0 + f)
        height = np.array(level).reshape(height.shape)
    return height


def fill(height: Array, land: np.ndarray) -> Array:
    """Return `height` with its hollows filled so that every land node drains to the sea."""
    rows, columns = height.shape
    level = height.ravel().tolist()
    is_land = land.ravel().tolist()
    done = [not x for x in is_land]
    queue: list[tuple[float, int]] = []
    edge = land & ~_all_round(land)
    for node in np.flatnonzero(edge).tolist():
        heapq.heappush(queue, (level[node], node))
        done[node] = True
    while queue:
        at, node = heapq.heappop(queue)
        for dj, di in _STEPS:
            other = node + dj * columns + di
            if not done[other]:
                done[other] = True
                level[other] = max(level[other], at + 0.002)
                heapq.heappush(queue, (level[other], other))
    return np.array(level).reshape(rows, columns)


def _all_round(land: np.ndarray) -> np.ndarray:
    padded = np.pad(land, 1)
    rows, columns = land.shape
    result = land.copy()
    for dj, di in _STEPS:
        result &= padded[1 + dj : 1 + dj + rows, 1 + di : 1 + di + columns]
    return result


def burns(
    height: Array, land: np.ndarray, least_area: float, rng: np.random.Generator
) -> list[list[int]]:
    """Return the courses (flat indices, from head to mouth) that drain `least_area` nodes or more.

    A course ends in the sea or on the longer course that it joins.
    """
    filled = fill(height, land)
    whim = 0.75 + 0.5 * rng.random((len(_STEPS), *height.shape))
    to, _ = downhill(filled, land, whim)
    receiver = to.ravel().tolist()
    flat_land = np.flatnonzero(land)
    order = flat_land[np.argsort(-filled.ravel()[flat_land], kind="stable")].tolist()
    area = [1.0] * height.size
    for node in order:
        below = receiver[node]
        if below != node:
            area[below] += area[node]
    wet = [node for node in order if area[node] >= least_area]
    wet_set, length = set(wet), dict.fromkeys(wet, 1)
    main: dict[int, int] = {}  # the feeder of each node that comes from farthest
    for node in wet:
        below = receiver[node]
        if below != node and length[node] >= length.get(below, 1):
            main[below] = node
            if below in wet_set:
                length[below] = length[node] + 1
    heads = [node for node in wet if node not in main]
    courses = []
    for head in heads:
        course = [head]
        node = head
        while node in wet_set and receiver[node] != node:
            below = receiver[node]
            course.append(below)
            if main.get(below) != node:
                break
            node = below
        courses.append(course)
    return courses
