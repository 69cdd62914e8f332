"""Days and tides that one would meet: drawn over the model's years, as their tables print them."""

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import cache
from itertools import pairwise
from typing import Any

from navlib import waters
from navlib.clock import whole_minutes
from navlib.kinds.quantities import Height, Speed
from navlib.kinds.times import Clock
from navlib.language import say
from navlib.language.days import full, weekday
from navlib.questions import held
from navlib.tides import Levels, Tide, Turn, Water, printed_days
from navlib.waters import TideModel

KESSORAY, ORRIMER = "kessoray", "orrimer"
FIRST, LAST = date(2025, 1, 1), date(2029, 12, 31)
"""Days between which a question's day lies: five years, the same as the field model's."""

UT = Clock("UT")
ASHORE = "Europe/London"
WATCH = Clock(ASHORE, zone_needed=True)
"""A time by the clocks ashore, GMT or BST: the zone must be written."""
HEIGHT, FINE = Height(), Height("m", 0.01)
"""A height as it is given, and with the spare digit that a working keeps."""
KNOTS = Speed()


def model(water: str) -> TideModel:
    """Return the tidal model of a water."""
    return waters.load(water).tides


@cache
def levels(water: str) -> Levels:
    """Return the levels at a water's standard port as its sheets print them, to the decimetre."""
    exact = model(water).levels
    return Levels(**{name: HEIGHT.rounded(value) for name, value in vars(exact).items()})


@cache
def _month(water: str, year: int, month: int) -> Mapping[date, tuple[Turn, ...]]:
    first = date(year, month, 1)
    count = ((first + timedelta(days=31)).replace(day=1) - first).days
    days = printed_days(model(water).standard, first, count, "UT")
    return {
        day: tuple(replace(turn, height=HEIGHT.rounded(turn.height)) for turn in turns)
        for day, turns in days.items()
    }


def turns_of(water: str, day: date) -> tuple[Turn, ...]:
    """Return the day's high and low waters at the standard port, as its table prints them, in UT."""
    return _month(water, day.year, day.month).get(day, ())


def turns_about(water: str, day: date) -> tuple[Turn, ...]:
    """Return the high and low waters of the day before, the day and the day after."""
    days = (day + timedelta(days=by) for by in (-1, 0, 1))
    return tuple(turn for one in days for turn in turns_of(water, one))


def draw_day(source: random.Random) -> date:
    """Return any day of the model's years but the first and the last."""
    first, last = held.days(source, FIRST + timedelta(days=1), LAST - timedelta(days=1))
    return first + timedelta(days=source.randrange((last - first).days + 1))


def draw_turn(source: random.Random, water: str = KESSORAY) -> tuple[date, Turn]:
    """Return a day and one of its high and low waters."""
    day = draw_day(source)
    return day, source.choice(turns_of(water, day))


def draw_tide(source: random.Random, water: str = KESSORAY) -> Tide:
    """Return a tide that begins on a day drawn, with its times and heights as printed."""
    day, turn = draw_turn(source, water)
    following = (two for two in pairwise(turns_about(water, day)) if two[0] == turn)
    return Tide(*next(following))


def draw_within(source: random.Random, tide: Tide, step: int = 1) -> datetime | None:
    """Return a time by daylight, more or less, well inside a tide; None if there is none."""
    minutes = tide.duration / timedelta(minutes=1)
    when = tide.start.time + timedelta(minutes=source.randrange(20, int(minutes) - 20))
    when = whole_minutes(when, "later", step)
    return when if by_day(when) and when < tide.end.time else None


def by_day(when: datetime) -> bool:
    """Return whether people are afloat at that time, UT: from six to nine in the evening."""
    return 6 <= when.hour < 21


def date_words(day: date) -> str:
    """Return a date as it is said: Saturday 14 June 2027."""
    return f"{weekday(day)} {full(day)}"


def short_name(turn: Turn) -> str:
    """Return HW or LW."""
    return "HW" if turn.kind == Water.HIGH else "LW"


def said(turn: Turn) -> str:
    """Return a high or low water as a table has it, in words: HW 1023 UT 4.6 m."""
    return f"{short_name(turn)} {UT.write(turn.time)} {HEIGHT.write(turn.height)}"


def tide_givens(tide: Tide) -> dict[str, Any]:
    """Return the givens of a question about one tide, by the names of `TIDE`."""
    return {
        "start": tide.start.time,
        "end": tide.end.time,
        "high": tide.high.height,
        "low": tide.low.height,
        "start_height": tide.start.height,
        "rising": tide.rising,
        "day": date_words(tide.start.time.date()),
        "first": said(tide.start),
        "then": said(tide.end),
        "start_name": short_name(tide.start),
        "end_name": short_name(tide.end),
        "falling": say("rising" if tide.rising else "falling"),
        "less": say("plus" if tide.rising else "less"),
    }


_WORDS = (
    "rising",
    "day",
    "first",
    "then",
    "start_name",
    "end_name",
    "falling",
    "less",
)
TIDE = {
    "start": UT,
    "end": UT,
    "high": HEIGHT,
    "low": HEIGHT,
    "start_height": HEIGHT,
    **dict.fromkeys(_WORDS),
}
"""Kinds of the givens of a question about one tide."""


def tide_of(start: datetime, end: datetime, high: float, low: float, rising: bool) -> Tide:
    """Return the tide that givens tell of."""
    low_then_high = (Water.LOW, low), (Water.HIGH, high)
    (one, at_start), (other, at_end) = low_then_high if rising else low_then_high[::-1]
    return Tide(Turn(start, at_start, one), Turn(end, at_end, other))


def where(condition: bool, value: Callable[[], Any]) -> Any:
    """Return a value, or None where the condition does not hold and a slip cannot be made."""
    return value() if condition else None
