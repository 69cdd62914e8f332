"""What every printed sheet carries: the warning, scale bars, and the bar that checks the print."""

from itertools import pairwise
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Rectangle

from navlib.sheets import style

WARNING = "TRAINING – INVENTED PLACE – NOT FOR NAVIGATION"
CHECK_BAR = 100.0
"""Length in millimetres of the bar that a learner lays a ruler on."""
CHECK_WORDS = "Check your print: this bar is 100 mm long. If it is not, no distance here is true."
FONT: dict[str, Any] = {"family": style.SANS, "color": style.INK, "parse_math": False}


def draw_warning(axes: Axes, sheet_width: float) -> None:
    """Write the training warning across the top of a sheet, in a band of 7 mm."""
    axes.add_artist(Rectangle((0, 0), sheet_width, 7.0, color=style.WARNING, zorder=11))
    axes.text(
        sheet_width / 2,
        3.6,
        WARNING,
        **{**FONT, "color": "#ffffff"},
        size=10.5,
        weight="bold",
        ha="center",
        va="center",
        zorder=12,
    )


def fraction(scale: int) -> str:
    """Return a scale as it is printed, such as 1:25 000."""
    return f"1:{scale:,}".replace(",", " ")


def _blocks(
    axes: Axes, x: float, y: float, widths: list[float], unit: str, first_dark: bool = True
) -> None:
    """Draw blocks of these widths from x on, dark and light by turns."""
    edges = x + np.concatenate([[0.0], np.cumsum(widths)])
    height = 1.5
    boxes = [[(a, y), (b, y), (b, y + height), (a, y + height)] for a, b in pairwise(edges)]
    dark = [(k % 2 == 0) == first_dark for k in range(len(boxes))]
    axes.add_collection(
        PolyCollection(
            boxes,
            facecolors=[style.INK if d else style.PAPER for d in dark],
            edgecolors=style.INK,
            linewidths=style.points(0.15),
            zorder=11,
            gid=f"bar-{unit.replace(' ', '-')}",
        ),
        autolim=False,
    )
    axes.text(float(edges[-1]) + 2.6, y + height, unit, **FONT, size=7)


def _figure(axes: Axes, x: float, y: float, text: str) -> None:
    axes.text(x, y - 0.9, text, **FONT, size=6.8, ha="center")


def bar(axes: Axes, x: float, y: float, unit_mm: float, count: int, unit: str) -> None:
    """Draw a scale bar of `count` units, and left of its zero one more cut into parts."""
    parts = 10 if unit_mm > 30 else 5
    _blocks(axes, x, y, [unit_mm / parts] * parts + [unit_mm] * count, unit, parts % 2 == 0)
    _figure(axes, x, y, "1")
    for k in range(count + 1):
        _figure(axes, x + (1 + k) * unit_mm, y, f"{k}")


def short_bar(axes: Axes, x: float, y: float, unit_mm: float, unit: str, room: float) -> None:
    """Draw a bar of the largest of one, a half, a fifth... of a unit that fits, cut into tenths."""
    whole = next(w for w in (1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01) if w * unit_mm <= room)
    _blocks(axes, x, y, [whole * unit_mm / 10] * 10, unit)
    for part in (0.0, 0.5, 1.0):
        _figure(axes, x + whole * unit_mm * part, y, f"{whole * part:g}")


def check_bar(axes: Axes, x: float, y: float) -> None:
    """Draw the check bar from (x, y) to the right."""
    ticks = [[(x, y), (x + CHECK_BAR, y)]]
    for k in range(11):
        long = 1.6 if k in (0, 10) else 1.1 if k == 5 else 0.7
        at = x + CHECK_BAR * k / 10
        ticks.append([(at, y - long), (at, y + long)])
    axes.add_collection(
        LineCollection(
            ticks, colors=style.INK, linewidths=style.points(0.2), zorder=11, gid="check-bar"
        ),
        autolim=False,
    )
