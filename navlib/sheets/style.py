"""How the sheets look: colours, line widths (mm) and letters, all in one place.

The colours differ in lightness first, so that they part in grey print and for colour-blind eyes.
"""

from dataclasses import dataclass
from typing import Literal

PAPER = "#ffffff"
INK = "#22262b"
LOW_LAND, HIGH_LAND = (241, 237, 222), (238, 225, 199)
DEEP, SHALLOW = "#c4dae5", "#dae9f0"
FORESHORE = "#e9dfb9"
FORESHORE_INK = "#8d8055"
COAST = "#2d4a5c"
CONTOUR = "#8a7a5e"
WATER_INK = "#1d5c86"
FRESH = "#a9cbe0"
GRID = "#4a5878"
ROAD = "#ffffff"
ROAD_EDGE = "#4b3f3a"
TRACK = "#5b463c"
HOUSE = "#3a3431"
ROCK_INK = "#5f5740"
WOOD, WOOD_INK = "#cfe0b8", "#3f6a35"
SECOND_GRID = "#7b2d86"
PENCIL = "#2b2b33"
PALE_EDGE = "#fbf9f2"
WARNING = "#7c1d14"

CHART_LAND, CHART_DRYING = "#ecd9a5", "#9fb88a"
CHART_SHALLOW, CHART_MIDDLE, CHART_DEEP = "#a6cde6", "#dcedf7", "#ffffff"
"""Tints of the sea chart: land, what dries, 0 to 5 m, 5 to 10 m, deeper."""
CHART_INK = "#1c2126"
CHART_LAND_INK = "#6b5836"
CHART_DEPTH_LINE = "#3f6d92"
MAGENTA = "#a4136f"
"""What the chart adds for the mariner: lights, limits, cables, roses, streams."""

SERIF, SANS = "STIXGeneral", "DejaVu Sans"

Slant = Literal["normal", "italic"]
POINTS_PER_MM = 72 / 25.4


def points(mm: float) -> float:
    """Return a width in printer's points, which is what matplotlib draws in."""
    return mm * POINTS_PER_MM


@dataclass(frozen=True)
class Letters:
    """A kind of lettering: `size` in points, `spacing` extra space between letters and `edge`
    the width of the pale edge around them, both in points too.
    """

    size: float
    family: str = SERIF
    weight: str = "normal"
    slant: Slant = "normal"
    colour: str = INK
    spacing: float = 0.0
    capitals: bool = False
    edge: float = 1.9


LETTERS = {
    "island-1": Letters(15, weight="bold", spacing=4.5, capitals=True, colour="#4d4636"),
    "island-2": Letters(10, weight="bold", spacing=1.5, capitals=True, colour="#4d4636"),
    "water-1": Letters(13, slant="italic", colour=WATER_INK, spacing=2.2),
    "water-2": Letters(9.5, slant="italic", colour=WATER_INK, spacing=0.6),
    "water-3": Letters(8, slant="italic", colour=WATER_INK),
    "village": Letters(10, weight="bold"),
    "point": Letters(8.6),
    "mark": Letters(8.4, slant="italic"),
    "summit": Letters(9.2, weight="bold"),
    "height": Letters(6.2, family=SANS, colour="#4a4436", edge=0),
    "contour": Letters(5.2, family=SANS, colour="#6f6149", edge=0),
    "area-note": Letters(7.2, slant="italic", colour="#6a2440"),
    "graticule": Letters(5.4, family=SANS, edge=1.4),
    "second": Letters(6.6, family=SANS, slant="italic", colour=SECOND_GRID),
    "second-hundreds": Letters(4.6, family=SANS, slant="italic", colour=SECOND_GRID),
    "chart-island-1": Letters(13, weight="bold", spacing=4.0, capitals=True, colour="#4d4022"),
    "chart-island-2": Letters(8.6, weight="bold", spacing=1.0, capitals=True, colour="#4d4022"),
    "chart-place": Letters(8.2),
    "chart-summit": Letters(7.0, family=SANS, colour="#4d4022"),
    "chart-height": Letters(5.5, family=SANS, colour=CHART_LAND_INK, edge=0),
    "chart-contour": Letters(5.5, family=SANS, colour=CHART_LAND_INK, edge=0),
    "chart-water-1": Letters(12, slant="italic", spacing=2.0),
    "chart-water-2": Letters(9, slant="italic", spacing=0.5),
    "chart-water-3": Letters(7.8, slant="italic"),
    "chart-mark": Letters(6.2, family=SANS),
    "chart-float": Letters(6.2, family=SANS, slant="italic"),
    "chart-light": Letters(6.0, family=SANS, colour=MAGENTA),
    "chart-note": Letters(6.0, family=SANS, colour=MAGENTA),
    "chart-bottom": Letters(5.6, family=SANS, slant="italic", edge=1.2),
    "chart-depth": Letters(5.5, family=SANS, slant="italic", colour=CHART_DEPTH_LINE, edge=0),
    "chart-title": Letters(15, weight="bold", spacing=1.2, capitals=True, edge=0),
    "chart-subtitle": Letters(8, family=SANS, weight="bold", edge=0),
    "chart-small": Letters(5.7, family=SANS, edge=0),
    "chart-small-bold": Letters(5.7, family=SANS, weight="bold", edge=0),
    "chart-caution": Letters(5.7, family=SANS, colour=MAGENTA, edge=0),
    "chart-diamond": Letters(7.5, family=SANS, weight="bold", colour=MAGENTA),
    "pencil": Letters(9.5, family=SANS, weight="bold", colour=PENCIL),
}
"""Lettering by the kind of name that it writes."""
