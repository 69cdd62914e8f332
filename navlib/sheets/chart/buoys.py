"""Buoys and beacons of IALA region A as the chart draws them: shape, colours, topmark, letters.

Source: IALA, Maritime Buoyage System (R1001), region A; the shapes on charts: INT 1, section Q,
all from memory. Floating marks stand upright here; the small circle is their exact place.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from navlib.sheets import style
from navlib.sheets.chart import style as colours
from navlib.sheets.chart.parts import BASE, Part, Points, Sign, line, open_shape, ring, shape, words
from navlib.waters import Feature

RED, GREEN, YELLOW = colours.BUOY_RED, colours.BUOY_GREEN, colours.BUOY_YELLOW
BLACK, BLUE, WHITE = colours.BUOY_BLACK, colours.BUOY_BLUE, colours.BUOY_WHITE


@dataclass(frozen=True)
class Mark:
    """A kind of mark: its colours run from the top down, or side by side if `upright`.

    `topmark` lists its figures from the top down; `letters` are the colours as the chart writes
    them below the mark.
    """

    body: str
    colours: tuple[str, ...]
    topmark: tuple[str, ...]
    letters: str
    upright: bool = False
    topmark_colour: str = BLACK


MARKS: Mapping[str, Mark] = MappingProxyType(
    {
        "port hand": Mark("can", (RED,), ("can",), "R", topmark_colour=RED),
        "starboard hand": Mark("cone", (GREEN,), ("up",), "G", topmark_colour=GREEN),
        "preferred channel to starboard": Mark(
            "can", (RED, GREEN, RED), ("can",), "RGR", topmark_colour=RED
        ),
        "preferred channel to port": Mark(
            "cone", (GREEN, RED, GREEN), ("up",), "GRG", topmark_colour=GREEN
        ),
        "north cardinal": Mark("pillar", (BLACK, YELLOW), ("up", "up"), "BY"),
        "east cardinal": Mark("pillar", (BLACK, YELLOW, BLACK), ("up", "down"), "BYB"),
        "south cardinal": Mark("pillar", (YELLOW, BLACK), ("down", "down"), "YB"),
        "west cardinal": Mark("pillar", (YELLOW, BLACK, YELLOW), ("down", "up"), "YBY"),
        "isolated danger": Mark("pillar", (BLACK, RED, BLACK), ("ball", "ball"), "BRB"),
        "safe water": Mark(
            "ball", (WHITE, RED, WHITE, RED), ("ball",), "RW", True, topmark_colour=RED
        ),
        "special": Mark("spar", (YELLOW,), ("saltire",), "Y", topmark_colour=YELLOW),
        "emergency wreck": Mark(
            "pillar", (BLUE, YELLOW, BLUE, YELLOW), ("cross",), "BuY", True, topmark_colour=YELLOW
        ),
    }
)
"""The marks by the names that a water's `buoy` property uses."""

# Half widths (mm) of each body from its foot at 0 up to its top, with the height there.
_BODIES: Mapping[str, tuple[tuple[float, float], ...]] = {
    "can": ((1.0, 0.0), (1.0, 1.75)),
    "cone": ((1.2, 0.0), (0.0, 2.3)),
    "ball": tuple(
        (1.15 * float(np.cos(a)), 0.7 + 1.15 * float(np.sin(a)))
        for a in np.linspace(-np.arcsin(0.7 / 1.15), np.pi / 2, 14)
    ),
    "pillar": ((1.0, 0.0), (0.52, 0.9), (0.46, 3.2)),
    "spar": ((0.36, 0.0), (0.36, 3.0)),
}
_EDGE = 0.14


def _banded(body: str, bands: tuple[str, ...]) -> list[Part]:
    """Return a body cut level into bands of equal height, the first on top."""
    half, up = (np.array(v) for v in zip(*_BODIES[body], strict=True))
    edges = np.linspace(up[-1], 0.0, len(bands) + 1)
    parts = []
    for colour, top, foot in zip(bands, edges[:-1], edges[1:], strict=True):
        levels = np.unique(np.concatenate([[foot, top], up[(up > foot) & (up < top)]]))
        wide = np.interp(levels, up, half)
        right = list(zip(wide, -levels, strict=True))
        left = [(-w, y) for w, y in reversed(right)]
        parts.append(shape([*right, *left], colour))
    return [*parts, _outline(body)]


def _outline(body: str) -> Part:
    """Return the edge of a body."""
    half, up = (np.array(v) for v in zip(*_BODIES[body], strict=True))
    around = [*zip(half, -up, strict=True), *zip(-half[::-1], -up[::-1], strict=True)]
    return shape(around, "none", BLACK, _EDGE)


