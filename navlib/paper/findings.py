"""What a sitting says about its class, its paper, its questions and its variants."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from navlib.paper import analysis, sentences
from navlib.paper.analysis import Marks
from navlib.paper.equality import Variants
from navlib.paper.sentences import Finding


@dataclass(frozen=True)
class QuestionFindings:
    """What a sitting says about one question; `by_variant` holds the facility in each variant."""

    number: int
    out_of: float
    facility: Finding
    discrimination: Finding
    outer: tuple[float, float] | None
    variants: Finding
    by_variant: dict[int, float]
    slips: tuple[tuple[str, int], ...]

    @property
    def review(self) -> bool:
        """Whether somebody should look at the question before it is used again."""
        return self.facility.review or self.discrimination.review or self.variants.review


@dataclass(frozen=True)
class Findings:
    """What a sitting says: about the class, the paper, its questions and its variants.

    `coefficient` names the reliability: KR-20 or Cronbach's alpha.
    """

    spread: analysis.Spread | None
    middle: Finding
    coefficient: str
    reliability: Finding
    error: Finding
    variants: Finding
    by_variant: dict[int, tuple[int, float]]
    questions: tuple[QuestionFindings, ...]


def findings(
    marks: Marks,
    out_of: Sequence[float],
    variants: Sequence[int] = (),
    slips: Sequence[Sequence[Sequence[str]]] = (),
    numbers: Sequence[int] = (),
    pass_mark: float | None = None,
) -> Findings:
    """Return what a matrix of marks says, a row a candidate and a column a question.

    `out_of` are the marks that each question carries, `variants` the variant that each candidate
    sat, `slips` the names of the slips told for each candidate and question, `numbers` those of
    the questions on the paper. Raises ValueError if the sizes do not fit or a mark lies outside.
    """
    most = np.asarray(out_of, dtype=float)
    marks = np.asarray(marks, dtype=float).reshape(-1, len(most))
    _check(marks, most, variants, slips)
    shares = marks / most
    totals = marks.sum(axis=1)
    spread = analysis.spread(totals)
    whole = analysis.all_or_nothing(shares) and len(set(most)) <= 1
    steady = analysis.kr20(shares) if whole else analysis.alpha(marks)
    apart = Variants(marks, most, variants)
    parting = analysis.discrimination(marks)
    outer = analysis.outer_groups(marks, shares)
    ease = analysis.facility(shares)
    return Findings(
        spread,
        sentences.middle(spread, float(most.sum()), pass_mark, totals),
        "KR-20" if whole else "Cronbach’s alpha",
        sentences.reliability(steady, *marks.shape),
        sentences.error(steady, spread, pass_mark, totals),
        apart.paper(),
        apart.totals(),
        tuple(
            QuestionFindings(
                numbers[j] if numbers else j + 1,
                float(most[j]),
                sentences.facility(ease[j], len(marks)),
                sentences.discrimination(parting[j], outer[j], len(marks)),
                outer[j],
                apart.question(j),
                apart.facilities(j),
                slip_counts([row[j] for row in slips]),
            )
            for j in range(len(most))
        ),
    )


def slip_counts(told: Sequence[Sequence[str]]) -> tuple[tuple[str, int], ...]:
    """Return how many candidates made each slip in one question, most first."""
    counts = Counter(name for names in told for name in dict.fromkeys(names))
    return tuple(sorted(counts.items(), key=lambda pair: (-pair[1], pair[0])))


def _check(
    marks: Marks,
    most: Marks,
    variants: Sequence[int],
    slips: Sequence[Sequence[Sequence[str]]],
) -> None:
    for what, given in (("variants", variants), ("slips", slips)):
        if len(given) not in (0, len(marks)):
            raise ValueError(
                f"{len(given)} {what} for {len(marks)} candidates: give one for each, or none"
            )
    if (most <= 0).any() or not np.isfinite(marks).all():
        raise ValueError("marks must be numbers, and every question must carry some")
    if (marks < 0).any() or (marks > most + 1e-9).any():
        row, column = map(int, np.argwhere((marks < 0) | (marks > most + 1e-9))[0])
        raise ValueError(
            f"candidate {row + 1} has {marks[row, column]:g} marks in question {column + 1}, which "
            f"carries {most[column]:g}: give marks from 0 to {most[column]:g}"
        )
