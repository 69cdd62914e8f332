"""The solution of a plotting question on its sheet: what is right, how near, where slips end."""

import math
from itertools import pairwise

from navlib import waters
from navlib.distance import paper_mm
from navlib.kinds.marks import OnSheet, Pencilled
from navlib.paper.awards import award, labels, split
from navlib.paper.by_eye import plotted, slip_ends
from navlib.paper.reasons import band_of
from navlib.paper.scripts import write_marks
from navlib.paper.strokes import Solution, Spot, arc, circle, cut, off, spot_at, towards
from navlib.paper.variants import Item
from navlib.questions.plotted import on_grid
from navlib.sheets import pencil
from navlib.sheets.window import Box, Window

SMALL = 0.7
"""Size of the cross at which a slip ends, beside that of a right mark."""


def draw(into: Solution, item: Item, where: Window) -> None:
    """Add what is right, the areas for full and for half marks, and the lettered ends of slips."""
    question, name = item.question, plotted(item.question)
    kind, key = question.chain.by_name[name].kind, question.values[name]
    assert isinstance(kind, OnSheet)
    band, most = band_of(question, name), split(item).parts[name]
    label = next(iter(labels(item)))
    right = _spots(key, item, where)
    into.lines += _shape(kind, key, right, where, pencil.ARM)
    into.areas.append(_around(kind, key, right, where, band.full))
    into.halves.append(_around(kind, key, right, where, band.part))
    says = f"{label} ± {band.full:g} mm [{write_marks(most)}]"
    into.words.append((says, _named_at(kind, key, right, where)))
    if kind.sort == "mark":
        seen = [(spot.easting, spot.northing) for spot in question.picture.spots]
        into.helps += [[spot_at(where, place), right[0]] for place in seen]
    for one in slip_ends(question):
        spots = _spots(one.end, item, where)
        shown = [
            inside
            for line in _shape(kind, one.end, spots, where, pencil.ARM * SMALL)
            for inside in _inside(line, where.frame)
        ]
        if shown:
            into.slips += shown
            earned = write_marks(award(item, {name: one.letter}).parts[0].marks)
            at = spots[0] if kind.sort == "mark" else shown[-1][len(shown[-1]) // 2]
            at = shown[-1][-1] if kind.sort == "line" else at
            into.words.append((f"{label} {one.letter} [{earned}]", at))


def _spots(drawn: Pencilled, item: Item, where: Window) -> list[Spot]:
    water = waters.load(item.question.picture.water)
    return [spot_at(where, on_grid(water, place)) for place in drawn.places]


def _shape(
    kind: OnSheet, drawn: Pencilled, spots: list[Spot], where: Window, arm: float
) -> list[list[Spot]]:
    """Return the strokes of a mark, line or circle."""
    if kind.sort == "line":
        return [list(spots)]
    if kind.sort == "circle":
        return [circle(spots[0], paper_mm(drawn.radius_m, where.scale))]
    x, y = spots[0]
    return [[(x - arm, y - s * arm), (x + arm, y + s * arm)] for s in (1, -1)]


def _around(
    kind: OnSheet, drawn: Pencilled, spots: list[Spot], where: Window, limit: float
) -> list[Spot]:
    """Return the outline of the area within which something drawn is near enough."""
    if kind.sort == "line":
        a, b = spots
        side = towards(a, b) + 90
        ends = ((a, limit), (b, limit), (b, -limit), (a, -limit))
        return [off(spot, side, by) for spot, by in ends]
    if kind.sort == "circle":
        radius = paper_mm(drawn.radius_m, where.scale)
        inner = circle(spots[0], max(0.0, radius - limit))
        return [*circle(spots[0], radius + limit), *reversed(inner)]
    return circle(spots[0], limit)


def _named_at(kind: OnSheet, drawn: Pencilled, spots: list[Spot], where: Window) -> Spot:
    """Return where the words on a right drawing belong: a mark, a line's end, the top of a rim."""
    if kind.sort == "circle":
        return arc(spots[0], paper_mm(drawn.radius_m, where.scale), 0, 0)[0]
    return spots[-1]


def _inside(line: list[Spot], frame: Box) -> list[list[Spot]]:
    """Return the pieces of a line that lie within the frame."""
    pieces: list[list[Spot]] = []
    for a, b in pairwise(line):
        piece = cut(a, b, frame)
        if piece is None:
            continue
        if pieces and math.dist(pieces[-1][-1], piece[0]) < 1e-6:
            pieces[-1].append(piece[1])
        else:
            pieces.append([*piece])
    return pieces
