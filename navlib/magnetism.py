"""Where the compass points: the magnetic model, the printed rose, the angle to grid north.

Variation, convergence and the grid magnetic angle are degrees, east positive. The model is the
World Magnetic Model 2025 of NOAA NCEI and the British Geological Survey: Technical Report, 2024.
It knows the main field only: rocks, iron and magnetic storms come on top.
"""

import math
import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from threading import Lock
from typing import Any

import numpy as np
from pygeomag import GeoMag
from pygeomag.wmm.wmm_2025 import WMM_2025

from navlib.angles import (
    A,
    lower_marks,
    parse_east_west,
    plain,
    signed,
    signed_difference,
    to_nearest,
    write_east_west,
)
from navlib.language import either
from navlib.notation import Unclear, tidy

FIRST_YEAR, LAST_YEAR = 2025.0, 2030.0
"""The life of the model in decimal years; both ends are covered."""

When = date | datetime | float
"""A date, a moment, or a decimal year such as 2026.5."""


class OutsideModel(ValueError):
    """The model knows nothing about this date, place or height."""


def decimal_year(when: When) -> float:
    """Return a date or moment as a decimal year: 1 July 2026 is 2026.496; a year stays as it is.

    A date counts from its midnight, UTC; a moment without a zone is taken as UTC. Raises ValueError
    for anything else.
    """
    if isinstance(when, int | float | np.number) and not isinstance(when, bool):
        return float(when)
    if not isinstance(when, date):
        raise ValueError(f"“{when}” is no date; give a date, a datetime or a year such as 2026.5")
    moment = when if isinstance(when, datetime) else datetime(when.year, when.month, when.day)
    moment = moment.astimezone(UTC) if moment.tzinfo else moment.replace(tzinfo=UTC)
    start = datetime(moment.year, 1, 1, tzinfo=UTC)
    days = 366 if (start + timedelta(days=365)).year == start.year else 365
    return moment.year + (moment - start) / timedelta(days=days)


def nearest_half_year(when: When) -> float:
    """Return a date as the nearest whole or half year, fine enough for working a rose."""
    return to_nearest(decimal_year(when), 0.5)


# The model --------------------------------------------------------------------------------------

_MODEL = GeoMag(coefficients_data=WMM_2025)
_ONE_AT_A_TIME = Lock()  # the model keeps its working figures between calls


@lru_cache(maxsize=10_000)
def _field(lat: float, lon: float, year: float, height_m: float) -> tuple[float, float]:
    """Return the field's north and east parts in nT."""
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise OutsideModel(
            f"The World Magnetic Model 2025 covers {FIRST_YEAR} to {LAST_YEAR} (1 January 2025 to "
            f"1 January 2030); {year:.3f} lies outside. Give a date inside, or use a dated rose"
        )
    if not (abs(lat) <= 90 and abs(lon) <= 360):
        raise OutsideModel(
            f"There is no place at latitude {lat:g}, longitude {lon:g}. Give degrees, north and "
            "east positive, for example 58.8, -7.25"
        )
    if not -1_000 <= height_m <= 850_000:
        raise OutsideModel(
            f"The model covers heights from -1000 m to 850 000 m; {height_m:g} m was given"
        )
    with _ONE_AT_A_TIME:
        found = _MODEL.calculate(glat=lat, glon=lon, alt=height_m / 1000, time=year)
    return found.x, found.y


def _fields(lat: Any, lon: Any, year: float, height_m: Any) -> tuple[Any, Any]:
    lat, lon, height_m = np.broadcast_arrays(lat, lon, height_m)
    parts = [
        _field(*map(float, place[:2]), year, float(place[2]))
        for place in zip(lat.flat, lon.flat, height_m.flat, strict=True)
    ]
    north, east = np.reshape(parts, (*lat.shape, 2)).T
    return north.T, east.T


def variation(lat: A, lon: A, when: When, height_m: float = 0.0) -> A:
    """Return the magnetic variation in degrees, east positive.

    `lat`, `lon` in degrees WGS 84, north and east positive, single or arrays of one shape; `when` a
    date, a datetime or a decimal year; `height_m` above the ellipsoid. Raises OutsideModel outside
    2025.0 to 2030.0 and where there is no such place. Source: WMM2025 Technical Report.
    """
    north, east = _fields(lat, lon, decimal_year(when), height_m)
    return plain(np.degrees(np.arctan2(east, north)))


def annual_change(lat: A, lon: A, when: When, height_m: float = 0.0) -> A:
    """Return how the variation changes, in minutes of arc a year, east positive.

    Arguments and errors as for `variation`. dD/dt = (X dY/dt - Y dX/dt) / H², with X and Y the
    north and east parts of the field, which the model moves along straight lines in time.
    """
    north, east = _fields(lat, lon, decimal_year(when), height_m)
    first, last = (_fields(lat, lon, year, height_m) for year in (FIRST_YEAR, LAST_YEAR))
    d_north, d_east = ((b - a) / (LAST_YEAR - FIRST_YEAR) for a, b in zip(first, last, strict=True))
    radians = (north * d_east - east * d_north) / (north**2 + east**2)
    return plain(np.degrees(radians) * 60)


