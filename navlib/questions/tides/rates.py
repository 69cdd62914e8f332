"""Today's rate: between the rates at neaps and at springs as today's range lies between theirs."""

import random
from collections.abc import Mapping
from datetime import date
from functools import cache
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, Work, taking
from navlib.kinds.angles import Bearing
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    KNOTS,
    date_words,
    draw_day,
    levels,
    model,
)
from navlib.streams import rate_today
from navlib.tides.hours import in_words
from navlib.waters import StreamRow

SET = Bearing("T")
LETTERS = "ABCDE"


def printed_row(row: StreamRow) -> StreamRow:
    """Return a row as its table prints it."""
    rates = (KNOTS.rounded(rate) for rate in (row.spring_kn, row.neap_kn))
    return StreamRow(row.hour, SET.rounded(row.set_to), *rates)


@cache
def rows(letter: str) -> Mapping[int, StreamRow]:
    """Return the printed rows of a diamond of the first water, by hour from high water."""
    tides = model(KESSORAY)
    return {row.hour: printed_row(row) for row in tides.rows(tides.diamond(letter))}


# Today's rate -----------------------------------------------------------------------------------

MEANS = {"springs_range": HEIGHT, "neaps_range": HEIGHT, "range": HEIGHT}


def draw_range(source: random.Random) -> dict[str, Any]:
    """Return a day with its range at the standard port, and the mean ranges."""
    day, means = draw_day(source), levels(KESSORAY)
    return {
        "date": day,
        "day": date_words(day),
        "range": _range_on(day),
        "springs_range": means.spring_range,
        "neaps_range": means.neap_range,
    }


@cache
def _range_on(day: date) -> float:
    return HEIGHT.rounded(model(KESSORAY).standard_range_on(day))


def scaled(springs_kn: float, neaps_kn: float, ranged: Mapping[str, Any]) -> bool:
    """Return whether today's rate is plainly neither the spring rate nor the neap rate."""
    ranges = (ranged[name] for name in ("range", "springs_range", "neaps_range"))
    today = rate_today(springs_kn, neaps_kn, *ranges)
    return min(abs(today - springs_kn), abs(today - neaps_kn)) > 0.26


def rate_step(name: str, springs: str = "springs", neaps: str = "neaps") -> Step:
    """Return the step to today's rate from mean rates of these names and today's range."""

    def made(work: Work, *others: str) -> Work:
        return taking(work, springs, neaps, *others)

    ranges = ("range", "springs_range", "neaps_range")
    return Step(
        name,
        KNOTS,
        made(rate_today, *ranges),
        how="Go from the neap rate towards the spring rate as far as today’s range lies from "
        "neaps to springs.",
        line=f"{{{neaps}}} and ({{{springs}}} less {{{neaps}}}) × ({{range}} less {{neaps_range}}) ÷ "
        f"({{springs_range}} less {{neaps_range}}): {{{name}}}",
        check="Does yours lie between the two rates as today’s range lies between the two ranges?",
        slips=(
            Slip(
                "spring-rate",
                made(lambda spring, neap: spring),
                "Yours, {yours}, is the spring rate as it stands. Today’s range is {range}, mean "
                "springs have {springs_range}. Check: find today’s range first, then scale the "
                "rate.",
            ),
            Slip(
                "neap-rate",
                made(lambda spring, neap: neap),
                "Yours, {yours}, is the neap rate as it stands. Today’s range is {range}, mean "
                "neaps have {neaps_range}. Check: find today’s range first, then scale the rate.",
            ),
            Slip(
                "columns-exchanged",
                made(
                    lambda spring, neap, *with_ranges: rate_today(neap, spring, *with_ranges),
                    *ranges,
                ),
                "Yours, {yours}, has the columns of springs and neaps exchanged. A larger range "
                "goes with a faster stream. Check: is today nearer to springs, and your rate "
                "nearer to the spring rate?",
            ),
        ),
    )


def _draw_rate(source: random.Random) -> Mapping[str, Any] | None:
    letter, hour = source.choice("ABD"), source.randrange(-6, 7)
    row, ranged = rows(letter)[hour], draw_range(source)
    if row.spring_kn < 1 or not scaled(row.spring_kn, row.neap_kn, ranged):
        return None
    return {
        **ranged,
        "springs": row.spring_kn,
        "neaps": row.neap_kn,
        "letter": letter,
        "hour_words": in_words(hour),
    }


RATE_TODAY = QuestionType(
    "tides.rate-today",
    "Today’s rate",
    "tides",
    2,
    Chain(
        {
            **MEANS,
            "springs": KNOTS,
            "neaps": KNOTS,
            **dict.fromkeys(("date", "day", "letter", "hour_words")),
        },
        (rate_step("rate"),),
    ),
    _draw_rate,
    "At diamond {letter} the table has, {hour_words}, {springs} at springs and {neaps} at neaps. "
    "The mean ranges at the standard port are {springs_range} at springs and {neaps_range} at "
    "neaps. On {day} the range is {range}.\n\nHow strong is the stream at that hour today?",
    {"rate": "Rate today"},
)

TYPES = (RATE_TODAY,)
