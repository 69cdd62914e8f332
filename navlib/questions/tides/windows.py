"""When a way lies dry: from when one may walk over, and when one must be back."""

import random
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.clock import later
from navlib.kinds.times import Clock, Duration
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    by_day,
    date_words,
    draw_day,
    said,
    turns_about,
)
from navlib.questions.tides.steps import BY_HAND_MIN, WATCH_BY_HAND, to_watch
from navlib.tides import TWELFTHS, Tide, Turn, Water

CAUSEWAY = 3.4
"""Drying height of Wether Causeway in metres."""
Turns = tuple[Turn, ...]
"""High water, low water and the next high water."""


def _passes(one: Turn, other: Turn, level: float) -> datetime | None:
    """Return when the water passes a level between two turns, by twelfths; None if it does not."""
    tide = Tide(one, other)
    inside = tide.low.height < level < tide.high.height
    return TWELFTHS.time(tide, level) if inside else None


def _opens(turns: Turns, level: float) -> datetime | None:
    return _passes(turns[0], turns[1], level)


def _closes(turns: Turns, level: float) -> datetime | None:
    return _passes(turns[1], turns[2], level)


def _mirrored(high: Turn, low: Turn, level: float) -> float:
    """Return the level as far above low water as `level` is below high water."""
    return high.height + low.height - level


ABOVE_LOW_WATER = (
    "Yours, {yours}, counts the {drying} from low water. A drying height counts from chart "
    "datum, as the table does. Check: all heights on chart and table have one zero."
)

DRY_FROM = Step(
    "dry_from",
    Clock("UT", side="later"),
    lambda turns, drying: _opens(turns, drying),
    how="Find how many twelfths the first tide falls to {drying}, and how long it takes for that.",
    line="Falling from {first_high}, the water passes {drying} at {dry_from}",
    check="At low water the way is dry. Is your time before low water?",
    slips=(
        Slip(
            "above-low-water",
            lambda turns, drying: _opens(turns, turns[1].height + drying),
            ABOVE_LOW_WATER,
        ),
        Slip(
            "wrong-end",
            lambda turns, drying: _opens(turns, _mirrored(turns[0], turns[1], drying)),
            "Yours, {yours}, takes the height above low water for the fall from high water. "
            "Check: when you start the clock at {first_high}, measure the fall from there too.",
        ),
    ),
    errors=(Error("by twelfths in the head", BY_HAND_MIN),),
)

DRY_TO = replace(
    DRY_FROM,
    name="dry_to",
    kind=Clock("UT", side="earlier"),
    work=lambda turns, drying: _closes(turns, drying),
    how="Do the same for the tide that rises, from low water up to {drying}.",
    line="Rising from {low_water}, the water passes {drying} at {dry_to}",
    check="Is your time after low water?",
    slips=(
        Slip(
            "above-low-water",
            lambda turns, drying: _closes(turns, turns[1].height + drying),
            ABOVE_LOW_WATER,
        ),
    ),
)

BACK = Step(
    "back",
    Clock("UT", side="earlier"),
    lambda dry_to, spare: later(dry_to, -spare),
    how="Be back earlier than that by what you keep in hand.",
    line="{dry_to} less {spare}: {back}",
    check="If the water comes early, are you over?",
    slips=(
        Slip(
            "margin-forgotten",
            lambda dry_to: dry_to,
            "Yours, {yours}, is the minute at which the sea closes the way. You want {spare} in "
            "hand. Check: is your time earlier than the sea’s?",
        ),
    ),
)


OPENS = to_watch("opens", "dry_from", replace(WATCH_BY_HAND, side="later"))
LATEST = to_watch("ashore", "back", replace(WATCH_BY_HAND, side="earlier"))


def _draw_causeway(source: random.Random) -> Mapping[str, Any] | None:
    day = draw_day(source)
    turns = turns_about(KESSORAY, day)
    threes = [
        (one, low, other)
        for one, low, other in zip(turns, turns[1:], turns[2:], strict=False)
        if low.kind == Water.LOW and low.time.date() == day
    ]
    three = source.choice(threes)
    opens, closes = _opens(three, CAUSEWAY), _closes(three, CAUSEWAY)
    if opens is None or closes is None or not (by_day(opens) and by_day(closes)):
        return None
    return {
        "turns": three,
        "drying": CAUSEWAY,
        "spare": float(source.choice((25, 30, 35))),
        "first_high": said(three[0]),
        "low_water": said(three[1]),
        "last_high": said(three[2]),
        "day": date_words(day),
    }


TYPES = (
    QuestionType(
        "tides.causeway",
        "Over the causeway and back",
        "tides",
        3,
        Chain(
            {
                "drying": HEIGHT,
                "spare": Duration(),
                **dict.fromkeys(("turns", "first_high", "low_water", "last_high", "day")),
            },
            (DRY_FROM, OPENS, DRY_TO, BACK, LATEST),
        ),
        _draw_causeway,
        "Wether Causeway dries {drying}. For {day} the table, in UT, has {first_high}, then "
        "{low_water}, then {last_high}.\n\nFrom when can you walk over dry, and when must you be "
        "back if you want {spare} in hand? Use the twelfths. Give both times by the clocks "
        "ashore, with their zone, to five minutes on the safe side.",
        {"opens": "Dry from", "ashore": "Back at the latest"},
    ),
)
