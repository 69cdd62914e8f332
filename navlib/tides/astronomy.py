"""Where moon and sun stand on average, and how the moon's orbit leans as its node goes round.

Source throughout: P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, US Coast and
Geodetic Survey Special Publication 98, revised edition 1940 (below: SP 98).
"""

from dataclasses import dataclass

import numpy as np

from navlib.tides.moments import Floats, Moments

EPOCH = np.datetime64("1899-12-31T12:00", "us")
"""Greenwich mean noon from which SP 98 counts its Julian centuries."""

HOURS_A_CENTURY = 36525 * 24
_CIRCLE = 360 * 3600  # seconds of arc


def _arc(degrees: int, minutes: int, seconds: float) -> float:
    return (degrees * 60 + minutes) * 60 + seconds


# SP 98, table 1, in seconds of arc: mean longitude at the epoch, then what each power of the
# Julian centuries since then adds.
_LONGITUDES = {
    "s": (_arc(270, 26, 14.72), 1336 * _CIRCLE + 1_108_411.20, 9.09, 0.0068),  # the moon
    "h": (_arc(279, 41, 48.04), 129_602_768.13, 1.089, 0.0),  # the sun
    "p": (_arc(334, 19, 40.87), 11 * _CIRCLE + 392_515.94, -37.24, -0.045),  # lunar perigee
    "N": (_arc(259, 10, 57.12), -5 * _CIRCLE - 482_912.63, 7.58, 0.008),  # moon's node
    "p1": (_arc(281, 13, 15.00), 6_189.03, 1.63, 0.012),  # solar perigee
}


def longitude(element: str, times: Moments) -> Floats:
    """Return a mean longitude in degrees [0, 360) at `times` (datetime64, UTC).

    `element` is s (moon), h (sun), p (lunar perigee), N (moon's ascending node) or p1 (solar
    perigee), the symbols of SP 98, table 1.
    """
    centuries = (times - EPOCH) / np.timedelta64(HOURS_A_CENTURY, "h")
    return np.polynomial.polynomial.polyval(centuries, _LONGITUDES[element]) / 3600 % 360


def speed(element: str) -> float:
    """Return the mean speed of a longitude in degrees per hour (SP 98, table 1)."""
    return _LONGITUDES[element][1] / 3600 / HOURS_A_CENTURY


@dataclass(frozen=True)
class Orbit:
    """The moon's orbit against the equator; angles in degrees, arrays of one shape.

    `inclination` I of the orbit to the equator; `nu` right ascension and `xi` longitude in the
    orbit of their crossing; `nu_prime` and `two_nu_second` the like for the joint lunar and solar
    K1 and K2; `perigee` P, longitude of the lunar perigee counted from the crossing.
    """

    inclination: Floats
    nu: Floats
    xi: Floats
    nu_prime: Floats
    two_nu_second: Floats
    perigee: Floats


OBLIQUITY = 23.452
"""Of the ecliptic to the equator, degrees, 1 January 1900 (SP 98, table 1)."""
MOON_TO_ECLIPTIC = 5.145
"""Inclination of the moon's orbit to the ecliptic, degrees (SP 98, table 1)."""


def orbit(times: Moments) -> Orbit:
    """Return the moon's orbit at `times` (datetime64, UTC; any shape).

    The spherical triangle of equator, ecliptic and orbit, solved by half angles; SP 98, formulas
    224 and 232 for the two joint angles.
    """
    tan, sin, cos = np.tan, np.sin, np.cos
    omega, i = np.radians(OBLIQUITY), np.radians(MOON_TO_ECLIPTIC)
    node = np.radians((longitude("N", times) + 180) % 360 - 180)  # halves without a jump
    inclination = np.arccos(cos(i) * cos(omega) - sin(i) * sin(omega) * cos(node))
    half_sum = np.arctan(cos((omega - i) / 2) / cos((omega + i) / 2) * tan(node / 2))
    half_difference = np.arctan(sin((omega - i) / 2) / sin((omega + i) / 2) * tan(node / 2))
    xi = node - half_sum - half_difference
    nu = half_sum - half_difference
    double, square = sin(2 * inclination), sin(inclination) ** 2
    return Orbit(
        np.degrees(inclination),
        np.degrees(nu),
        np.degrees(xi),
        np.degrees(np.arctan2(double * sin(nu), double * cos(nu) + 0.3347)),
        np.degrees(np.arctan2(square * sin(2 * nu), square * cos(2 * nu) + 0.0727)),
        (longitude("p", times) - np.degrees(xi)) % 360,
    )
