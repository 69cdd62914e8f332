"""From a question's description of what is shown beside it to something a front end can show."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from navlib import waters
from navlib.chain.question import Question
from navlib.pictures.kept import kept
from navlib.questions.picture import TOOLS, SheetWindow, Table, TidePage
from navlib.sheets import Cross, Page, PencilLine, Sheet, land_map, pages, sea_chart


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
        return {"svg": made.svg(), "alt": f"{picture.alt} {made.alt}", **size}

    return kept(picture, drawn)


def tools(picture: SheetWindow | TidePage) -> tuple[str, ...]:
    """Return the instruments in the tray beside a picture: a page of tides has none."""
    if not isinstance(picture, SheetWindow):
        return ()
    return TOOLS[picture.sheet] if picture.instruments is None else picture.instruments


def tabulate(picture: Any) -> dict[str, Any] | None:
    """Return the table of a question as a face holds it; None if it has none."""
    if not isinstance(picture, Table):
        return None
    rows = [list(row) for row in picture.rows]
    return {"caption": picture.caption, "heads": list(picture.heads), "rows": rows}


@lru_cache(maxsize=32)
def sheet(window: SheetWindow) -> Sheet:
    """Return the sheet of a window with its spots marked."""
    return _drawn(window, _crosses(window))


def answer_sheet(question: Question) -> Sheet:
    """Return the sheet of a question with the line between its spots and the first answer."""
    window = question.picture
    if len(window.spots) < 2:
        return sheet(window)
    start, end = (cross.place for cross in _crosses(window)[:2])
    line = PencilLine(start, end, question.written[question.asks[0]], arrow=True)
    return _drawn(window, [*_crosses(window), line])


def _crosses(window: SheetWindow) -> list[Cross]:
    return [Cross((spot.easting, spot.northing), spot.label) for spot in window.spots]


def _drawn(window: SheetWindow, marks: Sequence[Cross | PencilLine]) -> Sheet:
    water = waters.load(window.water)
    sort = sea_chart if window.sheet == "sea chart" else land_map
    return sort(water, window.centre, scale=window.scale, size_mm=window.size_mm, marks=marks)


def page(picture: SheetWindow | TidePage) -> Page:
    """Return the sheet or the page of tides that a question shows."""
    return sheet(picture) if isinstance(picture, SheetWindow) else tide_page(picture)


@lru_cache(maxsize=32)
def tide_page(shown: TidePage) -> Page:
    """Return a page of tides; raises KeyError for a port that the water does not have."""
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
