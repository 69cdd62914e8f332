"""For the moderator: the bands that hold all variants to one difficulty, and each variant's features."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from navlib.chain.question import Question
from navlib.paper.choosing import measured
from navlib.paper.features import IN_WORDS, features
from navlib.paper.variants import Paper

SEPARATION = "nearest slips, in part bands"
"""How far apart the two likeliest to be mixed up lie; above 1, no slip passes for another."""


@dataclass(frozen=True)
class FeatureRow:
    """One feature of one question: its band, and the value in each paper, in their order."""

    number: int
    title: str
    feature: str
    low: float
    high: float
    values: tuple[float, ...]

    @property
    def held(self) -> bool:
        """Whether all values lie within the band."""
        return all(self.low <= value <= self.high for value in self.values)


def difficulty(papers: Sequence[Paper]) -> tuple[FeatureRow, ...]:
    """Return the features of all questions of a sitting's papers, with the bands that hold them."""
    rows: list[FeatureRow] = []
    for k, item in enumerate(papers[0].items if papers else ()):
        asked = [paper.items[k].question for paper in papers]
        found = [features(question) for question in asked]
        limits = measured(item.question.kind, papers[0].blueprint).bands.limits
        for name, (low, high) in limits.items():
            values = tuple(float(getattr(f, name)) for f in found)
            title = item.question.title
            rows.append(FeatureRow(item.number, title, IN_WORDS[name], low, high, values))
        apart = tuple(map(separation, asked))
        rows.append(FeatureRow(item.number, item.question.title, SEPARATION, 1.0, math.inf, apart))
    return tuple(rows)


def separation(question: Question) -> float:
    """Return how far apart the nearest two of key and slips lie in any part, in part bands."""
    before: dict[str, Any] = {}
    least = math.inf
    for asked in question.asks:
        least = min(least, question.chain.separation(question.givens, asked, before))
        before[asked] = question.values[asked]
    return least


def table(papers: Sequence[Paper]) -> tuple[tuple[str, ...], ...]:
    """Return `difficulty` as rows of text, heads first: question, feature, band, and each variant.

    What is alike in all variants and 0 is left out: nothing to moderate.
    """
    heads = ("Question", "Title", "Feature", "Band", *(f"{p.variant}" for p in papers))
    rows = [row for row in difficulty(papers) if row.high or any(row.values)]
    return (
        heads,
        *(
            (str(row.number), row.title, row.feature, _band(row), *map(_number, row.values))
            for row in rows
        ),
    )


def _band(row: FeatureRow) -> str:
    if row.low == row.high:
        return _number(row.low)
    if math.isinf(row.high):
        return f"above {_number(row.low)}"
    return f"{_number(row.low)} to {_number(row.high)}"


def _number(value: float) -> str:
    if math.isinf(value):
        return "–"
    return f"{value:.0f}" if abs(value) >= 100 or value == round(value) else f"{value:.1f}"
