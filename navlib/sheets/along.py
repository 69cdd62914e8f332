"""Figures set in a line where it runs straight, and the line with gaps left for them."""

from dataclasses import dataclass

import numpy as np

from navlib.sheets.ground import Array
from navlib.sheets.lettering import Placed, size_of
from navlib.sheets.placing import GAP
from navlib.sheets.window import Box


@dataclass(frozen=True)
class Rule:
    """How figures stand in a line: their letters, one `every` so many millimetres, none in a line
    shorter than `least`, and how far the line may `bow` under one (mm).
    """

    letters: str
    every: float
    least: float
    bow: float = 0.2


def set_in(
    line: Array, text: str, rule: Rule, taken: Array, frame: Box
) -> tuple[list[Placed], list[Array]]:
    """Return the figures in a line and the pieces of it between them.

    `taken` are boxes to keep clear of, a row each: left, top, right, bottom in millimetres.
    """
    side = np.diff(line, axis=0)
    run = np.concatenate([[0.0], np.cumsum(np.hypot(side[:, 0], side[:, 1]))])
    if run[-1] < rule.least:
        return [], [line]
    width, height, _ = size_of(text, rule.letters)
    at = np.arange(rule.least / 2, run[-1] - rule.least / 4, 1.0)
    ends = at[:, None] + np.array([-width / 2 - 0.5, 0.0, width / 2 + 0.5])
    x, y = np.interp(ends, run, line[:, 0]), np.interp(ends, run, line[:, 1])
    across, down = x[:, 2] - x[:, 0], y[:, 2] - y[:, 0]
    chord = np.maximum(np.hypot(across, down), 1e-6)
    bow = np.abs(across * (y[:, 1] - y[:, 0]) - down * (x[:, 1] - x[:, 0])) / chord
    turn = (np.degrees(np.arctan2(-down, across)) + 90) % 180 - 90
    c, s = np.abs(np.cos(np.radians(turn))), np.abs(np.sin(np.radians(turn)))
    half = np.stack([width * c + height * s, width * s + height * c], axis=1) / 2
    middle = np.stack([x[:, 0] + x[:, 2], y[:, 0] + y[:, 2]], axis=1) / 2
    low, high = middle - half, middle + half
    fit = (chord > 0.96 * (width + 1.0)) & (bow < rule.bow)
    fit &= (low > (frame.left + 1, frame.top + 1)).all(axis=1)
    fit &= (high < (frame.right - 1, frame.bottom - 1)).all(axis=1)
    near = taken[(taken[:, :2] < high.max(axis=0) + GAP).all(axis=1)]
    near = near[(near[:, 2:] > low.min(axis=0) - GAP).all(axis=1)]
    for box in near:
        fit &= ((low >= box[2:] + GAP) | (high <= box[:2] - GAP)).any(axis=1)
    placed: list[Placed] = []
    next_at = 0.0
    for k in np.flatnonzero(fit):
        if at[k] < next_at:
            continue
        box = Box(*(float(v) for v in (*low[k], *high[k])))
        if any(box.overlaps(other.box, GAP) for other in placed):
            continue
        placed.append(Placed(text, rule.letters, box, float(turn[k])))
        next_at = float(at[k]) + rule.every
    return placed, without(line, [p.box for p in placed])


def without(line: Array, gaps: list[Box]) -> list[Array]:
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
