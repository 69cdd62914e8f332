"""Which of the day's high waters takes a boat over what dries."""

import random
from collections.abc import Mapping
from datetime import date
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.kinds.quantities import Height
from navlib.language import listed, to_say
from navlib.questions.held import within
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    ORRIMER,
    date_words,
    draw_day,
    turns_of,
    where,
)
from navlib.questions.tides.table import month_page
from navlib.tides import Water, least_height

# Which high water will do -----------------------------------------------------------------------

CROSSINGS = {
    "Wether Causeway": (KESSORAY, 3.4, ((to_say("kayaks"), 0.2), (to_say("a rowing boat"), 0.3))),
    "Shanty Bar": (
        ORRIMER,
        1.0,
        ((to_say("a rowing boat"), 0.3), (to_say("a launch"), 0.4), (to_say("a launch"), 0.5)),
    ),
}
"""Water, drying height of the way over it in metres, and boats with their draughts."""

NEEDED = Step(
    "least",
    Height(side="up"),
    lambda drying, draught, margin: least_height(-drying, draught, margin),
    how="The water must cover what dries, then carry the draught and the margin.",
    line="Dries {drying}, draught {draught}, margin {margin}: at least {least}",
    check="Draw chart datum, the top of the bank and the keel above it.",
    slips=(
        Slip(
            "drying-taken-off",
            lambda drying, draught, margin: abs(least_height(drying, draught, margin)),
            "Yours, {yours}, takes the {drying} off, as if it were a depth. What dries stands "
            "above chart datum, and the tide must cover it first. Check: at your height of tide, "
            "is the bank wet?",
        ),
        Slip(
            "drying-forgotten",
            lambda draught, margin: least_height(0, draught, margin),
            "Yours, {yours}, is the depth that you need over the bank. The bank itself stands "
            "{drying} above chart datum. Check: where does the tide table count from?",
        ),
        Slip(
            "margin-forgotten",
            lambda drying, draught: least_height(-drying, draught, 0),
            "Yours, {yours}, lets the boat just touch. The margin of {margin} is for waves and "
            "for a tide lower than predicted. Check: how much is left under the keel?",
        ),
    ),
)

WHICH = Choice(
    {
        "first": "the first only",
        "second": "the second only",
        "both": "both",
        "neither": "neither",
    }
)
_ENOUGH = {
    (True, False): "first",
    (False, True): "second",
    (True, True): "both",
    (False, False): "neither",
}


def _enough(highs: tuple[float, float], least: float) -> tuple[bool, bool]:
    first, second = highs
    return first >= least - 1e-6, second >= least - 1e-6


def _other_way(highs: tuple[float, float], least: float) -> str:
    first, second = _enough(highs, least)
    return _ENOUGH[not first, not second]


HIGH_ENOUGH = Step(
    "which",
    WHICH,
    lambda highs, least: _ENOUGH[_enough(highs, least)],
    how="Read the heights of both high waters of the day and hold them against it.",
    line="High waters {highs_words} against {least}: {which}",
    check="The two high waters of a day are seldom equal. Have you read both?",
    slips=(
        Slip(
            "compared-wrong-way",
            _other_way,
            "Yours, {yours}, names what is too low: {highs_words}, and you need {least}. Check: "
            "the water must stand higher than you need, not lower.",
        ),
        Slip(
            "one-stands-for-both",
            lambda highs, least: where(sum(_enough(highs, least)) == 1, lambda: "both"),
            "Yours, {yours}, holds for one of them only. They are {highs_words}, and you need "
            "{least}. Check: put a ruler under each high water of the day.",
        ),
    ),
)


def _draw_unlike(source: random.Random, water: str, least: float) -> tuple[date, tuple[float, ...]]:
    """Return a day and its high waters, mostly one in which they differ: that is worth asking."""
    alike = source.random() < 0.25
    for _ in range(40):
        day = draw_day(source)
        highs = tuple(t.height for t in turns_of(water, day) if t.kind == Water.HIGH)
        if alike or len({high > least for high in highs}) == 2:
            break
    return day, highs


def _draw_crossing(source: random.Random) -> Mapping[str, Any] | None:
    banks = [bank for bank, (water, *_) in CROSSINGS.items() if within(source, water)]
    bank = source.choice(banks)
    water, drying, boats = CROSSINGS[bank]
    boat, draught = source.choice(boats)
    margin = source.choice((0.3, 0.4))
    least = least_height(-drying, draught, margin)
    day, highs = _draw_unlike(source, water, least)
    if len(highs) != 2 or min(abs(high - least) for high in highs) < 0.05:
        return None
    return {
        "bank": bank,
        "place": water,
        "drying": drying,
        "boat": boat,
        "draught": draught,
        "margin": margin,
        "highs": highs,
        "highs_words": listed([HEIGHT.write(high) for high in highs]),
        "day": date_words(day),
        "date": day,
    }


TYPES = (
    QuestionType(
        "tides.which-high-water",
        "Which tide takes you over?",
        "tides",
        2,
        Chain(
            {
                **dict.fromkeys(("drying", "draught", "margin"), HEIGHT),
                **dict.fromkeys(
                    ("bank", "place", "boat", "highs", "highs_words", "day", "date"),
                ),
            },
            (NEEDED, HIGH_ENOUGH),
        ),
        _draw_crossing,
        "You mean to cross {bank} with {boat}. It dries {drying}, you draw {draught}, and you "
        "want {margin} to spare.\n\nWhat height of tide do you need at least? Which high water "
        "of {day} gives it?",
        {"least": "Least height of tide", "which": "Which high water?"},
        month_page,
    ),
)
