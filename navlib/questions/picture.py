"""What a question shows beside its words, as data; who draws it is not known here."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Table:
    """A small table: its caption, the heads of its columns, and rows of text."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Spot:
    """A place marked on a sheet, in grid metres, with the letter it is called by."""

    easting: float
    northing: float
    label: str


@dataclass(frozen=True)
class SheetWindow:
    """A piece of a water's land-map sheet at a true scale, with places marked on it.

    `centre` is easting and northing in grid metres, `size_mm` width and height on paper; `line`
    draws a pencil line through the spots. `alt` says in words what is to be seen.
    """

    water: str
    scale: int
    centre: tuple[float, float]
    size_mm: tuple[float, float]
    spots: tuple[Spot, ...]
    alt: str
    line: bool = False
    instruments: tuple[str, ...] = ()
