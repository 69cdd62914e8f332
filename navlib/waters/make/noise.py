"""Seeded smooth noise on the height grid.

Only +, -, x, / and square roots are used all through the maker (never sin, exp or a power), so
that every machine makes the same waters to the last bit.
"""

import numpy as np

from navlib.waters.make.frame import Array, Frame


def smooth(t: Array) -> Array:
    """Return 0 below 0, 1 above 1 and a smooth rise between."""
    t = np.clip(t, 0.0, 1.0)
    return t * t * (3.0 - 2.0 * t)


def falloff(t: Array) -> Array:
    """Return a round hill: 1 at t = 0, falling smoothly to 0 at t = 1."""
    t = np.clip(1.0 - t * t, 0.0, 1.0)
    return t * t


def value_noise(frame: Frame, rng: np.random.Generator, wavelength: float) -> Array:
    """Return noise in [-1, 1] with bumps about `wavelength` metres apart, one value a node."""
    cell = wavelength / frame.spacing
    height, width = int(frame.rows / cell) + 3, int(frame.columns / cell) + 3
    lattice = rng.random((height, width)) * 2.0 - 1.0
    row, column = np.arange(frame.rows) / cell, np.arange(frame.columns) / cell
    j, i = row.astype(int), column.astype(int)
    v = smooth(row - j)[:, None]
    u = smooth(column - i)[None, :]
    south = lattice[np.ix_(j, i)] * (1 - u) + lattice[np.ix_(j, i + 1)] * u
    north = lattice[np.ix_(j + 1, i)] * (1 - u) + lattice[np.ix_(j + 1, i + 1)] * u
    return south * (1 - v) + north * v


def fractal_noise(frame: Frame, rng: np.random.Generator, wavelength: float, octaves: int) -> Array:
    """Return noise of `octaves` halving wavelengths and strengths, about in [-1, 1]."""
    total, strength, sum_strength = np.zeros((frame.rows, frame.columns)), 1.0, 0.0
    for _ in range(octaves):
        total += strength * value_noise(frame, rng, wavelength)
        sum_strength += strength
        wavelength, strength = wavelength * 0.48, strength * 0.5
    return total / sum_strength


def ridged_noise(frame: Frame, rng: np.random.Generator, wavelength: float, octaves: int) -> Array:
    """Return noise in [0, 1] whose high parts are sharp ridges."""
    total, strength, sum_strength = np.zeros((frame.rows, frame.columns)), 1.0, 0.0
    for _ in range(octaves):
        ridge = 1.0 - np.abs(value_noise(frame, rng, wavelength))
        total += strength * ridge * ridge
        sum_strength += strength
        wavelength, strength = wavelength * 0.48, strength * 0.5
    return total / sum_strength


def box_mean(field: Array, radius: int) -> Array:
    """Return the mean of `field` over a square of `radius` nodes each way (edges repeated)."""
    for axis in (0, 1):
        pad = [(0, 0), (0, 0)]
        pad[axis] = (radius + 1, radius)
        run = np.cumsum(np.pad(field, pad, mode="edge"), axis=axis)
        size = 2 * radius + 1
        if axis == 0:
            field = (run[size:] - run[:-size]) / size
        else:
            field = (run[:, size:] - run[:, :-size]) / size
    return field
