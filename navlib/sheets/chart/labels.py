"""What the sea chart says in words: names, light characters, heights, notes; and where it may.

Names of what is fixed are upright, of what floats or lies under water sloping; the names of
conspicuous marks are in capitals (INT 1, section E). Heights are above mean high water springs.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import repeat
from textwrap import wrap

import numpy as np

from navlib.sheets import style
from navlib.sheets.chart import lights, parts
from navlib.sheets.chart.dangers import rock_class
from navlib.sheets.chart.lines import firm_part, leading_bearing, on_sheet
from navlib.sheets.chart.standing import SIGNED, sign_of
from navlib.sheets.ground import Array, Ground
from navlib.sheets.lettering import size_of
from navlib.sheets.placing import Spots, Wish, around, beside, priced
from navlib.sheets.window import Box, Window
from navlib.tides import Levels
from navlib.waters import Feature, Water

_BESIDE = {
    # kind: letters, likes land or sea, turn in the queue
    "light": ("chart-mark", "sea", 2),
    "beacon": ("chart-mark", "sea", 3),
    "daymark": ("chart-mark", "land", 4),
    "buoy": ("chart-float", "sea", 3),
    "mooring": ("chart-float", "sea", 4),
    "rock": ("chart-place", "sea", 3),
    "skerry": ("chart-place", "sea", 2),
    "wreck": ("chart-float", "sea", 3),
    "headland": ("chart-place", "sea", 2),
    "beach": ("chart-place", "sea", 5),
    "jetty": ("chart-mark", "sea", 5),
    "church": ("chart-mark", "land", 3),
    "mast": ("chart-mark", "land", 3),
    "chimney": ("chart-mark", "land", 3),
    "cottage": ("chart-mark", "land", 4),
    "ruin": ("chart-mark", "land", 5),
    "summit": ("chart-summit", "land", 3),
    "spot height": ("chart-height", "land", 9),
    "anchorage": ("chart-note", "sea", 6),
    "fish farm": ("chart-float", "sea", 6),
}
NAMED_ABOUT = {
    # kind: letters before the rank, metres that the name may stray, likes, turn in the queue
    "island": ("chart-island", 2200.0, "land", 7),
    "bay": ("chart-water", 700.0, "sea", 6),
    "sound": ("chart-water", 900.0, "sea", 5),
    "overfalls": ("chart-water", 1400.0, "sea", 5),
    "bank": ("chart-water", 1000.0, "sea", 5),
    "cliff": ("chart-place", 400.0, "sea", 5),
    "village": ("chart-place", 800.0, "land", 4),
    "bridge": ("chart-mark", 400.0, "any", 5),
    "bottom": ("chart-bottom", 120.0, "sea", 3),
    "reserve": ("chart-note", 1800.0, "sea", 4),
    "anomaly": ("chart-note", 1800.0, "sea", 3),
    "limit": ("chart-note", 1200.0, "sea", 5),
    "submarine cable": ("chart-note", 500.0, "sea", 6),
    "power cable": ("chart-mark", 400.0, "any", 8),
}
_WEIGHTS = {"island": 8.0, "bay": 6.0, "sound": 5.0}
"""What it costs a name to lie wholly where it should not; beyond 7 it is left out instead."""
_SHORT = {"chimney": ("Chimney", "Chy")}
_NOTE_LETTERS = 26
_SMALL_SCALE = 60_000
"""From this denominator names of waters are written a rank smaller."""
_LIMIT_SHARES = np.array([0.85, 0.8, 0.9, 0.75, 0.6, 0.55, 0.5, 0.45, 0.4, 0.35])
_MIDDLE_FIRST = 0.5 + np.array([s * k / 40 for k in range(21) for s in (1, -1)])
"""Shares of a line where words along it are tried, the best-liked first."""


@dataclass(frozen=True)
class _Asked:
    """A wish with its turn in the queue."""

    turn: int
    wish: Wish


def chart_height(map_height: float, levels: Levels) -> float:
    """Return a height above mean high water springs (m) from one above mean sea level, the map's."""
    return map_height - (levels.mhws - levels.msl)


