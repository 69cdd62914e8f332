"""What is printed of an extract: its base, drawn once, and each variant's marks laid over it."""

from base64 import b64decode, b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from navlib import waters
from navlib.language import say
from navlib.language.days import full, month_in_year
from navlib.paper.typeset import picture, plate
from navlib.paper.variants import Extract
from navlib.pictures import drawn
from navlib.pictures.kept import kept
from navlib.questions.picture import SheetWindow, TidePage, called
from navlib.sheets import Cross, PencilLine, Sheet, pencil
from navlib.sheets.bars import fraction
from navlib.sheets.placing import Wish, settle
from navlib.sheets.window import Box, Window
from navlib.tides.hours import in_words

PAPERS: dict[str, tuple[float, float]] = {
    "A4": (210.0, 297.0),
    "A4 landscape": (297.0, 210.0),
    "A3 landscape": (420.0, 297.0),
    "A3": (297.0, 420.0),
}
"""Width and height in millimetres (ISO 216), in the order in which they are tried."""
BESIDE = Box(5.0, 10.0, 11.0, 5.0)
"""Millimetres of a page that a sheet leaves free on each side: head on top, check bar right."""

_TIDE_PAGES = {
    "table": "Tide table, {month}",
    "curve": "Tide curve, {port}",
    "day": "Height of tide, {port}, {day}",
    "differences": "Secondary ports, {port}",
    "diamonds": "Tidal diamonds",
    "streams": "Tidal streams, {hour}",
}


@dataclass(frozen=True)
class Base:
    """A sheet or page without marks: the name of its drawing at the press, its size in millimetres,
    the boxes of its names, and whether it has a check bar of its own.
    """

    drawing: str
    alt: str
    width_mm: float
    height_mm: float
    names: tuple[Box, ...]
    has_bar: bool


@lru_cache(maxsize=64)
def base(shown: SheetWindow | TidePage) -> Base:
    """Return the base of an extract, drawn at most once on this computer."""

    def draw() -> dict[str, Any]:
        page = drawn.page(shown)
        names = [box for _, box in page.names] if isinstance(page, Sheet) else []
        return {
            "plate": b64encode(plate(page.svg(), page.width_mm, page.height_mm)).decode(),
            "alt": page.alt,
            "size": [page.width_mm, page.height_mm],
            "names": [[b.left, b.top, b.right, b.bottom] for b in names],
            "has_bar": 'id="check-bar"' in page.svg(),
        }

    made = kept(("plate", shown), draw)
    names = tuple(Box(*sides) for sides in made["names"])
    name = picture(b64decode(made["plate"]))
    width, height = made["size"]
    return Base(name, made["alt"], width, height, names, made["has_bar"])


def paper_for(width_mm: float, height_mm: float) -> str:
    """Return the smallest paper that holds a sheet of this size at its true size.

    A page that fills its paper, as those of tides do, lies on it edge to edge; all others leave room
    for head and check bar (`BESIDE`). Raises ValueError if none holds it.
    """
    for name, (width, height) in PAPERS.items():
        if (width_mm, height_mm) == (width, height) or (
            width_mm <= width - BESIDE.left - BESIDE.right
            and height_mm <= height - BESIDE.top - BESIDE.bottom
        ):
            return name
    raise ValueError(
        f"A sheet of {width_mm:.0f} x {height_mm:.0f} mm does not fit on A3 at its true size; with "
        "its margins it may be 404 x 282 mm (landscape) or 281 x 405 mm (upright). Make the frame "
        "smaller, for example 150 x 130 mm for A4."
    )


def title(shown: SheetWindow | TidePage) -> str:
    """Return in a few words what an extract is, such as “Land map 1:25 000”."""
    if isinstance(shown, SheetWindow):
        return f"{called(shown.sheet)} {fraction(shown.scale)}"
    water = waters.load(shown.water)
    day = shown.day or water.settings.sheet_date
    words = {
        "port": shown.port or water.tides.standard.name,
        "month": month_in_year(day),
        "day": full(day),
        "hour": in_words(shown.hour),
    }
    return say(_TIDE_PAGES[shown.page], words)


