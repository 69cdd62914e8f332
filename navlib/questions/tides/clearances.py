"""Depth, keel and mast: over what dries, under what spans the water, and between the two limits."""

import random
from collections.abc import Mapping
from datetime import datetime
from functools import cache
from typing import Any

from navlib import waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.language import say, to_say
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    draw_turn,
    draw_within,
    levels,
    model,
    turns_about,
)
from navlib.tides import (
    Tide,
    depth_over_drying,
    over_mast,
    overhead,
    tide_at,
    under_keel,
    water_depth,
)

# Over a bank ------------------------------------------------------------------------------------

BANKS = {
    to_say("the top of Saltpan Bank"): -1.6,
    "Tusk Rock": -0.6,
    to_say("the sill under Span Bridge"): -0.9,
    to_say("a gravel spit"): -2.2,
    to_say("the foot of a slip"): -1.1,
    to_say("a sandy patch"): 0.4,
    to_say("the bar of a small creek"): 0.7,
    to_say("a flat rock"): 1.2,
}
"""Charted depths in metres, negative where it dries."""

DEPTH = Step(
    "depth",
    HEIGHT,
    lambda charted, tide: water_depth(charted, tide) if charted > 0 else _over(-charted, tide),
    how="A charted depth is put on the height of tide; a drying height is taken off it.",
    line="Height of tide {tide}, {charted_words}: {depth}",
    check="Draw chart datum as a line. Is the bottom above it or below it, and where is the water?",
    slips=(
        Slip(
            "drying-for-depth",
            lambda charted, tide: water_depth(-charted, tide),
            "Yours, {yours}, has the bottom on the wrong side of chart datum. {datum_words} "
            "Check: draw chart datum, the bottom and the water, each as a line.",
        ),
        Slip(
            "charted-only",
            lambda charted: charted if charted > 0 else None,
            "Yours, {yours}, is the charted depth: the water there is at chart datum. The tide "
            "adds {tide}. Check: the chart shows the lowest water, the table what comes on top.",
        ),
        Slip(
            "tide-only",
            lambda tide: tide,
            "Yours, {yours}, is the height of tide alone. That is the depth only where the "
            "bottom lies at chart datum, and here it does not: {charted_words}. Check: which "
            "figure is on the chart?",
        ),
    ),
)

KEEL = Step(
    "keel",
    HEIGHT,
    lambda depth, draught: under_keel(depth, draught),
    how="Take the draught off the depth.",
    line="{depth} less the draught of {draught}: {keel}",
    check="Less than nothing means aground.",
    slips=(
        Slip(
            "draught-added",
            lambda depth, draught: depth + draught,
            "Yours, {yours}, puts the draught on. The boat reaches down {draught} into the "
            "water, so less is left. Check: is it less than the depth?",
        ),
        Slip(
            "draught-forgotten",
            lambda depth: depth,
            "Yours, {yours}, is the depth. Part of that is the boat itself, {draught}. Check: "
            "from where to where do you measure?",
        ),
    ),
)


def _over(drying: float, tide: float) -> float:
    return depth_over_drying(drying, tide)


_DRYING = {
    "charted_words": to_say("which dries {metres}"),
    "datum_words": to_say(
        "It dries {metres}: it stands that much above chart datum, so take it off."
    ),
    "chart_says": to_say("The chart has {metres} there, underlined"),
}
_COVERED = {
    "charted_words": to_say("charted depth {metres}"),
    "datum_words": to_say("Its depth of {metres} lies below chart datum, so put it on."),
    "chart_says": to_say("The chart has a depth of {metres} there"),
}
"""How the two are told, by the names of the givens."""

_BOATS = ((to_say("launch"), 0.6), (to_say("yacht"), 1.4), (to_say("dinghy"), 0.9))
"""Boats that come to a bank, with their draughts in metres."""


def _draw_bank(source: random.Random) -> Mapping[str, Any] | None:
    place, charted = source.choice(list(BANKS.items()))
    boat, draught = source.choice(_BOATS)
    tide = draw_height(source)
    if tide is None or not 0 < charted + tide - draught < 4:
        return None
    dries = charted < 0
    metres = HEIGHT.write(abs(charted))
    return {
        "charted": charted,
        "tide": tide,
        "draught": draught,
        "boat": boat,
        "place": place,
        **{
            name: say(words, {"metres": metres})
            for name, words in (_DRYING if dries else _COVERED).items()
        },
    }


@cache
def _tide_at(when: datetime) -> Tide:
    return tide_at(model(KESSORAY).standard, when)