def _top(water: Water, feature: Feature) -> float:
    """Return the height (m above mean high water springs) of the top of what is built there."""
    base = max(water.height(feature.place), 0.0)
    return base + feature.structure - water.settings.levels.mhws


def label(water: Water, feature: Feature) -> str:
    """Return what the chart writes for a feature, without its light; lines parted by newlines."""
    levels, name, kind = water.settings.levels, feature.name, feature.kind
    if feature.map_height is not None and kind in ("summit", "spot height"):
        return f"{name} {chart_height(feature.map_height, levels):.0f}".strip()
    if kind == "skerry" and name:
        height = water.height(feature.place)
        above = rock_class(height, levels) == "islet"
        return f"{name} ({height - levels.mhws:.0f})" if above else name
    if kind in ("church", "mast", "chimney", "cottage", "light", "beacon") and feature.conspicuous:
        long, short = _SHORT.get(kind, (name, name))
        spire = " spire" if "spire" in feature.note else ""
        written = f"{name.replace(long, short)}{spire}".upper()
        return written if kind == "light" else f"{written} ({_top(water, feature):.0f})"
    if kind == "wreck":
        return f"{name} Wk".strip()
    if kind == "anomaly":
        most = feature.deflection or 0.0
        return f"Local Magnetic\nAnomaly (up to {abs(most):g}°{'E' if most > 0 else 'W'})"
    if kind in ("reserve", "limit", "submarine cable"):
        said = [s for s in (feature.note, feature.period) if s]
        return "\n".join([name, *wrap(". ".join(said), _NOTE_LETTERS)]).strip()
    return name


def wishes(water: Water, ground: Ground, clutter: Array) -> list[Wish]:
    """Return the words that this ground asks for, those to be set first at the front.

    `clutter` are points (mm) that words had better not hide.
    """
    window = ground.window
    asked: list[_Asked] = []
    for light in lights.sectored(water, window):
        asked += [_Asked(0, w) for w in _limit_figures(light, ground, clutter)]
    for line in water.of_kind("leading line", "ferry"):
        asked += _along_line(water, line, ground, clutter)
    for feature in water.features:
        if feature.light and window.frame.holds(*window.place(*feature.place)):
            wish = _beside(water, feature, feature.light, "chart-light", "sea", ground, clutter)
            asked.append(_Asked(1, wish))
        text = label(water, feature)
        if not text:
            continue
        if feature.kind in _BESIDE and window.frame.holds(*window.place(*feature.place)):
            letters, likes, turn = _BESIDE[feature.kind]
            wish = _beside(water, feature, text, letters, likes, ground, clutter)
            asked.append(_Asked(turn, wish))
        elif feature.kind in NAMED_ABOUT:
            asked += _about(feature, text, ground, clutter)
    return [a.wish for a in sorted(asked, key=lambda a: a.turn)]


def _beside(
    water: Water,
    feature: Feature,
    text: str,
    letters: str,
    likes: str,
    ground: Ground,
    clutter: Array,
) -> Wish:
    window = ground.window
    x, y = (float(v) for v in window.place(*feature.place))
    factor = parts.size(window)
    box = Box(x, y, x, y)
    if feature.kind in SIGNED:
        box = parts.box_of(sign_of(water, feature), x, y, factor)
    width, height, _ = size_of(text, letters)
    spots = list(beside(box, width, height))
    return Wish(text, letters, priced(spots, likes, 1.6, ground, clutter))


