"""Over the Earth's ellipsoid: geodesics, rhumb lines, destinations, the length of a degree.

A geodesic is the shortest way; a rhumb line keeps one bearing and is what a straight line on a
Mercator chart measures. Latitudes and longitudes are degrees (north and east positive), floats or
arrays that broadcast; bearings are true. `ellipsoid` is a name that PROJ knows.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from pyproj import Geod, Proj

from navlib.angles import plain, signed, wrap
from navlib.latlon import LatLon
from navlib.units import Floats


class Leg(NamedTuple):
    """A straight leg: its length in metres, and its bearing at the start in degrees [0, 360)."""

    distance_m: Floats
    bearing: Floats


def geodesic(
    lat1: Floats, lon1: Floats, lat2: Floats, lon2: Floats, *, ellipsoid: str = "WGS84"
) -> Leg:
    """Return the shortest distance in metres and its initial true bearing.

    The bearing is 0 where the two places are one. Raises ValueError for a latitude beyond 90.
    Source: C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013), in PROJ.
    """
    lat1, lon1, lat2, lon2 = _checked(lat1, lon1, lat2, lon2)
    bearing, _, distance = _geod(ellipsoid).inv(lon1, lat1, lon2, lat2)
    bearing = np.where(np.asarray(distance) == 0, 0.0, bearing)
    return Leg(plain(distance), wrap(bearing))


def geodesic_destination(
    lat1: Floats, lon1: Floats, bearing: Floats, distance_m: Floats, *, ellipsoid: str = "WGS84"
) -> LatLon:
    """Return the place reached along the geodesic that starts on the true `bearing`."""
    lat1, lon1, bearing, distance_m = _checked(lat1, lon1, bearing, distance_m, latitudes=1)
    lon2, lat2, _ = _geod(ellipsoid).fwd(lon1, lat1, bearing, distance_m)
    return LatLon(plain(lat2), signed(lon2))


def geodesic_along(
    lat1: Floats,
    lon1: Floats,
    lat2: Floats,
    lon2: Floats,
    fraction: Floats,
    *,
    ellipsoid: str = "WGS84",
) -> LatLon:
    """Return the places at each `fraction` (0 to 1) of the geodesic from place 1 to place 2."""
    leg = geodesic(lat1, lon1, lat2, lon2, ellipsoid=ellipsoid)
    part = leg.distance_m * np.asarray(fraction)
    return geodesic_destination(lat1, lon1, leg.bearing, part, ellipsoid=ellipsoid)


def rhumb(
    lat1: Floats, lon1: Floats, lat2: Floats, lon2: Floats, *, ellipsoid: str = "WGS84"
) -> Leg:
    """Return distance in metres and true bearing along the rhumb line, the shorter way round.

    Northing is the meridian's arc; easting is the difference of longitude on the mean parallel
    between the two, the exact form of "departure = d.long x cos mid-latitude".
    Raises ValueError for a latitude beyond 90.
    Source: J. P. Snyder, Map Projections: A Working Manual, USGS Prof. Paper 1395 (1987),
    section 7 (ellipsoidal Mercator); checked against the rhumb lines of GeographicLib.
    """
    lat1, lon1, lat2, lon2 = _checked(lat1, lon1, lat2, lon2)
    north = _meridian_arc(lat1, lat2, ellipsoid)
    east = np.radians(signed(lon2 - lon1)) * _mean_parallel(lat1, lat2, ellipsoid)
    return Leg(plain(np.hypot(north, east)), wrap(np.degrees(np.arctan2(east, north))))


def rhumb_destination(
    lat1: Floats, lon1: Floats, bearing: Floats, distance_m: Floats, *, ellipsoid: str = "WGS84"
) -> LatLon:
    """Return the place reached by keeping the true `bearing` for `distance_m`.

    At a pole itself, where a rhumb line winds for ever, the longitude stays that of the start.
    Raises ValueError where the distance would carry beyond a pole.
    """
    lat1, lon1, bearing, distance_m = _checked(lat1, lon1, bearing, distance_m, latitudes=1)
    north = distance_m * np.cos(np.radians(bearing))
    east = distance_m * np.sin(np.radians(bearing))
    meridian, lat2, _ = _geod(ellipsoid).fwd(np.zeros_like(lat1), lat1, np.zeros_like(lat1), north)
    if np.any((np.abs(meridian) > 90) & (90 - np.abs(lat2) > 1e-9)):
        raise ValueError(
            "this rhumb line runs into the pole before its distance is done: "
            "give a shorter distance, or use geodesic_destination"
        )
    radius = _mean_parallel(lat1, lat2, ellipsoid)
    at_pole = radius < 1e-6
    turned = np.where(at_pole, 0.0, east / np.where(at_pole, 1.0, radius))
    return LatLon(plain(lat2), signed(lon1 + np.degrees(turned)))


def rhumb_along(
    lat1: Floats,
    lon1: Floats,
    lat2: Floats,
    lon2: Floats,
    fraction: Floats,
    *,
    ellipsoid: str = "WGS84",
) -> LatLon:
    """Return the places at each `fraction` (0 to 1) of the rhumb line from place 1 to place 2."""
    leg = rhumb(lat1, lon1, lat2, lon2, ellipsoid=ellipsoid)
    part = leg.distance_m * np.asarray(fraction)
    return rhumb_destination(lat1, lon1, leg.bearing, part, ellipsoid=ellipsoid)


def meridian_radius(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return the radius in metres of the curve that a meridian follows at `lat`.

    Source: Snyder (1987), eq. 4-18, with the semi-axis and eccentricity that pyproj holds.
    """
    geod = _geod(ellipsoid)
    bent = 1 - geod.es * np.sin(np.radians(lat)) ** 2
    return plain(geod.a * (1 - geod.es) / bent**1.5)


