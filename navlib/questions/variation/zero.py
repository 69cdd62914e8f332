"""A rose in the long run: it grows, shrinks or changes sides, and the year in which it is zero."""

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.kinds.numbers import Number
from navlib.magnetism import Rose
from navlib.questions.variation.roses import CHANGE, ROSE, change_since, rose_words

# Which way does it go? --------------------------------------------------------------------------

_MORE, _LESS, _OVER, _SAME = "larger", "smaller", "past zero", "as printed"


def _fate(rose: Rose, change: float) -> str:
    if (rose.printed < 0) == (change < 0):
        return _MORE
    return _LESS if abs(change) < abs(rose.printed) else _OVER


WHICH_WAY = Step(
    "fate",
    Choice(
        {
            _MORE: "it is larger, on the same side",
            _LESS: "it is smaller, on the same side",
            _OVER: "it has passed zero to the other side",
            _SAME: "it is still as printed",
        }
    ),
    _fate,
    how="Same side: it grows. Other side: it shrinks, and passes zero if the change is the larger.",
    line="{printed} and a change of {change}: {fate}",
    check="Write both with their letters, E or W, one under the other. Which is the larger?",
    slips=(
        Slip(
            "change-always-added",
            lambda rose, change: _MORE if _fate(rose, change) != _MORE else None,
            "Yours, {yours}, needs a change to the side on which the variation lies. The variation "
            "is {name} and the change {way}, so it eats the variation away. Check: same letter, it "
            "grows; other letter, it shrinks.",
        ),
        Slip(
            "change-always-taken-off",
            lambda rose, change: _LESS if _fate(rose, change) == _MORE else None,
            "Yours, {yours}, needs a change against the variation. Both are {name} here, so they "
            "add up. Check: same letter, it grows; other letter, it shrinks.",
        ),
        Slip(
            "zero-not-passed",
            lambda rose, change: _LESS if _fate(rose, change) == _OVER else None,
            "Yours, {yours}, stops at zero. The change in all is {change}, more than the {printed} "
            "there was, so what is left lies on the other side. Check: which of the two is larger?",
        ),
        Slip(
            "zero-passed-too-soon",
            lambda rose, change: _OVER if _fate(rose, change) == _LESS else None,
            "Yours, {yours}, needs a change larger than {printed}. In {years} years it comes to "
            "{change} only. Check: minutes times years, divided by 60, before you judge.",
        ),
        Slip(
            "change-overlooked",
            lambda: _SAME,
            "Yours, {yours}, leaves out what stands in the brackets: {yearly} a year, for {years} "
            "years. A rose is right for one year only. Check: what do the brackets come to by {now}?",
        ),
    ),
)


def _draw_fate(source: random.Random) -> Mapping[str, Any] | None:
    now, years = source.randint(2026, 2029), source.randint(6, 30)
    printed = source.choice((-1, 1)) * source.randrange(60, 5 * 60, 10) / 60
    change = source.choice((-1, 1)) * source.randint(6, 15)
    (wanted,) = source.choices((_MORE, _LESS, _OVER), (1, 4, 2))  # the middle one is rarely drawn
    rose = Rose(printed, now - years, change)
    moved = change_since(rose, now)
    if _fate(rose, moved) != wanted or abs(printed + moved) < 0.4:
        return None
    return rose_words(rose, now)


# The year of zero -------------------------------------------------------------------------------

YEARS = Step(
    "left",
    Number("years", 1.0),
    lambda rose: abs(rose.printed * 60 / rose.annual_change),
    how="Make minutes of the printed variation and divide by the change in one year.",
    line="{printed} is {minutes}'; at {yearly} a year that takes {left}",
    check="How many years does one whole degree take at this pace?",
    slips=(
        Slip(
            "hundred-minute-degree",
            lambda rose: abs(rose.printed * 100 / rose.annual_change),
            "Yours, {yours}, comes out with a hundred minutes in a degree. There are 60, so {printed} "
            "is {minutes}'. Check: at {yearly} a year, how long does one degree take?",
        ),
    ),
)

ZERO = Step(
    "zero",
    Number("", 1.0),
    lambda rose, left: rose.year + left,
    how="Count those years from the year in the rose.",
    line="{left} after {year}: {zero}",
    check="Work the rose out for your year. Is it zero?",
    slips=(
        Slip(
            "years-from-now",
            lambda now, left: now + left,
            "Yours, {yours}, counts the years from {now}. The rose had {printed} in {year}, so the "
            "clock starts there. Check: work the rose out for your year; it is past zero by then.",
        ),
        Slip(
            "years-backwards",
            lambda rose, left: rose.year - left,
            "Yours, {yours}, goes back in time. The change is {way} against a {name} variation: it "
            "shrinks from {year} on. Check: before {year}, was it larger or smaller?",
        ),
    ),
)


def _draw_zero(source: random.Random) -> Mapping[str, Any] | None:
    now, year = 2026, source.randint(2010, 2022)
    change, left = source.randint(6, 15), source.randint(8, 40)
    minutes = change * left
    if minutes % 5 or minutes < 100 or year + left <= now:
        return None
    side = source.choice((-1, 1))
    rose = Rose(side * minutes / 60, year, -side * change)
    return {**rose_words(rose, now), "minutes": str(minutes)}


TYPES = (
    QuestionType(
        "variation.which-way",
        "Does it grow or shrink?",
        "variation",
        1,
        Chain(ROSE, (replace(CHANGE, slips=()), WHICH_WAY)),
        _draw_fate,
        "A rose reads {legend}.\n\nWhat has become of the variation by {now}?",
        {"fate": "The variation in {now}"},
    ),
    QuestionType(
        "variation.through-zero",
        "When will the needle point true?",
        "variation",
        2,
        Chain({**ROSE, "minutes": None}, (YEARS, ZERO)),
        _draw_zero,
        "In {now} you find a rose that reads {legend}. Take it that the change stays the same.\n\n"
        "In which year is the variation zero?",
        {"zero": "Year"},
    ),
)
