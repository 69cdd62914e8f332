"""How the land map looks: colours, line widths (mm) and letters, all in one place.

The colours differ in lightness first, so that they part in grey print and for colour-blind eyes.
"""

from dataclasses import dataclass
from typing import Literal

PAPER = "#ffffff"
INK = "#22262b"
LOW_LAND, HIGH_LAND = (247, 244, 233), (226, 214, 190)
DEEP, SHALLOW = "#cfe1ea", "#e0edf2"
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
PENCIL = "#2b2b33"
PALE_EDGE = "#fbf9f2"
WARNING = "#7c1d14"

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
    "pencil": Letters(9.5, family=SANS, weight="bold", colour=PENCIL),
}
"""Lettering by the kind of name that it writes."""
