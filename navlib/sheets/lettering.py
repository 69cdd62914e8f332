"""How names are written on a sheet: how much room one takes, and setting it there."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from matplotlib.axes import Axes
from matplotlib.font_manager import FontProperties
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.textpath import TextPath, text_to_path
from matplotlib.transforms import Affine2D

from navlib.sheets import style
from navlib.sheets.window import Box


@dataclass(frozen=True)
class Placed:
    """A name with the box (mm) that it fills; `turn` is degrees anticlockwise."""

    text: str
    letters: str
    box: Box
    turn: float = 0.0


@lru_cache(maxsize=8192)
def extent(
    text: str, size: float, weight: str, family: str, slant: style.Slant
) -> tuple[float, float, float]:
    """Return width, height and depth below the line of a text of `size` points, in millimetres."""
    font = FontProperties(family=family, weight=weight, style=slant, size=size)
    points = text_to_path.get_text_width_height_descent(text, font, ismath=False)
    width, height, depth = (float(v) / style.POINTS_PER_MM for v in points)
    return width, height, depth


def size_of(text: str, letters: str) -> tuple[float, float, float]:
    """Return width, height and depth below the (last) line of a text in millimetres."""
    if "\n" in text:
        sizes = [size_of(line, letters) for line in text.split("\n")]
        down = (len(sizes) - 1) * leading(letters)
        return max(w for w, _, _ in sizes), down + sizes[0][1], sizes[-1][2]
    kind = style.LETTERS[letters]
    written = text.upper() if kind.capitals else text
    width, height, depth = extent(written, kind.size, kind.weight, kind.family, kind.slant)
    return width + kind.spacing * (len(text) - 1) / style.POINTS_PER_MM, height, depth


def leading(letters: str) -> float:
    """Return how far below one another the lines of a text stand, in millimetres."""
    return 1.15 * style.LETTERS[letters].size / style.POINTS_PER_MM


def _lines(name: Placed) -> list[Placed]:
    """Return each line of a level text as a text of its own, in its own box."""
    if "\n" not in name.text:
        return [name]
    box, result = name.box, []
    middle = (box.left + box.right) / 2
    top = box.top
    for line in name.text.split("\n"):
        width, height, _ = size_of(line, name.letters)
        own = Box(middle - width / 2, top, middle + width / 2, top + height)
        result.append(Placed(line, name.letters, own))
        top += leading(name.letters)
    return result


@lru_cache(maxsize=4096)
def _outline(
    text: str, family: str, weight: str, slant: style.Slant, size: float, rough: bool
) -> Path:
    """Return the outline of a text in printer's points; a `rough` one only carries an edge."""
    font = FontProperties(family=family, weight=weight, style=slant)
    if not rough:
        return TextPath((0, 0), text, size=size, prop=font, usetex=False)
    fine = TextPath((0, 0), text, size=size, prop=font, usetex=False)
    path = fine.cleaned(simplify=True, curves=False)  # to about a ninth of a point
    corners, codes = np.asarray(path.vertices), np.asarray(path.codes)
    return Path(corners[:-1], codes[:-1])  # the last is where a path ends


def outline(
    text: str, letters: style.Letters, at: tuple[float, float], turn: float = 0.0, *, rough: bool
) -> Path:
    """Return the outline (mm) of a text that begins at a spot, `turn` radians anticlockwise.

    Many texts drawn as one path take a fraction of the time and room that texts take. A `rough`
    outline is for an edge that is drawn around the letters.
    """
    mm = 1 / style.POINTS_PER_MM
    there = Affine2D().rotate(turn).scale(mm, -mm).translate(*at)
    path = _outline(text, letters.family, letters.weight, letters.slant, letters.size, rough)
    return there.transform_path(path)


def draw_outlines(axes: Axes, outlines: list[Path], colour: str, zorder: float) -> None:
    """Fill the outlines of letters."""
    if outlines:
        filled = Path.make_compound_path(*outlines)
        axes.add_artist(PathPatch(filled, facecolor=colour, edgecolor="none", zorder=zorder))


def _draw_edges(axes: Axes, edges: dict[float, list[Path]]) -> None:
    """Draw the pale edges of all names, those of one width (points) as one path."""
    for width, outlines in edges.items():
        edge = PathPatch(
            Path.make_compound_path(*outlines),
            fill=False,
            edgecolor=style.PALE_EDGE,
            linewidth=width,
            alpha=0.75,
            joinstyle="round",
            zorder=7.9,
        )
        axes.add_artist(edge)


def draw_names(axes: Axes, placed: list[Placed]) -> None:
    """Write names in their boxes, with a pale edge that keeps them apart from the lines below."""
    edges: dict[float, list[Path]] = {}
    spaced: dict[str, list[Path]] = {}
    for name in (line for given in placed for line in _lines(given)):
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
                (_advance(text[:i], kind) + kind.spacing * i / style.POINTS_PER_MM, letter)
                for i, letter in enumerate(text)
                if letter != " "
            ]
        for offset, piece in pieces:
            x, y = (start + along * offset).tolist()
            if kind.edge:  # a pale edge parts the name from the lines below it
                edge = outline(piece, kind, (x, y), turn, rough=True)
                edges.setdefault(kind.edge, []).append(edge)
            if kind.spacing:
                letter = outline(piece, kind, (x, y), turn, rough=False)
                spaced.setdefault(kind.colour, []).append(letter)
                continue
            axes.text(
                x,
                y,
                piece,
                size=kind.size,
                family=kind.family,
                weight=kind.weight,
                style=kind.slant,
                color=kind.colour,
                rotation=name.turn,
                rotation_mode="anchor",
                ha="left",
                va="baseline",
                parse_math=False,
                zorder=8,
            )
    for colour, letters in spaced.items():
        draw_outlines(axes, letters, colour, 8)
    _draw_edges(axes, edges)


def _advance(text: str, kind: style.Letters) -> float:
    """Return how far a text moves the pen, in mm (a dot marks where it stands after it)."""
    if not text:
        return 0.0
    font = kind.size, kind.weight, kind.family, kind.slant
    return extent(text + ".", *font)[0] - extent(".", *font)[0]
