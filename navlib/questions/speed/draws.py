"""Numbers that one would meet afloat: legs and paces that come out in whole minutes, clock times."""

import random
from datetime import date, datetime, timedelta, tzinfo
from functools import cache

from navlib.clock import zone_info
from navlib.kinds.times import ANY_DAY
from navlib.questions.speed.steps import whole
from navlib.speed import time_taken
from navlib.units import NM

PADDLING = (2.5, 3.0, 3.5, 4.0)
"""Knots over the ground of a paddling group, loaded to fit; common practice."""
SMALL_BOATS = (*PADDLING, 4.5, 5.0, 6.0)
"""Knots of paddlers, and of a small yacht; common practice."""
WITH_MOTORS = (*SMALL_BOATS, 8.0, 10.0, 12.0, 15.0)
"""The same, and of small motor boats; common practice."""

SUMMER = date(2026, 7, 11)
"""A day on which the clocks ashore are not on UT."""


@cache
def legs(speeds: tuple[float, ...], shortest: int, longest: int) -> list[tuple[float, float]]:
    """Return distances in metres and speeds in knots that take whole minutes between two times."""
    return [
        (tenths / 10 * NM, speed)
        for speed in speeds
        for tenths in range(5, 500)
        if shortest <= (minutes := time_taken(tenths / 10 * NM, speed)) <= longest
        and whole(minutes)
    ]


def draw_leg(
    source: random.Random, speeds: tuple[float, ...], shortest: int, longest: int
) -> dict[str, float]:
    """Return a distance and a speed that take whole minutes; each speed as often as any other."""
    speed = source.choice(speeds)
    distance, _ = source.choice(legs((speed,), shortest, longest))
    return {"distance": distance, "speed": speed}


def draw_time(
    source: random.Random,
    earliest: int,
    latest: int,
    step: int = 5,
    zone: str = "UT",
    day: date = ANY_DAY,
) -> datetime:
    """Return a time of day between two full hours; hours past 24 belong to the next day."""
    return at(source.randrange(earliest * 60, latest * 60, step), zone_info(zone), day)


def at(minute: float, where: tzinfo, day: date = ANY_DAY) -> datetime:
    """Return the instant so many minutes after the midnight that begins `day`."""
    return datetime(day.year, day.month, day.day, tzinfo=where) + timedelta(minutes=minute)
