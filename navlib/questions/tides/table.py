"""From the tide table: a high or low water on the right clock, the range, springs or neaps."""

import random
from collections.abc import Callable, Mapping
from datetime import datetime
from itertools import pairwise
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.language import say
from navlib.language.days import month_in_year
from navlib.questions.picture import TidePage
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    UT,
    date_words,
    draw_day,
    levels,
    short_name,
    turns_about,
    turns_of,
    where,
)
from navlib.questions.tides.steps import to_watch
from navlib.tides import Turn, Water

Turns = tuple[Turn, ...]
Find = Callable[[Turns, int], int]
"""From the turns of three days and the place of the one wanted to the place of another."""

NAMES = {"high": "high water", "low": "low water"}
PARTS = ("first", "second")


def _same(turns: Turns, wanted: int) -> int:
    return wanted


def _other_of_day(turns: Turns, wanted: int) -> int:
    """Return the other turn of that kind on the day."""
    day = turns[wanted].time.date()
    return next((k for k in (wanted - 2, wanted + 2) if turns[k].time.date() == day), -1)


def _day_below(turns: Turns, wanted: int) -> int:
    """Return the turn in the same place of the next day's kind."""
    turn = turns[wanted]
    days = [
        [k for k, t in enumerate(turns) if t.kind == turn.kind and t.time.date() == day]
        for day in sorted({t.time.date() for t in turns})
    ]
    today = next(k for k, day in enumerate(days) if wanted in day)
    place = days[today].index(wanted)
    below = days[today + 1] if today + 1 < len(days) else []
    return below[place] if place < len(below) else -1


def _other_water(turns: Turns, wanted: int) -> int:
    """Return the turn of the other kind printed beside it on the day, the line below if it can be."""
    day = turns[wanted].time.date()
    beside = (wanted + 1, wanted - 1)
    return next((k for k in beside if turns[k].time.date() == day), -1)


def _time(find: Find) -> Callable[[Turns, int], datetime | None]:
    def found(turns: Turns, wanted: int) -> datetime | None:
        k = find(turns, wanted)
        return where(k >= 0, lambda: turns[k].time)

    return found


def _beside(turns: Turns, time: datetime) -> Turn:
    """Return the turn whose time by the clock is nearest to a time read off."""
    return min(turns, key=lambda turn: abs(UT.apart(turn.time, time)))


def _height(turns: Turns, ashore: datetime) -> float:
    return _beside(turns, ashore).height


def _next_line(turns: Turns, ashore: datetime) -> float:
    """Return the height a line below, or above from the last line."""
    k = turns.index(_beside(turns, ashore))
    return turns[k + 1 if k + 1 < len(turns) else k - 1].height


READ_TIME = Step(
    "time",
    UT,
    lambda turns, wanted: _time(_same)(turns, wanted),
    how="Find the date, then the {part} {water} of that day; a black mark is high water.",
    line="The {part} {water} of {day}: {time}",
    check="Put a ruler under the line: date, mark, time.",
    slips=(
        Slip(
            "other-of-the-day",
            lambda turns, wanted: _time(_other_of_day)(turns, wanted),
            "Yours, {yours}, belongs to the day’s other {water}. You want the {part}. Check: a "
            "day has mostly two of each; count them from the top.",
        ),
        Slip(
            "other-water",
            lambda turns, wanted: _time(_other_water)(turns, wanted),
            "Yours, {yours}, is a {other_water}. You want {water}. Check: read the mark before "
            "the time, and see whether the height beside it is one of the large ones.",
        ),
        Slip(
            "next-day",
            lambda turns, wanted: _time(_day_below)(turns, wanted),
            "Yours, {yours}, stands on the day below. The tide comes about 50 minutes later each "
            "day. Check: put a ruler under the date before you read across.",
        ),
    ),
    read_off=True,
)

READ_HEIGHT = Step(
    "height",
    HEIGHT,
    _height,
    how="The height stands on the same line as the time.",
    line="The height beside it: {height}",
    check="Is the height on the same line as your time?",
    slips=(
        Slip(
            "next-line",
            _next_line,
            "Yours, {yours}, stands one line off. Check: put a ruler under the time, and read what "
            "stands on it.",
        ),
    ),
    read_off=True,
)


def _draw_turn_to_read(source: random.Random) -> Mapping[str, Any] | None:
    day = draw_day(source)
    kind = source.choice((Water.HIGH, Water.LOW))
    of_kind = [turn for turn in turns_of(KESSORAY, day) if turn.kind == kind]
    if len(of_kind) < 2:
        return None
    part = source.randrange(2)
    turns = turns_about(KESSORAY, day)
    return {
        "turns": turns,
        "wanted": turns.index(of_kind[part]),
        "part": say(PARTS[part]),
        "water": say(NAMES[kind]),
        "other_water": say(NAMES["low" if kind == Water.HIGH else "high"]),
        "day": date_words(day),
        "date": day,
    }