def laid(extract: Extract) -> dict[str, Any]:
    """Return all that the template needs to print an extract; lengths are millimetres on the page."""
    under = base(extract.base)
    paper = paper_for(under.width_mm, under.height_mm)
    width, height = PAPERS[paper]
    whole = (under.width_mm, under.height_mm) == (width, height)
    across = BESIDE.left + (width - BESIDE.left - BESIDE.right - under.width_mm) / 2
    at = (0.0, 0.0) if whole else (across, BESIDE.top)
    marks = _marks(extract, under) if isinstance(extract.base, SheetWindow) else {}
    return {
        "number": extract.number,
        "what": title(extract.base),
        "paper": paper,
        "width": width,
        "height": height,
        "whole": whole,
        "left": at[0],
        "top": at[1],
        "drawing": under.drawing,
        "sheet_width": under.width_mm,
        "sheet_height": under.height_mm,
        "alt": f"{under.alt} {said(extract)}".strip(),
        "has_bar": under.has_bar,
        "marks": {"crosses": [], "labels": [], "lines": [], **marks},
        "arm": pencil.ARM,
        "pen": pencil.WIDTH,
    }


def said(extract: Extract) -> str:
    """Return in words what is marked on an extract; nothing where nothing is."""
    parts = []
    if extract.marks:
        crosses = ", ".join(mark.label for mark in extract.marks)
        parts.append(say("Crosses: {crosses}.", {"crosses": crosses}))
    parts += [
        say("A pencil line joins {one} and {other}.", {"one": one, "other": other})
        for one, other in extract.lines
    ]
    return " ".join(parts)


def _marks(extract: Extract, under: Base) -> dict[str, Any]:
    """Return crosses, labels and lines of an extract in millimetres from the sheet's corner."""
    assert isinstance(extract.base, SheetWindow)
    where = drawn.window(extract.base)
    for mark in extract.marks:
        if not where.frame.holds(*_spot(where, (mark.easting, mark.northing))):
            raise ValueError(
                f"Mark {mark.label} at E {mark.easting:.0f}, N {mark.northing:.0f} lies outside the "
                f"frame of sheet {extract.number}; move the sheet or leave the question out."
            )
    places = {mark.label: (mark.easting, mark.northing) for mark in extract.marks}
    crosses = tuple(Cross(place, label) for label, place in places.items())
    lines = tuple(PencilLine(places[one], places[other]) for one, other in extract.lines)
    labels = _labels(pencil.wished(crosses, where), (*crosses, *lines), under, where)
    return {
        "crosses": [_spot(where, cross.place) for cross in crosses],
        "lines": [[*_spot(where, line.start), *_spot(where, line.end)] for line in lines],
        "labels": [
            {
                "text": text,
                "left": box.left,
                "top": box.top,
                "width": box.width,
                "height": box.height,
            }
            for text, box in labels
        ],
    }


def _spot(where: Window, place: tuple[float, float]) -> list[float]:
    x, y = where.place(*place)
    return [float(x), float(y)]


def _labels(
    wishes: list[Wish], marks: tuple[pencil.Mark, ...], under: Base, where: Window
) -> Iterable[tuple[str, Box]]:
    """Return a box for each label: clear of names, else at least of marks and other labels."""
    taken = [*under.names, *pencil.mark_boxes(marks, where)]
    placed = {one.text: one.box for one in settle(wishes, taken, where.frame)}
    left = [wish for wish in wishes if wish.text not in placed]
    taken = [*pencil.mark_boxes(marks, where), *placed.values()]
    placed |= {one.text: one.box for one in settle(left, taken, where.frame)}
    return [(wish.text, placed.get(wish.text, wish.spots[0][1])) for wish in wishes]
