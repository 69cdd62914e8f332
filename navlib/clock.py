"""Clock times and durations: written and read as at sea, added over midnight, moved between zones.

Instants are timezone-aware and UTC inside; durations are minutes. A zone is "UT" or a name of the
IANA time zone database such as "Europe/London"; its clock changes come from that database.
"""

import math
import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone, tzinfo
from functools import cache
from typing import Literal
from zoneinfo import ZoneInfo

from navlib.figures import decimal_fractions
from navlib.language import either, say
from navlib.notation import Impossible, Unclear, decimal_comma, tidy

DAY = 1440
"""Minutes in a day of 24 hours."""

UNIVERSAL = ("UT", "GMT", "UTC", "Z")
"""Names of the time of the prime meridian, alike to the minute."""

LOCAL = ("LT", "LOCAL", "LOCAL TIME", "CLOCK TIME")
"""Names for whatever the clocks ashore show."""

CLOCK_EXAMPLE = "1445"
DURATION_EXAMPLES = ("1 h 08", "68 min")

Side = Literal["near", "earlier", "later"]
"""Which way a time is rounded: a latest departure earlier, an arrival later (common practice)."""


@dataclass(frozen=True)
class WrittenTime:
    """A clock time as written: minutes from midnight (0 to 1440) and the zone's name, if any."""

    minute: float
    zone: str | None = None
    notes: tuple[str, ...] = ()


def zone_info(zone: str) -> tzinfo:
    """Return the zone called `zone`: "UT" or an IANA name. Raises ValueError if there is none."""
    if zone == "UT":
        return UTC
    try:
        return ZoneInfo(zone)
    except (KeyError, ValueError, OSError):
        raise ValueError(
            f"no time zone is called “{zone}”; give UT or a name such as Europe/London"
        ) from None


@cache
def zone_names(zone: str) -> dict[str, tzinfo]:
    """Return every name that may be written after a time where clocks keep `zone`.

    The zone's own names (GMT and BST for Europe/London) are those it bears through 2026. "UT" has
    no local time.
    """
    names: dict[str, tzinfo] = dict.fromkeys(UNIVERSAL, UTC)
    if zone != "UT":
        names |= dict.fromkeys(LOCAL, zone_info(zone))
    for month in range(1, 13):
        when = datetime(2026, month, 15, 12, tzinfo=UTC)
        name, offset = zone_name(when, zone), when.astimezone(zone_info(zone)).utcoffset()
        if offset is not None and name not in names:
            names[name] = timezone(offset, name)
    return names


def zone_called(name: str, zone: str) -> tzinfo:
    """Return the zone that `name`, written after a time, means where clocks keep `zone`.

    Reads the zone's own names, UT, UTC, GMT, Z, LT, and UT+1 or UTC-03:00 as a fixed difference.
    Raises Unclear for any other name.
    """
    names = zone_names(zone)
    bare = re.sub(r"[(). ]+", " ", name).strip().upper()
    if bare in names or bare.replace(" ", "") in names:
        return names.get(bare) or names[bare.replace(" ", "")]
    fixed = re.fullmatch(r"(?:UTC?|GMT) ?([-+]) ?(\d{1,2})(?::?([0-5]\d))?", bare)
    if fixed and int(fixed[2]) <= 14:
        minutes = int(fixed[2]) * 60 + int(fixed[3] or 0)
        return timezone(timedelta(minutes=minutes if fixed[1] == "+" else -minutes))
    shown = ", ".join(name for name in names if name not in UNIVERSAL[2:] + LOCAL[1:])
    raise Unclear(
        name,
        say("this zone is not one used here ({shown})", {"shown": shown}),
        f"{CLOCK_EXAMPLE} UT",
    )


def zone_name(when: datetime, zone: str = "UT") -> str:
    """Return what `zone` is called at an instant: UT, GMT, BST; UT+3 where it has no letters."""
    local = _utc(when).astimezone(zone_info(zone))
    name = local.tzname() or ""
    if name == "UTC":
        return "UT"
    if name.isalpha():
        return name
    ahead = round((local.utcoffset() or timedelta()) / timedelta(minutes=1))
    hours, minutes = divmod(abs(ahead), 60)
    return f"UT{'-' if ahead < 0 else '+'}{hours}" + (f":{minutes:02d}" if minutes else "")


def write_clock(when: datetime, zone: str = "UT", named: bool = True) -> str:
    """Return an instant as the clocks of `zone` show it, to the minute: 1445 UT, 1545 BST."""
    local = whole_minutes(when).astimezone(zone_info(zone))
    return f"{local:%H%M}" + (f" {zone_name(when, zone)}" if named else "")


