"""What stands around the map: warning, title, scale bars, check bar, north arrows, notes."""

from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection

from navlib.grids import convergence
from navlib.magnetism import annual_change, grid_magnetic_angle, variation
from navlib.sheets import bars, style
from navlib.sheets.bars import FONT
from navlib.sheets.window import GridWindow
from navlib.units import NM
from navlib.waters import Water

TOP, SIDE = 23.0, 10.0
"""Millimetres above and beside the map's frame."""
NARROWEST = 112.0
"""The narrowest frame, in millimetres, below which the bars and arrows have room."""
_BESIDE = 146.0  # from this width on, the north arrows stand beside the check bar
_NOTES = 206.0  # from this width on, there is room for notes between bars and arrows


def draw_head(axes: Axes, water: Water, window: GridWindow, sheet_width: float) -> None:
    """Write the warning across the top, the title, the fraction and what kind of sheet it is."""
    bars.draw_warning(axes, sheet_width)
    f = window.frame
    axes.text(
        f.left,
        15.2,
        water.settings.title,
        size=15,
        weight="bold",
        family=style.SERIF,
        color=style.INK,
        parse_math=False,
    )
    axes.text(
        f.right,
        15.2,
        f"Land map  {bars.fraction(window.scale)}",
        **FONT,
        size=10.5,
        weight="bold",
        ha="right",
    )


def bottom(frame_width: float) -> float:
    """Return how many millimetres the margin below a frame of this width is high."""
    return 45.0 if frame_width >= _BESIDE else 66.0


def draw_foot(axes: Axes, water: Water, window: GridWindow) -> None:
    """Draw what stands below the map: bars, notes if there is room, and the north arrows."""
    f = window.frame
    width, top = f.right - f.left, f.bottom + 13.0
    _draw_bars(axes, window, f.left, top, min(width - 46.0, 104.0), width >= _BESIDE)
    _draw_norths(axes, water, window, f.right - 27.0, f.bottom + 29.5)
    if width >= _NOTES:
        _draw_notes(axes, water, f.left + 109.0, top - 2.0)


def _draw_bars(
    axes: Axes, window: GridWindow, x: float, y: float, room: float, beside: bool
) -> None:
    """Draw scale bars in kilometres and nautical miles, and below them the printer check bar."""
    for metres, unit, down in ((1000.0, "km", 0.0), (NM, "nautical miles", 8.2)):
        unit_mm = metres * 1000 / window.scale
        spare = room - (8 if unit == "km" else 24)
        if 2 * unit_mm > spare:  # no room for a unit each side of zero: count in halves or tenths
            bars.short_bar(axes, x, y + down, unit_mm, unit, spare)
        else:
            count = max(1, min(5, int(spare / unit_mm) - 1))
            bars.bar(axes, x, y + down, unit_mm, count, unit)
    _draw_check(axes, x, y + (17.0 if beside else 38.0))


def _draw_check(axes: Axes, x: float, y: float) -> None:
    bars.check_bar(axes, x, y)
    for k, line in enumerate(
        (
            bars.CHECK_WORDS,
            "Contours every 10 m, thicker every 50 m. The sand-coloured shore dries at low water.",
            "Measure from the dot, or the small circle at the foot of a sign.",
        )
    ):
        axes.text(x, y + 4.4 + 2.7 * k, line, **FONT, size=5.6)


def norths(water: Water, window: GridWindow) -> tuple[float, float, float]:
    """Return convergence, variation and grid magnetic angle (degrees, east +) at the middle."""
    middle = (window.west + window.east) / 2, (window.south + window.north) / 2
    lat, lon = water.lat_lon(middle)
    to_grid = float(convergence(lat, lon, water.settings.grid))
    to_magnetic = float(variation(lat, lon, water.settings.sheet_date))
    return to_grid, to_magnetic, float(grid_magnetic_angle(to_magnetic, to_grid))


def _words(angle: float) -> str:
    return f"{abs(angle):.1f}° {'E' if angle >= 0 else 'W'}"


def _draw_norths(axes: Axes, water: Water, window: GridWindow, x: float, y: float) -> None:
    """Draw true, magnetic and grid north from one foot at (x, y), and the angles between them.

    Angles are drawn five times their size, so that they can be told apart, and the sheet says so.
    """
    to_grid, to_magnetic, gma = norths(water, window)
    foot = np.array([x, y])
    arrows = sorted(
        (("grid", 0.0), ("magnetic", gma), ("true", -to_grid)), key=lambda arrow: arrow[1]
    )
    for (name, angle), length, side_of_text in zip(
        arrows, (16.5, 19.5, 16.5), ("right", "center", "left"), strict=True
    ):
        turn = np.radians(5 * angle)
        way = np.array([np.sin(turn), -np.cos(turn)])
        side = np.array([-way[1], way[0]])
        tip = foot + way * length
        dashes = (0, (4, 2)) if name == "grid" else "solid"
        pen: dict[str, Any] = {"colors": style.INK, "linewidths": style.points(0.28), "zorder": 11}
        strokes = LineCollection([[foot, tip]], linestyles=[dashes], **pen)
        axes.add_collection(strokes, autolim=False)
        if name == "grid":
            axes.add_collection(LineCollection([_head(name, tip, way, side)], **pen), autolim=False)
        else:
            head = PolyCollection(
                [_head(name, tip, way, side)], facecolors=style.INK, edgecolors="none", zorder=11
            )
            axes.add_collection(head, autolim=False)
        nudge = {"right": -1.0, "center": 0.0, "left": 1.0}[side_of_text]
        over = tip + way * 1.6 + np.array([nudge, 0.0])
        axes.text(
            float(over[0]), float(over[1]), name, **FONT, size=6.2, weight="bold", ha=side_of_text
        )
    middle = (window.west + window.east) / 2, (window.south + window.north) / 2
    change = float(annual_change(*water.lat_lon(middle), water.settings.sheet_date))
    when = f"{water.settings.sheet_date:%B %Y}"
    lines = [
        f"Magnetic north, {when}:",
        f"{_words(to_magnetic)} of true, {_words(gma)} of grid",
        f"moving {abs(change):.0f}′ {'E' if change >= 0 else 'W'} a year",
        f"Grid north: {_words(to_grid)} of true north",
        "At the middle of the map; angles drawn × 5",
    ]
    for k, line in enumerate(lines):
        axes.text(x - 15.0, y + 3.8 + 2.6 * k, line, **FONT, size=5.6)


def _head(name: str, tip: Any, way: Any, side: Any) -> Any:
    """Return an arrow's head as the lessons draw it: full for true, open for grid, half magnetic."""
    if name == "magnetic":
        return np.array([tip, tip - way * 2.8 + side * 1.1, tip - way * 2.0])
    width = 0.75 if name == "true" else 0.9
    return np.array([tip - way * 2.4 + side * width, tip, tip - way * 2.4 - side * width])


def _draw_notes(axes: Axes, water: Water, x: float, y: float) -> None:
    """Write the datum, what heights count from, and what the lines of the shore mean."""
    s = water.settings
    notes = [
        f"{s.grid.name}, 1 km squares; datum {s.datum.horizontal}.",
        *_folded(f"Land heights: {s.datum.land_heights}."),
        "Coast: mean high water springs.",
        "Dashed line: chart datum.",
        *_folded(s.about),
    ]
    for k, note in enumerate(notes):
        axes.text(x, y + 2.7 * k, note, **FONT, size=5.6)


def _folded(text: str, width: int = 46) -> list[str]:
    from textwrap import wrap

    return wrap(text, width)
