"""How a question is worked on its sheet: what is taken, where it is laid, one movement after another."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from navlib.chain.question import Question
from navlib.kinds.angles import Bearing
from navlib.kinds.marks import OnSheet
from navlib.kinds.places import GridReference, Position
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.pictures.drawn import window
from navlib.pictures.pencilled import key_lies
from navlib.questions.picture import SheetWindow
from navlib.sheets.land.frame import zero_of_miles
from navlib.sheets.window import GridWindow, Window

Spot = tuple[float, float]
"""Millimetres of sheet from its upper left corner, y downwards."""

BEYOND_MM = 12.0
"""How far beyond both places a line is drawn to be measured well."""


@dataclass(frozen=True)
class Movement:
    """One movement of the hand, in words, and what then lies on the sheet (mm and degrees)."""

    how: str
    lies: dict[str, Any]


@dataclass
class _Hand:
    """A hand that works on a sheet: what it laid so far stays where it is."""

    lies: dict[str, Any] = field(default_factory=dict)

    def lays(self, how: str, **laid: Any) -> Movement:
        """Return the movement that brings these instruments where they are named to lie."""
        self.lies |= {name.replace("_", " "): lie for name, lie in laid.items()}
        return Movement(how, dict(self.lies))


def by_hand(question: Question) -> tuple[str, tuple[Movement, ...]]:
    """Return the step of a question that is done on its sheet, and the movements that do it.

    The name is empty and there are no movements where nothing is measured or drawn on a sheet.
    """
    if not isinstance(question.picture, SheetWindow):
        return "", ()
    on_sheet = window(question.picture)
    for step in question.steps:
        if moves := tuple(_movements(question, step.name, on_sheet)) if step.errors else ():
            return step.name, moves
    return "", ()


def _movements(question: Question, name: str, on_sheet: Window) -> Iterator[Movement]:
    kind, shown = question.chain.by_name[name].kind, question.picture
    spots = [_spot(on_sheet, (s.easting, s.northing)) for s in shown.spots]
    tools = shown.instruments or ()
    hand = _Hand()
    if isinstance(kind, OnSheet):
        for tool, things in key_lies(question).items():
            yield Movement(say(question.chain.by_name[name].how, question.written), {tool: things})
    elif isinstance(kind, Bearing) and len(spots) > 1 and "protractor" in tools:
        yield from _bearing(hand, spots[0], spots[1], shown.sheet)
    elif isinstance(kind, Distance) and len(spots) > 1 and "dividers" in tools:
        yield from _distance(hand, spots, on_sheet)
    elif isinstance(kind, GridReference) and spots and "romer" in tools:
        yield hand.lays(
            say(
                "Take the romer’s corner for 1:{scale} and lay it on A, its edges along the grid "
                "lines. Read the tenths where the lines on the left and below meet the edges.",
                {"scale": f"{shown.scale:,}".replace(",", " ")},
            ),
            romer=_at(spots[0], turn=0.0, scale=shown.scale),
        )
    elif isinstance(kind, Position) and spots and shown.sheet == "sea chart":
        yield from _position(hand, spots[0], on_sheet)


def _bearing(hand: _Hand, a: Spot, b: Spot, sheet: str) -> Iterator[Movement]:
    way = math.degrees(math.atan2(b[0] - a[0], a[1] - b[1])) % 360
    far = math.dist(a, b)
    one, two = _beyond(a, b, -BEYOND_MM / far), _beyond(a, b, 1 + BEYOND_MM / far)
    yield hand.lays(
        say("Draw the line through A and B, longer than you need."), pencil_line=[_line(one, two)]
    )
    yield hand.lays(
        say("Lay the middle of the protractor on A, and its N along a meridian.")
        if sheet == "sea chart"
        else say("Lay the middle of the protractor on A, and its N along the grid lines."),
        protractor=_at(a, turn=0.0, arm=0.0),
    )
    yield hand.lays(
        say("Swing the arm along the line, towards B, and read the ring where it crosses."),
        protractor=_at(a, turn=0.0, arm=round(way, 2)),
    )


def _distance(hand: _Hand, spots: list[Spot], on_sheet: Window) -> Iterator[Movement]:
    names = "ABCDEFG"
    for (a, b), ends in zip(_pairs(spots), _pairs(list(names)), strict=False):
        opening, level = math.dist(a, b), (a[1] + b[1]) / 2
        opened = say("Open the dividers from {a} to {b}.", {"a": ends[0], "b": ends[1]})
        yield hand.lays(opened, dividers=_line(a, b, steps=0))
        if isinstance(on_sheet, GridWindow):
            x, y = zero_of_miles(on_sheet)
            side, end = (x, y), (x + opening, y)
            how = say(
                "Carry them to the bar of nautical miles, one point on its zero, and read the other."
            )
        else:
            f = on_sheet.frame
            low = min(max(level + opening / 2, f.top + opening), f.bottom)
            side, end = (f.left, low), (f.left, low - opening)
            how = say("Carry them to the side, level with the leg: a minute of latitude is a mile.")
        yield hand.lays(how, dividers=_line(side, end, steps=0))


def _position(hand: _Hand, spot: Spot, on_sheet: Window) -> Iterator[Movement]:
    f = on_sheet.frame
    side = _line(spot, (f.left, spot[1]))
    yield hand.lays(
        say("Go from A level to the side, and read the latitude there."), pencil_line=[side]
    )
    top = _line(spot, (spot[0], f.top))
    yield hand.lays(
        say("Go from A straight up to the top, and read the longitude there."),
        pencil_line=[side, top],
    )


def _spot(on_sheet: Window, place: tuple[float, float]) -> Spot:
    x, y = on_sheet.place(*place)
    return round(float(x), 2), round(float(y), 2)


def _at(spot: Spot, **more: Any) -> dict[str, Any]:
    return {"x": spot[0], "y": spot[1], **more}


def _line(a: Spot, b: Spot, **more: Any) -> dict[str, Any]:
    ends = {"x1": a[0], "y1": a[1], "x2": b[0], "y2": b[1]}
    return {**{k: round(v, 2) for k, v in ends.items()}, **(more or {"label": ""})}


def _beyond(a: Spot, b: Spot, share: float) -> Spot:
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def _pairs(things: list[Any]) -> list[tuple[Any, Any]]:
    return list(pairwise(things))
