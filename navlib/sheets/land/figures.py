"""Figures along contour lines, set where the line runs straight, with a gap left for them."""

import numpy as np

from navlib.sheets.along import Rule, set_in
from navlib.sheets.ground import Array
from navlib.sheets.land.contours import INDEX_STEP
from navlib.sheets.lettering import Placed
from navlib.sheets.window import Box

_INDEX = Rule("contour", every=62.0, least=16.0, bow=0.16)
_OTHER = Rule("contour", every=136.0, least=48.0, bow=0.16)
_FIGURED = 20  # metres between the contours that carry figures
_BEAD = 0.15  # half the width in mm of what a point to keep clear of stands for


def figure_lines(
    lines: dict[int, list[Array]], taken: list[Box], frame: Box, clutter: Array
) -> tuple[list[Placed], dict[int, list[Array]]]:
    """Return the figures, and the contour lines with gaps for them; `taken` grows by the figures.

    `clutter` are points (mm) that no figure may hide.
    """
    placed: list[Placed] = []
    cut: dict[int, list[Array]] = {}
    full = np.vstack([_rows(taken), np.hstack([clutter - _BEAD, clutter + _BEAD])])
    for level in sorted(lines, key=lambda height: (height % INDEX_STEP != 0, height)):
        index = level % INDEX_STEP == 0
        if not index and level % _FIGURED:
            cut[level] = lines[level]
            continue
        cut[level] = []
        for line in lines[level]:
            found, pieces = set_in(line, f"{level}", _INDEX if index else _OTHER, full, frame)
            full = np.vstack([full, _rows([p.box for p in found])])
            placed += found
            cut[level] += pieces
    taken += [p.box for p in placed]
    return placed, cut


def _rows(boxes: list[Box]) -> Array:
    return np.array([(b.left, b.top, b.right, b.bottom) for b in boxes]).reshape(-1, 4)
