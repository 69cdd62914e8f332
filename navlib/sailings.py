"""The sailings: positions and legs by hand, with the shortcuts that the trade teaches.

Every one takes a minute of latitude for a nautical mile (1852 m). The true minute is 1843 m at
the equator and 1862 m at the poles, so a leg worked here may be 0.5 % out; `navlib.geodesy` has
the exact rhumb line to lay beside it. Degrees, north and east positive; bearings are true.
"""

import numpy as np

from navlib.angles import plain, signed, wrap
from navlib.geodesy import Leg, meridional_parts
from navlib.latlon import LatLon
from navlib.units import NM, Floats


def difference_of_latitude(lat1: Floats, lat2: Floats) -> Floats:
    """Return the minutes from `lat1` to `lat2`, north positive."""
    return plain((np.asarray(lat2) - lat1) * 60)


def difference_of_longitude(lon1: Floats, lon2: Floats) -> Floats:
    """Return the minutes from `lon1` to `lon2` the shorter way, east positive."""
    return signed(np.asarray(lon2) - lon1) * 60


def departure_nm(dlong_min: Floats, lat: Floats) -> Floats:
    """Return nautical miles east for `dlong_min` minutes of longitude along the parallel `lat`.

    departure = d.long x cos lat; short by 0.3 % of itself at most (the Earth bulges).
    Source: NGA Pub. 9, American Practical Navigator, chapter 9, parallel sailing.
    """
    return plain(np.asarray(dlong_min) * np.cos(np.radians(lat)))


def dlong_min(departure_nm: Floats, lat: Floats) -> Floats:
    """Return the minutes of longitude for nautical miles east along the parallel `lat`."""
    return plain(np.asarray(departure_nm) / np.cos(np.radians(lat)))


def middle_latitude_sailing(lat1: Floats, lon1: Floats, lat2: Floats, lon2: Floats) -> Leg:
    """Return distance in metres and bearing, with departure taken on the middle parallel.

    Good for a leg of a few hundred miles that does not cross the equator.
    Source: NGA Pub. 9, American Practical Navigator, chapter 9, mid-latitude sailing.
    """
    north = difference_of_latitude(lat1, lat2)
    east = departure_nm(difference_of_longitude(lon1, lon2), (np.asarray(lat1) + lat2) / 2)
    return _leg(north, east)


def middle_latitude_destination(
    lat1: Floats, lon1: Floats, bearing: Floats, distance_m: Floats
) -> LatLon:
    """Return the place reached: d.lat = d cos B, d.long = d sin B / cos mid-latitude (minutes)."""
    north, east = _parts(bearing, distance_m)
    lat2 = lat1 + north / 60
    lon2 = lon1 + dlong_min(east, (lat1 + lat2) / 2) / 60
    return LatLon(plain(lat2), plain(lon2))


def mercator_sailing(lat1: Floats, lon1: Floats, lat2: Floats, lon2: Floats) -> Leg:
    """Return distance in metres and bearing by meridional parts: tan B = d.long / m.

    distance = d.lat / cos B fails on a parallel, so use parallel sailing near 090 and 270; raises
    ValueError where the two latitudes are one.
    Source: NGA Pub. 9, American Practical Navigator (2024), article 910.
    """
    if np.any(np.equal(lat1, lat2)):
        raise ValueError(
            "Mercator sailing cannot work a leg along a parallel (d.lat is 0): use departure_nm"
        )
    north = difference_of_latitude(lat1, lat2)
    east = difference_of_longitude(lon1, lon2) * north / _m(lat1, lat2)
    return _leg(north, east)


def mercator_destination(lat1: Floats, lon1: Floats, bearing: Floats, distance_m: Floats) -> LatLon:
    """Return the place reached by meridional parts: d.lat = d cos B, d.long = m tan B.

    Not for bearings within a degree of 090 or 270, where tan B runs away.
    Source: NGA Pub. 9, American Practical Navigator (2024), article 910.
    """
    north, _ = _parts(bearing, distance_m)
    lat2 = lat1 + north / 60
    lon2 = lon1 + _m(lat1, lat2) * np.tan(np.radians(bearing)) / 60
    return LatLon(plain(lat2), plain(lon2))


def _m(lat1: Floats, lat2: Floats) -> Floats:
    """Return the difference of meridional parts."""
    return meridional_parts(lat2) - meridional_parts(lat1)


def _leg(north_nm: Floats, east_nm: Floats) -> Leg:
    bearing = wrap(np.degrees(np.arctan2(east_nm, north_nm)))
    return Leg(plain(np.hypot(north_nm, east_nm) * NM), bearing)


def _parts(bearing: Floats, distance_m: Floats) -> tuple[Floats, Floats]:
    """Return nautical miles north and east."""
    angle = np.radians(bearing)
    return distance_m / NM * np.cos(angle), distance_m / NM * np.sin(angle)
