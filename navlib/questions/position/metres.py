"""From metres to a grid reference: what is cut off, and which letters stand in front."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.gridref import GridPlace
from navlib.kinds.places import GridReference
from navlib.questions.position import squares
from navlib.questions.position.romer import NORTHING_FIRST, OTHER_LETTERS

HUNDRED = 100.0


def _front_figures(place: GridPlace) -> GridPlace | None:
    """Return where the first three figures of each half lead; None where they are the right ones."""
    east, north = (int(f"{m:.0f}"[:3]) * HUNDRED for m in place)
    wrong = squares.in_square(place, east + 50, north + 50)
    return None if wrong == squares.middle(place, HUNDRED) else wrong


def _last_figures(place: GridPlace) -> GridPlace:
    east, north = (m % 1000 * HUNDRED for m in place)
    return squares.in_square(place, east + 50, north + 50)


CUT_OFF = Step(
    "reference",
    GridReference(exact=True),
    lambda place: place,
    how="Keep five figures of each number, the metres within the 100 km square. Of these keep the "
    "first three and cut the rest off, without rounding. The letters say which square.",
    line="East {east_five}, keep {east_three}; north {north_five}, keep {north_three}: {reference}",
    check="Does the reference name the square that the place lies in, or the next one?",
    slips=(
        Slip(
            "rounded",
            lambda place: squares.rounded_up(place, HUNDRED),
            "Yours, {yours}, is rounded: it names the next square, and the place is not in it. A "
            "reference names the square it lies IN, so figures are cut off. Check: 99 m past a "
            "line is still in the square of that line.",
            1.5,
        ),
        NORTHING_FIRST,
        Slip(
            "front-figures",
            _front_figures,
            "Yours, {yours}, takes the first figures as they come. What stands for hundreds of "
            "kilometres goes into the letters. Check: count five figures from the end of each "
            "number, then take the first three of them.",
        ),
        Slip(
            "last-figures",
            _last_figures,
            "Yours, {yours}, takes the last three figures, the single metres. A six-figure "
            "reference keeps kilometres and tenths of them. Check: which figure of the number is "
            "kilometres?",
            0.6,
        ),
        *OTHER_LETTERS,
    ),
)


def _spaced(metres: float) -> str:
    return f"{metres:,.0f}".replace(",", "\N{NO-BREAK SPACE}")


def _draw(source: random.Random) -> Mapping[str, Any]:
    place = GridPlace(
        float(source.randrange(84_000, 109_000)), float(source.randrange(992_000, 1_012_000))
    )
    east, north = (f"{m % 100_000:05.0f}" for m in place)
    return {
        "place": place,
        "east": _spaced(place.easting),
        "north": _spaced(place.northing),
        "east_five": east,
        "north_five": north,
        "east_three": east[:3],
        "north_three": north[:3],
    }


TYPES = (
    QuestionType(
        "position.from-metres",
        "From metres to six figures",
        "position",
        1,
        Chain(
            dict.fromkeys(
                (
                    *("place", "east", "north", "east_five", "north_five"),
                    *("east_three", "north_three"),
                )
            ),
            (CUT_OFF,),
        ),
        _draw,
        "A receiver shows metres on the National Grid: {east} E, {north} N. Four squares meet at "
        f"{_spaced(100_000)} E, {_spaced(1_000_000)} N: HV north-west of it, HW north-east, "
        "NA south-west, NB south-east.\n\nGive the six-figure grid reference, with the letters.",
        {"reference": "Six-figure reference"},
    ),
)
