"""Two grid references: how far apart, and on which bearing, also across a letter corner."""

import random
from collections.abc import Mapping
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, taking
from navlib.gridref import HUNDRED_KM, Square
from navlib.grids import grid_leg
from navlib.kinds.places import GridReference
from navlib.kinds.quantities import Distance
from navlib.questions.position.sides import NORTHWARD, Side, bearing_step, distance_step
from navlib.questions.position.squares import KM

SIX = GridReference(6)
KILOMETRES = Distance("km", 0.1, unit_asked=True)
FIELD = (84_000, 992_000, 109_000, 1_012_000)
"""West, south, east and north limits of the places, in metres: the northern training water."""
LEAST_KM, MOST_KM = 2.0, 9.0
"""How far apart they lie: a leg that one would paddle."""


def _side(name: str, axis: int, kind: Side, half: str) -> Step:
    """Return the step to one side of the triangle, in kilometres."""

    def letters_forgotten(a: Square, b: Square) -> float | None:
        if a[axis] // HUNDRED_KM == b[axis] // HUNDRED_KM:
            return None
        return (b[axis] % HUNDRED_KM - a[axis] % HUNDRED_KM) / KM

    return Step(
        name,
        kind,
        taking(lambda a, b: (b[axis] - a[axis]) / KM, "a", "b"),
        f"{name.capitalize()}: the {half} half of the second reference less that of the first, in "
        "tenths of a kilometre. A step into the next square of letters is 100 km more.",
        f"From {{a}} to {{b}}: {{{name}}}",
        slips=(
            Slip(
                "letters-forgotten",
                taking(letters_forgotten, "a", "b"),
                "Yours, {yours}, takes the figures as if both places lay in one square of "
                "letters. They start again from 000 at its edge, so {a} and {b} are close. Check: "
                "where is the line between the letters, and how far is each place from it?",
                2.0,
            ),
        ),
    )


EAST = _side("east", 0, Side("km"), "first")
NORTH = _side("north", 1, Side("km", ways=NORTHWARD), "second")
DISTANCE = distance_step(KILOMETRES, KM)
BEARING = bearing_step("G")


def _draw(source: random.Random, across: bool) -> Mapping[str, Any] | None:
    a, b = (
        Square(
            float(source.randrange(FIELD[0], FIELD[2], 100)),
            float(source.randrange(FIELD[1], FIELD[3], 100)),
            100.0,
        )
        for _ in "ab"
    )
    same = [p // HUNDRED_KM == q // HUNDRED_KM for p, q in zip(a, b, strict=True)]
    distance, _ = grid_leg(*a, *b)
    least_side = min(abs(p - q) for p, q in zip(a, b, strict=True))
    if all(same) == across or not LEAST_KM <= distance / KM <= MOST_KM or least_side < 500:
        return None
    return {"a": a, "b": b}


_TEXT = (
    "From {a} you want to paddle to {b}.\n\nHow far is that in a straight line on the grid, and on "
    "which grid bearing? Work it out from the figures."
)
_PROMPTS = {"distance": "Distance in km", "bearing": "Grid bearing"}

ACROSS = QuestionType(
    "position.across-the-letters",
    "Across the letters",
    "position",
    3,
    Chain({"a": SIX, "b": SIX}, (EAST, NORTH, DISTANCE, BEARING)),
    lambda source: _draw(source, across=True),
    _TEXT,
    _PROMPTS,
)

TYPES = (
    QuestionType(
        "position.two-references",
        "Two references, one leg",
        "position",
        2,
        Chain(
            {"a": SIX, "b": SIX},
            (
                EAST.without("letters-forgotten"),
                NORTH.without("letters-forgotten"),
                DISTANCE,
                BEARING,
            ),
        ),
        lambda source: _draw(source, across=False),
        _TEXT,
        _PROMPTS,
    ),
    ACROSS,
)