def _striped(body: str, stripes: tuple[str, ...]) -> list[Part]:
    """Return a body cut upright into stripes of equal width, the first on the left."""
    half, up = (np.array(v) for v in zip(*_BODIES[body], strict=True))
    levels = np.linspace(0.0, up[-1], 24)
    wide = np.interp(levels, up, half)
    shares = np.linspace(-1.0, 1.0, len(stripes) + 1)
    stripes_drawn = [
        shape(
            [
                *zip(wide * right, -levels, strict=True),
                *zip((wide * left)[::-1], -levels[::-1], strict=True),
            ],
            colour,
        )
        for colour, left, right in zip(stripes, shares[:-1], shares[1:], strict=True)
    ]
    return [*stripes_drawn, _outline(body)]


def _figure(name: str, foot: float, colour: str) -> list[Part]:
    """Return one figure of a topmark standing `foot` millimetres up."""
    y = -foot
    if name == "can":
        return [
            shape([(-0.5, y), (0.5, y), (0.5, y - 0.85), (-0.5, y - 0.85)], colour, BLACK, _EDGE)
        ]
    if name == "ball":
        return [shape(ring(0.45, 0, y - 0.45, 20), colour, BLACK, _EDGE)]
    if name in ("up", "down"):
        base, tip = (y, y - 0.9) if name == "up" else (y - 0.9, y)
        return [shape([(-0.62, base), (0.62, base), (0, tip)], colour, BLACK, _EDGE)]
    arm = 0.55
    if name == "cross":
        strokes: list[Points] = [
            [(0, y), (0, y - 2.2 * arm)],
            [(-arm, y - 1.3 * arm), (arm, y - 1.3 * arm)],
        ]
    else:
        strokes = [
            [(-arm, y), (arm, y - 2 * arm)],
            [(arm, y), (-arm, y - 2 * arm)],
        ]
    # an edge of black keeps a yellow cross from fading into the paper
    return [line(s, w, c) for w, c in ((0.5, BLACK), (0.27, colour)) for s in strokes]


_HEIGHT = {"can": 0.85, "ball": 0.9, "up": 0.9, "down": 0.9, "cross": 1.2, "saltire": 1.1}


def _topmark(mark: Mark, foot: float) -> list[Part]:
    """Return the staff and the topmark over a body whose top is `foot` millimetres up."""
    gap = 0.3
    parts = [line([(0, -foot), (0, -foot - gap)], 0.16)]
    at = foot + gap
    for name in reversed(mark.topmark):
        parts += _figure(name, at, mark.topmark_colour)
        at += _HEIGHT[name] + 0.1
    return parts


def _letters(text: str) -> Part:
    return words(text, 0.0, 1.55, 5.0)


def buoy(kind: str) -> Sign:
    """Return the sign of a buoy of a kind in MARKS."""
    mark = MARKS[kind]
    body = (_striped if mark.upright else _banded)(mark.body, mark.colours)
    foot = line([(-1.35, 0), (1.35, 0)], 0.2)
    top = _BODIES[mark.body][-1][1]
    return (foot, *body, *_topmark(mark, top), BASE, _letters(mark.letters))


def mooring_buoy() -> Sign:
    """Return the sign of a mooring buoy: a low barrel with a ring on top."""
    barrel = [(-1.2, 0), (1.2, 0), (0.85, -1.15), (-0.85, -1.15)]
    return (
        line([(-1.5, 0), (1.5, 0)], 0.2),
        open_shape(barrel),
        Part(open_shape(ring(0.33, 0, -1.5, 20)).path, ink=style.CHART_INK, width=0.2),
        BASE,
    )


def beacon(mark: Mark | None, tower: bool) -> Sign:
    """Return the sign of a beacon: a pole or a tower, with the topmark and colours it carries."""
    top = 2.4
    if tower:
        body = open_shape([(-0.85, 0), (0.85, 0), (0.45, -top), (-0.45, -top)])
    else:
        body = line([(0, 0), (0, -top)], 0.3)
    if mark is None:
        return (body, BASE) if tower else (body, line([(-0.6, -top), (0.6, -top)], 0.3), BASE)
    return (body, *_topmark(mark, top), BASE, _letters(mark.letters))


def daymark() -> Sign:
    """Return the sign of a daymark: a triangle on a pole."""
    triangle = open_shape([(-0.95, -1.7), (0.95, -1.7), (0, -3.3)], 0.22)
    return (line([(0, 0), (0, -1.7)], 0.26), triangle, BASE)


def mark_of(feature: Feature) -> Mark | None:
    """Return the kind of mark that a buoy or beacon is; None for a plain beacon.

    A beacon says it in its `buoy` property or at the start of its note.
    """
    for name, mark in MARKS.items():
        if feature.buoy == name or feature.note.startswith(name):
            return mark
    return None


def is_tower(feature: Feature) -> bool:
    """Return whether a beacon is built up rather than a pole."""
    return any(word in feature.note for word in ("tower", "cone", "stone"))
