"""The height field, land and sea bed, made from the plan."""

from typing import Any

import numpy as np

from navlib.waters.make.frame import Array, Frame
from navlib.waters.make.noise import box_mean, falloff, fractal_noise, smooth
from navlib.waters.make.plan import Plan
from navlib.waters.make.surface import Shore, land_surface, make_shore, painted, sea_bed


def add_rocks(
    plan: Plan, frame: Frame, height: Array, shore: Shore, rng: np.random.Generator
) -> Array:
    """Return the field with the plan's rocks and many small ones strewn off the rougher coasts."""
    rocks = [(x * 1000, y * 1000, top, radius) for x, y, top, radius in plan.rocks]
    sheltered = box_mean(shore.land.astype(float), 22)
    wide, high = frame.size
    tries = int(plan.rocks_per_km2 * wide * high / 1e6)
    for u, v, w, r in rng.random((tries, 4)).tolist():
        x, y = u * wide, v * high
        j, i = frame.node(x, y)
        if shore.cones.within[j, i]:
            continue
        off, open_sea = -shore.inland[j, i], 0.34 - sheltered[j, i]
        if off > 45 and off < 60 + 1500 * open_sea * r * r and open_sea > 0:
            rocks.append((x, y, 6.6 - 9.0 * w * w - off / 70.0, 24.0 + 46.0 * r))
    for foul in _shoals(plan, "foul"):
        (cx, cy), (hx, hy) = foul["centre"], foul["half_size"]
        for u, v, w, r in rng.random((30, 4)).tolist():
            x = (cx + (2 * u - 1) * hx) * 1000
            y = (cy + (2 * v - 1) * hy) * 1000
            rocks.append((x, y, 0.4 - 6.5 * w, 40.0 + 60.0 * r))
    ragged = 1.0 + 0.75 * fractal_noise(frame, rng, 110.0, 3)
    for x, y, top, radius in rocks:
        j0, i0 = frame.node(x, y)
        reach = int(5 * radius / frame.spacing) + 2
        box = (slice(max(0, j0 - reach), j0 + reach + 1), slice(max(0, i0 - reach), i0 + reach + 1))
        dx, dy = frame.x[box] - x, frame.y[box] - y
        along, across = 0.5 * dx + 0.87 * dy, 0.87 * dx - 0.5 * dy  # the grain of the rock
        away = np.sqrt(along * along / 3.2 + across * across * 1.7) / radius * ragged[box]
        rock = top - 2.2 * away * away - 1.4 * away
        height[box] = np.maximum(height[box], rock)
    return height


def _shoals(plan: Plan, sort: str) -> list[dict[str, Any]]:
    return [shoal for shoal in plan.shoals if shoal["sort"] == sort]


def shape_sea(
    plan: Plan, frame: Frame, height: Array, inland: Array, rng: np.random.Generator
) -> Array:
    """Return the field with the plan's shoals and channels in it.

    A bank is sand along a line with ragged sides, foul ground a low mound set with rocks, and a
    sill a firm, even ridge across whatever channel there is.
    """
    lines = {key: line for key, _, _, line, *_ in plan.lines}
    wobble = fractal_noise(frame, rng, 420.0, 3)
    for bank in _shoals(plan, "bank"):
        away = frame.away_from_line(bank["line"])
        t = away / (bank["half_width"] * 1000 * (1 + 0.9 * wobble))
        height = np.maximum(height, bank["top"] - 2.4 * t * t - 1.6 * t * t * t)
    for foul in _shoals(plan, "foul"):
        fx = (frame.x - foul["centre"][0] * 1000) / (foul["half_size"][0] * 1000)
        fy = (frame.y - foul["centre"][1] * 1000) / (foul["half_size"][1] * 1000)
        t = np.sqrt(fx * fx + fy * fy) * (1 + 0.3 * wobble)
        height = np.maximum(height, foul["top"] - 9.0 * t * t)
    for channel in plan.channels:
        away = frame.away_from_line(channel.get("line") or lines[channel["along"]])
        t = away / (channel["half_width"] * 1000 * (1 + 0.5 * wobble))
        cut = -channel["depth"] + (channel["depth"] + 2.0) * t * t
        height = np.where(
            inland < 0, np.minimum(height, np.maximum(cut, -channel["depth"])), height
        )
    for sill in _shoals(plan, "sill"):
        t = frame.away_from_line(sill["line"]) / (sill["half_width"] * 1000)
        height = np.maximum(height, sill["top"] - sill["steep"] * np.maximum(t - 0.35, 0) ** 2)
    return height


