"""Why a row of a blueprint found no question: what is told to whoever set it."""

from collections import Counter

from navlib.chain.question import QuestionType
from navlib.paper.blueprint import Row


class Unfit(Exception):
    """What was drawn will not do, and why."""


class CannotFill(ValueError):
    """A row of a blueprint found no question: the message names the row and says what to change."""

    def __init__(self, message: str, number: int) -> None:
        super().__init__(message)
        self.number = number


def why(row: Row, asked: QuestionType, refused: Counter[str]) -> str:
    """Return what was wrong with all that was drawn, and what to change."""
    reasons = "; ".join(f"{count} had {why}" for why, count in refused.most_common(3))
    return (
        f"Question {row.number} ({asked.kind}) finds no more questions that differ: of "
        f"{refused.total()} drawn, {reasons}. Take more kinds, more days or a sheet that shows more."
    )
