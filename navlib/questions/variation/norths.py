"""Three norths: their order, the angle from grid to magnetic, one leg on the chart and on the map."""

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from navlib.angles import signed
from navlib.bearings import grid_from_true, magnetic_from_true
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step
from navlib.kinds.angles import Bearing, EastWest
from navlib.kinds.choices import Order
from navlib.magnetism import grid_magnetic_angle
from navlib.questions.bearings.convert import TRUE_TO_MAGNETIC
from navlib.questions.bearings.on_the_map import TO_MAGNETIC
from navlib.questions.bearings.words import ten_out, variation_words

TRUE, GRID, MAGNETIC = Bearing("T"), Bearing("G"), Bearing("M")
DEGREE, HALF_DEGREE, TENTH = EastWest(1.0), EastWest(0.5), EastWest(0.1)

_WORDS = dict.fromkeys(variation_words(0))
CONVERGENCES = (-4.5, -4.0, -3.5, -3.0, 3.0)
"""Of metre grids at their edges: far enough from the middle meridian for a wrong side to show."""


def _draw_norths(source: random.Random) -> dict[str, Any]:
    """Return a convergence and a variation of half or whole degrees, whole from one another."""
    convergence = source.choice(CONVERGENCES)
    size = source.randint(5, 20) + convergence % 1
    return {"convergence": convergence, "variation": source.choice((-1, 1)) * size}


# From west to east ------------------------------------------------------------------------------


def _west_to_east(variation: float, convergence: float) -> tuple[str, ...]:
    norths = {"t": 0.0, "g": convergence, "m": variation}
    return tuple(sorted(norths, key=lambda north: norths[north]))


IN_ORDER = Step(
    "order",
    Order({"t": "true north", "g": "grid north", "m": "magnetic north"}),
    _west_to_east,
    how="Draw true north upright. Draw the other two from the same foot: west to the left, east to "
    "the right.",
    line="Grid north {convergence}, magnetic north {variation} of true north: {order}",
    check="Both angles are counted from true north: put that arrow down first.",
    slips=(
        Slip(
            "variation-wrong-side",
            lambda variation, convergence: _west_to_east(-variation, convergence),
            "Yours, {yours}, has magnetic north on the wrong side. It lies {variation} of true "
            "north. Check: west is on your left when you look north.",
        ),
        Slip(
            "convergence-wrong-side",
            lambda variation, convergence: _west_to_east(variation, -convergence),
            "Yours, {yours}, has grid north on the wrong side. It lies {convergence} of true north. "
            "Check: say the letter, E or W, as you draw the arrow.",
        ),
        Slip(
            "from-east-to-west",
            lambda variation, convergence: _west_to_east(-variation, -convergence),
            "Yours, {yours}, runs from east to west. The order asked starts in the west. Check: "
            "looking north, west is on your left, where you begin to write.",
        ),
    ),
)


def _draw_order(source: random.Random) -> Mapping[str, Any] | None:
    convergence, variation = (
        source.choice((-1, 1)) * source.randrange(2, most) / 2 for most in (10, 40)
    )
    if abs(abs(convergence) - abs(variation)) < 1:
        return None
    return {"convergence": convergence, "variation": variation}


# From grid to magnetic --------------------------------------------------------------------------

GMA = Step(
    "gma",
    HALF_DEGREE,
    grid_magnetic_angle,
    how="The angle from grid north to magnetic north is the variation less the convergence; west "
    "counts as minus.",
    line="From grid to magnetic north: {variation} less {convergence} is {gma}",
    check="Draw the three arrows. On the same side of true take the difference, else the sum.",
    slips=(
        Slip(
            "convergence-sign",
            lambda variation, convergence: signed(variation + convergence),
            "Yours, {yours}, comes out with grid north on the wrong side of true north. It lies "
            "{convergence} of it. Check: draw true north upright and the other two beside it; count "
            "the degrees between grid and magnetic.",
        ),
        Slip(
            "variation-for-gma",
            lambda variation: variation,
            "Yours, {yours}, comes out with the variation alone, which counts from true north. The "
            "map’s lines point to grid north, {convergence} of true. Check: is this figure for a "
            "chart or for a land map?",
        ),
        Slip(
            "gma-reversed",
            lambda variation, convergence: grid_magnetic_angle(convergence, variation),
            "Yours, {yours}, has the right size and the wrong letter. The angle goes FROM grid north "
            "TO magnetic north, which lies {side} of it. Check: put your finger on grid north and "
            "move it to magnetic.",
        ),
    ),
)


