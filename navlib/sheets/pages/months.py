"""A month on a page: three columns of days, each day with its number and room beside it."""

from collections.abc import Sequence
from datetime import date, timedelta
from math import ceil

from navlib.sheets.pages.leaf import LEFT, MIDDLE, PALE, RIGHT, TOP, Align, Leaf
from navlib.sheets.style import SERIF

_COLUMNS, _GUTTER, _MOST = 3, 5.0, 11
FIRST_DAY, LAST_DAY = TOP + 12.0, 262.0
"""Where the first day of a column begins down the page, and where the last can end."""
Head = tuple[float, str, Align]
"""Millimetres from the left of a column, words, and how they stand there."""
PITCH = (LAST_DAY - FIRST_DAY) / _MOST
"""Millimetres from one day to the next."""


def month_cells(
    leaf: Leaf, first: date, count: int, heads: Sequence[Head]
) -> dict[date, tuple[float, float]]:
    """Draw the days of a month and the heads of the columns; return each day's top left corner."""
    rows = ceil(count / _COLUMNS)
    width = (RIGHT - LEFT - (_COLUMNS - 1) * _GUTTER) / _COLUMNS
    cells = {}
    for k in range(count):
        column, row = divmod(k, rows)
        x, y = LEFT + column * (width + _GUTTER), FIRST_DAY + row * PITCH
        day = first + timedelta(days=k)
        if row == 0:
            for across, words, align in ((0.0, "Day", "left"), *heads):
                leaf.write(x + across, y - 2.0, words, 7.4, align=align, colour=MIDDLE)
        leaf.lines([[(x, y), (x + width, y)]], 0.1, PALE if row else MIDDLE)
        leaf.write(x, y + 7.6, f"{day.day}", 17, weight="bold", family=SERIF)
        sunday = day.weekday() == 6
        leaf.write(x, y + 12.4, f"{day:%a}", 8, weight="bold" if sunday else "normal")
        cells[day] = (x, y)
    return cells
