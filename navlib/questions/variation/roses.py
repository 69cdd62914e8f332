"""The printed rose brought to another year."""

import math
import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from navlib.angles import signed, signed_difference, write_east_west
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import EastWest
from navlib.language import say
from navlib.magnetism import Rose

MINUTE = EastWest(1 / 60)
"""Degrees and minutes, as a rose has them."""


def side_name(angle: float) -> str:
    """Return westerly or easterly, as a variation or its change is called."""
    return say("westerly" if angle < 0 else "easterly")


def rose_words(rose: Rose, now: int) -> dict[str, Any]:
    """Return the givens of a rose and the words that go with it, for a question set in `now`."""
    change = signed_difference(rose.variation(now), rose.printed)
    together = (rose.printed < 0) == (change < 0)
    return {
        "rose": rose,
        "now": now,
        "legend": rose.write(),
        "printed": write_east_west(rose.printed),
        "year": f"{rose.year:g}",
        "years": f"{now - rose.year:g}",
        "yearly": write_east_west(rose.annual_change / 60).removeprefix("0°").lstrip("0"),
        "total": f"{abs(change) * 60:.0f}",
        "name": side_name(rose.printed),
        "way": side_name(change),
        "effect": say("larger" if together else "smaller"),
    }


ROSE = dict.fromkeys(rose_words(Rose(-4, 2020, 14), 2027))
"""Names of the givens that `rose_words` makes."""


def change_since(rose: Rose, now: int) -> float:
    """Return how far the variation has moved since the rose was made: degrees, east positive."""
    return signed_difference(rose.variation(now), rose.printed)


CHANGE = Step(
    "change",
    MINUTE,
    change_since,
    how="Count the years from the year in the rose, and multiply by the change in one year. "
    "Sixty minutes make a degree.",
    line="{year} to {now} is {years} years, {yearly} each: {total}', that is {change}",
    check="Which year stands in the rose, and how many years is that ago?",
    slips=(
        Slip(
            "minutes-as-decimals",
            lambda rose, now: change_since(rose, now) * 60 / 100,
            "Yours, {yours}, comes out if {total} minutes are written as hundredths of a degree. "
            "A degree has 60 minutes, so {total}′ is {change}. Check: divide minutes by 60.",
        ),
        Slip(
            "one-year-only",
            lambda rose: rose.annual_change / 60,
            "Yours, {yours}, comes out if the variation moves once by {yearly}. That is the change "
            "in one year, and {years} years have passed since {year}. Check: change times years.",
        ),
    ),
)

FROM_EDITION = Slip(
    "years-from-edition",
    lambda rose, now, edition: change_since(replace(rose, year=edition), now),
    "Yours, {yours}, comes out if the years are counted from {edition}, when the chart was printed. "
    "The rose has a year of its own, {year}. Check: take the year beside the variation, no other.",
)


def _at_a_hundred(rose: Rose, change: float) -> float | None:
    """Return the sum carried or borrowed at a hundred; None where that gives no angle."""
    printed, moved = round(abs(rose.printed) * 60), round(abs(change) * 60)
    minutes, more = printed % 60, moved % 60
    if (rose.printed < 0) == (change < 0):
        size = printed + moved - 40 if minutes + more >= 100 else None
    else:
        borrowed = more - minutes > 40 and printed > moved
        size = printed - moved + 40 if borrowed else None
    return None if size is None else math.copysign(size / 60, rose.printed)


VARIATION = Step(
    "variation",
    MINUTE,
    lambda rose, change: signed(rose.printed + change),
    how="The variation is {name} and the change {way}: it gets {effect}.",
    line="{printed} and a change of {change}: {variation}",
    check="Is the change to the same side as the variation? Then it grows; if not, it shrinks.",
    slips=(
        Slip(
            "change-wrong-way",
            lambda rose, change: signed(rose.printed - change),
            "Yours, {yours}, has the change of {change} the wrong way on. The variation is {name} "
            "and the change {way}, so it gets {effect}. Check: same side, it grows; other side, it "
            "shrinks.",
        ),
        Slip(
            "change-forgotten",
            lambda rose: rose.printed,
            "Yours, {yours}, is the figure as it was printed, {years} years ago. By {now} it has "
            "moved by {change}. Check: look at the year in the rose before you look at the angle.",
        ),
        Slip(
            "hundred-minute-degree",
            _at_a_hundred,
            "Yours, {yours}, is 40' out, because a degree was taken for a hundred minutes. It has "
            "60. Check: go back from your answer by {change}; you do not come to {printed}.",
            0.5,
        ),
    ),
)


def draw_rose(source: random.Random, years: tuple[int, int], now: int = 0) -> dict[str, Any] | None:
    """Return a rose that is so many years old, which does not come near zero, and its words."""
    now = now or source.randint(2026, 2029)
    printed = source.choice((-1, -1, 1)) * source.randrange(3 * 60, 15 * 60, 5) / 60
    rose = Rose(
        printed, now - source.randint(*years), source.choice((-1, 1)) * source.randint(5, 15)
    )
    if signed(rose.printed + 2 * change_since(rose, now)) * printed <= 0:
        return None
    return rose_words(rose, now)


def _draw_edition(source: random.Random) -> Mapping[str, Any] | None:
    drawn = draw_rose(source, (5, 12))
    return drawn and {**drawn, "edition": int(drawn["rose"].year) + source.randint(2, 4)}


TYPES = (
    QuestionType(
        "variation.rose-to-date",
        "The rose brought up to date",
        "variation",
        1,
        Chain(
            {**ROSE, "edition": None},
            (replace(CHANGE, slips=(*CHANGE.slips, FROM_EDITION)), VARIATION),
        ),
        _draw_edition,
        "A chart was printed in {edition}. Its rose reads {legend}.\n\n"
        "What is the variation in {now}? Count whole years; give degrees and minutes.",
        {"variation": "Variation in {now}"},
    ),
)
