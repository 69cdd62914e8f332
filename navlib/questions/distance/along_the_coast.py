"""How long is a coast? Dividers at two steps, and what the next step would give."""

import math
import random
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.coastline import fractal_dimension, length_at_step, walk
from navlib.distance import ground_m
from navlib.kinds.choices import Choice
from navlib.questions.distance.on_paper import SCALE, STEP_MM
from navlib.questions.distance.shore import COARSE_MM, FINE_MM, Stretch, draw_stretch
from navlib.questions.distance.steps import KILOMETRES

# Dividers walked along a shore --------------------------------------------------------------------

CHOICE_OF_STEPS = 0.025
"""Standard deviation of a coast's length by where exactly the dividers meet the line, as a share;
common practice."""
GAIN = 1.16
"""Times one length that another must be for the difference to show beyond what dividers scatter."""


def _step_m(coast: Stretch) -> float:
    return float(ground_m(FINE_MM, coast.scale))


def _walked_km_sigma(coast: Stretch) -> float:
    pricks = ground_m(STEP_MM * math.sqrt(coast.fine / _step_m(coast)), coast.scale)
    return math.hypot(pricks, CHOICE_OF_STEPS * coast.fine) / 1000


def _opened_by_other_scale(coast: Stretch) -> float:
    """Return the length with dividers opened for the other land map, counted as if for this one."""
    which = (coast.scale, coast.a, coast.b)
    if which not in _WRONGLY_OPENED:
        wrong = ground_m(FINE_MM, coast.scale) * coast.scale / (75_000 - coast.scale)
        _WRONGLY_OPENED[which] = walk(coast.points, wrong).length / wrong * _step_m(coast)
    return _WRONGLY_OPENED[which]


_WRONGLY_OPENED: dict[tuple[int, str, str], float] = {}
"""What was walked before: each stretch comes up again and again, and walking it is slow."""


FINE = Step(
    "fine",
    KILOMETRES,
    lambda coast: coast.fine,
    how="Open the dividers to {short} on the scale bar: 10 mm at {scale}. Walk them along the shore, "
    "count the steps, and add what is left at the end.",
    line="In steps of {short}: {fine}",
    check="Short steps find more bays: is yours longer than by steps of {long}?",
    slips=(
        Slip(
            "one-step-over-all",
            lambda coast: coast.straight,
            "Yours, {yours}, is the straight line from A to B: one step over all the bays. Check: each "
            "step is as long as asked, with both points on the shore.",
        ),
        Slip(
            "every-bend",
            lambda coast: coast.cord,
            "Yours, {yours}, follows every bend, as a cord does. Dividers step over what is smaller "
            "than their opening. Check: how wide are your dividers open?",
        ),
        Slip(
            "opened-by-other-scale",
            _opened_by_other_scale,
            "Yours, {yours}, comes from dividers opened for the other scale of the land map. This sheet "
            "is {scale}, where {short} is 10 mm. Check: hold the opening to the scale bar.",
        ),
    ),
    errors=(Error("dividers walked", _walked_km_sigma),),
)

REASONS = {
    "pricks": "each prick adds a little, and there are more of them",
    "bays": "short steps go into bays that long steps jump over",
    "wrong": "one of the two was measured wrongly: a coast has one length",
    "paper": "the paper has stretched between the two",
}


def _reason(key: str, says: str) -> Slip:
    return Slip(f"reason-{key}", lambda: key, says)


WHY = Step(
    "why",
    Choice(REASONS),
    lambda: "bays",
    how="Look at what lies between two pricks of the long step, and walk the short step over it.",
    line="The length belongs to its step: {why}",
    check="Look at one long step. What does the shore do between its two points?",
    slips=(
        _reason(
            "pricks",
            "Pricks lie now before the mark, now behind it, so most of that evens out. The shore "
            "makes the difference. Check: what lies between the two points of one long step?",
        ),
        _reason(
            "wrong",
            "Both lengths are right, each for its step. A shorter step gives a longer coast, without "
            "end. Check: when somebody tells you the length of a coast, ask for the step.",
        ),
        _reason(
            "paper",
            "Paper stretches by some thousandths, and here it is much more. Check: what lies between "
            "the two points of one long step?",
        ),
    ),
)


