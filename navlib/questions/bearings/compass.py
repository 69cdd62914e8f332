"""The boat's own compass: deviation from a card, from a transit, there and back."""

import random
from collections.abc import Mapping
from functools import cache
from typing import Any

import numpy as np

from navlib.angles import signed_difference, to_nearest
from navlib.bearings import (
    compass_from_magnetic,
    magnetic_from_compass,
    magnetic_from_true,
)
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.deviation import DeviationCard
from navlib.kinds.angles import Bearing, EastWest
from navlib.language import say
from navlib.questions.bearings.convert import MAGNETIC_TO_TRUE, TRUE_TO_MAGNETIC, draw_variation
from navlib.questions.bearings.words import ten_out, variation_words
from navlib.questions.picture import Table

TRUE, MAGNETIC, COMPASS = Bearing("T"), Bearing("M"), Bearing("C")
DEGREE = EastWest(1.0)

CARD_HEADINGS = tuple(range(0, 360, 45))


@cache
def training_card(number: int) -> DeviationCard:
    """Return one of the invented boats' cards: a smooth curve of up to 8°, whole degrees."""
    source = random.Random(f"training card {number}")
    size, turn, second = source.uniform(5, 8), source.uniform(0, 360), source.uniform(-2, 2)
    curve = [
        to_nearest(size * _sin(heading + turn) + second * _sin(2 * heading), 1.0)
        for heading in CARD_HEADINGS
    ]
    return DeviationCard(CARD_HEADINGS, curve, f"invented boat {number}, for training", by="M")


def _sin(degrees: float) -> float:
    return float(np.sin(np.radians(degrees)))


def _card_table(givens: Mapping[str, Any]) -> Table:
    card: DeviationCard = givens["card"]
    return _table_of(tuple(card.headings), tuple(card.deviations))


@cache
def _table_of(headings: tuple[float, ...], deviations: tuple[float, ...]) -> Table:
    return Table(
        say("Deviation card of the training boat, by magnetic heading"),
        (say("Heading"), *(f"{heading:03.0f}°" for heading in headings)),
        ((say("Deviation"), *(DEGREE.write(deviation) for deviation in deviations)),),
    )


_READING = Error("reading between the lines of the card", 0.3)

_CARD_HOW = (
    "Enter the card with the way the boat points, {heading}; read between its nearest lines."
)


def _read_card(card: DeviationCard, heading: float) -> float:
    return card.deviation(heading)


FROM_CARD = Step(
    "deviation",
    DEGREE,
    _read_card,
    how=_CARD_HOW,
    line="Heading {heading}: the card gives {deviation}",
    check="Which way does the boat point? The card knows nothing else.",
    slips=(
        Slip(
            "card-by-bearing",
            lambda card, sighted: card.deviation(sighted),
            "Yours, {yours}, comes from the card at {sighted}, the way you looked. Deviation belongs "
            "to the way the boat points, here {heading}. Check: the iron turns with the boat, not "
            "with your head.",
        ),
        Slip(
            "deviation-forgotten",
            lambda: 0.0,
            "Yours, {yours}, leaves the deviation out. A compass fixed in a boat is pulled by the "
            "boat’s own iron, here {deviation}. Check: two corrections from compass to true, always.",
        ),
    ),
    errors=(_READING,),
    read_off=True,
)

UNDEVIATED = Step(
    "magnetic",
    MAGNETIC,
    lambda sighted, deviation: magnetic_from_compass(sighted, deviation),
    how="From compass to magnetic: east deviation is put on, west is taken off.",
    line="{sighted}, deviation {deviation}: {magnetic}",
    check="Going from compass towards true, east is put on.",
    slips=(
        Slip(
            "deviation-sign",
            lambda sighted, deviation: magnetic_from_compass(sighted, -deviation),
            "Yours, {yours}, has the deviation of {deviation} the wrong way on. Going from compass "
            "to true, east is put on and west is taken off. Check: say the two names with their "
            "letters, C then M, before you do the sum.",
        ),
    ),
)

FROM_TRANSIT = Step(
    "deviation",
    DEGREE,
    lambda magnetic, compass: signed_difference(magnetic, compass),
    how="Deviation is what must be put on the compass bearing to make it magnetic.",
    line="{magnetic} less {compass} is {deviation}",
    check="East deviation makes the compass read low. Does yours read low or high?",
    slips=(
        Slip(
            "deviation-reversed",
            lambda magnetic, compass: signed_difference(compass, magnetic),
            "Yours, {yours}, has the right size and the wrong name. Deviation is magnetic less "
            "compass. Check: where the compass reads less than magnetic, the deviation is east.",
        ),
    ),
)

