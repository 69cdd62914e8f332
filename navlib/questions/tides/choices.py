"""The right moment: hours in order of their streams, and where wind meets tide."""

import random
from collections.abc import Mapping
from datetime import timedelta
from functools import cache
from itertools import combinations, permutations
from typing import Any

from navlib.angles import signed_difference, wrap
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, Work
from navlib.clock import later
from navlib.kinds.choices import Choice, Order
from navlib.language import say
from navlib.questions.picture import Table, TidePage
from navlib.questions.tides.draws import (
    KESSORAY,
    KNOTS,
    UT,
    by_day,
    date_words,
    draw_turn,
    model,
)
from navlib.questions.tides.rates import LETTERS, SET, rows
from navlib.tides import Water
from navlib.tides.hours import in_words
from navlib.waters import StreamRow

# Hours in order ---------------------------------------------------------------------------------

Hours = tuple[int, ...]
"""Hours from high water of the times a, b, c, d."""


def _sorted_by(measure: Any) -> Work:
    def order(letter: str, hours: Hours) -> tuple[str, ...]:
        numbered = zip("abcd", hours, strict=True)
        return tuple(key for key, hour in sorted(numbered, key=lambda n: measure(letter, n[1])))

    return order


def _rate(letter: str, hour: int) -> float:
    return rows(letter)[hour].spring_kn


def _next_letter(letter: str) -> str:
    return LETTERS[(LETTERS.index(letter) + 1) % len(LETTERS)]


WEAKEST_FIRST = Step(
    "order",
    Order({letter: f"time {letter.upper()}" for letter in "abcd"}),
    _sorted_by(_rate),
    how="Find the row for each time, then put the rates in order.",
    line="{rates_words}: {order}",
    check="Write the row and the rate beside each time before you sort.",
    slips=(
        Slip(
            "strongest-first",
            _sorted_by(lambda letter, hour: -_rate(letter, hour)),
            "Yours, {yours}, begins with the strongest. Check: the weakest was to come first.",
        ),
        Slip(
            "before-for-after",
            _sorted_by(lambda letter, hour: _rate(letter, -hour)),
            "Yours, {yours}, comes out if hours before and after high water are exchanged. "
            "Check: a time earlier than {high} has a row with a minus.",
        ),
        Slip(
            "by-the-clock",
            _sorted_by(lambda letter, hour: hour),
            "Yours, {yours}, is the order of the clock. Check: write the rate beside each time.",
        ),
    ),
)


@cache
def _hours_apart(letter: str) -> tuple[Hours, ...]:
    """Return all ways to choose four hours, in any order, with rates that nobody mixes up."""
    return tuple(
        hours
        for hours in permutations(range(-5, 6), 4)
        if min(
            abs(_rate(letter, one) - _rate(letter, other)) for one, other in combinations(hours, 2)
        )
        > 0.25
    )


def _draw_hours(source: random.Random) -> Mapping[str, Any] | None:
    letter, (day, turn) = source.choice("ABD"), draw_turn(source)
    if turn.kind != Water.HIGH or not 10 <= turn.time.hour < 17:
        return None
    hours = source.choice(_hours_apart(letter))
    rates = [_rate(letter, hour) for hour in hours]
    times = [turn.time + timedelta(hours=hour, minutes=source.randrange(-18, 19)) for hour in hours]
    listed = zip("ABCD", times, hours, rates, strict=True)
    return {
        "letter": letter,
        "name": model(KESSORAY).diamond(letter).name,
        "hours": hours,
        "high": turn.time,
        "times": ", ".join(
            f"{key} {UT.write(time)}" for key, time in zip("ABCD", times, strict=True)
        ),
        "rates_words": ", ".join(
            f"{key} {in_words(hour)} {KNOTS.write(rate)}" for key, _, hour, rate in listed
        ),
        "day": date_words(day),
    }


# Wind over tide ---------------------------------------------------------------------------------

TIMES = Choice({letter: f"time {letter.upper()}" for letter in "abcd"})
POINTS = {0: "north", 45: "north-east", 180: "south", 225: "south-west"}
"""Winds by where they come from, along the diamonds' streams."""
Rows = tuple[StreamRow, ...]


def _against(row: StreamRow, wind: float) -> float:
    """Return the knots that a stream sets towards where the wind comes from; negative with it."""
    near = abs(signed_difference(row.set_to, wind))
    return row.spring_kn if near < 45 else -row.spring_kn if near > 135 else 0.0


def _least_against(row: StreamRow, wind: float) -> float:
    """Return what is greatest for the weakest of the streams that meet the wind."""
    return 1 / _against(row, wind) if _against(row, wind) > 0 else 0.0


