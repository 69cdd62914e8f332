"""How hard a question is, in what can be counted and measured, and the bands that keep variants equal.

The features are those by which examiners match papers: steps, traps, sums over the hour and over
000, lines and angles on paper, words and figures to read. Each is taken from the question's chain,
its numbers and its words, so that none is written twice.
"""

import math
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import datetime
from itertools import pairwise
from statistics import median
from typing import Any

from navlib.chain.chain import Chain
from navlib.chain.question import Question
from navlib.chain.step import Step, needs
from navlib.kinds.angles import Bearing, EastWest
from navlib.kinds.numbers import Number
from navlib.kinds.times import Duration
from navlib.questions.picture import SheetWindow, Table

MOST_ON_A_WAY = 4
"""Spots on a sheet up to which they are a way from one to the next, not places to choose from."""
_DIGIT = re.compile("[0-9]")
BETWEEN_LINES = frozenset({"deviation", "factor", "shift", "metres", "from_high", "rate"})
"""Names of steps that go between two lines of a table, or between two curves."""


@dataclass(frozen=True)
class Features:
    """What makes one question harder than another of its kind.

    Counted: `parts` asked, `steps` to them, `looked_up` on paper or in a table, `interpolated`,
    `traps` (slips that can be made with these numbers), `wraps` over 000, `turns` from east to
    west or back, `carries` over the hour, `midnights`. Measured: `words` and `figures` to read,
    `line_mm` on paper, `angle` of the first bearing asked from the nearest quarter of the circle
    (0 to 45 degrees), `size` of the first
    number asked, where that is no angle.
    """

    parts: int
    steps: int
    looked_up: int
    interpolated: int
    traps: int
    wraps: int
    turns: int
    carries: int
    midnights: int
    words: int
    figures: int
    line_mm: float
    angle: float
    size: float


COUNTED: tuple[str, ...] = (
    "parts",
    "steps",
    "looked_up",
    "interpolated",
    "traps",
    "wraps",
    "turns",
    "carries",
)
COUNTED += ("midnights",)
MEASURED = tuple(f.name for f in fields(Features) if f.name not in COUNTED)
IN_WORDS: Mapping[str, str] = {
    "parts": "parts asked",
    "steps": "steps",
    "looked_up": "read off paper or table",
    "interpolated": "read between two lines",
    "traps": "slips that can be made",
    "wraps": "sums over 000",
    "turns": "changes between east and west",
    "carries": "sums over the hour",
    "midnights": "sums over midnight",
    "words": "words to read",
    "figures": "figures to read",
    "line_mm": "line on paper, mm",
    "angle": "angle from a quarter, degrees",
    "size": "size of the answer",
}


def features(question: Question) -> Features:
    """Return the features of a question."""
    chain, values, steps = question.chain, question.values, question.steps
    times = [pair for step in steps for pair in _pairs(step, values)]
    text = _text(question)
    asked = [(chain.by_name[name].kind, values[name]) for name in question.asks]
    return Features(
        parts=len(question.asks),
        steps=len(steps),
        looked_up=sum(bool(step.read_off or step.errors) for step in steps),
        interpolated=sum(step.name in BETWEEN_LINES for step in steps),
        traps=sum(_can_be_made(slip.route, values) for step in steps for slip in step.slips),
        wraps=sum(
            abs(b - a) > 180
            for step in steps
            if isinstance(step.kind, Bearing)
            for a, b in _of_kind(chain, step, values, Bearing)
        ),
        turns=sum(
            a * b < 0
            for step in steps
            if isinstance(step.kind, EastWest)
            for a, b in _of_kind(chain, step, values, EastWest)
        ),
        carries=sum((a.minute - b.minute) * (b - a).total_seconds() > 0 for a, b in times),
        midnights=sum(a.date() != b.date() for a, b in times),
        words=len(text.split()),
        figures=len(_DIGIT.findall(text)),
        line_mm=_line_mm(question),
        angle=next((_from_quarter(v) for k, v in asked if isinstance(k, Bearing)), 0.0),
        size=next((abs(float(v)) for k, v in asked if isinstance(k, Number | Duration)), 0.0),
    )