def _draw_gma(source: random.Random) -> Mapping[str, Any]:
    norths = _draw_norths(source)
    words = variation_words(grid_magnetic_angle(norths["variation"], norths["convergence"]))
    return {"grid": float(source.randrange(360)), **norths, **words}


# One leg, two sheets ----------------------------------------------------------------------------

ON_THE_MAP = Step(
    "grid",
    GRID,
    grid_from_true,
    how="From true to grid: east convergence is taken off, west is put on.",
    line="{true}, convergence {convergence}: {grid}",
    check="Draw true and grid north and the leg. From which of the two is the angle larger?",
    slips=(
        Slip(
            "convergence-sign",
            lambda true, convergence: grid_from_true(true, -convergence),
            "Yours, {yours}, has the convergence of {convergence} the wrong way on. From true to "
            "grid, east is taken off and west put on. Check: draw both norths and the leg.",
        ),
        Slip(
            "true-for-grid",
            lambda true: true,
            "Yours, {yours}, is the chart’s bearing unchanged. The map’s lines lean from true north "
            "by {convergence}. Check: T or G behind every figure, never both.",
        ),
        Slip(
            "variation-on-the-map",
            lambda true, variation: magnetic_from_true(true, variation),
            "Yours, {yours}, is what the compass reads: the variation was put on. Between chart and "
            "map there is no compass, only convergence. Check: which two norths are you between?",
        ),
        *ten_out(grid_from_true),
    ),
)

BY_COMPASS = replace(
    TRUE_TO_MAGNETIC,
    slips=(
        *TRUE_TO_MAGNETIC.slips,
        Slip(
            "variation-from-grid",
            lambda grid, variation: magnetic_from_true(grid, variation),
            "Yours, {yours}, puts the variation on the map’s bearing. Variation counts from true "
            "north, and the map’s lines do not point there. Check: put it on the figure with a T.",
        ),
    ),
)


def _draw_sheets(source: random.Random) -> Mapping[str, Any]:
    norths = _draw_norths(source)
    words = variation_words(norths["variation"])
    return {"true": float(source.randrange(360)), **norths, **words}


TYPES = (
    QuestionType(
        "variation.order-of-norths",
        "Three arrows",
        "variation",
        1,
        Chain({"variation": HALF_DEGREE, "convergence": HALF_DEGREE}, (IN_ORDER,)),
        _draw_order,
        "Grid north lies {convergence} of true north, magnetic north {variation} of true north."
        "\n\nYou look north. Give the three norths in order from west to east: t, g and m.",
        {"order": "From west to east"},
    ),
    QuestionType(
        "variation.grid-magnetic-angle",
        "The angle for the land map",
        "variation",
        2,
        Chain(
            {"grid": GRID, "variation": HALF_DEGREE, "convergence": HALF_DEGREE, **_WORDS},
            (GMA, TO_MAGNETIC),
        ),
        _draw_gma,
        "On a land map grid north lies {convergence} of true north. The variation is {variation}."
        "\n\nGive the grid magnetic angle, from grid north to magnetic north. Then say what the "
        "compass reads along a line of {grid} on this map.",
        {"gma": "Grid magnetic angle", "magnetic": "Magnetic bearing"},
    ),
    QuestionType(
        "variation.chart-and-map",
        "One leg on two sheets",
        "variation",
        2,
        Chain(
            {"true": TRUE, "variation": HALF_DEGREE, "convergence": HALF_DEGREE, **_WORDS},
            (ON_THE_MAP, BY_COMPASS),
        ),
        _draw_sheets,
        "On the sea chart a leg runs {true}. On the land map of the same shore grid north lies "
        "{convergence} of true north. The variation is {variation}.\n\n"
        "What is the bearing of the same leg on the land map? And what does the compass read along it?",
        {"grid": "Grid bearing on the land map", "magnetic": "Magnetic bearing"},
    ),
)