def _greatest(measure: Any) -> Work:
    def best(hours: Rows, wind: float) -> str:
        return max(
            zip("abcd", hours, strict=True), key=lambda lettered: measure(lettered[1], wind)
        )[0]

    return best


ROUGHEST = Step(
    "roughest",
    TIMES,
    _greatest(_against),
    how="A wind is named for where it comes from, a stream for where it goes. They meet head on "
    "when the two names are alike.",
    line="Wind from the {wind_words}, and the strongest stream setting that way: {roughest}",
    check="Draw both as arrows. Do they fly against each other?",
    slips=(
        Slip(
            "with-the-wind",
            _greatest(lambda row, wind: _against(row, wrap(wind + 180))),
            "Yours, {yours}, has the stream running with the wind: strong, but with a long, low "
            "sea. A wind from {wind_words} is met by a stream that sets to {wind_words}. Check: "
            "draw both as arrows.",
        ),
        Slip(
            "weakest-chosen",
            _greatest(lambda row, wind: -row.spring_kn),
            "Yours, {yours}, is the weakest stream. The sea is roughest where a strong stream "
            "meets the wind. Check: look for wind against stream first, then for the rate.",
        ),
        Slip(
            "weaker-of-two",
            _greatest(lambda row, wind: (_against(row, wind) > 0.9 and -row.spring_kn) or -99),
            "Yours, {yours}, has wind against stream, but another time has it with more stream. "
            "Check: of those that meet the wind, which has the greatest rate?",
        ),
    ),
)


@cache
def _four_rows(letter: str, wind: int) -> tuple[Rows, ...]:
    """Return all ways to choose four hours of which two meet the wind and the strongest does not."""
    table = rows(letter)
    return tuple(
        chosen
        for chosen in (tuple(table[h] for h in hours) for hours in combinations(range(-5, 7), 4))
        if sum(_against(row, wind) >= 1 for row in chosen) >= 2
        and _against(max(chosen, key=lambda row: row.spring_kn), wind) < 0
        and min(abs(a.spring_kn - b.spring_kn) for a, b in combinations(chosen, 2)) > 0.15
    )


def _draw_wind(source: random.Random) -> Mapping[str, Any] | None:
    letter = source.choice("ABD")
    wind = source.choice((0, 180) if letter in "AB" else (45, 225))
    found = _four_rows(letter, wind)
    if not found:
        return None
    chosen = source.choice(found)
    _, turn = draw_turn(source)
    times = [later(turn.time, 60 * row.hour) for row in chosen]
    if not all(map(by_day, times)):
        return None
    return {
        "hours": chosen,
        "wind": float(wind),
        "wind_words": say(POINTS[wind]),
        "name": model(KESSORAY).diamond(letter).name,
        "letter": letter,
        "force": source.choice((4, 5)),
        "rows": tuple(
            (
                key,
                UT.write(time),
                SET.write(row.set_to),
                KNOTS.write(row.spring_kn),
            )
            for key, time, row in zip("ABCD", times, chosen, strict=True)
        ),
    }


def _wind_table(givens: Mapping[str, Any]) -> Table:
    return Table(
        say("Stream at diamond {letter}, {name}", givens),
        (say("Time"), "UT", say("Sets"), say("Rate")),
        givens["rows"],
    )


TYPES = (
    QuestionType(
        "tides.hours-in-order",
        "Weakest first",
        "tides",
        2,
        Chain(
            {
                "high": UT,
                **dict.fromkeys(("letter", "name", "hours", "times", "rates_words", "day")),
            },
            (WEAKEST_FIRST,),
        ),
        _draw_hours,
        "On {day} high water at Kessoray Harbour is at {high}. You may pass diamond {letter}, "
        "{name}, at one of four times: {times}.\n\nUse the spring rates of the table. Put the "
        "four in order, the weakest stream first.",
        {"order": "Weakest stream first"},
        lambda givens: TidePage(KESSORAY, "diamonds", say("Tables of the tidal diamonds.")),
    ),
    QuestionType(
        "tides.wind-over-tide",
        "Where wind meets tide",
        "tides",
        2,
        Chain(
            dict.fromkeys(("hours", "wind", "wind_words", "name", "letter", "force", "rows")),
            (ROUGHEST,),
        ),
        _draw_wind,
        "The wind blows from the {wind_words}, force {force}, all day. The table has the stream "
        "at four times.\n\nAt which of them do you expect the roughest sea?",
        {"roughest": "Roughest at"},
        _wind_table,
    ),
)