def month_page(givens: Mapping[str, Any]) -> TidePage:
    """Return the month's tide table of Kessoray Harbour that a question's date is in."""
    day = givens["date"]
    return TidePage(
        givens.get("place", KESSORAY),
        "table",
        say("Tide table for {month}.", {"month": month_in_year(day)}),
        day=day,
    )


# Range, and springs or neaps --------------------------------------------------------------------

SORTS = Choice({"springs": "near springs", "between": "between the two", "neaps": "near neaps"})


def _range(high: float, low: float) -> float:
    return high - low


TODAYS_RANGE = Step(
    "range",
    HEIGHT,
    _range,
    how="Take the height of low water off the height of high water, of the two that follow each "
    "other.",
    line="HW {high} less LW {low}: {range}",
    check="Are these two neighbours in the table, one high and one low?",
    slips=(
        Slip(
            "added",
            lambda high, low: high + low,
            "Yours, {yours}, adds the two. The range is how far the water moves between them. "
            "Check: a range is less than its high water, as long as low water stands above zero.",
        ),
        Slip(
            "high-water-for-range",
            lambda high: high,
            "Yours, {yours}, is the high water alone. At low water there is {low} left, so the "
            "water falls less than that. Check: range is high water less low water.",
        ),
        Slip(
            "two-high-waters",
            lambda high, other_high: abs(high - other_high) or None,
            "Yours, {yours}, is the difference of two high waters. The range goes from high to "
            "low. Check: one black mark and one white one.",
            0.5,
        ),
    ),
    read_off=True,
)


def _sort(range: float) -> str:
    return levels(KESSORAY).spring_or_neap(range)


OPPOSITE = {"springs": "neaps", "neaps": "springs"}

SPRINGS_OR_NEAPS = Step(
    "sort",
    SORTS,
    _sort,
    how="Hold it against the mean ranges at springs and at neaps: MHWS less MLWS, MHWN less MLWN.",
    line="Mean ranges {springs_range} and {neaps_range}, today {range}: {sort}",
    check="Springs have the large range: very high and very low on one day.",
    slips=(
        Slip(
            "springs-for-neaps",
            lambda range: OPPOSITE.get(_sort(range)),
            "Yours, {yours}, has springs and neaps exchanged. At springs the water rises highest "
            "and falls lowest, so the range is large. Check: the range today is {range}, mean "
            "springs {springs_range}.",
        ),
    ),
)


def _draw_range(source: random.Random) -> Mapping[str, Any] | None:
    day = draw_day(source)
    turns = turns_of(KESSORAY, day)
    pairs = [two for two in pairwise(turns) if two[0].kind == Water.HIGH]
    highs = [turn for turn in turns if turn.kind == Water.HIGH]
    if not pairs or len(highs) < 2:
        return None
    high, low = pairs[0]
    means = levels(KESSORAY)
    share = means.spring_fraction(high.height - low.height)
    if 0.1 < share < 0.4 or 0.6 < share < 0.9:  # nobody should fail by a hair
        return None
    return {
        "high": high.height,
        "low": low.height,
        "other_high": highs[1 if highs[0] == high else 0].height,
        "high_said": say("first high water" if high == highs[0] else "second high water"),
        "low_name": short_name(low),
        "springs_range": means.spring_range,
        "neaps_range": means.neap_range,
        "day": date_words(day),
        "date": day,
    }


TYPES = (
    QuestionType(
        "tides.read-the-table",
        "Read the tide table",
        "tides",
        1,
        Chain(
            dict.fromkeys(("turns", "wanted", "part", "water", "other_water", "day", "date")),
            (READ_TIME, to_watch("ashore", "time"), READ_HEIGHT),
        ),
        _draw_turn_to_read,
        "You want the {part} {water} of {day} at Kessoray Harbour.\n\nRead its time off the "
        "table and give it by the clocks ashore, with its zone. Then give its height.",
        {"ashore": "Time by the clocks ashore", "height": "Height"},
        month_page,
    ),
    QuestionType(
        "tides.range",
        "Springs or neaps?",
        "tides",
        1,
        Chain(
            {
                **dict.fromkeys(
                    ("high", "low", "other_high", "springs_range", "neaps_range"), HEIGHT
                ),
                **dict.fromkeys(("high_said", "low_name", "day", "date")),
            },
            (TODAYS_RANGE, SPRINGS_OR_NEAPS),
        ),
        _draw_range,
        "On {day} the water at Kessoray Harbour falls from the {high_said} to the low water that "
        "follows.\n\nWhat is the range of this tide, and is it near springs or near neaps? The "
        "mean ranges follow from the levels at the foot of the page.",
        {"range": "Range", "sort": "Springs or neaps?"},
        month_page,
    ),
)