TRANSIT_MAGNETIC = Step(
    "magnetic",
    MAGNETIC,
    TRUE_TO_MAGNETIC.work,
    how="Turn the transit’s true bearing into magnetic: variation {variation}, {add}.",
    line="{true}, variation {variation}: {add}, {magnetic}",
    check="A transit has a magnetic bearing that no boat can bend. Find that first.",
    slips=(
        Slip(
            "variation-sign",
            lambda true, variation: magnetic_from_true(true, -variation),
            "Yours, {yours}, comes from a transit whose variation of {variation} was put on the "
            "wrong way. {Side} variation makes magnetic {more} than true. Check: the transit is "
            "{magnetic}.",
        ),
        Slip(
            "variation-forgotten",
            lambda true: true,
            "Yours, {yours}, compares the compass with true north, so it holds the variation too: "
            "it is the whole compass error. Check: take the variation of {variation} out first.",
        ),
    ),
)

TO_COMPASS = Step(
    "compass",
    COMPASS,
    lambda magnetic, deviation: compass_from_magnetic(magnetic, deviation),
    how="From magnetic to compass: east deviation is taken off, west is put on.",
    line="{magnetic}, deviation {deviation}: steer {compass}",
    check="Turn your answer back into true. Do you arrive at {true}?",
    slips=(
        Slip(
            "deviation-sign",
            lambda magnetic, deviation: compass_from_magnetic(magnetic, -deviation),
            "Yours, {yours}, has the deviation of {deviation} the wrong way on. On the way to the "
            "compass, east is taken off and west is put on. Check: turn your answer back into true.",
        ),
        *ten_out(compass_from_magnetic),
    ),
)

COURSE_FROM_CARD = Step(
    "deviation",
    DEGREE,
    lambda card, magnetic: card.deviation(magnetic),
    how="Enter the card with the magnetic heading and read between the two nearest lines.",
    line="Heading {magnetic}: the card gives {deviation}",
    check="The card goes by magnetic headings: do you have that one yet?",
    slips=(
        Slip(
            "deviation-forgotten",
            lambda: 0.0,
            "Yours, {yours}, is the magnetic course. The boat’s own iron pulls this compass by "
            "{deviation} on that heading. Check: T, M, C are three figures and two steps.",
        ),
    ),
    errors=(_READING,),
    read_off=True,
)

_GIVENS = {"variation": DEGREE, "card": None, **dict.fromkeys(variation_words(0))}


def _draw_card(source: random.Random) -> dict[str, Any]:
    variation = draw_variation(source)
    card = training_card(source.randint(1, 12))
    return {"card": card, "variation": variation, **variation_words(variation)}


def _draw_sighting(source: random.Random) -> Mapping[str, Any] | None:
    heading, sighted = float(source.randrange(360)), float(source.randrange(360))
    return {"heading": heading, "sighted": sighted, **_draw_card(source)}


def _draw_course(source: random.Random) -> Mapping[str, Any]:
    return {"true": float(source.randrange(360)), **_draw_card(source)}


def _draw_transit(source: random.Random) -> Mapping[str, Any]:
    variation = draw_variation(source)
    true, deviation = float(source.randrange(360)), source.choice((-1, 1)) * source.randint(2, 9)
    compass = compass_from_magnetic(magnetic_from_true(true, variation), deviation)
    return {
        "true": true,
        "compass": compass,
        "variation": variation,
        **variation_words(variation),
    }


TYPES = (
    QuestionType(
        "bearings.deviation-by-transit",
        "What does the boat do to the compass?",
        "bearings",
        2,
        Chain(
            {
                "true": TRUE,
                "compass": COMPASS,
                "variation": DEGREE,
                **dict.fromkeys(variation_words(0)),
            },
            (TRANSIT_MAGNETIC, FROM_TRANSIT),
        ),
        _draw_transit,
        "Two beacons stand in line; on the chart the line runs {true}. As they come in line your "
        "steering compass gives their bearing as {compass}. The variation is {variation}.\n\n"
        "What is the deviation on this heading? Give east or west.",
        {"deviation": "Deviation"},
    ),
    QuestionType(
        "bearings.compass-to-true",
        "From the steering compass to the chart",
        "bearings",
        3,
        Chain(
            {"heading": MAGNETIC, "sighted": COMPASS, **_GIVENS},
            (FROM_CARD, UNDEVIATED, MAGNETIC_TO_TRUE.without("ten-out")),
        ),
        _draw_sighting,
        "The boat is heading {heading}. Over the steering compass a beacon bears {sighted}. The "
        "variation is {variation}, and the boat has the deviation card below.\n\n"
        "Which true bearing do you draw on the chart?",
        {"true": "True bearing"},
        _card_table,
    ),
    QuestionType(
        "bearings.true-to-compass",
        "From the chart to the steering compass",
        "bearings",
        3,
        Chain({"true": TRUE, **_GIVENS}, (TRUE_TO_MAGNETIC, COURSE_FROM_CARD, TO_COMPASS)),
        _draw_course,
        "The course on the chart is {true}. The variation is {variation}, and the boat has the "
        "deviation card below.\n\nGive the magnetic course, then the course to steer by this "
        "compass.",
        {"magnetic": "Magnetic course", "compass": "Course to steer by compass"},
        _card_table,
    ),
)
