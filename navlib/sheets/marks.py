"""What is pencilled on a sheet, as data: lines between places, and crosses."""

from dataclasses import dataclass

from navlib.waters import Place


@dataclass(frozen=True)
class PencilLine:
    """A pencil line between two places, in grid metres, with an arrowhead if `arrow`."""

    start: Place
    end: Place
    label: str = ""
    arrow: bool = False


@dataclass(frozen=True)
class Cross:
    """A pencilled cross at a place, in grid metres, with a letter or word beside it."""

    place: Place
    label: str = ""


Mark = PencilLine | Cross
