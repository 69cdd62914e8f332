"""From one north to another, and there and back: sums with variation."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.bearings import magnetic_from_true, true_from_magnetic
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import Bearing, EastWest
from navlib.questions.bearings.words import ten_out, variation_words, way_back

TRUE, MAGNETIC = Bearing("T"), Bearing("M")

_VARIATION = {"variation": EastWest(1.0), **dict.fromkeys(variation_words(0))}

TRUE_TO_MAGNETIC = Step(
    "magnetic",
    MAGNETIC,
    lambda true, variation: magnetic_from_true(true, variation),
    how="Variation is {variation}: {side} makes the compass read {more}, so {add}.",
    line="{true}, variation {variation}: {add}, {magnetic}",
    check="Variation {side}: must the magnetic figure be more than the true one, or less?",
    slips=(
        Slip(
            "variation-sign",
            lambda true, variation: magnetic_from_true(true, -variation),
            "Yours, {yours}, is what you get with the variation of {variation} put on the wrong way. "
            "{Side} variation makes the compass read {more} than true. Check: the magnetic figure "
            "must be {more} here.",
        ),
        Slip(
            "variation-forgotten",
            lambda true: true,
            "Yours, {yours}, is the true bearing unchanged. The compass points to magnetic north, "
            "{variation} from true. Check: write T or M behind each figure, and never two letters "
            "with one figure.",
        ),
        *ten_out(magnetic_from_true),
    ),
)

MAGNETIC_TO_TRUE = Step(
    "true",
    TRUE,
    lambda magnetic, variation: true_from_magnetic(magnetic, variation),
    how="Variation is {variation}: {side} makes the compass read {more}, so {take} for true.",
    line="{magnetic}, variation {variation}: {take}, {true}",
    check="Variation {side}: must the true figure be more than the magnetic one, or less?",
    slips=(
        Slip(
            "variation-sign",
            lambda magnetic, variation: true_from_magnetic(magnetic, -variation),
            "Yours, {yours}, is what you get with the variation of {variation} put on the wrong way. "
            "{Side} variation makes the compass read {more}, so true is {less}. Check: the true "
            "figure must be {less} here.",
        ),
        Slip(
            "variation-forgotten",
            lambda magnetic: magnetic,
            "Yours, {yours}, is the compass bearing unchanged. It counts from magnetic north, "
            "{variation} from true. Check: write T or M behind each figure.",
        ),
        *ten_out(true_from_magnetic),
    ),
)


def draw_variation(source: random.Random) -> float:
    """Return a training variation big enough for a wrong sign to show: 5 to 15 either way."""
    return source.choice((-1, -1, 1)) * source.randint(5, 15)


def _draw(start: str, source: random.Random) -> Mapping[str, Any]:
    variation = draw_variation(source)
    near_north = source.random() < 0.35  # where the sum crosses 000, the trap worth practising
    bearing = source.randint(-14, 14) % 360 if near_north else source.randrange(360)
    return {start: float(bearing), "variation": variation, **variation_words(variation)}


TYPES = (
    QuestionType(
        "bearings.true-to-magnetic",
        "True to magnetic",
        "bearings",
        1,
        Chain({"true": TRUE, **_VARIATION}, (TRUE_TO_MAGNETIC,)),
        lambda source: _draw("true", source),
        "The chart gives your course as {true}. The variation is {variation}.\n\n"
        "What must your compass read? Take the compass as free of deviation.",
        {"magnetic": "Magnetic course"},
    ),
    QuestionType(
        "bearings.magnetic-to-true",
        "Magnetic to true",
        "bearings",
        1,
        Chain({"magnetic": MAGNETIC, **_VARIATION}, (MAGNETIC_TO_TRUE,)),
        lambda source: _draw("magnetic", source),
        "With a hand compass, clear of metal, you read {magnetic} to a lighthouse. The variation is "
        "{variation}.\n\nWhich bearing do you draw on a chart, from true north?",
        {"true": "True bearing"},
    ),
    QuestionType(
        "bearings.back-bearing",
        "Keeping the pier behind you",
        "bearings",
        2,
        Chain({"true": TRUE, **_VARIATION}, (TRUE_TO_MAGNETIC, way_back("magnetic", MAGNETIC))),
        lambda source: _draw("true", source),
        "You leave the pier on a track of {true}; the variation is {variation}. To stay on the line "
        "you look back at the pier with a hand compass.\n\n"
        "Give the magnetic track, and the bearing that the pier must keep behind you.",
        {"magnetic": "Magnetic track", "back": "Bearing back to the pier"},
    ),
)
