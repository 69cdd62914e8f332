"""The chart's title block: what it shows, how depths and heights count, the tide, cautions."""

from dataclasses import dataclass

from navlib import latlon
from navlib.sheets import bars
from navlib.sheets.chart.frame import true_latitude
from navlib.sheets.lettering import Placed, size_of
from navlib.sheets.window import Box
from navlib.tides import Differences, SecondaryPort
from navlib.waters import Place, Water, WatersError

BUOYAGE = "IALA maritime buoyage, region A"
CAUTIONS = (
    "Buoys drag and lights fail: check one mark by another.",
    "Chart, tide tables and streams are invented alike: never use them at sea.",
)
_PITCH = {"chart-title": 6.6, "chart-subtitle": 4.6}
WIDTH = 88.0
"""Millimetres across of the title block."""


@dataclass(frozen=True)
class Line:
    """One line of a block, in the middle, or as `cells` at these millimetres from its middle."""

    text: str
    letters: str = "chart-small"
    cells: tuple[tuple[float, str], ...] = ()

    @property
    def pitch(self) -> float:
        """Millimetres from this line to the next."""
        return _PITCH.get(self.letters, 2.75) if self.text or self.cells else 1.6


def scale_words(water: Water, scale: int) -> str:
    """Return what a chart says of its scale."""
    lat = latlon.format_latitude(true_latitude(water), places=0)
    return f"Sea chart {bars.fraction(scale)} at latitude {lat}"


def notes(water: Water) -> list[str]:
    """Return how positions, depths and heights on the chart are to be read."""
    return [
        "DEPTHS IN METRES below chart datum, the lowest astronomical tide.",
        "Figures with a line under them: height in metres that a place dries above chart datum.",
        "Heights on land: metres above mean high water springs. "
        "Clearances: metres above the highest astronomical tide.",
        "Positions: WGS 84. Projection: Mercator. A straight line keeps its true bearing.",
        f"Buoyage: {BUOYAGE}.",
    ]


def levels_at(water: Water) -> list[tuple[str, Place | None, tuple[float, ...]]]:
    """Return for each port its name, place, and MHWS, MHWN, MLWN, MLWS in metres."""
    at = water.settings.levels
    standard: tuple[float, ...] = (at.mhws, at.mhwn, at.mlwn, at.mlws)
    try:
        tides = water.tides
    except WatersError:
        return [("Levels", None, standard)]
    rows: list[tuple[str, Place | None, tuple[float, ...]]] = []
    for port in tides.ports:
        four = standard
        if isinstance(port, SecondaryPort):
            if not isinstance(port.high, Differences) or not isinstance(port.low, Differences):
                continue
            more = (*port.high.metres, *port.low.metres[::-1])
            four = tuple(level + m for level, m in zip(standard, more, strict=True))
        rows.append((port.name, tides.place_of(port), four))
    return rows


def tide_table(water: Water) -> list[Line]:
    """Return the lines of the table of mean levels at each port."""
    head = ("Place", "Lat", "Long", "MHWS", "MHWN", "MLWN", "MLWS")
    columns = (-35.5, -11.0, 3.0, 15.5, 23.6, 31.7, 39.8)
    lines = [
        Line("", "chart-small-bold", ((0.0, "Tide: mean levels in metres above chart datum"),)),
        Line("", "chart-small-bold", tuple(zip(columns, head, strict=True))),
    ]
    for name, place, four in levels_at(water):
        where = ("", "")
        if place is not None:
            lat, lon = water.lat_lon(place)
            where = latlon.format_latitude(lat, places=1), latlon.format_longitude(lon, places=1)
        cells = (name, *where, *(f"{v:.1f}" for v in four))
        lines.append(Line("", "chart-small", tuple(zip(columns, cells, strict=True))))
    return lines


def title_lines(water: Water, scale: int, with_tide: bool) -> list[Line]:
    """Return the lines of the title block of a whole sheet, `with_tide` with its table of levels."""
    gap = Line("")
    return [
        Line(water.settings.title, "chart-title"),
        Line(scale_words(water, scale), "chart-subtitle"),
        *(Line(part) for note in notes(water) for part in folded(note, WIDTH)),
        *([gap, *tide_table(water)] if with_tide else []),
        gap,
        Line("Surveyed: never. Every depth, mark, name and tide is invented for training."),
        *(Line(part, "chart-caution") for c in CAUTIONS for part in folded(c, WIDTH)),
    ]


def folded(text: str, width_mm: float, letters: str = "chart-small") -> list[str]:
    """Return a text in lines that are no wider than `width_mm` in these letters."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and size_of(longer, letters)[0] > width_mm:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def size(lines: list[Line]) -> tuple[float, float]:
    """Return the width and height (mm) that lines fill."""
    widths = [WIDTH if line.cells else size_of(line.text, line.letters)[0] for line in lines]
    return max(widths) + 2.0, sum(line.pitch for line in lines) + 1.0


def set_block(lines: list[Line], box: Box) -> list[Placed]:
    """Return the texts of lines set in a box, each in its own box."""
    middle, y, placed = (box.left + box.right) / 2, box.top + 0.5, []
    for line in lines:
        y += line.pitch
        for at, text in line.cells or ((0.0, line.text),):
            if not text:
                continue
            width, height, depth = size_of(text, line.letters)
            x = middle + at - width / 2
            if line.cells and text == line.cells[0][1] and len(line.cells) > 1:
                x = middle + at - 8.0  # the first column begins at one line
            top = y - 0.8 - height + depth
            placed.append(Placed(text, line.letters, Box(x, top, x + width, top + height)))
    return placed
