"""Figures along depth lines and contours: the lines with gaps, and what stands in them."""

import numpy as np

from navlib.sheets.along import Rule, set_in
from navlib.sheets.ground import Array
from navlib.sheets.lettering import Placed
from navlib.sheets.window import Box

_EVERY, _LEAST = 75.0, 15.0


def figure_lines(
    lines: dict[int, list[Array]], letters: str, taken: list[Box], frame: Box
) -> tuple[list[Placed], dict[int, list[Array]]]:
    """Return the figures, and the lines by level with gaps for them; `taken` grows by the figures."""
    rule = Rule(letters, _EVERY, _LEAST)
    placed: list[Placed] = []
    cut: dict[int, list[Array]] = {}
    boxes = np.array([(b.left, b.top, b.right, b.bottom) for b in taken]).reshape(-1, 4)
    for level in sorted(lines, reverse=True):
        cut[level] = []
        for line in lines[level]:
            figures, pieces = set_in(line, f"{level}", rule, boxes, frame)
            if figures:
                new = [p.box for p in figures]
                more = [(b.left, b.top, b.right, b.bottom) for b in new]
                boxes = np.vstack([boxes, more])
                taken += new
                placed += figures
            cut[level] += pieces
    return placed, cut
