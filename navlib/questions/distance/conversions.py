"""One distance in the units of land and sea: kilometres, nautical miles, cables, metres."""

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.quantities import Distance
from navlib.questions.distance.steps import KILOMETRES, TO_HALF_A_CABLE, in_miles
from navlib.units import LENGTHS, NM

CABLES = Distance("cable", 0.5)
CABLE = LENGTHS["cable"]

_IN_MILES = in_miles("miles", "run")
IN_MILES = replace(
    _IN_MILES,
    slips=(
        *_IN_MILES.slips,
        Slip(
            "half-only",
            lambda run: run / 1000 / 2 * NM,
            "Yours, {yours}, is half the kilometres and no more. That is a good start, but 8 % short. "
            "Check: 10 km are 5.4 NM, not 5; on a long day that is half a mile.",
        ),
    ),
)

IN_METRES = Step(
    "metres",
    Distance("m", 10.0, unit_asked=True),
    lambda off: off,
    how="A cable is a tenth of a nautical mile, 185 m: multiply.",
    line="{off} of 185 m: {metres}",
    check="Five cables are half a mile, about 900 m. Does yours fit that?",
    slips=(
        Slip(
            "cable-of-a-kilometre",
            lambda off: off / CABLE * 100,
            "Yours, {yours}, takes 100 m for a cable, a tenth of a kilometre. It is a tenth of a "
            "nautical mile. Check: ten cables must come to 1852 m.",
        ),
        Slip(
            "cables-for-miles",
            lambda off: off / CABLE * NM,
            "Yours, {yours}, makes whole miles of the cables. A cable is a tenth of a mile. Check: "
            "one cable is what you can shout over on a still day, not what you paddle in 20 minutes.",
        ),
    ),
)

CABLES_IN_MILES = Step(
    "miles",
    TO_HALF_A_CABLE,
    lambda off: off,
    how="Ten cables make a nautical mile: put the point one place to the left.",
    line="{off} ÷ 10: {miles}",
    check="Is it more or less than one mile? Ten cables would be one.",
    slips=(
        Slip(
            "cables-for-miles",
            lambda off: off / CABLE * NM,
            "Yours, {yours}, makes whole miles of the cables. Ten cables make one mile. Check: a rock "
            "so far off the beach would be out of sight.",
        ),
        Slip(
            "kilometres-for-miles",
            lambda off: off / 1000 * NM,
            "Yours, {yours}, is the number of kilometres. A cable is 0.185 km, but 0.1 NM. Check: ten "
            "cables must come to one mile.",
        ),
    ),
)


def _draw_cables(source: random.Random) -> Mapping[str, Any]:
    return {"off": source.randrange(5, 20, 2) / 2 * CABLE}


TYPES = (
    QuestionType(
        "distance.to-miles",
        "From land to sea",
        "distance",
        1,
        Chain({"run": KILOMETRES}, (IN_MILES,)),
        lambda source: {"run": source.randrange(60, 241) * 100.0},
        "A walkers’ map gives {run} for the way along the shore to the next harbour.\n\n"
        "How many nautical miles is that?",
        {"miles": "Distance in NM"},
    ),
    QuestionType(
        "distance.cables",
        "Cables off the beach",
        "distance",
        1,
        Chain({"off": CABLES}, (IN_METRES, CABLES_IN_MILES)),
        _draw_cables,
        "The sailing directions warn of a rock {off} off the beach.\n\n"
        "How far is that in metres, and in nautical miles?",
        {"metres": "Distance in metres", "miles": "Distance in NM"},
    ),
)
