"""The tables of the tidal diamonds: set and rates for the thirteen hours about high water."""

from collections.abc import Sequence

from navlib.language import say
from navlib.sheets.pages.leaf import (
    LEFT,
    MIDDLE,
    PALE,
    RIGHT,
    SMALLEST,
    TOP,
    Leaf,
    folded,
    position,
)
from navlib.sheets.pages.printed import MINUS, decimetre
from navlib.sheets.pages.rates import rates_grid, rule_words, set_figures
from navlib.sheets.paper import Page
from navlib.sheets.style import SERIF
from navlib.sheets.window import Box
from navlib.waters import Diamond, StreamRow, Water

_HOURS, _ROW, _BAND, _MOST = 22.0, 5.6, 112.0, 5
"""Millimetres of the hours' column, a row and a band of tables, and tables in a band."""
_PARTS = (7.6, 18.9, 28.9)
"""Where set, spring rate and neap rate end, millimetres from the left of a table."""


def diamonds_page(water: Water) -> Page:
    """Return the tables of all tidal diamonds of a water, rates at mean springs and mean neaps."""
    diamonds = water.tides.diamonds
    if len(diamonds) > 2 * _MOST:
        raise ValueError(
            f"{water.settings.title} has {len(diamonds)} tidal diamonds; a page holds {2 * _MOST}"
        )
    standard = water.tides.standard
    leaf = Leaf()
    leaf.head(
        f"Tidal diamonds, hours from HW {standard.name}",
        water.settings.title,
        "Set in degrees true, the way the stream flows to; rates in knots",
    )
    bands = [diamonds[k : k + _MOST] for k in range(0, len(diamonds), _MOST)]
    for k, band in enumerate(bands):
        _band(leaf, water, TOP + 4.0 + k * _BAND, band)
    words = f"Each row holds for half an hour each side of its hour. {rule_words(water)}"
    y = leaf.paragraph(LEFT, TOP + 8.0 + len(bands) * _BAND, words, RIGHT - LEFT, 8, 4.2)
    if len(bands) == 1:
        _rates_form(leaf, water, y + 12.0)
    leaf.foot(
        "Computed for invented waters, for training; not for navigation. The diamonds, the stream "
        "atlas and the gate times come from one model. Rates to the nearest 0.1 kn, sets to the "
        "nearest degree; a half is taken up. Wind is in no prediction.",
        top=282.0,
    )
    names = ", ".join(f"{d.letter} {d.name}" for d in diamonds)
    return leaf.page(
        say(
            "Tables of the tidal diamonds of {title}: set, spring rate and neap rate for 6 hours "
            "before to 6 hours after high water at {port}. Diamonds: {names}.",
            {"title": water.settings.title, "port": standard.name, "names": names},
        )
    )


def _band(leaf: Leaf, water: Water, top: float, diamonds: Sequence[Diamond]) -> None:
    """Draw the tables of up to five diamonds side by side, with one column of hours."""
    first = top + 37.0
    width = (RIGHT - LEFT - _HOURS) / _MOST
    end = LEFT + _HOURS + width * len(diamonds)
    _hours(leaf, first, end)
    for k, diamond in enumerate(diamonds):
        x = LEFT + _HOURS + k * width
        leaf.lines([[(x, top), (x, first + 13 * _ROW)]], 0.1, PALE)
        _table_head(leaf, water, x + 2.0, top, width - 3.0, diamond)
        for row, hour in enumerate(water.tides.rows(diamond)):
            _row(leaf, x + 2.0, first + (row + 0.72) * _ROW, hour)


def _hours(leaf: Leaf, first: float, end: float) -> None:
    """Write the hours, before, at and after high water, and rule between them."""
    leaf.write(LEFT, first - 1.8, "Hours", 7.4, colour=MIDDLE)
    for row in range(14):
        strong = row in (0, 13)
        y = first + row * _ROW
        leaf.lines([[(LEFT, y), (end, y)]], 0.25 if strong else 0.1, MIDDLE if strong else PALE)
    for k in (6, 7):
        leaf.lines([[(LEFT, first + k * _ROW), (end, first + k * _ROW)]], 0.25, MIDDLE)
    for hour in range(-6, 7):
        y = first + (hour + 6 + 0.72) * _ROW
        sign = MINUS if hour < 0 else "+"
        text = f"{sign}{abs(hour)}" if hour else "HW"
        leaf.write(LEFT + 19.0, y, text, 9, weight="bold", align="right")
    for word, hour in (("before", -6), ("after", 1)):
        leaf.write(LEFT, first + (hour + 6 + 0.72) * _ROW, word, 7.4, colour=MIDDLE)


def _table_head(
    leaf: Leaf, water: Water, x: float, top: float, width: float, diamond: Diamond
) -> None:
    """Draw a diamond with its letter, its name and where it lies, and the heads of its columns."""
    middle, half = (x + 4.0, top + 5.0), 4.6
    (cx, cy) = middle
    outline = [(cx, cy - half), (cx + 3.6, cy), (cx, cy + half), (cx - 3.6, cy)]
    leaf.shapes([outline], "#ffffff", line=0.3)
    leaf.write(cx, cy + 1.6, diamond.letter, 11, weight="bold", family=SERIF, align="center")
    y = top + 13.4
    for line in folded(diamond.name, width, 8, "bold")[:3]:
        leaf.write(x, y, line, 8, weight="bold")
        y += 3.6
    latitude, longitude = position(water, diamond.place).split(" ")
    leaf.write(x, y + 0.6, latitude, 7.4)
    leaf.write(x, y + 4.2, longitude, 7.4)
    for end, word in zip(_PARTS, ("set", "springs", "neaps"), strict=True):
        leaf.write(x + end, top + 35.2, word, SMALLEST, colour=MIDDLE, align="right")


def _row(leaf: Leaf, x: float, y: float, row: StreamRow) -> None:
    spring, neap = decimetre(row.spring_kn), decimetre(row.neap_kn)
    still = spring == neap == "0.0"
    cells = ("–" if still else set_figures(row.set_to), spring, neap)
    for end, cell in zip(_PARTS, cells, strict=True):
        leaf.write(x + end, y, cell, 9, align="right")


def _rates_form(leaf: Leaf, water: Water, top: float) -> None:
    """Draw the grid for today's rate, and say how it is used."""
    rows = [row for d in water.tides.diamonds for row in water.tides.rows(d)]
    box = Box(LEFT + 8.0, top, LEFT + 98.0, top + 62.0)
    rates_grid(leaf, water, box, max(row.spring_kn for row in rows))
    x = LEFT + 122.0
    leaf.write(x, top, "Today’s rate without a sum", 9, weight="bold")
    leaf.paragraph(
        x,
        top + 6.0,
        "Mark the neap rate on the neaps line and the spring rate on the springs line, and join "
        "them with a pencil line. Go across at today’s range to your line, then down to the rate. "
        "Run the line on a little past the means; never below nothing.",
        RIGHT - x,
        8,
        4.2,
    )