def _pairs(step: Step, values: Mapping[str, Any]) -> Iterable[tuple[datetime, datetime]]:
    """Yield what a step takes and what it gives, where both are times."""
    if isinstance(values[step.name], datetime):
        yield from (
            (values[name], values[step.name])
            for name in step.needs
            if isinstance(values[name], datetime)
        )


def _of_kind(
    chain: Chain, step: Step, values: Mapping[str, Any], kind: type
) -> Iterable[tuple[float, float]]:
    """Yield what a step takes and what it gives, where both are of this kind of answer."""
    return (
        (values[name], values[step.name])
        for name in step.needs
        if isinstance(chain.kind(name), kind) and values[name] is not None
    )


def _can_be_made(route: Any, values: Mapping[str, Any]) -> bool:
    taken = {name: values[name] for name in needs(route)}
    return all(v is not None for v in taken.values()) and route(**taken) is not None


def _from_quarter(bearing: float) -> float:
    return abs((bearing + 45) % 90 - 45)


def _line_mm(question: Question) -> float:
    """Return the millimetres of the line or way on paper; 0 if there is none."""
    picture = question.picture
    if "length_mm" in question.givens:
        return float(question.givens["length_mm"])
    if not isinstance(picture, SheetWindow) or len(picture.spots) > MOST_ON_A_WAY:
        return 0.0
    places = [(spot.easting, spot.northing) for spot in picture.spots]
    return sum(math.dist(a, b) for a, b in pairwise(places)) * 1000 / picture.scale


def _text(question: Question) -> str:
    """Return all that is read: the question, what is asked, and its table."""
    texts, picture = [question.text, *question.prompts.values()], question.picture
    if isinstance(picture, Table):
        texts += [picture.caption, *picture.heads, *(cell for row in picture.rows for cell in row)]
    return " ".join(texts)


# Bands ------------------------------------------------------------------------------------------

SHARE = 0.8
"""Of a large draw, the share about the median that a measured feature may lie in."""
FLOORS: Mapping[str, float] = {"words": 6, "figures": 4, "line_mm": 12, "angle": 12, "size": 0}
"""What a band reaches to either side of the median at least: nobody finds so little harder."""


@dataclass(frozen=True)
class Bands:
    """Between which values (both allowed) each feature of a variant's question must lie."""

    limits: Mapping[str, tuple[float, float]]

    def hold(self, found: Features) -> bool:
        """Return whether all features lie within their bands."""
        return not self.outside(found)

    def outside(self, found: Features) -> tuple[str, ...]:
        """Return the names of the features that lie outside their bands."""
        return tuple(
            name
            for name, (low, high) in self.limits.items()
            if not low <= getattr(found, name) <= high
        )


def bands(draw: Sequence[Features]) -> Bands:
    """Return the bands that a large draw sets.

    What is counted stands at the combination met most often; of those, what is measured lies about
    the median, with `SHARE` of the draw between the limits, or a floor to either side.
    """
    counts = Counter(tuple(getattr(f, name) for name in COUNTED) for f in draw)
    usual = max(counts, key=lambda combination: (counts[combination], combination))
    alike = [f for f in draw if tuple(getattr(f, name) for name in COUNTED) == usual]
    limits: dict[str, tuple[float, float]] = {
        name: (value, value) for name, value in zip(COUNTED, usual, strict=True)
    }
    for name in MEASURED:
        values = sorted(float(getattr(f, name)) for f in alike)
        middle, cut = median(values), int(len(values) * (1 - SHARE) / 2)
        low, high = values[cut], values[-1 - cut]
        floor = FLOORS[name] if high else 0.0
        limits[name] = max(0.0, min(low, middle - floor)), max(high, middle + floor)
    return Bands(limits)
