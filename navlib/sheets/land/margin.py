"""What stands around the map: warning, title, scale bars, check bar, north arrows, notes."""

from textwrap import wrap
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection

from navlib import mgrs
from navlib.grids import Grid, convergence, to_grid
from navlib.magnetism import annual_change, grid_magnetic_angle, variation
from navlib.sheets import bars, style
from navlib.sheets.bars import FONT
from navlib.sheets.land import edge, graticule, key
from navlib.sheets.land.frame import BARS_DOWN, MILES_DOWN, bar_room, unit_left_of_zero
from navlib.sheets.window import GridWindow
from navlib.units import NM
from navlib.waters import Water

_WIDEST, _APART = 32.0, 7.0
"""Degrees from grid north within which the north arrows are drawn, and between two of them."""
_BESIDE = 146.0  # from this width on, the north arrows stand beside the check bar
_NOTES, _COLUMN = 206.0, 56.0
"""From which width on there is room for notes between bars and arrows, and each column's width."""
_LETTERS = 46  # in a line of notes
_READING = (
    "Contours every 10 m, thicker every 50 m. The sand-coloured shore dries at low water.",
    "Measure from the dot, or the small circle at the foot of a sign.",
)


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


def bottom(water: Water, frame_width: float) -> float:
    """Return how many millimetres the margin below a frame of this width is high."""
    plain = 50.0 if frame_width >= _BESIDE else 71.0
    return plain + (key.height(water, frame_width) if frame_width >= key.LEAST else 0.0)


def draw_foot(axes: Axes, water: Water, window: GridWindow) -> None:
    """Draw what stands below the map: bars, notes and key if there is room, and the norths."""
    f = window.frame
    top = f.bottom + BARS_DOWN
    _draw_bars(axes, window, f.left, top)
    lines = [bars.CHECK_WORDS, *_READING, *_other_grids(water, window)]
    y = top + (17.0 if f.width >= _BESIDE else 38.0)
    bars.check_bar(axes, f.left, y)
    _write(axes, f.left, y + 4.4, lines)
    _draw_norths(axes, water, window, f.right - 27.0, f.bottom + 29.5)
    columns = _notes(water)
    for k, notes in enumerate(columns):
        if f.width >= _NOTES + k * _COLUMN:
            _write(axes, f.left + 109.0 + k * _COLUMN, top - 2.0, notes)
    if f.width >= key.LEAST:
        key.draw_key(axes, water, f.left, f.bottom + 48.0, f.width)


def _write(axes: Axes, x: float, y: float, lines: list[str]) -> None:
    for k, line in enumerate(lines):
        axes.text(x, y + 2.7 * k, line, **FONT, size=5.6)


def _draw_bars(axes: Axes, window: GridWindow, x: float, y: float) -> None:
    """Draw scale bars in kilometres and nautical miles."""
    for metres, unit, down in ((1000.0, "km", 0.0), (NM, "nautical miles", MILES_DOWN)):
        unit_mm, room = metres * 1000 / window.scale, bar_room(window, unit)
        if unit_left_of_zero(unit_mm, room):
            count = max(1, min(5, int(room / unit_mm) - 1))
            bars.bar(axes, x, y + down, unit_mm, count, unit)
        else:  # no room for a unit each side of zero: count in halves or tenths
            bars.short_bar(axes, x, y + down, unit_mm, unit, room)


def _other_grids(water: Water, window: GridWindow) -> list[str]:
    """Return what the figures inside and outside the frame are, besides the map's own grid."""
    lines = ["Black ticks and crosses inside the frame: latitude and longitude, WGS 84."]
    own, second = edge.zone_letters(water), water.settings.second_grid
    if own:
        lines += [f"100 km squares of zone {own.name}: write {own.name} before their letters."]
    if second and window.scale <= graticule.FINEST:
        lines += [
            f"Violet figures outside it: {second.name}, in km (WGS 84; "
            f"{_squares(water, window, second)}). Not this map's grid."
        ]
    return lines


def _squares(water: Water, window: GridWindow, grid: Grid) -> str:
    """Return the 100 km squares of a UTM grid that a window touches, such as 29V NF PF."""
    corners = [
        (water.lat_lon((e, n)))
        for e in (window.west, window.east)
        for n in (window.south, window.north)
    ]
    found = mgrs.letters_at(*corners[0])
    squares = {found.of(*to_grid(lat, lon, grid)) for lat, lon in corners}
    name = found.name if isinstance(found, mgrs.ZoneLetters) else ""
    return " ".join([name, *sorted(squares)])


def norths(water: Water, window: GridWindow) -> tuple[float, float, float]:
    """Return convergence, variation and grid magnetic angle (degrees, east +) at the middle."""
    middle = (window.west + window.east) / 2, (window.south + window.north) / 2
    lat, lon = water.lat_lon(middle)
    to_grid = float(convergence(lat, lon, water.settings.grid))
    to_magnetic = float(variation(lat, lon, water.settings.sheet_date))
    return to_grid, to_magnetic, float(grid_magnetic_angle(to_magnetic, to_grid))


