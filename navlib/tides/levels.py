"""The levels tides are measured by, and springs and neaps, from a port's harmonic constants."""

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

import numpy as np

from navlib.tides.constituents import arguments, factors
from navlib.tides.crossings import MINUTE, crossings
from navlib.tides.moments import Floats, Moments, One, aware, moment
from navlib.tides.port import Port

NODAL_ROUND = (2020, 2038)
"""First and last calendar year of the 19 over which highest and lowest tides are sought."""


@dataclass(frozen=True)
class Levels:
    """Tidal levels in metres above chart datum, by their usual short names."""

    hat: float
    mhws: float
    mhwn: float
    msl: float
    mlwn: float
    mlws: float
    lat: float

    @property
    def spring_range(self) -> float:
        """Mean spring range in metres."""
        return self.mhws - self.mlws

    @property
    def neap_range(self) -> float:
        """Mean neap range in metres."""
        return self.mhwn - self.mlwn

    def spring_fraction(self, tide_range: float) -> float:
        """Return where a range lies, from mean neaps 0 to mean springs 1, and on beyond both."""
        return (tide_range - self.neap_range) / (self.spring_range - self.neap_range)

    def spring_or_neap(self, tide_range: float) -> str:
        """Return "springs", "neaps" or "between" for a range.

        Within a quarter of the way from either mean counts as that one (our choice; the trade
        says it by eye).
        """
        fraction = self.spring_fraction(tide_range)
        return "springs" if fraction >= 0.75 else "neaps" if fraction <= 0.25 else "between"


def semidiurnal(port: Port) -> tuple[float, float]:
    """Return the amplitudes of M2 and S2 in metres; ValueError if the port lacks one of them."""
    m2, s2 = (port.constituents.get(name, (0.0, 0.0))[0] for name in ("M2", "S2"))
    if not m2 or not s2:
        raise ValueError(
            f"springs and neaps come from M2 and S2 together, and {port.name or 'this port'} "
            f"has no {'S2' if m2 else 'M2'}"
        )
    return m2, s2


@lru_cache(maxsize=64)
def tidal_levels(port: Port, years: tuple[int, int] = NODAL_ROUND) -> Levels:
    """Return the levels of a port with a mainly half-daily tide.

    The means are the trade's rule from two constituents (common practice): springs M2 + S2 and
    neaps M2 - S2 above and below mean sea level; shallow-water tides are left out. HAT and LAT are
    the highest and lowest prediction of the calendar years `years`, both counted in, 19 of them
    by default, so that the moon's node goes once round (18.6 years). Remembered for each port.
    """
    m2, s2 = semidiurnal(port)
    springs, neaps, msl = m2 + s2, abs(m2 - s2), port.mean_level
    lat, hat = _lowest_and_highest(port, years)
    return Levels(
        hat=hat,
        mhws=msl + springs,
        mhwn=msl + neaps,
        msl=msl,
        mlwn=msl - neaps,
        mlws=msl - springs,
        lat=lat,
    )


def _lowest_and_highest(port: Port, years: tuple[int, int]) -> tuple[float, float]:
    """Return the lowest and highest height of the calendar years, both counted in."""
    start, end = (np.datetime64(f"{y:04d}-01-01", "us") for y in (years[0], years[1] + 1))
    half_hours = np.arange(start, end, 30 * MINUTE)
    heights = port.heights(half_hours)
    # Even M6 falls less than a twentieth of its range in the quarter hour about its top.
    spare = np.ptp(heights) / 20
    near = (heights >= heights.max() - spare) | (heights <= heights.min() + spare)
    minutes = port.heights(half_hours[near][:, None] + np.arange(-15, 16) * MINUTE)
    return float(minutes.min()), float(minutes.max())


def springs_and_neaps(port: Port, start: One, end: One) -> tuple[tuple[datetime, str], ...]:
    """Return (UTC time, "springs" or "neaps") in [start, end), in order.

    Springs are when M2 and S2 pull together, neaps when S2 is half a turn behind: a day or two
    after new and full moon and after the quarters, every 14.8 days each.
    """
    semidiurnal(port)
    lags = np.array([port.constituents[name][1] for name in ("M2", "S2")])

    def out_of_step(moments: Moments) -> Floats:
        _, u = factors(("M2", "S2"), moments)
        m2, s2 = (arguments(("M2", "S2"), moments) + u - lags).T
        return np.sin(np.radians(s2 - m2))

    moments, rising = crossings(out_of_step, moment(start), moment(end), 12 * 60 * MINUTE)
    return tuple(
        (aware(time), "springs" if up else "neaps")
        for time, up in zip(moments, rising, strict=True)
    )
