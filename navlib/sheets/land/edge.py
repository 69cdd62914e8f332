"""The map's frame: grid lines with their numbers on every edge, and the square letters."""

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import Patch, Rectangle

from navlib import mgrs
from navlib.sheets import pen, style
from navlib.sheets.window import Box, GridWindow
from navlib.waters import Water

KILOMETRE, HUNDRED_KM = 1000, 100_000
RULER = 1.3
"""Width in millimetres of the ruled band around the map."""


def grid_lines(low: float, high: float, step: int = KILOMETRE) -> Iterator[int]:
    """Yield the whole steps from `low` to `high`."""
    yield from range(int(np.ceil(low / step)) * step, int(high) + 1, step)


def zone_letters(water: Water) -> mgrs.ZoneLetters | None:
    """Return how the squares of a water on its own UTM zone's grid are lettered, else None."""
    west, south, east, north = water.bounds
    found = mgrs.letters_at(*water.lat_lon(((west + east) / 2, (south + north) / 2)))
    if isinstance(found, mgrs.ZoneLetters) and found.grid.name == water.settings.grid.name:
        return found
    return None


def square_letters(water: Water) -> Callable[[float, float], str] | None:
    """Return what gives the letters of the 100 km square of a place, or None if it has none."""
    letters = water.settings.letters or zone_letters(water)
    return letters.of if letters else None


def draw_grid(axes: Axes, window: GridWindow, clip: Patch) -> None:
    """Draw the 1 km grid, the lines between 100 km squares thicker."""
    f = window.frame
    lines, widths = [], []
    for e in grid_lines(window.west, window.east):
        x, _ = window.place(e, window.south)
        lines.append([(x, f.top), (x, f.bottom)])
        widths.append(style.points(0.5 if e % HUNDRED_KM == 0 else 0.2))
    for n in grid_lines(window.south, window.north):
        _, y = window.place(window.west, n)
        lines.append([(f.left, y), (f.right, y)])
        widths.append(style.points(0.5 if n % HUNDRED_KM == 0 else 0.2))
    grid = LineCollection(lines, colors=style.GRID, linewidths=widths, zorder=6, gid="grid")
    axes.add_collection(grid, autolim=False)
    grid.set_clip_path(clip)


def draw_frame(axes: Axes, window: GridWindow) -> None:
    """Draw the frame with a tick every 100 m, longer at 500 m and through at 1 km."""
    f, r = window.frame, RULER
    for grow, width in ((0.0, 0.35), (r, 0.2)):
        axes.add_artist(
            Rectangle(
                (f.left - grow, f.top - grow),
                f.right - f.left + 2 * grow,
                f.bottom - f.top + 2 * grow,
                fill=False,
                edgecolor=style.INK,
                linewidth=style.points(width),
                zorder=10,
            )
        )
    ticks = []
    for metres in grid_lines(window.west, window.east, 100):
        x, _ = window.place(metres, window.south)
        long = _tick(metres)
        ticks += [[(x, f.top - long), (x, f.top)], [(x, f.bottom), (x, f.bottom + long)]]
    for metres in grid_lines(window.south, window.north, 100):
        _, y = window.place(window.west, metres)
        long = _tick(metres)
        ticks += [[(f.left - long, y), (f.left, y)], [(f.right, y), (f.right + long, y)]]
    pen.draw_strokes(axes, ticks, None, colour=style.INK, width=0.15, zorder=10, capstyle="butt")


def _tick(metres: int) -> float:
    return RULER if metres % KILOMETRE == 0 else 0.95 if metres % 500 == 0 else 0.6


