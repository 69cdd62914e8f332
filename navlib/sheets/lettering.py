"""How names are written on a sheet: how much room one takes, and setting it there."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.font_manager import FontProperties
from matplotlib.patheffects import Stroke
from matplotlib.textpath import text_to_path

from navlib.sheets import style
from navlib.sheets.window import Box


@dataclass(frozen=True)
class Placed:
    """A name with the box (mm) that it fills; `turn` is degrees anticlockwise."""

    text: str
    letters: str
    box: Box
    turn: float = 0.0


@lru_cache(maxsize=4096)
def _extent(
    text: str, family: str, weight: str, slant: style.Slant, size: float
) -> tuple[float, ...]:
    font = FontProperties(family=family, weight=weight, style=slant, size=size)
    return tuple(text_to_path.get_text_width_height_descent(text, font, ismath=False))


def size_of(text: str, letters: str) -> tuple[float, float, float]:
    """Return width, height and depth below the line of a text in millimetres."""
    kind = style.LETTERS[letters]
    written = text.upper() if kind.capitals else text
    width, height, depth = _extent(written, kind.family, kind.weight, kind.slant, kind.size)
    width += kind.spacing * (len(text) - 1)
    mm = style.POINTS_PER_MM
    return width / mm, height / mm, depth / mm


def draw_names(axes: Axes, placed: list[Placed]) -> None:
    """Write names in their boxes, with a pale edge that keeps them apart from the lines below."""
    for name in placed:
        kind = style.LETTERS[name.letters]
        text = name.text.upper() if kind.capitals else name.text
        width, height, depth = size_of(name.text, name.letters)
        middle = np.array(
            [(name.box.left + name.box.right) / 2, (name.box.top + name.box.bottom) / 2]
        )
        turn = np.radians(name.turn)
        along = np.array([np.cos(turn), -np.sin(turn)])
        up = np.array([-np.sin(turn), -np.cos(turn)])
        start = middle - along * width / 2 - up * (height / 2 - depth)
        pieces = [(0.0, text)]
        if kind.spacing:
            pieces = [
                (
                    (_advance(text[:i], kind) + kind.spacing * i) / style.POINTS_PER_MM,
                    letter,
                )
                for i, letter in enumerate(text)
                if letter != " "
            ]
        for offset, piece in pieces:
            at = start + along * offset
            written: dict[str, Any] = {
                "size": kind.size,
                "family": kind.family,
                "weight": kind.weight,
                "style": kind.slant,
                "color": kind.colour,
                "rotation": name.turn,
                "rotation_mode": "anchor",
                "ha": "left",
                "va": "baseline",
                "parse_math": False,
            }
            if kind.edge:  # a pale edge parts the name from the lines below it
                edge = Stroke(linewidth=kind.edge, foreground=style.PALE_EDGE, alpha=0.75)
                axes.text(
                    float(at[0]), float(at[1]), piece, **written, zorder=7.9, path_effects=[edge]
                )
            axes.text(float(at[0]), float(at[1]), piece, **written, zorder=8)


def _advance(text: str, kind: style.Letters) -> float:
    """Return how far a text moves the pen, in points (a dot marks where it stands after it)."""
    if not text:
        return 0.0
    with_dot = _extent(text + ".", kind.family, kind.weight, kind.slant, kind.size)[0]
    return with_dot - _extent(".", kind.family, kind.weight, kind.slant, kind.size)[0]
