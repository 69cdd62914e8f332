"""A lesson's front door: what a notebook calls, a line at a time."""

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from navlib import questions
from navlib.chain.question import Question
from navlib.desk import (
    Checkpoint,
    Exercise,
    Practice,
    asked,
    solution,
    worked_steps,
    written,
)
from navlib.pictures.drawn import answer_sheet
from navlib.record import Record
from navlib.widgets.card import Card
from navlib.widgets.steps import Steps

if TYPE_CHECKING:
    from navlib.sheets import Sheet


class Lesson:
    """The parts of one topic's lesson, for the learner whose record is on this machine."""

    def __init__(self, topic: str) -> None:
        self.topic = topic

    @cached_property
    def record(self) -> Record:
        """Return the learner's record, opened when it is first needed."""
        return Record()

    def exercise(self, number: int) -> Card:
        """Return the card of set exercise `number`, from 1."""
        question = self._question(number)
        desk = Exercise(self.topic, number, self.record)
        face = asked(question, f"Exercise {number}")
        return Card(desk, written(face), pictured=bool(face["picture"]))

    def practice(self) -> Card:
        """Return the card of endless practice with own numbers."""
        return Card(Practice(self.topic, self.record), words=f"Practice: {self.topic}")

    def checkpoint(self) -> Card:
        """Return the card of ten questions without help."""
        return Card(Checkpoint(self.topic, self.record), words=f"Checkpoint: {self.topic}")

    def worked(self, kind: str, seed: int) -> Steps:
        """Return a question of this kind and seed as a worked example, step by step."""
        question = questions.make(kind, seed)
        return Steps(worked_steps(question))

    def solution(self, number: int) -> "Solution":
        """Return the worked solution of set exercise `number`."""
        return Solution(solution(self._question(number), number))

    def drawing(self, number: int) -> "Sheet":
        """Return the sheet of set exercise `number` with its line drawn and its answer beside it."""
        return answer_sheet(self._question(number))

    def _question(self, number: int) -> Question:
        return questions.exercise(self.topic, number)


@dataclass(frozen=True)
class Solution:
    """A worked solution, shown as text by a notebook."""

    text: str

    def _repr_markdown_(self) -> str:
        return self.text