def parallel_radius(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return the radius in metres of the circle of latitude `lat`.

    Source: Snyder (1987), eq. 4-20 times cos lat.
    """
    geod = _geod(ellipsoid)
    bent = 1 - geod.es * np.sin(np.radians(lat)) ** 2
    return plain(geod.a * np.cos(np.radians(lat)) / np.sqrt(bent))


def degree_of_latitude(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return the metres in a degree of latitude at `lat`: 110 574 at the equator, 111 694 at 90."""
    return np.radians(1) * meridian_radius(lat, ellipsoid=ellipsoid)


def degree_of_longitude(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return the metres in a degree of longitude at `lat`: 111 320 at the equator, 0 at a pole."""
    return np.radians(1) * parallel_radius(lat, ellipsoid=ellipsoid)


def minute_of_latitude(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return the metres in a minute of latitude at `lat`; the trade's nautical mile is 1852."""
    return degree_of_latitude(lat, ellipsoid=ellipsoid) / 60


def minute_of_longitude(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return the metres in a minute of longitude at `lat`."""
    return degree_of_longitude(lat, ellipsoid=ellipsoid) / 60


def meridional_parts(lat: Floats, *, ellipsoid: str = "WGS84") -> Floats:
    """Return how far `lat` is from the equator on a Mercator chart, in minutes of its longitude.

    Infinite at a pole. Source: Snyder (1987), eq. 7-7, as pyproj's Mercator projection.
    """
    lat = np.asarray(lat, float)
    pole = np.abs(lat) >= 90
    _, y = _mercator(ellipsoid)(np.zeros_like(lat), np.where(pole, 0.0, lat))
    parts = np.degrees(np.asarray(y) / _geod(ellipsoid).a) * 60
    return plain(np.where(pole, np.copysign(np.inf, lat), parts))


def _mean_parallel(lat1: Floats, lat2: Floats, ellipsoid: str) -> Floats:
    """Return metres of departure to a radian of longitude, mean over a rhumb line between two.

    The quotient of the meridian's arc on the ground and on the chart loses its figures where both
    are tiny; there the parallel in the middle differs from it by less than the rounding.
    """
    north = _meridian_arc(lat1, lat2, ellipsoid)
    with np.errstate(invalid="ignore"):  # from a pole to the same pole: taken as level below
        parts1 = meridional_parts(lat1, ellipsoid=ellipsoid)
        charted = np.radians((meridional_parts(lat2, ellipsoid=ellipsoid) - parts1) / 60)
    middle = (lat1 + lat2) / 2
    level = np.abs(lat2 - lat1) <= 1e-5 * (90 - np.abs(middle))
    return np.where(
        level, parallel_radius(middle, ellipsoid=ellipsoid), north / np.where(level, 1.0, charted)
    )


def _meridian_arc(lat1: Floats, lat2: Floats, ellipsoid: str) -> Floats:
    """Return the metres from `lat1` north to `lat2` along a meridian, negative southward."""
    nought = np.zeros_like(lat1)
    _, _, arc = _geod(ellipsoid).inv(nought, lat1, nought, lat2)
    return np.copysign(arc, lat2 - lat1)


def _checked(*numbers: Floats, latitudes: int = 2) -> list[Floats]:
    """Return lat, lon, lat, lon (or lat, lon, others) broadcast; raise for a latitude over 90."""
    shaped: list[Floats]
    if all(isinstance(number, float | int) for number in numbers):
        shaped = [float(number) for number in numbers]  # one of each: several times as fast
    else:
        shaped = [np.array(a, float) for a in np.broadcast_arrays(*numbers)]
    for lat in shaped[::2][:latitudes]:
        if np.any(np.abs(lat) > 90):
            beyond = np.asarray(lat)
            raise ValueError(
                f"a latitude of {beyond[np.abs(beyond) > 90].flat[0]:g} is beyond the pole: latitude "
                "comes before longitude and lies between -90 and 90, such as 58.78"
            )
    return shaped


@lru_cache
def _geod(ellipsoid: str) -> Geod:
    return Geod(ellps=ellipsoid)


@lru_cache
def _mercator(ellipsoid: str) -> Proj:
    return Proj(f"+proj=merc +ellps={ellipsoid}")
