"""Kinds of answer that are times: how long, and when."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from navlib import clock
from navlib.chain.kind import Kind
from navlib.kinds.numbers import Side, decimals, to_step
from navlib.language import say
from navlib.notation import Unclear, tidy

ANY_DAY = date(2026, 1, 1)
"""The date given to a time of day where the question says none; `Clock.apart` looks past it."""


@dataclass(frozen=True)
class Duration(Kind[float]):
    """How long something takes, in minutes inside; `rounding` and `apart` are minutes too.

    With `unit` "min" the question asks for minutes: 68 min is written, and a bare number is
    minutes, with a note. Without it 1 h 08 is written.
    """

    unit: str = ""
    rounding: float = 1.0
    side: Side = "near"
    example: str = ""

    def __post_init__(self) -> None:
        """Check the unit and take a well-written answer as the example."""
        if self.unit not in ("", "min"):
            raise ValueError(f"“{self.unit}” is no unit of a duration here; give min or nothing")
        if not self.example:
            object.__setattr__(self, "example", self.write(68.0))

    def parse(self, text: str) -> tuple[float, tuple[str, ...]]:
        """Return the minutes written; raise Misread if there are none (`clock.read_duration`)."""
        return clock.read_duration(text, self.unit)

    def write(self, value: float) -> str:
        """Return the duration rounded: 1 h 08, or 68 min where minutes are asked."""
        minutes = to_step(value, self.rounding, self.side)
        if self.unit == "min":
            return f"{minutes + 0.0:.{decimals(self.rounding)}f} min"
        return clock.write_duration(minutes)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance in minutes: 2 min."""
        return f"{width:g} min"

    def apart(self, one: float, other: float) -> float:
        """Return one - other in minutes."""
        return one - other

    def shift(self, value: float, by: float) -> float:
        """Return the duration `by` minutes longer."""
        return value + by


@dataclass(frozen=True)
class Clock(Kind[datetime]):
    """A time of day as an aware datetime; `rounding` and `apart` are minutes.

    Times are asked for in `zone` ("UT", or a name such as "Europe/London") and written with its
    name; where that is UT, `ashore` is the zone of the clocks ashore, whose names are read too. A
    time without a zone is one of `zone`, unless `zone_needed` (to turn one zone into another is part
    of the question): then it is asked about, and so is a time in another zone. A written time has no
    date: it is put on `day`, the date in `zone` on which the right answer falls, or on any day if
    none is given; either way `apart` looks at the nearest day only. A value that was read keeps the
    zone it was written in, so that it can be moved to another day.
    """

    zone: str = "UT"
    day: date | None = None
    ashore: str = ""
    zone_needed: bool = False
    unit: str = ""
    rounding: float = 1.0
    side: clock.Side = "near"
    example: str = ""

    def __post_init__(self) -> None:
        """Check the zone and take a well-written answer as the example."""
        clock.zone_info(self.ashore or self.zone)
        noon = datetime.combine(self.day or ANY_DAY, time(12), clock.zone_info(self.zone))
        if not self.example:
            object.__setattr__(self, "example", f"1445 {clock.zone_name(noon, self.zone)}")

    def parse(self, text: str) -> tuple[datetime, tuple[str, ...]]:
        """Return the instant on `day`; raise Misread if none is written (`clock.read_clock`)."""
        given, written = tidy(text), clock.read_clock(text)
        if written.zone is None and self.zone_needed:
            raise Unclear(given, "more than one zone is in use here; name yours", self.example)
        where = clock.zone_info(self.zone)
        if written.zone is not None:
            try:
                where = clock.zone_called(written.zone, self.ashore or self.zone)
            except Unclear as unclear:
                raise Unclear(given, unclear.problem, self.example) from None
        value = self._placed(written.minute, where)
        here = value.astimezone(clock.zone_info(self.zone))
        judged = self.day is not None or self.zone == "UT"
        if judged and here.utcoffset() != value.utcoffset():
            asked = say(
                "The question asks for {zone}: {time}.",
                {
                    "zone": clock.zone_name(here, self.zone),
                    "time": clock.write_clock(here, self.zone),
                },
            )
            return value, (*written.notes, asked)
        return value, written.notes

    def write(self, value: datetime) -> str:
        """Return the time of day, rounded, as the clocks of `zone` show it: 1545 BST."""
        return clock.write_clock(self.rounded(value), self.zone)

    def write_width(self, width: float) -> str:
        """Return a width of tolerance in minutes: 2 min."""
        return f"{width:g} min"

    def rounded(self, value: datetime) -> datetime:
        """Return `value` rounded as it would be written, on its own date."""
        return clock.whole_minutes(value, self.side, self.rounding).astimezone(value.tzinfo)

    def apart(self, one: datetime, other: datetime) -> float:
        """Return the minutes by which `one` is later, by the clock: 0010 is 20 after 2350."""
        return clock.minutes_between(other, self.nearest(one, other))

    def left_out(self, value: datetime, key: datetime) -> str:
        """Return that the time stands in another zone, where turning it is asked; else nothing."""
        if not self.zone_needed:
            return ""
        asked = key.astimezone(clock.zone_info(self.zone))
        if self.nearest(value, key).utcoffset() == asked.utcoffset():
            return ""
        zone = clock.zone_name(asked, self.zone)
        return say(
            "Yours is a time in another zone. The question asks for {zone}: turn it into that.",
            {"zone": zone},
        )

    def nearest(self, value: datetime, other: datetime) -> datetime:
        """Return `value` with its date changed so that it lies as near `other` as it can."""
        day = other.astimezone(value.tzinfo).date()
        days = [datetime.combine(day + timedelta(days=by), value.timetz()) for by in (-1, 0, 1)]
        return min(days, key=lambda moved: abs(clock.minutes_between(other, moved)))

    def shift(self, value: datetime, by: float) -> datetime:
        """Return the time `by` minutes later."""
        return clock.later(value, by).astimezone(value.tzinfo)

    def _placed(self, minute: float, where: tzinfo) -> datetime:
        if self.day is not None:
            return clock.instant(self.day, minute, where).astimezone(where)
        return datetime.combine(ANY_DAY, time(), where) + timedelta(minutes=minute)
