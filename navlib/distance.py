"""Distance on paper and on the ground: scale, the Mercator latitude scale, legs, how far one sees.

A scale is the denominator of the representative fraction, 50 000 for 1:50 000. Paper is in
millimetres, the ground in metres; floats or numpy arrays.
"""

import numpy as np
from numpy.typing import ArrayLike

from navlib.angles import plain
from navlib.geodesy import meridional_parts, minute_of_latitude, parallel_radius
from navlib.units import FOOT, NM, Floats

# Paper and ground -------------------------------------------------------------------------------


def ground_m(paper_mm: Floats, scale: Floats) -> Floats:
    """Return metres on the ground for millimetres on a sheet of 1:`scale`; d = m S."""
    return paper_mm * scale / 1000


def paper_mm(ground_m: Floats, scale: Floats) -> Floats:
    """Return millimetres on a sheet of 1:`scale` for metres on the ground."""
    return ground_m * 1000 / scale


def scale_from(paper_mm: Floats, ground_m: Floats) -> Floats:
    """Return the scale of a sheet on which `ground_m` measures `paper_mm`."""
    return ground_m * 1000 / paper_mm


def mm_per_nm(scale: Floats) -> Floats:
    """Return millimetres to a nautical mile: 74.1 at 1:25 000, 37.0 at 1:50 000."""
    return paper_mm(NM, scale)


def print_factor(bar_mm: Floats, true_mm: Floats = 100.0) -> Floats:
    """Return by how much a copier or printer stretched the sheet, from its check bar.

    A 100 mm bar that measures 96 mm gives 0.96: lengths are 4 % short, bearings are right.
    """
    return bar_mm / true_mm


def scale_after_copying(scale: Floats, factor: Floats) -> Floats:
    """Return the scale of a copy `factor` times as large: 1:25 000 at 0.5 becomes 1:50 000."""
    return scale / factor


# A Mercator chart -------------------------------------------------------------------------------


def mercator_scale(scale: Floats, at_lat: Floats, lat: Floats) -> Floats:
    """Return the scale at `lat` on a Mercator chart whose title gives 1:`scale` at `at_lat`.

    Exact on the ellipsoid: parallels are drawn alike long whatever their radius.
    Source: J. P. Snyder, Map Projections: A Working Manual, USGS Prof. Paper 1395 (1987), eq. 7-8.
    """
    return scale * parallel_radius(lat) / parallel_radius(at_lat)


def mercator_scale_by_cosine(scale: Floats, at_lat: Floats, lat: Floats) -> Floats:
    """Return the scale at `lat` as the trade says it: a Mercator chart grows as 1/cos lat.

    A shortcut over the sphere, within 0.4 % of `mercator_scale` and far less across one sheet.
    """
    return plain(scale * np.cos(np.radians(lat)) / np.cos(np.radians(at_lat)))


def latitude_scale_mm(lat1: Floats, lat2: Floats, scale: Floats, at_lat: Floats) -> Floats:
    """Return millimetres up the side of a Mercator chart from `lat1` to `lat2`, north positive."""
    minute_mm = np.radians(1 / 60) * parallel_radius(at_lat) * 1000 / scale
    return (meridional_parts(lat2) - meridional_parts(lat1)) * minute_mm


def on_latitude_scale(span_mm: Floats, level_lat: Floats, scale: Floats, at_lat: Floats) -> Floats:
    """Return the minutes of latitude that dividers span at the side, level with the leg.

    The trade reads them as nautical miles. `level_lat` is the leg's middle latitude.
    """
    ground = ground_m(span_mm, mercator_scale(scale, at_lat, level_lat))
    return ground / minute_of_latitude(level_lat)


def on_longitude_scale(span_mm: Floats, scale: Floats, at_lat: Floats) -> Floats:
    """Return the minutes of longitude that dividers span at the top edge: no measure of distance.

    Taken for nautical miles it is the slip that makes a leg 1/cos lat times too long.
    """
    return ground_m(span_mm, scale) / (np.radians(1 / 60) * parallel_radius(at_lat))


def scale_from_latitudes(lat1: Floats, lat2: Floats, apart_mm: Floats) -> Floats:
    """Return the scale, at the middle latitude, of a chart with two parallels `apart_mm` apart.

    For a sheet whose title is torn off. Exact to 0.01 % for parallels within a degree.
    """
    middle = (np.asarray(lat1) + lat2) / 2
    ground = np.abs(np.asarray(lat2) - lat1) * 60 * minute_of_latitude(middle)
    return plain(scale_from(apart_mm, ground))


# Legs -------------------------------------------------------------------------------------------


def leg_lengths(points: ArrayLike) -> Floats:
    """Return the lengths of the straight legs between `points`, shape (n, 2), in their own unit."""
    line = np.asarray(points, float)
    if line.ndim != 2 or line.shape[1] != 2 or len(line) < 2:
        raise ValueError(
            f"a line needs at least two points of two numbers each, and this has shape "
            f"{line.shape}: give it like [(96500, 1002300), (97100, 1003000)]"
        )
    return np.hypot(*np.diff(line, axis=0).T)


def line_length(points: ArrayLike) -> float:
    """Return the sum of the legs between `points`, shape (n, 2), in their own unit."""
    return float(leg_lengths(points).sum())


# How far one sees -------------------------------------------------------------------------------

HORIZON = 2.08
"""Nautical miles to the horizon from a height of one metre: common practice; tables differ."""

HORIZON_PUB_9 = 1.17 / FOOT**0.5
"""The same as NGA Pub. 9, American Practical Navigator (2024), Table 12 has it: 1.17 from a foot.

It is 2.12: Table 12 bends light a little more than the figure in common use.
"""


def horizon_m(height_m: Floats, constant: Floats = HORIZON) -> Floats:
    """Return the distance in metres of the sea horizon from an eye `height_m` above the water.

    d = k √h, with k in nautical miles for one metre; raises ValueError below the water.
    """
    if np.any(np.asarray(height_m) < 0):
        raise ValueError(f"an eye at {height_m} m is below the water: give a height of 0 or more")
    return plain(constant * NM * np.sqrt(height_m))


def dipping_distance_m(light_m: Floats, eye_m: Floats, constant: Floats = HORIZON) -> Floats:
    """Return the distance in metres at which a light just shows over the horizon.

    d = k (√h + √e): the two horizons added. Heights are metres above the water as it stands now,
    which the tide and the swell change. This is the geographical range; whether the light is
    strong enough to carry so far is another matter.
    """
    return horizon_m(light_m, constant) + horizon_m(eye_m, constant)
