"""The signs of the sea chart with their meaning in words, for its legend.

The numbers are those of the international list of chart symbols, INT 1; where ours is not certain
there is none.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes

from navlib.sheets import style
from navlib.sheets.chart import buoys, dangers, lights, lines, parts
from navlib.sheets.chart import style as colours
from navlib.sheets.chart.diamonds import draw_signs_at
from navlib.sheets.chart.glyphs import figures
from navlib.sheets.chart.landmarks import LANDMARKS, buoyage_arrow, clearance
from navlib.sheets.chart.parts import Part, Sign
from navlib.sheets.pen import draw_shapes, draw_strokes
from navlib.tides import Levels

Draw = Callable[[Axes, float, float], None]
_HALF = 6.0  # millimetres that a sample reaches to either side
_LEVELS = Levels(hat=5.4, mhws=4.8, mhwn=3.7, msl=2.8, mlwn=1.9, mlws=0.7, lat=0.0)
"""Levels for the samples of rocks only; they decide which class a sample is of."""


@dataclass(frozen=True)
class Entry:
    """A sign: its number in INT 1 (may be empty), what it says, and how it is drawn about a spot.

    `room` is the height in millimetres that its sample wants.
    """

    number: str
    words: str
    draw: Draw
    room: float = 5.0


def _signed(number: str, words: str, sign: Sign) -> Entry:
    """Return the entry of a sign, drawn with its box about the spot."""
    box = parts.box_of(sign, 0.0, 0.0)
    middle = box.middle

    def draw(axes: Axes, x: float, y: float) -> None:
        parts.draw(axes, sign, x - middle[0], y - middle[1])

    return Entry(number, words, draw, box.height + 1.4)


def _line(kind: str) -> Draw:
    def draw(axes: Axes, x: float, y: float) -> None:
        path = np.array([(x - _HALF, y), (x + _HALF, y)])
        lines.draw_line(axes, kind, [path])

    return draw


def _leading(axes: Axes, x: float, y: float) -> None:
    path = np.array([(x - _HALF, y), (x + _HALF, y)])
    lines.draw_leading_line(axes, path, 0.5)


def _sectors(axes: Axes, x: float, y: float) -> None:
    light = (x, y - 2.2)
    shown = (("R", 300.0, 340.0), ("W", 340.0, 20.0), ("G", 20.0, 60.0))
    for k, (colour, start, end) in enumerate(shown):
        lights.draw_arc(axes, f"key-{k}", light, lights.Sector(start, end, colour), 5.0)


def swatch(fill: str, ink: str = "none") -> Draw:
    """Return what draws a filled box about a spot."""

    def draw(axes: Axes, x: float, y: float) -> None:
        ring = [(x - 5, y - 1.5), (x + 5, y - 1.5), (x + 5, y + 1.5), (x - 5, y + 1.5)]
        draw_shapes(axes, [ring], None, fill=fill, edge=ink, width=0.12, zorder=7)

    return draw


def stroke(colour: str, width: float, dashes: tuple[float, ...] | None = None) -> Draw:
    """Return what draws a level line about a spot; `width` in millimetres."""

    def draw(axes: Axes, x: float, y: float) -> None:
        path = [(x - _HALF, y), (x + _HALF, y)]
        draw_strokes(axes, [path], None, colour=colour, width=width, dashes=dashes, zorder=7)

    return draw


def _text(text: str, letters: str) -> Draw:
    kind = style.LETTERS[letters]

    def draw(axes: Axes, x: float, y: float) -> None:
        axes.text(
            x,
            y,
            text,
            size=kind.size,
            family=kind.family,
            style=kind.slant,
            weight=kind.weight,
            color=kind.colour,
            ha="center",
            va="center",
            parse_math=False,
        )

    return draw


def _depth(metres: str, decimetres: str, dries: bool = False) -> Sign:
    path = figures(metres, 7.0, slant="italic", small=decimetres, underlined=dries)[0]
    return (Part(path, fill=style.CHART_INK),)


def _diamond(axes: Axes, x: float, y: float) -> None:
    draw_signs_at(axes, [("A", x, y)])


def _lit(sign: Sign) -> Sign:
    return (lights.flare(), *sign)


_MARK_WORDS = {
    "port hand": "port hand: keep it to port, going with the arrow of buoyage",
    "starboard hand": "starboard hand: keep it to starboard, going with the arrow",
    "preferred channel to starboard": "main channel to starboard of it",
    "preferred channel to port": "main channel to port of it",
    "north cardinal": "north cardinal: pass north of it",
    "east cardinal": "east cardinal: pass east of it",
    "south cardinal": "south cardinal: pass south of it",
    "west cardinal": "west cardinal: pass west of it",
    "isolated danger": "isolated danger below it, safe water all round",
    "safe water": "safe water all round",
    "special": "special mark: see what the chart says",
    "emergency wreck": "new wreck, keep well clear",
}
_LIGHT = "Fl(2) 10s\n45m 18M"

GROUPS: dict[str, tuple[Entry, ...]] = {
    "Buoys and beacons, IALA region A": (
        *(_signed("Q 130", text, _lit(buoys.buoy(k))) for k, text in _MARK_WORDS.items()),
        _signed("", "letters below: colours from the top; flare: lit", (lights.flare(),)),
        _signed("Q 40", "mooring buoy", buoys.mooring_buoy()),
        _signed("Q 80", "beacon: a pole", buoys.beacon(None, tower=False)),
        _signed("Q 110", "beacon tower", buoys.beacon(None, tower=True)),
        _signed(
            "Q 130",
            "beacon on an isolated danger",
            buoys.beacon(buoys.MARKS["isolated danger"], tower=False),
        ),
        _signed("", "daymark of a leading line", buoys.daymark()),
        _signed("Q 130", "direction of buoyage", parts.turned(buoyage_arrow(), 90.0)),
    ),
    "Lights": (
        _signed("P 1", "light; its place is the middle of the star", lights.star()),
        Entry(
            "P 10",
            "its character: 2 flashes every 10 s, 45 m above high water springs, range 18 miles",
            _text(_LIGHT, "chart-light"),
        ),
        Entry("P 40", "sectors, red, white, green; bearings are from seaward", _sectors, 10.0),
        Entry("M 1", "leading line: follow the firm part", _leading),
    ),
    "Depths and the sea bed": (
        _signed("I 10", "depth, 8.6 m below chart datum", _depth("8", "6")),
        _signed("I 15", "dries 1.4 m above chart datum", _depth("1", "4", True)),
        Entry("", "covers at high water and dries", swatch(style.CHART_DRYING)),
        Entry("", "0 to 5 m deep", swatch(style.CHART_SHALLOW)),
        Entry("", "5 to 10 m deep", swatch(style.CHART_MIDDLE)),
        Entry("", "deeper than 10 m", swatch(style.CHART_DEEP, style.CHART_DEPTH_LINE)),
        Entry("I 30", "line of equal depth", stroke(style.CHART_DEPTH_LINE, 0.14)),
        Entry("J", "sand, mud, rock, shells", _text("S  M  R  Sh", "chart-bottom")),
        Entry("J", "gravel, stones, weed", _text("G  St  Wd", "chart-bottom")),
    ),
    "Dangers and streams": (
        _signed("K 10", "rock that never covers", dangers.rock(6.0, _LEVELS)),
        _signed("K 11", "rock that covers and uncovers, dries 1.4 m", dangers.rock(1.4, _LEVELS)),
        _signed("K 12", "rock awash at chart datum", dangers.rock(0.0, _LEVELS)),
        _signed("K 13", "dangerous rock under water", dangers.rock(-1.5, _LEVELS)),
        _signed("K 28", "dangerous wreck", dangers.wreck()),
        _signed("K 48", "fish farm", LANDMARKS["fish farm"]),
        _signed("H 44", "overfalls: steep breaking water", dangers.overfalls()),
        Entry("H 46", "place of the tabulated stream", _diamond),
    ),
    "Limits, cables, routes": (
        Entry("N 2.1", "limit; ticks point into what is closed in", _line("limit")),
        Entry("N 22", "nature reserve, with its months", _line("reserve")),
        Entry("B 82", "compass drawn aside inside it", _line("anomaly")),
        _signed("N 10", "anchorage", LANDMARKS["anchorage"]),
        Entry("M 50", "ferry route", _line("ferry")),
        Entry("L 30", "cable on the sea bed", _line("submarine cable")),
        Entry("D 27", "cable overhead", _line("power cable")),
        Entry("D 22", "bridge", _line("bridge road")),
        _signed("D 22", "clearance above the highest tide, 7.0 m", clearance(7.0)),
    ),
    "On land": (
        Entry("E 2", "conspicuous; top 37 m above high water", _text("SPIRE (37)", "chart-mark")),
        _signed("B 22", "exact place of a named point", LANDMARKS["headland"]),
        _signed("B 20", "hill top with survey pillar", LANDMARKS["pillar"]),
        _signed("C 11", "spot height above high water springs", LANDMARKS["summit"]),
        Entry("C 10", "contour", stroke(style.CHART_LAND_INK, 0.12)),
        _signed("E 10", "church", LANDMARKS["church"]),
        _signed("E 10", "church with a spire", LANDMARKS["spire"]),
        _signed("E 22", "chimney (Chy)", LANDMARKS["chimney"]),
        _signed("E 28", "radio mast", LANDMARKS["mast"]),
        _signed("", "lone house", LANDMARKS["cottage"]),
        _signed("D 8", "ruin", LANDMARKS["ruin"]),
        Entry("", "houses", swatch(colours.HOUSES)),
        Entry("D 10", "road", _line("road")),
        Entry("D 12", "track", _line("track")),
        Entry("", "causeway, dry at low water", _line("causeway")),
        Entry("C 20", "burn (stream)", _line("burn")),
    ),
}
"""The legend's entries under their headings."""
