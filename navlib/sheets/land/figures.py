"""Figures along contour lines, set where the line runs straight, with a gap left for them."""

import numpy as np

from navlib.sheets.ground import INDEX_STEP, Array
from navlib.sheets.lettering import Placed, size_of
from navlib.sheets.placing import GAP, hidden
from navlib.sheets.window import Box

_EVERY = 62.0  # millimetres of a line between its figures
_LEAST = 16.0  # a shorter line carries none


def figure_lines(
    lines: dict[int, list[Array]], taken: list[Box], frame: Box, clutter: Array
) -> tuple[list[Placed], dict[int, list[Array]]]:
    """Return the figures, and the contour lines with gaps for them; `taken` grows by the figures."""
    placed: list[Placed] = []
    cut: dict[int, list[Array]] = {}
    inner = Box(frame.left + 1, frame.top + 1, frame.right - 1, frame.bottom - 1)
    for level in sorted(lines, key=lambda height: (height % INDEX_STEP != 0, height)):
        index = level % INDEX_STEP == 0
        cut[level] = []
        for line in lines[level]:
            gaps: list[Box] = []
            if index or level % 20 == 0:
                every, least = (_EVERY, _LEAST) if index else (2.2 * _EVERY, 3 * _LEAST)
                gaps = _along(line, f"{level}", taken, inner, placed, every, least, clutter)
            cut[level] += _without(line, gaps)
    return placed, cut


def _along(
    line: Array,
    text: str,
    taken: list[Box],
    inner: Box,
    placed: list[Placed],
    every: float,
    least: float,
    clutter: Array,
) -> list[Box]:
    side = np.diff(line, axis=0)
    run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
    if run[-1] < least:
        return []
    width, height, _ = size_of(text, "contour")
    gaps: list[Box] = []
    next_at = least / 2
    for at in np.arange(least / 2, run[-1] - least / 4, 1.5):
        if at < next_at:
            continue
        ends = [at - width / 2 - 0.5, at, at + width / 2 + 0.5]
        x, y = np.interp(ends, run, line[:, 0]), np.interp(ends, run, line[:, 1])
        chord = float(np.hypot(x[2] - x[0], y[2] - y[0]))
        bow = abs((x[2] - x[0]) * (y[1] - y[0]) - (y[2] - y[0]) * (x[1] - x[0])) / max(chord, 1e-6)
        if chord < 0.97 * (width + 1.0) or bow > 0.16:
            continue
        turn = float(np.degrees(np.arctan2(-(y[2] - y[0]), x[2] - x[0])))
        turn = (turn + 90) % 180 - 90
        c, s = abs(np.cos(np.radians(turn))), abs(np.sin(np.radians(turn)))
        half_x, half_y = (width * c + height * s) / 2, (width * s + height * c) / 2
        mid_x, mid_y = float(x[0] + x[2]) / 2, float(y[0] + y[2]) / 2
        box = Box(mid_x - half_x, mid_y - half_y, mid_x + half_x, mid_y + half_y)
        if not box.within(inner) or any(box.overlaps(other, GAP) for other in taken):
            continue
        if hidden([(0.0, box)], clutter)[0]:
            continue
        taken.append(box)
        placed.append(Placed(text, "contour", box, turn))
        gaps.append(box)
        next_at = at + every
    return gaps


def _without(line: Array, gaps: list[Box]) -> list[Array]:
    """Return the pieces of a line that lie outside the gaps."""
    if not gaps:
        return [line]
    keep = np.ones(len(line), dtype=bool)
    for g in gaps:
        keep &= ~(
            (line[:, 0] > g.left - 0.25)
            & (line[:, 0] < g.right + 0.25)
            & (line[:, 1] > g.top - 0.25)
            & (line[:, 1] < g.bottom + 0.25)
        )
    edges = np.flatnonzero(np.diff(np.concatenate([[0], keep.astype(int), [0]])))
    return [line[a:b] for a, b in zip(edges[::2], edges[1::2], strict=True) if b - a > 1]
