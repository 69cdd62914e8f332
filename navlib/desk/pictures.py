"""From a question's description of what is shown beside it to something a front end can show."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from navlib import waters
from navlib.chain.question import Question
from navlib.questions.picture import SheetWindow, Table
from navlib.sheets import Cross, PencilLine, Sheet, land_map


def draw(picture: Any) -> dict[str, Any] | None:
    """Return the picture of a question as a face holds it; None if it has none."""
    if not isinstance(picture, SheetWindow):
        return None
    drawn = sheet(picture)
    return {
        "svg": _svg(picture),
        "alt": f"{picture.alt} {drawn.alt}",
        "width_mm": drawn.width_mm,
        "height_mm": drawn.height_mm,
        "tools": list(picture.instruments),
    }


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
    start, end = (cross.place for cross in _crosses(window)[:2])
    line = PencilLine(start, end, question.written[question.asks[0]], arrow=True)
    return _drawn(window, [*_crosses(window), line])


def _crosses(window: SheetWindow) -> list[Cross]:
    return [Cross((spot.easting, spot.northing), spot.label) for spot in window.spots]


def _drawn(window: SheetWindow, marks: Sequence[Cross | PencilLine]) -> Sheet:
    water = waters.load(window.water)
    return land_map(water, window.centre, scale=window.scale, size_mm=window.size_mm, marks=marks)


@lru_cache(maxsize=32)
def _svg(window: SheetWindow) -> str:
    return sheet(window).svg()
