"""From a question's description of what is shown beside it to something a front end can show.

What draws is brought in where it draws: a picture that is kept needs none of it.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from navlib import waters
from navlib.chain.question import Question
from navlib.pictures.kept import kept
from navlib.questions.picture import PAGE_TOOLS, TOOLS, SheetWindow, Table, TidePage
from navlib.sheets import Cross, PencilLine
from navlib.sheets.chart.frame import chart_window
from navlib.sheets.land.frame import land_window
from navlib.sheets.window import Window

if TYPE_CHECKING:
    from navlib.sheets import Page, Sheet
    from navlib.sheets.chart.rose import PlacedRose


def draw(picture: Any) -> dict[str, Any] | None:
    """Return the picture of a question as a face holds it; None if it has none."""
    if not isinstance(picture, SheetWindow | TidePage):
        return None
    return {**_drawn_or_kept(picture), "tools": list(tools(picture))}


@lru_cache(maxsize=32)
def _drawn_or_kept(picture: SheetWindow | TidePage) -> dict[str, Any]:
    def drawn() -> dict[str, Any]:
        made = page(picture)
        size = {"width_mm": made.width_mm, "height_mm": made.height_mm}
        return {"svg": made.svg(), "alt": f"{picture.alt} {made.alt}".strip(), **size}

    return kept(picture, drawn)


def tools(picture: SheetWindow | TidePage) -> tuple[str, ...]:
    """Return the instruments in the tray beside a picture: most pages of tides have none."""
    if not isinstance(picture, SheetWindow):
        return PAGE_TOOLS.get(picture.page, ())
    return TOOLS[picture.sheet] if picture.instruments is None else picture.instruments


def tabulate(picture: Any) -> dict[str, Any] | None:
    """Return the table of a question as a face holds it; None if it has none."""
    if not isinstance(picture, Table):
        return None
    rows = [list(row) for row in picture.rows]
    return {"caption": picture.caption, "heads": list(picture.heads), "rows": rows}


@lru_cache(maxsize=128)
def window(picture: SheetWindow) -> Window:
    """Return where places lie on the sheet of a picture; nothing is drawn for that."""
    water = waters.load(picture.water)
    lie = chart_window if picture.sheet == "sea chart" else land_window
    return lie(water, picture.centre, None, picture.scale, picture.size_mm)


@lru_cache(maxsize=32)
def roses(picture: SheetWindow) -> tuple["PlacedRose", ...]:
    """Return the compass roses of a picture's chart, where they stand; a land map has none."""
    from navlib.sheets.chart.seachart import roses_on

    if picture.sheet != "sea chart":
        return ()
    return tuple(roses_on(waters.load(picture.water), window(picture), _crosses(picture)))


@lru_cache(maxsize=32)
def sheet(window: SheetWindow) -> "Sheet":
    """Return the sheet of a window with its spots marked."""
    return _drawn(window, _crosses(window))


def answer_sheet(question: Question) -> "Sheet":
    """Return the sheet of a question with the way drawn that its answer goes.

    The first answer stands beside a way of one leg; along others there would be no room for it.
    """
    window = question.picture
    crosses = _crosses(window)
    way = [cross.place for cross in crosses] if window.way is None else window.way
    answer = question.written[question.asks[0]] if len(way) == 2 else ""
    legs = [PencilLine(a, b, answer, arrow=window.way is None) for a, b in pairwise(way)]
    return _drawn(window, [*crosses, *legs])


def _crosses(window: SheetWindow) -> list[Cross]:
    return [Cross((spot.easting, spot.northing), spot.label) for spot in window.spots]


def _drawn(window: SheetWindow, marks: Sequence[Cross | PencilLine]) -> "Sheet":
    from navlib.sheets import land_map, sea_chart

    water = waters.load(window.water)
    sort = sea_chart if window.sheet == "sea chart" else land_map
    return sort(water, window.centre, scale=window.scale, size_mm=window.size_mm, marks=marks)


def page(picture: SheetWindow | TidePage) -> "Page":
    """Return the sheet or the page of tides that a question shows."""
    return sheet(picture) if isinstance(picture, SheetWindow) else tide_page(picture)


@lru_cache(maxsize=32)
def tide_page(shown: TidePage) -> "Page":
    """Return a page of tides; raises KeyError for a port that the water does not have."""
    from navlib.sheets import pages

    water = waters.load(shown.water)
    tides, day = water.tides, shown.day or water.settings.sheet_date
    port = next(p for p in tides.ports if p.name == shown.port) if shown.port else tides.standard
    match shown.page:
        case "table":
            return pages.tide_table(water, port, day.year, day.month)
        case "curve":
            return pages.tide_curve(water, tides.standard, shown.day)
        case "day":
            return pages.day_curve(water, port, day)
        case "differences":
            return pages.differences_page(water)
        case "diamonds":
            return pages.diamonds_page(water)
        case "streams":
            return pages.stream_atlas(water, shown.hour)
