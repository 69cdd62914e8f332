"""The height field, land and sea bed, made from the plan."""

from dataclasses import dataclass

import numpy as np

from navlib.waters.make.erosion import carve
from navlib.waters.make.frame import (
    COAST,
    LAND_DATUM,
    PLAN,
    ROWS,
    SPACING,
    Array,
    Points,
    X,
    Y,
    bilinear,
    metres,
)
from navlib.waters.make.noise import box_mean, falloff, fractal_noise, ridged_noise, smooth
from navlib.waters.make.outline import dense, distance_from, inside, rough_coast


@dataclass(frozen=True)
class Shore:
    """Coast lines, which nodes are land, and metres from the coast (positive inland)."""

    coasts: list[Points]
    land: np.ndarray
    inland: Array


def make_shore(rng: np.random.Generator) -> Shore:
    """Return the rough coasts of all islands."""
    coasts = [rough_coast(island, rng, finest=18.0) for island in PLAN["islands"]]
    land = np.zeros((ROWS, X.shape[1]), dtype=bool)
    for coast in coasts:
        land |= inside(coast)
    away = distance_from(np.vstack([dense(coast, 6.0, closed=True) for coast in coasts]))
    inland = np.where(land, away, -away)
    calm = np.zeros_like(X)
    for x, y, radius in PLAN["calm_coasts"]:
        near = np.sqrt((X - x * 1000) ** 2 + (Y - y * 1000) ** 2) / (radius * 1000)
        calm = np.maximum(calm, smooth(2.0 - 2.0 * near))
    nooks = 26.0 * fractal_noise(rng, 170.0, 2) + 16.0 * fractal_noise(rng, 75.0, 1)
    inland = inland + nooks * (1.0 - 0.85 * calm)
    return Shore(coasts, inland > 0, inland)


def _painted(patches: list[list[float]], scale: float = 1.0) -> Array:
    """Return the highest of round patches (x km, y km, height, radius km or the last two turned)."""
    result = np.zeros_like(X)
    for x, y, radius, height in patches:
        t = np.sqrt((X - x * 1000) ** 2 + (Y - y * 1000) ** 2) / (radius * 1000 * scale)
        result = np.maximum(result, height * falloff(t))
    return result


def _spread(field: Array, known: np.ndarray, rounds: int) -> Array:
    """Return `field` carried on, by means of neighbours, beyond where it is known."""
    field, known = np.where(known, field, 0.0), known.copy()
    for _ in range(rounds):
        weight = box_mean(known.astype(float), 1)
        mean = box_mean(np.where(known, field, 0.0), 1) / np.maximum(weight, 1e-9)
        new = ~known & (weight > 0.05)
        field = np.where(new, mean, field)
        known |= new
    return field


def land_surface(shore: Shore, rng: np.random.Generator) -> Array:
    """Return hills cut by running water, as if the land did not end at the coast."""
    d = np.maximum(shore.inland, 0.0)
    hills = np.zeros_like(X)
    for x, y, height, radius in PLAN["hills"]:
        t = np.sqrt((X - x * 1000) ** 2 + (Y - y * 1000) ** 2) / (radius * 1000)
        hill = height * falloff(t)
        hills = hills + hill * (1 - hills / 520)
    rough = ridged_noise(rng, 1500.0, 6) - 0.42
    rolling = fractal_noise(rng, 520.0, 4)
    cliff = _painted(PLAN["cliffs"])
    rise = d / (d + 420.0)
    height = (
        COAST
        + 24.0 * rise
        + hills * (0.30 + 0.70 * smooth(d / 700.0))
        + (26.0 + 0.55 * hills) * rough * smooth(d / 500.0)
        + (7.0 + 0.10 * hills) * rolling
        + cliff * (1.0 - 0.35 * smooth(d / 900.0))
    )
    height = np.maximum(height, COAST + 1.0 + 0.012 * d)
    height = np.minimum(height, 150.0 + 0.55 * (height - 150.0))
    coarse, land = height[::2, ::2], shore.land[::2, ::2]
    start = np.where(land, coarse, COAST)
    cut = carve(start, land, 2 * SPACING, rounds=26, power=2.1, rng=rng)
    cut = _spread(cut, land, 5)
    for _ in range(1):
        cut = 0.55 * cut + 0.45 * box_mean(cut, 1)
    fine = bilinear_upsample(cut)
    for wall in PLAN["walls"]:
        away = _distance_to(wall["line"])
        fine = np.maximum(fine, wall["top"] * falloff(away / (wall["reach"] * 1000)))
    return fine + 1.6 * fractal_noise(rng, 160.0, 3) * smooth(d / 120.0)


