"""From slack to slack by rule: thirds in an hour, 50 and 90 per cent at an hour."""

import random
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.language import say
from navlib.questions.tides.draws import (
    KNOTS,
    UT,
)
from navlib.questions.tides.steps import twelfths_after
from navlib.streams import fifty_ninety, thirds

# Thirds, and fifty and ninety -------------------------------------------------------------------

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")


def _twelfth(greatest: float, hour: int) -> float:
    return greatest * (twelfths_after(hour) - twelfths_after(hour - 1)) / 12


DURING = Step(
    "during",
    KNOTS,
    lambda greatest, in_hour: float(thirds(greatest)[in_hour - 1]),
    how="Mean rates in the hours from slack to slack: 1, 2, 3, 3, 2, 1 thirds of the strongest.",
    line="In the {in_words} hour {thirds} of {greatest}: {during}",
    check="In the third and the fourth hour it is the strongest. Which hour is yours?",
    slips=(
        Slip(
            "twelfths-for-thirds",
            lambda greatest, in_hour: _twelfth(greatest, in_hour),
            "Yours, {yours}, takes twelfths. Twelfths are for heights, thirds for streams. "
            "Check: in the third hour your way must give {greatest}.",
        ),
        Slip(
            "at-for-during",
            lambda greatest, in_hour: float(fifty_ninety(greatest)[in_hour]),
            "Yours, {yours}, is the rate at the end of that hour, by 50 and 90 per cent. Asked "
            "is the mean in the hour. Check: “in an hour” is thirds, “at an hour” is 50, 90, 100.",
        ),
        Slip(
            "strongest-all-the-time",
            lambda greatest: greatest,
            "Yours, {yours}, is the strongest. The stream begins at nothing and grows. Check: "
            "which hour after slack is asked?",
        ),
    ),
)

AT = Step(
    "moment",
    KNOTS,
    lambda greatest, at_hour: float(fifty_ninety(greatest)[at_hour]),
    how="Rates at 1, 2, 3 hours after slack: 50, 90 and 100 per cent of the strongest.",
    line="{at_words} after slack {per_cent} of {greatest}: {moment}",
    check="At three hours it is the strongest, at six it is slack again.",
    slips=(
        Slip(
            "during-for-at",
            lambda greatest, at_hour: float(thirds(greatest)[at_hour - 1]),
            "Yours, {yours}, is the mean in the hour before, by thirds. Asked is the rate at "
            "that moment. Check: “in an hour” is thirds, “at an hour” is 50, 90, 100.",
        ),
        Slip(
            "even-growth",
            lambda greatest, at_hour: (
                greatest * min(at_hour, 6 - at_hour) / 3 if at_hour > 3 else None
            ),
            "Yours, {yours}, comes out if the stream weakens evenly. It stays strong for long "
            "and then drops. Check: two hours before slack it still has 90 per cent.",
        ),
        Slip(
            "twelfths-for-thirds",
            lambda greatest, at_hour: greatest * twelfths_after(at_hour) / 12,
            "Yours, {yours}, adds up twelfths. Those are for heights: a stream is strongest half "
            "way and slack at both ends. Check: at six hours your way must give nothing.",
        ),
    ),
)


def _by_day(source: random.Random) -> datetime:
    return datetime(2026, 1, 1, source.randrange(6, 13), source.randrange(60), tzinfo=UTC)


def _draw_thirds(source: random.Random) -> Mapping[str, Any]:
    in_hour, at_hour = source.choice((1, 2, 5, 6)), source.choice((1, 2, 4, 5))
    return {
        "greatest": source.randrange(15, 46) / 10,
        "in_hour": in_hour,
        "at_hour": at_hour,
        "in_words": say(ORDINALS[in_hour - 1]),
        "at_words": say("one hour") if at_hour == 1 else say("{hours} hours", {"hours": at_hour}),
        "thirds": say("one third" if in_hour in (1, 6) else "two thirds"),
        "per_cent": say("50 per cent" if at_hour in (1, 5) else "90 per cent"),
        "slack": UT.write(_by_day(source)),
    }


TYPES = (
    QuestionType(
        "tides.thirds",
        "From slack to slack",
        "tides",
        1,
        Chain(
            {
                "greatest": KNOTS,
                **dict.fromkeys(
                    ("in_hour", "at_hour", "in_words", "at_words", "thirds", "per_cent", "slack")
                ),
            },
            (DURING, AT),
        ),
        _draw_thirds,
        "It is slack at {slack}; between this slack and the next the stream runs with {greatest} "
        "at its strongest.\n\nWhat is its mean rate in the {in_words} hour after slack, by "
        "thirds? What is its rate at the moment {at_words} after slack, by 50 and 90 per cent?",
        {"during": "Mean rate in that hour", "moment": "Rate at that moment"},
    ),
)
