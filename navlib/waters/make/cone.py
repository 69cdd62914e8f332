"""Volcanoes: crests with steep inner walls, gullied flanks, and craters that the sea has drowned."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from navlib.waters.make.frame import Array, Frame, metres
from navlib.waters.make.noise import fractal_noise, smooth, value_noise
from navlib.waters.make.outline import inside


@dataclass(frozen=True)
class Cones:
    """What volcanoes add: metres to the land, metres to the coast's way inland, the crater floor.

    `within` is 1 well inside a drowned crater and 0 outside, `floor` its depth in metres.
    """

    rise: Array
    nooks: Array
    within: Array
    floor: Array


def make_cones(rows: tuple[dict[str, Any], ...], frame: Frame, seed: int) -> Cones:
    """Return the plan's volcanoes.

    A row has `crest` (closed; x, y and height above the coast, 0 at a breach), `inner` and `outer`
    (km from the crest to the foot of wall and flank), `gullies` (metres from one to the next along
    the crest) and either `floor` (m, depth of a drowned crater) or `dip` (m, of a dry one).
    """
    nothing = np.zeros_like(frame.x)
    cones = Cones(nothing, nothing, nothing, nothing)
    for number, row in enumerate(rows):
        rng = np.random.default_rng([seed, number])
        cones = _joined(cones, _cone(row, frame, rng))
    return cones


def _joined(a: Cones, b: Cones) -> Cones:
    nearer = np.abs(b.nooks) > np.abs(a.nooks)
    return Cones(
        np.maximum(a.rise, b.rise),
        np.where(nearer, b.nooks, a.nooks),
        np.maximum(a.within, b.within),
        np.maximum(a.floor, b.floor),
    )


def _cone(row: dict[str, Any], frame: Frame, rng: np.random.Generator) -> Cones:
    """Return one volcano: from the crest a steep wall falls inwards and a hollow flank outwards.

    Gullies deepen away from the crest, end in coves, and leave lava points between them.
    """
    crest = np.array(row["crest"], dtype=float)
    away, top, along = _from_crest(frame, metres(crest[:, :2].tolist()), crest[:, 2])
    inner = inside(frame, metres(crest[:, :2].tolist()))
    away = np.maximum(away + 45.0 * fractal_noise(frame, rng, 420.0, 3) * smooth(away / 200.0), 0.0)
    t = away / np.where(inner, row["inner"], row["outer"]) / 1000.0
    left = np.clip(1.0 - t, 0.0, 1.0)
    wall = top * np.where(inner, left * (0.55 + 0.45 * left), left * (0.35 + 0.65 * left))
    gully = _gullies(frame, row["gullies"], along, rng)
    depth = np.minimum(0.30 * top, 90.0) * np.where(inner, 0.5, 1.0)
    rise = wall - depth * gully * smooth(away / 260.0) * smooth(left / 0.35)
    if "dip" in row:
        rise = np.where(inner, np.maximum(rise, top - row["dip"]), rise)
    near = smooth((1.9 - t) / 0.6) * smooth(top / 60.0)
    lobes = sum(
        share * np.abs(value_noise(frame, rng, size))  # lava fronts: round, with sharp inlets
        for size, share in ((330.0, 1.0), (130.0, 0.6), (66.0, 0.5))
    )
    nooks = near * np.where(inner, 40.0, 58.0) * (0.3 - gully + 1.7 * (lobes - 0.8))
    within = np.where(inner, smooth(away / 150.0), 0.0) if "floor" in row else np.zeros_like(rise)
    return Cones(np.maximum(rise, 0.0), nooks, within, within * row.get("floor", 0.0))


def _from_crest(frame: Frame, line: Array, tops: Array) -> tuple[Array, Array, Array]:
    """Return each node's way to the crest (m), the crest's height there, and metres along it."""
    away = np.full_like(frame.x, 1e7)
    top, along, so_far = np.zeros_like(away), np.zeros_like(away), 0.0
    closed, heights = np.vstack([line, line[:1]]), np.append(tops, tops[0])
    for ((ax, ay), (bx, by)), (a, b) in zip(pairwise(closed), pairwise(heights), strict=True):
        dx, dy = bx - ax, by - ay
        length = float(np.sqrt(dx * dx + dy * dy))
        u = np.clip(((frame.x - ax) * dx + (frame.y - ay) * dy) / (length * length), 0.0, 1.0)
        here = np.sqrt((frame.x - ax - u * dx) ** 2 + (frame.y - ay - u * dy) ** 2)
        nearer = here < away
        away = np.where(nearer, here, away)
        top = np.where(nearer, a + u * (b - a), top)
        along = np.where(nearer, so_far + u * length, along)
        so_far += length
    return away, top, along


def _gullies(frame: Frame, apart: float, along: Array, rng: np.random.Generator) -> Array:
    """Return up to 1 in the bed of a gully and 0 on the spurs between, unevenly apart and deep."""
    wander = 0.5 * apart * fractal_noise(frame, rng, 1.9 * apart, 2)
    count = int(1.5 * along.max() / apart) + 4
    spurs = np.cumsum(apart * (0.45 + 1.1 * rng.random(count))) - 2.0 * apart
    number = np.interp(along + wander, spurs, np.arange(count, dtype=float))
    gully = number.astype(int)
    bed = 1.0 - np.abs(number - gully - 0.5) * 2.0
    return smooth(bed / 0.75) * (0.2 + 0.8 * rng.random(count))[gully]


def drowned(cones: Cones, off: Array, bed: Array) -> Array:
    """Return the sea bed with the floors of drowned craters; `off` is metres from the coast."""
    left = np.clip(1.0 - np.maximum(off - 12.0, 0.0) / 420.0, 0.0, 1.0)
    return np.where(cones.within > 0, np.minimum(bed, -cones.floor * (1.0 - left * left)), bed)
