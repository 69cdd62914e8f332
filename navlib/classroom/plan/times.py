"""When each part of a session begins, by the clock on the wall."""

import re
from itertools import accumulate

from navlib.classroom.plan.plan import Plan

START = "19:00"
_DAY = 24 * 60


def begins(plan: Plan, start: str = START) -> tuple[str, ...]:
    """Return when each segment begins, as 19:00. Raises ValueError if `start` is no time."""
    before = accumulate((one.minutes for one in plan.segments), initial=minutes_of(start))
    return tuple(map(clock, before))[:-1]


def minutes_of(start: str) -> int:
    """Return a clock time in minutes from midnight; it may be written 19:00, 19.00 or 1900.

    Raises ValueError.
    """
    found = re.fullmatch(r"([01]?\d|2[0-3])[:.h]?([0-5]\d)", start.strip())
    if not found:
        raise ValueError(f"When does it begin? Write a time such as 19:00, not “{start}”.")
    return 60 * int(found[1]) + int(found[2])


def clock(minutes: int) -> str:
    """Return minutes from midnight as a clock time, such as 19:00."""
    return f"{minutes % _DAY // 60:02}:{minutes % 60:02}"
