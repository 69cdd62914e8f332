"""Secondary ports: the standard port's high and low waters, shifted by tabulated differences.

Two conventions: differences between tabulated hours and levels (`Differences`), and NOAA's fixed
offsets for subordinate stations (`Offsets`). Both shift one turn; `SecondaryPort` shifts them all.
"""

from dataclasses import dataclass
from datetime import UTC, timedelta, tzinfo
from typing import Protocol

import numpy as np

from navlib.tides.moments import One, aware, moment, zone
from navlib.tides.turns import Tidal, Turn, Water


class Shift(Protocol):
    """How the high (or the low) waters of a secondary port follow from the standard port's."""

    def shift(self, turn: Turn, table_zone: tzinfo) -> Turn:
        """Return the secondary port's turn for the standard port's `turn`."""


@dataclass(frozen=True)
class Differences:
    """One half of a secondary port's row: its high waters, or its low waters.

    `hours` are the two tabulated times of the standard port's turn, as hours of the day in the
    zone of the table; each stands also for the hour twelve hours on, as tables head them "0600
    and 1800". `minutes` are the time differences under them. `levels` are the standard port's
    mean spring and neap levels (MHWS and MHWN, or MLWS and MLWN) in metres, `metres` the height
    differences under them.
    """

    hours: tuple[float, float]
    minutes: tuple[float, float]
    levels: tuple[float, float]
    metres: tuple[float, float]

    def __post_init__(self) -> None:
        """Check that there is something to interpolate between."""
        if (self.hours[1] - self.hours[0]) % 12 == 0:
            raise ValueError(
                f"the tabulated hours {self.hours} are the same or twelve hours apart: "
                "give two different columns, such as (0, 6)"
            )
        if self.levels[0] == self.levels[1]:
            raise ValueError(
                f"the spring and neap levels {self.levels} are the same: give two, as (4.8, 3.7)"
            )

    def minutes_at(self, hour: float) -> float:
        """Return the time difference for a turn at `hour` of the day in the zone of the table.

        Linear between the two tabulated hours, round the clock.
        """
        return float(np.interp(hour, self.hours, self.minutes, period=12))

    def metres_at(self, height: float) -> float:
        """Return the height difference for a standard port's height.

        Linear between springs and neaps, and on beyond both.
        """
        (springs, neaps), (at_springs, at_neaps) = self.levels, self.metres
        return at_neaps + (at_springs - at_neaps) * (height - neaps) / (springs - neaps)

    def shift(self, turn: Turn, table_zone: tzinfo) -> Turn:
        """Return the secondary port's turn; the hour is read on the clock of the table."""
        clock = turn.time.astimezone(table_zone)
        hour = clock.hour + clock.minute / 60 + clock.second / 3600
        return _shifted(turn, self.minutes_at(hour), turn.height + self.metres_at(turn.height))


@dataclass(frozen=True)
class Offsets:
    """NOAA's convention for a subordinate station's high (or low) waters.

    Time differs by fixed `minutes`; height is the reference station's times `ratio` plus `metres`.
    """

    minutes: float
    ratio: float = 1.0
    metres: float = 0.0

    def shift(self, turn: Turn, table_zone: tzinfo) -> Turn:
        """Return the subordinate station's turn; the zone of the table does not matter here."""
        return _shifted(turn, self.minutes, turn.height * self.ratio + self.metres)


def _shifted(turn: Turn, minutes: float, height: float) -> Turn:
    time = turn.time.astimezone(UTC) + timedelta(minutes=minutes)  # local clocks may jump
    return Turn(time.astimezone(turn.time.tzinfo), height, turn.kind)


@dataclass(frozen=True)
class SecondaryPort:
    """A port that takes its tide from a `standard` port by shifting its high and low waters.

    `table_zone` is the zone of the standard port's table: hours are looked up in it, never on the
    local clock. `zone` names the port's own clock. For training, not for navigation.
    """

    standard: Tidal
    high: Shift
    low: Shift
    name: str = ""
    table_zone: str = "UT"
    zone: str = "UT"
    source: str = ""

    def shift(self, turn: Turn) -> Turn:
        """Return this port's turn for one of the standard port's, in the same zone."""
        half = self.high if turn.kind == Water.HIGH else self.low
        return half.shift(turn, zone(self.table_zone))

    def extremes(self, start: One, end: One) -> tuple[Turn, ...]:
        """Return every high and low water in [start, end), in order, times in UTC."""
        first, last = aware(moment(start)), aware(moment(end))
        reach = timedelta(hours=13)  # more than any difference
        turns = map(self.shift, self.standard.extremes(first - reach, last + reach))
        return tuple(sorted((t for t in turns if first <= t.time < last), key=lambda t: t.time))
