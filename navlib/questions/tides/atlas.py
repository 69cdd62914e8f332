"""The stream atlas: an arrow found by its position, its set measured, its figures scaled."""

import random
from collections.abc import Mapping
from functools import cache
from typing import Any

from navlib import latlon, waters
from navlib.angles import reciprocal
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.language import say
from navlib.questions.picture import TidePage
from navlib.questions.tides.draws import (
    KESSORAY,
    KNOTS,
    model,
)
from navlib.questions.tides.rates import (
    MEANS,
    SET,
    draw_range,
    rate_step,
    scaled,
)
from navlib.tides.hours import in_words
from navlib.waters import Arrow

# An arrow of the atlas --------------------------------------------------------------------------

ARROW_SIGMA = 4.0
"""Standard deviation, degrees, of the set of an arrow a centimetre long by a square protractor;
common practice for so short a line."""
STRONG_KN, ALONE_M, EDGE_M = 1.2, 1300.0, 1000.0
"""An arrow asked about is this strong at springs, and this far from others and from the edge."""


@cache
def clear_arrows(hour: int) -> tuple[Arrow, ...]:
    """Return the arrows of an atlas page that one can name by position: strong, no other near."""
    arrows = model(KESSORAY).atlas(hour)
    west, south, east, north = model(KESSORAY).area
    return tuple(
        arrow
        for arrow in arrows
        if arrow.spring_kn >= STRONG_KN
        and west + EDGE_M < arrow.place[0] < east - EDGE_M
        and south + EDGE_M < arrow.place[1] < north - EDGE_M
        and all(
            other is arrow
            or abs(complex(*arrow.place) - complex(*other.place)) > ALONE_M
            or other.spring_kn < 0.25
            for other in arrows
        )
    )


ARROW_SET = Step(
    "set",
    SET,
    lambda arrow_set: arrow_set,
    how="Lay the protractor on the arrow, its north up the page.",
    line="The arrow points to {set}",
    check="Look first: which quarter does the arrow point to?",
    slips=(
        Slip(
            "set-as-from",
            lambda arrow_set: reciprocal(arrow_set),
            "Yours, {yours}, is where the water comes from. The arrow flies to its head. Check: "
            "streams are named for where they go.",
        ),
        Slip(
            "mirror",
            lambda arrow_set: -arrow_set % 360,
            "Yours, {yours}, is read from the ring that counts the other way round. Check: a set "
            "to the east is between 000 and 180.",
        ),
    ),
    errors=(Error("protractor on a short arrow", ARROW_SIGMA),),
)


def _draw_arrow(source: random.Random) -> Mapping[str, Any] | None:
    hour = source.randrange(-6, 7)
    arrows = clear_arrows(hour)
    if not arrows:
        return None
    arrow, ranged = source.choice(arrows), draw_range(source)
    springs, neaps = KNOTS.rounded(arrow.spring_kn), KNOTS.rounded(arrow.neap_kn)
    if not scaled(springs, neaps, ranged):
        return None
    return {
        **ranged,
        "hour": hour,
        "hour_words": in_words(hour),
        "arrow_set": arrow.set_to,
        "springs": springs,
        "neaps": neaps,
        "position": latlon.format(*waters.load(KESSORAY).lat_lon(arrow.place), places=1),
    }


TYPES = (
    QuestionType(
        "tides.atlas",
        "An arrow of the atlas",
        "tides",
        2,
        Chain(
            {
                **MEANS,
                "springs": KNOTS,
                "neaps": KNOTS,
                **dict.fromkeys(("date", "day", "hour", "hour_words", "arrow_set", "position")),
            },
            (ARROW_SET, rate_step("rate")),
        ),
        _draw_arrow,
        "On {day}, {hour_words}, you are at {position}; the comma of the nearest figures marks "
        "the place. Today’s range is {range}, against {springs_range} at springs and "
        "{neaps_range} at neaps.\n\nMeasure the set there, and find today’s rate.",
        {"set": "Set", "rate": "Rate today"},
        lambda givens: TidePage(
            KESSORAY,
            "streams",
            say("Tidal streams {hour}.", {"hour": givens["hour_words"]}),
            hour=givens["hour"],
        ),
    ),
)