def _about(feature: Feature, text: str, ground: Ground, clutter: Array) -> Iterator[_Asked]:
    window = ground.window
    family, stray, likes, turn = NAMED_ABOUT[feature.kind]
    if feature.kind == "island" and feature.rank > 1:
        stray, likes = 900.0, "any"
    if feature.kind == "bay" and feature.rank == 1:
        stray *= 2
    small = family == "chart-water" and window.scale >= _SMALL_SCALE
    letters = f"{family}-{min(feature.rank + small, 3)}"
    if letters not in style.LETTERS:
        letters = family if family in style.LETTERS else f"{family}-2"
    width, height, _ = size_of(text, letters)
    box_width, box_height = _turned(width, height, feature.turn)
    reach = max(stray * 1000 / window.scale, 2.0)
    x, y = (float(v) for v in window.place(*feature.place))
    if not window.frame.holds(x, y, -reach):
        return
    spots = list(around(x, y, box_width, box_height, reach, max(1.5, reach / 9)))
    weight = _WEIGHTS.get(feature.kind, 2.5)
    yield _Asked(
        turn, Wish(text, letters, priced(spots, likes, weight, ground, clutter), feature.turn)
    )


def _turned(width: float, height: float, turn: float) -> tuple[float, float]:
    c, s = abs(np.cos(np.radians(turn))), abs(np.sin(np.radians(turn)))
    return float(width * c + height * s), float(width * s + height * c)


def _readable(turn: float) -> float:
    """Return a text's turn (degrees anticlockwise) the way up that it can be read."""
    return (turn + 90) % 180 - 90


def _along(line: Array, text: str, letters: str, shares: Array, off: float) -> tuple[Spots, float]:
    """Return spots for a text beside a straight line, and the text's turn.

    `shares` say how far along the line, the best-liked first.
    """
    way = line[-1] - line[0]
    turn = _readable(float(np.degrees(np.arctan2(-way[1], way[0]))))
    width, height, _ = size_of(text, letters)
    box_width, box_height = _turned(width, height, turn)
    square = np.array([-way[1], way[0]]) / max(float(np.hypot(*way)), 1e-9)
    spots = []
    for k, share in enumerate(shares):
        for side in (-1, 1):
            x, y = line[0] + way * share + side * square * (height / 2 + off)
            box = Box(
                float(x) - box_width / 2,
                float(y) - box_height / 2,
                float(x) + box_width / 2,
                float(y) + box_height / 2,
            )
            spots.append((0.02 * k, box))
    return spots, turn


def _limit_figures(light: Feature, ground: Ground, clutter: Array) -> list[Wish]:
    """Return the bearings from seaward to be written along the limits of a light's sectors."""
    result = []
    lines = lights.limit_lines(light, ground.window)
    for bearing, line in zip(lights.limits(light), lines, strict=True):
        text = f"{bearing:05.1f}°" if bearing % 1 else f"{bearing:03.0f}°"
        spots, turn = _along(line, text, "chart-light", _LIMIT_SHARES, 0.35)
        result.append(
            Wish(text, "chart-light", priced(spots, "any", 0.3, ground, clutter[:0]), turn)
        )
    return result


def _along_line(water: Water, feature: Feature, ground: Ground, clutter: Array) -> Iterator[_Asked]:
    """Return the words along a leading line, or along the longest stretch of a ferry's route."""
    (path,) = on_sheet(feature, ground.window)
    letters, text = "chart-note", feature.name or "Ferry"
    if feature.kind == "leading line":
        letters = "chart-mark"
        text = f"{feature.name or 'Leading daymarks'} {leading_bearing(water, feature):03.0f}°"
        path = path[[0, -1]]
        path[1] = path[0] + (path[1] - path[0]) * firm_part(water, feature)
    pieces = [p for p in map(_shown, path[:-1], path[1:], repeat(ground.window)) if p is not None]
    if pieces:
        longest = max(pieces, key=lambda p: float(np.hypot(*(p[1] - p[0]))))
        spots, turn = _along(longest, text, letters, _MIDDLE_FIRST * 0.84 + 0.08, 0.4)
        yield _Asked(1, Wish(text, letters, priced(spots, "sea", 1.6, ground, clutter[:0]), turn))


def _shown(start: Array, end: Array, window: Window) -> Array | None:
    """Return the part of a straight line (mm) that lies in the frame, None if none does."""
    line = start + (end - start) * np.linspace(0, 1, 101)[:, None]
    inside = [k for k, spot in enumerate(line) if window.frame.holds(*spot)]
    return line[[inside[0], inside[-1]]] if len(inside) > 1 else None
