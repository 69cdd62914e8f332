"""Slack at a gate, from the table of its diamond."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.angles import signed_difference
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.clock import later
from navlib.kinds.numbers import Number
from navlib.language import say
from navlib.questions.picture import TidePage
from navlib.questions.tides.draws import (
    KESSORAY,
    KNOTS,
    UT,
    by_day,
    date_words,
    draw_turn,
    model,
    turns_of,
)
from navlib.questions.tides.rates import SET, rows
from navlib.questions.tides.steps import to_watch
from navlib.tides import Water
from navlib.tides.hours import in_words
from navlib.waters import StreamRow

# Slack at a diamond -----------------------------------------------------------------------------

HOURS_FROM_HIGH = Number("h", 0.1)


def turns_between(one: StreamRow, other: StreamRow) -> bool:
    """Return whether a stream turns straight round between two hours of its table."""
    return abs(signed_difference(one.set_to, other.set_to)) > 165


def slack_after(letter: str, hour: int) -> float:
    """Return the hours from high water at which the stream between two rows is nothing.

    The two rates lie on a straight line, one each way (common practice).
    """
    one, other = rows(letter)[hour].spring_kn, rows(letter)[hour + 1].spring_kn
    return hour + one / (one + other)


SLACK_HOUR = Step(
    "from_high",
    HOURS_FROM_HIGH,
    lambda letter, row: slack_after(letter, row),
    how="Find the two rows between which the set turns round. Slack lies between them, nearer to "
    "the weaker.",
    line="Diamond {letter} sets {set_before} {hour_before}, {set_after} {hour_after}: slack at "
    "{from_high} from HW",
    check="On one side of it the water goes one way, on the other side the other way.",
    slips=(
        Slip(
            "slack-at-high-water",
            lambda letter: 0.0,
            "Yours, {yours}, takes the stream to turn at high water. Here it runs on, at HW with "
            "{at_high}. Check: read the row at HW. Is it weak?",
        ),
        Slip(
            "before-for-after",
            lambda letter, row: -slack_after(letter, row),
            "Yours, {yours}, counts to the other side of high water. The set turns between "
            "{hour_before} and {hour_after}. Check: rows with a minus come earlier than high "
            "water.",
        ),
    ),
)

SLACK_TIME = Step(
    "time",
    UT,
    lambda high, from_high: later(high, from_high * 60),
    how="Put these hours on the time of high water, or take them off it.",
    line="HW {high} and {from_high}: {time}",
    check="A tenth of an hour is 6 minutes.",
    errors=(Error("between two rows of a table", 8.0),),
)


def _draw_slack(source: random.Random) -> Mapping[str, Any] | None:
    day, turn = draw_turn(source)
    letter = source.choice("AB")
    table = rows(letter)
    found = [hour for hour in range(-6, 6) if turns_between(table[hour], table[hour + 1])]
    row = source.choice(found)
    when = later(turn.time, slack_after(letter, row) * 60)
    if turn.kind != Water.HIGH or not by_day(when) or when.date() != day:
        return None
    highs = [t for t in turns_of(KESSORAY, day) if t.kind == Water.HIGH]
    one, other = table[row], table[row + 1]
    return {
        "letter": letter,
        "name": model(KESSORAY).diamond(letter).name,
        "row": row,
        "high": turn.time,
        "which": say(
            "high water"
            if len(highs) == 1
            else "the later high water"
            if turn == highs[-1]
            else "the earlier high water"
        ),
        "before_or_after": say("next after" if row >= 0 else "last before"),
        "set_before": SET.write(one.set_to),
        "set_after": SET.write(other.set_to),
        "hour_before": in_words(one.hour),
        "hour_after": in_words(other.hour),
        "at_high": KNOTS.write(table[0].spring_kn),
        "day": date_words(day),
    }


TYPES = (
    QuestionType(
        "tides.slack",
        "Slack at the gate",
        "tides",
        3,
        Chain(
            {
                "high": UT,
                **dict.fromkeys(
                    (
                        *("letter", "name", "row", "which", "before_or_after", "set_before"),
                        *("set_after", "hour_before", "hour_after", "at_high", "day"),
                    )
                ),
            },
            (SLACK_HOUR, SLACK_TIME, to_watch("ashore", "time")),
        ),
        _draw_slack,
        "On {day}, {which} at Kessoray Harbour is at {high}. You want to pass diamond {letter}, "
        "{name}, at the slack {before_or_after} it.\n\nWhen is that by the clocks ashore? Give "
        "the zone.",
        {"ashore": "Time of slack"},
        lambda givens: TidePage(KESSORAY, "diamonds", say("Tables of the tidal diamonds.")),
    ),
)
