"""Measured on the land map: a line, a protractor on its grid, and on to the compass."""

import math
import random
from collections.abc import Mapping
from typing import Any

from navlib.angles import reciprocal, wrap
from navlib.bearings import (
    grid_from_magnetic,
    grid_from_true,
    magnetic_from_grid,
    true_from_grid,
)
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step, Work
from navlib.kinds.angles import Bearing, EastWest
from navlib.questions.bearings.convert import TRUE_TO_MAGNETIC, draw_variation
from navlib.questions.bearings.legs import draw_leg
from navlib.questions.bearings.words import ten_out, variation_words, way_back
from navlib.questions.deck import DECK, soft_line_sigma

GRID, MAGNETIC = Bearing("G"), Bearing("M")
DEGREE, HALF_DEGREE = EastWest(1.0), EastWest(0.5)

CONVERGENCE = -4.5
"""Of the National Grid in the training waters, to half a degree; the sheet prints it."""

PROTRACTOR_SIGMA = 0.7
"""Standard deviation of one reading of a square protractor, degrees; common practice."""
PENCIL_SIGMA_MM = 0.4
"""Standard deviation of each end of a pencil line, mm; common practice."""


def drawn_line_sigma(length_mm: float) -> float:
    """Return the standard deviation of the bearing of a drawn line, in degrees.

    A short line gives a poorer bearing: both ends are off by the pencil, the reading by the
    protractor.
    """
    ends = math.degrees(math.sqrt(2) * PENCIL_SIGMA_MM / length_mm)
    return math.hypot(PROTRACTOR_SIGMA, ends)


MEASURED = Step(
    "grid",
    GRID,
    lambda line: line,
    how="Draw the line from {a} to {b}, lay the protractor’s centre on it and its north along the "
    "grid lines, and read where the line crosses the ring.",
    line="The line from {a} to {b} runs {grid}",
    check="Look before you measure: which quarter does the line point into?",
    slips=(
        Slip(
            "opposite",
            lambda line: reciprocal(line),
            "Yours, {yours}, is exactly the other way: it points from {b} to {a}. A bearing is FROM "
            "the first place named. Check: stand your pencil on {a} and look along the line.",
        ),
        Slip(
            "mirror",
            lambda line: wrap(-line),
            "Yours, {yours}, is the mirror image, read from a ring that counts the wrong way round. "
            "Bearings grow clockwise. Check: what lies east has a bearing between 000 and 180.",
        ),
        Slip(
            "laid-on-the-easting",
            lambda line: wrap(line - 90),
            "Yours, {yours}, is a quarter turn out: north on the protractor lay along a line that "
            "runs east and west. Check: the figures at the top edge name the lines that run north.",
            0.5,
        ),
        Slip(
            "laid-on-the-easting",
            lambda line: wrap(line + 90),
            "Yours, {yours}, is a quarter turn out: north on the protractor lay along a line that "
            "runs east and west. Check: the figures at the top edge name the lines that run north.",
            0.5,
        ),
    ),
    errors=(
        Error(
            "pencil and protractor",
            lambda length_mm: drawn_line_sigma(length_mm),
            others={DECK: soft_line_sigma},
        ),
    ),
    read_off=True,
)


def _to_magnetic(grid: float, gma: float) -> float:
    return magnetic_from_grid(grid, gma)


def _to_grid(magnetic: float, gma: float) -> float:
    return grid_from_magnetic(magnetic, gma)


def _gma_slips(right: Work, wrong_way: Work, unchanged: Work) -> tuple[Slip, ...]:
    """Return the slips of the step between grid and magnetic."""
    return (
        Slip(
            "grid-magnetic-sign",
            wrong_way,
            "Yours, {yours}, has the grid magnetic angle of {gma} the wrong way on. Magnetic north "
            "lies {side} of grid north here, so a compass reads {more} than the grid. Check: draw "
            "the two norths and your line before you do the sum.",
        ),
        Slip(
            "grid-magnetic-forgotten",
            unchanged,
            "Yours, {yours}, is the figure you began with. The map’s lines and the compass needle "
            "point to different norths, {gma} apart here. Check: G or M behind every figure.",
        ),
        *ten_out(right),
    )