def bilinear_upsample(coarse: Array) -> Array:
    """Return a field given on every second node on every node, smoothed against facets."""
    field = bilinear(coarse, X / 2, Y / 2)
    return 0.5 * field + 0.5 * box_mean(field, 1)


def sea_bed(shore: Shore, rng: np.random.Generator) -> Array:
    """Return foreshore and sea bed, as if the sea did not end at the coast."""
    s = np.maximum(-shore.inland, 0.0)
    sheltered = box_mean(box_mean(shore.land.astype(float), 14), 10)
    cliff = smooth(_painted(PLAN["cliffs"], 0.85) / 26.0)
    inner = smooth((sheltered - 0.33) / 0.3)
    width = (30.0 + 105.0 * inner) * (1.0 - 0.75 * cliff)
    width = width * (1.0 + 0.75 * fractal_noise(rng, 330.0, 3))
    for x, y, radius in PLAN["steep_shores"]:
        near = falloff(np.sqrt((X - x * 1000) ** 2 + (Y - y * 1000) ** 2) / (radius * 1300))
        width = width * (1.0 - 0.8 * near)
    width = np.maximum(width, 11.0)
    beyond = np.maximum(s - width, 0.0)
    reach = 620.0 + 1500.0 * inner + 500.0 * (1 - cliff)
    deep = 46.0 + 14.0 * fractal_noise(rng, 5200.0, 3)
    depth = deep * beyond / (beyond + reach) + 0.004 * beyond * (1 - inner)
    depth = depth + np.minimum(depth * 0.42, 7.0) * fractal_noise(rng, 1100.0, 4)
    ledges = 1.5 * fractal_noise(rng, 140.0, 3) * smooth(s / 50.0) * (1 - smooth(beyond / 260.0))
    shore_part = COAST * (1.0 - np.minimum(s / width, 1.0))
    return shore_part - depth + ledges


def _distance_to(line: list[list[float]]) -> Array:
    """Return each node's distance (m) from a line through places (km)."""
    away = np.full_like(X, 1e7)
    for (ax, ay), (bx, by) in zip(metres(line[:-1]), metres(line[1:]), strict=True):
        dx, dy = bx - ax, by - ay
        t = np.clip(((X - ax) * dx + (Y - ay) * dy) / (dx * dx + dy * dy), 0, 1)
        away = np.minimum(away, np.sqrt((X - ax - t * dx) ** 2 + (Y - ay - t * dy) ** 2))
    return away


def add_rocks(height: Array, shore: Shore, rng: np.random.Generator) -> Array:
    """Return the field with the plan's rocks and many small ones strewn off the rougher coasts."""
    rocks = [(x * 1000, y * 1000, top, radius) for x, y, top, radius in PLAN["rocks"]]
    sheltered = box_mean(shore.land.astype(float), 22)
    cx, cy = PLAN["shoals"]["foul"]["centre"]
    hx, hy = PLAN["shoals"]["foul"]["half_size"]
    for u, v, w, r in rng.random((9000, 4)).tolist():
        x, y = u * PLAN["width"], v * PLAN["height"]
        j, i = int(y / SPACING), int(x / SPACING)
        off, open_sea = -shore.inland[j, i], 0.34 - sheltered[j, i]
        if off > 45 and off < 60 + 1500 * open_sea * r * r and open_sea > 0:
            rocks.append((x, y, 6.6 - 9.0 * w * w - off / 70.0, 24.0 + 46.0 * r))
    for u, v, w, r in rng.random((30, 4)).tolist():
        x = (cx + (2 * u - 1) * hx) * 1000
        y = (cy + (2 * v - 1) * hy) * 1000
        rocks.append((x, y, 0.4 - 6.5 * w, 40.0 + 60.0 * r))
    ragged = 1.0 + 0.75 * fractal_noise(rng, 110.0, 3)
    for x, y, top, radius in rocks:
        j0, i0 = int(y / SPACING), int(x / SPACING)
        reach = int(5 * radius / SPACING) + 2
        box = (slice(max(0, j0 - reach), j0 + reach + 1), slice(max(0, i0 - reach), i0 + reach + 1))
        dx, dy = X[box] - x, Y[box] - y
        along, across = 0.5 * dx + 0.87 * dy, 0.87 * dx - 0.5 * dy  # the grain of the rock
        away = np.sqrt(along * along / 3.2 + across * across * 1.7) / radius * ragged[box]
        rock = top - 2.2 * away * away - 1.4 * away
        height[box] = np.maximum(height[box], rock)
    return height


