"""The ground before rocks, shoals and channels: hills cut by water, foreshore and sea bed."""

from dataclasses import dataclass

import numpy as np

from navlib.waters.make.cone import Cones, drowned, make_cones
from navlib.waters.make.erosion import carve
from navlib.waters.make.frame import Array, Frame, bilinear
from navlib.waters.make.noise import box_mean, falloff, fractal_noise, ridged_noise, smooth
from navlib.waters.make.outline import dense, distance_from, inside, rough_coast
from navlib.waters.make.plan import Plan, Row


@dataclass(frozen=True)
class Shore:
    """Which nodes are land, metres from the coast (positive inland), and volcanoes."""

    land: np.ndarray
    inland: Array
    cones: Cones


def make_shore(plan: Plan, frame: Frame, rng: np.random.Generator) -> Shore:
    """Return where land and sea are: all islands, their coasts roughened."""
    coasts = [rough_coast(island, rng, finest=18.0) for island in plan.islands]
    land = np.zeros(frame.x.shape, dtype=bool)
    for coast in coasts:
        land |= inside(frame, coast)
    away = distance_from(frame, np.vstack([dense(coast, 6.0, closed=True) for coast in coasts]))
    inland = np.where(land, away, -away)
    calm = np.zeros_like(frame.x)
    for x, y, radius in plan.calm_coasts:
        near = frame.away(x * 1000, y * 1000) / (radius * 1000)
        calm = np.maximum(calm, smooth(2.0 - 2.0 * near))
    nooks = 26.0 * fractal_noise(frame, rng, 170.0, 2) + 16.0 * fractal_noise(frame, rng, 75.0, 1)
    inland = inland + nooks * (1.0 - 0.85 * calm)
    cones = make_cones(plan.cones, frame, plan.seed)
    inland = inland + cones.nooks * (1.0 - calm)
    return Shore(inland > 0, inland, cones)


def painted(frame: Frame, patches: tuple[Row, ...], scale: float = 1.0) -> Array:
    """Return the highest of round patches [x km, y km, radius km, height m]."""
    result = np.zeros_like(frame.x)
    for x, y, radius, height in patches:
        t = frame.away(x * 1000, y * 1000) / (radius * 1000 * scale)
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


def land_surface(plan: Plan, frame: Frame, shore: Shore, rng: np.random.Generator) -> Array:
    """Return hills cut by running water, as if the land did not end at the coast."""
    d = np.maximum(shore.inland, 0.0)
    hills = np.zeros_like(frame.x)
    for x, y, height, radius in plan.hills:
        t = frame.away(x * 1000, y * 1000) / (radius * 1000)
        hill = height * falloff(t)
        hills = hills + hill * (1 - hills / 520)
    rough = ridged_noise(frame, rng, 1500.0, 6) - 0.42
    rolling = fractal_noise(frame, rng, 520.0, 4)
    cliff = painted(frame, plan.cliffs)
    rise = d / (d + 420.0)
    height = (
        frame.coast
        + 24.0 * rise
        + hills * (0.30 + 0.70 * smooth(d / 700.0))
        + (26.0 + 0.55 * hills) * rough * smooth(d / 500.0)
        + (7.0 + 0.10 * hills) * rolling
        + cliff * (1.0 - 0.35 * smooth(d / 900.0))
    )
    height = np.maximum(height, frame.coast + 1.0 + 0.012 * d)
    height = np.minimum(height, 150.0 + 0.55 * (height - 150.0)) + shore.cones.rise
    coarse, land = height[::2, ::2], shore.land[::2, ::2]
    start = np.where(land, coarse, frame.coast)
    cut = carve(start, land, 2 * frame.spacing, rounds=26, power=2.1, rng=rng)
    cut = _spread(cut, land, 5)
    cut = 0.55 * cut + 0.45 * box_mean(cut, 1)
    fine = _upsample(frame, cut)
    for crest in plan.crests:
        away = frame.away_from_line(crest["line"])
        fine = np.maximum(fine, crest["top"] * falloff(away / (crest["reach"] * 1000)))
    return fine + 1.6 * fractal_noise(frame, rng, 160.0, 3) * smooth(d / 120.0)


def _upsample(frame: Frame, coarse: Array) -> Array:
    """Return a field given on every second node on every node, smoothed against facets."""
    field = bilinear(coarse, frame.x / 2 / frame.spacing, frame.y / 2 / frame.spacing)
    return 0.5 * field + 0.5 * box_mean(field, 1)


def sea_bed(plan: Plan, frame: Frame, shore: Shore, rng: np.random.Generator) -> Array:
    """Return foreshore and sea bed, as if the sea did not end at the coast."""
    s = np.maximum(-shore.inland, 0.0)
    sheltered = box_mean(box_mean(shore.land.astype(float), 14), 10)
    cliff = smooth(painted(frame, plan.cliffs, 0.85) / 26.0)
    inner = smooth((sheltered - 0.33) / 0.3)
    width = (30.0 + 105.0 * inner) * (1.0 - 0.75 * cliff)
    width = width * (frame.coast / 4.8)  # a spring range of four metres bares so much
    width = width * (1.0 + 0.75 * fractal_noise(frame, rng, 330.0, 3))
    for x, y, radius in plan.steep_shores:
        near = falloff(frame.away(x * 1000, y * 1000) / (radius * 1300))
        width = width * (1.0 - 0.8 * near)
    width = np.maximum(width, 11.0)
    beyond = np.maximum(s - width, 0.0)
    reach = 620.0 + 1500.0 * inner + 500.0 * (1 - cliff)
    deep = plan.deep + 14.0 * fractal_noise(frame, rng, 5200.0, 3)
    depth = deep * beyond / (beyond + reach) + 0.004 * beyond * (1 - inner)
    depth = depth + np.minimum(depth * 0.42, 7.0) * fractal_noise(frame, rng, 1100.0, 4)
    ledges = (
        1.5 * fractal_noise(frame, rng, 140.0, 3) * smooth(s / 50.0) * (1 - smooth(beyond / 260.0))
    )
    shore_part = frame.coast * (1.0 - np.minimum(s / width, 1.0))
    return drowned(shore.cones, s, shore_part - depth + ledges)
