"""Latitude, longitude and the second grid on a land map: ticks where they meet the frame.

Latitude and longitude (WGS 84) stand inside the frame, the second grid outside it and in another
colour, so that each can be read off and none be taken for the map's own grid.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import Patch
from matplotlib.path import Path

from navlib.grids import Grid, from_grid, to_grid
from navlib.sheets import lettering, pen, style
from navlib.sheets.ground import Array
from navlib.sheets.lettering import Placed, size_of
from navlib.sheets.window import Box, Window
from navlib.waters import Water

Values = Callable[[Array, Array], Array]
"""What a grid says at spots on the sheet (mm)."""
_TICK = 2.0  # millimetres of a tick inside the frame
_ARMS = (0.55, 1.5)  # from where to where a cross's arm runs, in mm from its middle
_STEPS = (1, 2, 5, 10, 20)
_CROWDED = 15.0  # millimetres that two ticks with figures keep between them
FINEST = 100_000
"""The smallest scale at which the second grid's kilometres have room around the frame."""


@dataclass(frozen=True)
class Tick:
    """Where a line of a grid meets the frame: spot (mm), its whole `value`, the line's direction
    inward, and which side of the frame it is on.
    """

    x: float
    y: float
    value: int
    way: tuple[float, float]
    side: str


def _meetings(window: Window, values: Values, sides: tuple[str, str], step: int) -> Iterator[Tick]:
    """Yield where whole multiples of `step` meet two opposite sides of the frame."""
    f = window.frame
    along = np.linspace(0.0, 1.0, 129)
    level = np.zeros_like(along)
    for side in sides:
        x = {"left": level + f.left, "right": level + f.right}.get(side, f.left + f.width * along)
        y = {"top": level + f.top, "bottom": level + f.bottom}.get(side, f.top + f.height * along)
        seen = values(x, y)
        order = np.argsort(seen)
        low, high = seen[order[0]], seen[order[-1]]
        for value in range(int(np.ceil(low / step)) * step, int(np.floor(high)) + 1, step):
            at_x = float(np.interp(value, seen[order], x[order]))
            at_y = float(np.interp(value, seen[order], y[order]))
            yield Tick(at_x, at_y, value, _direction(values, at_x, at_y, side), side)


def _direction(values: Values, x: float, y: float, side: str) -> tuple[float, float]:
    """Return the unit direction into the frame in which the value stays the same."""
    here, right, down = values(np.array([x, x + 1.0, x]), np.array([y, y, y + 1.0]))
    way = np.array([here - down, right - here])
    way /= np.hypot(*way)
    inward = {"left": (1, 0), "right": (-1, 0), "top": (0, 1), "bottom": (0, -1)}[side]
    way *= np.sign(way @ np.array(inward))
    return float(way[0]), float(way[1])


def _degrees(water: Water, window: Window) -> tuple[Values, Values]:
    """Return latitude and longitude in minutes of arc as functions of spots on the sheet."""

    def at(which: int) -> Values:
        def minutes(x: Array, y: Array) -> Array:
            return 60 * np.asarray(from_grid(*window.grid_at(x, y), water.settings.grid)[which])

        return minutes

    return at(0), at(1)


def _step(values: Values, frame: Box, across: bool) -> int:
    """Return how many minutes lie between ticks so that their figures have room."""
    x, y = frame.middle
    beside = values(np.array([x, x + across]), np.array([y, y + (not across)]))
    mm = 1 / max(abs(float(beside[1] - beside[0])), 1e-12)
    return next((s for s in _STEPS if s * mm >= _CROWDED), _STEPS[-1])


def ticks(water: Water, window: Window) -> list[Tick]:
    """Return the ticks of latitude (sides) and longitude (top and bottom); values in minutes."""
    lat, lon = _degrees(water, window)
    return [
        *_meetings(window, lat, ("left", "right"), _step(lat, window.frame, across=False)),
        *_meetings(window, lon, ("top", "bottom"), _step(lon, window.frame, across=True)),
    ]


def second_ticks(water: Water, window: Window, grid: Grid) -> list[Tick]:
    """Return the second grid's ticks: northings on the sides, eastings top and bottom, in km."""

    def at(which: int) -> Values:
        def km(x: Array, y: Array) -> Array:
            lat, lon = from_grid(*window.grid_at(x, y), water.settings.grid)
            return np.asarray(to_grid(lat, lon, grid)[which]) / 1000

        return km

    return [
        *_meetings(window, at(1), ("left", "right"), 1),
        *_meetings(window, at(0), ("top", "bottom"), 1),
    ]


def written(tick: Tick) -> str:
    """Return the figure beside a tick of latitude or longitude, such as 58°47′N."""
    upright = tick.side in ("left", "right")
    half = "NS" if upright else "EW"
    degrees, minutes = divmod(abs(tick.value), 60)
    return f"{degrees}°{minutes:02d}′{half[tick.value < 0]}"


def figures(marks: list[Tick], taken: list[Box], frame: Box) -> list[Placed]:
    """Return the figures beside ticks of latitude and longitude; `taken` grows by their boxes."""
    placed = []
    inner = Box(frame.left + 0.3, frame.top + 0.3, frame.right - 0.3, frame.bottom - 0.3)
    for tick in marks:
        text = written(tick)
        width, height, _ = size_of(text, "graticule")
        for x, y in _beside(tick, width, height):
            box = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
            if box.within(inner) and not any(box.overlaps(other, 0.2) for other in taken):
                taken.append(box)
                placed.append(Placed(text, "graticule", box))
                break
    return placed


