"""Pencil marks that a question lays over a sheet, drawn: lines between places, and crosses."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import Patch

from navlib.sheets import style
from navlib.sheets.lettering import size_of
from navlib.sheets.marks import Cross, Mark, PencilLine
from navlib.sheets.placing import Wish, around, beside
from navlib.sheets.window import Box, Window

ARM = 1.9
"""Millimetres that a cross reaches across and down from its middle."""
WIDTH = 0.35
"""Millimetres that a pencil line is wide."""


def draw_marks(axes: Axes, marks: tuple[Mark, ...], window: Window, clip: Patch) -> None:
    """Draw pencil lines, with an arrowhead half-way if asked for, and crosses."""
    strokes: list[list[tuple[float, float]]] = []
    for mark in marks:
        if isinstance(mark, PencilLine):
            a, b = np.array(window.place(*mark.start)), np.array(window.place(*mark.end))
            strokes.append([tuple(a), tuple(b)])
            if mark.arrow:
                way = (b - a) / max(float(np.hypot(*(b - a))), 1e-9)
                side = np.array([-way[1], way[0]])
                tip = a + (b - a) * 0.55
                strokes.append(
                    [tuple(tip - way * 2.2 + s * side * 0.9) for s in (-1,)] + [tuple(tip)]
                )
                strokes.append([tuple(tip - way * 2.2 + side * 0.9), tuple(tip)])
        else:
            x, y = window.place(*mark.place)
            for s in (-1, 1):
                strokes.append([(x - ARM, y - s * ARM), (x + ARM, y + s * ARM)])
    pencil = LineCollection(
        strokes,
        colors=style.PENCIL,
        linewidths=style.points(WIDTH),
        capstyle="round",
        zorder=9,
        gid="pencil",
    )
    axes.add_collection(pencil, autolim=False)
    pencil.set_clip_path(clip)


def wished(marks: tuple[Mark, ...], window: Window) -> list[Wish]:
    """Return the labels of marks, to be set before all names."""
    result = []
    for mark in marks:
        if not mark.label:
            continue
        width, height, _ = size_of(mark.label, "pencil")
        if isinstance(mark, Cross):
            x, y = window.place(*mark.place)
            spots = list(beside(Box(x - ARM, y - ARM, x + ARM, y + ARM), width, height))
        else:
            ax, ay = window.place(*mark.start)
            bx, by = window.place(*mark.end)
            spots = list(around((ax + bx) / 2 + 4, (ay + by) / 2 - 4, width, height, 9.0, 2.0))
        result.append(Wish(mark.label, "pencil", tuple(sorted(spots, key=lambda s: s[0]))))
    return result


def mark_boxes(marks: tuple[Mark, ...], window: Window) -> list[Box]:
    """Return boxes that names keep clear of: crosses, and beads along lines."""
    boxes = []
    for mark in marks:
        if isinstance(mark, Cross):
            x, y = window.place(*mark.place)
            boxes.append(Box(x - ARM, y - ARM, x + ARM, y + ARM))
        else:
            a, b = np.array(window.place(*mark.start)), np.array(window.place(*mark.end))
            count = max(2, int(np.hypot(*(b - a)) / 2.0))
            for t in np.linspace(0, 1, count):
                x, y = a + (b - a) * t
                boxes.append(Box(x - 0.6, y - 0.6, x + 0.6, y + 0.6))
    return boxes
