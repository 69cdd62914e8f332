"""Steps that several types share: between table and watch, and by twelfths, each with its slips."""

from datetime import datetime, timedelta

import numpy as np

from navlib.chain.step import Error, Slip, Step, taking
from navlib.clock import later, minutes_between, zone_info
from navlib.kinds.numbers import Number
from navlib.kinds.times import Clock, Duration
from navlib.questions.tides.draws import ASHORE, HEIGHT, UT, WATCH
from navlib.tides import TWELFTHS

TIDAL_HOURS = Number("tidal hours", 0.1)
TWELVE = Number("twelfths", 0.1)
TIDAL_HOUR = Duration("min", 0.5)

WATCH_BY_HAND = Clock(ASHORE, zone_needed=True, rounding=5.0)
"""The same to five minutes, as finely as the twelfths are worth."""

BY_HAND_M, BY_HAND_MIN = 0.03, 4.0
"""Standard deviations, metres and minutes, of a height or a time by twelfths whose figures were
rounded on the way: a tenth of a tidal hour is 6 minutes, and up to 0.1 m. Common practice."""


def ahead(when: datetime) -> float:
    """Return by how many minutes the clocks ashore are ahead of UT at an instant."""
    return (when.astimezone(zone_info(ASHORE)).utcoffset() or timedelta()) / timedelta(minutes=1)


# Between the table and the watch ----------------------------------------------------------------


def _unless_alike(when: datetime, by: float) -> datetime | None:
    return later(when, by) if by else None


def to_table(name: str, watch: str) -> Step:
    """Return the step from a time by the clocks ashore to the time of the table, UT."""
    return Step(
        name,
        UT,
        taking(lambda when: when, watch),
        how="The table is in UT. BST is one hour ahead of it, GMT is the same.",
        line=f"{{{watch}}} by the clocks ashore: {{{name}}}",
        check="Do the two times that you compare carry the same zone?",
        slips=(
            Slip(
                "zone-forgotten",
                taking(lambda when: _unless_alike(when, ahead(when)), watch),
                "Yours, {yours}, comes out if the watch’s time goes into the table as it is. The "
                "table "
                f"is in UT and {{{watch}}} is an hour ahead of it. Check: write the zone behind each "
                "time, then compare.",
            ),
            Slip(
                "zone-wrong-way",
                taking(lambda when: _unless_alike(when, 2 * ahead(when)), watch),
                f"Yours, {{yours}}, comes out if an hour is put on to {{{watch}}} to get UT. BST is "
                "ahead of UT, so UT is less. Check: when it is noon UT, what does a watch on BST "
                "show?",
                0.5,
            ),
        ),
    )


def to_watch(name: str, table: str, kind: Clock = WATCH) -> Step:
    """Return the step from a time in UT to the clocks ashore, which keep GMT or BST by the date."""
    rounded = f", to {kind.rounding:g} min" if kind.rounding > 1 else ""
    return Step(
        name,
        kind,
        taking(lambda when: when, table),
        how="Change to the clocks ashore once, last: in summer BST is UT and one hour, in winter "
        "GMT is UT.",
        line=f"{{{table}}} by the clocks ashore{rounded}: {{{name}}}",
        check="Is this date in summer time? Then the clock shows more than the table.",
        slips=(
            Slip(
                "zone-forgotten",
                taking(lambda when: _unless_alike(when, -ahead(when)), table),
                "Yours, {yours}, has the figures of the table with the zone of the watch. The "
                "table is in UT, and on this date the clocks ashore are an hour ahead. Check: "
                "one zone in the whole working, then change once.",
            ),
            Slip(
                "zone-wrong-way",
                taking(lambda when: _unless_alike(when, -2 * ahead(when)), table),
                "Yours, {yours}, takes the hour of summer time off. BST is ahead of UT, so the "
                "clock shows more than the table. Check: noon UT is 1300 BST.",
                0.5,
            ),
            Slip(
                "summer-hour-in-winter",
                taking(lambda when: None if ahead(when) else later(when, 60), table),
                "Yours, {yours}, has an hour put on. On this date the clocks ashore keep GMT, "
                "which is UT. Check: summer time runs from the last Sunday in March to the last "
                "in October.",
            ),
        ),
    )