def shape_sea(height: Array, inland: Array, rng: np.random.Generator) -> Array:
    """Return the field with bank, foul ground, channels, sill and causeway in it."""
    shoals = PLAN["shoals"]
    lines = {key: line for key, _, _, line in PLAN["lines"]}
    wobble = fractal_noise(rng, 420.0, 3)
    bank = shoals["bank"]
    away = _distance_to([bank["from"], bank["to"]])
    t = away / (bank["half_width"] * 1000 * (1 + 0.9 * wobble))
    height = np.maximum(height, bank["top"] - 2.4 * t * t - 1.6 * t * t * t)
    foul = shoals["foul"]
    fx = (X - foul["centre"][0] * 1000) / (foul["half_size"][0] * 1000)
    fy = (Y - foul["centre"][1] * 1000) / (foul["half_size"][1] * 1000)
    t = np.sqrt(fx * fx + fy * fy) * (1 + 0.3 * wobble)
    height = np.maximum(height, foul["depth"] - 9.0 * t * t)
    for channel in PLAN["channels"]:
        away = _distance_to(channel.get("line") or lines[channel["along"]])
        t = away / (channel["half_width"] * 1000 * (1 + 0.5 * wobble))
        cut = -channel["depth"] + (channel["depth"] + 2.0) * t * t
        height = np.where(
            inland < 0, np.minimum(height, np.maximum(cut, -channel["depth"])), height
        )
    for name, steep in (("sill", 3.0), ("causeway", 2.0)):
        shoal = shoals[name]
        away = _distance_to([shoal["from"], shoal["to"]])
        t = away / (shoal["half_width"] * 1000)
        height = np.maximum(height, shoal["top"] - steep * np.maximum(t - 0.35, 0) ** 2)
    return height


def set_summits(height: Array, land: np.ndarray, inland: Array) -> Array:
    """Return the field with each of the plan's summits the highest node near it, at its height."""
    places = {key: (x * 1000, y * 1000) for key, _, _, x, y, *_ in PLAN["points"]}
    for key, top in PLAN["summits"]:
        x, y = places[key]
        away = np.sqrt((X - x) ** 2 + (Y - y) ** 2)
        near = (away < 500) & land
        j, i = np.unravel_index(np.argmax(np.where(near, height, -1e9)), height.shape)
        away = np.sqrt((X - X[j, i]) ** 2 + (Y - Y[j, i]) ** 2)
        lift = top + LAND_DATUM - height[j, i]
        reach = min(1400.0, 250.0 + 25.0 * abs(lift), max(250.0, 1.3 * float(inland[j, i])))
        height = np.where(land, height + lift * falloff(away / reach), height)
    return height


def sink_lochs(height: Array, rng: np.random.Generator) -> tuple[Array, list[tuple[float, Array]]]:
    """Return the field with level lochs in it, and each loch's level and reach (1 at its edge)."""
    lochs, wobble = [], fractal_noise(rng, 260.0, 3)
    for x_km, y_km, half_long, half_wide, turn in PLAN["lochs"]:
        dx, dy = X - x_km * 1000, Y - y_km * 1000
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


def _without_pools(height: Array, inland: Array) -> Array:
    """Return the field with hollows below high water that the sea cannot reach filled to land."""
    low, sea = height <= COAST, inland < -300
    count = -1
    while sea.sum() != count:
        count = sea.sum()
        for axis in (0, 1):
            for step in (-1, 1):
                sea = sea | (np.roll(sea, step, axis=axis) & low)
    return np.where(low & ~sea, COAST + 0.8, height)


def make_heights(rng: np.random.Generator) -> tuple[Array, Shore, list[tuple[float, Array]]]:
    """Return metres above chart datum at every node, the shore, and the lochs."""
    shore = make_shore(rng)
    surface = land_surface(shore, rng)
    bed = sea_bed(shore, rng)
    cliff = smooth(_painted(PLAN["cliffs"]) / 30.0)
    foot = 150.0 - 118.0 * cliff
    ramp = np.clip(shore.inland / foot, 0, 1)
    ramp = ramp * (1 + cliff * (1 - ramp))
    land_part = COAST + (np.maximum(surface, COAST + 0.8) - COAST) * ramp
    land_part = np.maximum(land_part, COAST + np.minimum(np.maximum(shore.inland, 0) * 0.03, 2.0))
    sea_part = np.minimum(bed, COAST + np.minimum(shore.inland, 0) * 0.01)
    height = np.where(shore.inland > 0, land_part, sea_part)
    height = _without_pools(height, shore.inland)
    height = add_rocks(height, shore, rng)
    height = shape_sea(height, shore.inland, rng)
    height, lochs = sink_lochs(height, rng)
    height = set_summits(height, height > COAST, shore.inland)
    return height, shore, lochs
