"""How the work was done on the sheet, told beside what came out of it.

Where the instruments lie is evidence; a slip found from the number alone is a guess, and gives way
where the two contradict. Nothing here changes a mark, and nothing is said of an instrument that was
not used for the task.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from navlib import waters
from navlib.angles import wrap
from navlib.chain.question import Question
from navlib.desk.evidence.dividers import of_dividers
from navlib.desk.evidence.finding import Finding, Spot, towards
from navlib.desk.evidence.laid_off import of_laying_off
from navlib.desk.evidence.lengths import Paced, Way, of_cord_on_way, of_thumb, way_on
from navlib.desk.evidence.norths import SOFT, STIFF, Norths
from navlib.desk.evidence.others import of_cord, of_line, of_romer, of_ruler
from navlib.desk.evidence.protractor import Laid, of_protractor
from navlib.desk.evidence.rule import Stood, Walked, of_rule, of_rule_laid_off
from navlib.instruments import (
    Cord,
    Dividers,
    Handled,
    KnottedCord,
    ParallelRule,
    Protractor,
    Romer,
    Ruler,
    SoftProtractor,
    Thumb,
)
from navlib.kinds.angles import Bearing
from navlib.kinds.marks import OnSheet
from navlib.kinds.places import GridReference
from navlib.kinds.quantities import Distance
from navlib.language import say
from navlib.latlon import LatLon
from navlib.marking import Diagnosis, Marked, Outcome, PartMarked
from navlib.pictures.drawn import roses, window
from navlib.pictures.pencilled import laid
from navlib.questions.plotted import on_grid
from navlib.sheets import PencilLine
from navlib.sheets.window import Window
from navlib.units import NM

MOST = 2
"""Findings told of one part: more would not be read."""
MEASURED = frozenset({"length_mm", "legs"})
"""Givens of a question in which a straight way is measured, of one leg or of several."""
JUDGED = (Outcome.RIGHT, Outcome.CARRIED, Outcome.NEAR, Outcome.WRONG)
COSTS_NOTHING = "One thing to see on your sheet, which costs nothing here. {found}"
"""Before what was found where the answer is right all the same."""


def told(question: Question, marked: Marked, lies: Mapping[str, Any]) -> Marked:
    """Return a judgement with what the instruments tell; outcomes and marks stay as they are."""
    handled = laid(question, lies)
    name = measured_part(question)
    if not handled or not name:
        return marked
    parts = []
    for part in marked.parts:
        if part.name == name and part.outcome in JUDGED:
            on_sheet = window(question.picture)
            part = with_findings(part, tuple(findings(question, part, handled, on_sheet)))
        parts.append(part)
    return Marked(tuple(parts))


def measured_part(question: Question) -> str:
    """Return the part that is read off the sheet or drawn on it; empty if there is none."""
    steps = question.chain.by_name
    return next((name for name in question.asks if steps[name].errors), "")


def with_findings(part: PartMarked, found: Sequence[Finding]) -> PartMarked:
    """Return a part judged with what was found told, and the slip guessed put right by it."""
    faults = sorted((f for f in found if not f.good), key=lambda f: not f.explains)[:MOST]
    says = tuple(fault.says for fault in faults)
    if part.outcome in (Outcome.RIGHT, Outcome.CARRIED):
        notes = tuple(say(COSTS_NOTHING, {"found": one}) for one in says[:1])
        return replace(part, says=(*part.says, *notes))
    if part.outcome is Outcome.NEAR:
        return replace(part, says=(*part.says, *says))
    guessed = set(part.diagnosis.slips)
    if agreed := [fault for fault in faults if guessed & fault.fits]:
        return replace(part, says=(f"{agreed[0].evidence} {part.says[0]}", *part.says[1:]))
    if any(fault.explains for fault in faults) or any(guessed & f.rules_out for f in faults):
        return replace(part, diagnosis=Diagnosis(), says=(*says, *part.says[1:]))
    return replace(part, says=(part.says[0], *says, *part.says[1:]))


def findings(
    question: Question, part: PartMarked, handled: Sequence[Handled], on_sheet: Window
) -> Iterator[Finding]:
    """Yield what the instruments tell of the part that is read off the sheet or drawn on it."""
    kind, read = question.chain.by_name[part.name].kind, part.reading.value
    spots = [_spot((s.easting, s.northing), on_sheet) for s in question.picture.spots]
    if isinstance(kind, OnSheet):
        yield from _of_drawing(question, part, kind, handled, on_sheet)
    elif isinstance(kind, Bearing) and len(spots) > 1:
        a, b = spots[:2]
        for one in handled:
            if isinstance(one, Protractor | SoftProtractor):
                norths = norths_on(question, on_sheet)
                yield from of_protractor(_laid(one, a, b, norths, kind.north, on_sheet), read)
            elif isinstance(one, PencilLine):
                yield from of_line(_ends(one, on_sheet), a, b, ("A", "B"))
            elif isinstance(one, ParallelRule) and kind.north == "T":
                stood = [Stood(r.rose, (r.x, r.y), r.radius) for r in roses(question.picture)]
                yield from of_rule(_walked(one, a, b, on_sheet), read, stood)
    elif isinstance(kind, Distance) and "coast" in question.givens:
        coast = question.givens["coast"].points
        shore = [_spot((e, n), on_sheet) for e, n in _thinned(coast)]
        for one in handled:
            if isinstance(one, Cord):
                yield from of_cord([_spot(p, on_sheet) for p in one.points], shore, ("A", "B"))
    elif isinstance(kind, Distance) and len(spots) > 1 and MEASURED & set(question.givens):
        way = way_on(spots, on_sheet, read)
        for one in handled:
            yield from _of_length(one, way, on_sheet)
    elif isinstance(kind, GridReference) and spots:
        for one in handled:
            if isinstance(one, Romer):
                corner = _spot(one.corner, on_sheet)
                yield from of_romer(corner, one.scale, one.turn, on_sheet, spots[0], "A")


def _of_length(one: Handled, way: Way, on_sheet: Window) -> Iterator[Finding]:
    """Yield what an instrument tells of the length of a way, or of its only leg."""
    a, b, *more = way.spots
    if isinstance(one, Cord | KnottedCord):
        knots = one.knots_mm if isinstance(one, KnottedCord) else 0.0
        yield from of_cord_on_way([_spot(p, on_sheet) for p in one.points], knots, way)
    elif isinstance(one, Thumb):
        edge = _spot(one.edge, on_sheet)
        yield from of_thumb(Paced(edge, one.direction, one.width_mm, one.steps), way)
    elif isinstance(one, Dividers) and not one.steps and not more:
        points = [_spot(p, on_sheet) for p in one.points]
        read = None if way.read is None else way.read * NM
        yield from of_dividers(points, on_sheet, read, way.length)
    elif isinstance(one, Ruler) and not more:
        yield from of_ruler(_spot(one.zero, on_sheet), one.direction, a, b)


def norths_on(question: Question, on_sheet: Window) -> Norths:
    """Return which way the norths lie in the middle of the sheet, the compass's where it is given."""
    water = waters.load(question.picture.water)
    middle = question.picture.centre
    lat, lon = water.lat_lon(middle)
    up = on_grid(water, LatLon(lat + 0.01, lon))
    here = _spot(middle, on_sheet)
    grid = towards(here, _spot((middle[0], middle[1] + 1000), on_sheet))
    true = towards(here, _spot(up, on_sheet))
    norths = {"G": grid, "T": true}
    if "variation" in question.givens:
        norths["M"] = wrap(true + question.givens["variation"])
    elif "gma" in question.givens:
        norths["M"] = wrap(grid + question.givens["gma"])
    return Norths(norths)


