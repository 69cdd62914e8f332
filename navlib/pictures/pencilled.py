"""Answers that are drawn: from the pencil on the sheet to what is judged, and the key beside it."""

from collections.abc import Mapping
from typing import Any

from navlib import waters
from navlib.chain.question import Question
from navlib.instruments import Handled, PencilCircle, on_ground, on_paper
from navlib.kinds.marks import OnSheet, Pencilled
from navlib.latlon import LatLon
from navlib.pictures.drawn import window
from navlib.questions.picture import SheetWindow
from navlib.questions.plotted import on_grid
from navlib.sheets import Cross, PencilLine

TOOL = {"mark": "pencil mark", "line": "pencil line", "circle": "pencil circle"}
"""The instrument that draws each sort of answer."""
_DRAWN = {"mark": Cross, "line": PencilLine, "circle": PencilCircle}


def laid(question: Question, lies: Mapping[str, Any]) -> tuple[Handled, ...]:
    """Return what lies on the sheet of a question, in grid metres; nothing where it has none."""
    if not isinstance(question.picture, SheetWindow):
        return ()
    return on_ground(lies, window(question.picture))


def tidied(question: Question, lies: Mapping[str, Any]) -> dict[str, Any]:
    """Return the lies with nothing in them but what lies on the sheet: fit to be kept."""
    handled = laid(question, lies)
    return on_paper(handled, window(question.picture)) if handled else {}


def drawn_answers(question: Question, lies: Mapping[str, Any]) -> dict[str, str]:
    """Return what is drawn for each part that asks for a drawing, written out.

    Of several marks, lines or circles the last is the answer; those before it are construction.
    """
    sorts = {name: kind for name in question.asks if (kind := drawn_kind(question, name))}
    handled = laid(question, lies) if sorts else ()
    found = {}
    for name, kind in sorts.items():
        drawn = [one for one in handled if isinstance(one, _DRAWN[kind.sort])]
        if drawn:
            found[name] = kind.exactly(pencilled(question, drawn[-1]))
    return found


def with_drawn(
    question: Question, typed: Mapping[str, str], lies: Mapping[str, Any]
) -> dict[str, str]:
    """Return what is answered to each part: what is written, else what is drawn on the sheet."""
    written = {name: text for name, text in typed.items() if text.strip()}
    return {**typed, **drawn_answers(question, lies), **written}


def drawn_kind(question: Question, name: str) -> OnSheet | None:
    """Return the kind of a part that asks for a drawing, None for any other part."""
    kind = question.chain.by_name[name].kind
    return kind if isinstance(kind, OnSheet) else None


def pencilled(question: Question, drawn: Handled) -> Pencilled:
    """Return a pencil mark, line or circle of the chart table as an answer."""
    water = waters.load(question.picture.water)

    def place(spot: tuple[float, float]) -> LatLon:
        return LatLon(*water.lat_lon(spot))

    scale = question.picture.scale
    match drawn:
        case Cross(spot):
            return Pencilled((place(spot),), scale)
        case PencilLine(start, end):
            return Pencilled((place(start), place(end)), scale)
        case PencilCircle(middle, radius):
            return Pencilled((place(middle),), scale, radius)
    raise TypeError(f"{type(drawn).__name__} is not drawn with the pencil")


def key_lies(question: Question) -> dict[str, Any]:
    """Return where the right answers lie on the sheet, as the chart table tells of pencil."""
    drawn = [name for name in question.asks if drawn_kind(question, name)]
    lies: dict[str, Any] = {}
    for name in drawn:
        lies |= lies_of(question, name, question.values[name])
    return lies


def lies_of(question: Question, name: str, value: Pencilled) -> dict[str, Any]:
    """Return where an answer to a part that asks for a drawing lies on the sheet."""
    kind = drawn_kind(question, name)
    if kind is None:
        return {}
    water = waters.load(question.picture.water)
    spots = [on_grid(water, place) for place in value.places]
    drawn: Handled
    match kind.sort:
        case "line":
            drawn = PencilLine(spots[0], spots[1])
        case "circle":
            drawn = PencilCircle(spots[0], value.radius_m)
        case _:
            drawn = Cross(spots[0])
    return on_paper([drawn], window(question.picture))