def draw_height(source: random.Random) -> float | None:
    """Return the height of tide at a time by day, as someone works it out to the decimetre."""
    day, _ = draw_turn(source)
    turns = turns_about(KESSORAY, day)
    when = draw_within(source, _tide_at(turns[len(turns) // 2].time))
    return HEIGHT.rounded(model(KESSORAY).standard.heights(when)) if when else None


# Under a bridge ---------------------------------------------------------------------------------

SPANS = {"Span Bridge": ("span-bridge", 8.0), to_say("the Power Cable"): ("power-cable", 15.2)}
"""Feature of each span, and a height of mast to which the tide matters there."""

CLEARANCE = Step(
    "clearance",
    HEIGHT,
    lambda charted, hat, tide: overhead(charted, hat, tide),
    how="The printed clearance stands above HAT. Put on what the water is below HAT.",
    line="{charted} and ({hat} less {tide}): {clearance}",
    check="The water is nearly always below HAT: there is nearly always more room than printed.",
    slips=(
        Slip(
            "tide-put-on",
            lambda charted, tide: charted + tide,
            "Yours, {yours}, puts the height of tide on, so that higher water gives more room. "
            "As the water rises the gap shrinks. Check: at HAT, {hat}, your way must give "
            "{charted}.",
        ),
        Slip(
            "tide-taken-off",
            lambda charted, tide: charted - tide,
            "Yours, {yours}, takes the tide off as if the printed gap stood above chart datum. "
            "It stands above HAT. Check: at HAT, {hat}, your way must give {charted}.",
        ),
        Slip(
            "as-printed",
            lambda charted: charted,
            "Yours, {yours}, is the printed figure: the room at HAT, when the water is at {hat}. "
            "Now it stands at {tide}. Check: is the water at HAT today?",
        ),
        Slip(
            "from-mean-springs",
            lambda charted, mhws, tide: overhead(charted, mhws, tide),
            "Yours, {yours}, counts the clearance from MHWS, {mhws}. This chart counts from HAT, "
            "{hat}; older ones count from MHWS. Check: the chart’s title says which.",
        ),
    ),
)

SPARE = Step(
    "spare",
    HEIGHT,
    lambda clearance, mast: over_mast(clearance, mast),
    how="Take the height of the mast above the water off the clearance.",
    line="{clearance} less the mast of {mast}: {spare}",
    check="Less than nothing means that the mast strikes.",
    slips=(
        Slip(
            "draught-counted",
            lambda clearance, mast, draught: over_mast(clearance, mast + draught),
            "Yours, {yours}, takes the draught off as well. The clearance begins at the water, "
            "and so does the mast’s height. Check: what lies above the water, and what below?",
        ),
        Slip(
            "draught-put-on",
            lambda clearance, mast, draught: over_mast(clearance, mast - draught),
            "Yours, {yours}, leaves the draught out of the mast. The {mast} are counted from the "
            "water already. Check: from where to where was the mast measured?",
            0.5,
        ),
    ),
)


def span_givens(source: random.Random, name: str) -> dict[str, Any]:
    """Return the givens of a span, and a boat to which the tide matters under it."""
    feature, mast = SPANS[name]
    means = levels(KESSORAY)
    return {
        "span": name,
        "charted": waters.load(KESSORAY).feature(feature).clearance,
        "hat": means.hat,
        "mhws": means.mhws,
        "mast": round(mast + source.randrange(-8, 9) / 10, 1),
        "draught": source.choice((0.9, 1.0, 1.2, 1.4, 1.6, 1.8)),
    }


def _draw_span(source: random.Random) -> Mapping[str, Any] | None:
    tide = draw_height(source)
    span = span_givens(source, source.choice(list(SPANS)))
    if (
        tide is None
        or abs(over_mast(overhead(span["charted"], span["hat"], tide), span["mast"])) < 0.2
    ):
        return None
    return {**span, "tide": tide}


SPAN = {
    **dict.fromkeys(("charted", "hat", "mhws", "mast", "draught", "tide"), HEIGHT),
    "span": None,
}

TYPES = (
    QuestionType(
        "tides.over-the-bank",
        "How deep is it there?",
        "tides",
        1,
        Chain(
            {
                **dict.fromkeys(("charted", "tide", "draught"), HEIGHT),
                **dict.fromkeys(("boat", "place", "charted_words", "datum_words", "chart_says")),
            },
            (DEPTH, KEEL),
        ),
        _draw_bank,
        "Your {boat} draws {draught}. You come to {place}. {chart_says}. The height of tide is "
        "{tide}.\n\nHow deep is the water there, and how much is there under the keel?",
        {"depth": "Depth of water", "keel": "Under the keel"},
    ),
    QuestionType(
        "tides.under-the-bridge",
        "Does the mast go under?",
        "tides",
        2,
        Chain(SPAN, (CLEARANCE, SPARE)),
        _draw_span,
        "The chart gives {span} a clearance of {charted} above HAT. At this port HAT is {hat} "
        "and MHWS {mhws}. The tide stands at {tide}. Your mast reaches {mast} above the water, "
        "and you draw {draught}.\n\nHow much room is there between water and span now, and how "
        "much over the mast? Where the mast strikes, put a minus.",
        {"clearance": "Clearance now", "spare": "Over the mast"},
    ),
)