def _of_drawing(
    question: Question,
    part: PartMarked,
    kind: OnSheet,
    handled: Sequence[Handled],
    on_sheet: Window,
) -> Iterator[Finding]:
    """Yield what the instruments tell of a mark, a line or a circle that is wrong."""
    if part.outcome in (Outcome.RIGHT, Outcome.CARRIED) or part.reading.value is None:
        return
    water, drawn = waters.load(question.picture.water), part.reading.value
    spots = [_spot(on_grid(water, place), on_sheet) for place in drawn.places]
    for one in handled:
        if isinstance(one, Romer) and kind.sort == "mark":
            corner = _spot(one.corner, on_sheet)
            yield from of_romer(corner, one.scale, one.turn, on_sheet, spots[0], "")
        elif isinstance(one, Dividers) and not one.steps:
            points = [_spot(p, on_sheet) for p in one.points]
            radius = drawn.radius_m if kind.sort == "circle" else None
            yield from of_dividers(points, on_sheet, radius, None)
        elif isinstance(one, Protractor | SoftProtractor) and kind.sort == "line":
            named = question.picture.spots[0]
            start = _spot((named.easting, named.northing), on_sheet)
            figure, north = _laid_off(question)
            if figure is None:
                continue
            norths = norths_on(question, on_sheet)
            laid_off = _laid(one, spots[0], spots[1], norths, north, on_sheet)
            yield from of_laying_off(laid_off, start, figure, question.givens.get("magnetic"))
        elif isinstance(one, ParallelRule) and kind.sort == "line":
            figure, north = _laid_off(question)
            if figure is not None and north == "T":
                walked = _walked(one, spots[0], spots[1], on_sheet)
                yield from of_rule_laid_off(walked, figure, question.givens.get("magnetic"))


def _laid_off(question: Question) -> tuple[float | None, str]:
    """Return the bearing that is laid off on the sheet before the drawing, and its north."""
    for step in reversed(question.steps):
        if isinstance(step.kind, Bearing):
            return float(question.values[step.name]), step.kind.north
    return None, ""


def _laid(
    tool: Protractor | SoftProtractor,
    a: Spot,
    b: Spot,
    norths: Norths,
    north: str,
    on_sheet: Window,
) -> Laid:
    """Return a protractor on the line from a to b, seen as well as its sort can be."""
    eye = STIFF if isinstance(tool, Protractor) else SOFT
    hub = _spot(tool.centre, on_sheet)
    return Laid(hub, tool.turn, tool.arm, a, b, norths, north, eye=eye)


def _walked(rule: ParallelRule, a: Spot, b: Spot, on_sheet: Window) -> Walked:
    """Return a rule on the line from a to b of a chart, where up is true north all over."""
    return Walked(_spot(rule.middle, on_sheet), rule.direction, rule.gap_mm, a, b)


def _spot(place: Sequence[float], on_sheet: Window) -> Spot:
    x, y = on_sheet.place(place[0], place[1])
    return float(x), float(y)


def _ends(line: PencilLine, on_sheet: Window) -> tuple[Spot, Spot]:
    return _spot(line.start, on_sheet), _spot(line.end, on_sheet)


def _thinned(coast: Any, most: int = 120) -> Any:
    return coast[np.unique(np.linspace(0, len(coast) - 1, most).astype(int))]
