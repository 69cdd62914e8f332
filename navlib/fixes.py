"""Where position lines cross: from bearings of known marks to the place they were taken from.

A bearing of a mark puts the observer on a line through the mark. On a Mercator chart such a line is
drawn straight, a rhumb line, and over the few miles of a hand bearing that is what was seen.
"""

import math

from pyproj import Proj

from navlib.latlon import LatLon

Spot = tuple[float, float]
"""East and north, in any one unit of length."""

_MERCATOR = Proj(proj="merc", ellps="WGS84")
LEAST_CUT = 5.0
"""Angle between two lines, in degrees, below which they are almost one line and fix nothing."""


def lines_cross(a: Spot, bearing_a: float, b: Spot, bearing_b: float) -> Spot:
    """Return where the straight lines through two marks cross, drawn on these bearings.

    Bearings are degrees clockwise from north; it is the same whether they run to the mark or from
    it. Raises ValueError for lines that cross at less than `LEAST_CUT` degrees.
    """
    (ua, va), (ub, vb) = (
        (math.sin(math.radians(t)), math.cos(math.radians(t))) for t in (bearing_a, bearing_b)
    )
    across = ua * vb - va * ub
    if abs(across) < math.sin(math.radians(LEAST_CUT)):
        raise ValueError(
            f"the bearings {bearing_a:03.0f} and {bearing_b:03.0f} are almost one line: take marks "
            "that stand further apart, best at a right angle"
        )
    out = ((b[0] - a[0]) * vb - (b[1] - a[1]) * ub) / across
    return a[0] + out * ua, a[1] + out * va


def bearings_cross(a: LatLon, bearing_a: float, b: LatLon, bearing_b: float) -> LatLon:
    """Return the place whose rhumb lines to two marks have these true bearings, WGS 84 degrees.

    Raises ValueError as `lines_cross` does. Mercator's projection is pyproj's.
    """
    spot_a, spot_b = (_MERCATOR(place[1], place[0]) for place in (a, b))
    lon, lat = _MERCATOR(*lines_cross(spot_a, bearing_a, spot_b, bearing_b), inverse=True)
    return LatLon(float(lat), float(lon))
