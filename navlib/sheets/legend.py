"""The legend: one page that shows each sign of a kind of sheet with its meaning in words."""

from collections.abc import Mapping, Sequence
from textwrap import wrap

from matplotlib.axes import Axes

from navlib.language import say
from navlib.sheets import bars, style
from navlib.sheets.chart import key as chart_key
from navlib.sheets.chart.key import Entry, stroke, swatch
from navlib.sheets.land import key as land_key
from navlib.sheets.paper import Page, blank
from navlib.waters import KINDS

_WIDTH, _HEIGHT = 210.0, 297.0
_SIDE, _TOP, _FOOT = 12.0, 23.0, 13.0
_SAMPLE, _LETTERS = 14.5, 34
"""Millimetres of a column that samples take, and letters of a line of words beside one."""
_ROW, _LINE, _HEADING = 9.4, 3.1, 10.0
_ABOUT = {
    "sea chart": (
        "Signs of the sea chart",
        "Drawn after the international list of chart symbols, INT 1. A letter and number is the "
        "sign's place in that list.",
    ),
    "land map": (
        "Signs of the land map",
        "The plain style of these training maps. A real map has a legend of its own: read that.",
    ),
}


def legend(kind: str) -> Page:
    """Return the A4 page of signs of the "sea chart" or of the "land map".

    Raises ValueError for another kind.
    """
    if kind not in _ABOUT:
        raise ValueError(
            f"There is a legend of the “sea chart” and of the “land map”, not “{kind}”."
        )
    groups = chart_key.GROUPS if kind == "sea chart" else _land_groups()
    figure, axes = blank(_WIDTH, _HEIGHT)
    bars.draw_warning(axes, _WIDTH)
    title, about = _ABOUT[kind]
    axes.text(_SIDE, 16.5, title, **bars.FONT | {"family": style.SERIF}, size=16, weight="bold")
    axes.text(_SIDE, 21.3, about, **bars.FONT, size=6.8)
    _draw_columns(axes, groups)
    bars.check_bar(axes, _SIDE, _HEIGHT - 9.0)
    axes.text(_SIDE, _HEIGHT - 4.6, bars.CHECK_WORDS, **bars.FONT, size=5.7)
    said = "; ".join(_words(e) for entries in groups.values() for e in entries)
    alt = say(
        "{title}, each with its meaning: {said}. For training, not for navigation.",
        {"title": title, "said": said},
    )
    return Page(_WIDTH, _HEIGHT, alt, figure)


def _land_groups() -> Mapping[str, Sequence[Entry]]:
    """Return the land map's entries: those of its own key, and what shows the ground."""
    points = [k for k in KINDS if KINDS[k].shape == "point"]
    others = [k for k in KINDS if KINDS[k].shape != "point"]
    return {
        "Single things": _of_key(points),
        "Ways, water and limits": _of_key(others),
        "The ground": _GROUND,
    }


def _of_key(kinds: Sequence[str]) -> list[Entry]:
    return [Entry("", words, _centred(draw)) for words, draw in land_key.entries(kinds)]


def _centred(draw: chart_key.Draw) -> chart_key.Draw:
    """Return what draws a sample of the map's key, which begins at its spot, about a spot."""
    return lambda axes, x, y: draw(axes, x - land_key.SAMPLE / 2, y)


_GROUND = (
    Entry("", "contour, every 10 m above mean sea level", stroke(style.CONTOUR, 0.11)),
    Entry("", "contour of a whole 50 m, with its height", stroke(style.CONTOUR, 0.24)),
    Entry("", "kilometre line of the grid", stroke(style.GRID, 0.2)),
    Entry("", "coast, at mean high water springs", stroke(style.COAST, 0.26)),
    Entry("", "foreshore: covers at high water", swatch(style.FORESHORE)),
    Entry("", "chart datum: the lowest low water", stroke(style.FORESHORE_INK, 0.11, (4, 2.5))),
    Entry("", "sea less than 8 m deep", swatch(style.SHALLOW)),
    Entry("", "deeper sea", swatch(style.DEEP)),
    Entry("", "loch", swatch(style.FRESH, style.WATER_INK)),
    Entry("", "houses", swatch(style.HOUSE)),
)


def _words(entry: Entry) -> str:
    return f"{entry.number}  {entry.words}".strip()


def _draw_columns(axes: Axes, groups: Mapping[str, Sequence[Entry]]) -> None:
    """Draw entries under their headings, each group whole, in columns about equally long."""
    columns = _columns(groups)
    across = (_WIDTH - 2 * _SIDE + 4) / len(columns)
    for n, headings in enumerate(columns):
        x, y = _SIDE + n * across, _TOP
        for heading in headings:
            y += _HEADING
            axes.text(x, y - 2.6, heading, **bars.FONT, size=8.6, weight="bold")
            for entry in groups[heading]:
                high = _height(entry)
                _draw_entry(axes, entry, x, y + high / 2)
                y += high


def _columns(groups: Mapping[str, Sequence[Entry]]) -> list[list[str]]:
    """Return which groups stand in each column: the fewest columns, the longest one shortest."""
    high = {name: _HEADING + sum(map(_height, entries)) for name, entries in groups.items()}
    room = max(_HEIGHT - _FOOT - _TOP, *high.values())
    count = len(_packed(high, room))
    return next(
        packed
        for k in range(101)
        if len(packed := _packed(high, max(high.values()) + k * room / 100)) <= count
    )


def _packed(high: Mapping[str, float], limit: float) -> list[list[str]]:
    columns: list[list[str]] = [[]]
    for name, height in high.items():
        if columns[-1] and sum(high[n] for n in columns[-1]) + height > limit:
            columns.append([])
        columns[-1].append(name)
    return columns


def _height(entry: Entry) -> float:
    return max(_ROW, entry.room, len(_folded(entry)) * _LINE + 1.6)


def _folded(entry: Entry) -> list[str]:
    """Return an entry's words in lines of about one length."""
    text = _words(entry)
    count = len(wrap(text, _LETTERS))
    return wrap(text, min(_LETTERS, len(text) // count + 6))


def _draw_entry(axes: Axes, entry: Entry, x: float, y: float) -> None:
    """Draw a sample about y with its words right of it."""
    entry.draw(axes, x + _SAMPLE / 2, y)
    lines = _folded(entry)
    first = y - (len(lines) - 1) * _LINE / 2 + 0.85
    for k, line in enumerate(lines):
        axes.text(x + _SAMPLE + 2.0, first + k * _LINE, line, **bars.FONT, size=6.9)
