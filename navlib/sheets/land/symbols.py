"""Signs for single things on the land map, drawn about the exact place that is measured from."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Patch

from navlib.sheets import pen, style
from navlib.sheets.window import Box, Window
from navlib.waters import Feature, Water

Stroke = list[tuple[float, float]]


def _ring(radius: float, x: float = 0.0, y: float = 0.0, count: int = 24) -> Stroke:
    turn = np.linspace(0, 2 * np.pi, count + 1)
    return [(x + radius * float(np.sin(t)), y - radius * float(np.cos(t))) for t in turn]


def _star(outer: float, inner: float, rays: int) -> Stroke:
    turn = np.arange(2 * rays) * np.pi / rays
    radius = np.where(np.arange(2 * rays) % 2 == 0, outer, inner)
    return [
        (float(r * np.sin(t)), float(-r * np.cos(t))) for r, t in zip(radius, turn, strict=True)
    ]


_BASE = _ring(0.38)
# Each sign: filled shapes, open shapes (white inside), and strokes; millimetres, y downwards, the
# measured place at 0, 0.
_SIGNS: dict[str, tuple[list[Stroke], list[Stroke], list[Stroke]]] = {
    "headland": ([_ring(0.34)], [_ring(0.72)], []),
    "beach": ([_ring(0.34)], [_ring(0.72)], []),
    "skerry": ([_ring(0.34)], [_ring(0.72)], []),
    "rock": ([], [], [[(-0.9, 0), (0.9, 0)], [(0, -0.9), (0, 0.9)]]),
    "summit": ([_ring(0.22)], [[(0, -1.05), (0.95, 0.62), (-0.95, 0.62)]], []),
    "spot height": ([_ring(0.24)], [], []),
    "light": ([_star(1.75, 0.62, 5)], [_BASE], []),
    "beacon": ([[(-0.75, -1.6), (0.75, -1.6), (0, -3.0)]], [_BASE], [[(0, -0.38), (0, -1.7)]]),
    "daymark": (
        [[(0, -3.1), (0.8, -2.25), (0, -1.4), (-0.8, -2.25)]],
        [_BASE],
        [[(0, -0.38), (0, -1.5)]],
    ),
    "church": ([], [_BASE], [[(0, -0.38), (0, -2.9)], [(-0.85, -2.05), (0.85, -2.05)]]),
    "mast": (
        [],
        [_BASE],
        [
            [(-0.75, -0.1), (0, -3.9), (0.75, -0.1)],
            [(-0.56, -1.05), (0.4, -1.85)],
            [(0.56, -1.05), (-0.4, -1.85)],
        ],
    ),
    "chimney": ([[(-0.42, -0.3), (-0.28, -3.0), (0.28, -3.0), (0.42, -0.3)]], [_BASE], []),
    "cottage": (
        [],
        [[(-0.95, 0.75), (-0.95, -0.35), (0, -1.25), (0.95, -0.35), (0.95, 0.75)], _BASE],
        [],
    ),
    "ruin": ([], [_BASE], [[(-0.9, -0.9), (-0.9, 0.9), (0.9, 0.9)], [(0.9, 0.1), (0.9, -0.2)]]),
    "jetty": ([_ring(0.34)], [], []),
    "lay-by": (
        [],
        [[(-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)]],
        [[(-0.32, 0.6), (-0.32, -0.6), (0.1, -0.6), (0.36, -0.28), (0.1, 0.05), (-0.32, 0.05)]],
    ),
    "buoy": (
        [[(-0.75, -0.45), (0.75, -0.45), (0.75, -1.5), (-0.75, -1.5)]],
        [_BASE],
        [[(0, -1.5), (0, -2.4)]],
    ),
}


def signed_features(water: Water, window: Window) -> list[Feature]:
    """Return the features with signs that lie in the frame."""
    return [
        f
        for f in water.features
        if f.kind in _SIGNS
        and window.west <= f.easting <= window.east
        and window.south <= f.northing <= window.north
    ]


def reach(kind: str) -> Box:
    """Return the box that a kind's sign fills, the measured place at 0, 0."""
    points = np.array([p for group in _SIGNS[kind] for stroke in group for p in stroke])
    (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
    return Box(float(left), float(top), float(right), float(bottom))


def sign_box(feature: Feature, window: Window) -> Box:
    """Return the box that a feature's sign fills on the sheet."""
    x, y = window.place(feature.easting, feature.northing)
    box = reach(feature.kind)
    return Box(x + box.left, y + box.top, x + box.right, y + box.bottom)


def draw_signs(axes: Axes, water: Water, window: Window, clip: Patch) -> None:
    """Draw the sign of each single thing in the frame, and the decks of jetties."""
    filled: list[Stroke] = []
    white: list[Stroke] = []
    strokes: list[Stroke] = []
    for feature in signed_features(water, window):
        x, y = window.place(feature.easting, feature.northing)
        for group, into in zip(_SIGNS[feature.kind], (filled, white, strokes), strict=True):
            into += [[(x + a, y + b) for a, b in stroke] for stroke in group]
    _paint(axes, filled, white, strokes, clip)


def _paint(
    axes: Axes,
    filled: list[Stroke],
    white: list[Stroke],
    strokes: list[Stroke],
    clip: Patch | None,
) -> None:
    ink = style.INK
    pen.draw_shapes(axes, white, clip, fill=style.PAPER, edge=ink, width=0.18, zorder=7.1)
    pen.draw_shapes(axes, filled, clip, fill=ink, zorder=7.2)
    pen.draw_strokes(axes, strokes, clip, colour=ink, width=0.26, zorder=7.2)


def draw_sign(axes: Axes, kind: str, x: float, y: float) -> None:
    """Draw the sign of a kind about a spot anywhere on the sheet, for a key."""
    filled, white, strokes = (
        [[(x + a, y + b) for a, b in stroke] for stroke in group] for group in _SIGNS[kind]
    )
    _paint(axes, filled, white, strokes, None)
