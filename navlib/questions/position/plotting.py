"""Put on the map: a mark at a grid reference."""

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from navlib import gridref, waters
from navlib.chain.chain import Chain
from navlib.chain.question import QuestionType
from navlib.chain.step import Slip, Step, taking
from navlib.gridref import GridPlace, Letters, Square
from navlib.kinds.places import GridReference
from navlib.language import say
from navlib.questions.held import choose_scale, choose_water
from navlib.questions.picture import POSITION_TOOLS
from navlib.questions.plotted import (
    PLACED_BY_EYE,
    on_map,
    put_on_grid,
    window_about,
)
from navlib.questions.position import squares
from navlib.questions.position.romer import SCALES, WORLD
from navlib.questions.position.views import draw_place_near, draw_window

TEN_M = 10.0


def _mark(change: Callable[[GridPlace], GridPlace | None]) -> Any:
    """Return the work that marks the middle of the square named, changed as a slip changes it."""
    return taking(
        lambda reference, window: put_on_grid(change(squares.middle(reference, TEN_M)), window),
        "reference",
        "window",
    )


def _slip(name: str, change: Callable[[GridPlace], GridPlace | None], says: str) -> Slip:
    return Slip(name, _mark(change), says)


AT_REFERENCE = Step(
    "spot",
    on_map("mark", drawn_only=True),
    _mark(lambda place: place),
    how="Find the square by its left and its lower line. Lay the romer’s corner for this scale so that "
    "the parts of the square meet those lines, and mark where the corner is.",
    line="{reference}: right of line {east_line} by {east_part}, above line {north_line} by "
    "{north_part}",
    check="Read the reference of your own mark, as if nobody had given you one.",
    slips=(
        _slip(
            "tenths-backwards",
            squares.tenths_backwards,
            "Yours, {yours}, is in the right square, but with its parts counted from the right and "
            "from above. They grow to the east and to the north. Check: is {east_part} past the "
            "middle of the square or short of it?",
        ),
        _slip(
            "tenths-exchanged",
            squares.tenths_exchanged,
            "Yours, {yours}, is in the right square, but has the parts of the two halves exchanged. "
            "The first half goes to the right, the second up. Check: write {reference} as two "
            "numbers.",
        ),
        _slip(
            "line-on-the-right",
            lambda place: squares.next_line(place, -1, 0),
            "Yours, {yours}, is one square too far west: line {east_line} is on its right. A square "
            "is called by the line on its left. Check: find the line, then go right.",
        ),
        _slip(
            "line-above",
            lambda place: squares.next_line(place, 0, -1),
            "Yours, {yours}, is one square too far south: line {north_line} is above it. A square is "
            "called by its lower line. Check: find the line, then go up.",
        ),
        Slip(
            "other-edge",
            taking(
                lambda reference, window, other: put_on_grid(
                    squares.other_edge(squares.middle(reference, TEN_M), other), window
                ),
                *("reference", "window", "other"),
            ),
            "Yours, {yours}, goes on from the right lines, but {times} as far as it should: that is "
            "the romer’s corner for another map scale. Check: the whole edge must fit one square.",
        ),
        _slip(
            "northing-first",
            squares.northing_first,
            "Yours, {yours}, has the halves exchanged: north came first. East comes first, from the "
            "figures along the top or bottom edge. Check: along the corridor, then up the stairs.",
        ),
    ),
    errors=PLACED_BY_EYE,
)


def _draw_reference(
    source: random.Random, name: str, lettering: Letters
) -> Mapping[str, Any] | None:
    water = waters.load(choose_water(source, (name,)))
    scale = choose_scale(source, SCALES)
    place = draw_place_near(source, water, scale)
    east, north = (m // TEN_M * TEN_M for m in place)
    corner = Square(east, north, TEN_M)
    centre = draw_window(source, water, scale, [place])
    if centre is None:
        return None
    lines = [f"{m % gridref.HUNDRED_KM // squares.KM:02.0f}" for m in corner]
    parts = [squares.in_hundredths(m) for m in corner]
    return {
        "reference": corner,
        "scale": scale,
        "other": 75_000 - scale,
        "times": say("half" if scale == 25_000 else "twice"),
        "window": window_about(water, scale, centre, (), "land map", POSITION_TOOLS["land map"]),
        **dict(zip(("east_line", "north_line"), lines, strict=True)),
        **dict(zip(("east_part", "north_part"), parts, strict=True)),
    }


def _by_reference(kind: str, title: str, water: str, lettering: Letters, says: str) -> QuestionType:
    words = ("scale", "other", "times", "window", "east_line", "north_line")
    step = replace(AT_REFERENCE, kind=on_map("mark", lettering, drawn_only=True))
    return QuestionType(
        kind,
        title,
        "position",
        2,
        Chain(
            {
                "reference": GridReference(8, lettering=lettering),
                **dict.fromkeys((*words, "east_part", "north_part")),
            },
            (step,),
        ),
        lambda source: _draw_reference(source, water, lettering),
        says,
        {"spot": "Your mark"},
        lambda givens: givens["window"],
    )


TYPES = (
    _by_reference(
        "position.plot-reference",
        "Put it on the map",
        "kessoray",
        gridref.NATIONAL,
        "A walker has found a message in a bottle at {reference}.\n\nMake a pencil mark at that place.",
    ),
    _by_reference(
        "position.plot-world-grid",
        "Put it on the map, by the world-wide grid",
        "orrimer",
        WORLD,
        "A drone has seen an upturned canoe at {reference}. This map has the world-wide UTM grid.\n\n"
        "Make a pencil mark at that place.",
    ),
)
