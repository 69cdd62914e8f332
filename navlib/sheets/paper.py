"""A sheet of paper: where a place lies on it in millimetres, and its file in three formats."""

import io
import re
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any

import matplotlib
import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from navlib.sheets.window import Box, Window
from navlib.waters import Water

MM_PER_INCH = 25.4
_NO_DATE: dict[str, dict[str, Any]] = {
    "svg": {"Date": None, "Creator": None},
    "pdf": {"CreationDate": None, "Creator": None, "Producer": None},
    "png": {"Software": None},
}


@dataclass(frozen=True, eq=False)
class Page:
    """A drawn page of this size; `alt` says in words what it shows."""

    width_mm: float
    height_mm: float
    alt: str
    _figure: Figure = field(repr=False)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.width_mm:g} x {self.height_mm:g} mm)"

    def svg(self) -> str:
        """Return the page as SVG at true size; its user unit is the point, 1/72 inch."""
        return self._svg

    @cached_property
    def _svg(self) -> str:
        text = self._write("svg", 72).decode("utf-8")
        text = _tidied(text)
        width, height = f"{self.width_mm:g}mm", f"{self.height_mm:g}mm"
        return re.sub(
            r'<svg ([^>]*?)width="[^"]*"([^>]*?)height="[^"]*"|<svg ([^>]*?)height="[^"]*"([^>]*?)'
            r'width="[^"]*"',
            lambda m: (
                f'<svg {m[1] or m[3] or ""}width="{width}"{m[2] or m[4] or ""}height="{height}"'
            ),
            text,
            count=1,
        )

    def png(self, dpi: int = 200) -> bytes:
        """Return the page as a PNG picture of `dpi` dots an inch."""
        return self._write("png", dpi)

    def pdf(self) -> bytes:
        """Return the page as a one-page PDF at true size."""
        return self._write("pdf", 72)

    def _repr_svg_(self) -> str:
        return self.svg()

    def _write(self, kind: str, dpi: int) -> bytes:
        settings: dict[Any, Any] = {
            "svg.hashsalt": "sheet",
            "svg.fonttype": "path",
            "pdf.fonttype": 42,
            "path.simplify": False,
            "text.hinting": "no_hinting",  # a text is as wide in the picture as it was measured
        }
        out = io.BytesIO()
        with matplotlib.rc_context(settings):
            self._figure.savefig(out, format=kind, dpi=dpi, metadata=_NO_DATE[kind])
        return out.getvalue()


@dataclass(frozen=True, eq=False, repr=False)
class Sheet(Page):
    """A drawn sheet of a window; millimetres run from its top left corner, y downwards."""

    water: Water
    window: Window
    names: tuple[tuple[str, Box], ...]

    def __repr__(self) -> str:
        w = self.window
        return (
            f"Sheet(1:{w.scale}, E {w.west:g}-{w.east:g}, N {w.south:g}-{w.north:g}, "
            f"{self.width_mm:g} x {self.height_mm:g} mm)"
        )

    @property
    def scale(self) -> int:
        """The denominator of the scale fraction."""
        return self.window.scale

    @property
    def frame(self) -> Box:
        """The frame on the sheet, in millimetres."""
        return self.window.frame

    def place(self, easting: float, northing: float) -> tuple[float, float]:
        """Return x and y in millimetres on the sheet of a place in grid metres."""
        x, y = self.window.place(easting, northing)
        return float(x), float(y)

    def grid_at(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Return easting and northing in metres of a spot on the sheet in millimetres."""
        easting, northing = self.window.grid_at(x_mm, y_mm)
        return float(easting), float(northing)

    def shows(self, easting: float, northing: float, inset_mm: float = 0.0) -> bool:
        """Return whether a place lies in the frame, at least `inset_mm` from its edge."""
        return self.frame.holds(*self.place(easting, northing), inset_mm)


_COMMAND = re.compile(r"[A-DF-Za-df-z]")
_BLANKED = str.maketrans(dict.fromkeys("MLQCz", " "))
_POINTS_OF = {"M": 1, "L": 1, "Q": 2, "C": 3, "z": 0}


@lru_cache(maxsize=100_000)
def _hundredths(value: int) -> str:
    return f"{value / 100:g}".replace("0.", ".", 1) if abs(value) < 100 else f"{value / 100:g}"


def _shorter(path: str) -> str:
    """Return path data with each point told from the one before, in hundredths of its unit.

    0.01 point is 0.004 mm; steps are taken between rounded places, so that nothing adds up.
    """
    commands = _COMMAND.findall(path)
    if not commands or not set(commands) <= set(_POINTS_OF) or "zL" in "".join(commands):
        return path
    numbers = np.array(path.translate(_BLANKED).split(), dtype=float)
    places = np.rint(numbers * 100).astype(int).reshape(-1, 2)
    counts = np.array([_POINTS_OF[c] for c in commands])
    before = np.repeat(np.cumsum(counts) - counts, counts) - 1  # where each command begins
    absolute = np.repeat([c == "M" for c in commands], counts)
    steps = np.where(absolute[:, None], places, places - places[before])
    words = iter([_hundredths(v) for v in steps.ravel().tolist()])
    out, said = [], ""
    for command in commands:
        if command == "z" or command != said:
            out.append(command if command in "Mz" else command.lower())
            following = False
        for _ in range(2 * _POINTS_OF[command]):
            word = next(words)
            out.append(word if not following or word[0] == "-" else f" {word}")
            following = True
        said = command if command in "LQC" else ""
    return "".join(out)


def _tidied(text: str) -> str:
    """Return SVG with shorter path data, without comments and with letters set by `x` alone."""
    text = re.sub(r"<!--.*?-->\n", "", text)
    text = re.sub(
        r' transform="translate\((-?[\d.]+) 0\)"', lambda m: f' x="{float(m[1]):.4g}"', text
    )
    text = re.sub(r"\n {5,}<use", "\n<use", text)
    return re.sub(r' d="([^"]*)"', lambda d: f' d="{_shorter(" ".join(d[1].split()))}"', text)


def blank(width_mm: float, height_mm: float) -> tuple[Figure, Axes]:
    """Return a figure of this size and axes on it that count in millimetres from its top left."""
    figure = Figure(figsize=(width_mm / MM_PER_INCH, height_mm / MM_PER_INCH))
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_xlim(0, width_mm)
    axes.set_ylim(height_mm, 0)
    axes.axis("off")
    return figure, axes
