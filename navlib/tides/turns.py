"""High and low waters, and the tide that runs from one to the next."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta, tzinfo
from enum import StrEnum
from itertools import pairwise
from typing import Protocol

import numpy as np

from navlib.tides.crossings import MINUTE, Quantity, crossings
from navlib.tides.moments import aware, zone


class Water(StrEnum):
    """High or low water; equal to the plain word, so `turn.kind == "high"` holds."""

    HIGH = "high"
    LOW = "low"


@dataclass(frozen=True)
class Turn:
    """One high or low water: `time` an aware datetime, `height` in metres above chart datum."""

    time: datetime
    height: float
    kind: Water

    def at(self, where: str | tzinfo) -> "Turn":
        """Return the same high or low water on the clock of another zone."""
        return replace(self, time=self.time.astimezone(zone(where)))

    def __str__(self) -> str:
        """Write it as a tide table does, to the nearest minute: `HW 0252 UTC 2.6 m`."""
        nearest = self.time + timedelta(seconds=30)
        return f"{self.kind[0].upper()}W {nearest:%H%M %Z} {self.height:.1f} m"


class Tidal(Protocol):
    """Anything that has high and low waters: a port or a secondary port."""

    @property
    def zone(self) -> str:
        """Name of the clock of its tide table."""

    def extremes(self, start: datetime, end: datetime) -> Sequence[Turn]:
        """Return the high and low waters in [start, end), in order."""


@dataclass(frozen=True)
class Tide:
    """The water rising or falling from one turn to the next.

    Raises ValueError if the two are not a high and a low water in order of time.
    """

    start: Turn
    end: Turn

    def __post_init__(self) -> None:
        """Check that the two turns make one tide."""
        if self.start.kind == self.end.kind or not self.duration > timedelta(0):
            raise ValueError(
                f"{self.start} then {self.end} is not one tide: give a high water and the next "
                "low water, or a low water and the next high water"
            )
        if self.low.height > self.high.height:
            raise ValueError(f"{self.low} stands higher than {self.high}: are they exchanged?")

    @property
    def rising(self) -> bool:
        """Whether the water rises."""
        return self.end.kind == Water.HIGH

    @property
    def high(self) -> Turn:
        """Its high water."""
        return self.end if self.rising else self.start

    @property
    def low(self) -> Turn:
        """Its low water."""
        return self.start if self.rising else self.end

    @property
    def range(self) -> float:
        """High water less low water, in metres."""
        return self.high.height - self.low.height

    @property
    def duration(self) -> timedelta:
        """Time from one turn to the next; seldom six hours."""
        return self.end.time.astimezone(UTC) - self.start.time.astimezone(UTC)


def turning_points(
    rate: Quantity, height: Quantity, start: np.datetime64, end: np.datetime64
) -> tuple[Turn, ...]:
    """Return every high and low water in [start, end) of a height whose rate of change is `rate`.

    Both take datetime64 UTC arrays. Every turn counts, however slight: a double high water is two
    high waters with a low one between them.
    """
    moments, rising = crossings(rate, start, end, 20 * MINUTE)
    return tuple(
        Turn(aware(time), float(h), Water.LOW if up else Water.HIGH)
        for time, h, up in zip(moments, height(moments), rising, strict=True)
    )


def tides(turns: Iterable[Turn]) -> tuple[Tide, ...]:
    """Return the tides between successive turns."""
    return tuple(Tide(one, other) for one, other in pairwise(turns))


def tide_at(source: Tidal, when: datetime) -> Tide:
    """Return the tide that runs at `when`: the last turn at or before it and the next one.

    Raises ValueError if no turn is found within two days either side.
    """
    reach = timedelta(days=2)
    turns = source.extremes(when - reach, when + reach)
    for tide in tides(turns):
        if tide.start.time <= when < tide.end.time:
            return tide
    raise ValueError(f"no high and low water found about {when:%Y-%m-%d %H%M %Z}")


def without_stands(turns: Sequence[Turn], least_range: float) -> tuple[Turn, ...]:
    """Return the turns without the slight ones, for ranges where the water stands or turns twice.

    As long as two neighbours differ by less than `least_range` metres, the closest two go. So of
    a double high water the higher stays.
    """
    kept = list(turns)
    while len(kept) > 1:
        steps = [abs(b.height - a.height) for a, b in pairwise(kept)]
        k = steps.index(min(steps))
        if steps[k] >= least_range:
            break
        del kept[k : k + 2]
    return tuple(kept)
