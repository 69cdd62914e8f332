"""What a straight line over the water meets: land, shallows, and the bulge of the earth."""

import numpy as np
from numpy.typing import NDArray

from navlib.waters.features import Place
from navlib.waters.heights import HeightField

EARTH_RADIUS = 6_371_000.0
"""Mean radius in metres (IUGG mean radius R1, rounded)."""
REFRACTION = 0.1721
"""Share of the earth's curve that light over the sea bends by, on a usual day.

From memory: the American Practical Navigator's tables leave 0.8279 of the curve; its Table 12
(distance of the horizon) is reproduced by this figure, and a test holds it.
"""


def profile(
    field: HeightField, start: Place, end: Place
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return metres along a straight grid line, twice a node spacing, and the heights (m) there."""
    length = float(np.hypot(end[0] - start[0], end[1] - start[1]))
    along = np.linspace(0.0, 1.0, max(2, int(np.ceil(2 * length / field.spacing)) + 1))
    e = start[0] + (end[0] - start[0]) * along
    n = start[1] + (end[1] - start[1]) * along
    return along * length, np.asarray(field.at(e, n))


def clear_view(
    field: HeightField, eye: Place, target: Place, *, eye_height: float, top: float, sea: float
) -> bool:
    """Return whether the top of a target can be seen over land, and over the curve of the sea.

    `eye_height` is metres above the ground or the sea where the eye is, whichever is higher;
    `top` is metres above chart datum; `sea` is the level of the sea above chart datum. The earth's
    bulge below a ray of length d at distance x is x(d - x)(1 - k)/2R, k the refraction. Ground
    within 60 m of either end is taken to belong to that end.
    """
    away, ground = profile(field, eye, target)
    surface = np.maximum(ground, sea)
    length = away[-1]
    ray = surface[0] + eye_height + (top - surface[0] - eye_height) * away / max(length, 1.0)
    bulge = away * (length - away) * (1.0 - REFRACTION) / (2.0 * EARTH_RADIUS)
    between = (away > 60.0) & (away < length - 60.0)
    return bool(np.all((surface + bulge <= ray)[between]))


def land_crossed(field: HeightField, start: Place, end: Place, level: float) -> float:
    """Return how many metres of a straight grid line lie on ground above `level`."""
    away, ground = profile(field, start, end)
    return float(np.mean(ground > level) * away[-1])