def _beside(tick: Tick, width: float, height: float) -> Iterator[tuple[float, float]]:
    """Yield middles of a figure on either side of a tick, close to the frame."""
    for away in (0.0, 2.4):
        for turn in (1, -1):
            if tick.side in ("left", "right"):
                inward = 1 if tick.side == "left" else -1
                yield (
                    tick.x + inward * (0.8 + away + width / 2),
                    tick.y - turn * (0.9 + height / 2),
                )
            else:
                inward = 1 if tick.side == "top" else -1
                yield (
                    tick.x + turn * (0.8 + width / 2),
                    tick.y + inward * (0.8 + away + height / 2),
                )


def draw_graticule(
    axes: Axes, water: Water, window: Window, marks: list[Tick], clip: Patch
) -> None:
    """Draw the ticks of latitude and longitude, and small crosses where they meet on the map."""
    inward = [
        [(t.x, t.y), (t.x + _TICK * t.way[0], t.y + _TICK * t.way[1])] for t in marks
    ]  # fmt: skip
    pen_width = style.points(0.2)
    lines = LineCollection(
        inward, colors=style.INK, linewidths=pen_width, zorder=9.5, gid="graticule"
    )
    axes.add_collection(lines, autolim=False)
    crosses = _crosses(water, window, marks)
    pen.draw_strokes(
        axes, crosses, clip, colour=style.GRID, width=0.14, zorder=6.05, gid="crosses"
    )  # fmt: skip


def _crosses(water: Water, window: Window, marks: list[Tick]) -> list[Array]:
    """Return the arms of crosses, open in the middle so that none is taken for a rock."""
    lats = sorted({t.value / 60 for t in marks if t.side in ("left", "right")})
    lons = sorted({t.value / 60 for t in marks if t.side in ("top", "bottom")})
    if not lats or not lons:
        return []
    lat, lon = (v.ravel() for v in np.meshgrid(lats, lons))
    grid, f = water.settings.grid, window.frame
    x, y = window.place(*to_grid(lat, lon, grid))
    inside = [f.holds(float(u), float(v), 2 * _TICK) for u, v in zip(x, y, strict=True)]
    lat, lon = lat[inside], lon[inside]
    mm = window.scale / 1000 / 111_000  # a millimetre of the sheet in degrees of latitude
    arms: list[Array] = []
    for up, right in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        wide = right * mm / np.cos(np.radians(lat))
        ends = [
            np.stack(window.place(*to_grid(lat + r * up * mm, lon + r * wide, grid)), axis=1)
            for r in _ARMS
        ]
        arms += list(np.stack(ends, axis=1))
    return arms


def draw_second_grid(
    axes: Axes, window: Window, marks: list[Tick], numbers: dict[str, list[float]], band: float
) -> None:
    """Draw the second grid's ticks across the ruled `band` (mm) and their figures outside it.

    `numbers` are, for each side, where along it the map's own kilometre numbers stand.
    """
    strokes, leaders, written = [], [], []
    for tick in marks:
        out = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}[tick.side]
        root = np.array([tick.x, tick.y])
        rim = root + band * np.array(out)
        strokes.append([root, rim])
        upright = tick.side in ("left", "right")
        f = window.frame
        low, high = (f.top, f.bottom) if upright else (f.left, f.right)
        along = _clear(rim[int(upright)], numbers[tick.side], 2.9 if upright else 6.3)
        if not low + 1 < along < high - 1:
            continue
        spot = rim + (1.0 if not upright else 0.7) * np.array(out)
        spot[int(upright)] = along
        leaders.append([rim, spot])
        written += _outlines(tick, spot, out)
    width = style.points(0.28)
    for lines, gid in ((strokes, "second-grid"), (leaders, "second-grid-leaders")):
        axes.add_collection(
            LineCollection(
                lines, colors=style.SECOND_GRID, linewidths=width, zorder=10.5, gid=gid
            ),
            autolim=False,
        )  # fmt: skip

    lettering.draw_outlines(axes, written, style.SECOND_GRID, 11)


def _clear(at: float, numbers: list[float], room: float) -> float:
    """Return the spot nearest to `at` along a side that keeps `room` from the numbers there."""
    if not numbers:
        return at
    near = min(numbers, key=lambda n: abs(n - at))
    return at if abs(at - near) >= room else near + (room if at >= near else -room)


def _outlines(tick: Tick, spot: Any, out: tuple[int, int]) -> list[Path]:
    """Return a kilometre figure of the second grid: hundreds small, the two that count larger."""
    written = (("second-hundreds", f"{tick.value // 100}"), ("second", f"{tick.value % 100:02d}"))
    widths = [size_of(text, letters)[0] + 0.15 for letters, text in written]
    x, y = spot
    x += {-1: -sum(widths) - 0.1, 0: -sum(widths) / 2, 1: 0.3}[out[0]]
    y += {-1: -0.5, 0: 0.8, 1: 2.1}[out[1]]
    result = []
    for (letters, text), width in zip(written, widths, strict=True):
        kind = style.LETTERS[letters]
        result.append(lettering.outline(text, kind, (x, y), rough=False))
        x += width
    return result
