"""Steps by the clock: arriving, leaving at the latest, the time between, each with its slips."""

from collections.abc import Callable
from datetime import datetime

from navlib.chain.kind import Kind
from navlib.chain.step import Slip, Step, Work, taking
from navlib.clock import later, minutes_between
from navlib.questions.speed.steps import LONGEST, TIME, UT, hours_and_minutes
from navlib.speed import HOUR, eta, latest_departure


def _in_time(work: Callable[[datetime, float], datetime | None]) -> Work:
    """Return `work` for durations that a trip can have."""
    return lambda when, minutes: work(when, minutes) if minutes < LONGEST else None


def _carries(start: datetime, minutes: float) -> float:
    return start.minute + hours_and_minutes(minutes)[1]


def _hour_not_carried(start: datetime, minutes: float) -> datetime | None:
    return later(start, minutes - HOUR) if _carries(start, minutes) >= HOUR else None


def _carried_at_a_hundred(start: datetime, minutes: float) -> datetime | None:
    return later(start, minutes - 40) if _carries(start, minutes) >= 100 else None


def arrival_step(name: str, start: str, minutes: str, kind: Kind[datetime] = UT) -> Step:
    """Return the step from a clock time and a duration to the clock time at its end."""

    def made(work: Callable[[datetime, float], datetime | None]) -> Work:
        return taking(_in_time(work), start, minutes)

    return Step(
        name,
        kind,
        made(eta),
        how="Add the hours, then the minutes; 60 minutes make an hour, 24 hours make a day.",
        line=f"{{{start}}} and {{{minutes}}}: {{{name}}}",
        check="Go in two steps: first to the next full hour, then the rest.",
        slips=(
            Slip(
                "hour-not-carried",
                made(_hour_not_carried),
                "Yours, {yours}, is exactly one hour early. The minutes come to more than 60, which "
                "makes one hour more. Check: go to the next full hour first, then add what is left.",
            ),
            Slip(
                "hundred-minute-hour",
                made(_carried_at_a_hundred),
                f"Yours, {{yours}}, carries at a hundred, as if {{{start}}} and {{{minutes}}} were "
                "plain numbers. The clock carries at 60. Check: go to the next full hour first.",
            ),
            Slip(
                "clock-backwards",
                made(lambda when, by: later(when, -by)),
                f"Yours, {{yours}}, takes the {{{minutes}}} off, so you are there before you begin. "
                "An arrival lies after the start. Check: say the two times aloud, one after the "
                "other.",
            ),
        ),
    )


def _hour_not_borrowed(end: datetime, minutes: float) -> datetime | None:
    borrowed = end.minute < hours_and_minutes(minutes)[1]
    return later(end, HOUR - minutes) if borrowed else None


def _smaller_from_larger(end: datetime, minutes: float) -> datetime | None:
    hours, left = hours_and_minutes(minutes)
    if end.minute >= left:
        return None
    return later(end, left - 2 * end.minute - hours * HOUR)


def leaving_step(name: str, end: str, minutes: str, kind: Kind[datetime]) -> Step:
    """Return the step from a deadline and the time needed to the latest departure."""

    def made(work: Callable[[datetime, float], datetime | None]) -> Work:
        return taking(_in_time(work), end, minutes)

    return Step(
        name,
        kind,
        made(latest_departure),
        how="Take the hours off, then the minutes. If there are too few minutes, an hour gives 60.",
        line=f"{{{end}}} less {{{minutes}}}: {{{name}}}",
        check=f"Go forward again: does yours and {{{minutes}}} come to {{{end}}}?",
        slips=(
            Slip(
                "hour-not-borrowed",
                made(_hour_not_borrowed),
                "Yours, {yours}, is exactly one hour late. You took 60 minutes from an hour, and that "
                f"hour must then be one less. Check: add {{{minutes}}} to yours; you pass {{{end}}}.",
            ),
            Slip(
                "smaller-from-larger",
                made(_smaller_from_larger),
                "Yours, {yours}, takes the smaller minutes from the larger, whichever way round they "
                f"stand. Check: add {{{minutes}}} to yours; you do not come to {{{end}}}.",
            ),
            Slip(
                "clock-forwards",
                made(lambda when, by: later(when, by)),
                f"Yours, {{yours}}, puts {{{minutes}}} on, so you would leave after you had to be "
                "there. A departure lies before the arrival. Check: say the two times aloud, one "
                "after the other.",
            ),
        ),
    )


def between(first: datetime, second: datetime) -> float:
    """Return the minutes from one clock time to the next that shows the other, within a day."""
    return minutes_between(first, second) % (24 * HOUR)


def elapsed_step(name: str, first: str, second: str) -> Step:
    """Return the step from two clock times to the time between them, midnight or not."""

    def made(work: Callable[[datetime, datetime], float | None]) -> Work:
        return taking(work, first, second)

    def borrowing(change: Callable[[datetime, datetime], float]) -> Work:
        return made(lambda one, other: change(one, other) if other.minute < one.minute else None)

    def midnight_lost(one: datetime, other: datetime) -> float | None:
        through = other.hour * HOUR + other.minute < one.hour * HOUR + one.minute
        return 24 * HOUR - between(one, other) if through else None

    return Step(
        name,
        TIME,
        made(between),
        how="Count to the next full hour, then the full hours, then the minutes that are left.",
        line=f"From {{{first}}} to {{{second}}}: {{{name}}}",
        check="Count in three steps: to the next full hour, the hours, the minutes left.",
        slips=(
            Slip(
                "hundred-minute-hour",
                borrowing(lambda one, other: between(one, other) + 40),
                "Yours, {yours}, has 40 minutes too many in it: the times were taken from each other "
                "like plain numbers, with 100 minutes to the hour. Check: count to the next full hour "
                "first.",
            ),
            Slip(
                "hour-not-borrowed",
                borrowing(lambda one, other: between(one, other) + HOUR),
                "Yours, {yours}, has exactly one hour too many in it. You took 60 minutes from an "
                "hour, and that hour must then be one less. "
                f"Check: add yours to {{{first}}}; where do you come?",
            ),
            Slip(
                "smaller-from-larger",
                borrowing(lambda one, other: between(one, other) + 2 * (one.minute - other.minute)),
                "Yours, {yours}, takes the smaller minutes from the larger, whichever way round they "
                f"stand. Check: add yours to {{{first}}}; you do not come to {{{second}}}.",
            ),
            Slip(
                "midnight-lost",
                made(midnight_lost),
                "Yours, {yours}, is the way round the clock that does not pass midnight: one time "
                "taken from the other. You began in the evening and ended the next day. Check: count "
                "up to 2400 first, then on from 0000.",
            ),
        ),
    )
