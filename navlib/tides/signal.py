"""The tide at a port as one turning arrow, which a stream that keeps step with the port follows."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from navlib.tides.constituents import CONSTITUENTS
from navlib.tides.curves import mean_high_water
from navlib.tides.levels import semidiurnal
from navlib.tides.moments import Floats, Times, utc
from navlib.tides.port import Port

Complex = NDArray[np.complex128]
_HALF_DAILY = 2  # how often such a constituent turns with the mean sun's hour angle (SP 98)


def turning(port: Port, times: Times) -> Complex:
    """Return how the half-daily tide of a port turns: complex, 1 long for mean M2 alone.

    Each constituent counts by its rate of rise, speed times amplitude, against M2's: the half-daily
    rise of the water, m/s, is the real part of i (speed of M2, rad/s) (amplitude of M2, m) times
    the answer, which is real and positive at high water. ValueError for a port without M2 or S2.
    """
    moments = utc(times)
    real, imaginary = _quarters(port)
    return np.asarray(real.heights(moments) + 1j * np.asarray(imaginary.heights(moments)))


@lru_cache(maxsize=64)
def _quarters(port: Port) -> tuple[Port, Port]:
    """Return the half-daily tide as two tides about 0, the second a quarter turn behind."""
    m2, _ = semidiurnal(port)
    whole = CONSTITUENTS["M2"].speed * m2
    parts = {
        name: (CONSTITUENTS[name].speed * amplitude / whole, lag)
        for name, (amplitude, lag) in port.constituents.items()
        if CONSTITUENTS[name].turns[0] == _HALF_DAILY
    }
    behind = {name: (amplitude, lag + 90) for name, (amplitude, lag) in parts.items()}
    return Port(0.0, parts, nodes=port.nodes), Port(0.0, behind, nodes=port.nodes)


def mean_turning(port: Port, hours: Floats, s2_behind: float = 0.0) -> Complex:
    """Return how the mean spring tide turns at `hours` from its high water: see `turning`.

    With `s2_behind` 180 it is the mean neap tide. Raises ValueError for a port without M2 or S2.
    """
    m2, s2 = semidiurnal(port)
    since = np.asarray(hours) + mean_high_water(port, s2_behind)
    speeds = [CONSTITUENTS[name].speed for name in ("M2", "S2")]
    share = speeds[1] * s2 / (speeds[0] * m2)
    angles = np.radians([speeds[0] * since, speeds[1] * since - s2_behind])
    return np.asarray(np.exp(1j * angles[0]) + share * np.exp(1j * angles[1]))