_NEXT_DAY = re.compile(r"[(,]? ?\b(?:the )?next day\b\)?|\(\+ ?1\)", re.I)
_CLOCK = re.compile(
    r"(?:(?P<figures>\d{3,4})|(?P<hour>\d{1,2}) ?[:.,h -] ?(?P<minute>\d{2})"
    r"(?:[:.](?P<second>\d{2}))?|(?P<alone>\d{1,2})(?= ?[ap]\.? ?m))"
    r"(?: ?h(?:(?:ou)?rs?)?\b\.?)?(?: ?(?P<half>[ap])\.? ?m\.?)?"
    r"(?: ?(?P<zone>\(?[a-z][-+a-z.: ()\d]*))?",
    re.I,
)


def read_clock(text: str) -> WrittenTime:
    """Return the clock time written in `text`.

    Reads 1445, 14:45, 14.45, 14h45, "2.45 pm" and "noon" (with a note), each with a zone behind it
    (its name is not judged here). The words "next day" are passed over: a time of day has none.
    Raises Unclear for 2:45 and 945, which could be morning or evening, and for what is no time;
    Impossible for 0860 or 2433.
    """
    given = tidy(text)
    bare = _NEXT_DAY.sub("", given).strip(" .,")
    bare = re.sub(r"^(?:12 ?)?(?:noon|midday)\b", "12.00 pm", bare, flags=re.I)
    if re.match(r"(?:12 ?)?midnight\b", bare, re.I):
        problem = "midnight begins one day and ends another"
        raise Unclear(given, problem, say("0000 for the start of the day, 2400 for its end"))
    match = _CLOCK.fullmatch(bare)
    if match is None:
        raise Unclear(given, "no time of day can be read here", CLOCK_EXAMPLE)
    figures = match["figures"] or (match["alone"] or match["hour"]) + (match["minute"] or "00")
    hour, minute, second = int(figures[:-2]), int(figures[-2:]), int(match["second"] or 0)
    if max(minute, second) > 59:
        raise Impossible(given, "minutes and seconds of the clock run from 00 to 59", CLOCK_EXAMPLE)
    if hour * 60 + minute > DAY:
        problem = "hours of the clock run from 00 to 23; past midnight take off 24 h"
        raise Impossible(given, problem, say("0033 for 33 minutes past midnight"))
    hour, notes = _hour(given, figures, hour, (match["half"] or "").lower())
    if second:
        notes += (say("The nearest minute is enough for a clock time."),)
    if hour == 24:
        notes += (say("Midnight is usually written 0000, with the new day’s date."),)
    return WrittenTime(hour * 60 + minute + second / 60, match["zone"], notes)


def _hour(given: str, figures: str, hour: int, half: str) -> tuple[int, tuple[str, ...]]:
    """Return the hour of the 24-hour clock, and a note where it was written otherwise."""
    if not half:
        if len(figures) < 4 and hour:
            later = f"{hour + 12:02d}{figures[-2:]}"
            example = say(
                "0{figures} or {later}, four figures", {"figures": figures, "later": later}
            )
            raise Unclear(given, "this could be morning or evening", example)
        return hour, () if len(figures) == 4 else (say("Write the hour with two figures: 0015."),)
    if hour > 12 and half == "a":
        problem = "the hour is one of the afternoon, but am says morning"
        raise Unclear(given, problem, either([figures, f"{hour - 12}.{figures[-2:]} am"]))
    hour = hour if hour > 12 else hour % 12 + (12 if half == "p" else 0)
    return hour, (
        say(
            "Use the 24-hour clock in four figures: {figures}.",
            {"figures": f"{hour:02d}{figures[-2:]}"},
        ),
    )


def instant(day: date, minute: float, zone: str | tzinfo = "UT") -> datetime:
    """Return the instant, in UTC, at which the clocks of `zone` show `minute` from midnight.

    Raises Impossible for a time that the clocks leap over, Unclear for one they show twice.
    """
    where = zone_info(zone) if isinstance(zone, str) else zone
    wall = datetime.combine(day, time(), where) + timedelta(minutes=minute)
    first, second = (wall.replace(fold=fold).utcoffset() or timedelta() for fold in (0, 1))
    given = f"{wall:%H%M} on {wall:%d.%m.%Y}"
    if first < second:
        example = f"{wall + (second - first):%H%M %Z}"
        raise Impossible(given, "the clocks go forward and never show this time", example)
    if first > second:
        example = either([f"{wall:%H%M %Z}", f"{wall.replace(fold=1):%H%M %Z}"])
        raise Unclear(given, "the clocks go back and show this time twice", example)
    return wall.astimezone(UTC)


def later(when: datetime, minutes: float) -> datetime:
    """Return the instant `minutes` after `when` (before it if negative), in UTC, date carried."""
    return _utc(when) + timedelta(minutes=minutes)


def minutes_between(first: datetime, second: datetime) -> float:
    """Return the minutes from `first` to `second`, whatever the clocks did; negative backwards."""
    return (_utc(second) - _utc(first)) / timedelta(minutes=1)


def clock_sum(minute: float, minutes: float) -> tuple[float, int]:
    """Return minutes from midnight after adding `minutes`, and the days carried.

    2325 and 68 minutes: clock_sum(1405, 68) is (33, 1), which is 0033 the next day.
    """
    days, left = divmod(minute + minutes, DAY)
    return left, int(days)


