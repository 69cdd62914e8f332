"""Metre grids: from latitude and longitude to easting and northing and back, and grid north.

Latitude and longitude are WGS84 degrees; easting and northing metres; floats or arrays. Everything
is written out as PROJ steps without correction grids, so that the answers are the same on every
machine. The national datum shifts are the simple seven-parameter ones: right to some metres, which
is enough for a six-figure reference and not for more.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from pyproj import Proj, Transformer
from pyproj.enums import TransformDirection
from pyproj.proj import Factors

from navlib.angles import plain, wrap
from navlib.geodesy import Leg
from navlib.units import Floats


@dataclass(frozen=True)
class Grid:
    """A metre grid: its `projection` in PROJ's words, and the steps to its datum from WGS84."""

    name: str
    projection: str
    datum: str = ""

    @property
    def pipeline(self) -> str:
        """The PROJ steps from WGS84 longitude, latitude and height to easting and northing."""
        return (
            "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad "
            f"{self.datum} +step {self.projection}"
        )

    @property
    def on_own_datum(self) -> "Grid":
        """The same grid for latitude and longitude that are on its own datum already."""
        return replace(self, datum="")


NATIONAL_HELMERT = (
    "+proj=helmert +x=-446.448 +y=125.157 +z=-542.06 +rx=-0.1502 +ry=-0.247 +rz=-0.8421 "
    "+s=20.4894 +convention=position_vector"
)
"""WGS84 to the national datum; A Guide to Coordinate Systems in Great Britain, v3.6, table 4."""

IRISH_HELMERT = (
    "+inv +proj=helmert +x=482.53 +y=-130.596 +z=564.557 +rx=-1.042 +ry=-0.214 +rz=-0.631 "
    "+s=8.15 +convention=position_vector"
)
"""WGS84 to the Irish datum (backwards); EPSG dataset, transformation 1641."""


def _shifted(helmert: str, ellipsoid: str) -> str:
    return f"+step +proj=cart +ellps=WGS84 +step {helmert} +step +inv +proj=cart +ellps={ellipsoid}"


NATIONAL = Grid(
    "National Grid",
    "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy",
    _shifted(NATIONAL_HELMERT, "airy"),
)
"""Great Britain's. Source: A Guide to Coordinate Systems in Great Britain, v3.6, annex A."""

IRISH = Grid(
    "Irish Grid",
    "+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000 +ellps=mod_airy",
    _shifted(IRISH_HELMERT, "mod_airy"),
)
"""Ireland's, with letters. Source: EPSG dataset, projected system 29903."""

IRISH_TM = Grid(
    "Irish Transverse Mercator",
    "+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000 +ellps=GRS80",
)
"""Ireland's newer metre grid, without letters. Source: EPSG dataset, projected system 2157."""

_WIDENED = (
    (56, 64, 3, 12, 32),
    (72, 84.5, 0, 9, 31),
    (72, 84.5, 9, 21, 33),
    (72, 84.5, 21, 33, 35),
    (72, 84.5, 33, 42, 37),
)
"""South, north, west and east limits, and the zone that fills them."""


