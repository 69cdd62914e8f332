"""Between two limits: water enough for the keel, and air enough for the mast."""

import random
from collections.abc import Mapping
from typing import Any

from navlib import waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.choices import Choice
from navlib.kinds.quantities import Height
from navlib.questions.tides.clearances import SPAN, draw_height, span_givens
from navlib.questions.tides.draws import (
    HEIGHT,
    KESSORAY,
    where,
)
from navlib.tides import (
    greatest_height,
    least_height,
)

# Between sill and bridge ------------------------------------------------------------------------

SAFE_LEAST, SAFE_MOST = Height(side="up"), Height(side="down")
"""Rounded to the safe side: more water wanted under the keel, less water under the mast."""

LEAST = Step(
    "least",
    SAFE_LEAST,
    lambda sill, draught, margin: least_height(-sill, draught, margin),
    how="The keel needs the drying height, the draught and the margin.",
    line="Sill {sill}, draught {draught}, margin {margin}: at least {least}",
    check="With that height of tide, is the depth over the sill draught and margin?",
    slips=(
        Slip(
            "drying-for-depth",
            lambda sill, draught, margin: least_height(sill, draught, margin),
            "Yours, {yours}, takes the sill’s {sill} for a depth. It is a drying height and "
            "stands above chart datum, so the tide must first cover it. Check: put your height "
            "of tide in; how deep is it?",
        ),
        Slip(
            "keel-margin-forgotten",
            lambda sill, draught: least_height(-sill, draught, 0),
            "Yours, {yours}, lets the keel just touch. The margin of {margin} is for waves and "
            "for a tide that is lower than predicted. Check: how much water is left under the "
            "keel?",
        ),
        Slip(
            "keel-margin-taken-off",
            lambda sill, draught, margin: least_height(-sill, draught, -margin),
            "Yours, {yours}, takes the margin off, so that the keel digs in by {margin}. A "
            "margin makes the height needed larger. Check: how much water is left under the keel?",
            0.5,
        ),
    ),
)

MOST = Step(
    "most",
    SAFE_MOST,
    lambda charted, hat, mast, margin: greatest_height(charted, hat, mast, margin),
    how="The arch stands at HAT and the printed clearance; take off the mast and the margin.",
    line="{hat} and {charted}, less mast {mast} and margin {margin}: at most {most}",
    check="With that height of tide, is the gap as high as mast and margin?",
    slips=(
        Slip(
            "hat-forgotten",
            lambda charted, mast, margin: charted - mast - margin,
            "Yours, {yours}, counts the clearance from chart datum. It is printed above HAT, "
            "{hat}. Check: how high above chart datum is the arch?",
        ),
        Slip(
            "mast-margin-forgotten",
            lambda charted, hat, mast: greatest_height(charted, hat, mast, 0),
            "Yours, {yours}, lets the mast just touch. Leave the margin of {margin} for waves. "
            "Check: how much air is left over the mast?",
        ),
        Slip(
            "mast-margin-put-on",
            lambda charted, hat, mast, margin: greatest_height(charted, hat, mast, -margin),
            "Yours, {yours}, puts the margin on, so that the mast strikes. A margin makes the "
            "height allowed smaller. Check: how much air is left over the mast?",
            0.5,
        ),
        Slip(
            "from-mean-springs",
            lambda charted, mhws, mast, margin: greatest_height(charted, mhws, mast, margin),
            "Yours, {yours}, counts the clearance from MHWS, {mhws}. This chart counts from HAT, "
            "{hat}. Check: the chart’s title says which.",
        ),
    ),
)

VERDICTS = Choice(
    {
        "go": "yes: enough water and enough air",
        "keel": "no: too little water over the sill",
        "mast": "no: too little air over the mast",
    }
)


def _verdict(tide: float, least: float, most: float) -> str:
    return "keel" if tide < least else "mast" if tide > most else "go"


MAY_PASS = Step(
    "verdict",
    VERDICTS,
    _verdict,
    how="Hold the height of tide against both limits.",
    line="Between {least} and {most}, and the water stands at {tide}: {verdict}",
    check="Two limits, two looks: first the keel, then the mast.",
    slips=(
        Slip(
            "one-limit-only",
            lambda tide, least, most: where(_verdict(tide, least, most) != "go", lambda: "go"),
            "Yours, {yours}, holds for one of the limits only. The water stands at {tide}, and "
            "it must lie between {least} and {most}. Check: look at the keel, then look at the "
            "mast.",
        ),
        Slip(
            "limits-exchanged",
            lambda tide, least, most: {"keel": "mast", "mast": "keel"}.get(
                _verdict(tide, least, most)
            ),
            "Yours, {yours}, has the two limits exchanged. Low water threatens the keel, high "
            "water the mast. Check: at {tide}, is the water low or high?",
        ),
    ),
)


def _draw_two_limits(source: random.Random) -> Mapping[str, Any] | None:
    tide = draw_height(source)
    givens = {
        **span_givens(source, "Span Bridge"),
        "sill": HEIGHT.rounded(_sill()),
        "margin": source.choice((0.3, 0.4, 0.5)),
    }
    names = ("charted", "hat", "mast", "margin")
    least = least_height(-givens["sill"], givens["draught"], givens["margin"])
    most = greatest_height(*(givens[name] for name in names))
    if tide is None or most < least + 0.4 or min(abs(tide - least), abs(tide - most)) < 0.25:
        return None
    return {**givens, "tide": tide}


def _sill() -> float:
    water = waters.load(KESSORAY)
    return water.height(water.feature("span-bridge").place)


TYPES = (
    QuestionType(
        "tides.bridge-and-sill",
        "Between sill and bridge",
        "tides",
        3,
        Chain({**SPAN, "sill": HEIGHT, "margin": HEIGHT}, (LEAST, MOST, MAY_PASS)),
        _draw_two_limits,
        "Span Bridge has a clearance of {charted} above HAT; HAT is {hat}, MHWS {mhws}. The sill "
        "under it dries {sill}. You draw {draught}, your mast reaches {mast} above the water, "
        "and you want {margin} to spare below and above.\n\nBetween which heights of tide may "
        "you pass? The tide stands at {tide}: may you pass now?",
        {
            "least": "Least height of tide",
            "most": "Greatest height of tide",
            "verdict": "May you pass?",
        },
    ),
)
