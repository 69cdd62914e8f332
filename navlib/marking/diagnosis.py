"""Which slip was it? The chain is run with one slip, then two, to see which ends at the answer."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from navlib.chain.question import Question
from navlib.chain.step import Route, Slip
from navlib.language import say

# What a wrong answer is before it is looked at; the sum is 1. Common practice, to be tuned on
# learners.
ONE_SLIP, TWO_SLIPS, SOMETHING_ELSE = 0.5, 0.13, 0.37

SURE = 0.65
"""Share of belief from which one explanation is told as the one,"""
RIVAL = 0.15
"""unless another explanation has as much as this."""
EITHER = 0.85
"""Share of belief that two explanations must have between them to be told as “either … or …”."""


@dataclass(frozen=True)
class Diagnosis:
    """What explains a wrong answer: `ways` holds one way if it is sure, two if undecided, or none.

    Each way is the slips made on it. `belief` is the share that the ways told have among all
    explanations, “something else” being one of them.
    """

    ways: tuple[tuple[Slip, ...], ...] = ()
    belief: float = 0.0

    @property
    def sure(self) -> bool:
        """Whether one way explains it."""
        return len(self.ways) == 1

    @property
    def slips(self) -> tuple[str, ...]:
        """Names of the slips if the diagnosis is sure, else none."""
        return tuple(slip.name for slip in self.ways[0]) if self.sure else ()

    def says(self, written: Mapping[str, str]) -> str:
        """Return the sentence for the learner, with the question's own values put in."""
        told = [
            f" {say('And:')} ".join(say(slip.says, written) for slip in way) for way in self.ways
        ]
        if not told:
            return say(
                "I cannot see the route to this one. Show your lines to someone, or take a hint."
            )
        if self.sure:
            return told[0]
        return say("Either: {one} Or: {other}", {"one": told[0], "other": told[1]})


def diagnose(
    question: Question, asked: str, answer: Any, fixed: Mapping[str, Any] | None = None
) -> Diagnosis:
    """Return the likeliest explanation of a wrong `answer` to step `asked`.

    Each way with one or two slips ends at a value, scattered as the instruments scatter it. How
    well the answer sits there, times how common such slips are, is the belief in that way; it is
    held against all other ways and against “something else”, which may end anywhere (Bayes' rule).
    `fixed` holds the learner's earlier answers, from which this one is taken to follow.
    """
    chain, kind = question.chain, question.chain.by_name[asked].kind
    fixed = fixed or {}
    routes = list(chain.routes(question.givens, asked, fixed))
    if not routes:
        return Diagnosis()
    key = chain.run(question.givens, fixed=fixed)[asked]
    ends = [abs(kind.apart(route.value, key)) for route in routes]
    span = 2 * max(ends[0], *ends, 10 * kind.rounding)
    beliefs = _shares(routes, answer, span, kind.apart, kind.rounding)
    order = sorted(range(len(routes)), key=lambda i: -beliefs[i])
    ways = _merge([(routes[i], beliefs[i]) for i in order])
    rival = ways[1][1] if len(ways) > 1 else 0.0
    if ways[0][1] >= SURE and rival < RIVAL:
        return Diagnosis((ways[0][0],), ways[0][1])
    if rival and ways[0][1] + rival >= EITHER:
        return Diagnosis((ways[0][0], ways[1][0]), ways[0][1] + rival)
    return Diagnosis()


def _shares(
    routes: list[Route], answer: Any, span: float, apart: Any, rounding: float
) -> list[float]:
    """Return the share of belief in each route; what is missing from 1 is “something else”."""
    weights = [sum(r.weight for r in routes if len(r.slips) == count) or 1.0 for count in (1, 2)]
    scores = []
    for route in routes:
        prior = (ONE_SLIP, TWO_SLIPS)[len(route.slips) - 1]
        prior *= route.weight / weights[len(route.slips) - 1]
        scatter = math.hypot(route.sigma, rounding / 2)
        off = apart(answer, route.value) / scatter
        scores.append(prior * math.exp(-off * off / 2) / (scatter * math.sqrt(2 * math.pi)))
    total = sum(scores) + SOMETHING_ELSE / span
    return [score / total for score in scores]


def _merge(told: list[tuple[Route, float]]) -> list[tuple[tuple[Slip, ...], float]]:
    """Put together routes that name the same slips (a slip may stand at several steps)."""
    merged: dict[tuple[str, ...], tuple[tuple[Slip, ...], float]] = {}
    for route, belief in told:
        slips = tuple(slip for _, slip in route.slips)
        name = tuple(slip.name for slip in slips)
        slips, so_far = merged.get(name, (slips, 0.0))
        merged[name] = (slips, so_far + belief)
    return sorted(merged.values(), key=lambda way: -way[1])
