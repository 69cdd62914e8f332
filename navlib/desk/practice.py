"""Endless practice: own numbers each time, harder as it goes well."""

import random

from navlib import questions
from navlib.chain.question import Question
from navlib.desk.sitting import Sitting, new_seed
from navlib.record import Record
from navlib.record.progress import next_kind, standings


class Practice(Sitting):
    """Practice on one topic; the question on the desk stays until it is answered or passed over."""

    def __init__(self, topic: str, record: Record) -> None:
        super().__init__(record)
        self.place = f"{topic}/practice"
        self.levels = {kind: questions.question_type(kind).level for kind in questions.kinds(topic)}
        self._open(self._left_open() or self._drawn())

    @property
    def title(self) -> str:
        """Return the heading of the card."""
        return f"Practice: {self.question.title}"

    def onward(self) -> tuple[str, str]:
        """Return the button for the next question."""
        return ("next", "Next question" if self.over else "Another question")

    def do_next(self) -> None:
        """Lay the next question."""
        self._open(self._drawn())

    def standing(self) -> str:
        """Return how many questions were right, and how many kinds are sure."""
        stand = standings(self.record.attempts(self.place))
        tried, right = sum(s.tried for s in stand.values()), sum(s.right for s in stand.values())
        sure = sum(s.sure for s in stand.values())
        if not tried:
            return ""
        return f"{right} of {tried} right; {sure} of {len(self.levels)} kinds sure"

    def _open(self, question: Question) -> None:
        self.lay(question)
        self.record.remember(self.place, f"{question.kind} {question.seed}")

    def _drawn(self) -> Question:
        attempts, (last, _) = self.record.attempts(self.place), self._laid_last()
        kind = next_kind(self.levels, attempts, random.Random(new_seed()), last)
        return questions.make(kind, new_seed())

    def _left_open(self) -> Question | None:
        """Return the question that stood open when the learner stopped, if its kind still exists."""
        kind, seed = self._laid_last()
        return questions.make(kind, int(seed)) if kind in self.levels else None

    def _laid_last(self) -> tuple[str, str]:
        """Return kind and seed of the question laid last, answered or passed over."""
        kind, _, seed = (self.record.recall(self.place) or "").partition(" ")
        return kind, seed
