"""Distance, speed and time: each from the other two, over legs, with rests, in a stream.

Distances are metres, speeds knots (1 kn = 1 NM an hour = 1852 m an hour), durations minutes.
Numbers or arrays go in, and the same come out. Instants are timezone-aware and UTC.
"""

from collections.abc import Sequence
from datetime import datetime

import numpy as np
from numpy.typing import ArrayLike

from navlib.angles import plain
from navlib.clock import later, minutes_between
from navlib.units import NM, Floats

HOUR = 60.0
"""Minutes in an hour."""

HULL_SPEED = 2.43
"""Knots per square root of a metre of waterline: 1.34 kn a root foot, common practice."""


def distance_run(speed_kn: Floats, minutes: Floats) -> Floats:
    """Return d = v t in metres."""
    return plain(np.multiply(speed_kn, minutes) / HOUR * NM)


def time_taken(distance: Floats, speed_kn: Floats) -> Floats:
    """Return t = d / v in minutes, t = 60 d / v with d in NM; raise ValueError unless v > 0."""
    if np.any(np.less_equal(speed_kn, 0)):
        raise ValueError(
            f"at {np.min(speed_kn):g} kn over the ground the boat never arrives; "
            "give a speed above 0, such as 3 kn"
        )
    return plain(np.divide(distance, NM) / speed_kn * HOUR)


def speed_needed(distance: Floats, minutes: Floats) -> Floats:
    """Return v = d / t in knots; raise ValueError unless t > 0."""
    if np.any(np.less_equal(minutes, 0)):
        raise ValueError(
            f"{np.min(minutes):g} min is no time to go in; give one above 0, such as 20 min"
        )
    return plain(np.divide(distance, NM) / minutes * HOUR)


# Several legs and rests -------------------------------------------------------------------------


def mean_speed(distances: ArrayLike, speeds_kn: ArrayLike) -> float:
    """Return Σd / Σt in knots: never the mean of the speeds, for the slow leg lasts longer."""
    distances, speeds_kn = np.broadcast_arrays(np.asarray(distances, dtype=float), speeds_kn)
    return float(speed_needed(distances.sum(), np.sum(time_taken(distances, speeds_kn))))


def with_rests(moving: Floats, every: float = HOUR, lasting: float = 5.0) -> Floats:
    """Return minutes from departure to arrival with a rest after each `every` minutes of moving.

    `moving` is the minutes under way. Who arrives when a rest is due has arrived: two hours hold
    one rest, not two. 5 to 10 minutes an hour are common practice for a paddling group.
    """
    # A hair off, so that legs summing to just over two hours by rounding hold one rest.
    rests = np.ceil(np.asarray(moving, dtype=float) / every - 1e-9) - 1
    return plain(moving + lasting * np.maximum(rests, 0))


def arrivals(
    distances: ArrayLike, speeds_kn: ArrayLike, every: float = HOUR, lasting: float = 0.0
) -> Floats:
    """Return minutes from departure to the end of each leg; the last is the whole passage.

    One distance and one speed a leg (or one speed for all); rests as in `with_rests`.
    """
    distances, speeds_kn = np.broadcast_arrays(np.asarray(distances, dtype=float), speeds_kn)
    return with_rests(np.cumsum(time_taken(distances, speeds_kn)), every, lasting)


def time_with_turns(
    distance: float, speed_kn: float, streams_kn: Sequence[float], turns: Sequence[float] = ()
) -> float:
    """Return the minutes for `distance` in a stream along the track that changes on the way.

    `streams_kn` are positive with the boat, negative against it; the second begins `turns[0]`
    minutes after departure and so on, and the last holds. Raises ValueError unless there is one
    turn fewer than streams, in order, or if the boat never arrives.
    """
    if len(turns) != len(streams_kn) - 1 or list(turns) != sorted(turns):
        raise ValueError(
            f"{len(streams_kn)} streams and turns {list(turns)} given; give one turn fewer than "
            "streams, in minutes from departure, earliest first, such as [0.5, -1.0] and [40]"
        )
    gone, begun = 0.0, 0.0
    for stream, turn in zip(streams_kn, turns, strict=False):
        over_ground = speed_kn + stream
        gone_by_turn = gone + distance_run(over_ground, turn - begun)
        if gone_by_turn >= distance:
            break
        gone, begun = gone_by_turn, turn
    else:
        over_ground = speed_kn + streams_kn[-1]
    return begun + time_taken(distance - gone, over_ground)


# By the clock -----------------------------------------------------------------------------------


def eta(departure: datetime, minutes: float) -> datetime:
    """Return the estimated time of arrival, exact; `clock.whole_minutes` rounds it, later."""
    return later(departure, minutes)


def latest_departure(deadline: datetime, minutes: float, reserve: float = 0.0) -> datetime:
    """Return deadline - passage - reserve, exact; `clock.whole_minutes` rounds it, earlier.

    A reserve of a quarter to a third of the time is common practice.
    """
    return later(deadline, -(minutes + reserve))


def speed_between(first: datetime, second: datetime, run: float) -> float:
    """Return the speed over the ground in knots from two fixes `run` metres apart."""
    return float(speed_needed(run, minutes_between(first, second)))


def revised_eta(first: datetime, second: datetime, run: float, to_go: float) -> datetime:
    """Return the ETA for `to_go` more metres at the speed made between two fixes."""
    return eta(second, time_taken(to_go, speed_between(first, second, run)))


# Rules of thumb ---------------------------------------------------------------------------------


def minutes_per_mile(speed_kn: Floats) -> Floats:
    """Return 60 / v, the minutes for one nautical mile: 20 at 3 kn, 15 at 4 kn. Exact."""
    return time_taken(NM, speed_kn)


def six_minute_run_nm(speed_kn: Floats) -> Floats:
    """Return v / 10, the nautical miles run in six minutes, a tenth of an hour. Exact."""
    return plain(np.divide(speed_kn, 10.0))


def metres_a_minute_by_rule(speed_kn: Floats) -> Floats:
    """Return 100 v / 3, for "100 m a minute at 3 kn"; 8 % over the exact 30.87 m a minute a knot.

    Common practice; for the head only.
    """
    return plain(np.multiply(speed_kn, 100.0) / 3)


def hull_speed_kn(waterline: Floats) -> Floats:
    """Return 2.43 √LWL, about where a displacement hull stops gaining; waterline in metres.

    Common practice; raises ValueError below zero.
    """
    if np.any(np.less(waterline, 0)):
        raise ValueError(f"a waterline of {np.min(waterline)} m; give its length, such as 4.9 m")
    return plain(HULL_SPEED * np.sqrt(waterline))
