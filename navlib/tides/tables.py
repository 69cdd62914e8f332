"""Tide tables: the high and low waters of a day, a week or a month on the clock of a place."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, tzinfo
from itertools import pairwise

from navlib.clock import whole_minutes
from navlib.tides.moments import zone
from navlib.tides.turns import Tidal, Turn

Table = dict[date, tuple[Turn, ...]]


def days_table(source: Tidal, first: date, count: int, where: str | tzinfo | None = None) -> Table:
    """Return the high and low waters of `count` days from `first`, each day's in order.

    `where` names the clock, such as "Europe/London"; left out, it is the port's own. A day runs
    from midnight to midnight on it, so it has 23 or 25 hours when the clock is changed. Turns
    carry that clock's times; a day may have none.
    """
    clock = zone(where or source.zone)
    days = [first + timedelta(days=n) for n in range(count + 1)]
    midnights = [datetime(d.year, d.month, d.day, tzinfo=clock) for d in days]
    table: dict[date, list[Turn]] = {day: [] for day in days[:-1]}
    for turn in source.extremes(midnights[0], midnights[-1]):
        local = turn.at(clock)
        table[local.time.date()].append(local)
    return {day: tuple(turns) for day, turns in table.items()}


def day_table(source: Tidal, day: date, where: str | tzinfo | None = None) -> tuple[Turn, ...]:
    """Return the high and low waters of one day on a clock."""
    return days_table(source, day, 1, where)[day]


def week_table(source: Tidal, first: date, where: str | tzinfo | None = None) -> Table:
    """Return the high and low waters of seven days from `first` on a clock."""
    return days_table(source, first, 7, where)


def month_table(source: Tidal, year: int, month: int, where: str | tzinfo | None = None) -> Table:
    """Return the high and low waters of a calendar month on a clock."""
    first = date(year, month, 1)
    next_month = (first + timedelta(days=31)).replace(day=1)
    return days_table(source, first, (next_month - first).days, where)


def ranges(turns: Sequence[Turn]) -> tuple[float, ...]:
    """Return the ranges in metres between successive turns."""
    return tuple(abs(later.height - earlier.height) for earlier, later in pairwise(turns))


def day_range(source: Tidal, day: date, where: str | tzinfo | None = None) -> float:
    """Return today's range in metres: the mean of the ranges of the tides that end on the day.

    Common practice. Raises ValueError if no tide ends on the day.
    """
    two_days = days_table(source, day - timedelta(days=1), 2, where)
    before, today = two_days.values()
    found = ranges((*before[-1:], *today))
    if not found:
        raise ValueError(f"no tide ends on {day}: take the day before or after")
    return sum(found) / len(found)


def printed_days(
    source: Tidal, first: date, count: int, where: str
) -> dict[date, tuple[Turn, ...]]:
    """Return the high and low waters of `count` days from `first` as a table prints them.

    Times are whole minutes on the clock of `where`, and a turn stands on the day of its printed
    time: one at 2359 and 40 seconds is printed as 0000 of the next day.
    """
    clock, spare = zone(where), timedelta(minutes=1)
    days = [first + timedelta(days=n) for n in range(count + 1)]
    start, end = (
        datetime(d.year, d.month, d.day, tzinfo=clock).astimezone(UTC) for d in (days[0], days[-1])
    )
    table: dict[date, list[Turn]] = {day: [] for day in days[:-1]}
    for turn in source.extremes(start - spare, end + spare):
        printed = replace(turn, time=whole_minutes(turn.time).astimezone(clock))
        if printed.time.date() in table:
            table[printed.time.date()].append(printed)
    return {day: tuple(turns) for day, turns in table.items()}