def draw_numbers(axes: Axes, water: Water, window: GridWindow) -> None:
    """Write the kilometre numbers on all four edges and the square letters in the corners."""
    f = window.frame
    off = RULER + 2.3
    font: dict[str, Any] = {
        "family": style.SANS,
        "color": style.GRID,
        "ha": "center",
        "va": "center_baseline",
        "parse_math": False,
        "zorder": 11,
    }
    for e in grid_lines(window.west, window.east):
        x, _ = window.place(e, window.south)
        for y in (f.top - off, f.bottom + off):
            axes.text(x, y, _number(e), size=9, weight="bold", **font)
    for n in grid_lines(window.south, window.north):
        _, y = window.place(window.west, n)
        for x in (f.left - off - 0.6, f.right + off + 0.6):
            axes.text(x, y, _number(n), size=9, weight="bold", **font)
    letters = square_letters(water)
    if letters is None:
        return
    inset = 1e-6
    for x, y in (
        (f.left, f.top),
        (f.right, f.top),
        (f.left, f.bottom),
        (f.right, f.bottom),
    ):
        e, n = window.grid_at(x, y)
        e = min(max(e, window.west + inset), window.east - inset)
        n = min(max(n, window.south + inset), window.north - inset)
        axes.text(
            x + (-5.2 if x == f.left else 5.2),  # beyond the numbers of lines at the very corner
            y + (-off - 3.1 if y == f.top else off + 3.1),
            letters(e, n),
            size=9.5,
            weight="bold",
            **{**font, "color": style.INK},
        )


def number_spots(window: GridWindow) -> dict[str, list[float]]:
    """Return where along each side of the frame (mm) the kilometre numbers stand."""
    across = [window.place(e, 0)[0] for e in grid_lines(window.west, window.east)]
    down = [window.place(0, n)[1] for n in grid_lines(window.south, window.north)]
    return {"top": across, "bottom": across, "left": down, "right": down}


def _number(metres: int) -> str:
    """Return the two figures that a grid line is called by."""
    return f"{metres % HUNDRED_KM // KILOMETRE:02d}"


def meeting_letters(water: Water, window: GridWindow, signs: list[Box]) -> list[tuple[str, Box]]:
    """Return the letters beside lines between 100 km squares, each with its box clear of `signs`."""
    letters = square_letters(water)
    if letters is None:
        return []
    f = window.frame
    spots: list[tuple[tuple[float, float], ...]] = []
    easts = [e for e in grid_lines(window.west, window.east) if e % HUNDRED_KM == 0]
    norths = [n for n in grid_lines(window.south, window.north) if n % HUNDRED_KM == 0]
    for e in easts:
        x, _ = window.place(e, window.south)
        for y in (f.top + 4, f.bottom - 4):
            spots += [((x - 6, y), (x + 6, y))]
    for n in norths:
        _, y = window.place(window.west, n)
        for x in (f.left + 6, f.right - 6):
            spots += [((x, y - 3.6), (x, y + 3.6))]
    for e in easts:
        for n in norths:
            x, y = window.place(e, n)
            spots += [tuple((x + a, y + b) for a in (-6, 6) for b in (-3.6, 3.6))]
    result: list[tuple[str, Box]] = []
    for group in sorted(spots, key=len, reverse=True):
        if len(group) == 2 and any(_near(box, group[0]) for _, box in result):
            continue  # the letters stand close by along this line or the one across it
        for inward in (0, 12, 24, 36):
            moved = [_inward(f, x, y, inward if len(group) == 2 else 0) for x, y in group]
            boxes = [Box(x - 4.4, y - 2.1, x + 4.4, y + 2.1) for x, y in moved]
            others = [*signs, *(box for _, box in result)]
            if all(b.within(f) and not any(b.overlaps(o) for o in others) for b in boxes):
                result += [
                    (letters(*window.grid_at(x, y)), box)
                    for (x, y), box in zip(moved, boxes, strict=True)
                ]
                break
    return result


def _near(box: Box, spot: tuple[float, float]) -> bool:
    x, y = box.middle
    return abs(x - spot[0]) < 24 and abs(y - spot[1]) < 24


def _inward(frame: Box, x: float, y: float, by: float) -> tuple[float, float]:
    """Return a spot near the frame's edge moved away from that edge."""
    if x - frame.left < 8:
        return x + by, y
    if frame.right - x < 8:
        return x - by, y
    return (x, y + by) if y - frame.top < 8 else (x, y - by)


def draw_meeting_letters(axes: Axes, letters: list[tuple[str, Box]]) -> None:
    """Write the letters beside lines between 100 km squares."""
    for text, box in letters:
        axes.text(
            (box.left + box.right) / 2,
            (box.top + box.bottom) / 2,
            text,
            size=11,
            weight="bold",
            family=style.SANS,
            color=style.GRID,
            alpha=0.85,
            ha="center",
            va="center",
            parse_math=False,
            zorder=6.1,
        )
