"""A grid reference read off the land map, by eye or with a romer, on both waters."""

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from navlib import mgrs
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.gridref import HUNDRED_KM, GridPlace
from navlib.kinds.places import GridReference
from navlib.language import say
from navlib.questions.deck import DECK, laid_m_sigma
from navlib.questions.held import choose_scale, choose_water
from navlib.questions.position import squares
from navlib.questions.position.squares import KM
from navlib.questions.position.views import draw_marked, reading_sigma_m

SCALES = (25_000, 50_000)
"""Scales of the land map, as 1 to so many."""
WORLD = mgrs.named("02H")
"""How the squares of the southern training water are lettered."""
EYE_MM = 3.0
"""Paper between a place and a grid line where an eye is sure of the side; common practice."""

NORTHING_FIRST = Slip(
    "northing-first",
    lambda place: squares.northing_first(place),
    "Yours, {yours}, has the halves exchanged: north came first. East comes first, from the "
    "figures along the top or bottom edge. Check: along the corridor, then up the stairs.",
)
OTHER_LETTERS = tuple(
    Slip(
        "other-letters",
        route,
        "Yours, {yours}, has the figures of the right place and the letters of another square, "
        "100 km off. The figures come back in every square. Check: in which letters does the "
        "place itself lie?",
        0.5,
    )
    for route in (
        lambda place: squares.across(place, east=True),
        lambda place: squares.across(place, east=False),
    )
)
_FAR_LINE = (
    "Yours, {yours}, is exactly one square too far {way}: you read the line {far} of the place. A "
    "square is called by its left and its lower line. Check: put a finger on the place, go left to a "
    "line, then down to a line."
)


def _far_line(way: str, far: str, east: int, north: int) -> Slip:
    return Slip(
        "far-line",
        lambda place: squares.next_line(place, east, north),
        _FAR_LINE.replace("{way}", way).replace("{far}", far),
        0.4,
    )


FAR_LINES = (
    _far_line("east", "on the right", 1, 0),
    _far_line("north", "above", 0, 1),
    _far_line("east and north", "on the right and above", 1, 1),
)
TENTHS_BACKWARDS = Slip(
    "tenths-backwards",
    lambda place: squares.tenths_backwards(place),
    "Yours, {yours}, has the right square, but the parts of it run backwards, from the far side. "
    "The romer lay upside down. Check: the romer’s corner goes on the place; read where the lines "
    "meet it.",
)
OTHER_EDGE = Slip(
    "other-edge",
    lambda place, scale: squares.other_edge(place, scale),
    "Yours, {yours}, has the parts of the square {times} what they are: that is the romer’s edge "
    "for another map scale. This map is {map_scale}. Check: ten tenths of the edge must fit one "
    "square.",
)


def reference_step(kind: GridReference, slips: tuple[Slip, ...], measured: bool) -> Step:
    """Return the step that reads the reference of a marked place off the map."""
    return Step(
        "reference",
        kind,
        lambda place: place,
        how="The letters of the big square first. Then east: the line on the left of the place "
        "and the part of a square beyond it. Then north: the line below it, and the part above "
        "that.",
        line="East: {east_part}. North: {north_part}. {reference}",
        check="Find the square with a finger first: left line, then lower line.",
        slips=slips,
        errors=(_ROMER if kind.figures < 8 else _ROMER_AT_A_TABLE,) if measured else (),
    )


# The kind looks at the axis where two places differ more, so an error along both at once is that of one.
_ROMER = Error(
    "romer, along each axis",
    reading_sigma_m,
    lambda place, by: GridPlace(place[0] + by, place[1] + by),
    {DECK: laid_m_sigma},
)
_ROMER_AT_A_TABLE = replace(_ROMER, others={})
"""Nobody gives ten metres on deck."""


def _draw(source: random.Random, water: str, scale: int, figures: int) -> Mapping[str, Any] | None:
    marked = draw_marked(source, choose_water(source, (water,)), scale)
    if marked is None:
        return None
    place = marked["place"]
    marked |= {"place": GridPlace(*place), "scale": scale}
    marked |= dict(
        zip(("east_part", "north_part"), (_part(m, figures) for m in place), strict=True)
    )
    return {
        **marked,
        "times": say("twice" if scale == 25_000 else "half"),
        "map_scale": _fraction(scale),
    }


def _fraction(scale: int) -> str:
    return f"1:{scale:,}".replace(",", " ")


def _part(metres: float, figures: int) -> str:
    """Return how half a reference is put together: line 96 and 5 tenths."""
    line = f"{metres % HUNDRED_KM // KM:02.0f}"
    if figures == 4:
        return say("line {line}", {"line": line})
    rest = squares.in_tenths(metres) if figures == 6 else squares.in_hundredths(metres)
    return say("line {line} and {rest}", {"line": line, "rest": rest})


def _draw_square(source: random.Random) -> Mapping[str, Any] | None:
    scale = choose_scale(source, SCALES)
    drawn = _draw(source, "kessoray", scale, 4)
    clear = EYE_MM / 1000 * scale
    if drawn is None or any(not clear < m % KM < KM - clear for m in drawn["place"]):
        return None
    return drawn


_GIVENS = dict.fromkeys(
    ("a", "place", "scale", "window", "east_part", "north_part", "times", "map_scale")
)
_READ_OFF = (NORTHING_FIRST, TENTHS_BACKWARDS, OTHER_EDGE, *FAR_LINES, *OTHER_LETTERS)

TYPES = (
    QuestionType(
        "position.square",
        "Which square?",
        "position",
        1,
        Chain(
            _GIVENS,
            (
                reference_step(
                    GridReference(4, exact=True),
                    (NORTHING_FIRST, *FAR_LINES[:2], *OTHER_LETTERS),
                    measured=False,
                ),
            ),
        ),
        _draw_square,
        "A is {a}.\n\nGive the four-figure grid reference of the square that A lies in, with its "
        "letters.",
        {"reference": "Four-figure reference"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "position.six-figures",
        "To a hundred metres",
        "position",
        1,
        Chain(_GIVENS, (reference_step(GridReference(6), _READ_OFF, measured=True),)),
        lambda source: _draw(source, "kessoray", choose_scale(source, SCALES), 6),
        "A is {a}.\n\nGive its six-figure grid reference, with the letters.",
        {"reference": "Six-figure reference"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "position.world-grid",
        "On the world-wide grid",
        "position",
        2,
        Chain(
            _GIVENS,
            (reference_step(GridReference(6, lettering=WORLD), _READ_OFF, measured=True),),
        ),
        lambda source: _draw(source, "orrimer", choose_scale(source, SCALES), 6),
        "A is {a}. This map has the world-wide UTM grid: its references begin with the zone, then "
        "the two letters of the 100 km square.\n\nGive the six-figure reference of A.",
        {"reference": "Six-figure reference"},
        lambda givens: givens["window"],
    ),
    QuestionType(
        "position.eight-figures",
        "To ten metres",
        "position",
        2,
        Chain(_GIVENS, (reference_step(GridReference(8), _READ_OFF, measured=True),)),
        lambda source: _draw(source, "kessoray", choose_scale(source, (25_000,)), 8),
        "A is {a}. You want to send someone to the very spot.\n\nGive its eight-figure grid "
        "reference, with the letters.",
        {"reference": "Eight-figure reference"},
        lambda givens: givens["window"],
    ),
)
