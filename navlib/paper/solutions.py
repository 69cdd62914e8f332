"""Drawn solutions: what a right answer looks like on a paper's own sheets, with its limits.

All is in millimetres from the sheet's top left corner, y downwards, by the same projection that the
sheets are drawn with. An answer is a heavy line, what leads to it a dashed one, and the limits within
which an answer earns all marks a grey area. Plotting questions are drawn by `plotting`.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np

from navlib.coastline import walk
from navlib.distance import paper_mm
from navlib.kinds.angles import Bearing
from navlib.kinds.choices import Choice
from navlib.kinds.marks import OnSheet
from navlib.kinds.places import GridReference, Position
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.paper.awards import labels
from navlib.paper.overlay import base, laid
from navlib.paper.plotting import draw
from navlib.paper.reasons import band_of, tolerance
from navlib.paper.strokes import Solution, Spot, arc, circle, cut, middle, off, spot_at, towards
from navlib.paper.variants import Item, Paper
from navlib.pictures import drawn
from navlib.questions.picture import SheetWindow
from navlib.sheets import pencil
from navlib.sheets.lettering import size_of
from navlib.sheets.placing import Wish, around, settle
from navlib.sheets.window import Box, Window
from navlib.waters import Place

NORTH_MM, ARC_MM = 16.0, 11.0
"""How far the line to north reaches from where a bearing is measured, and the arc round to it."""
BEYOND_MM = 5.0
"""How far the fan of a bearing reaches beyond its line."""
RING_MM, PRICK_MM = 2.4, 0.7
"""About a place that is read off: inside its label, outside its cross; and where dividers stood."""
PAD_MM = 0.7
"""White about words on a solved sheet."""
REACH_MM, BESIDE_MM = 36.0, 3.0
"""How far from what they speak of words may stand, and from where on a line leads there."""
PLACES = 12
"""Boxes for words that are tried until the line from them runs free."""
SPREAD = 5.0
"""Degrees to either side that the limits of a distance are drawn."""


def solved(paper: Paper) -> list[dict[str, Any]]:
    """Return the sheets of a paper with their solutions, ready for print; none without any."""
    found = []
    for extract in paper.extracts:
        items = [item for item in paper.items if item.extract == extract.number]
        if isinstance(extract.base, SheetWindow) and items:
            where, sheet = drawn.window(extract.base), laid(extract)
            solution = Solution()
            for item in items:
                _draw(solution, item, where)
            if solution.lines:
                found.append({**sheet, **_printed(solution, sheet, extract.base, where)})
    return found


def solution_of(item: Item) -> Solution:
    """Return what is drawn for one question on its sheet; nothing if it has none."""
    solution = Solution()
    if isinstance(item.question.picture, SheetWindow):
        _draw(solution, item, drawn.window(item.question.picture))
    return solution


def _draw(into: Solution, item: Item, where: Window) -> None:
    """Add the solution of a question, part by part."""
    question = item.question
    places = [(spot.easting, spot.northing) for spot in question.picture.spots]
    spots = [spot_at(where, place) for place in places]
    for label, name in labels(item).items():
        kind, key = question.chain.by_name[name].kind, question.values[name]
        limit, half = band_of(question, name).full, tolerance(question, name).full
        written = f"{label}  {question.written[name]}" + (f" ± {half}" if half else "")
        match kind:
            case OnSheet():
                draw(into, item, where)
            case Choice() if len(spots) > 1 and "roles" in question.givens:
                letters = [spot.label for spot in question.picture.spots]
                at = spots[letters.index(question.written[name])]
                into.lines.append(circle(at, RING_MM))
                into.words.append((written, at))
            case Bearing() if len(spots) == 2 and name in ("grid", "true"):
                _bearing(into, spots[0], spots[1], kind.rounded(key), limit)
                into.words.append((written, middle(spots)))
            case Distance() if "coast" in question.givens:
                _shore(into, question, where)
                into.words.append((written, middle(spots)))
            case Distance() if len(spots) > 1:
                _way(into, spots, paper_mm(limit * kind.per_unit, where.scale))
                into.words.append((written, middle(spots[:2])))
            case GridReference() if len(spots) == 1:
                _reference(into, places[0], kind, limit, where)
                into.words.append((written, spots[0]))
            case Position() if len(spots) == 1:
                _position(into, spots[0], paper_mm(limit, where.scale), where)
                into.words.append((written, spots[0]))


def _bearing(into: Solution, a: Spot, b: Spot, bearing: float, limit: float) -> None:
    """Draw the line, the angle round from north, and the fan of bearings within the limit."""
    length = math.dist(a, b)
    into.lines.append([a, b])
    into.helps += [[a, off(a, 0, NORTH_MM)], arc(a, min(ARC_MM, length), 0, bearing)]
    into.areas.append([a, *arc(a, length + BEYOND_MM, bearing - limit, bearing + limit)])


def _way(into: Solution, spots: Sequence[Spot], limit_mm: float) -> None:
    """Draw the whole way, and at its end how much longer or shorter it may be measured."""
    into.lines += [[a, b] for a, b in pairwise(spots)]
    last, end = spots[-2:]
    way, length = towards(last, end), math.dist(last, end)
    near, far = (arc(last, length + by, way - SPREAD, way + SPREAD) for by in (-limit_mm, limit_mm))
    into.areas.append([*near, *reversed(far)])


def _shore(into: Solution, question: Any, where: Window) -> None:
    """Draw the shore and where the dividers stand on it."""
    coast = question.givens["coast"]
    into.lines.append([spot_at(where, tuple(point)) for point in coast.points])
    step = question.givens["short"]
    metres = float(step.split()[0]) if step.endswith(" m") else 0.0
    for point in walk(coast.points, metres).points if metres else ():
        into.lines.append(circle(spot_at(where, tuple(point)), PRICK_MM))


def _reference(
    into: Solution, spot: Place, kind: GridReference, limit: float, where: Window
) -> None:
    """Draw the way back to the square's own lines, and the squares that are near enough."""
    at, size = spot_at(where, spot), float(10 ** (5 - kind.figures // 2))
    reach = limit if kind.rounding > 1 else 0.0
    east, north = (math.floor(metres / size) * size for metres in spot)
    low, high = -reach, size + reach
    box = ((low, low), (high, low), (high, high), (low, high))
    into.areas.append([spot_at(where, (east + e, north + n)) for e, n in box])
    west, south = (math.floor(metres / 1000) * 1000 for metres in spot)
    into.helps += [[at, spot_at(where, (west, spot[1]))], [at, spot_at(where, (spot[0], south))]]
    into.lines.append(circle(at, RING_MM))


def _position(into: Solution, at: Spot, limit_mm: float, where: Window) -> None:
    """Draw the way to both borders, and how far off is near enough."""
    frame = where.frame
    into.helps += [[at, (frame.left, at[1])], [at, (at[0], frame.top)]]
    into.areas.append(circle(at, limit_mm))
    into.lines.append(circle(at, RING_MM))


# On paper ---------------------------------------------------------------------------------------


def _printed(
    solution: Solution, sheet: dict[str, Any], shown: SheetWindow, where: Window
) -> dict[str, Any]:
    """Return lines, areas and words for the template, words where they hide least."""
    words = _settled(solution, sheet, shown, where)
    said = "; ".join(text for text, _, _ in words)
    return {
        "alt": say("{sheet} Solutions drawn: {said}.", {"sheet": sheet["alt"], "said": said}),
        "solution": {
            "lines": solution.lines,
            "helps": solution.helps,
            "areas": solution.areas,
            "halves": solution.halves,
            "slips": solution.slips,
            "words": [
                {"text": text, "left": b.left + PAD_MM, "top": b.top + PAD_MM}
                for text, b, _ in words
            ],
            "leaders": [line for _, box, spot in words if (line := _leader(box, spot))],
        },
    }


def _settled(
    solution: Solution, sheet: dict[str, Any], shown: SheetWindow, where: Window
) -> list[tuple[str, Box, Spot]]:
    """Return words with their boxes and what they speak of: the shortest first, nearest to it."""
    wishes, spoken_of = [], dict(solution.words)
    for text, (x, y) in sorted(spoken_of.items(), key=lambda one: len(one[0])):
        width, height, _ = size_of(text, "pencil")
        sides = (width + 2 * PAD_MM, height + 2 * PAD_MM)
        spots = sorted(around(x, y, *sides, REACH_MM, 2.0), key=lambda one: one[0])
        wishes.append(Wish(text, "pencil", tuple(spots)))
    crosses = [
        Box(x - pencil.ARM, y - pencil.ARM, x + pencil.ARM, y + pencil.ARM)
        for x, y in sheet["marks"]["crosses"]
    ]
    names = [
        Box(b["left"], b["top"], b["left"] + b["width"], b["top"] + b["height"])
        for b in sheet["marks"]["labels"]
    ]
    answers = [*crosses, *names, *_beads(solution.lines)]
    taken = [*answers, *_beads([*solution.helps, *solution.slips, *solution.halves])]
    placed: dict[str, Box] = {}
    for hidden in ([*base(shown).names, *taken], taken, answers, [*crosses, *names]):
        for wish in (wish for wish in wishes if wish.text not in placed):
            clear = (hidden, list(placed.values()))
            if box := _clear_box(wish, spoken_of[wish.text], *clear, where.frame):
                placed[wish.text] = box
    return [
        (one.text, placed.get(one.text, one.spots[0][1]), spoken_of[one.text]) for one in wishes
    ]


def _clear_box(
    wish: Wish, spot: Spot, hidden: list[Box], words: list[Box], frame: Box
) -> Box | None:
    """Return a box for words over nothing, whose leader runs under no other words; None if none."""
    spots = wish.spots
    for _ in range(PLACES):
        found = settle([replace(wish, spots=spots)], [*hidden, *words], frame)
        if not found:
            return None
        box, line = found[0].box, _leader(found[0].box, spot)
        if line is None or not any(cut(*line, other) for other in words):
            return box
        spots = spots[1 + next(k for k, one in enumerate(spots) if one[1] == box) :]
    return None


def _leader(box: Box, spot: Spot) -> tuple[Spot, Spot] | None:
    """Return a line from words to what they speak of; None where they stand beside it."""
    x, y = spot
    nearest = (min(max(x, box.left), box.right), min(max(y, box.top), box.bottom))
    return (nearest, spot) if math.dist(nearest, spot) > BESIDE_MM else None


def _beads(lines: list[list[Spot]]) -> list[Box]:
    """Return small boxes along lines."""
    found = []
    for a, b in (pair for line in lines for pair in pairwise(line)):
        for t in np.linspace(0, 1, max(2, int(math.dist(a, b) / 2.0))):
            x, y = a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t
            found.append(Box(x - 0.6, y - 0.6, x + 0.6, y + 0.6))
    return found