def whole_minutes(when: datetime, side: Side = "near", step: float = 1) -> datetime:
    """Return an instant rounded to a multiple of `step` minutes, in UTC; a half goes later."""
    start, one = datetime(1970, 1, 1, tzinfo=UTC), timedelta(minutes=step)
    past = _utc(when) - start
    steps = {"near": (past + one / 2) // one, "earlier": past // one, "later": -(-past // one)}
    return start + steps[side] * one


def _utc(when: datetime) -> datetime:
    if when.tzinfo is None:
        raise ValueError(f"{when} has no zone; give a time with its zone, such as one in UTC")
    return when.astimezone(UTC)


def write_duration(minutes: float) -> str:
    """Return a duration to the minute: 1 h 08 from an hour on, 45 min below it."""
    whole = math.floor(abs(minutes) + 0.5)
    hours, left = divmod(whole, 60)
    sign = "-" if minutes < 0 and whole else ""
    return sign + (f"{hours} h {left:02d}" if hours else f"{left} min")


_N = r"\d+(?:\.\d+)?|\.\d+"
_HOUR, _MINUTE, _SECOND = r"(?:h|hrs?|hours?)\.?", r"(?:m|mins?|minutes?|')\.?", r"(?:s|secs?|\")"
_SECONDS = rf"(?: ?(?:and )?(?P<s>{_N}) ?{_SECOND}\.?)?"
_DURATIONS = tuple(
    re.compile(pattern)
    for pattern in (
        rf"(?P<h>{_N}) ?{_HOUR}(?: ?(?:and )?(?P<m>{_N}) ?(?:{_MINUTE})?{_SECONDS})?",
        rf"(?P<h>)(?P<m>{_N}) ?{_MINUTE}{_SECONDS}",
        rf"(?P<h>)(?P<m>)(?P<s>{_N}) ?{_SECOND}\.?",
        rf"(?P<h>\d+):(?P<m>\d\d)(?::(?P<s>\d\d))?(?: ?{_HOUR})?",
    )
)


def read_duration(text: str, unit: str = "") -> tuple[float, tuple[str, ...]]:
    """Return the minutes written in `text`, and notes.

    Reads 1h45, 1:45, 1 h 45 min, 105 min, 1.75 h, 1¾ h. `unit` "min" says that the question asks
    for minutes, so that a bare number is minutes; without it one of 24 or more is. Raises Unclear
    for 1.45 (1 h 45 or 1.45 h?) and 0145; Impossible for 1 h 75 and for less than nothing.
    """
    given = tidy(text)
    bare = decimal_comma(decimal_fractions(given)).lower()
    bare = re.sub(r"^(?:about|approx\.?|[~≈=]) ?", "", bare)
    if re.match(r"- ?[\d.]", bare):
        raise Impossible(given, "a duration cannot be less than nothing", either(DURATION_EXAMPLES))
    if re.fullmatch(_N, bare):
        return _bare_duration(given, bare, unit)
    match = next(filter(None, (form.fullmatch(bare) for form in _DURATIONS)), None)
    if match is None:
        raise Unclear(given, "no duration can be read here", either(DURATION_EXAMPLES))
    hours, minutes, seconds = (float(match[part] or 0) for part in "hms")
    if hours % 1 and match["m"]:
        problem = "both a fraction of an hour and minutes are written"
        raise Unclear(given, problem, either(DURATION_EXAMPLES))
    if (match["h"] and minutes >= 60) or (match["m"] and seconds >= 60):
        problem = "after whole hours minutes run from 00 to 59: carry at 60"
        raise Impossible(given, problem, either(DURATION_EXAMPLES))
    notes: tuple[str, ...] = ()
    if match["h"] and len((match["m"] or "00").partition(".")[0]) < 2:
        written = write_duration(hours * 60 + minutes)
        notes = (say("Write the minutes with two figures: {written}.", {"written": written}),)
    return hours * 60 + minutes + seconds / 60, notes


def _bare_duration(given: str, bare: str, unit: str) -> tuple[float, tuple[str, ...]]:
    """Return the minutes that a number without a unit means, if it can mean one thing only."""
    whole, _, part = bare.partition(".")
    hours = int(whole or 0)
    if re.fullmatch(r"[0-5]\d", part) and hours < 24:
        other = write_duration(float(bare) * 60)
        problem = say(
            "this could be {one}, or {bare} hours, which is {other}",
            {"one": f"{hours} h {part}", "bare": bare, "other": other},
        )
        raise Unclear(given, problem, either([f"{hours} h {part}", other]))
    if unit == "min" or (hours >= 24 and len(whole) < 4 and not whole.startswith("0")):
        return float(bare), (say("Write the unit behind the number: min."),)
    if len(whole) == 4 and not part:
        raise Unclear(given, "this could be a time of day or a duration", either(DURATION_EXAMPLES))
    raise Unclear(given, "this could be hours or minutes", either([f"{given} min", f"{given} h"]))
