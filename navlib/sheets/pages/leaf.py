"""An A4 page in the making: text that is measured before it is set, thin rules, head and foot."""

from collections.abc import Iterable, Sequence
from typing import Any, Literal

from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patheffects import withStroke

from navlib import latlon
from navlib.language import say
from navlib.sheets import bars, style
from navlib.sheets.lettering import extent
from navlib.sheets.paper import Page, blank
from navlib.sheets.window import Box
from navlib.waters import Place, Water

WIDTH, HEIGHT = 210.0, 297.0
"""A4 portrait (ISO 216), in millimetres."""
LEFT, RIGHT = 14.0, 196.0
"""Where the text of a page begins and ends across, in millimetres."""
TOP = 29.0
"""Where what a page shows begins, below its head, in millimetres."""
FOOT = 283.0
"""Where the foot of a page begins, in millimetres."""
SMALLEST = 7.0
"""The smallest letters on a page, in points."""
PALE, MIDDLE = "#b4b8bd", "#6d737a"
"""Greys of rules that only guide the eye, and of rules that part things."""

Align = Literal["left", "center", "right"]
Spot = tuple[float, float]
Dashes = tuple[float, tuple[float, ...]]


def measure(
    text: str,
    size: float,
    weight: str = "normal",
    family: str = style.SANS,
    slant: style.Slant = "normal",
) -> tuple[float, float, float]:
    """Return width, height and depth below the line of a text of `size` points, in millimetres."""
    return extent(text, size, weight, family, slant)


class Leaf:
    """A page being drawn; millimetres from its top left corner, y downwards.

    `written` holds the box of every text set so far.
    """

    def __init__(self) -> None:
        self.figure, self.axes = blank(WIDTH, HEIGHT)
        self.written: list[Box] = []
        bars.draw_warning(self.axes, WIDTH)

    def write(
        self,
        x: float,
        y: float,
        text: str,
        size: float = 8.0,
        *,
        align: Align = "left",
        weight: str = "normal",
        family: str = style.SANS,
        slant: style.Slant = "normal",
        colour: str = style.INK,
        edge: float = 0.0,
        zorder: float = 12,
    ) -> Box:
        """Set a text on the line `y`, from, about or up to `x`, and return the box that it fills.

        `edge` is the width in points of a pale edge around the letters.
        """
        width, height, depth = measure(text, size, weight, family, slant)
        left = x - {"left": 0.0, "center": 0.5, "right": 1.0}[align] * width
        self.axes.text(
            x,
            y,
            text,
            ha=align,
            size=size,
            weight=weight,
            family=family,
            style=slant,
            color=colour,
            parse_math=False,
            zorder=zorder,
            path_effects=[withStroke(linewidth=edge, foreground=style.PAPER)] if edge else None,
        )
        self.written.append(Box(left, y + depth - height, left + width, y + depth))
        return self.written[-1]

    def paragraph(
        self, x: float, y: float, text: str, width: float, size: float = 7.4, leading: float = 3.7
    ) -> float:
        """Set a text in lines of at most `width` millimetres; return the line after the last."""
        for line in folded(text, width, size):
            self.write(x, y, line, size)
            y += leading
        return y

    def lines(
        self,
        strokes: Iterable[Sequence[Spot]],
        width: float = 0.12,
        colour: str = style.INK,
        *,
        gid: str | None = None,
        dashes: Dashes | None = None,
        zorder: float = 5,
    ) -> None:
        """Draw lines of `width` millimetres; `gid` names them in the SVG."""
        drawn = LineCollection(
            list(strokes),
            linewidths=style.points(width),
            colors=colour,
            linestyles=[dashes or "solid"],
            capstyle="butt",
            joinstyle="round",
            zorder=zorder,
            gid=gid,
        )
        for path in drawn.get_paths():
            path.should_simplify = False  # a curve that is measured keeps all its points
        self.axes.add_collection(drawn, autolim=False)

    def shapes(
        self,
        outlines: Iterable[Sequence[Spot]],
        fill: str = style.INK,
        *,
        line: float = 0.0,
        colour: str = style.INK,
        gid: str | None = None,
        zorder: float = 6,
    ) -> None:
        """Draw filled shapes, with an outline of `line` millimetres where it is above zero."""
        drawn = PolyCollection(
            list(outlines),
            facecolors=fill,
            edgecolors=colour if line else "none",
            linewidths=style.points(line),
            zorder=zorder,
            gid=gid,
        )
        self.axes.add_collection(drawn, autolim=False)

    def frames(self, boxes: Iterable[Box], line: float = 0.18, fill: str = "none") -> None:
        """Draw boxes, empty unless `fill` is a colour."""
        self.shapes(map(corners, boxes), fill, line=line)

    def head(self, title: str, below: str, below_right: str, right: str = "") -> None:
        """Write the head of the page: what it is of, `right` of it which, and below what it is."""
        heading: dict[str, Any] = {"weight": "bold", "family": style.SERIF}
        self.write(LEFT, 16.5, title, 18, **heading)
        if right:
            self.write(RIGHT, 16.5, right, 18, align="right", **heading)
        self.write(LEFT, 22.5, below, 8)
        self.write(RIGHT, 22.5, below_right, 8, align="right")
        self.lines([[(LEFT, 25.0), (RIGHT, 25.0)]], 0.35)

    def foot(self, *notes: str, top: float = FOOT) -> None:
        """Write the sources and notes at the foot of the page, from the line `top` down."""
        self.lines([[(LEFT, top - 4.0), (RIGHT, top - 4.0)]], 0.18)
        for note in notes:
            top = self.paragraph(LEFT, top, note, RIGHT - LEFT, SMALLEST, 3.5)

    def check_bar(self, x: float, y: float) -> None:
        """Draw the bar of 100 mm that shows whether the page was printed at its true size."""
        bars.check_bar(self.axes, x, y)
        self.write(x, y + 5.2, "Check your print: this bar is 100 mm long.", SMALLEST)

    def page(self, alt: str) -> Page:
        """Return the finished page; `alt` says what it shows, in words."""
        alt = f"{alt} {say('For training, not for navigation.')}"
        return Page(WIDTH, HEIGHT, alt, self.figure)


def corners(box: Box) -> list[Spot]:
    """Return the four corners of a box."""
    return [
        (box.left, box.top),
        (box.right, box.top),
        (box.right, box.bottom),
        (box.left, box.bottom),
    ]


def folded(text: str, width: float, size: float, weight: str = "normal") -> list[str]:
    """Return a text as lines, each at most `width` millimetres long at `size` points.

    A coarse picture sets letters on whole dots and so up to 3 % wider: lines leave room for that.
    """
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and measure(longer, size, weight)[0] > 0.97 * width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def position(water: Water, place: Place) -> str:
    """Return a place's latitude and longitude as a page prints it: 58°46.8′N 007°12.1′W."""
    return latlon.format(*water.lat_lon(place), places=1).replace("'", "′")