def _draw_walk(source: random.Random) -> Mapping[str, Any] | None:
    given = draw_stretch(source)
    if given is None:
        return None
    coast: Stretch = given["coast"]
    lengths = (coast.straight, coast.fine, coast.cord)
    if any(longer < GAIN * shorter for shorter, longer in pairwise(lengths)):
        return None
    if coast.fine < GAIN * coast.coarse:
        return None
    return {
        **given,
        "coarse": coast.coarse,
        "scale": float(coast.scale),
        "long": f"{ground_m(COARSE_MM, coast.scale) / 1000:g} km",
        "short": f"{_step_m(coast):g} m",
    }


# The next step ----------------------------------------------------------------------------------

ALIKE = 0.02
"""Standard deviation of a length foretold so, as a share: a coast is not everywhere equally rough.
Common practice."""


def _foretold(first: float, second: float) -> float:
    rough = fractal_dimension((2.0, 1.0), (first, second))
    return float(length_at_step(second, 1.0, 0.5, rough))


NEXT = Step(
    "third",
    KILOMETRES,
    _foretold,
    how="A rough coast gains the same share each time the step is halved: multiply by the same factor "
    "once more.",
    line="{second} × {second} ÷ {first}: {third}",
    check="By how many per cent did the length grow the first time? Let it grow by as much again.",
    slips=(
        Slip(
            "no-more-gained",
            lambda second: second,
            "Yours, {yours}, lets the length stay where it is. Steps of {small} find coves that steps "
            "of {middle} jump over, as before. Check: what did the first halving add?",
        ),
        Slip(
            "doubled",
            lambda second: 2 * second,
            "Yours, {yours}, doubles the length because the step is halved. There are about twice as "
            "many steps, but each is half as long. Check: what did the first halving add?",
        ),
        Slip(
            "halved",
            lambda second: second / 2,
            "Yours, {yours}, halves the length with the step. You need more of the small steps, so the "
            "length grows. Check: what did the first halving do, more or less?",
        ),
    ),
    errors=(Error("a coast as rough everywhere", lambda second: ALIKE * second / 1000),),
)


def _draw_next(source: random.Random) -> Mapping[str, Any] | None:
    given = draw_stretch(source)
    if given is None:
        return None
    coast: Stretch = given["coast"]
    large, middle, small = source.choice(((1000, 500, 250), (500, 250, 125), (400, 200, 100)))
    first, second = (round(walk(coast.points, step).length, -2) for step in (large, middle))
    if second < GAIN * first:
        return None
    return {
        "a": coast.a,
        "b": coast.b,
        "large": f"{large} m",
        "middle": f"{middle} m",
        "small": f"{small} m",
        "first": first,
        "second": second,
    }


TYPES = (
    QuestionType(
        "distance.coast-steps",
        "Two lengths of one coast",
        "distance",
        3,
        Chain(
            {
                **dict.fromkeys(("a", "b", "coast", "window", "long", "short")),
                "coarse": KILOMETRES,
                "scale": SCALE,
            },
            (FINE, WHY),
        ),
        _draw_walk,
        "A and B lie on the shore at {a} and {b}. In steps of {long} the shore from A to B, the short "
        "way along it, came to {coarse}. Walk dividers along it in steps of {short}, and count what is "
        "left at the end as well.\n\n"
        "How long is the shore now, in kilometres? And why is that more than before?",
        {"fine": "In steps of {short}", "why": "Why more?"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "distance.next-step",
        "Smaller steps still",
        "distance",
        3,
        Chain(
            {
                **dict.fromkeys(("a", "b", "large", "middle", "small")),
                "first": KILOMETRES,
                "second": KILOMETRES,
            },
            (NEXT,),
        ),
        _draw_next,
        "Dividers were walked along the rough coast from {a} to {b}. In steps of {large} it came to "
        "{first}, in steps of {middle} to {second}.\n\n"
        "What do you expect in steps of {small}, if the coast is equally rough there?",
        {"third": "Expected length in km"},
    ),
)