def _words(angle: float) -> str:
    return f"{abs(angle):.1f}° {'E' if angle >= 0 else 'W'}"


def _spread(arrows: list[tuple[str, float]]) -> tuple[list[float], str]:
    """Return the angles at which the norths are drawn, and in words what was done to them.

    `arrows` are names and angles from grid north, the western first. They are drawn up to five
    times their size, and where that is not enough, apart, so that they can be told apart.
    """
    angles = np.array([angle for _, angle in arrows])
    times = next(k for k in (5, 4, 3, 2, 1) if k == 1 or np.abs(k * angles).max() <= _WIDEST)
    drawn = times * angles
    if np.diff(drawn).min() >= _APART:
        return list(drawn), f"angles drawn × {times}" if times > 1 else "angles drawn true"
    middle = float(drawn[1])
    low, high = min(drawn[0], middle - _APART), max(drawn[2], middle + _APART)
    return [float(low), middle, float(high)], "angles not to scale"


def _draw_norths(axes: Axes, water: Water, window: GridWindow, x: float, y: float) -> None:
    """Draw true, magnetic and grid north from one foot at (x, y), and the angles between them."""
    to_grid_north, to_magnetic, gma = norths(water, window)
    foot = np.array([x, y])
    arrows = sorted(
        (("grid", 0.0), ("magnetic", gma), ("true", -to_grid_north)), key=lambda arrow: arrow[1]
    )
    angles, how_drawn = _spread(arrows)
    for (name, _), angle, length, side_of_text in zip(
        arrows, angles, (16.5, 19.5, 16.5), ("right", "center", "left"), strict=True
    ):
        _draw_north(axes, name, foot, np.radians(angle), length, side_of_text)
    middle = (window.west + window.east) / 2, (window.south + window.north) / 2
    change = float(annual_change(*water.lat_lon(middle), water.settings.sheet_date))
    when = f"{water.settings.sheet_date:%B %Y}"
    _write(
        axes,
        x - 15.0,
        y + 3.8,
        [
            f"Magnetic north, {when}:",
            f"{_words(to_magnetic)} of true, {_words(gma)} of grid",
            f"moving {abs(change):.0f}′ {'E' if change >= 0 else 'W'} a year",
            f"Grid north: {_words(to_grid_north)} of true north",
            f"At the middle of the map; {how_drawn}",
        ],
    )


def _draw_north(
    axes: Axes, name: str, foot: Any, turn: float, length: float, side_of_text: str
) -> None:
    way = np.array([np.sin(turn), -np.cos(turn)])
    side = np.array([-way[1], way[0]])
    tip = foot + way * length
    dashes = (0, (4, 2)) if name == "grid" else "solid"
    pen: dict[str, Any] = {"colors": style.INK, "linewidths": style.points(0.28), "zorder": 11}
    axes.add_collection(
        LineCollection([[foot, tip]], linestyles=[dashes], gid=f"north-{name}", **pen),
        autolim=False,
    )
    head = _head(name, tip, way, side)
    if name == "grid":
        axes.add_collection(LineCollection([head], **pen), autolim=False)
    else:
        filled = PolyCollection([head], facecolors=style.INK, edgecolors="none", zorder=11)
        axes.add_collection(filled, autolim=False)
    nudge = {"right": -1.0, "center": 0.0, "left": 1.0}[side_of_text]
    over = tip + way * 1.6 + np.array([nudge, 0.0])
    axes.text(
        float(over[0]), float(over[1]), name, **FONT, size=6.2, weight="bold", ha=side_of_text
    )


def _head(name: str, tip: Any, way: Any, side: Any) -> Any:
    """Return an arrow's head as the lessons draw it: full for true, open for grid, half magnetic."""
    if name == "magnetic":
        return np.array([tip, tip - way * 2.8 + side * 1.1, tip - way * 2.0])
    width = 0.75 if name == "true" else 0.9
    return np.array([tip - way * 2.4 + side * width, tip, tip - way * 2.4 - side * width])


def _notes(water: Water) -> list[list[str]]:
    """Return the notes in columns: datum and heights, then the source and who may use the map."""
    s = water.settings
    first = [
        f"{s.grid.name}, 1 km squares; datum {s.datum.horizontal}.",
        *wrap(f"Land heights: {s.datum.land_heights}.", _LETTERS),
        "Coast: mean high water springs.",
        "Dashed line of the shore: chart datum, which is",
        f"{s.levels.msl:g} m below the zero of land heights.",
        "Dots on the shore: sand; angled strokes: rock.",
        *wrap(
            "Straight lines keep one angle to the grid: turn it by the figures beside the "
            "arrows into a true or magnetic bearing.",
            _LETTERS,
        ),
    ]
    second = [
        *wrap(s.about, _LETTERS),
        *wrap(
            "Contours, coast and shore come from one field of heights; all are for training "
            f"only. Drawn for {s.sheet_date.strftime('%B %Y')}.",
            _LETTERS,
        ),
    ]
    return [first, second]