# By twelfths ------------------------------------------------------------------------------------


def twelfths_after(hours: float) -> float:
    """Return how many twelfths of the range have gone by after so many tidal hours."""
    return 12 * float(TWELFTHS.share(np.asarray(hours / 6)))


def hours_after(twelfths: float) -> float:
    """Return after how many tidal hours so many twelfths of the range have gone by."""
    return 6 * float(TWELFTHS.inverse(np.asarray(twelfths / 12)))


RANGE = Step(
    "range",
    HEIGHT,
    lambda high, low: high - low,
    how="The range is high water less low water.",
    line="Range: {high} less {low}: {range}",
    check="The range is a difference: it is less than high water unless low water is nothing.",
)

LASTS = Step(
    "lasts",
    Duration(),
    lambda start, end: minutes_between(start, end),
    how="Find how long this tide takes from turn to turn.",
    line="From {start} to {end}: {lasts}",
    check="About six hours and a quarter, seldom six.",
)

A_TIDAL_HOUR = Step(
    "tidal_hour",
    TIDAL_HOUR,
    lambda lasts: lasts / 6,
    how="A sixth of that is a tidal hour.",
    line="A sixth of {lasts}: a tidal hour is {tidal_hour}",
    check="A tidal hour is near 62 minutes.",
    read_off=True,
)

GONE = Step(
    "hours",
    TIDAL_HOURS,
    lambda start, at, tidal_hour: _between_0_and_6(minutes_between(start, at), tidal_hour),
    how="Count how many tidal hours have gone since the last turn.",
    line="From {start} to {at} in hours of {tidal_hour}: {hours}",
    check="Between which two turns do you stand, and nearer to which?",
    slips=(
        Slip(
            "wrong-end",
            lambda end, at, tidal_hour: _between_0_and_6(minutes_between(at, end), tidal_hour),
            "Yours, {yours}, counts the hours to the turn that comes, {then}, as if they had "
            "gone since {first}. The water is {falling}. Check: start at the turn behind you, "
            "with its time and its height.",
        ),
    ),
    read_off=True,
)


def _between_0_and_6(minutes: float, tidal_hour: float) -> float | None:
    hours = minutes / tidal_hour if tidal_hour > 0 else -1.0
    return hours if 0 <= hours <= 6 else None


STRAIGHT = (
    "The tide is slow near its turns and fast between them: 1, 2, 3, 3, 2, 1 twelfths, hour by "
    "hour."
)

SHARE = Step(
    "twelfths",
    TWELVE,
    lambda hours: twelfths_after(hours),
    how="Add up 1, 2, 3, 3, 2, 1 twelfths as far as you have come; go on within an hour in step.",
    line="After {hours} by 1, 2, 3, 3, 2, 1: {twelfths}",
    check="After three tidal hours it is half, six twelfths. Are you before that, or past it?",
    slips=(
        Slip(
            "straight-line",
            lambda hours: 2 * hours,
            "Yours, {yours}, comes out if the water moves evenly, two twelfths in each tidal hour. "
            f"{STRAIGHT} Check: after one tidal hour only a twelfth has gone.",
        ),
    ),
    read_off=True,
)


def moved(start: float, range_m: float, twelfths: float, rising: bool) -> float:
    """Return the height in metres some twelfths of the range after a turn at height `start`."""
    return start + (1 if rising else -1) * range_m * twelfths / 12


HEIGHT_NOW = Step(
    "height",
    HEIGHT,
    lambda start_height, range, twelfths, rising: moved(start_height, range, twelfths, rising),
    how="Take that part of the range off high water, or put it on low water.",
    line="{start_height} {less} {twelfths} of {range}: {height}",
    check="Does your height lie between high and low water, and on the right side of half way?",
    slips=(
        Slip(
            "low-water-forgotten",
            lambda start_height, low, range, twelfths, rising: moved(
                start_height - low, range, twelfths, rising
            ),
            "Yours, {yours}, is the height above low water. The table counts from chart datum, "
            "and low water stands {low} above that. Check: at low water, would your way give "
            "{low}?",
        ),
    ),
    errors=(Error("by twelfths in the head", BY_HAND_M),),
)
