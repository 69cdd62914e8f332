"""Signs of what stands on land, of anchorages and fish farms, and the figure of a clearance.

Source: INT 1, sections B, C, D, E, N and K, from memory; each is drawn here from plain geometry.
"""

from collections.abc import Mapping

import numpy as np

from navlib.sheets import style
from navlib.sheets.chart.glyphs import figures
from navlib.sheets.chart.parts import (
    BASE,
    DOT,
    Part,
    Sign,
    line,
    moved,
    open_shape,
    ring,
    shape,
    words,
)

_INK = style.CHART_INK


def _arc(
    radius: float, start: float, end: float, y: float, x: float = 0.0
) -> list[tuple[float, float]]:
    """Return a bow about (x, y); degrees clockwise from up the sheet."""
    turn = np.radians(np.linspace(start, end, 15))
    return [(x + radius * float(np.sin(t)), y - radius * float(np.cos(t))) for t in turn]


POINT: Sign = (open_shape(ring(0.42), 0.14), shape(ring(0.17)))
"""The exact place of a thing that the chart shows by its coast or its name alone."""
_CROSS = (line([(0, 0), (0, -2.7)], 0.3), line([(-0.8, -1.9), (0.8, -1.9)], 0.3))
_SPIRE = (
    shape([(-0.55, 0), (0.55, 0), (0, -2.6)]),
    line([(0, -2.6), (0, -3.5)], 0.22),
    line([(-0.42, -3.1), (0.42, -3.1)], 0.22),
)
_MAST = (
    line([(-0.75, 0), (0, -3.2), (0.75, 0)], 0.2),
    line([(-0.5, -1.1), (0.5, -1.1)], 0.18),
    line([(0, -3.2), (0, -3.9)], 0.22),
    *(line(_arc(r, side * 55, side * 125, -3.7), 0.18) for r in (0.65, 1.15) for side in (-1, 1)),
)
_CHIMNEY = (
    shape([(-0.42, 0), (0.42, 0), (0.26, -2.9), (-0.26, -2.9)]),
    line([(0.05, -3.2), (0.5, -3.5), (0.9, -3.35), (1.5, -3.7)], 0.2),
)
_HOUSE = (shape([(-0.55, -0.55), (0.55, -0.55), (0.55, 0.55), (-0.55, 0.55)]),)
_RUIN = (
    Part(
        open_shape([(-0.6, -0.6), (0.6, -0.6), (0.6, 0.6), (-0.6, 0.6)]).path,
        ink=_INK,
        width=0.2,
        dashes=(2.2, 1.6),
    ),
    shape(ring(0.17)),
)
_ANCHOR = tuple(
    line(points, 0.26, style.MAGENTA)
    for points in (
        [(0, -1.2), (0, 1.6)],
        [(-0.8, -0.8), (0.8, -0.8)],
        _arc(1.45, 108, 252, 0.15),
        ring(0.32, 0, -1.52, 16),
        [(-1.75, 0.25), (-1.38, 0.6), (-0.95, 0.4)],
        [(1.75, 0.25), (1.38, 0.6), (0.95, 0.4)],
    )
)
_FISH = (
    shape(
        [*_arc(1.9, -42, 42, 1.41 + 0.0), *_arc(1.9, 138, 222, -1.41)],
        "none",
        _INK,
        0.2,
    ),
    line([(-1.27, 0), (-2.0, -0.55), (-2.0, 0.55), (-1.27, 0)], 0.2),
    shape(ring(0.13, 0.75, -0.1, 10)),
)
LANDMARKS: Mapping[str, Sign] = {
    **dict.fromkeys(("headland", "beach", "jetty"), POINT),
    "church": (*_CROSS, BASE),
    "spire": (*_SPIRE, BASE),
    "mast": (*_MAST, BASE),
    "chimney": (*_CHIMNEY, BASE),
    "cottage": _HOUSE,
    "ruin": _RUIN,
    "summit": (DOT,),
    "pillar": (open_shape([(0, -1.0), (0.92, 0.6), (-0.92, 0.6)], 0.18), shape(ring(0.2))),
    "spot height": (shape(ring(0.2)),),
    "anchorage": _ANCHOR,
    "fish farm": _FISH,
}
"""Signs that depend on nothing but what the thing is."""


def clearance(metres: float) -> Sign:
    """Return the figure of a clearance above the highest astronomical tide between its bars."""
    text = f"{metres:.1f}"
    _, width, height = figures(text, 6.0)
    half, high = width / 2 + 0.35, height / 2 + 0.45
    bars = (
        line([(-half, side * high), (half, side * high)], 0.22, style.MAGENTA) for side in (-1, 1)
    )
    ticks = (
        line([(0, side * high), (0, side * (high + 0.75))], 0.22, style.MAGENTA) for side in (-1, 1)
    )
    return (*bars, *ticks, words(text, 0, 0, 6.0, style.MAGENTA))


def buoyage_arrow() -> Sign:
    """Return the arrow of the direction of buoyage, pointing up: red to port, green to starboard."""
    outline = [
        *[(-0.8, 3.2), (-0.8, -0.8), (-1.7, -0.8), (0, -3.6)],
        *[(1.7, -0.8), (0.8, -0.8), (0.8, 3.2)],
    ]
    balls = tuple(
        moved((open_shape(ring(0.5), 0.2, style.MAGENTA),), x, 1.2)[0] for x in (-2.0, 2.0)
    )
    return (Part(open_shape(outline).path, ink=style.MAGENTA, width=0.24), *balls)
