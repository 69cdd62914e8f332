"""Tides as a page prints them: whole minutes, decimetres, and the clocks they are printed by.

Rounding: to the nearest minute and decimetre, a half going later and higher.
"""

import math
from datetime import UTC, date, datetime, timedelta

from navlib.clock import zone_info, zone_name
from navlib.tides import Differences, Port, SecondaryPort
from navlib.waters import Water

AnyPort = Port | SecondaryPort
MINUS = "\N{MINUS SIGN}"


def tenths(value: float) -> int:
    """Return a value in whole tenths, the nearest; a half goes up."""
    return math.floor(round(value * 10, 6) + 0.5)


def decimetre(metres: float, signed: bool = False) -> str:
    """Return a height to the decimetre, 4.8; with `signed` a difference: +0.3, −0.6, 0.0."""
    whole = tenths(metres)
    sign = MINUS if whole < 0 else "+" if signed and whole else ""
    return f"{sign}{abs(whole) // 10}.{abs(whole) % 10}"


def midnight(day: date, zone: str) -> datetime:
    """Return the start of a day on the clock of `zone`, in UTC."""
    return datetime(day.year, day.month, day.day, tzinfo=zone_info(zone)).astimezone(UTC)


def month_of(year: int, month: int) -> tuple[date, int]:
    """Return the first day of a month, and how many days it has."""
    first = date(year, month, 1)
    return first, ((first + timedelta(days=31)).replace(day=1) - first).days


def clock_note(table_zone: str, clock: str, first: date, count: int) -> str:
    """Return how the table's times become clock time in `count` days from `first`, in words.

    Names the instant, to the minute, if the clocks are changed in these days.
    """
    start, end = (midnight(d, table_zone) for d in (first, first + timedelta(days=count)))
    table = _table_note(table_zone, start, end)
    if table_zone == clock:
        return table
    spells = _spells(start, end, table_zone, clock)
    begins, minutes = spells[0]
    rule = f"{_named(clock, begins)}: {_add(minutes)}"
    for begins, minutes in spells[1:]:
        rule += (
            f" until {_moment(begins, table_zone)}; then {_named(clock, begins)}: {_add(minutes)}"
        )
    return f"{table} Clock time here is {rule}."


def _table_note(zone: str, start: datetime, end: datetime) -> str:
    spells = _spells(start, end, "UT", zone)
    names = [_named(zone, begins) for begins, _ in spells]
    if len(names) == 1:
        return f"Times are {names[0]}."
    changes = [_moment(begins, "UT") for begins, _ in spells[1:]]
    return (
        "Times are clock time here: "
        + "; ".join(
            f"{name} from {change}" if change else name
            for name, change in zip(names, ["", *changes], strict=True)
        )
        + "."
    )


def _spells(start: datetime, end: datetime, one: str, other: str) -> list[tuple[datetime, int]]:
    """Return from when on `other`'s clock is how many minutes ahead of `one`'s, in [start, end)."""
    spells: list[tuple[datetime, int]] = []
    step, when = timedelta(minutes=30), start
    while when < end:
        ahead = _offset(when, other) - _offset(when, one)
        if not spells or spells[-1][1] != ahead:
            spells.append((when, ahead))
        when += step
    return spells


def _offset(when: datetime, zone: str) -> int:
    return round(
        (when.astimezone(zone_info(zone)).utcoffset() or timedelta()) / timedelta(minutes=1)
    )


def _named(zone: str, when: datetime) -> str:
    return zone_name(when, zone)


def _add(minutes: int) -> str:
    if not minutes:
        return "the same as the table"
    hours, left = divmod(abs(minutes), 60)
    span = (f"{hours} hour" + "s" * (hours > 1)) * bool(hours) + f" {left} minutes" * bool(left)
    rule = f"add {span.strip()}" if minutes > 0 else f"take off {span.strip()}"
    return rule + ", and mind the date" * (hours >= 6)


def _moment(when: datetime, zone: str) -> str:
    local = when.astimezone(zone_info(zone))
    return f"{local:%H%M} {zone_name(when, zone)} on {local:%A} {local.day} {local:%B}"


def halves(port: SecondaryPort) -> tuple[Differences, Differences]:
    """Return the differences of a secondary port's high and low waters; ValueError if it has none."""
    high, low = port.high, port.low
    if not (isinstance(high, Differences) and isinstance(low, Differences)):
        raise ValueError(
            f"{port.name} has no table of differences; a page of them needs times at two hours "
            "and heights at springs and neaps"
        )
    return high, low


def levels_of(water: Water, port: AnyPort) -> dict[str, float]:
    """Return a port's levels in metres above its chart datum, by short name, highest first."""
    levels = water.tides.levels
    means = {
        "MHWS": levels.mhws,
        "MHWN": levels.mhwn,
        "MLWN": levels.mlwn,
        "MLWS": levels.mlws,
    }
    if isinstance(port, SecondaryPort):
        high, low = halves(port)
        metres = (*high.metres, *reversed(low.metres))
        return {n: v + d for (n, v), d in zip(means.items(), metres, strict=True)}
    all_levels = {"HAT": levels.hat, "MSL": levels.msl, "LAT": levels.lat, **means}
    return dict(sorted(all_levels.items(), key=lambda pair: -pair[1]))


def role(water: Water, port: AnyPort) -> str:
    """Return what a port is to its water, in words."""
    if isinstance(port, SecondaryPort):
        return f"secondary port on {water.tides.standard.name}"
    return f"standard port of {water.settings.title}"