def set_summits(plan: Plan, frame: Frame, height: Array, land: np.ndarray, inland: Array) -> Array:
    """Return the field with each of the plan's summits the highest node near it, at its height."""
    places = {key: (x * 1000, y * 1000) for key, _, _, x, y, *_ in plan.points}
    for key, top in plan.summits:
        x, y = places[key]
        away = frame.away(x, y)
        near = (away < 500) & land
        j, i = np.unravel_index(np.argmax(np.where(near, height, -1e9)), height.shape)
        away = frame.away(frame.x[j, i], frame.y[j, i])
        lift = top + frame.land_datum - height[j, i]
        reach = min(1400.0, 250.0 + 25.0 * abs(lift), max(250.0, 1.3 * float(inland[j, i])))
        height = np.where(land, height + lift * falloff(away / reach), height)
    return height


def sink_lochs(
    plan: Plan, frame: Frame, height: Array, rng: np.random.Generator
) -> tuple[Array, list[tuple[float, Array]]]:
    """Return the field with level lochs in it, and each loch's level and reach (1 at its edge)."""
    lochs, wobble = [], fractal_noise(frame, rng, 260.0, 3)
    for x_km, y_km, half_long, half_wide, turn in plan.lochs:
        dx, dy = frame.x - x_km * 1000, frame.y - y_km * 1000
        length = np.sqrt(1 + turn * turn)
        along, across = (dx + turn * dy) / length, (dy - turn * dx) / length
        t = np.sqrt((along / (half_long * 1000)) ** 2 + (across / (half_wide * 1000)) ** 2)
        t = t * (1 + 0.2 * wobble)
        rim = np.sort(height[t < 1.15])
        level = np.round(float(rim[int(0.12 * rim.size)]), 1)
        basin = np.minimum(height, level + 9.0 * (t - 1.0) * smooth(0.5 + t * 0.5))
        blend = smooth((1.9 - t) / 0.9)
        height = np.where(t < 1.9, height * (1 - blend) + basin * blend, height)
        height = np.where((t > 1.0) & (t < 1.3), np.maximum(height, level + 0.5), height)
        height = np.where(t <= 1.0, np.maximum(height, level), height)
        lochs.append((float(level), t))
    return height, lochs


def _without_pools(frame: Frame, height: Array, inland: Array) -> Array:
    """Return the field with hollows below high water that the sea cannot reach filled to land."""
    low, sea = height <= frame.coast, inland < -300
    count = -1
    while sea.sum() != count:
        count = sea.sum()
        for axis in (0, 1):
            for step in (-1, 1):
                sea = sea | (np.roll(sea, step, axis=axis) & low)
    return np.where(low & ~sea, frame.coast + 0.8, height)


def make_heights(
    plan: Plan, frame: Frame, rng: np.random.Generator
) -> tuple[Array, Shore, list[tuple[float, Array]]]:
    """Return metres above chart datum at every node, the shore, and the lochs."""
    shore = make_shore(plan, frame, rng)
    surface = land_surface(plan, frame, shore, rng)
    bed = sea_bed(plan, frame, shore, rng)
    cliff = smooth(painted(frame, plan.cliffs) / 30.0)
    foot = 150.0 - 118.0 * cliff
    ramp = np.clip(shore.inland / foot, 0, 1)
    ramp = ramp * (1 + cliff * (1 - ramp))
    land_part = frame.coast + (np.maximum(surface, frame.coast + 0.8) - frame.coast) * ramp
    land_part = np.maximum(
        land_part, frame.coast + np.minimum(np.maximum(shore.inland, 0) * 0.03, 2.0)
    )
    sea_part = np.minimum(bed, frame.coast + np.minimum(shore.inland, 0) * 0.01)
    height = np.where(shore.inland > 0, land_part, sea_part)
    height = _without_pools(frame, height, shore.inland)
    height = add_rocks(plan, frame, height, shore, rng)
    height = shape_sea(plan, frame, height, shore.inland, rng)
    height, lochs = sink_lochs(plan, frame, height, rng)
    height = set_summits(plan, frame, height, height > frame.coast, shore.inland)
    return height, shore, lochs
