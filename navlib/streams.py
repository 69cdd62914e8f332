"""Tidal streams: today's rate, rules for the hours between slacks, and the vector triangle.

A stream is named by its set, the direction it flows to, and its rate. Directions are degrees true
in [0, 360), speeds and rates knots. Numbers or arrays go in, and the same come out.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from navlib.angles import plain, wrap
from navlib.units import NM, Floats

THIRDS = np.array([1, 2, 3, 3, 2, 1]) / 3
"""Mean rate in each hour after slack over the greatest rate: the thirds rule, common practice."""

FIFTY_NINETY = np.array([0, 50, 90, 100, 90, 50, 0]) / 100
"""Rate AT each hour from slack to slack over the greatest rate: 50/90 rule, common practice."""


class ImpossibleCrossing(ValueError):
    """The stream is too strong: no course keeps the boat on the track and moving along it."""


def rate_today(
    springs_kn: Floats,
    neaps_kn: Floats,
    range_today: Floats,
    springs_range: float,
    neaps_range: float,
) -> Floats:
    """Return today's rate, Rn + (Rs - Rn)(r - rn)/(rs - rn), in knots.

    Rates at mean springs and neaps as the table prints them, ranges in metres at the port that the
    table names. Straight on beyond the means, never below zero. Raises ValueError if the mean
    ranges are equal. Common practice (the straight line through the two mean ranges).
    """
    if springs_range == neaps_range:
        raise ValueError(
            f"springs and neaps have the same range here, {neaps_range} m; give both means, "
            "such as 4.2 and 1.7 m"
        )
    part = (np.asarray(range_today) - neaps_range) / (springs_range - neaps_range)
    between = neaps_kn + (np.asarray(springs_kn) - neaps_kn) * part
    return plain(np.maximum(between, 0.0))


def thirds(greatest_kn: float) -> NDArray[np.float64]:
    """Return the mean rate in each of the six hours from slack to slack by thirds, in knots."""
    return greatest_kn * THIRDS


def fifty_ninety(greatest_kn: float) -> NDArray[np.float64]:
    """Return the rate at 0, 1 ... 6 hours after slack by the 50/90 rule, in knots."""
    return greatest_kn * FIFTY_NINETY


def sine_hours(greatest_kn: float) -> NDArray[np.float64]:
    """Return the mean rate in each of six hours of a half sine, which the rules stand for."""
    return greatest_kn * 6 / np.pi * -np.diff(np.cos(np.arange(7) * np.pi / 6))


# The vector triangle: water track + stream = ground track ---------------------------------------


def vector(direction: ArrayLike, length: ArrayLike) -> NDArray[np.float64]:
    """Return (east, north) of an arrow, in the unit of its length; shape (2, ...)."""
    radians = np.radians(np.asarray(direction, dtype=float))
    return np.asarray(length) * np.stack([np.sin(radians), np.cos(radians)])


def arrow(east: ArrayLike, north: ArrayLike) -> tuple[Floats, Floats]:
    """Return the direction in [0, 360) and the length of the arrow (east, north)."""
    return wrap(plain(np.degrees(np.arctan2(east, north)))), plain(np.hypot(east, north))


def made_good(
    course: Floats, speed_kn: Floats, set_to: Floats, rate_kn: Floats
) -> tuple[Floats, Floats]:
    """Return the course and speed made good (CMG, SMG) on a water track in a stream."""
    return arrow(*(vector(course, speed_kn) + vector(set_to, rate_kn)))


def course_to_steer(
    track: Floats, speed_kn: Floats, set_to: Floats, rate_kn: Floats
) -> tuple[Floats, Floats]:
    """Return the course to steer and the speed made good along `track`.

    With β = set - track: α = asin(S/V sin β), CTS = track - α, SMG = V cos α + S cos β. No leeway.
    Raises ImpossibleCrossing if the stream across the track is more than the boat's speed, or if
    the boat would not move forward along it.
    """
    beta = np.radians(np.asarray(set_to, dtype=float) - track)
    across, along = rate_kn * np.sin(beta), rate_kn * np.cos(beta)
    speed = np.asarray(speed_kn, dtype=float)
    if np.any(np.abs(across) > speed):
        raise ImpossibleCrossing(
            f"the stream sets {np.max(np.abs(across)):.1f} kn across the track, which is more than "
            f"the boat's {np.min(speed):.1f} kn; wait for a weaker stream, or choose another track"
        )
    ahead = np.sqrt(speed**2 - across**2)
    if np.any(ahead + along <= 0):
        raise ImpossibleCrossing(
            f"along the track the stream takes {np.max(-along):.1f} kn and the boat has "
            f"{np.min(ahead):.1f} kn to set against it; wait for a weaker stream"
        )
    alpha = plain(np.degrees(np.arctan2(across, ahead)))
    return wrap(track - alpha), plain(ahead + along)


def course_and_speed(
    track: Floats, smg_kn: Floats, set_to: Floats, rate_kn: Floats
) -> tuple[Floats, Floats]:
    """Return the course and the speed through the water that make good `smg_kn` along `track`."""
    return arrow(*(vector(track, smg_kn) - vector(set_to, rate_kn)))


def steer_off_by_rule(speed_kn: Floats, rate_kn: Floats) -> Floats:
    """Return α by the deck rule, 60 S/V degrees, for a stream about square to the track.

    Common practice for S/V up to one half: 1.5 kn on 4 kn gives 22°.
    """
    return plain(60.0 * np.asarray(rate_kn) / speed_kn)


def drift(sets_to: ArrayLike, rates_kn: ArrayLike, hours: ArrayLike = 1.0) -> tuple[float, float]:
    """Return how far the streams of several periods carry a boat: (east, north) in metres.

    One set and rate a period, each lasting `hours` (one value for all, or one each). The arrows
    are added, never the angles.
    """
    carried = vector(sets_to, np.asarray(rates_kn) * np.asarray(hours) * NM)
    east, north = carried.reshape(2, -1).sum(axis=1)
    return float(east), float(north)


def stream_found(east: float, north: float, minutes: float) -> tuple[float, float]:
    """Return the set and rate that moved a boat by (east, north) metres from its DR to its fix.

    `minutes` have gone by since the last fix. Raises ValueError unless they are above zero.
    """
    if minutes <= 0:
        raise ValueError(f"{minutes} min between fixes; give a time above 0, such as 30 min")
    set_to, metres = arrow(east, north)
    return set_to, metres / NM / (minutes / 60)
