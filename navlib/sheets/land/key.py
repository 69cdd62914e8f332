"""The key of a land map: a sample of each sign, line and area, with its meaning in words."""

from collections.abc import Callable, Collection

import numpy as np
from matplotlib.axes import Axes

from navlib.sheets import pen, style
from navlib.sheets.bars import FONT
from navlib.sheets.land import covers, symbols, ways
from navlib.waters import Water

LEAST = 240.0
"""The narrowest frame, in millimetres, that has a key below it."""
_CELL, _ROW = 41.0, 4.8
"""Millimetres from entry to entry across and down."""
SAMPLE = 8.0
"""Millimetres that a sample is wide; it begins at its spot."""

_SIGNS = {
    "headland": "named place of the shore",
    "summit": "hill top with height in metres",
    "spot height": "spot height in metres",
    "light": "light",
    "beacon": "beacon",
    "daymark": "daymark",
    "buoy": "buoy",
    "rock": "rock",
    "church": "church or chapel",
    "mast": "radio mast",
    "chimney": "chimney",
    "cottage": "lone house",
    "ruin": "ruin",
    "lay-by": "lay-by: cars may stop",
}
_LINES = {
    "road": "road",
    "track": "track",
    "path": "path",
    "wall": "wall",
    "causeway": "causeway, dry at low water",
    "power cable": "power cable overhead",
    "submarine cable": "cable coming ashore",
    "ferry": "ferry route",
}
_LIMITS = "limit, with its note"

Entry = tuple[str, Callable[[Axes, float, float], None]]


def _line(kind: str) -> Callable[[Axes, float, float], None]:
    def draw(axes: Axes, x: float, y: float) -> None:
        for colour, width, dashes, _ in ways.LINES[kind]:
            pen.draw_strokes(
                axes,
                [[(x, y), (x + SAMPLE, y)]],
                None,
                colour=colour,
                width=width,
                zorder=11,
                dashes=dashes,
                capstyle="butt",
            )

    return draw


def _sign(kind: str) -> Callable[[Axes, float, float], None]:
    box = symbols.reach(kind)

    def draw(axes: Axes, x: float, y: float) -> None:
        symbols.draw_sign(axes, kind, x + 4.0, y - (box.top + box.bottom) / 2)

    return draw


def _burn(axes: Axes, x: float, y: float) -> None:
    ends = np.linspace(x, x + SAMPLE, 4)
    for k, (_, width) in enumerate(ways.BURN):
        piece = [[(ends[k], y), (ends[k + 1], y)]]
        pen.draw_strokes(axes, piece, None, colour=style.WATER_INK, width=width, zorder=11)


def _wood(axes: Axes, x: float, y: float) -> None:
    ring = [(x, y - 1.6), (x + 8, y - 1.6), (x + 8, y + 1.6), (x, y + 1.6)]
    pen.draw_shapes(axes, [ring], None, fill=style.WOOD, zorder=11)
    covers.draw_trees(axes, np.array([(x + 1.6, y), (x + 4, y + 0.5), (x + 6.4, y)]), zorder=11.1)


def _limit(axes: Axes, x: float, y: float) -> None:
    covers.draw_outlines(axes, [[(x, y), (x + SAMPLE, y)]], None, zorder=11)


def entries(held: Collection[str]) -> list[Entry]:
    """Return what a key shows for these kinds of feature."""
    result: list[Entry] = [(words, _sign(kind)) for kind, words in _SIGNS.items() if kind in held]
    result += [(words, _line(kind)) for kind, words in _LINES.items() if kind in held]
    for kind, words, draw in (("burn", "burn (stream)", _burn), ("wood", "wood", _wood)):
        if kind in held:
            result.append((words, draw))
    if set(held) & set(covers.LIMITS):
        result.append((_LIMITS, _limit))
    return result


def _entries(water: Water) -> list[Entry]:
    return entries({f.kind for f in water.features})


def _columns(width: float) -> int:
    return max(1, int((width + 4.0) / _CELL))


def height(water: Water, width: float) -> float:
    """Return how many millimetres the key of a frame this wide is high."""
    return 4.0 + _ROW * float(np.ceil(len(_entries(water)) / _columns(width)))


def draw_key(axes: Axes, water: Water, x: float, y: float, width: float) -> None:
    """Draw the key from (x, y) down, in columns across `width` millimetres."""
    shown, columns = _entries(water), _columns(width)
    rows = int(np.ceil(len(shown) / columns))
    cell = width / columns
    for k, (words, draw) in enumerate(shown):
        at_x, at_y = x + (k // rows) * cell, y + 3.0 + (k % rows) * _ROW
        draw(axes, at_x, at_y)
        axes.text(at_x + SAMPLE + 2.0, at_y + 0.8, words, **FONT, size=5.6)
