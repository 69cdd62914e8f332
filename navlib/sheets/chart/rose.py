"""Compass roses: a true ring, and inside it a magnetic ring turned by the variation."""

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from navlib.magnetism import Rose
from navlib.sheets import style
from navlib.sheets.chart.glyphs import figures, moved, together
from navlib.sheets.ground import Array
from navlib.sheets.window import Box

LARGEST, LEAST = 30.0, 17.0
"""Millimetres of radius of the largest rose drawn, and of the smallest that can be read."""
TRAINING = "TRAINING ROSE"
_MAGNETIC = 0.76  # radius of the magnetic ring, in radii of the true one
_DENSE = 24.0  # from this radius on the true ring has numbers every 10 degrees
_SIZE = 6.4


@dataclass(frozen=True)
class PlacedRose:
    """A rose about a spot (mm) with the radius of its true ring; `training` marks an invented one."""

    rose: Rose
    x: float
    y: float
    radius: float
    training: bool

    @property
    def words(self) -> tuple[str, ...]:
        """What stands in the rose's middle."""
        return (TRAINING, self.rose.write()) if self.training else (self.rose.write(),)

    @property
    def box(self) -> Box:
        """The box that the rose fills."""
        r = outer(self.radius)
        return Box(self.x - r, self.y - r, self.x + r, self.y + r)

    def boxes(self) -> list[Box]:
        """Return boxes that other words keep clear of: along the rings, and the words inside."""
        inner = self.radius * _MAGNETIC * 0.76
        boxes = [word for _, word in self.word_boxes()]
        half = 2.0
        for radius in np.arange(outer(self.radius) - half, inner, -2 * half + 0.4):
            for turn in np.linspace(0, 2 * np.pi, round(np.pi * radius / (half - 0.3)), False):
                x = self.x + radius * float(np.sin(turn))
                y = self.y - radius * float(np.cos(turn))
                boxes.append(Box(x - half, y - half, x + half, y + half))
        return [*boxes, Box(self.x - 1, self.y - 0.6 * inner, self.x + 1, self.y + 0.6 * inner)]

    def word_boxes(self) -> list[tuple[str, Box]]:
        """Return the words in the rose with their boxes, below its middle."""
        result = []
        for k, text in enumerate(self.words):
            _, width, height = _words(text)
            y = self.y + 3.6 + 3.2 * k
            left, right = self.x - width / 2, self.x + width / 2
            result.append((text, Box(left, y - height / 2, right, y + height / 2)))
        return result


def outer(radius: float) -> float:
    """Return how far a rose reaches from its middle, numbers and all (mm)."""
    return radius + 4.3


def _ticks(radius: float, turn: float) -> list[Array]:
    """Return a tick for each degree, inwards from `radius`, the first towards `turn` degrees."""
    degrees = np.arange(360)
    angle = np.radians(degrees + turn)
    way = np.stack([np.sin(angle), -np.cos(angle)], axis=1)
    reach = np.select([degrees % 10 == 0, degrees % 5 == 0], [2.4, 1.7], 1.0)
    return [np.array([w * radius, w * (radius - r)]) for w, r in zip(way, reach, strict=True)]


def _numbers(radius: float, turn: float, every: int) -> list[Path]:
    result = []
    for degrees in range(0, 360, every):
        angle = np.radians(degrees + turn)
        x, y = radius * float(np.sin(angle)), -radius * float(np.cos(angle))
        result.append(moved(figures(f"{degrees:03d}", 5.6)[0], x, y, -degrees - turn))
    return result


def _words(text: str) -> tuple[Path, float, float]:
    return figures(text, _SIZE, weight="bold" if text == TRAINING else "normal")


def draw_rose(axes: Axes, placed: PlacedRose, name: str) -> None:
    """Draw a rose; its parts are named `name`-true and `name`-magnetic in the drawing.

    The last line of each part points to its north. True north has a full arrowhead, magnetic
    north a half one, as everywhere in the lessons.
    """
    r, m = placed.radius, placed.radius * _MAGNETIC
    here = np.array([placed.x, placed.y])
    shapes = []
    for part, radius, turn, every, numbers, shaft in (
        ("true", r, 0.0, 10 if r > _DENSE else 30, r + 1.9, (m + 0.7, r - 4.6)),
        ("magnetic", m, placed.rose.printed, 30, m - 4.2, (2.0, m - 8.6)),
    ):
        way = np.array([np.sin(np.radians(turn)), -np.cos(np.radians(turn))])
        side = np.array([-way[1], way[0]]) * 0.8
        circle = np.radians(np.arange(0, 361, 3))
        edge = radius * np.stack([np.sin(circle), -np.cos(circle)], axis=1)
        lines = [*_ticks(radius, turn), edge, np.array([way * shaft[0], way * shaft[1]])]
        _stroke(axes, [line + here for line in lines], f"{name}-{part}")
        shapes += [moved(p, *here) for p in _numbers(numbers, turn, every)]
        base, tip = way * shaft[1], way * (shaft[1] + 2.2)
        other = base - side if part == "true" else base
        shapes.append(Path(np.array([tip, base + side, other, tip]) + here, closed=True))
    cross = [np.array([(-1.2, 0.0), (1.2, 0.0)]), np.array([(0.0, -1.2), (0.0, 1.2)])]
    _stroke(axes, [line + here for line in cross], f"{name}-middle")
    for text, box in placed.word_boxes():
        shapes.append(moved(_words(text)[0], *box.middle))
    axes.add_artist(
        PathPatch(together(shapes), facecolor=style.MAGENTA, edgecolor="none", zorder=6.3)
    )


def _stroke(axes: Axes, lines: list[Array], gid: str) -> None:
    drawn = LineCollection(
        lines, colors=style.MAGENTA, linewidths=style.points(0.12), zorder=6.2, gid=gid
    )
    axes.add_collection(drawn, autolim=False)
