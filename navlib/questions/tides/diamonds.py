"""Tidal diamonds: the row for a time, then set and rate from it."""

import random
from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from navlib.angles import reciprocal
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.language import listed, say
from navlib.questions.picture import TidePage
from navlib.questions.tides.draws import (
    KESSORAY,
    KNOTS,
    UT,
    WATCH,
    by_day,
    model,
    said,
    turns_about,
    turns_of,
    where,
)
from navlib.questions.tides.rates import (
    LETTERS,
    MEANS,
    SET,
    draw_range,
    rate_step,
    rows,
    scaled,
)
from navlib.questions.tides.steps import to_table
from navlib.tides import Turn, Water
from navlib.tides.hours import in_words
from navlib.waters import StreamRow

# The row for a time -----------------------------------------------------------------------------

ROWS = Choice({str(hour): in_words(hour) for hour in range(-6, 7)})
Turns = tuple[Turn, ...]


def row_of(high: Any, at: Any) -> int:
    """Return the row that covers a time: the nearest full hour from high water."""
    return int((at - high + timedelta(minutes=30)) // timedelta(hours=1))


def _key(hour: int) -> str | None:
    return str(hour) if -6 <= hour <= 6 else None


HOUR = Step(
    "hour",
    ROWS,
    lambda high, at: _key(row_of(high, at)),
    how="Count the hours from high water at the port that the table names, to the nearest full "
    "one.",
    line="HW {high}, and it is {at}: {hour}",
    check="Each row holds for half an hour on either side of its hour.",
    slips=(
        Slip(
            "before-for-after",
            lambda high, at: where(row_of(high, at) != 0, lambda: _key(-row_of(high, at))),
            "Yours, {yours}, is as far on the other side of high water. {high} is high water, "
            "and the time is {at}. Check: which of the two comes first in the day?",
        ),
        Slip(
            "next-row",
            lambda high, at: where(
                int((at - high) // timedelta(hours=1)) != row_of(high, at),
                lambda: _key(int((at - high) // timedelta(hours=1))),
            ),
            "Yours, {yours}, is the last full hour, and half of the next is gone already. A row "
            "holds from half an hour before its hour to half an hour after. Check: which full "
            "hour is nearest?",
        ),
    ),
)


def _row(letter: str, hour: str) -> StreamRow:
    return rows(letter)[int(hour)]


def _neighbour(letter: str) -> str:
    k = LETTERS.index(letter)
    return LETTERS[k + 1 if k + 1 < len(LETTERS) else k - 1]


SET_READ = Step(
    "set",
    SET,
    lambda letter, hour: _row(letter, hour).set_to,
    how="Read the set from that row, under the diamond’s letter.",
    line="Diamond {letter}, {hour}: sets {set}",
    check="The set is where the water flows to.",
    slips=(
        Slip(
            "set-as-from",
            lambda letter, hour: reciprocal(_row(letter, hour).set_to),
            "Yours, {yours}, is where the water comes from. Streams are named for where they go, "
            "winds for where they come from. Check: the table’s figure needs no turning round.",
        ),
        Slip(
            "other-diamond",
            lambda letter, hour: _row(_neighbour(letter), hour).set_to,
            "Yours, {yours}, stands under the diamond beside {letter}. Check: put a ruler down "
            "the column from the letter.",
        ),
    ),
)

SPRINGS_READ = Step(
    "springs",
    KNOTS,
    lambda letter, hour: _row(letter, hour).spring_kn,
    how="Read the spring rate from that row,",
    line="At springs {springs},",
)

NEAPS_READ = Step(
    "neaps",
    KNOTS,
    lambda letter, hour: _row(letter, hour).neap_kn,
    how="and the neap rate.",
    line="at neaps {neaps}",
)


def _draw_row(source: random.Random) -> Mapping[str, Any] | None:
    ranged = draw_range(source)
    day, letter = ranged["date"], source.choice("ABD")
    highs = [t for t in turns_of(KESSORAY, day) if t.kind == Water.HIGH]
    high = source.choice(highs)
    at = high.time + timedelta(minutes=source.randrange(-360, 361, 5))
    near = min(
        (t for t in turns_about(KESSORAY, day) if t.kind == Water.HIGH),
        key=lambda turn: abs(turn.time - at),
    )
    past = (at - high.time) % timedelta(hours=1)
    if near != high or not by_day(at) or abs(past - timedelta(minutes=30)) < timedelta(minutes=8):
        return None
    row = row_of(high.time, at)
    if abs(row) > 5:
        return None
    rates = rows(letter)[row].spring_kn, rows(letter)[row].neap_kn
    if rates[0] < 1 or not scaled(*rates, ranged):
        return None
    return {
        **ranged,
        "letter": letter,
        "name": model(KESSORAY).diamond(letter).name,
        "watch": at,
        "high": high.time,
        "high_waters": listed([said(turn) for turn in highs]),
    }


TYPES = (
    QuestionType(
        "tides.diamond",
        "What does the stream do there?",
        "tides",
        3,
        Chain(
            {
                **MEANS,
                **dict.fromkeys(("date", "day", "letter", "name", "high_waters")),
                "watch": WATCH,
                "high": UT,
            },
            (to_table("at", "watch"), HOUR, SET_READ, SPRINGS_READ, NEAPS_READ, rate_step("rate")),
        ),
        _draw_row,
        "On {day} the table of Kessoray Harbour, in UT, has {high_waters}; the range is {range}, "
        "against {springs_range} at springs and {neaps_range} at neaps.\n\nThe clocks ashore "
        "show {watch}. Which row of diamond {letter}, {name}, holds now? Where does the stream "
        "set, and how strong is it today?",
        {"hour": "Row, in hours", "set": "Set", "rate": "Rate today"},
        lambda givens: TidePage(KESSORAY, "diamonds", say("Tables of the tidal diamonds.")),
    ),
)
