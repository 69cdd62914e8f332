"""How the answer to each step is written down on paper: a box, options to tick, letters in order."""

from collections.abc import Mapping
from typing import Any

from navlib.chain.kind import Kind
from navlib.chain.question import Question
from navlib.kinds.angles import Bearing, EastWest
from navlib.kinds.choices import Choice, Order, letters
from navlib.kinds.marks import OnSheet
from navlib.kinds.places import GridReference, Mark, Position
from navlib.kinds.quantities import Quantity
from navlib.kinds.times import Clock

NOTATION: dict[type[Kind[Any]], str] = {
    Bearing: "T, M, G or C",
    EastWest: "E or W",
    Clock: "zone",
    Quantity: "unit",
}
"""What must stand after a figure, by kind of answer: a small box of its own asks for it."""

_ABREAST, _ABREAST_LARGE = {10: 6, 18: 4, 36: 2}, {2: 6, 6: 4, 10: 3, 17: 2}
"""Options in a line, by how many characters the longest has at most; also in large print, where they
run on as words do if but one of them is long."""


def fields(question: Question) -> list[dict[str, Any]]:
    """Return a field for each step asked: the words before it and how it is answered.

    `form` is "box" (with `after`, what its small box asks for), "wide", "sheet" (drawn on the
    sheet), "choice" or "order" (with `options`, letter and text each).
    """
    return [
        {"prompt": prompt, **_field(question.chain.by_name[name].kind)}
        for name, prompt in question.prompts.items()
    ]


def _field(kind: Kind[Any]) -> dict[str, Any]:
    match kind:
        case Choice(options=texts):
            return {"form": "choice", **_options(texts, kind)}
        case Order(items=texts):
            return {"form": "order", **_options(texts, kind)}
        case GridReference() | Position():
            return {"form": "wide"}
        case Mark() | OnSheet():
            return {"form": "sheet"}
    after = next((words for sort, words in NOTATION.items() if isinstance(kind, sort)), "")
    return {"form": "box", "after": after}


def _options(texts: Any, kind: Any) -> dict[str, Any]:
    """Return the options with their letters; a text that is but its letter stands alone."""
    shown = [[letter, texts[key]] for letter, key in letters(texts).items()]
    bare = all(text.casefold() == letter.casefold() for letter, text in shown)
    (*_, other, longest), many = sorted(len(text) for _, text in ((0, ""), *shown)), len(shown)
    runs_on = _fitting(_ABREAST_LARGE, longest) == 1 < _fitting(_ABREAST_LARGE, other)
    return {
        "options": [["", text] if bare else [letter, text] for letter, text in shown],
        "columns": min(_fitting(_ABREAST, longest), many),
        "columns_large": 0 if runs_on else min(_fitting(_ABREAST_LARGE, longest), many),
        "bare": bare,
    }


def _fitting(abreast: Mapping[int, int], longest: int) -> int:
    return next((count for most, count in abreast.items() if longest <= most), 1)
