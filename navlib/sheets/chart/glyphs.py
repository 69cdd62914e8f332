"""Many short figures as one shape: soundings, and the numbers round a rose."""

from collections.abc import Iterable
from functools import lru_cache

import numpy as np
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.textpath import TextPath, text_to_path

from navlib.sheets import style

NARROW = 0.86
"""How much narrower figures are printed than their typeface has them."""


@lru_cache(maxsize=512)
def _letter(letter: str, size: float, slant: style.Slant, weight: str) -> tuple[Path | None, float]:
    """Return a letter's shape in millimetres, y downwards from its line, and its advance."""
    font = FontProperties(family=style.SANS, style=slant, weight=weight, size=size)
    scale = np.array([NARROW, -1.0]) / style.POINTS_PER_MM
    ends = [
        text_to_path.get_text_width_height_descent(t, font, ismath=False)[0]
        for t in (f"1{letter}1", "11")
    ]
    advance = NARROW * (ends[0] - ends[1]) / style.POINTS_PER_MM
    if letter == " ":
        return None, advance
    shape = TextPath((0, 0), letter, prop=font)
    return Path(np.asarray(shape.vertices, dtype=float) * scale, shape.codes), advance


@lru_cache(maxsize=4096)
def figures(
    text: str,
    size: float,
    slant: style.Slant = "normal",
    weight: str = "normal",
    small: str = "",
    small_size: float = 5.5,
    underlined: bool = False,
) -> tuple[Path, float, float]:
    """Return a text's shape about its middle, with its width and height, all in millimetres.

    `small` follows as a subscript; a line runs under the text if it is `underlined`.
    """
    paths, x, under = [], 0.0, 0.0
    drop = 0.17 * size / style.POINTS_PER_MM
    for letters, points, down in ((text, size, 0.0), (small, small_size, drop)):
        for letter in letters:
            path, advance = _letter(letter, points, slant, weight)
            if path is not None:
                paths.append(moved(path, x, down))
            x += advance
        under = under or x
    if underlined:
        y, thick = 0.16 * size / style.POINTS_PER_MM, 0.16
        corners = [(0, y), (under, y), (under, y + thick), (0, y + thick), (0, y)]
        paths.append(Path(np.array(corners), closed=True))
    whole = Path.make_compound_path(*paths)
    outline = np.asarray(whole.vertices, dtype=float)
    low, high = outline.min(axis=0), outline.max(axis=0)
    width, height = high - low
    return Path(outline - (low + high) / 2, whole.codes), float(width), float(height)


def moved(path: Path, x: float, y: float, turn: float = 0.0) -> Path:
    """Return a shape turned by degrees anticlockwise about its middle and set at a spot (mm)."""
    c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    points = np.asarray(path.vertices, dtype=float)
    if turn:
        points = points @ np.array([[c, -s], [s, c]])
    return Path(points + np.array([x, y]), path.codes)


def together(paths: Iterable[Path]) -> Path:
    """Return many shapes as one."""
    given = list(paths)
    return Path.make_compound_path(*given) if given else Path(np.empty((0, 2)))