def uncertainty(lat: A, lon: A, when: When, height_m: float = 0.0) -> A:
    """Return the model's own uncertainty of the variation: one standard deviation, in degrees.

    Arguments and errors as for `variation`. √(0.26² + (5417 / H)²), H the horizontal field in nT:
    WMM2025 Technical Report, the error model. Large near the magnetic poles.
    """
    north, east = _fields(lat, lon, decimal_year(when), height_m)
    return plain(np.hypot(0.26, 5417 / np.hypot(north, east)))


# The printed rose -------------------------------------------------------------------------------


@dataclass(frozen=True)
class Rose:
    """The variation printed in a compass rose, and how to bring it to another year.

    `printed` in degrees, east positive, for the start of `year`; `annual_change` in minutes of arc
    a year, east positive; `source` says whose rose it is, such as "training rose, north sheet".
    Raises ValueError for figures that no rose can have.
    """

    printed: float
    year: float
    annual_change: float
    source: str = ""

    def __post_init__(self) -> None:
        if not abs(self.printed) <= 180:
            raise ValueError(f"a rose's variation lies within 180°; {self.printed:g} was given")
        if not 1500 <= self.year <= 2200:
            raise ValueError(f"a rose is dated with a year such as 2020, not {self.year:g}")
        if not math.isfinite(self.annual_change):
            raise ValueError("a rose's annual change is a number of minutes, such as 14.0")

    def variation(self, when: When) -> float:
        """Return D(t) = D0 + a (t - t0) / 60 in degrees, east positive."""
        years = decimal_year(when) - self.year
        return signed(self.printed + self.annual_change * years / 60)

    def write(self) -> str:
        """Return the rose's legend as charts print it: 4°00'W 2020 (14'E)."""
        side = "" if self.annual_change == 0 else "E" if self.annual_change > 0 else "W"
        change = f"{abs(self.annual_change):g}'{side}"
        return f"{write_east_west(self.printed)} {self.year:g} ({change})"


_YEAR = re.compile(r"(?<![\d.])(?:1[5-9]|2[01])\d\d(?:\.\d+)?(?![\d.°'])")
_AROUND = " ,;:.()[]"


def parse_rose(text: str, source: str = "") -> Rose:
    """Return the rose written as 4°00'W 2020 (14'E), "var 4 W 2020 (14'E)" or in the old wording.

    The old wording is "4°W 2020, decreasing 14' annually" or "annual change nil". A change without
    its mark is in minutes. Raises Unclear where the year or the change is missing or has no side.
    """
    given, text = tidy(text), lower_marks(text)
    example = "4°00'W 2020 (14'E)"
    year = _YEAR.search(text)
    if year is None:
        raise Unclear(given, "the year of the rose is missing", example)
    printed = parse_east_west(text[: year.start()].strip(_AROUND), example)
    change = re.sub(
        r"\b(?:annual(?:ly)?|change|per year|a year|yearly|about)\b", "", text[year.end() :]
    ).strip(_AROUND)
    if not change:
        ways = either([example, f"{example[:11]} (nil)"])
        raise Unclear(given, "the annual change is missing", ways)
    if change in ("nil", "none", "no"):
        return Rose(printed, float(year[0]), 0.0, source)
    if not re.search("[°']", change):
        change = re.sub(r"(\d)(?!.*\d)", r"\1'", change)
    if grows := re.match(r"(?:increasing|decreasing) ?", change):
        if printed == 0:
            raise Unclear(given, "a variation of zero cannot be said to grow or shrink", example)
        east = (printed > 0) == (change[0] == "i")
        change = change[grows.end() :] + ("e" if east else "w")
    return Rose(printed, float(year[0]), 60 * parse_east_west(change, example), source)


# To grid north ----------------------------------------------------------------------------------


def grid_magnetic_angle(variation: A, convergence: A | float) -> A:
    """Return GMA = D - γ in degrees, east positive, in (-180, 180]: from grid to magnetic north."""
    return signed_difference(variation, convergence)


def convergence_shortcut(lat: A, lon: A, central_meridian: float) -> A:
    """Return γ ≈ (λ - λ0) sin φ in degrees, east positive: grid north seen from true north.

    The shortcut that the trade teaches, for a transverse Mercator grid such as the National Grid
    (central meridian -2) or UTM zone 29 (-9). Within 0.01° up to 5° from the central meridian.
    """
    return plain(signed_difference(lon, central_meridian) * np.sin(np.radians(lat)))
