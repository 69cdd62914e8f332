"""Variation at work: the whole compass error, directions from long ago, what an old rose costs."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.bearings import magnetic_from_true, true_from_magnetic
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.deviation import compass_error
from navlib.kinds.angles import Bearing, EastWest
from navlib.language import say
from navlib.questions.bearings.convert import TRUE_TO_MAGNETIC
from navlib.questions.bearings.words import ten_out

TRUE, MAGNETIC, COMPASS = Bearing("T"), Bearing("M"), Bearing("C")
DEGREE = EastWest(1.0)

# Variation and deviation in one -----------------------------------------------------------------

ERROR = Step(
    "error",
    DEGREE,
    compass_error,
    how="Same letter: add the two. Different letters: take the smaller from the larger and keep "
    "the larger one’s letter.",
    line="Variation {variation} and deviation {deviation}: {error}",
    check="Write them with their letters. Do they pull the same way, or against one another?",
    slips=(
        Slip(
            "letters-ignored",
            lambda variation, deviation: compass_error(variation, -deviation),
            "Yours, {yours}, has the deviation on the wrong side. Variation is {variation}, deviation "
            "{deviation}: {together}. Check: same letters add, different letters take away.",
        ),
        Slip(
            "error-reversed",
            lambda variation, deviation: -compass_error(variation, deviation),
            "Yours, {yours}, has the right size and the wrong letter. The larger of the two gives "
            "its letter to the sum. Check: which one wins, {variation} or {deviation}?",
        ),
        Slip(
            "deviation-left-out",
            lambda variation: variation,
            "Yours, {yours}, is the variation alone. The boat’s own iron adds {deviation} on this "
            "heading. Check: the Earth turns the needle once, the boat once more.",
        ),
    ),
)

CORRECTED = Step(
    "true",
    TRUE,
    lambda compass, error: true_from_magnetic(compass, error),
    how="From compass to true an easterly error is put on, a westerly one taken off.",
    line="{compass}, compass error {error}: {true}",
    check="With an easterly error the compass reads less than true, with a westerly one more.",
    slips=(
        Slip(
            "error-wrong-way",
            lambda compass, error: magnetic_from_true(compass, error),
            "Yours, {yours}, has the compass error of {error} the wrong way on. From compass to true "
            "east is put on and west taken off. Check: an easterly error makes the compass "
            "read less than true, a westerly one more.",
        ),
        Slip(
            "error-forgotten",
            lambda compass: compass,
            "Yours, {yours}, is what the compass read. It does not point true: it is {error} out. "
            "Check: C or T behind each figure.",
        ),
        *ten_out(lambda compass, error: true_from_magnetic(compass, error)),
    ),
)


def _draw_error(source: random.Random) -> Mapping[str, Any]:
    variation = source.choice((-1, 1)) * float(source.randint(4, 18))
    deviation = source.choice((-1, 1)) * float(source.randint(3, 8))
    alike = (variation < 0) == (deviation < 0)
    together = say(
        "the letters are the same, so they add up"
        if alike
        else "the letters differ, so the smaller comes off the larger"
    )
    return {
        "variation": variation,
        "deviation": deviation,
        "compass": float(source.randrange(360)),
        "together": together,
    }


# A bearing from an old book ---------------------------------------------------------------------

OLD_TRUE = Step(
    "true",
    TRUE,
    lambda old, old_variation: true_from_magnetic(old, old_variation),
    how="The chimney has not moved: make the old bearing true with the variation of its own year.",
    line="{old} in {then}, variation then {old_variation}: {true}",
    check="Which of the three bearings is the same in any year?",
    slips=(
        Slip(
            "old-variation-sign",
            lambda old, old_variation: magnetic_from_true(old, old_variation),
            "Yours, {yours}, comes out if the variation of {then} is put on the wrong way. From "
            "magnetic to true east is put on and west taken off. Check: the true bearing is {true}.",
        ),
        Slip(
            "old-taken-for-true",
            lambda old: old,
            "Yours, {yours}, comes out if the bearing in the book is taken for true. It was read "
            "from a compass in {then}, when the variation was {old_variation}. Check: take the old "
            "variation out before you put today’s in.",
        ),
    ),
)

BY_COMPASS_NOW = Step(
    "magnetic",
    MAGNETIC,
    TRUE_TO_MAGNETIC.work,
    how="From true to magnetic with the variation of today: east is taken off, west is put on.",
    line="{true}, variation in {now} {variation}: {magnetic}",
    check="By how much has the needle moved from {then} to {now}? So far are the readings apart.",
    slips=(
        Slip(
            "variation-sign",
            lambda true, variation: magnetic_from_true(true, -variation),
            "Yours, {yours}, has today’s variation of {variation} the wrong way on. From true to "
            "magnetic east is taken off and west put on. Check: two steps, there with the old "
            "variation and back with the new.",
        ),
        Slip(
            "left-true",
            lambda true: true,
            "Yours, {yours}, is the true bearing: half the way. A compass reads from today’s "
            "magnetic north, {variation} of true. Check: does your figure have a T or an M?",
        ),
        Slip(
            "old-bearing-kept",
            lambda old: old,
            "Yours, {yours}, is the bearing of {then}. Magnetic north has moved since, from "
            "{old_variation} to {variation}. Check: the chimney stays, the needle wanders.",
            3.0,  # by far the commonest: nobody asks how old the book is
        ),
    ),
)


def _draw_book(source: random.Random) -> Mapping[str, Any] | None:
    """Return an old and a new variation as they are about the North Atlantic: years go east."""
    then, now = source.randrange(1950, 1991), source.randint(2026, 2029)
    change = (now - then) * source.randint(8, 13) / 60
    old_variation = float(
        source.randint(-16, -9) if source.random() < 0.7 else source.randint(3, 9)
    )
    return {
        "old": float(source.randrange(360)),
        "then": str(then),
        "now": str(now),
        "old_variation": old_variation,
        "variation": old_variation + float(round(change)),
    }


TYPES = (
    QuestionType(
        "variation.compass-error",
        "The whole compass error",
        "variation",
        1,
        Chain(
            {"variation": DEGREE, "deviation": DEGREE, "compass": COMPASS, "together": None},
            (ERROR, CORRECTED),
        ),
        _draw_error,
        "Variation is {variation}, and on the heading you steer the deviation is {deviation}. A "
        "beacon bears {compass} by the steering compass.\n\n"
        "What is the compass error, both taken together? And the true bearing of the beacon?",
        {"error": "Compass error", "true": "True bearing"},
    ),
    QuestionType(
        "variation.old-directions",
        "A bearing from an old book",
        "variation",
        2,
        Chain(
            {
                "old": MAGNETIC,
                "then": None,
                "now": None,
                "old_variation": DEGREE,
                "variation": DEGREE,
            },
            (OLD_TRUE, BY_COMPASS_NOW),
        ),
        _draw_book,
        "A handwritten pilot book of {then} says: “Enter with the chimney bearing {old}.” The "
        "variation was {old_variation} then and is {variation} in {now}.\n\n"
        "What must your hand compass read today on the same line?",
        {"magnetic": "Magnetic bearing in {now}"},
    ),
)