def utm_zone(lat: float, lon: float) -> int:
    """Return the UTM zone, 1 to 60, with the wider zones by south-west Norway and Svalbard.

    Source: NGA.STND.0037, Universal Grids and Grid Reference Systems (2014), grid zones.
    """
    east = (lon + 180) % 360 - 180
    for south, north, west, limit, zone in _WIDENED:
        if south <= lat < north and west <= east < limit:
            return zone
    return int((east + 180) // 6) + 1


def utm(zone: int, north: bool = True) -> Grid:
    """Return the UTM grid of a zone, 1 to 60, of the northern or southern half of the Earth."""
    if zone not in range(1, 61):
        raise ValueError(f"UTM zones run from 1 to 60, and {zone} was given")
    side = "" if north else " +south"
    return Grid(
        f"UTM zone {zone}{'N' if north else 'S'}", f"+proj=utm +zone={zone}{side} +ellps=WGS84"
    )


def utm_at(lat: float, lon: float) -> Grid:
    """Return the UTM grid on which a place lies."""
    return utm(utm_zone(lat, lon), lat >= 0)


def ups(north: bool = True) -> Grid:
    """Return the grid about a pole (universal polar stereographic), used beyond 84 N and 80 S."""
    pole = 90 if north else -90
    return Grid(
        f"UPS {'north' if north else 'south'}",
        f"+proj=stere +lat_0={pole} +k=0.994 +x_0=2000000 +y_0=2000000 +ellps=WGS84",
    )


def to_grid(lat: Floats, lon: Floats, grid: Grid = NATIONAL) -> tuple[Floats, Floats]:
    """Return easting and northing in metres; raise ValueError where the grid cannot reach."""
    e, n = _transformer(grid).transform(*_pair(lon, lat))
    _reached(grid, e, n)
    return plain(e), plain(n)


def from_grid(easting: Floats, northing: Floats, grid: Grid = NATIONAL) -> tuple[Floats, Floats]:
    """Return latitude and longitude in degrees; raise ValueError where the grid cannot reach.

    There and back agree within two millimetres (heights are left out of the datum shift).
    """
    easting, northing = _pair(easting, northing)
    inverse = TransformDirection.INVERSE
    lon, lat = _transformer(grid).transform(easting, northing, direction=inverse)
    _reached(grid, lat, lon)
    return plain(lat), plain(lon)


def convergence(lat: Floats, lon: Floats, grid: Grid = NATIONAL) -> Floats:
    """Return the angle from true north to grid north in degrees, east positive.

    True bearing = grid bearing + convergence. Close to (lon - central meridian) sin lat, so on the
    National Grid west of 2° W grid north lies west of true north and this is negative. Counted from
    the meridian of the grid's own datum, which turns from the satellites' by 0.003 degrees at most.
    """
    return plain(_factors(lat, lon, grid).meridian_convergence)


def scale_factor(lat: Floats, lon: Floats, grid: Grid = NATIONAL) -> Floats:
    """Return grid distance over ground distance at a place: 0.9996 to 1.001 on these grids."""
    return plain(_factors(lat, lon, grid).meridional_scale)


def grid_leg(e1: Floats, n1: Floats, e2: Floats, n2: Floats) -> Leg:
    """Return grid distance in metres and grid bearing, both by Pythagoras, from place 1 to 2.

    What a straight line on the land map measures. The ground distance is this over
    `scale_factor`, the true bearing this plus `convergence`.
    """
    east, north = np.asarray(e2) - e1, np.asarray(n2) - n1
    return Leg(plain(np.hypot(east, north)), wrap(np.degrees(np.arctan2(east, north))))


def _pair(x: Floats, y: Floats) -> list[Floats]:
    return [np.array(v, float) for v in np.broadcast_arrays(x, y)]


def _reached(grid: Grid, *answers: Floats) -> None:
    if not np.all(np.isfinite(answers)):
        raise ValueError(
            f"this place is too far off for the {grid.name}: check that latitude comes before "
            "longitude, easting before northing, and that signs and zone are right"
        )


def _factors(lat: Floats, lon: Floats, grid: Grid) -> Factors:
    own_lon, own_lat = _to_datum(grid).transform(*_pair(lon, lat))
    factors = _proj(grid).get_factors(own_lon, own_lat)
    _reached(grid, factors.meridian_convergence)
    return factors


@lru_cache(maxsize=256)
def _transformer(grid: Grid) -> Transformer:
    return Transformer.from_pipeline(grid.pipeline)


@lru_cache(maxsize=256)
def _to_datum(grid: Grid) -> Transformer:
    return Transformer.from_pipeline(
        f"+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad {grid.datum} "
        "+step +proj=unitconvert +xy_in=rad +xy_out=deg"
    )


@lru_cache(maxsize=256)
def _proj(grid: Grid) -> Proj:
    return Proj(grid.projection)