TO_MAGNETIC = Step(
    "magnetic",
    MAGNETIC,
    _to_magnetic,
    how="The grid magnetic angle is {gma}: {add} to go from grid to magnetic.",
    line="{grid}, grid magnetic angle {gma}: {add}, {magnetic}",
    check="Magnetic north lies {side} of grid north: should the compass read more than the grid?",
    slips=_gma_slips(
        _to_magnetic, lambda grid, gma: magnetic_from_grid(grid, -gma), lambda grid: grid
    ),
)

TO_GRID = Step(
    "grid",
    GRID,
    _to_grid,
    how="The grid magnetic angle is {gma}: {take} to go from magnetic to grid.",
    line="{magnetic}, grid magnetic angle {gma}: {take}, {grid}",
    check="Magnetic north lies {side} of grid north: should the grid figure be more or less?",
    slips=_gma_slips(
        _to_grid,
        lambda magnetic, gma: grid_from_magnetic(magnetic, -gma),
        lambda magnetic: magnetic,
    ),
)

TO_TRUE = Step(
    "true",
    Bearing("T"),
    true_from_grid,
    how="Grid north lies {convergence} of true north. East is put on, west is taken off: from grid "
    "to true.",
    line="{grid}, convergence {convergence}: {true}",
    check="Draw true north and grid north side by side, then the line. Which angle is larger?",
    slips=(
        Slip(
            "convergence-sign",
            lambda grid, convergence: grid_from_true(grid, convergence),
            "Yours, {yours}, has the convergence of {convergence} the wrong way on. Grid north lies "
            "to the west of true here, so the angle from it is the larger. Check: draw the three "
            "norths.",
        ),
        Slip(
            "grid-for-true",
            lambda grid: grid,
            "Yours, {yours}, takes the map’s grid lines for true north. Here they lean {convergence} "
            "from it. Check: on a land map the first step is always from grid to true.",
        ),
    ),
)


def _draw_gma(source: random.Random) -> dict[str, Any]:
    gma = draw_variation(source)
    return {"gma": gma, **variation_words(gma)}


def _draw_norths(source: random.Random) -> Mapping[str, Any]:
    variation = draw_variation(source)
    return {
        "grid": float(source.randrange(360)),
        "convergence": CONVERGENCE,
        "variation": variation,
        **variation_words(variation),
    }


_WORDS = dict.fromkeys(variation_words(0))
_LEG = dict.fromkeys(("a", "b", "line", "length_mm", "window"))

TYPES = (
    QuestionType(
        "bearings.measure",
        "A line on the map",
        "bearings",
        1,
        Chain(_LEG, (MEASURED, way_back("grid", GRID))),
        draw_leg,
        "A is {a}, B is {b}.\n\nMeasure the grid bearing from A to B. Then give the bearing of the "
        "way back, from B to A.",
        {"grid": "Grid bearing from A to B", "back": "Grid bearing from B to A"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "bearings.map-to-compass",
        "From the map to the compass",
        "bearings",
        2,
        Chain({**_LEG, "gma": DEGREE, **_WORDS}, (MEASURED, TO_MAGNETIC)),
        lambda source: {**draw_leg(source, paddled=True), **_draw_gma(source)},
        "You mean to paddle from A, {a}, straight to B, {b}. For this exercise take a grid magnetic "
        "angle of {gma}.\n\nMeasure the grid bearing, then give what your hand compass will read.",
        {"grid": "Grid bearing from A to B", "magnetic": "Magnetic bearing"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "bearings.compass-to-map",
        "From the compass to the map",
        "bearings",
        2,
        Chain({"magnetic": MAGNETIC, "gma": DEGREE, **_WORDS}, (TO_GRID,)),
        lambda source: {"magnetic": float(source.randrange(360)), **_draw_gma(source)},
        "With a hand compass you take a bearing of {magnetic} to a chimney. The grid magnetic angle "
        "is {gma}.\n\nWhich bearing do you set on the protractor to draw it on the land map?",
        {"grid": "Grid bearing"},
    ),
    QuestionType(
        "bearings.three-norths",
        "Three norths",
        "bearings",
        3,
        Chain(
            {"grid": GRID, "convergence": HALF_DEGREE, "variation": DEGREE, **_WORDS},
            (TO_TRUE, TRUE_TO_MAGNETIC.without("ten-out")),
        ),
        _draw_norths,
        "On the training waters’ land map you measure {grid}. Its grid north lies {convergence} of "
        "true north. For this exercise take a variation of {variation}.\n\n"
        "What will the compass read?",
        {"magnetic": "Magnetic bearing"},
    ),
)
